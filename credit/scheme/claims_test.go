package scheme_test

import (
	"encoding/json"
	"strings"
	"testing"

	"evidencevault/credit"
	"evidencevault/credit/scheme"
)

const soundClaims = `{
  "cycle": {"start": "2024-01-01", "end": "2026-12-31"},
  "facts": {"attest": true, "grade": "3"},
  "carried": [{"amount": "4", "earned": "2023-05-01"}],
  "claims": [
    {"id": "C1", "category": "course", "start_date": "2025-03-03", "end_date": "2025-03-04", "duration_minutes": 840,
     "credits": [{"unit": "CEU", "value": "1.4"}], "tags": ["ethics"], "provider": "Tarn School", "place": "Tarn", "teachers": 2}
  ]
}`

func TestClaimsFile(t *testing.T) {
	in, bad := scheme.ParseClaims("c.json", []byte(soundClaims))
	if len(bad) > 0 {
		t.Fatal(bad)
	}
	c := in.Claims[0]
	if c.ID != "C1" || *c.Minutes != 840 || c.End != credit.MustDate("2025-03-04") || c.Fields["teachers"] != "2" || c.Fields["place"] != "Tarn" ||
		c.Credits[0].Value.String() != "1.4" || !in.Facts.Holds("attest") || in.Carried[0].Amount.String() != "4" || in.Cycle.End != credit.MustDate("2026-12-31") {
		t.Errorf("read as %+v", in)
	}
}

func TestProblemsOfClaims(t *testing.T) {
	tests := []struct{ name, old, new, want string }{
		{"negative time", "840", "-90", "c.json:6:114: claim C1 lasts -90 minutes, below 0"},
		{"25-hour days", "840", "3000", "claim C1 lasts 3000 minutes, more than its 2 day(s) have"},
		{"huge time", "840", "99999999999999999999", "want whole minutes"},
		{"time with a fraction", "840", "90.5", "duration_minutes of claim C1 is a number (90.5)"},
		{"time with an exponent", "840", "1e400", "want whole minutes"},
		{"no day", "2025-03-04", "2026-02-30", `end_date of claim C1 is the text "2026-02-30"`},
		{"end before start", `"end_date": "2025-03-04"`, `"end_date": "2025-03-01"`, "claim C1 ends on 2025-03-01, before it begins on 2025-03-03"},
		{"cycle turned round", `"end": "2026-12-31"`, `"end": "2020-12-31"`, "c.json:2:36: the cycle ends on 2020-12-31"},
		{"endless cycle", `"end": "2026-12-31"`, `"end": "9999-12-31"`, "is longer than 100 years"},
		{"no amount", `"1.4"`, `"NaN"`, "value of credits of claim C1"},
		{"over 0", `"1.4"`, `"1/0"`, "value of credits of claim C1"},
		{"negative credit", `"1.4"`, `"-1.4"`, "-1.4, below 0"},
		{"huge credit", `"1.4"`, `"` + strings.Repeat("9", 41) + `"`, "value of credits of claim C1"},
		{"negative log field", `"teachers": 2`, `"teachers": -2`, "teachers of claim C1 is -2, below 0"},
		{"misspelt key", "duration_minutes", "duration_minuts", "did you mean duration_minutes?"},
		{"no category", `"category": "course", `, "", "claim C1 has no category"},
		{"unknown key", `"facts"`, `"fakts"`, `the claims file has no key "fakts"`},
		{"same id", `"claims": [`, `"claims": [{"id": "C1", "category": "course"},`, "claim C1 stands here a second time"},
		{"cut off", "]\n}", "", "the file ends in the middle"},
		{"no JSON", `"claims": [`, `"claims": [,`, "not readable as JSON"},
		{"two objects", "]\n}", "]\n}{}", "behind the end"},
		{"a list", soundClaims, "[]", "an object is wanted"},
		{"empty", soundClaims, "", "not readable as JSON"},
		{"deep", `"Tarn"`, strings.Repeat("[", 100_000), "nested more than"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			text := strings.Replace(soundClaims, tt.old, tt.new, 1)
			_, bad := scheme.ParseClaims("c.json", []byte(text))
			var lines []string
			for _, p := range bad {
				lines = append(lines, p.String())
			}
			if text == soundClaims || !strings.Contains(strings.Join(lines, "\n"), tt.want) {
				t.Errorf("want %q in\n%s", tt.want, strings.Join(lines, "\n"))
			}
		})
	}
}

// What calc prints is part of the machine interface.
func TestStatementAsJSON(t *testing.T) {
	s, bad := scheme.Parse("x.toml", []byte(sound))
	if len(bad) > 0 {
		t.Fatal(bad)
	}
	in, bad := scheme.ParseClaims("c.json", []byte(`{"claims": [{"id": "C1", "category": "course", "duration_minutes": 100}]}`))
	if len(bad) > 0 {
		t.Fatal(bad)
	}
	st, err := credit.Calculate(s, in)
	if err != nil {
		t.Fatal(err)
	}
	const head = `"certification":"","scheme":"x","unit":"point","cycle":{"start":null,"end":null},"on":null,"target":"20","counted":"5/12","missing":"235/12","meets":false,"days_left":null,` +
		`"carry_in":"0","carry_out":"0","exclusive_missing":"0","categories":[{"id":"course","awarded":"5/12","counted":"5/12","cap":"12"},{"id":"talk","awarded":"0","counted":"0","cap":null}],` +
		`"minimums":[{"id":"least","have":"5/12","want":"2","met":false}],"cuts":[],"leaving":[],"deadlines":[]`
	for _, tt := range []struct {
		give any
		want string
	}{
		{st, "{" + head + "}"},
		{credit.Calc{Statement: st}, "{" + head + `,"claims":[{"id":"C1","awarded":"5/12","counted":"5/12"}]}`},
	} {
		got, err := json.Marshal(tt.give)
		if err != nil || string(got) != tt.want {
			t.Errorf("prints %s, %v\nwant   %s", got, err, tt.want)
		}
	}
}
