package scheme

import (
	"slices"
	"strings"
	"time"

	"evidencevault/credit"
)

// Format is the version of the language that [Parse] reads; a file says it as
// scheme = 1.
const Format = 1

// maxRules bounds how many categories, caps or minimums one file may have.
const maxRules = 10_000

// Parse reads a scheme file. The name is used in problems and as the file of every
// rule. If there is any problem the scheme is not to be used: it holds what could be
// read. [Check] looks further.
func Parse(name string, data []byte) (credit.Scheme, []Problem) {
	r := parse(name, data)
	return r.scheme, r.sorted()
}

// Check returns everything that [Parse] finds, and what a scheme may say and hardly
// can mean: a minimum above the cap over the same credit, a target that the caps do not
// allow, a category that nothing is proposed for, more carried on than a cycle asks.
func Check(name string, data []byte) []Problem {
	_, problems := ParseAndCheck(name, data)
	return problems
}

// ParseAndCheck reads the file once, for the scheme of [Parse] and the problems of [Check].
func ParseAndCheck(name string, data []byte) (credit.Scheme, []Problem) {
	r := parse(name, data)
	if len(r.list) == 0 {
		r.contradictions()
	}
	return r.scheme, r.sorted()
}

func parse(name string, data []byte) *reader {
	p := &problems{file: name}
	r := &reader{problems: p, places: map[string]position{}}
	root := readTree(p, data)
	switch {
	case root == nil:
	case len(root.keys) == 0 && len(p.list) == 0:
		p.add(position{1, 1}, "see docs/scheme.md, or begin from a scheme that ships", "the file says nothing")
	default:
		r.read(root)
		r.check()
	}
	return r
}

// reader turns the tables of a file into rules.
type reader struct {
	*problems
	scheme credit.Scheme
	places map[string]position // of things that checks speak of
	caps   []position
	least  []position
	groups []position // of exclusive

	lowestCaps map[string]credit.Amount // see lowest
}

func (r *reader) read(root *node) {
	f := r.fields(root, "the scheme")
	defer f.done()
	if n := f.value("scheme"); n == nil || n.kind != integer || n.text != "1" {
		r.add(f.place("scheme"), "write scheme = 1 at the top", "the file does not say which version of the language it is written in, or one that is not known here")
	}
	s := &r.scheme
	s.Origin = f.origin()
	s.ID, s.Unit = f.id("id"), f.must("unit", `what one credit is called, such as unit = "point"`)
	s.Version, s.Title, s.Body = f.text("version"), f.text("title"), f.text("body")
	if n := f.value("target"); n != nil {
		s.Target = r.target(n)
		s.Target.Source = s.Source
	}
	if n := f.sub("cycle"); n != nil {
		r.cycle(n)
	}
	if n := f.sub("category"); n != nil {
		r.categories(n)
	}
	for _, n := range f.tables("cap") {
		r.cap(n)
	}
	for _, n := range f.tables("minimum") {
		r.minimum(n)
	}
	for _, n := range f.tables("exclusive") {
		k := r.fields(n, "exclusive")
		s.Exclusive = append(s.Exclusive, credit.Exclusive{Origin: k.origin(), Minimums: k.texts("minimums")})
		r.groups = append(r.groups, n.position)
		k.done()
	}
	for _, n := range f.tables("deadline") {
		k := r.fields(n, "deadline")
		s.Deadlines = append(s.Deadlines, credit.DeadlineRule{Origin: k.origin(), What: k.must("what", `such as what = "hand in the form"`),
			From: k.must("from", "cycle_start, cycle_end, or a fact that holds a day"), Days: k.whole("days", -36600, 36600), Months: k.whole("months", -1200, 1200),
			YearEnd: k.flag("year_end"), Years: k.whole("years", 1, 100)})
		k.done()
	}
	if n := f.sub("instead"); n != nil {
		k := r.fields(n, "instead")
		s.Instead = credit.Instead{Origin: k.origin(), Facts: k.texts("facts")}
		k.done()
	}
	if n := f.sub("carry_over"); n != nil {
		r.carry(n)
	}
	if n := f.sub("proof"); n != nil {
		k := r.fields(n, "proof")
		s.Keeping = credit.Keeping{Origin: k.origin(), Years: k.whole("keep_years", 1, 100), Months: k.whole("keep_months", 1, 1200),
			From: credit.KeepFrom(k.text("keep_from")), AnswerDays: k.whole("answer_days", 1, 3660)}
		if s.Keeping.From != "" && !slices.Contains(credit.KeepFroms(), s.Keeping.From) {
			r.add(k.place("keep_from"), "want cycle_end, completion or year_end", "proof is kept from %q", shorten(string(s.Keeping.From)))
		}
		k.done()
	}
}

func (r *reader) target(n *node) credit.Target {
	r.places["target"] = n.position
	t := credit.Target{Origin: credit.Origin{File: r.file, Line: n.line}, Set: true}
	if n.kind == array {
		a := r.award(n, "target")
		t.Formula = &a
		return t
	}
	a, ok := r.number(n, "target")
	if ok && a.Sign() < 0 {
		r.add(n.position, "want 0 or more", "target is %s, below 0", a)
	}
	t.Amount = a
	return t
}

func (r *reader) cycle(n *node) {
	f := r.fields(n, "cycle")
	defer f.done()
	c := credit.CycleRule{Origin: f.origin()}
	if name := f.text("anchor"); name != "" {
		c.Anchor = credit.Anchor(name)
		known := false
		var names []string
		for _, a := range credit.Anchors() {
			known = known || a == c.Anchor
			names = append(names, string(a))
		}
		if !known {
			r.add(f.place("anchor"), "want one of "+strings.Join(names, ", "), "cycle has no anchor %q", shorten(name))
		}
	}
	years, months := f.whole("years", 1, 100), f.whole("months", 1, 1200)
	c.Months = 12*years + months
	if years > 0 && months > 0 {
		r.add(f.place("months"), "keep one of the two", "the cycle has a length in years and in months")
	}
	c.First = f.whole("first_months", 1, 1200)
	if c.Anchor == "" && c.Months > 0 {
		c.Anchor = credit.AnchorLength
	}
	if c.Months+c.First == 0 && c.Anchor != credit.AnchorDayAfter && c.Anchor != "" {
		r.add(n.position, "write years = 3, or months = 18", "the cycle has no length")
	}
	c.EndMonth, c.EndDay = time.Month(f.whole("end_month", 1, 12)), f.whole("end_day", 1, 31)
	if c.Anchor == credit.AnchorFixed && (c.EndMonth == 0 || c.EndDay == 0) {
		r.add(n.position, "write end_month = 6 and end_day = 30", "a cycle with a fixed end has no day on which it ends")
	} else if _, ok := credit.ValidDay(2024, int(c.EndMonth), c.EndDay); c.EndMonth > 0 && c.EndDay > 0 && !ok {
		r.add(f.place("end_day"), "want a day that the month has", "there is no day %d in month %d", c.EndDay, c.EndMonth)
	}
	c.AcceptFrom, c.From = f.whole("accept_months_before", 1, 1200), f.day("accept_from")
	c.GraceDays, c.ReportDays = f.whole("grace_days", 1, 3660), f.whole("report_days", 1, 3660)
	r.scheme.Cycle = c
}

func (r *reader) categories(n *node) {
	for i, id := range n.keys {
		at := n.places[id]
		if i >= maxRules {
			r.add(at, "", "there are %d categories, more than %d", len(n.keys), maxRules)
			return
		}
		v := n.values[id]
		if v.kind != table {
			r.add(at, "write [category."+id+"]", "category %q is %s", shorten(id), v.describe())
			continue
		}
		if r.goodID(id, at) {
			r.category(id, v)
		}
	}
}

func (r *reader) category(id string, n *node) {
	f := r.fields(n, "category "+id)
	defer f.done()
	r.places["category "+id] = n.position
	c := credit.Category{ID: id, Origin: f.origin(), Title: f.text("title"), Accepts: f.texts("accepts"), Choose: f.flag("choose"), Or: f.texts("or"),
		Proof: f.text("proof"), Signed: f.flag("signed"), Providers: f.texts("providers")}
	if v := f.value("award"); v != nil {
		c.Award = r.award(v, "award of "+id)
	}
	c.Stated = r.conversions(f)
	if f.values["award"] == nil && len(c.Stated) == 0 {
		r.add(n.position, `write award = [{ from = "hours" }]`, "category %s does not say what it earns", id)
	}
	for _, tag := range f.texts("asks_tags") {
		c.Asks = append(c.Asks, credit.Condition{Origin: r.line(f.place("asks_tags")), Tag: tag})
	}
	c.Asks = append(c.Asks, r.shares(f)...)
	if v := f.sub("repeat"); v != nil {
		c.Repeat = r.repeat(v, "repeat of "+id)
	}
	for _, names := range f.texts("log") {
		l := credit.LogField{Origin: r.line(f.place("log"))}
		for name := range strings.SplitSeq(names, "|") {
			l.Names = append(l.Names, strings.TrimSpace(name))
		}
		c.Log = append(c.Log, l)
	}
	c.Life = f.whole("lives_months", 1, 1200)
	if most, ok := f.amount("most"); ok {
		r.scheme.Caps = append(r.scheme.Caps, credit.Cap{Origin: credit.Origin{File: r.file, Line: f.place("most").line, Source: c.Source}, ID: id,
			Selection: credit.Selection{Categories: []string{id}}, Most: most})
		r.caps = append(r.caps, f.place("most"))
	}
	r.scheme.Categories = append(r.scheme.Categories, c)
}

func (r *reader) line(at position) credit.Origin { return credit.Origin{File: r.file, Line: at.line} }

// conversions reads stated = { CEU = "10", point = "1" }.
func (r *reader) conversions(f *fields) []credit.Conversion {
	n := f.sub("stated")
	if n == nil {
		return nil
	}
	var list []credit.Conversion
	for _, unit := range n.keys {
		v := n.values[unit]
		a, ok := r.number(v, "stated "+unit)
		if ok && a.Sign() < 0 {
			r.add(v.position, "want 0 or more", "stated %s is %s, below 0", unit, a)
		}
		list = append(list, credit.Conversion{Origin: r.line(v.position), Unit: unit, Times: a})
	}
	return list
}

// shares reads asks_least = { attended = "9/10" }.
func (r *reader) shares(f *fields) []credit.Condition {
	n := f.sub("asks_least")
	if n == nil {
		return nil
	}
	var list []credit.Condition
	for _, name := range n.keys {
		v := n.values[name]
		a, _ := r.number(v, "asks_least "+name)
		if !measureText.MatchString(name) {
			r.add(n.places[name], "small letters, digits and _", "%q is no name of a field", shorten(name))
		}
		list = append(list, credit.Condition{Origin: r.line(v.position), Field: name, AtLeast: a})
	}
	return list
}

func (r *reader) repeat(n *node, what string) credit.Repeat {
	f := r.fields(n, what)
	defer f.done()
	got := credit.Repeat{Origin: r.line(n.position), By: f.must("by", `the log field that tells one from the other, such as by = "course"`), Anew: f.text("anew"),
		Within: f.whole("within_years", 1, 100)}
	got.Across = f.flag("across_cycles") || got.Within > 0
	v := f.value("factors")
	if v == nil || v.kind != array || len(v.items) == 0 {
		r.add(f.place("factors"), `as in factors = ["1", "1/2", "0"]`, "%s has no list of factors", what)
		return got
	}
	for _, item := range v.items {
		a, ok := r.number(item, "a factor of "+what)
		if ok && a.Sign() < 0 {
			r.add(item.position, "want 0 or more", "a factor of %s is %s, below 0", what, a)
		}
		got.Factors = append(got.Factors, a)
	}
	return got
}
