package credit

import (
	"slices"
	"strings"
)

// Measures that are worked out; any other name is a log field of the claim that holds
// a number.
const (
	MeasureMinutes    = "minutes"      // contact time
	MeasureHours      = "hours"        // minutes ÷ 60
	MeasureCount      = "count"        // of items; 1 where none is stated
	MeasureDays       = "days"         // from start to end, both counted
	MeasureMonths     = "months"       // full months from start to end
	MeasureYears      = "years"        // months ÷ 12
	MeasureYearsByDay = "years_by_day" // full years, and the days left over the days of the year begun
	MeasureCreditsOf  = "credits."     // + unit: the document's own figure
	MeasureFact       = "fact."        // + name: what is known of the holder
	MeasureDate       = "date"         // of a case: the day of the claim; of a target the first day of the cycle
)

// Measures returns the names of the measures that are worked out.
func Measures() []string {
	return []string{MeasureMinutes, MeasureHours, MeasureCount, MeasureDays, MeasureMonths, MeasureYears, MeasureYearsByDay}
}

// IsSpan reports whether the measure name is worked out from the days of a claim.
func IsSpan(name string) bool {
	return slices.Contains([]string{MeasureDays, MeasureMonths, MeasureYears, MeasureYearsByDay}, name)
}

// Measure returns the number that name has for the claim, and false if it is not
// known. Spans are counted within the period in. A log field of the same name as a
// span stands instead of it.
func (c Claim) Measure(name string, in Period) (Amount, bool) {
	if unit, ok := strings.CutPrefix(name, MeasureCreditsOf); ok {
		return c.printed(unit)
	}
	field, stated := c.field(name)
	switch name {
	case MeasureMinutes, MeasureHours:
		return c.time(name, field, stated)
	case MeasureCount:
		if c.Count != nil {
			return Whole(*c.Count), true
		}
		return Whole(1), true
	}
	if !stated && IsSpan(name) {
		return c.span(name, in)
	}
	return field, stated
}

const monthsOfYear = 12

func (c Claim) field(name string) (Amount, bool) {
	text := c.Fields[name]
	if fact, ok := strings.CutPrefix(name, MeasureFact); ok {
		text = c.holder[fact]
	}
	a, err := ParseAmount(text)
	return a, err == nil
}

func (c Claim) time(name string, field Amount, stated bool) (Amount, bool) {
	sixty := Whole(60)
	if stated && name == MeasureHours {
		return field, true
	}
	if c.Minutes != nil {
		n := Whole(int64(*c.Minutes))
		if name == MeasureHours {
			n = n.Div(sixty)
		}
		return n, true
	}
	if stated {
		return field, true
	}
	if name == MeasureHours {
		n, ok := c.field(MeasureMinutes)
		return n.Div(sixty), ok
	}
	n, ok := c.field(MeasureHours)
	return n.Mul(sixty), ok
}

func (c Claim) printed(unit string) (Amount, bool) {
	var sum Amount
	found := false
	for _, p := range c.Credits {
		if sameUnit(p.Unit, unit) {
			sum, found = sum.Add(p.Value), true
		}
	}
	return sum, found
}

// within returns the days of the claim as far as they lie in the period, and false if
// one of them is not known.
func (c Claim) within(in Period) (start, end Date, ok bool) {
	start, end = c.Start, c.End
	if end.IsZero() {
		end = in.End
	}
	if start.IsZero() || end.IsZero() {
		return start, end, false
	}
	if start.Before(in.Start) {
		start = in.Start
	}
	if !in.End.IsZero() && end.After(in.End) {
		end = in.End
	}
	return start, end, true
}

func (c Claim) span(name string, in Period) (Amount, bool) {
	start, end, ok := c.within(in)
	if !ok {
		return Amount{}, false
	}
	if end.Before(start) {
		return Amount{}, true
	}
	after := end.AddDays(1)
	months := fullMonths(start, after)
	switch name {
	case MeasureDays:
		return Whole(int64(after.Sub(start))), true
	case MeasureMonths:
		return Whole(int64(months)), true
	case MeasureYears:
		return Fraction(int64(months), monthsOfYear), true
	}
	years := months / monthsOfYear
	from := start.AddYears(years)
	year := start.AddYears(years + 1).Sub(from)
	if year <= 0 {
		return Whole(int64(years)), true
	}
	return Whole(int64(years)).Add(Fraction(int64(after.Sub(from)), int64(year))), true
}

// fullMonths counts the months that are full from start to the day before after.
func fullMonths(start, after Date) int {
	ys, ms, _ := start.YMD()
	ya, ma, _ := after.YMD()
	n := (ya-ys)*12 + int(ma) - int(ms)
	if n > 0 && start.AddMonths(n).After(after) {
		n--
	}
	return n
}

// measures are what an award reads of the claim, with spans counted within in.
func (c Claim) measures(in Period) measures {
	return measures{
		number: func(name string) (Amount, bool) { return c.Measure(name, in) },
		text:   c.text,
		words:  func(name string, n Amount) string { return c.words(name, n, in) },
	}
}

func (c Claim) text(name string) string {
	switch name {
	case "provider":
		return c.Provider
	case "category":
		return c.Category
	case MeasureDate:
		if c.Fields[name] == "" {
			return c.Date().String()
		}
	}
	if fact, ok := strings.CutPrefix(name, MeasureFact); ok {
		return c.holder[fact]
	}
	return c.Fields[name]
}

// measures are what the formula of a target reads.
func (f Facts) measures() measures {
	return measures{
		number: func(name string) (Amount, bool) {
			if name == "quarters" && f[name] == "" {
				return f.quarters()
			}
			a, err := ParseAmount(f[strings.TrimPrefix(name, MeasureFact)])
			return a, err == nil
		},
		text:  func(name string) string { return f[strings.TrimPrefix(name, MeasureFact)] },
		words: func(name string, n Amount) string { return name + " " + fractionText(n) },
	}
}

// quarters counts the full calendar quarters between the facts issued and end.
func (f Facts) quarters() (Amount, bool) {
	issued, err := f.date("issued")
	if err != nil {
		return Amount{}, false
	}
	end, err := f.date("end")
	if err != nil {
		return Amount{}, false
	}
	n := 0
	y, m, _ := issued.YMD()
	from := Day(y, (m-1)/3*3+1, 1)
	if from.Before(issued) {
		from = from.AddMonths(3)
	}
	for !from.AddMonths(3).AddDays(-1).After(end) && n < 4*9999 {
		from, n = from.AddMonths(3), n+1
	}
	return Whole(int64(n)), true
}

// fieldOf maps a measure to the field of a paper that tells it.
func fieldsOf(measure string) []string {
	switch {
	case measure == MeasureMinutes || measure == MeasureHours:
		return []string{"duration_minutes"}
	case measure == MeasureCount || measure == "category" || strings.HasPrefix(measure, MeasureFact):
		return nil
	case measure == MeasureDate:
		return []string{"end_date"}
	case IsSpan(measure):
		return []string{"start_date", "end_date"}
	case strings.HasPrefix(measure, MeasureCreditsOf):
		return []string{"credits"}
	}
	return []string{measure}
}

// Needs returns the fields that the category's award and conditions read: names of
// fields of a paper, or log fields. A question on one of them matters.
func (c Category) Needs() []string {
	var names []string
	add := func(list ...string) {
		for _, n := range list {
			if !slices.Contains(names, n) {
				names = append(names, n)
			}
		}
	}
	if len(c.Stated) > 0 {
		add("credits")
	}
	c.Award.reads(func(name string, _ bool) { add(fieldsOf(name)...) })
	for _, a := range c.Asks {
		if a.Field != "" {
			add(fieldsOf(a.Field)...)
		}
	}
	if c.Repeat.By != "" {
		add(fieldsOf(c.Repeat.By)...)
	}
	return names
}

// Missing returns those of [Category.Needs] without which the award of this claim is
// not settled: none where the document's own figure wins, and none for a number that
// may be left out (a break that is taken off, a number of teachers).
func (c Category) Missing(claim Claim) []string {
	if _, _, ok := c.stated(claim); ok {
		return nil
	}
	var names []string
	in := Period{Start: claim.Start, End: claim.End}
	add := func(name string, must bool) {
		if !must || strings.HasPrefix(name, MeasureFact) { // a paper is not asked about its holder
			return
		}
		if _, ok := claim.Measure(name, in); ok || claim.text(name) != "" {
			return
		}
		for _, f := range fieldsOf(name) {
			missing := f != "start_date" && f != "end_date" || f == "start_date" && claim.Start.IsZero() || f == "end_date" && claim.End.IsZero()
			if missing && !slices.Contains(names, f) {
				names = append(names, f)
			}
		}
	}
	c.Award.reads(add)
	for _, a := range c.Asks {
		if a.Field != "" {
			add(a.Field, true)
		}
	}
	return names
}

// stated returns the credit by the document's own figure, with the words for it.
func (c Category) stated(claim Claim) (Amount, string, bool) {
	for _, s := range c.Stated {
		if n, ok := claim.printed(s.Unit); ok {
			got := n.Mul(s.Times)
			if s.Times.Equal(Whole(1)) {
				return got, "the document states " + fractionText(n) + " " + s.Unit, true
			}
			return got, "the document states " + fractionText(n) + " " + s.Unit + ", × " + fractionText(s.Times) + " = " + fractionText(got), true
		}
	}
	return Amount{}, "", false
}
