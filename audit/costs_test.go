package audit_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"evidencevault/audit"
	"evidencevault/credit"
	"evidencevault/journal"
)

// drawnCosts has two currencies, a refund, an activity claimed for two certifications,
// one with a receipt that counts nothing, a receipt without a certificate, and texts
// that look like formulas.
func drawnCosts() audit.Costs {
	amount := credit.MustAmount
	claim := func(id, cert, category, counted string) journal.CostClaim {
		return journal.CostClaim{ID: id, Certification: cert, Category: category, Counted: amount(counted)}
	}
	receipt := func(id, total, of, title string, claims ...journal.CostClaim) journal.CostReceipt {
		return journal.CostReceipt{Receipt: journal.Receipt{ID: id, Total: total, CostOf: of, Title: title, Provider: "Ostrava \"Cableway\", School\nLimited",
			Date: credit.MustDate("2026-02-20"), File: "=cmd|x", SHA256: strings.Repeat("a", 64)}, Claims: claims}
	}
	one := []journal.CostClaim{claim("C1", "demo", "course", "7/3"), claim("C2", "other", "course", "7")}
	per := func(a string) *credit.Amount { return new(amount(a)) }
	return audit.Costs{Holder: "Mirela Tannhof", On: credit.MustDate("2026-11-25"), CostReport: journal.CostReport{
		Receipts: []journal.CostReceipt{receipt("R1", "120.10 EUR", "A1", "=1+1", one...), receipt("R2", "-20.05 EUR", "A1", "Refund", one...),
			receipt("R3", "99.95 GBP", "A1", "Lodging", one...), receipt("R4", "300 EUR", "A2", "Night course", claim("C3", "demo", "course", "0")),
			receipt("R5", "80.00 GBP", "", "Next year's course")},
		Sums: []journal.Sum{{Currency: "EUR", Amount: "400.05"}, {Currency: "GBP", Amount: "179.95"}},
		Categories: []journal.CategoryCost{
			{Certification: "demo", Category: "course", Currency: "EUR", Paid: amount("400.05"), Counted: amount("7/3"), PerCredit: per("24003/140")},
			{Certification: "demo", Category: "course", Currency: "GBP", Paid: amount("99.95"), Counted: amount("7/3"), PerCredit: per("5997/140")},
			{Certification: "other", Category: "course", Currency: "EUR", Paid: amount("100.05"), Counted: amount("7"), PerCredit: per("2001/140")},
			{Certification: "other", Category: "course", Currency: "GBP", Paid: amount("99.95"), Counted: amount("7"), PerCredit: per("1999/140")}},
	}}
}

// An office program works every formula out anew; they come to what the report says, in every
// language.
func TestLibreOfficeRecalculatesTheCosts(t *testing.T) {
	for tag, texts := range map[string]struct{ sums, receipts, head, state string }{
		"en": {"Sums", "Receipts", "currency", "cost of an activity"}, "de": {"Summen", "Belege", "Währung", "Kosten einer Tätigkeit"},
	} {
		t.Run(tag, func(t *testing.T) { recalculatedCosts(t, tag, texts.sums, texts.receipts, texts.head, texts.state) })
	}
	if _, err := drawnCosts().In("xx"); !errors.Is(err, audit.ErrLanguage) {
		t.Errorf("%v, want ErrLanguage", err)
	}
}

func recalculatedCosts(t *testing.T, tag, sumsName, receiptsName, head, state string) {
	dir, profile := t.TempDir(), t.TempDir()
	if err := os.MkdirAll(filepath.Join(profile, "user"), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(profile, "user", "registrymodifications.xcu"), []byte(recalculateAlways), 0o600); err != nil {
		t.Fatal(err)
	}
	c, err := drawnCosts().In(tag)
	if err != nil {
		t.Fatal(err)
	}
	var book bytes.Buffer
	if err := c.WriteSheet(&book); err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(dir, "costs.xlsx")
	if err := os.WriteFile(name, book.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.CommandContext(t.Context(), "soffice", "-env:UserInstallation=file://"+profile, "--headless", "--norestore", "--convert-to",
		"csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,false,false,false,-1", "--outdir", dir, name).CombinedOutput()
	if err != nil {
		t.Fatalf("soffice: %v\n%s", err, out)
	}
	sums := cells(t, filepath.Join(dir, "costs-"+sumsName+".csv"))
	if sums[3][0] != head {
		t.Errorf("heads %q, want %q", sums[3], head)
	}
	want := map[string][]string{"EUR": {"420.1", "-20.05", "400.05", "0"}, "GBP": {"179.95", "0", "179.95", "80"}}
	for i, s := range c.Sums {
		row := sums[4+i]
		for k, w := range want[s.Currency] {
			if row[0] != s.Currency || !near(row[k+1], credit.MustAmount(w)) {
				t.Errorf("sums %q, want %s %q", row, s.Currency, want[s.Currency])
			}
		}
	}
	for i, k := range c.Categories {
		row := sums[8+i]
		if row[0] != k.Certification || row[2] != k.Currency || !near(row[3], k.Paid) || !near(row[4], k.Counted) || !near(row[5], *k.PerCredit) {
			t.Errorf("category %q, want %+v, for one %v", row, k, k.PerCredit)
		}
	}
	receipts := cells(t, filepath.Join(dir, "costs-"+receiptsName+".csv"))
	if row := receipts[1]; row[1] != "2026-02-20" || row[3] != "=1+1" || row[10] != "=cmd|x" || row[9] != state || !near(row[4], credit.MustAmount("120.1")) {
		t.Errorf("receipt %q", row)
	}
}

// A reader of another language gets the same table, and no cell that is a formula.
func TestCostsReadByPython(t *testing.T) {
	name := filepath.Join(t.TempDir(), "costs.csv")
	var text bytes.Buffer
	if err := drawnCosts().WriteCSV(&text); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, text.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.CommandContext(t.Context(), "python3", "-c", `import csv, json, sys
print(json.dumps([r for r in csv.DictReader(open(sys.argv[1], newline="", encoding="utf-8"))]))`, name).Output()
	if err != nil {
		t.Fatal(err)
	}
	var rows []map[string]string
	if err := json.Unmarshal(out, &rows); err != nil {
		t.Fatal(err)
	}
	if len(rows) != 5 {
		t.Fatalf("%d rows, want 5", len(rows))
	}
	want := map[string]string{"receipt": "R2", "date": "2026-02-20", "provider": "Ostrava \"Cableway\", School\r\nLimited", "title": "Refund", "paid": "-20.05",
		"currency": "EUR", "activity": "A1", "claims": "C1 C2", "category": "demo: course; other: course", "state": "paid back", "file": "'=cmd|x", "sha256": strings.Repeat("a", 64)}
	if diff := cmp.Diff(want, rows[1]); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
	if rows[0]["title"] != "'=1+1" || rows[4]["state"] != "no certificate yet" || rows[4]["activity"] != "" {
		t.Errorf("%q, %q", rows[0], rows[4])
	}
}
