package scheme_test

import (
	"os"
	"strings"
	"testing"

	"evidencevault/credit"
	"evidencevault/credit/scheme"
)

// FuzzSchemeNeverPanics: a file that is refused is fine when each problem has a place; a
// file that is taken must be one that can be calculated with.
func FuzzSchemeNeverPanics(f *testing.F) {
	f.Add([]byte(sound))
	for _, s := range scheme.List() {
		f.Add(s.Data)
	}
	for _, name := range []string{"testdata/common-practice.toml", "testdata/language.toml"} {
		data, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	for _, s := range []string{"", "= =", "[[cap]]", "[category.a]\naward = [[[]]]", "a.b = 1\n[a]\nb = 2", "cap = [1, {}]", "target = 1e400", "x = 2026-02-30", "[[a]]\n[a.b]\n[[a.b]]", "a = '''\n[b]", "[category]\na = { award = 1 }\n[category.a]", "target = [{ case = \"k\", of = [{ then = 1 }, { then = 2 }] }]"} {
		f.Add([]byte(s))
	}
	for _, s := range badSchemes() {
		f.Add([]byte(s))
	}
	claims := []credit.Claim{
		{ID: "C1", Category: "course", Start: credit.MustDate("2024-02-29"), End: credit.MustDate("2027-03-01"), Minutes: minutes(95), Tags: []string{"ethics"}},
		{ID: "C2", Category: "course"},
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		s, bad := scheme.Parse("f.toml", data)
		for _, p := range append(bad, scheme.Check("f.toml", data)...) {
			if p.Line < 1 || p.Column < 1 || p.Text == "" || p.Line > strings.Count(string(data), "\n")+1 {
				t.Fatalf("a problem without a place in the file: %+v", p)
			}
		}
		if len(bad) > 0 || len(s.Caps)+len(s.Minimums)+len(s.Categories) > 100 {
			return
		}
		in := credit.Input{Cycle: threeYears, Carried: []credit.Carried{{Amount: credit.Whole(3)}}}
		for _, c := range claims {
			if len(s.Categories) > 0 {
				c.Category = s.Categories[0].ID
				in.Claims = append(in.Claims, c)
			}
		}
		st, err := credit.Calculate(s, in)
		if err != nil {
			t.Fatalf("a scheme without a problem cannot be calculated with: %v", err)
		}
		var sum credit.Amount
		for _, r := range append(st.Claims, st.CarriedIn...) {
			if !r.Counted.AtMost(r.Awarded) {
				t.Fatalf("%s counts %v of %v", r.ID, r.Counted, r.Awarded)
			}
			sum = sum.Add(r.Counted)
		}
		if !sum.Equal(st.Counted) {
			t.Fatalf("the parts give %v, the whole %v", sum, st.Counted)
		}
	})
}

// FuzzClaimsNeverPanics: a file that is refused is fine when each problem has a place.
func FuzzClaimsNeverPanics(f *testing.F) {
	f.Add([]byte(soundClaims))
	for _, s := range []string{"", "{}", "[]", `{"claims": null}`, `{"claims": [null, 1, {}]}`, `{"claims": [{"id": "a", "category": "course", "duration_minutes": -1}]}`,
		`{"a": 1, "a": 2}`, `{"on": "2026-02-30"}`, `{"claims": [{"id": "a", "category": "b", "count": 1e9}]}`, "{\"claims\"", "\xef\xbb\xbf{}", `{"cycle": {"start": "9999-12-31", "end": "0001-01-01"}}`} {
		f.Add([]byte(s))
	}
	for _, s := range badClaims() {
		f.Add([]byte(s))
	}
	rules, err := scheme.Load("demo")
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		in, bad := scheme.ParseClaims("f.json", data)
		for _, p := range bad {
			if p.Line < 1 || p.Column < 1 || p.Text == "" {
				t.Fatalf("a problem without a place: %+v", p)
			}
		}
		if len(bad) > 0 {
			return
		}
		st, err := credit.Calculate(rules.Scheme, in)
		if err == nil && st.Counted.Sign() < 0 {
			t.Fatalf("counts %v", st.Counted)
		}
	})
}
