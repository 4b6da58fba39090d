package scheme

import (
	"regexp"
	"slices"
	"strings"

	"evidencevault/credit"
)

var measureText = regexp.MustCompile(`^[a-z][a-z0-9_]{0,63}$|^credits\.[^\x00-\x1f]{1,64}$|^fact\.[a-z][a-z0-9_]{0,63}$`)

// award reads a pipeline: a number alone, or a list of steps of which the first gives
// the figure to begin with.
func (p *problems) award(n *node, what string) credit.Award {
	if n.kind != array {
		if _, err := credit.ParseAmount(n.text); n.kind != decimal && n.kind != integer && (n.kind != text || err != nil) {
			p.add(n.position, awardHint(n), "%s is %s", what, n.describe())
			return credit.Award{Line: n.line, Flat: new(credit.Amount)}
		}
		a, ok := p.number(n, what)
		if ok && a.Sign() < 0 {
			p.add(n.position, "want 0 or more", "%s is %s, below 0", what, a)
		}
		return credit.Award{Line: n.line, Flat: &a}
	}
	if len(n.items) == 0 {
		p.add(n.position, `begin with a figure such as { from = "hours" }`, "%s is an empty list", what)
		return credit.Award{Flat: new(credit.Amount)}
	}
	got := p.base(n.items[0], what)
	for _, item := range n.items[1:] {
		if s, ok := p.step(item, what); ok {
			got.Steps = append(got.Steps, s)
		}
	}
	return got
}

var baseKeys = []string{"from", "flat", "sum", "case"}

// base reads the figure with which a pipeline begins.
func (p *problems) base(n *node, what string) credit.Award {
	got := credit.Award{Line: n.line}
	if n.kind != table {
		p.add(n.position, `begin with a figure such as { from = "hours" }`, "%s begins with %s", what, n.describe())
		return got
	}
	f := p.fields(n, what)
	defer f.done()
	switch {
	case f.values["from"] != nil:
		got.From = f.measure("from")
	case f.values["flat"] != nil:
		a, _ := f.amount("flat")
		got.Flat = &a
	case f.values["sum"] != nil:
		got.Sum = f.parts()
	case f.values["case"] != nil:
		got.Case = f.measure("case")
		got.Of = f.cases()
	default:
		f.known = append(f.known, n.keys...)
		p.add(n.position, `begin with a figure such as { from = "hours" }`, "%s begins with none of %s", what, strings.Join(baseKeys, ", "))
	}
	return got
}

func (f *fields) measure(key string) string {
	n := f.value(key)
	if n.kind != text || !measureText.MatchString(n.text) {
		f.wrong(n, key, "a measure such as "+strings.Join(credit.Measures(), ", ")+", credits.UNIT, or the name of a log field")
		return ""
	}
	return n.text
}

func (f *fields) parts() []credit.Award {
	n := f.value("sum")
	if n.kind != array || len(n.items) == 0 {
		f.wrong(n, "sum", `a list of pipelines such as [[{ from = "minutes" }], [{ from = "questions" }]]`)
		return nil
	}
	var list []credit.Award
	for _, item := range n.items {
		list = append(list, f.award(item, "a part of the sum of "+f.what))
	}
	return list
}

// overlap reports whether two cases that are told by days share one.
func overlap(a, b credit.Case) bool {
	dated := func(c credit.Case) bool { return !c.From.IsZero() || !c.Until.IsZero() }
	if !dated(a) || !dated(b) {
		return false
	}
	return together(a.From, a.Until, b.From, b.Until)
}

func (f *fields) cases() []credit.Case {
	n := f.value("of")
	if n == nil || n.kind != array || len(n.items) == 0 {
		f.add(f.place("of"), `as in of = [{ is = ["a"], then = "2" }]`, "the case of %s has no list of", f.what)
		return nil
	}
	var list []credit.Case
	for i, item := range n.items {
		if item.kind != table {
			f.wrong(item, "of", `tables such as { is = ["a"], then = "2" }`)
			continue
		}
		k := f.fields(item, "a case of "+f.what)
		c := credit.Case{Is: k.texts("is"), From: k.day("from"), Until: k.day("until")}
		if !c.From.IsZero() && !c.Until.IsZero() && c.Until.Before(c.From) {
			f.add(k.place("until"), "exchange the two", "a case of %s holds from %v until %v, which is never", f.what, c.From, c.Until)
		}
		if len(c.Is) > 0 && (!c.From.IsZero() || !c.Until.IsZero()) {
			f.add(item.position, "keep is, or from and until", "a case of %s asks for a text and for a day", f.what)
		}
		for _, before := range list {
			if overlap(before, c) {
				f.add(item.position, "let one begin the day after the other ends", "two versions of %s hold on the same days", f.what)
				break
			}
		}
		if c.Always() && i < len(n.items)-1 {
			f.add(item.position, "a case without is holds for all, so put it last", "the cases behind this one are never reached")
		}
		if then := k.value("then"); then != nil {
			c.Then = f.award(then, "a case of "+f.what)
		} else {
			f.add(item.position, "", "a case of %s has no then", f.what)
		}
		k.done()
		list = append(list, c)
	}
	return list
}

// step reads one step, a table with one key.
func (p *problems) step(n *node, what string) (credit.Step, bool) {
	ops := credit.Ops()
	if n.kind != table || len(n.keys) != 1 {
		p.add(n.position, `as in { down = "1/4" }`, "a step of %s is %s with not one key", what, n.kind)
		return credit.Step{}, false
	}
	key := n.keys[0]
	s := credit.Step{Line: n.line, Op: credit.Op(key)}
	if !slices.Contains(ops, s.Op) {
		var names []string
		for _, o := range ops {
			names = append(names, string(o))
		}
		hint := unknownHint(key, names)
		if slices.Contains(baseKeys, key) {
			hint = "it can only stand first"
		}
		p.add(n.places[key], hint, "%s has no step %q", what, shorten(key))
		return s, false
	}
	v := n.values[key]
	switch s.Op {
	case credit.OpBands:
		s.Rows = p.bands(v, what)
		return s, len(s.Rows) > 0
	case credit.OpAtMostTimes:
		return p.atMostTimes(s, v, what)
	}
	var ok bool
	s.By, ok = p.operand(v, key+" of "+what, s.Op)
	return s, ok
}

func (p *problems) atMostTimes(s credit.Step, v *node, what string) (credit.Step, bool) {
	if v.kind != table {
		p.add(v.position, `as in { at_most_times = { of = "hours", by = "2" } }`, "at_most_times of %s is %s", what, v.describe())
		return s, false
	}
	f := p.fields(v, "at_most_times of "+what)
	defer f.done()
	if f.values["of"] == nil || f.values["by"] == nil {
		f.known = append(f.known, "of", "by")
		p.add(v.position, `as in { at_most_times = { of = "hours", by = "2" } }`, "at_most_times of %s wants of and by", what)
		return s, false
	}
	s.Of = f.measure("of")
	var ok bool
	s.By, ok = p.operand(f.value("by"), "by of "+what, s.Op)
	return s, ok
}

// operand reads a number, or the name of a field that holds one.
func (p *problems) operand(n *node, what string, op credit.Op) (credit.Operand, bool) {
	if n.kind == text && measureText.MatchString(n.text) {
		if op == credit.OpDown || op == credit.OpUp || op == credit.OpNearest {
			p.add(n.position, "want "+amountHint, "%s is a field: a step of rounding must be a number", what)
			return credit.Operand{}, false
		}
		return credit.Operand{Field: n.text}, true
	}
	a, ok := p.number(n, what)
	if !ok {
		return credit.Operand{}, false
	}
	positive := op == credit.OpDivide || op == credit.OpDown || op == credit.OpUp || op == credit.OpNearest
	switch {
	case positive && a.Sign() <= 0:
		p.add(n.position, "want a number above 0", "%s is %s", what, a)
		return credit.Operand{}, false
	case a.Sign() < 0:
		p.add(n.position, "want 0 or more", "%s is %s, below 0", what, a)
		return credit.Operand{}, false
	}
	return credit.Operand{Amount: a}, true
}

func (p *problems) bands(n *node, what string) []credit.Band {
	const hint = `rising rows such as [["0", "0"], ["30", "1/2"], ["50", "1"]]`
	if n.kind != array || len(n.items) == 0 {
		p.add(n.position, "want "+hint, "bands of %s is %s", what, n.describe())
		return nil
	}
	var rows []credit.Band
	for _, item := range n.items {
		if item.kind != array || len(item.items) != 2 {
			p.add(item.position, "want "+hint, "a row of bands of %s has not two numbers", what)
			continue
		}
		from, ok1 := p.number(item.items[0], "a row of bands of "+what)
		amount, ok2 := p.number(item.items[1], "a row of bands of "+what)
		if !ok1 || !ok2 {
			continue
		}
		if amount.Sign() < 0 {
			p.add(item.position, "want 0 or more", "a row of bands of %s gives %s, below 0", what, amount)
		}
		if len(rows) > 0 && from.AtMost(rows[len(rows)-1].From) {
			p.add(item.position, "want "+hint, "the rows of bands of %s do not rise", what)
		}
		rows = append(rows, credit.Band{From: from, Amount: amount})
	}
	return rows
}
