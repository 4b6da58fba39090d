package scheme

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"evidencevault/credit"
)

// Possible is the file of what could still be done, possible.toml; docs/plan.md
// describes it.
type Possible struct {
	Activities []credit.Possible
	Budget     credit.Budget

	file   string
	places []position // of the categories
}

// Bounds of a file of possible activities.
const (
	maxActivities = 2_000
	maxTimes      = 1_000
	maxHours      = 100_000
)

var currencyText = regexp.MustCompile(`^[A-Z]{3}$`)

// ParsePossible reads a file of possible activities. The name is used in problems and
// as the file of every activity. If there is any problem the result is not to be used.
func ParsePossible(name string, data []byte) (Possible, []Problem) {
	p := &problems{file: name}
	got := Possible{file: name}
	root := readTree(p, data)
	if root == nil {
		return got, p.sorted()
	}
	f := p.fields(root, "the file of possible activities")
	if n := f.value("possible"); n == nil || n.kind != integer || n.text != "1" {
		p.add(f.place("possible"), "write possible = 1 at the top", "the file does not say that it is a list of possible activities of version 1")
	}
	got.Budget.HoursPerWeek, _ = f.amount("hours_per_week")
	if n := f.sub("rates"); n != nil {
		p.rates(n, &got.Budget)
	}
	if n := f.sub("reexamination"); n != nil {
		got.Budget.Again = p.again(n)
	}
	list := f.tables("activity")
	if len(list) > maxActivities {
		p.add(list[maxActivities].position, "take out what will not be done", "there are %d activities, more than %d", len(list), maxActivities)
		list = list[:maxActivities]
	}
	for _, n := range list {
		got.Activities = append(got.Activities, p.activity(n))
		at := n.position
		if v := n.values["category"]; v != nil {
			at = v.position
		}
		got.places = append(got.places, at)
	}
	f.done()
	return got, p.sorted()
}

// Unknown returns a problem for each activity in a category that is none of known.
func (f Possible) Unknown(known []string) []Problem {
	p := &problems{file: f.file}
	for i, a := range f.Activities {
		if slices.Contains(known, a.Category) {
			continue
		}
		hint := "want one of those of the scheme"
		if near := nearest(a.Category, known); near != "" {
			hint = "did you mean " + near + "?"
		}
		p.add(f.places[i], hint, "activity %q: the scheme has no category %q", shorten(a.Title), shorten(a.Category))
	}
	return p.sorted()
}

func (p *problems) rates(n *node, b *credit.Budget) {
	f := p.fields(n, "rates")
	b.Base = f.currency("base")
	if b.Base == "" && n.values["base"] == nil {
		p.add(n.position, `the currency in which the others are told: base = "EUR"`, "rates have no base")
	}
	b.Rates = map[string]credit.Amount{}
	for _, key := range n.keys {
		if key == "base" {
			continue
		}
		if !currencyText.MatchString(key) {
			p.add(n.places[key], `three capital letters, as in GBP = "1.15"`, "%q is no currency", shorten(key))
			continue
		}
		a, ok := f.amount(key)
		if ok && a.Sign() == 0 {
			p.add(n.values[key].position, "want what one "+key+" is worth", "the rate of %s is 0", key)
		}
		b.Rates[key] = a
	}
}

// currency returns the currency of key, "" if it is not there or none.
func (f *fields) currency(key string) string {
	s := f.text(key)
	if s != "" && !currencyText.MatchString(s) {
		f.add(f.values[key].position, `three capital letters, as in "EUR"`, "%s of %s is %q, which is no currency", key, f.what, shorten(s))
		return ""
	}
	return s
}

func (p *problems) again(n *node) *credit.Again {
	f := p.fields(n, "reexamination")
	defer f.done()
	a := &credit.Again{Title: f.text("title"), Member: f.flag("member"), Source: f.text("source"), Currency: f.currency("currency")}
	fee, ok := f.amount("fee")
	if a.Fee = fee; !ok && n.values["fee"] == nil {
		p.add(n.position, `as in fee = "480"`, "reexamination has no fee")
	}
	if m, ok := f.amount("fee_members"); ok {
		a.MemberFee = &m
	}
	if h, ok := f.amount("hours"); ok {
		a.Hours = &h
	}
	if a.Currency == "" && n.values["currency"] == nil {
		p.add(n.position, `as in currency = "EUR"`, "reexamination has no currency")
	}
	return a
}

func (p *problems) activity(n *node) credit.Possible {
	f := p.fields(n, "an activity")
	defer f.done()
	a := credit.Possible{Origin: credit.Origin{File: p.file, Line: n.line}, Title: f.must("title", "give it a name")}
	if a.Title != "" {
		f.what = "activity " + shorten(a.Title)
	}
	a.Category = f.must("category", "name a category of the scheme")
	a.Provider, a.Tags, a.Rate = f.text("provider"), f.texts("tags"), f.flag("any_hours")
	a.Hours, a.Extra = f.hours("hours"), f.hours("extra_hours")
	a.Credits = f.printed("credits")
	if f.value("count") != nil {
		count := int64(f.whole("count", 1, maxCount))
		a.Count = &count
	}
	var costs bool
	a.Cost, costs = f.amount("cost")
	if a.Currency = f.currency("currency"); costs && a.Cost.Sign() > 0 && n.values["currency"] == nil {
		p.add(n.values["cost"].position, `add currency = "EUR"`, "cost of %s has no currency", f.what)
	}
	f.when(&a)
	if v := f.sub("fields"); v != nil {
		a.Fields = map[string]string{}
		for _, key := range v.keys {
			if k := v.values[key].kind; k != text && k != integer && k != decimal && k != date {
				f.wrong(v.values[key], key, "a text")
			}
			a.Fields[key] = v.values[key].text
		}
	}
	f.chosen(&a)
	if a.Rate && a.Extra.Sign() > 0 {
		p.add(f.place("extra_hours"), "take it out", "%s may take any number of hours, so it has no travel of its own", f.what)
	}
	return a
}

func (f *fields) hours(key string) credit.Amount {
	a, ok := f.amount(key)
	if ok && a.Cmp(credit.Whole(maxHours)) > 0 {
		f.add(f.values[key].position, "want hours", "%s of %s is more than %d", key, f.what, maxHours)
	}
	return a
}

// when reads the days on which an activity is offered, and how often it can be done.
func (f *fields) when(a *credit.Possible) {
	a.Dates = f.days("dates")
	a.From, a.Until = f.day("from"), f.day("until")
	a.Times = f.whole("times", 1, maxTimes)
	switch {
	case len(a.Dates) > 0 && (f.values["from"] != nil || f.values["until"] != nil):
		f.add(f.place("dates"), "keep dates, or from and until", "%s is on fixed days and in a span of time", f.what)
	case !a.From.IsZero() && !a.Until.IsZero() && a.Until.Before(a.From):
		f.add(f.place("until"), "exchange the two", "%s ends on %v, before it begins on %v", f.what, a.Until, a.From)
	case a.Rate && len(a.Dates) > 0:
		f.add(f.place("dates"), "use from and until", "%s may take any number of hours, so it is on no fixed days", f.what)
	case a.Rate && a.Times > 0:
		f.add(f.place("times"), "take it out; hours says how many at most", "%s may take any number of hours", f.what)
	}
}

// days returns the days of the list key, each once, in order; one day alone is a list of one.
func (f *fields) days(key string) []credit.Date {
	n := f.value(key)
	if n == nil {
		return nil
	}
	items := n.items
	if n.kind != array {
		items = []*node{n}
	}
	var list []credit.Date
	for _, item := range items {
		d, err := credit.ParseDate(item.text)
		if item.kind != date && item.kind != text || err != nil {
			f.wrong(item, key, "a day of the calendar as YYYY-MM-DD")
			continue
		}
		list = append(list, d)
	}
	slices.SortFunc(list, credit.Date.Compare)
	return slices.Compact(list)
}

// printed reads credits = { CEU = "1.5" }.
func (f *fields) printed(key string) []credit.Credit {
	n := f.sub(key)
	if n == nil {
		return nil
	}
	var list []credit.Credit
	for _, unit := range n.keys {
		a, ok := f.number(n.values[unit], key+" "+unit+" of "+f.what)
		if ok && a.Sign() < 0 {
			f.add(n.values[unit].position, "want 0 or more", "%s %s of %s is %s, below 0", key, shorten(unit), f.what, a)
		}
		list = append(list, credit.Credit{Unit: unit, Value: a})
	}
	return list
}

// chosen reads what is settled on: how often, or how many hours, and since when.
func (f *fields) chosen(a *credit.Possible) {
	n, ok := f.amount("chosen")
	a.Chosen, a.Since = n, f.day("since")
	if ok && !a.Rate && !n.Down(credit.Whole(1)).Equal(n) {
		f.add(f.values["chosen"].position, "want how often", "chosen of %s is %s, which is no whole number", f.what, n)
	}
}

// ParseActivity reads one activity from a text of keys and values, the keys of the
// file: "title=Course; category=course; hours=6; cost=120; currency=EUR". Lists are parted
// by commas; a cost may name its currency ("120 EUR"). The error says what is wrong.
func ParseActivity(line string) (credit.Possible, error) {
	var b strings.Builder
	b.WriteString("possible = 1\n[[activity]]\n")
	for part := range strings.SplitSeq(line, ";") {
		key, value, ok := strings.Cut(part, "=")
		key, value = strings.TrimSpace(key), strings.TrimSpace(value)
		if strings.TrimSpace(part) == "" {
			continue
		}
		if !ok || !measureText.MatchString(key) {
			return credit.Possible{}, fmt.Errorf("%q is no key with a value; write it as title=Course; category=course; hours=6", strings.TrimSpace(part))
		}
		b.WriteString(activityLine(key, value))
	}
	got, bad := ParsePossible("", []byte(b.String()))
	if len(bad) > 0 {
		text := bad[0].Text
		if bad[0].Hint != "" {
			text += " (" + bad[0].Hint + ")"
		}
		return credit.Possible{}, errors.New(text)
	}
	return got.Activities[0], nil
}

// activityLine writes one key of an activity as the file has it.
func activityLine(key, value string) string {
	switch key {
	case "times", "count", "any_hours":
		if value == "yes" {
			value = "true"
		}
		return key + " = " + value + "\n"
	case "tags", "dates":
		parts := strings.Split(value, ",")
		for i := range parts {
			parts[i] = tomlText(strings.TrimSpace(parts[i]))
		}
		return key + " = [" + strings.Join(parts, ", ") + "]\n"
	case "credits":
		amount, unit, _ := strings.Cut(value, " ")
		return key + " = { " + tomlText(strings.TrimSpace(unit)) + " = " + tomlText(amount) + " }\n"
	case "cost":
		if amount, currency, ok := strings.Cut(value, " "); ok {
			return "cost = " + tomlText(amount) + "\ncurrency = " + tomlText(strings.TrimSpace(currency)) + "\n"
		}
	}
	return key + " = " + tomlText(value) + "\n"
}

// tomlText is a text in quotes.
func tomlText(s string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", `\n`, "\t", `\t`, "\r", `\r`).Replace(s) + `"`
}
