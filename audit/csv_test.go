package audit_test

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"evidencevault/audit"
)

// Every text that a spreadsheet program would run stands behind an apostrophe, and is
// otherwise as it was; what only looks odd is left alone.
func TestCSVKeepsTextText(t *testing.T) {
	cases := []struct {
		why, title string
		marked     bool
	}{
		{"a formula", "=1+1", true},
		{"an old sign of formulas", "+1", true},
		{"the same", "-1", true},
		{"a function of another program", "@SUM(A1)", true},
		{"blanks before it are dropped by some programs", "  =1+1", true},
		{"a quotation mark before it", "\"=1+1", true},
		{"a separator before it, where columns are parted anew", ";=1+1", true},
		{"full-width signs count as plain ones in some languages", "＝1+1", true},
		{"a full-width at", "＠x", true},
		{"a tab", "\t=1", true},
		{"a line end", "\n=1", true},
		{"an ordinary title", "Rope = life", false},
		{"a quotation", "\"Ropes\" for beginners", false},
		{"no title", "", false},
	}
	var d audit.Dossier
	for _, c := range cases {
		d.Claims = append(d.Claims, audit.Entry{Title: c.title})
	}
	var out bytes.Buffer
	if err := d.WriteCSV(&out); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&out).ReadAll()
	if err != nil || len(rows) != len(cases)+1 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	for i, c := range cases {
		got := rows[i+1][4]
		if strings.HasPrefix(got, "'") != c.marked || strings.TrimPrefix(got, "'") != c.title {
			t.Errorf("%s: %q became %q", c.why, c.title, got)
		}
	}
}
