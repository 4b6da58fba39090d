package scheme_test

import (
	"strings"
	"testing"

	"evidencevault/credit/scheme"
)

// What somebody writes who knows a rule book and not this language is answered with what
// to write instead.
func TestProblemsSayWhatToWrite(t *testing.T) {
	category := "[category.a]\n"
	for text, want := range map[string]string{
		category + "award = \"hours\"":                                  `write award = [{ from = "hours" }]`,
		category + "award = \"hours * 1.2\"":                            `{ times = "3/2" }`,
		category + "award = { from = \"hours\" }":                       "put it in brackets",
		category + "award = [{ from = \"hours\" }, { over = 15 }]":      "(write divide)",
		category + "award = [{ from = \"hours\" }, { round_down = 1 }]": "(write down)",
		category + "award = [{ from = \"hours\" }, { max = 8 }]":        "(write at_most)",
		category + "award = [{ from = hours }]":                         "put a text in quotes",
		category + "award = \"1\"\nmax = 50":                            "(write most)",
		category + "award = \"1\"\nmost = \"2 per year\"":               `"per year" is the per of a [[cap]]`,
		category + "award = \"1\"\nrepeat = [\"1\", \"0\"]":             `repeat = { by = "course"`,
		category + "award = \"1\"\nstated = 10":                         `stated = { CEU = "10"`,
		"[[cap]]\nid = \"c\"\nmost = \"1\"\nper = \"calendar_year\"":    `(per = "year")`,
		"[[cap]]\nid = \"c\"\nmost = \"1\"\nper = \"5 years\"":          `per = "rolling:5"`,
		"[[cap]]\nid = \"c\"\nmost = \"1\"\nper = \"month\"":            "no window is shorter than a year",
		"[[cap]]\nid = \"c\"\nmost = \"1\"\nif = \"level = 2\"":         `if = "level2"`,
		"[[cap]]\nid = \"c\"\nshare = \"20%\"":                          `"20/100"`,
		"[[minimum]]\nid = \"m\"\nmin = \"1\"":                          "(write least)",
		"[[minimum]]\nid = \"m\"\nleast = \"1\"\nper = \"each year\"":   `(per = "year")`,
		"[[minimum]]\nid = \"m\"\ndifferent = 3":                        "(write distinct)",
		"[cycle]\nlength = 5":                                           "(write years)",
		"[cycle]\nyears = 1\nend = \"06-30\"":                           "(write end_month and end_day)",
		"[carry_over]\nmax = 24":                                        "(write most)",
		"[carry_over]\nmost = 24\nif = \"met\"":                         "(write if_met)",
		"target = \"7,5\"":                                              "write a point, not a comma",
		"target = \"40 hours\"":                                         `write the number alone: "40"`,
		"carryover = 3":                                                 "(write carry_over)",
	} {
		var all []string
		for _, p := range scheme.Check("x.toml", []byte(badHead+text)) {
			all = append(all, p.String())
		}
		if got := strings.Join(all, "\n"); !strings.Contains(got, want) {
			t.Errorf("%s\nis answered with\n%s\nwant %s", text, got, want)
		}
	}
}
