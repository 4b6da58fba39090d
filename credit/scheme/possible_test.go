package scheme_test

import (
	"strings"
	"testing"

	"evidencevault/credit"
	"evidencevault/credit/scheme"
)

const possibleFile = `possible = 1
hours_per_week = 3

[rates]
base = "EUR"
GBP = "1.15"

[[activity]] # a course
title = "Course"
category = "course"
hours = 14
cost = "390.50"
currency = "EUR"
dates = ["2027-03-04",
  2027-01-02]

# reading
[[activity]]
title = "Reading"
category = "study"
any_hours = true
chosen = "12"
since = "2026-01-01"
`

func TestParsePossible(t *testing.T) {
	got, bad := scheme.ParsePossible("possible.toml", []byte(possibleFile))
	if len(bad) > 0 {
		t.Fatal(bad)
	}
	a := got.Activities[0]
	if len(got.Activities) != 2 || a.Line != 8 || !a.Cost.Equal(credit.MustAmount("390.5")) || a.Dates[0] != credit.MustDate("2027-01-02") || len(a.Dates) != 2 {
		t.Errorf("%+v", got.Activities)
	}
	if r := got.Activities[1]; !r.Rate || !r.Chosen.Equal(credit.Whole(12)) || !got.Budget.HoursPerWeek.Equal(credit.Whole(3)) {
		t.Errorf("%+v %+v", r, got.Budget)
	}
}

// Each line changes one thing in the file, and the problem names its place.
func TestPossibleProblems(t *testing.T) {
	tests := []struct{ why, old, new, want string }{
		{"the version", "possible = 1", "possible = 2", "possible.toml:1:1: the file does not say"},
		{"a key that is none", "hours = 14", "hour = 14", `possible.toml:11:1: activity Course has no key "hour" (did you mean hours?)`},
		{"no float is read", "hours = 14", "hours = 1e400", "possible.toml:11:9: hours of activity Course is a number (1e400)"},
		{"time does not run backwards", "hours = 14", `hours = "-3"`, "hours of activity Course is -3, below 0"},
		{"a currency has three letters", `currency = "EUR"`, `currency = "euro"`, `possible.toml:13:12: currency of activity Course is "euro"`},
		{"a cost in nothing", "currency = \"EUR\"\n", "", "possible.toml:12:8: cost of activity Course has no currency"},
		{"a day that is none", "2027-01-02]", `"2027-02-30"]`, "possible.toml:15:3: dates of activity Course is the text"},
		{"not both", "any_hours = true", "any_hours = true\ntimes = 3", "possible.toml:22:1: activity Reading may take any number of hours"},
		{"a rate of 0", `GBP = "1.15"`, `GBP = "0"`, "possible.toml:6:7: the rate of GBP is 0"},
		{"no whole number", `any_hours = true`, ``, ""},
		{"no title", `title = "Course"`, ``, "possible.toml:8:"},
		{"half a time", "any_hours = true\nchosen = \"12\"", `chosen = "1/2"`, "which is no whole number"},
	}
	for _, test := range tests {
		_, bad := scheme.ParsePossible("possible.toml", []byte(strings.Replace(possibleFile, test.old, test.new, 1)))
		switch {
		case test.want == "" && len(bad) > 0:
			t.Errorf("%s: %v", test.why, bad)
		case test.want != "" && (len(bad) == 0 || !strings.Contains(bad[0].String(), test.want)):
			t.Errorf("%s: got %v, want %s", test.why, bad, test.want)
		}
	}
	file, _ := scheme.ParsePossible("possible.toml", []byte(possibleFile))
	if bad := file.Unknown([]string{"course", "studio"}); len(bad) != 1 || bad[0].String() != `possible.toml:20:12: activity "Reading": the scheme has no category "study" (did you mean studio?)` {
		t.Error(bad)
	}
}

// What is settled on is written and taken out again; every other byte stays.
func TestSetChosen(t *testing.T) {
	day := credit.MustDate("2026-11-25")
	with, err := scheme.SetChosen("possible.toml", []byte(possibleFile), map[int]credit.Amount{8: credit.Whole(2)}, day)
	if err != nil {
		t.Fatal(err)
	}
	if want := strings.Replace(possibleFile, "# a course\n", "# a course\nchosen = \"2\"\nsince = \"2026-11-25\"\n", 1); string(with) != want {
		t.Errorf("got\n%s\nwant\n%s", with, want)
	}
	back, err := scheme.SetChosen("possible.toml", with, map[int]credit.Amount{8: {}}, day)
	if err != nil || string(back) != possibleFile {
		t.Errorf("%v\n%s", err, back)
	}
	if out, err := scheme.SetChosen("possible.toml", []byte(possibleFile), map[int]credit.Amount{18: {}}, day); err != nil || strings.Contains(string(out), "since") {
		t.Errorf("%v\n%s", err, out)
	}
}

func FuzzParsePossible(f *testing.F) {
	f.Add([]byte(possibleFile))
	f.Add([]byte("possible = 1\n[[activity]]\ntitle=\"\"\ndates=[1979-05-27T07:32:00Z]\ncredits={a=nan}"))
	f.Fuzz(func(t *testing.T, data []byte) {
		got, bad := scheme.ParsePossible("f", data)
		if len(bad) > 0 || len(got.Activities) == 0 {
			return
		}
		if _, err := scheme.SetChosen("f", data, map[int]credit.Amount{got.Activities[0].Line: credit.Whole(1)}, credit.MustDate("2026-01-01")); err != nil && !strings.Contains(err.Error(), "write them by hand") {
			t.Error(err)
		}
	})
}
