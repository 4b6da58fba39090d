package scheme_test

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"hash/crc32"
	"maps"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"evidencevault/credit"
	"evidencevault/credit/scheme"
)

// workedFile holds the examples that are tried; WORKED names another file of the same
// notation.
const workedFile = "../../testdata/worked/examples.jsonl"

// ownFile holds lines of the forms that the examples do not use, worked out by hand.
const ownFile = "../../testdata/worked/own.jsonl"

// formsFile holds lines of every form of the notation in the combinations that rule books
// have: worked out by hand, and again by a checker that was written from the notation alone.
const formsFile = "testdata/forms.jsonl"

// unsupportedFile lists lines whose notation the language cannot say yet, each with the
// construct that is missing.
const unsupportedFile = "../../testdata/worked/unsupported.txt"

type object = map[string]any

type example struct {
	ID        string
	Published bool
	Rules     object
	Claims    []object
	Expect    object
}

// TestWorkedExamples turns each line into a scheme file and a claims file, reads and
// calculates them as calc does, and compares every expected value exactly. A line that
// is listed as not supported must fail: else it is to be taken off the list.
func TestWorkedExamples(t *testing.T) {
	examples, listed := slices.Concat(readExamples(t, workedFile), readExamples(t, ownFile), readExamples(t, formsFile)), readUnsupported(t)
	if f := os.Getenv("WORKED"); f != "" {
		examples, listed = readExamples(t, f), nil
	}
	published, passed := 0, 0
	for _, e := range examples {
		t.Run(e.ID, func(t *testing.T) {
			wrong := e.try()
			if missing, ok := listed[e.ID]; ok {
				if len(wrong) == 0 {
					t.Fatalf("passes, though it is listed as missing %s: take it off %s", missing, unsupportedFile)
				}
				return
			}
			for _, w := range wrong {
				t.Error(w)
			}
			if len(wrong) == 0 {
				passed++
				if e.Published {
					published++
				}
			}
		})
	}
	t.Logf("%d lines give every expected value, %d of them published", passed, published)
	if os.Getenv("WORKED") == "" && (passed < 250 || published < 25) {
		t.Errorf("only %d lines pass, %d of them published", passed, published)
	}
}

func readExamples(t *testing.T, name string) []example {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	var list []example
	for line := range bytes.Lines(data) {
		if len(bytes.TrimSpace(line)) == 0 {
			continue
		}
		d := json.NewDecoder(bytes.NewReader(line))
		d.UseNumber()
		var e example
		if err := d.Decode(&e); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		list = append(list, e)
	}
	if len(list) == 0 {
		t.Fatalf("%s: no examples", name)
	}
	return list
}

func readUnsupported(t *testing.T) map[string]string {
	t.Helper()
	f, err := os.Open(unsupportedFile)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	list := map[string]string{}
	for s := bufio.NewScanner(f); s.Scan(); {
		id, missing, ok := strings.Cut(s.Text(), ":")
		if ok && !strings.HasPrefix(id, "#") {
			list[id] = strings.TrimSpace(missing)
		}
	}
	return list
}

// try returns what differs from what is expected.
func (e example) try() []string {
	w := &turner{example: e, facts: object{}}
	schemeText, claimsText := w.scheme(), w.claimsFile()
	if len(w.unknown) > 0 {
		return w.unknown
	}
	s, bad := scheme.Parse("worked.toml", []byte(schemeText))
	if len(bad) > 0 {
		return []string{fmt.Sprintf("%v in\n%s", bad, schemeText)}
	}
	in, bad := scheme.ParseClaims("claims.json", []byte(claimsText))
	if len(bad) > 0 {
		return []string{fmt.Sprintf("%v in\n%s", bad, claimsText)}
	}
	st, err := credit.Calculate(s, in)
	if err != nil {
		return []string{err.Error()}
	}
	wrong := w.compare(st)
	if len(wrong) > 0 {
		wrong = append(wrong, schemeText, claimsText, strings.Join(st.ExplainAll(), "\n"))
	}
	return wrong
}

// turner turns one example into the two files.
type turner struct {
	example
	facts   object
	unknown []string // of the notation
	out     strings.Builder
}

func (w *turner) fail(format string, args ...any) {
	w.unknown = append(w.unknown, fmt.Sprintf(format, args...))
}

func (w *turner) line(format string, args ...any) { fmt.Fprintf(&w.out, format+"\n", args...) }

// only reports keys of the notation that nothing here turns.
func (w *turner) only(what string, o object, known ...string) {
	for _, k := range slices.Sorted(maps.Keys(o)) {
		if !slices.Contains(known, k) {
			w.fail("%s has %q, which is not turned", what, k)
		}
	}
}

func str(v any) string { return fmt.Sprint(v) }

// named writes a name of the notation as the language takes one: any character that it
// does not take stands as its number.
func named(v any) any {
	if list, ok := v.([]any); ok {
		out := make([]any, len(list))
		for i, item := range list {
			out[i] = named(item)
		}
		return out
	}
	if v == nil {
		return nil
	}
	var b strings.Builder
	for i, r := range str(v) {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9', i > 0 && strings.ContainsRune(" ._-", r):
			b.WriteRune(r)
		default:
			fmt.Fprintf(&b, "u%X", r)
		}
	}
	if b.Len() == 0 {
		return "none"
	}
	if b.Len() > 64 {
		return fmt.Sprintf("%.50s %08x", b.String(), crc32.ChecksumIEEE([]byte(b.String())))
	}
	return b.String()
}

func quoted(v any) string {
	if list, ok := v.([]any); ok {
		parts := make([]string, len(list))
		for i, item := range list {
			parts[i] = quoted(item)
		}
		return "[" + strings.Join(parts, ", ") + "]"
	}
	return strconv.Quote(str(v))
}

func obj(v any) object {
	o, _ := v.(object)
	return o
}

func list(v any) []any {
	l, _ := v.([]any)
	return l
}

func (w *turner) scheme() string {
	r := w.Rules
	w.only("rules", r, "unit", "target", "cycle", "facts", "categories", "limits", "needs", "exclusive", "carry", "instead_of_all", "target_rule", "date_rule", "life", "rolling")
	w.line("scheme = 1\nid = %s\nunit = %s", quoted(named(w.ID)), quoted(r["unit"]))
	w.target()
	w.cycle()
	w.categories()
	for _, l := range list(r["limits"]) {
		w.limit(obj(l))
	}
	for _, n := range list(r["needs"]) {
		w.need(obj(n))
	}
	w.rolling()
	if x := list(r["exclusive"]); x != nil {
		w.line("[[exclusive]]\nminimums = %s", quoted(named(x)))
	}
	if x := list(r["instead_of_all"]); x != nil {
		w.line("[instead]\nfacts = %s", quoted(x))
	}
	if c := obj(r["carry"]); c != nil {
		w.carry(c)
	}
	if d := obj(r["date_rule"]); d != nil {
		w.only("date_rule", d, "days", "months", "year_end", "years")
		w.line("[[deadline]]\nwhat = \"deadline\"\nfrom = \"from\"")
		for _, k := range []string{"days", "months", "years"} {
			if d[k] != nil && str(d[k]) != "0" {
				w.line("%s = %v", k, d[k])
			}
		}
		if d["year_end"] == true {
			w.line("year_end = true")
		}
	}
	w.setFacts()
	return w.out.String()
}

func (w *turner) setFacts() {
	for k, v := range obj(w.Rules["facts"]) {
		switch {
		case k == "flags":
			for _, f := range list(v) {
				w.facts[str(f)] = true
			}
		case k == "parts":
			for i, p := range list(v) {
				for name, value := range obj(p) {
					w.facts[fmt.Sprintf("part%d_%s", i, name)] = str(value)
				}
			}
		default:
			w.facts[k] = str(v)
		}
	}
}

func (w *turner) target() {
	if t := w.Rules["target"]; t != nil {
		w.line("target = %s", quoted(t))
	}
	if life := obj(w.Rules["life"]); life != nil {
		w.line("target = %s", quoted(life["min"]))
	}
	r := obj(w.Rules["target_rule"])
	if r == nil {
		return
	}
	w.only("target_rule", r, "by", "each", "rows", "base", "of", "share", "cycle_years", "steps")
	var parts []string
	switch by := r["by"]; by {
	case "months", "quarters":
		parts = []string{fmt.Sprintf(`{ from = "%v" }`, by), step("times", r["each"])}
	case "table":
		var rows []string
		for _, row := range list(r["rows"]) {
			keys, amount := list(row)[0], list(row)[1]
			rows = append(rows, fmt.Sprintf("{ is = %s, then = %s }", quoted(keys), quoted(amount)))
		}
		parts = []string{fmt.Sprintf(`{ case = "key", of = [%s] }`, strings.Join(rows, ", "))}
	case "bands":
		parts = []string{`{ from = "value" }`, "{ bands = " + quoted(r["rows"]) + " }"}
	case "parts":
		var sum []string
		for i := range list(obj(w.Rules["facts"])["parts"]) {
			sum = append(sum, fmt.Sprintf(`[{ from = "part%d_of" }, { times = "part%d_years" }, %s]`, i, i, step("divide", r["cycle_years"])))
		}
		parts = []string{"{ sum = [" + strings.Join(sum, ", ") + "] }"}
	case "penalty":
		parts = []string{`{ from = "missed" }`, step("times", r["each"]), step("plus", r["base"])}
	case "previous":
		parts = []string{`{ from = "owed" }`, step("plus", r["base"])}
	case "share":
		parts = []string{fmt.Sprintf("{ flat = %s }", quoted(r["of"])), step("times", r["share"])}
	default:
		w.fail("target_rule by %v", by)
	}
	w.line("target = [%s]", strings.Join(append(parts, w.steps(r["steps"])...), ", "))
}

func step(op string, v any) string { return fmt.Sprintf("{ %s = %s }", op, quoted(v)) }

var anchors = map[string]string{
	"issue": "issue", "length": "length", "fixed_after_full": "fixed", "birth_month": "birth-month-start",
	"birth_month_end": "birth-month-end", "parity_year_end": "odd-even", "day_after": "day-after",
}

func (w *turner) cycle() {
	c := obj(w.Rules["cycle"])
	w.only("cycle", c, "start", "end", "accept_from", "anchor", "years", "months", "first_months", "end_month", "end_day")
	if len(c) == 0 {
		return
	}
	w.line("[cycle]")
	if a := c["anchor"]; a != nil {
		name, ok := anchors[str(a)]
		if !ok {
			w.fail("anchor %v", a)
		}
		w.line("anchor = %q", name)
	}
	for _, k := range []string{"years", "months", "first_months", "end_month", "end_day"} {
		if c[k] != nil {
			w.line("%s = %v", k, c[k])
		}
	}
	if c["accept_from"] != nil {
		w.line("accept_from = %v", c["accept_from"])
	}
}

func (w *turner) categories() {
	cats := obj(w.Rules["categories"])
	for _, name := range slices.Sorted(maps.Keys(cats)) {
		c := obj(cats[name])
		w.only("category", c, "award", "asks_tag", "asks_share", "repeat", "stated")
		w.line("[category.%q]", named(name))
		a := obj(c["award"])
		if a["stated"] == true || c["stated"] == true {
			w.line("stated = { %s = \"1\" }", quoted(w.Rules["unit"]))
		}
		w.line("award = %s", w.award(a))
		if tag := c["asks_tag"]; tag != nil {
			w.line("asks_tags = %s", quoted(tag))
		}
		if s := obj(c["asks_share"]); s != nil {
			w.only("asks_share", s, "field", "min")
			w.line("asks_least = { %s = %s }", w.measure(s["field"]), quoted(s["min"]))
		}
		if f := list(c["repeat"]); f != nil {
			w.line("repeat = { by = \"course\", factors = %s, anew = \"changed\" }", quoted(f))
		}
		if life := obj(w.Rules["life"]); life != nil {
			w.only("life", life, "months", "min")
			w.line("lives_months = %v", life["months"])
		}
	}
}

func (w *turner) award(a object) string {
	w.only("award", a, "from", "steps", "sum", "by", "cases", "stated")
	var parts []string
	switch {
	case a["sum"] != nil:
		var sum []string
		for _, p := range list(a["sum"]) {
			sum = append(sum, w.award(obj(p)))
		}
		parts = []string{"{ sum = [" + strings.Join(sum, ", ") + "] }"}
	case a["by"] != nil:
		cases := obj(a["cases"])
		var of []string
		for _, k := range slices.Sorted(maps.Keys(cases)) {
			of = append(of, fmt.Sprintf("{ is = [%s], then = %s }", quoted(k), w.award(obj(cases[k]))))
		}
		parts = []string{fmt.Sprintf("{ case = %s, of = [%s] }", quoted(field(a["by"])), strings.Join(of, ", "))}
	case a["from"] != nil:
		parts = []string{fmt.Sprintf("{ from = %s }", quoted(w.measure(a["from"])))}
	default:
		parts = []string{`{ flat = "0" }`}
	}
	return "[" + strings.Join(append(parts, w.steps(a["steps"])...), ", ") + "]"
}

// measure names a measure; credits and stated are the document's own figure.
func (w *turner) measure(v any) string {
	if v == "credits" || v == "stated" {
		return "credits." + str(w.Rules["unit"])
	}
	return field(v)
}

// field names a field of a claim as the claims file takes one.
func field(v any) string {
	name := strings.NewReplacer(" ", "_", "-", "_", ".", "_").Replace(str(named(v)))
	switch name = strings.ToLower(name); name {
	case "amount", // a receipt's, not a measure
		"days", "months", "years", "years_by_day": // of the notation only where they are stated, never from the dates
		return name + "_given"
	}
	return name
}

var ops = map[string]string{"over": "divide"}

func (w *turner) steps(v any) []string {
	var out []string
	for _, item := range list(v) {
		s := obj(item)
		w.only("step", s, "op", "by", "to", "value", "field", "rows", "of")
		op := str(s["op"])
		if name, ok := ops[op]; ok {
			op = name
		}
		var operand any
		for _, k := range []string{"by", "to", "value"} {
			if s[k] != nil {
				operand = s[k]
			}
		}
		if s["field"] != nil {
			operand = w.measure(s["field"])
		}
		switch op {
		case "bands":
			out = append(out, "{ bands = "+quoted(s["rows"])+" }")
		case "at_most_times":
			out = append(out, fmt.Sprintf("{ at_most_times = { of = %s, by = %s } }", quoted(w.measure(s["of"])), quoted(operand)))
		default:
			out = append(out, step(op, operand))
		}
	}
	return out
}

func (w *turner) selection(v any) string {
	s := obj(v)
	w.only("select", s, "categories", "tags", "not_tags")
	var parts []string
	for _, k := range []string{"categories", "tags", "not_tags"} {
		if l := list(s[k]); len(l) > 0 {
			if k == "categories" {
				l = list(named(l))
			}
			parts = append(parts, k+" = "+quoted(l))
		}
	}
	return strings.Join(parts, "\n")
}

var windows = map[string]string{
	"claim": `["claim"]`, "day": `["day"]`, "calendar_year": `["year"]`, "cycle_year": `["cycle_year"]`, "cycle": `["cycle"]`,
	"entity": `["entity"]`, "entity_year": `["entity", "year"]`,
}

func (w *turner) limit(l object) {
	w.only("limit", l, "id", "select", "max", "share", "of", "per", "if", "largest")
	w.line("[[cap]]\nid = %s\n%s", quoted(named(l["id"])), w.selection(l["select"]))
	if per := l["per"]; per != nil {
		window, ok := windows[str(per)]
		if strings.HasPrefix(str(per), "rolling:") {
			window, ok = fmt.Sprintf("[%q]", per), true
		}
		if !ok {
			w.fail("limit per %v", per)
		}
		w.line("per = %s", window)
	}
	switch {
	case l["largest"] == true:
		w.line("largest = true")
	case l["share"] != nil:
		w.line("share = %s", quoted(l["share"]))
		if l["of"] != nil {
			w.line("of = %s", quoted(l["of"]))
		}
	default:
		w.line("most = %s", quoted(l["max"]))
	}
	if l["if"] != nil {
		w.line("if = %s", quoted(l["if"]))
	}
}

func (w *turner) need(n object) {
	w.only("need", n, "id", "select", "min", "per", "if", "buckets", "distinct", "fact", "any_of", "carried_ok", "part_max", "part")
	var groups []any
	for i, group := range list(n["any_of"]) {
		var ids []any
		for k, item := range list(group) {
			if inner := obj(item); inner != nil {
				item = w.innerNeed(inner, fmt.Sprintf("%v way %d part %d", n["id"], i+1, k+1))
			}
			ids = append(ids, item)
		}
		groups = append(groups, ids)
	}
	w.line("[[minimum]]\nid = %s\n%s", quoted(named(n["id"])), w.selection(n["select"]))
	switch per := str(n["per"]); {
	case per == "calendar_year" || per == "cycle_year":
		w.line("per = %s", strings.Trim(windows[per], "[]"))
		if b := list(n["buckets"]); b != nil {
			w.line("windows = %s", quoted(b))
		}
	case n["per"] != nil && per != "cycle":
		w.fail("need per %s", per)
	}
	switch {
	case n["distinct"] != nil:
		w.line("distinct = %v", n["distinct"])
	case n["fact"] != nil:
		w.line("fact = %s", quoted(n["fact"]))
	case n["any_of"] != nil:
		w.line("any_of = %s", quoted(named(groups)))
	default:
		w.line("least = %s", quoted(n["min"]))
	}
	if n["if"] != nil {
		w.line("if = %s", quoted(n["if"]))
	}
	if n["carried_ok"] == true {
		w.line("carried = true")
	}
	w.part(n)
}

// innerNeed writes a need that stands inside any_of, and returns its id.
func (w *turner) innerNeed(n object, id string) any {
	inner := maps.Clone(n)
	if inner["id"] == nil {
		inner["id"] = id
	}
	w.need(inner)
	return inner["id"]
}

// part writes the part of a need that serves it up to a ceiling: part_max is
// {select, max}, {tags or categories, max}, [select, max], or a number beside part.
func (w *turner) part(n object) {
	selection, most := n["part"], n["part_max"]
	if pair := list(most); len(pair) == 2 {
		selection, most = pair[0], pair[1]
	}
	if p := obj(most); p != nil {
		w.only("part_max", p, "select", "max", "categories", "tags", "not_tags")
		selection, most = p["select"], p["max"]
		if selection == nil {
			p = maps.Clone(p)
			delete(p, "max")
			selection = p
		}
	}
	switch {
	case most == nil && selection == nil:
	case most == nil || obj(selection) == nil:
		w.fail("part_max of need %v is %v, which is not turned", n["id"], n["part_max"])
	default:
		w.line("part = { %s }\npart_most = %s", strings.ReplaceAll(w.selection(selection), "\n", ", "), quoted(most))
	}
}

// rolling writes a minimum for each tested year: the sum of it and the years before.
func (w *turner) rolling() {
	r := obj(w.Rules["rolling"])
	w.only("rolling", r, "test_years", "years", "min", "yearly")
	for _, v := range list(r["test_years"]) {
		year, err := strconv.Atoi(str(v))
		years, err2 := strconv.Atoi(str(r["years"]))
		if err != nil || err2 != nil {
			w.fail("rolling %v", r)
			return
		}
		w.line("[[minimum]]\nid = \"%d\"\nfrom = %d-01-01\nuntil = %d-12-31\nleast = %s", year, year-years+1, year, quoted(r["min"]))
		if r["yearly"] != nil {
			w.line("[[minimum]]\nid = \"%d alone\"\nfrom = %d-01-01\nuntil = %d-12-31\nleast = %s", year, year, year, quoted(r["yearly"]))
		}
	}
}

func (w *turner) carry(c object) {
	w.only("carry", c, "max", "select", "excess_over", "base", "earned_from", "whole", "sub", "if_met", "if_total_over", "none_if_used", "not_first", "in", "serves_needs", "into")
	w.line("[carry_over]\n%s", w.selection(c["select"]))
	for k, name := range map[string]string{"max": "most", "excess_over": "over", "if_total_over": "if_over"} {
		if c[k] != nil {
			w.line("%s = %s", name, quoted(c[k]))
		}
	}
	for k, name := range map[string]string{"whole": "whole_activities", "if_met": "if_met", "none_if_used": "none_if_used", "not_first": "not_from_first_cycle"} {
		if c[k] == true {
			w.line("%s = true", name)
		}
	}
	if c["base"] == "awarded" {
		w.line("what_caps_cut_too = true")
	}
	if c["in"] == "fill" {
		w.line("only_fills = true")
	}
	if c["earned_from"] != nil {
		w.line("earned_from = %v", c["earned_from"])
	}
	if s := obj(c["sub"]); s != nil {
		w.only("sub", s, "select", "max")
		w.line("part = { %s }\npart_most = %s", strings.ReplaceAll(w.selection(s["select"]), "\n", ", "), quoted(s["max"]))
	}
}
