package scheme_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"evidencevault/credit"
)

func TestDiffer(t *testing.T) {
	hours := func(divide string, cap string) credit.Scheme {
		s := mustParse(t, "own.toml", `scheme = 1
id = "small"
unit = "point"
target = "20"
[category.course]
award = [{ from = "hours" }, { divide = "`+divide+`" }]
[category.reading]
award = [{ from = "hours" }]
most = "`+cap+`"
`)
		return s
	}
	claim := func(id, category string, minutes int64) credit.Claim {
		return credit.Claim{ID: id, Category: category, Minutes: new(credit.Minutes(minutes)), End: credit.MustDate("2026-03-04")}
	}
	in := credit.Input{Claims: []credit.Claim{claim("C1", "course", 600), claim("C2", "reading", 300), claim("C3", "reading", 120)}}
	count := func(s credit.Scheme) credit.Statement {
		st, err := credit.Calculate(s, in)
		if err != nil {
			t.Fatal(err)
		}
		return st
	}
	if d := credit.Differ(count(hours("1", "6")), count(hours("1", "6"))); !d.None() || cmp.Diff([]string{"nothing that counts today differs"}, d.Lines()) != "" {
		t.Errorf("the same rules differ: %v", d.Lines())
	}
	d := credit.Differ(count(hours("1", "6")), count(hours("4", "7")))
	want := []string{
		"counted: 9.5 instead of 16 points",
		"missing: 10.5 instead of 4 points",
		"C1: counts 2.5 instead of 10 (awarded 2.5 instead of 10)",
	}
	for i, line := range d.Lines() {
		if i < len(want) && line != want[i] {
			t.Errorf("line %d: %q, want %q", i, line, want[i])
		}
	}
	if len(d.Claims) != 2 || d.Claims[1].ID != "C3" || len(d.Claims[0].Was) != 1 || len(d.Claims[0].Now) != 1 || d.Claims[1].Counted.After.String() != "2" {
		t.Errorf("claims: %+v", d.Claims)
	}
}

func TestRefuses(t *testing.T) {
	s := mustParse(t, "own.toml", `scheme = 1
id = "own"
unit = "hour"
target = "20"
[category.course]
award = [{ from = "hours" }]
[category.talk]
award = [{ from = "hours" }]
most = "0"
[[cap]]
id = "half"
tags = ["elsewhere"]
most = "5"
[[cap]]
id = "none"
categories = ["course"]
tags = ["elsewhere:solar"]
most = "0"
if = "strict"
`)
	course, talk := credit.Claim{ID: "C1", Category: "course"}, credit.Claim{ID: "C2", Category: "talk"}
	strict := credit.Facts{"strict": "true"}
	for _, c := range []struct {
		name  string
		claim credit.Claim
		facts credit.Facts
		of    string
		want  string
	}{
		{"refused", course, strict, "solar", "none"},
		{"another body's", course, strict, "lifts", ""},
		{"the fact does not stand", course, nil, "solar", ""},
		{"nothing counts in any case", talk, strict, "solar", ""},
	} {
		got, ok := s.Refuses(c.claim, c.facts, credit.Date{}, credit.TagElsewhere, credit.ElsewhereIn(c.of))
		if got.ID != c.want || ok != (c.want != "") {
			t.Errorf("%s: %q, %v", c.name, got.ID, ok)
		}
	}
}
