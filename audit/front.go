package audit

import (
	"slices"
	"strconv"
	"strings"

	"evidencevault/credit"
)

// front is the page that a stranger reads first, in words, the same in every form.
type front struct {
	Kind      string // what this is
	Title     string
	Facts     []fact
	Sum       string       // heading
	Lead      []string     // what is counted
	Tables    []frontTable // by category; minimums
	Open      string       // heading
	Points    []point      // what an auditor would ask, kind by kind
	OpenNone  string       // of which kinds there is nothing
	Check     string       // heading
	Steps     []string
	Proves    []string
	Truth     string // heading
	TruthText string
	Place     string
	Signature string
}

// fact is one line of whose certification this is and what was asked.
type fact struct{ Name, Text, Code, Link string } // Code: a hash; Link: a file beside this one

// frontTable is a table of figures; the first column names its row.
type frontTable struct {
	Caption string
	Heads   []string
	Rows    [][]string
	Foot    []string
	Words   int // the last column holds words, not figures: 1
}

// point is one kind of exception.
type point struct {
	Heading string
	Items   []pointItem
}

type pointItem struct{ Claim, Text string }

// frontOf writes the first page of "index" or "binder".
func (d Dossier) frontOf(kind string) front {
	w := d.words()
	f := front{
		Kind: w.say(kind), Title: d.Title, Facts: d.facts(), Sum: w.say("sum"), Lead: d.lead(), Tables: d.tables(),
		Open: w.say("open"), Check: w.say("check"), Truth: w.say("truth"), TruthText: w.say("truth text"), Place: w.say("place and date"), Signature: w.say("signature", d.Holder),
		Proves: []string{w.say("proves"), w.say("proves not"), w.say("decides")},
	}
	f.Points, f.OpenNone = d.points()
	for _, key := range []string{"check 1", "check 2 " + kind, "check 3", "check 4 " + kind} {
		f.Steps = append(f.Steps, w.say(key))
	}
	return f
}

func (d Dossier) facts() []fact {
	w := d.words()
	list := []fact{{Name: w.say("holder"), Text: d.Holder}, {Name: w.say("number"), Text: d.Number}, {Name: w.say("body"), Text: d.Body}}
	if c := d.Statement.Cycle; !c.Start.IsZero() {
		list = append(list, fact{Name: w.say("cycle"), Text: w.span(c.Start, c.End)})
	}
	list = append(list, fact{Name: w.say("handed"), Text: d.asked()})
	if d.some() {
		list = append(list, fact{Name: w.say("of these"), Text: d.ofThese()})
	}
	rules := fact{Name: w.say("rules"), Text: w.say("rules text", d.Scheme.ID, d.Scheme.Version, d.Scheme.File), Code: d.Scheme.SHA256, Link: d.Scheme.Copy}
	if d.Scheme.Source != "" {
		rules.Text += w.say("rules source", d.Scheme.Source)
	}
	list = append(list, fact{Name: w.say("as of"), Text: w.day(d.On)}, rules)
	return slices.DeleteFunc(list, func(f fact) bool { return f.Text == "" })
}

// asked says in words which claims are handed over.
func (d Dossier) asked() string {
	a, w, text := d.Asked, d.words(), ""
	switch ids := strings.Join(a.Claims, " "); {
	case a.All:
		text = w.number("asked all", a.Of)
	case a.Seed != "":
		text = w.say("asked drawn", len(a.Claims), a.Of, a.Seed, ids)
	default:
		text = w.say("asked some", len(a.Claims), a.Of, ids)
	}
	if a.Letter != "" {
		day, _ := strings.CutPrefix(a.Letter, "audit letter of ")
		text += w.say("asked letter", w.value("", day))
	}
	if len(a.LeftOut) > 0 {
		text += w.say("asked left", strings.Join(a.LeftOut, " "))
	}
	if len(a.Without) > 0 {
		fields := make([]string, len(a.Without))
		for i, f := range a.Without {
			if fields[i] = w.field(f); f == "number" {
				fields[i] = w.say("number")
			}
		}
		text += w.say("asked without", strings.Join(fields, ", "))
	}
	return text
}

// ofThese says what the claims that are handed over come to, and the whole cycle.
func (d Dossier) ofThese() string {
	t, w := d.totals(), d.words()
	return w.say("handed sum", t.HandedOver.Claims, t.HandedOver.Counted, credit.Quantity(t.HandedOver.Awarded, t.Unit), t.WholeCycle.Claims, credit.Quantity(t.WholeCycle.Counted, t.Unit))
}

// lead says what is counted.
func (d Dossier) lead() []string {
	s, w := d.Statement, d.words()
	var list []string
	whole := ""
	if d.some() {
		t := d.totals()
		list = append(list, w.number("lead handed", t.HandedOver.Claims, t.HandedOver.Counted, credit.Quantity(t.HandedOver.Awarded, s.Unit)))
		whole = w.say("lead whole", d.Asked.Of) + " "
	}
	if !s.HasTarget {
		return append(list, whole+w.say("sum free", s.Counted, credit.Units(s.Counted, s.Unit)))
	}
	text := whole + w.say("sum target", s.Counted, s.Target, credit.Units(s.Target, s.Unit))
	switch {
	case s.Meets:
		text += " " + w.say("sum met")
	case s.Missing.Sign() > 0:
		text += " " + w.say("sum missing", credit.Quantity(s.Missing, s.Unit))
	default:
		text += " " + w.say("sum minimum")
	}
	return append(list, text)
}

// tables are the totals by category, and the minimums.
func (d Dossier) tables() []frontTable {
	list := []frontTable{d.categories()}
	s, w := d.Statement, d.words()
	if len(s.Minimums) == 0 {
		return list
	}
	t := frontTable{Caption: w.say("minimums"), Heads: []string{w.say("minimum"), w.say("wanted"), w.say("there"), w.say("met")}, Words: 1}
	for _, m := range s.Minimums {
		t.Rows = append(t.Rows, []string{m.ID, m.Want.String(), m.Have.String(), w.say(map[bool]string{true: "yes", false: "no"}[m.Met])})
	}
	return append(list, t)
}

func (d Dossier) categories() frontTable {
	t, w, some := d.totals(), d.words(), d.some()
	unit := credit.Units(credit.Whole(2), t.Unit)
	out := frontTable{Caption: w.say("by category", unit), Heads: []string{w.say("category"), w.say("claims"), w.say("awarded"), w.say("counted"), w.say("most")}, Words: 1}
	if some {
		out.Caption = w.say("by category some", unit)
		out.Heads = []string{w.say("category"), w.say("claims here"), w.say("awarded here"), w.say("counted here"), w.say("claims whole"), w.say("awarded whole"), w.say("counted whole"), w.say("most")}
	}
	figures := func(c CategoryAmount) []string {
		return []string{strconv.Itoa(c.Claims), c.Awarded.String(), c.Counted.String()}
	}
	here := map[string]CategoryAmount{}
	for _, c := range t.HandedOver.Categories {
		here[c.ID] = c
	}
	for _, c := range t.WholeCycle.Categories {
		row := []string{c.Title}
		if some {
			row = append(row, figures(here[c.ID])...)
		}
		most := w.say("no cap")
		if c.Cap != nil {
			most = c.Cap.String()
			if c.Cap.AtMost(c.Counted) {
				most = w.say("reached", most)
			}
		}
		out.Rows = append(out.Rows, append(append(row, figures(c)...), most))
	}
	out.Foot = []string{w.say("together")}
	if some {
		out.Foot = append(out.Foot, figures(CategoryAmount{Claims: t.HandedOver.Claims, Awarded: t.HandedOver.Awarded, Counted: t.HandedOver.Counted})...)
	}
	out.Foot = append(append(out.Foot, figures(CategoryAmount{Claims: t.WholeCycle.Claims, Awarded: t.WholeCycle.Awarded, Counted: t.WholeCycle.Counted})...), "")
	return out
}

// points groups what an auditor would ask by kind, and says of which there is nothing.
func (d Dossier) points() (list []point, none string) {
	w := d.words()
	if len(d.Claims) == 0 {
		return nil, w.say("open no claim")
	}
	byKind := map[string][]pointItem{ExceptLanguage: d.foreign()}
	for _, x := range d.exceptions() {
		kind := x.Kind
		if kind == ExceptLanguage {
			continue
		}
		if !slices.Contains(exceptKinds, kind) {
			kind = ""
		}
		byKind[kind] = append(byKind[kind], pointItem{x.Claim, d.exception(x)})
	}
	var missing []string
	for _, kind := range append(slices.Clone(exceptKinds), "") {
		items := byKind[kind]
		heading := w.say("kind " + kind)
		if kind == "" {
			heading = w.say("kind other")
		}
		switch {
		case len(items) > 0:
			list = append(list, point{Heading: heading, Items: items})
		case kind != "":
			missing = append(missing, heading)
		}
	}
	if len(missing) == 0 {
		return list, ""
	}
	return list, w.say("open none", strings.Join(missing, "; "))
}

// foreign lists the documents in another language than the index, one item for each
// language.
func (d Dossier) foreign() []pointItem {
	w := d.words()
	var tags []string
	byTag := map[string][]string{}
	for _, x := range d.translations() {
		tag := baseLanguage(x.Language)
		if !slices.Contains(tags, tag) {
			tags = append(tags, tag)
		}
		byTag[tag] = append(byTag[tag], w.say("x language", w.claimID(x.Claim), x.File))
	}
	slices.Sort(tags)
	var items []pointItem
	for _, tag := range tags {
		items = append(items, pointItem{Text: w.say("languages", w.language(tag), strings.Join(byTag[tag], "; "))})
	}
	return items
}
