package audit_test

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/xuri/excelize/v2"

	"evidencevault/audit"
)

// The workbook of chosen claims says nothing of the others but what the sums need.
func TestWorkbookKeepsOthersToItself(t *testing.T) {
	j := vault(t)
	d := gather(t, j)
	one, err := d.Only([]string{d.Claims[0].ID})
	if err != nil {
		t.Fatal(err)
	}
	days := func(d audit.Dossier) (n int) {
		dir := filepath.Join(t.TempDir(), "index")
		if err := audit.WriteIndex(t.Context(), j.Catalog().Store(), d, dir); err != nil {
			t.Fatal(err)
		}
		book, err := excelize.OpenFile(filepath.Join(dir, "index.xlsx"))
		if err != nil {
			t.Fatal(err)
		}
		defer book.Close() // it was only read
		rows, err := book.GetRows("Claims")
		if err != nil || len(rows) != 5 {
			t.Fatalf("%d rows, want 5: %v", len(rows), err)
		}
		for _, row := range rows[1:] {
			if len(row) > 3 && row[3] != "" {
				n++
			}
		}
		return n
	}
	if all, few := days(d), days(one); all != 4 || few != 1 {
		t.Errorf("days of %d and %d claims, want 4 and 1", all, few)
	}
}

// index.json holds to its schema, which refuses what lacks a claim's figure.
func TestIndexHoldsToItsSchema(t *testing.T) {
	schema, err := jsonschema.NewCompiler().Compile("../docs/index.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	var form bytes.Buffer
	if err := gather(t, vault(t)).WriteJSON(&form); err != nil {
		t.Fatal(err)
	}
	read := func(text string) any {
		value, err := jsonschema.UnmarshalJSON(strings.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		return value
	}
	if err := schema.Validate(read(form.String())); err != nil {
		t.Error(err)
	}
	for _, key := range []string{"awarded", "sha256", "page", "proven", "derivation", "whole_cycle", "kind"} {
		if err := schema.Validate(read(strings.Replace(form.String(), `"`+key+`":`, `"other":`, -1))); err == nil {
			t.Errorf("the schema does not miss %s", key)
		}
	}
}

// A reader of CSV in another language finds the same claims, and no formula.
func TestPythonReadsTheCSV(t *testing.T) {
	var form bytes.Buffer
	d := gather(t, vault(t))
	if err := d.WriteCSV(&form); err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(t.TempDir(), "index.csv")
	if err := os.WriteFile(name, form.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("python3", "-c", `import csv, json, sys
print(json.dumps(list(csv.DictReader(open(sys.argv[1], newline="", encoding="utf-8"), strict=True))))`, name).Output()
	if err != nil {
		t.Fatal(err)
	}
	var rows []map[string]string
	if err := json.Unmarshal(out, &rows); err != nil {
		t.Fatal(err)
	}
	i := 0
	for _, e := range d.Claims {
		for range max(1, len(e.Proofs)) {
			if i >= len(rows) {
				t.Fatalf("only %d rows", len(rows))
			}
			if got := rows[i]; got["claim"] != e.ID || got["counted"] != e.Counted.String() || strings.TrimPrefix(got["title"], "'") != e.Title {
				t.Errorf("row %d: %v, want claim %s, %q", i, got, e.ID, e.Title)
			}
			if strings.HasPrefix(rows[i]["title"], "=") {
				t.Errorf("row %d begins like a formula", i)
			}
			i++
		}
	}
	if i != len(rows) {
		t.Errorf("%d rows, want %d", len(rows), i)
	}
}

// The printed index of a folder is in the language that was chosen.
func TestIndexInGerman(t *testing.T) {
	j := vault(t)
	d, err := gather(t, j).In("de")
	if err != nil {
		t.Fatal(err)
	}
	dir := filepath.Join(t.TempDir(), "index")
	if err := audit.WriteIndex(t.Context(), j.Catalog().Store(), d, dir); err != nil {
		t.Fatal(err)
	}
	if text := output(t, "pdftotext", filepath.Join(dir, "index.pdf"), "-"); !strings.Contains(text, "So lässt sich dies in zwei Minuten prüfen") {
		t.Error("index.pdf is not in German")
	}
	if _, err := d.In("tlh"); err == nil {
		t.Error("a language that is not there is taken")
	}
}
