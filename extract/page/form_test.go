package page_test

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"evidencevault/extract/page"
)

// pdfForm makes a PDF with fields: a line, one of at most five letters, a box to tick, a
// list to choose from, a line nobody may write on, and a line with the same name on a
// second page.
func pdfForm() []byte {
	look := "/DA(/Helv 10 Tf 0 g)/F 4"
	page := func(annots string) string {
		return "<</Type/Page/Parent 2 0 R/MediaBox[0 0 595 842]/Resources<</Font<</Helv 3 0 R>>>>/Annots[" + annots + "]>>"
	}
	return pdf("<</Type/Catalog/Pages 2 0 R/AcroForm<</Fields[6 0 R 7 0 R 8 0 R 9 0 R 10 0 R]/DR<</Font<</Helv 3 0 R>>>>/DA(/Helv 10 Tf 0 g)>>>>",
		"<</Type/Pages/Kids[4 0 R 5 0 R]/Count 2>>", "<</Type/Font/Subtype/Type1/BaseFont/Helvetica/Encoding/WinAnsiEncoding>>",
		page("11 0 R 7 0 R 8 0 R 9 0 R 10 0 R"), page("12 0 R"),
		"<</FT/Tx/T(Holder name)/Kids[11 0 R 12 0 R]"+look+">>",
		"<</Type/Annot/Subtype/Widget/FT/Tx/T(Number)/MaxLen 5/Rect[50 650 150 670]"+look+">>",
		"<</Type/Annot/Subtype/Widget/FT/Btn/T(Truth)/Rect[50 600 65 615]/AS/Off/AP<</N<</Yes 13 0 R/Off 14 0 R>>>>"+look+">>",
		"<</Type/Annot/Subtype/Widget/FT/Ch/Ff 131072/T(Kind)/Opt[(Course)(Talk)]/Rect[50 550 200 570]"+look+">>",
		"<</Type/Annot/Subtype/Widget/FT/Tx/T(Office use)/Ff 1/Rect[50 500 200 520]"+look+">>",
		"<</Type/Annot/Subtype/Widget/Parent 6 0 R/Rect[50 700 300 720]"+look+">>",
		"<</Type/Annot/Subtype/Widget/Parent 6 0 R/Rect[50 700 300 720]"+look+">>",
		"<</Type/XObject/Subtype/Form/BBox[0 0 15 15]/Length 22>>\nstream\n0 0 m 15 15 l S       \nendstream",
		"<</Type/XObject/Subtype/Form/BBox[0 0 15 15]/Length 1>>\nstream\n \nendstream")
}

func what(list []page.Problem) []string {
	var out []string
	for _, p := range list {
		out = append(out, p.Name+" "+p.What)
	}
	slices.Sort(out)
	return out
}

func fieldNames(t *testing.T, b []byte) []string {
	t.Helper()
	list, err := reader(t).FormFields(t.Context(), bytes.NewReader(b), "")
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, f := range list {
		out = append(out, f.Name+" "+f.Kind+" "+f.Value)
	}
	return out
}

func fill(t *testing.T, b []byte, values ...page.FormValue) ([]byte, []page.Problem) {
	t.Helper()
	before := bytes.Clone(b)
	out, problems, err := reader(t).Fill(t.Context(), bytes.NewReader(b), values, "")
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(b, before) {
		t.Fatal("the form itself was changed")
	}
	return out, problems
}

// judged runs a program over a file and returns what it prints.
func judged(t *testing.T, name string, data []byte, program string, args ...string) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(file, data, 0o600); err != nil {
		t.Fatal(err)
	}
	for i, a := range args {
		if a == "FILE" {
			args[i] = file
		}
	}
	out, err := exec.CommandContext(t.Context(), program, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", program, err, out)
	}
	return string(out)
}

func TestFillAPDF(t *testing.T) {
	form := pdfForm()
	want := []string{"Holder name text ", "Number text ", "Truth check ", "Kind choice ", "Office use text "}
	if got := fieldNames(t, form); len(got) != len(want) || !strings.HasPrefix(got[2], "Truth check") {
		t.Errorf("fields %q, want %q", got, want)
	}
	out, problems := fill(t, form, page.FormValue{Name: "Holder name", Text: "Mirela Tannhöf, Straße 5"}, page.FormValue{Name: "Number", Text: "VR-22"},
		page.FormValue{Name: "Truth", Text: "yes"}, page.FormValue{Name: "Kind", Text: "Talk"})
	if len(problems) > 0 {
		t.Errorf("problems %+v", problems)
	}
	if checked := judged(t, "filled.pdf", out, "qpdf", "--check", "FILE"); strings.Contains(strings.ToLower(checked), "warning") || !strings.Contains(checked, "No syntax or stream encoding errors") {
		t.Errorf("qpdf: %s", checked)
	}
	// What others show of it: the field's picture was made, on both pages.
	if text := judged(t, "filled.pdf", out, "pdftotext", "-layout", "FILE", "-"); strings.Count(text, "Mirela Tannhöf, Straße 5") != 2 || !strings.Contains(text, "VR-22") || !strings.Contains(text, "Talk") {
		t.Errorf("pdftotext: %q", text)
	}
	if got := strings.Join(fieldNames(t, out), "; "); !strings.Contains(got, "Holder name text Mirela Tannhöf, Straße 5") || !strings.Contains(got, "Number text VR-22") || !strings.Contains(got, "Kind choice Talk") {
		t.Errorf("read back: %s", got)
	}
	if text := judged(t, "filled.pdf", out, "qpdf", "--qdf", "--object-streams=disable", "FILE", "-"); !strings.Contains(text, "/AS /Yes") {
		t.Error("the box is not ticked")
	}
}

func TestWhatAPDFDoesNotTake(t *testing.T) {
	_, problems := fill(t, pdfForm(), page.FormValue{Name: "Number", Text: "VR-2217"}, page.FormValue{Name: "Kind", Text: "Book"},
		page.FormValue{Name: "Office use", Text: "x"}, page.FormValue{Name: "Nowhere", Text: "x"}, page.FormValue{Name: "Holder name", Text: strings.Repeat("much too long ", 10)})
	want := []string{"Holder name overlong", "Kind no-such-choice", "Nowhere unknown-field", "Number overlong", "Office use locked"}
	if got := what(problems); !slices.Equal(got, want) {
		t.Errorf("problems %q, want %q", got, want)
	}
	for name, b := range map[string][]byte{"no field": onePage("BT /F 12 Tf 50 700 Td (print me) Tj ET"), "text": []byte("just text, no form"), "cut off": pdfForm()[:400], "empty": nil} {
		if _, _, err := reader(t).Fill(t.Context(), bytes.NewReader(b), nil, ""); !errors.Is(err, page.ErrNoForm) {
			t.Errorf("%s: %v, want ErrNoForm", name, err)
		}
	}
	if got := fieldNames(t, pdfForm()); len(got) != 5 {
		t.Errorf("the reader does not go on: %q", got)
	}
}

// docxForm makes a document with two content controls, one of them in two runs with a
// hint, and one that is locked.
func docxForm(t *testing.T) []byte {
	t.Helper()
	control := func(properties, content string) string {
		return "<w:p><w:sdt><w:sdtPr>" + properties + "</w:sdtPr><w:sdtContent>" + content + "</w:sdtContent></w:sdt></w:p>"
	}
	body := `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>
<w:document xmlns:w="http://schemas.openxmlformats.org/wordprocessingml/2006/main" xmlns:odd="urn:odd"><w:body odd:kept="yes"><w:p><w:r><w:t>Report of </w:t></w:r></w:p>` +
		control(`<w:alias w:val="The holder"/><w:tag w:val="holder"/><w:showingPlcHdr/>`, `<w:r><w:rPr><w:b/></w:rPr><w:t>Click </w:t></w:r><w:r><w:t>here</w:t></w:r>`) +
		control(`<w:alias w:val="Titles"/>`, `<w:r><w:t/></w:r>`) +
		control(`<w:tag w:val="office"/><w:lock w:val="sdtContentLocked"/>`, `<w:r><w:t>ours</w:t></w:r>`) + `</w:body></w:document>`
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, f := range [][2]string{
		{"[Content_Types].xml", `<?xml version="1.0"?><Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/word/document.xml" ContentType="application/vnd.openxmlformats-officedocument.wordprocessingml.document.main+xml"/></Types>`},
		{"_rels/.rels", `<?xml version="1.0"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="r1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="word/document.xml"/></Relationships>`},
		{"word/document.xml", body}} {
		w, err := z.Create(f[0])
		if err != nil {
			t.Fatal(err)
		}
		if _, err := io.WriteString(w, f[1]); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func part(t *testing.T, b []byte, name string) string {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(b), int64(len(b)))
	if err != nil {
		t.Fatal(err)
	}
	f, err := z.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	data, err := io.ReadAll(f)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func TestFillADocument(t *testing.T) {
	form := docxForm(t)
	if got := fieldNames(t, form); !slices.Equal(got, []string{"holder text Click here", "Titles text ", "office text ours"}) {
		t.Errorf("fields %q", got)
	}
	out, problems := fill(t, form, page.FormValue{Name: "holder", Text: "Mirela <&> Tannhof"}, page.FormValue{Name: "Titles", Text: "One\nTwo"},
		page.FormValue{Name: "office", Text: "x"}, page.FormValue{Name: "none", Text: "x"})
	if got := what(problems); !slices.Equal(got, []string{"none unknown-field", "office locked"}) {
		t.Errorf("problems %q", got)
	}
	before, after := part(t, form, "word/document.xml"), part(t, out, "word/document.xml")
	want := strings.NewReplacer(`<w:showingPlcHdr/>`, "", `<w:t>Click </w:t>`, `<w:t xml:space="preserve">Mirela &lt;&amp;&gt; Tannhof</w:t>`, `<w:t>here</w:t>`, "",
		`<w:t/>`, `<w:t xml:space="preserve">One</w:t><w:br/><w:t xml:space="preserve">Two</w:t>`).Replace(before)
	if after != want {
		t.Errorf("got\n%s\nwant\n%s", after, want)
	}
	if part(t, out, "_rels/.rels") != part(t, form, "_rels/.rels") {
		t.Error("another part of the document was changed")
	}
	if got := text(readBytes(t, reader(t), out, page.Request{})); !strings.Contains(got, "Mirela <&> Tannhof") || !strings.Contains(got, "Two") {
		t.Errorf("read back: %q", got)
	}
}

func workbook(t *testing.T) []byte {
	t.Helper()
	book := excelize.NewFile()
	defer book.Close()
	var errs []error
	errs = append(errs, book.SetCellStr("Sheet1", "A1", "Annual report"), book.SetColWidth("Sheet1", "A", "A", 40), book.SetCellFormula("Sheet1", "C9", "SUM(C2:C8)"))
	_, err := book.NewSheet("Other page")
	var b bytes.Buffer
	if err := errors.Join(append(errs, err, book.Write(&b))...); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestFillAWorkbook(t *testing.T) {
	form := workbook(t)
	if got := fieldNames(t, form); !slices.Contains(got, "Sheet1!A1 cell Annual report") {
		t.Errorf("cells %q", got)
	}
	number := func(cell, n string) page.FormValue {
		return page.FormValue{Name: cell, Text: n, Raw: n, Kind: page.ValueNumber}
	}
	out, problems := fill(t, form, page.FormValue{Name: "A2", Text: "=HYPERLINK(\"x\")"}, page.FormValue{Name: "B2", Text: "5 March 2026", Raw: "2026-03-05", Kind: page.ValueDay},
		number("C2", "7.25"), number("C3", "31/3"), number("C9", "1"), page.FormValue{Name: "'Other page'!B3", Text: "here"}, page.FormValue{Name: "Nowhere!B3", Text: "x"},
		page.FormValue{Name: "D4", Text: strings.Repeat("wide ", 20)})
	if got := what(problems); !slices.Equal(got, []string{"C9 formula", "D4 overlong", "Nowhere!B3 unknown-field"}) {
		t.Errorf("problems %q", got)
	}
	dir := t.TempDir()
	name := filepath.Join(dir, "filled.xlsx")
	if err := os.WriteFile(name, out, 0o600); err != nil {
		t.Fatal(err)
	}
	converted, err := exec.CommandContext(t.Context(), "soffice", "-env:UserInstallation=file://"+t.TempDir(), "--headless", "--norestore", "--convert-to",
		"csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true,false,false,false,-1", "--outdir", dir, name).CombinedOutput()
	if err != nil {
		t.Fatalf("soffice: %v\n%s", err, converted)
	}
	rows, err := os.ReadFile(filepath.Join(dir, "filled-Sheet1.csv"))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`"=HYPERLINK(""x"")",2026-03-05,7.25`, "10.33", "17.58"} {
		if !strings.Contains(string(rows), want) {
			t.Errorf("LibreOffice shows no %s:\n%s", want, rows)
		}
	}
	if other, err := os.ReadFile(filepath.Join(dir, "filled-Other page.csv")); err != nil || !strings.Contains(string(other), "here") {
		t.Errorf("the other sheet: %q, %v", other, err)
	}
}

func FuzzFormInTheChild(f *testing.F) {
	f.Add(pdfForm())
	f.Add([]byte("PK\x03\x04"))
	f.Fuzz(func(t *testing.T, b []byte) {
		_, _, err := reader(t).Fill(t.Context(), bytes.NewReader(b), []page.FormValue{{Name: "Number", Text: "1"}}, "")
		if err != nil && !errors.Is(err, page.ErrNoForm) && !errors.Is(err, page.ErrLocked) {
			t.Fatal(fmt.Errorf("a form may be refused, and nothing else: %w", err))
		}
	})
}

// TestTicksAreRead: a box to tick of a form stands in the text of its page with its state.
func TestTicksAreRead(t *testing.T) {
	blank := pdfForm()
	ticked, _ := fill(t, blank, page.FormValue{Name: "Truth", Text: "yes"})
	for want, b := range map[string][]byte{page.Unticked: blank, page.Ticked: ticked} {
		var got []string
		for _, w := range readBytes(t, reader(t), b, page.Request{}).Pages[0].Words {
			got = append(got, w.Text)
		}
		if !slices.Contains(got, want) {
			t.Errorf("the words of the page are %q, without %s", got, want)
		}
	}
}
