package scheme

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"evidencevault/credit"
)

// fields reads the keys of one table. Every key that is asked for becomes known; done
// reports the others.
type fields struct {
	*problems
	*node
	what  string // the table, for messages
	known []string
}

func (p *problems) fields(n *node, what string) *fields {
	return &fields{problems: p, node: n, what: what}
}

// asks turns to the value of key, if it is there.
func (f *fields) value(key string) *node {
	f.known = append(f.known, key)
	return f.values[key]
}

// done reports every key that nothing asked for.
func (f *fields) done() {
	for _, k := range f.keys {
		if slices.Contains(f.known, k) {
			continue
		}
		f.add(f.places[k], unknownHint(k, f.known), "%s has no key %q", f.what, shorten(k))
	}
}

// place is where key stands, or where the table does.
func (f *fields) place(key string) position {
	if at, ok := f.places[key]; ok {
		return at
	}
	return f.position
}

func (f *fields) wrong(n *node, key, want string) {
	f.add(n.position, "want "+want, "%s of %s is %s", key, f.what, n.describe())
}

// text returns the text of key, "" if it is not there.
func (f *fields) text(key string) string {
	n := f.value(key)
	if n == nil {
		return ""
	}
	if n.kind != text {
		f.wrong(n, key, `a text in quotes`)
		return ""
	}
	f.clean(n)
	return n.text
}

// clean reports signs that do not show or that turn the line round.
func (f *fields) clean(n *node) {
	for _, c := range n.text {
		if c != '\n' && c != '\t' && !unicode.IsPrint(c) {
			f.add(n.position, "take it out", "the text holds a sign that does not show: %U", c)
			return
		}
	}
}

// must returns the text of key, and reports one that is missing.
func (f *fields) must(key, hint string) string {
	s := f.text(key)
	if n := f.values[key]; n == nil || n.kind == text && strings.TrimSpace(s) == "" {
		f.add(f.place(key), hint, "%s has no %s", f.what, key)
	}
	return s
}

var idText = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9 _.-]{0,63}$`)

const idHint = "letters a to z, digits, blank, and . _ - up to 64 of them"

// goodID reports an id that is not written in plain letters.
func (p *problems) goodID(id string, at position) bool {
	if !idText.MatchString(id) {
		p.add(at, idHint, "%q is no name for a rule", shorten(id))
		return false
	}
	return true
}

func (f *fields) id(key string) string {
	s := f.must(key, "give it a short name")
	if s != "" && !f.goodID(s, f.place(key)) {
		return ""
	}
	return s
}

// texts returns the list of texts of key; one text alone is a list of one.
func (f *fields) texts(key string) []string {
	n := f.value(key)
	if n == nil {
		return nil
	}
	items := n.items
	if n.kind != array {
		items = []*node{n}
	}
	var list []string
	for _, item := range items {
		if item.kind != text || item.text == "" {
			f.wrong(item, key, `a list of texts such as ["one", "two"]`)
			continue
		}
		f.clean(item)
		list = append(list, item.text)
	}
	return list
}

func (f *fields) flag(key string) bool {
	n := f.value(key)
	if n == nil {
		return false
	}
	if n.kind != boolean {
		f.wrong(n, key, "true or false")
	}
	return n.text == "true"
}

// whole returns a whole number from low to high; 0 if the key is not there.
func (f *fields) whole(key string, low, high int) int {
	n := f.value(key)
	if n == nil {
		return 0
	}
	v, err := strconv.Atoi(n.text)
	if n.kind != integer || err != nil || v < low || v > high {
		f.wrong(n, key, "a whole number from "+strconv.Itoa(low)+" to "+strconv.Itoa(high))
		return 0
	}
	return v
}

func (f *fields) day(key string) credit.Date {
	n := f.value(key)
	if n == nil {
		return credit.Date{}
	}
	d, err := credit.ParseDate(n.text)
	if n.kind != date && n.kind != text || err != nil {
		f.wrong(n, key, "a day of the calendar as YYYY-MM-DD")
	}
	return d
}

const amountHint = `an exact number of up to 40 digits such as "7.5" or "31/3"`

// number reads an exact number from a node, from the characters of the file.
func (p *problems) number(n *node, what string) (credit.Amount, bool) {
	if n.kind == text || n.kind == integer || n.kind == decimal {
		if a, err := credit.ParseAmount(n.text); err == nil {
			return a, true
		}
	}
	p.add(n.position, numberHint(n), "%s is %s", what, n.describe())
	return credit.Amount{}, false
}

// amount returns the number of key, which may not be below 0, and whether it is there.
func (f *fields) amount(key string) (credit.Amount, bool) {
	n := f.value(key)
	if n == nil {
		return credit.Amount{}, false
	}
	a, ok := f.number(n, key+" of "+f.what)
	if ok && a.Sign() < 0 {
		f.add(n.position, "want 0 or more", "%s of %s is %s, below 0", key, f.what, a)
		return credit.Amount{}, false
	}
	return a, ok
}

// tables returns the tables of a list [[key]].
func (f *fields) tables(key string) []*node {
	n := f.value(key)
	if n == nil {
		return nil
	}
	if n.kind == table {
		f.add(f.place(key), "write [["+key+"]] with two brackets", "%s is one table where a list of them is wanted", key)
		return nil
	}
	var list []*node
	for _, item := range n.items {
		if item.kind == table {
			list = append(list, item)
		} else {
			f.wrong(item, key, "a table")
		}
	}
	if n.kind != array {
		f.wrong(n, key, "tables written [["+key+"]]")
	}
	return list
}

// sub returns the table of key, or nil.
func (f *fields) sub(key string) *node {
	n := f.value(key)
	if n != nil && n.kind != table {
		f.wrong(n, key, tableHint(key))
		return nil
	}
	return n
}

// origin says where the table stands, with its source.
func (f *fields) origin() credit.Origin {
	return credit.Origin{File: f.file, Line: f.line, Source: f.text("source")}
}
