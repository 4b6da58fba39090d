package scheme_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"evidencevault/credit"
	"evidencevault/credit/scheme"
)

func demo(t *testing.T) credit.Scheme {
	t.Helper()
	s, err := scheme.Load("demo")
	if err != nil {
		t.Fatal(err)
	}
	return s.Scheme
}

func TestShippedSchemesAreSound(t *testing.T) {
	list := scheme.List()
	if len(list) == 0 {
		t.Fatal("no scheme ships")
	}
	for _, s := range list {
		for _, p := range scheme.Check(s.File, s.Data) {
			t.Error(p)
		}
		if s.Scheme.ID != s.ID {
			t.Errorf("%s calls itself %q", s.File, s.Scheme.ID)
		}
	}
	for _, id := range []string{"", "nobody", "../demo", "shipped/demo"} {
		if _, err := scheme.Load(id); !errors.Is(err, scheme.ErrUnknown) {
			t.Errorf("Load(%q) gave %v", id, err)
		}
	}
}

func TestEveryRuleOfTheDemoHasItsPlace(t *testing.T) {
	s := demo(t)
	check := func(what string, o credit.Origin) {
		if o.File != "demo.toml" || o.Line == 0 || !strings.HasPrefix(o.Source, "rule book of the invented council, section") {
			t.Errorf("%s stands at %+v", what, o)
		}
	}
	check("target", s.Target.Origin)
	check("cycle", s.Cycle.Origin)
	check("proof", s.Keeping.Origin)
	for _, c := range s.Categories {
		check("category "+c.ID, c.Origin)
	}
	for _, c := range s.Caps {
		check("cap "+c.ID, c.Origin)
	}
	for _, m := range s.Minimums {
		check("minimum "+m.ID, m.Origin)
	}
}

func TestCycleOfFourYears(t *testing.T) {
	for _, tt := range []struct{ start, end, why string }{
		{"2024-03-01", "2028-02-29", "the day before the same day four years on"},
		{"2024-02-29", "2028-02-28", "a leap day comes again four years on"},
		{"2023-12-31", "2027-12-30", "the end of a year"},
	} {
		p, err := demo(t).Cycle.Starting(credit.MustDate(tt.start))
		if err != nil || p.End.String() != tt.end {
			t.Errorf("%s: from %s to %v, %v, want %s", tt.why, tt.start, p.End, err, tt.end)
		}
	}
}

func TestCategoryFollowsFromTheKindOfPaper(t *testing.T) {
	s := demo(t)
	for _, tt := range []struct{ kind, want string }{
		{"attendance", "course"}, {"completion", "online"}, {"employment", "practice"}, {"instruction", "teaching"},
		{"meeting", "meeting committee"}, {"credential", "credential"}, {"publication", "publication"},
		{"membership", "membership"}, {"transcript", ""}, {"not-evidence", ""},
	} {
		var ids []string
		for _, c := range s.Accepting(tt.kind) {
			ids = append(ids, c.ID)
		}
		if got := strings.Join(ids, " "); got != tt.want {
			t.Errorf("%s is accepted by %q, want %q", tt.kind, got, tt.want)
		}
	}
}

func TestFieldsThatMatter(t *testing.T) {
	s := demo(t)
	for _, tt := range []struct {
		category string
		want     []string
	}{
		{"course", []string{"duration_minutes"}}, {"practice", []string{"start_date", "end_date"}}, {"meeting", nil},
	} {
		c, _ := s.Category(tt.category)
		if got := c.Needs(); !slices.Equal(got, tt.want) {
			t.Errorf("%s needs %q, want %q", tt.category, got, tt.want)
		}
		if got := c.Missing(credit.Claim{}); !slices.Equal(got, tt.want) {
			t.Errorf("an empty claim in %s misses %q, want %q", tt.category, got, tt.want)
		}
	}
	course, _ := s.Category("course")
	if got := course.Missing(credit.Claim{Minutes: minutes(90)}); len(got) > 0 {
		t.Errorf("a course of 90 minutes misses %q", got)
	}
}

func TestDemoStanding(t *testing.T) {
	day := credit.MustDate
	in := credit.Input{
		Cycle: credit.Period{Start: day("2024-03-01"), End: day("2028-02-29")}, On: day("2026-11-25"),
		Claims: []credit.Claim{
			{ID: "C1", Category: "course", End: day("2025-01-01"), Minutes: minutes(6000)},
			{ID: "C2", Category: "online", End: day("2025-01-01"), Minutes: minutes(3600)},
			{ID: "C3", Category: "study", End: day("2025-02-01"), Minutes: minutes(1800)},
			{ID: "C4", Category: "practice", Start: day("2019-01-01"), End: day("2029-01-01")},
			{ID: "C5", Category: "course", End: day("2024-02-29"), Minutes: minutes(600)},
			{ID: "C6", Category: "course", End: day("2026-11-26"), Minutes: minutes(600)},
		},
	}
	st, err := credit.Calculate(demo(t), in)
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct{ id, why, awarded, counted string }{
		{"C1", "100 h ÷ 4, at most 24", "25", "24"},
		{"C2", "60 h ÷ 5, at most 2.5", "12", "2.5"},
		{"C3", "30 h ÷ 6, but online and study together at most 6", "5", "3.5"},
		{"C4", "32 full months from 1 March 2024 to the day of the statement", "8", "8"},
		{"C5", "the day before the cycle", "0", "0"},
		{"C6", "the day after the day of the statement", "0", "0"},
	} {
		if r, _ := st.Result(tt.id); r.Awarded.String() != tt.awarded || r.Counted.String() != tt.counted {
			t.Errorf("%s: %s: awarded %v, counted %v, want %s, %s", tt.id, tt.why, r.Awarded, r.Counted, tt.awarded, tt.counted)
		}
	}
	text := strings.Join(st.Explain("C3"), "\n")
	for _, want := range []string{"demo.toml:", "section 3.8", "÷ 6 = 5", "cap alone on claims in online or study allows 6, filled by C2 2.5, C3 3.5: 5 − 1.5 = 3.5", "because alone allows no more"} {
		if !strings.Contains(text, want) {
			t.Errorf("the derivation of C3 does not say %q:\n%s", want, text)
		}
	}
	if text := strings.Join(st.Explain("C5"), "\n"); !strings.Contains(text, "outside the cycle") {
		t.Errorf("C5 does not say why it counts 0:\n%s", text)
	}
}
