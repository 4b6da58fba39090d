package audit_test

import (
	"encoding/csv"
	"fmt"
	"math/big"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"evidencevault/audit"
	"evidencevault/credit"
	"evidencevault/credit/scheme"
)

// recalculateAlways makes the office program work out every formula of a file it opens.
const recalculateAlways = `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>`

// sheetRandom draws a standing: three categories, some with caps, amounts that have no
// finite decimal.
func sheetRandom(t *testing.T, seed uint64) credit.Statement {
	t.Helper()
	d := rand.New(rand.NewPCG(seed, 11))
	s := credit.Scheme{ID: "drawn", Unit: "point", Target: credit.Target{Set: true, Amount: credit.Fraction(int64(d.IntN(200)), 3)}}
	names := []string{"course", "study", "talk"}
	for _, id := range names {
		s.Categories = append(s.Categories, credit.Category{ID: id, Award: credit.Award{From: "hours", Steps: []credit.Step{{Op: credit.OpDivide, By: credit.Operand{Amount: credit.Whole(int64(1 + d.IntN(6)))}}}}})
		if d.IntN(2) == 0 {
			s.Caps = append(s.Caps, credit.Cap{ID: id, Selection: credit.Selection{Categories: []string{id}}, Most: credit.Fraction(int64(d.IntN(60)), 7)})
		}
	}
	s.Caps = append(s.Caps, credit.Cap{ID: "alone", Selection: credit.Selection{Categories: names[1:]}, Most: credit.Fraction(int64(d.IntN(90)), 7)})
	s.Minimums = []credit.Minimum{{ID: "live", Selection: credit.Selection{Categories: names[:1]}, Least: credit.Whole(int64(d.IntN(10)))}}
	in := credit.Input{Cycle: credit.Period{Start: credit.Day(2024, 1, 1), End: credit.Day(2026, 12, 31)}}
	for i := range d.IntN(30) {
		m := credit.Minutes(d.IntN(1500))
		in.Claims = append(in.Claims, credit.Claim{ID: fmt.Sprintf("C%d", i+1), Category: names[d.IntN(3)], End: credit.Day(2024, 1, 1+d.IntN(1200)), Minutes: &m})
	}
	if d.IntN(2) == 0 {
		in.Carried = []credit.Carried{{Amount: credit.Fraction(int64(d.IntN(40)), 7)}}
	}
	st, err := credit.Calculate(s, in)
	if err != nil {
		t.Fatal(err)
	}
	return st
}

// demoStatement counts some claims under the rules that ship.
func demoStatement(t *testing.T) credit.Statement {
	t.Helper()
	rules, err := scheme.Load("demo")
	if err != nil {
		t.Fatal(err)
	}
	m := credit.Minutes(1000)
	st, err := credit.Calculate(rules.Scheme, credit.Input{Cycle: credit.Period{Start: credit.Day(2024, 7, 1), End: credit.Day(2028, 6, 30)}, Claims: []credit.Claim{
		{ID: "C1", Category: "course", End: credit.Day(2025, 1, 1), Minutes: &m}, {ID: "C2", Category: "online", End: credit.Day(2025, 2, 1), Minutes: &m},
		{ID: "C3", Category: "study", End: credit.Day(2025, 3, 1), Minutes: &m}, {ID: "C4", Category: "publication", End: credit.Day(2025, 3, 1)}}})
	if err != nil {
		t.Fatal(err)
	}
	return st
}

func writeSheet(t *testing.T, name string, st credit.Statement) {
	t.Helper()
	f, err := os.Create(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := (audit.Sheet{Title: "=1+1", Statement: st, Claims: map[string]audit.SheetClaim{"C1": {Title: "=HYPERLINK(\"x\")", Provider: "@SUM(1)"}}}).Write(f); err != nil {
		t.Fatal(err)
	}
}

// near reports whether the cell of a recalculated sheet is the amount, to 1e-9.
func near(cell string, want credit.Amount) bool {
	got, ok := new(big.Rat).SetString(cell)
	if !ok {
		return false
	}
	return got.Sub(got, want.Rat()).Abs(got).Cmp(big.NewRat(1, 1_000_000_000)) < 0
}

// TestLibreOfficeRecalculatesTheSheet has an office program work out every formula anew
// and holds it against the statement: the demo's rules, 24 drawn ones, and a sheet in
// which a claim's award was changed.
func TestLibreOfficeRecalculatesTheSheet(t *testing.T) {
	dir, profile := t.TempDir(), t.TempDir()
	if err := os.MkdirAll(filepath.Join(profile, "user"), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(profile, "user", "registrymodifications.xcu"), []byte(recalculateAlways), 0o600); err != nil {
		t.Fatal(err)
	}
	statements := []credit.Statement{demoStatement(t)}
	for seed := range uint64(24) {
		statements = append(statements, sheetRandom(t, seed))
	}
	args := []string{"-env:UserInstallation=file://" + profile, "--headless", "--norestore", "--convert-to", "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,false,false,false,-1", "--outdir", dir}
	for i, st := range statements {
		name := filepath.Join(dir, fmt.Sprintf("s%d.xlsx", i))
		writeSheet(t, name, st)
		args = append(args, name)
	}
	changed := filepath.Join(dir, "changed.xlsx")
	writeSheet(t, changed, statements[0])
	raiseAward(t, changed)
	if out, err := exec.CommandContext(t.Context(), "soffice", append(args, changed)...).CombinedOutput(); err != nil {
		t.Fatalf("soffice: %v\n%s", err, out)
	}
	for i, st := range statements {
		holds(t, filepath.Join(dir, fmt.Sprintf("s%d-Standing.csv", i)), st, credit.Amount{})
	}
	holds(t, filepath.Join(dir, "changed-Standing.csv"), statements[0], credit.Whole(2))
	claims := cells(t, filepath.Join(dir, "s0-Claims.csv"))
	if claims[1][8] != `=HYPERLINK("x")` || claims[1][9] != "@SUM(1)" {
		t.Errorf("texts that look like formulas did not stay texts: %q", claims[1])
	}
}

// raiseAward adds 2 to what the first claim is awarded, and leaves everything else.
func raiseAward(t *testing.T, name string) {
	t.Helper()
	book, err := excelize.OpenFile(name)
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	was, err := book.GetCellValue("Claims", "F2")
	if err != nil {
		t.Fatal(err)
	}
	if err := book.SetCellDefault("Claims", "F2", credit.MustAmount(was).Add(credit.Whole(2)).String()); err != nil {
		t.Fatal(err)
	}
	if err := book.Save(); err != nil {
		t.Fatal(err)
	}
}

func cells(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.FieldsPerRecord = -1
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

// holds checks the recalculated first sheet against the statement, where more is what
// was added to the first category.
func holds(t *testing.T, name string, st credit.Statement, more credit.Amount) {
	t.Helper()
	rows := cells(t, name)
	want := func(row, column int, what string, a credit.Amount) {
		if !near(rows[row-1][column-1], a) {
			t.Errorf("%s: %s is %s, the statement says %v", filepath.Base(name), what, rows[row-1][column-1], a)
		}
	}
	counted := st.Counted.Add(more)
	want(4, 2, "target", st.Target)
	want(5, 2, "counted", counted)
	want(6, 2, "missing", credit.Amount{}.Max(st.Target.Sub(counted)))
	for i, c := range st.Categories {
		if i > 0 {
			more = credit.Amount{}
		}
		want(10+i, 2, c.ID+" awarded", c.Awarded.Add(more))
		want(10+i, 3, c.ID+" counted", c.Counted.Add(more))
	}
	for _, m := range st.Minimums {
		found := false
		for _, row := range rows {
			if found = row[0] == m.ID && len(row) > 4 && near(row[1], m.Want) && near(row[4], m.Have); found {
				break
			}
		}
		if !found {
			t.Errorf("%s: the minimum %s is not there with what it asks and has", filepath.Base(name), m.ID)
		}
	}
	for _, row := range rows {
		if cell := strings.Join(row, " "); strings.Contains(cell, "#") || strings.Contains(cell, "Err:") {
			t.Errorf("%s: a formula went wrong: %s", filepath.Base(name), cell)
		}
	}
}
