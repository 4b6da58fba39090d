package scheme_test

import (
	"fmt"
	"strings"
	"testing"

	"evidencevault/credit"
	"evidencevault/credit/scheme"
)

const badHead = "scheme = 1\nid = \"x\"\nunit = \"u\"\n"

// badFigures are amounts that no file may hold.
var badFigures = []string{`"1e400"`, "1e400", "nan", "+inf", "-inf", `"NaN"`, `"Infinity"`, `"1/0"`, `"0/0"`, `"-1"`, "-7", `"1/-2"`, `"0x10"`, `""`, `"1,5"`, `"` + strings.Repeat("9", 41) + `"`, `"٣"`}

// badSchemes are scheme files that are wrong in ways that hurt: figures that are none,
// rules that name each other in a ring, very many of them, and nothing at all.
func badSchemes() []string {
	list := []string{
		"", "\n\n", badHead, badHead + "target = \"0\"",
		badHead + "[[minimum]]\nid = \"a\"\nany_of = [[\"b\"]]\n[[minimum]]\nid = \"b\"\nany_of = [[\"a\"]]",
		badHead + "[[minimum]]\nid = \"a\"\nany_of = [[\"a\"]]",
		badHead + "[category.a]\naward = \"1\"\nor = [\"b\"]\n[category.b]\naward = \"1\"\nor = [\"a\"]",
		badHead + "[category.a]\naward = \"1\"\nor = [\"a\"]",
		badHead + "[category.a]\naward = [" + strings.Repeat("{ sum = [[", 200) + strings.Repeat("]] }", 200) + "]",
		badHead + "[[cap]]\nid = \"a\"\nper = \"rolling:99999999999999999999\"\nmost = \"1\"",
		badHead + "[[cap]]\nid = \"a\"\nmost_claims = 9223372036854775808",
		badHead + "[cycle]\nyears = -3", badHead + "[cycle]\nmonths = 99999999", badHead + "[cycle]\nanchor = \"fixed\"\nyears = 1\nend_month = 2\nend_day = 31",
		badHead + "[[deadline]]\nwhat = \"x\"\nfrom = \"cycle_end\"\ndays = 9999999999",
	}
	for _, figure := range badFigures {
		for _, where := range []string{
			"target = %s", "[category.a]\naward = %s", "[category.a]\naward = [{ from = \"hours\" }, { divide = %s }]", "[category.a]\naward = [{ from = \"hours\" }, { down = %s }]",
			"[[cap]]\nid = \"a\"\nmost = %s", "[[cap]]\nid = \"a\"\nshare = %s", "[[minimum]]\nid = \"a\"\nleast = %s", "[carry_over]\nmost = %s",
		} {
			list = append(list, badHead+fmt.Sprintf(where, figure))
		}
	}
	return list
}

// badClaims are claims files of the same sort.
func badClaims() []string {
	claim := func(keys string) string {
		return `{"cycle": {"start": "2024-01-01", "end": "2026-12-31"}, "claims": [{"id": "C1", "category": "course", ` + keys + `}]}`
	}
	list := []string{
		claim(`"duration_minutes": -60`), claim(`"duration_minutes": 1e400`), claim(`"duration_minutes": 1.5`), claim(`"duration_minutes": 99999999999999999999`),
		claim(`"start_date": "2025-05-05", "end_date": "2025-05-05", "duration_minutes": 1500`), claim(`"end_date": "2025-05-05", "hours": "25"`),
		claim(`"end_date": "1823-01-01", "duration_minutes": 60`), claim(`"end_date": "0000-00-00"`), claim(`"end_date": "2025-02-29"`), claim(`"end_date": "2025-06-01", "start_date": "2025-07-01"`),
		claim(`"count": -1`), claim(`"count": 1000001`), claim(`"tags": [null]`), claim(`"tags": [[[[]]]]`), claim(`"hours": "-3"`), claim(`"hours": NaN`), claim(`"credits": [{}]`),
		`{"claims": [], "cycle": {"start": "2026-01-01", "end": "2024-01-01"}}`, `{"claims": [], "facts": {"a": null, "b": [], "c": 1.5}}`, `{"claims": [{"id": "a", "category": "knitting"}]}`,
		strings.Repeat("[", 100_000), `{"claims": [` + strings.Repeat(`{"id":"a"},`, 500) + `{}]}`, "{\"claims\": [{\"id\": \"\xff\"}]}",
	}
	for _, figure := range badFigures {
		list = append(list, claim(`"credits": [{"unit": "CEU", "value": `+figure+`}]`), `{"claims": [], "carried": [{"amount": `+figure+`}]}`)
	}
	return list
}

// Each figure that is none is a problem with its place, wherever it stands.
func TestBadFiguresAreProblems(t *testing.T) {
	for _, text := range badSchemes()[len(badSchemes())-8*len(badFigures):] {
		problems := scheme.Check("x.toml", []byte(text))
		if len(problems) == 0 {
			t.Errorf("taken without a word:\n%s", text)
		}
		for _, p := range problems {
			if p.Line < 1 || p.Column < 1 || p.Text == "" {
				t.Errorf("a problem without a place, %+v, in\n%s", p, text)
			}
		}
	}
}

// A claim in a category that the scheme lacks is said with its place.
func TestUnknownCategoryHasAPlace(t *testing.T) {
	s := credit.Scheme{ID: "knots", Categories: []credit.Category{{ID: "course"}, {ID: "reading"}}}
	text := "{\"claims\": [{\"id\": \"C1\", \"category\": \"course\"},\n  {\"id\": \"C2\", \"category\": \"raeding\"}]}"
	got := scheme.UnknownCategories("c.json", []byte(text), s)
	want := `c.json:2:28: claim C2 stands in category "raeding", which scheme knots does not have (did you mean reading?)`
	if len(got) != 1 || got[0].String() != want {
		t.Errorf("got %v, want %s", got, want)
	}
}

// Ten thousand categories, each with a cap and a minimum, are read, checked and counted.
func TestTenThousandCategories(t *testing.T) {
	var b strings.Builder
	b.WriteString(badHead + "target = \"5\"\n")
	in := credit.Input{Cycle: threeYears}
	for i := range 10_000 {
		fmt.Fprintf(&b, "[category.c%d]\naward = [{ from = \"hours\" }]\nmost = \"3\"\n", i)
		if i%100 == 0 {
			c := hours(fmt.Sprintf("c%d", i), 4)
			c.ID = fmt.Sprintf("C%d", i)
			in.Claims = append(in.Claims, c)
		}
	}
	s, problems := scheme.Parse("x.toml", []byte(b.String()))
	if len(problems) > 0 {
		t.Fatal(problems[0])
	}
	st, err := credit.Calculate(s, in)
	if err != nil || st.Counted.String() != "300" {
		t.Errorf("counted %v, %v, want 300", st.Counted, err)
	}
}
