package scheme_test

import (
	"bytes"
	"errors"
	"slices"
	"testing"

	"evidencevault/credit/scheme"
)

// Every shape is a scheme that has no problem as it is, asks each question once, and
// leads through the same parts of a rule book.
func TestShapesAreSchemes(t *testing.T) {
	shapes := scheme.Shapes()
	if len(shapes) != 4 {
		t.Fatalf("%d shapes, want 4", len(shapes))
	}
	for _, s := range shapes {
		if problems := scheme.Check(s.Name+".toml", s.Data); len(problems) > 0 {
			t.Errorf("%s: %v", s.Name, problems)
		}
		blanks := scheme.Blanks(s.Data)
		if bytes.Count(s.Data, []byte("#?")) != len(blanks) {
			t.Errorf("%s: a line has a question mark and is no place to fill in", s.Name)
		}
		var names []string
		for _, b := range blanks {
			if slices.Contains(names, b.Name) {
				t.Errorf("%s asks for %s twice", s.Name, b.Name)
			}
			names = append(names, b.Name)
		}
		for _, want := range []string{"id", "version", "title", "body", "unit", "target", "keep_years"} {
			if !slices.Contains(names, want) {
				t.Errorf("%s does not ask for %s", s.Name, want)
			}
		}
	}
}

func TestFillIn(t *testing.T) {
	s, err := scheme.ShapeOf("points")
	if err != nil {
		t.Fatal(err)
	}
	got, err := scheme.FillIn(s.Data, map[string]string{"target": "31/2", "years": "5", "body": "Board of Knots"})
	if err != nil {
		t.Fatal(err)
	}
	rules, problems := scheme.Parse("x.toml", got)
	if len(problems) > 0 || rules.Target.Amount.String() != "15.5" || rules.Cycle.Months != 60 || rules.Body != "Board of Knots" {
		t.Errorf("%v: target %v, %d months, %s", problems, rules.Target.Amount, rules.Cycle.Months, rules.Body)
	}
	if n, m := len(scheme.Blanks(s.Data)), len(scheme.Blanks(got)); n-m != 3 {
		t.Errorf("%d places are open, before %d", m, n)
	}
	for _, wrong := range []map[string]string{{"colour": "red"}, {"years": "three"}, {"years": ""}, {"title": "a\"\nid = \"b"}} {
		if _, err := scheme.FillIn(s.Data, wrong); !errors.Is(err, scheme.ErrBlank) {
			t.Errorf("%v: %v, want ErrBlank", wrong, err)
		}
	}
	if _, err := scheme.ShapeOf("weekly"); !errors.Is(err, scheme.ErrShape) {
		t.Errorf("weekly: %v", err)
	}
}
