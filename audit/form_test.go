package audit_test

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"evidencevault/audit"
	"evidencevault/credit"
	"evidencevault/extract/page"
)

// blankSheet is a body's form as a workbook, with a sum of its own.
func blankSheet(t *testing.T) []byte {
	t.Helper()
	book := excelize.NewFile()
	defer book.Close()
	var b bytes.Buffer
	if err := errors.Join(book.SetColWidth("Sheet1", "A", "E", 60), book.SetCellFormula("Sheet1", "C20", "SUM(C11:C12)"), book.Write(&b)); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func cellOf(t *testing.T, data []byte, cell string) string {
	t.Helper()
	book, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	text, err := book.GetCellValue("Sheet1", cell)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

func formData(t *testing.T) audit.FormData {
	t.Helper()
	j := vault(t)
	if _, err := j.ClaimChange(t.Context(), "C1", map[string]string{"place": "Tarn"}, ""); err != nil {
		t.Fatal(err)
	}
	data, err := audit.GatherForm(t.Context(), j, gather(t, j))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

const sheetMap = `[field]
A1 = '"Holder: " + holder.name'
A2 = "certification.number"
A3 = "sum()"
A4 = 'sum(category="course")'
A5 = 'count(category="course")'
A6 = 'date(cycle.end, "DD.MM.YYYY")'
A7 = "claims[1].title"
A8 = "claims[99].title"
A9 = 'sheet + "/" + sheets'

[[rows]]
first = 11
count = 2
[rows.field]
"A{n}" = "claim.title"
"B{n}" = "claim.end_date"
"C{n}" = "claim.counted"
"D{n}" = 'row + ". " + claim.place'
"E{n}" = "claim.files"
`

// Four claims on a form of two rows make two files; sums are those of all claims.
func TestFormIsFilledFromClaims(t *testing.T) {
	data := formData(t)
	m, err := audit.ParseFormMap("map.toml", []byte(sheetMap))
	if err != nil {
		t.Fatal(err)
	}
	r := page.NewReader(page.Options{})
	t.Cleanup(func() { r.Close() })
	files, found, err := audit.FillForm(t.Context(), r, blankSheet(t), m, data)
	if err != nil || len(found) > 0 || len(files) != 2 {
		t.Fatalf("%d files, findings %+v, %v", len(files), found, err)
	}
	var sum, course credit.Amount
	courses := 0
	for _, c := range data.Claims {
		sum = sum.Add(c.Counted)
		if c.Category == "course" {
			course, courses = course.Add(c.Counted), courses+1
		}
	}
	for n, file := range files {
		want := map[string]string{"A1": "Holder: Mirela Tannhof", "A2": "VR-2217", "A3": sum.String(), "A4": course.String(), "A5": fmt.Sprint(courses),
			"A7": data.Claims[0].Title, "A8": "", "A9": fmt.Sprintf("%d/2", n+1)}
		for row := range 2 {
			c := data.Claims[2*n+row]
			want[fmt.Sprintf("A%d", 11+row)], want[fmt.Sprintf("B%d", 11+row)], want[fmt.Sprintf("C%d", 11+row)] = c.Title, c.End.String(), c.Counted.String()
			want[fmt.Sprintf("D%d", 11+row)] = fmt.Sprintf("%d. %s", 2*n+row+1, c.Fields["place"])
		}
		for cell, text := range want {
			if got := cellOf(t, file, cell); got != text {
				t.Errorf("file %d, %s: %q, want %q", n+1, cell, got, text)
			}
		}
	}
	if !slices.ContainsFunc(data.Claims, func(c audit.FormClaim) bool { return c.Fields["place"] == "Tarn" }) {
		t.Error("no claim has a place, so the log field shows nothing")
	}
}

func TestMappingsThatCannotBe(t *testing.T) {
	for text, want := range map[string]string{
		"":                                                      "names no field",
		"[field]\nA1 = 5":                                       "map.toml:2",
		"[field":                                                "map.toml:1",
		"[fields]\nA1 = \"today\"":                              `"fields" is not known`,
		"[field]\nA1 = \"holder.\"":                             "want a name after the point",
		"[field]\nA1 = \"claims.title\"":                        "which claim",
		"[field]\nA1 = \"claims[0].title\"":                     "counted from 1",
		"[field]\nA1 = \"most()\"":                              "is no function",
		"[field]\nA1 = 'sum(title=\"x\")'":                      "sum takes of and category",
		"[field]\nA1 = 'sum(of=\"x\"'":                          "want a comma or )",
		"[field]\nA1 = \"today today\"":                         "is too much",
		"[field]\nA1 = '\"open'":                                "literal not terminated",
		"[[rows]]\ncount = 2":                                   "has no field",
		"[[rows]]\n[rows.field]\n\"A{n}\" = \"today\"":          "want count",
		"[[rows]]\ncount = 2\n[rows.field]\nA1 = \"today\"":     "want {n} in its name",
		"[field]\nA1 = '" + strings.Repeat("date(", 40) + "1' ": "nested too deeply",
	} {
		if _, err := audit.ParseFormMap("map.toml", []byte(text)); !errors.Is(err, audit.ErrMap) || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
	}
}

// What only shows when a form is filled is named with its field, and nothing is made.
func TestExpressionsThatCannotBe(t *testing.T) {
	data := formData(t)
	r := page.NewReader(page.Options{})
	t.Cleanup(func() { r.Close() })
	for text, want := range map[string]string{
		"[field]\nA1 = \"holder.age\"":                    "holder.age is not known",
		"[field]\nA1 = \"claim.title\"":                   "claim is a row's",
		"[field]\nA1 = \"claims[1].colour\"":              "a claim has no field colour",
		"[field]\nA1 = 'sum(category=\"coarse\")'":        `the scheme has no category "coarse"`,
		"[field]\nA1 = 'sum(of=\"title\")'":               "want counted, awarded",
		"[field]\nA1 = 'date(holder.name, \"DD.MM.YY\")'": "is no day",
	} {
		m, err := audit.ParseFormMap("map.toml", []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		if files, _, err := audit.FillForm(t.Context(), r, blankSheet(t), m, data); !errors.Is(err, audit.ErrMap) || !strings.Contains(err.Error(), want) || len(files) > 0 {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
	}
	m, err := audit.ParseFormMap("map.toml", []byte("[field]\nC20 = \"sum()\"\n[[rows]]\ncount = 5\ncategories = [\"course\"]\n[rows.field]\n\"A{n}\" = \"claim.title\"\n"))
	if err != nil {
		t.Fatal(err)
	}
	_, found, err := audit.FillForm(t.Context(), r, blankSheet(t), m, data)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, f := range found {
		got = append(got, f.What)
	}
	slices.Sort(got)
	others := 0
	for _, c := range data.Claims {
		if c.Category != "course" {
			others++
		}
	}
	if want := append([]string{page.ProblemFormula}, slices.Repeat([]string{audit.FormLeftOut}, others)...); !slices.Equal(got, want) || others == 0 {
		t.Errorf("findings %q, want %q", got, want)
	}
}

func FuzzFormMap(f *testing.F) {
	f.Add(sheetMap)
	f.Add("[field]\nA1 = 'sum(of=\"hours\", category=\"x\") + 5 + date(today, \"YY\")'")
	f.Fuzz(func(t *testing.T, text string) {
		if _, err := audit.ParseFormMap("map.toml", []byte(text)); err != nil && !errors.Is(err, audit.ErrMap) {
			t.Fatalf("%q: %v", text, err)
		}
	})
}
