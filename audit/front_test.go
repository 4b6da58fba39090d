package audit_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"html"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"evidencevault/audit"
	"evidencevault/intake"
	"evidencevault/internal/demo"
	"evidencevault/journal"
)

// asked is a vault like vault's in which a paper left a question open and was answered, a
// value was corrected, and one paper is in French.
func asked(t *testing.T) *journal.Journal {
	t.Helper()
	j, ctx, papers := vault(t), t.Context(), t.TempDir()
	for _, p := range demo.Papers() {
		switch p.Name {
		case "visual inspection course.pdf", "attestation_evacuation.pdf":
			if err := os.WriteFile(filepath.Join(papers, p.Name), p.Data, 0o600); err != nil {
				t.Fatal(err)
			}
		}
	}
	in := intake.New(j.Catalog(), intake.Options{Settle: time.Millisecond})
	report, err := added(ctx, in, papers)
	if err := errors.Join(err, in.Close()); err != nil || len(report.Left) > 0 {
		t.Fatalf("left %+v: %v", report.Left, err)
	}
	waiting, err := j.Waiting(ctx)
	if err != nil || len(waiting) != 2 {
		t.Fatalf("%d wait, want 2: %v; read: %+v", len(waiting), err, report.Read)
	}
	for _, p := range waiting {
		o := journal.ConfirmOptions{}
		if len(p.Questions) > 0 {
			o.Set = map[string]string{"start_date": "2026-04-03", "end_date": "2026-04-03"}
		}
		if _, err := j.Confirm(ctx, []string{p.ID}, o); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := j.ClaimChange(ctx, "C1", map[string]string{"provider": "Another House"}, ""); err != nil {
		t.Fatal(err)
	}
	return j
}

func dossier(t *testing.T, j *journal.Journal, language string) audit.Dossier {
	t.Helper()
	d, err := audit.Gather(t.Context(), j, "", on)
	if err != nil {
		t.Fatal(err)
	}
	if d, err = d.In(language); err != nil {
		t.Fatal(err)
	}
	return d
}

var (
	markup = regexp.MustCompile(`(?s)<style>.*?</style>|<[^>]*>`)
	blanks = regexp.MustCompile(`\s+`)
)

func spaced(text string) string { return blanks.ReplaceAllString(text, " ") }

// pdfText is the text of a PDF in reading order, without line ends.
func pdfText(t *testing.T, file string) string { return spaced(output(t, "pdftotext", file, "-")) }

// A category that the holder chose among several is told as an answer, one that the scheme
// settles is not; and a document whose language could not be told is listed.
func TestFirstPageTellsChosenCategoriesAndUnknownLanguages(t *testing.T) {
	j := largeVault(t, 2, func(i int) []byte { return fmt.Appendf(nil, "%%PDF-1.4 %d", i) })
	ctx := t.Context()
	cert, err := j.Certified(ctx, "", on)
	if err != nil {
		t.Fatal(err)
	}
	several := cert.Scheme.Accepting("meeting")
	if len(several) < 2 {
		t.Fatalf("%d categories of the demo accept a meeting, want several", len(several))
	}
	if _, err := j.ClaimChange(ctx, "C2", map[string]string{"kind": "meeting"}, ""); err != nil {
		t.Fatal(err)
	}
	if _, err := j.ClaimChange(ctx, "C2", map[string]string{"category": several[1].ID}, ""); err != nil {
		t.Fatal(err)
	}
	for language, want := range map[string]string{
		"en": "C2: category. The document certificate 2.pdf left this open: “Several categories accept a paper of the kind meeting. In which one do you claim it?” " +
			demo.Holder + " answered: " + several[1].Title + ".",
		"de": "C2: Kategorie. Das Dokument certificate 2.pdf ließ offen: „Mehrere Kategorien nehmen ein Papier der Art Sitzung an. In welcher soll es angerechnet werden?“ " +
			demo.Holder + " hat geantwortet: " + several[1].Title + ".",
	} {
		text := firstPage(t, dossier(t, j, language))
		if !strings.Contains(text, want) || strings.Contains(text, "certificate 1.pdf left") {
			t.Errorf("%s: want %q in %s", language, want, text)
		}
	}
	d := dossier(t, j, "en")
	d.Originals[0].Languages = []string{"und"} // as of a paper with too few words to tell
	if text := firstPage(t, d); !strings.Contains(text, "Language not told: C") {
		t.Errorf("the unknown language is not told: %s", text)
	}
}

// firstPage is the text of index.html, blanks as one.
func firstPage(t *testing.T, d audit.Dossier) string {
	t.Helper()
	var page bytes.Buffer
	if err := d.WriteHTML(&page); err != nil {
		t.Fatal(err)
	}
	return spaced(html.UnescapeString(markup.ReplaceAllString(page.String(), "")))
}

// The first page says the same in every form: whose certification it is, what was asked,
// what is counted, what an auditor would ask, how it is checked, and a place to sign.
func TestFirstPageIsTheSameInEveryForm(t *testing.T) {
	j := asked(t)
	for _, language := range audit.Languages() {
		d := dossier(t, j, language).WithoutUnproven()
		packet := packed(t, j, d, filepath.Join(t.TempDir(), "packet"))
		file, _ := binder(t, func(file string) (audit.Binder, error) {
			return audit.WriteBinder(t.Context(), j.Catalog().Store(), d, file, audit.BinderOptions{Pages: reader(t)})
		})
		page, err := os.ReadFile(filepath.Join(packet, "data", "index.html"))
		if err != nil {
			t.Fatal(err)
		}
		first, _, ok := strings.Cut(string(page), `<section class="sheet"`)
		if !ok {
			t.Fatal("the index has no first page")
		}
		index, bound := pdfText(t, filepath.Join(packet, "data", "index.pdf")), pdfText(t, file)
		pieces := 0
		for _, piece := range markup.Split(first[strings.Index(first, "<header>"):], -1) {
			piece = strings.TrimPrefix(spaced(strings.TrimSpace(html.UnescapeString(piece))), ", ")
			if len(piece) < 2 {
				continue
			}
			pieces++
			piece = strings.TrimPrefix(piece, ": ")
			if !says(index, piece) && !inCaption(first, piece) {
				t.Errorf("%s: index.pdf lacks %q", language, piece)
			}
			if kind := pieces == 1; kind || inSteps(first, piece) || inCaption(first, piece) {
				continue // of the binder's own kind, in its own words
			}
			if !says(bound, piece) {
				t.Errorf("%s: the binder lacks %q", language, piece)
			}
		}
		if pieces < 60 {
			t.Errorf("%s: only %d pieces", language, pieces)
		}
	}
}

// says reports whether a printed text has the piece. The heading of a narrow column is
// broken into its words, line by line beside the others.
func says(text, piece string) bool {
	if strings.Contains(text, piece) {
		return true
	}
	parts := strings.Fields(piece)
	return len(parts) == 2 && strings.Contains(text, parts[0]) && strings.Contains(text, parts[1])
}

// inSteps reports whether the piece is one of the steps of checking, of which a binder has
// its own.
func inSteps(page, piece string) bool {
	_, after, _ := strings.Cut(page, "<ol>")
	steps, _, _ := strings.Cut(after, "</ol>")
	return strings.Contains(steps, html.EscapeString(piece))
}

// inCaption reports whether the piece is the caption that only a screen reader says.
func inCaption(page, piece string) bool {
	return strings.Contains(page, `<caption class="quiet">`+html.EscapeString(piece)+`</caption>`)
}

// An answered question is told with what was asked, which value was given and by whom; a
// corrected value with what the document shows; a paper in another language by its name.
func TestFirstPageTellsAnswersCorrectionsAndLanguages(t *testing.T) {
	j := asked(t)
	for _, tt := range []struct {
		language string
		want     []string
		not      string
	}{
		{"en", []string{
			"start date. The document visual inspection course.pdf left this open: “Is 03/04/2026 the 3rd of April 2026 or the 4th of March 2026?",
			demo.Holder + " answered: 3 April 2026.",
			"provider: “Another House”, set by " + demo.Holder, " shows “",
			"no document of a kind that the category accepts proves it", "French: C", "attestation_evacuation.pdf"}, "English: C"},
		{"de", []string{
			"Beginn. Das Dokument visual inspection course.pdf ließ offen: „Ist 03/04/2026 der 3. April 2026 oder der 4. März 2026?",
			demo.Holder + " hat geantwortet: 3. April 2026.", "Französisch: C", "Englisch: C"}, "Deutsch: C"},
	} {
		text := firstPage(t, dossier(t, j, tt.language))
		for _, want := range tt.want {
			if !strings.Contains(text, want) {
				t.Errorf("%s: it does not say %q", tt.language, want)
			}
		}
		if strings.Contains(text, tt.not) {
			t.Errorf("%s: it says %q", tt.language, tt.not)
		}
	}
	var form bytes.Buffer
	if err := dossier(t, j, "de").WriteJSON(&form); err != nil {
		t.Fatal(err)
	}
	var got struct{ Exceptions []audit.Exception }
	if err := json.Unmarshal(form.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	kinds := map[string]int{}
	for _, x := range got.Exceptions {
		kinds[x.Kind]++
	}
	if kinds["answered"] != 2 || kinds["corrected"] != 1 || kinds["unproven"] != 1 || kinds["language"] != 5 || kinds["open"] != 0 {
		t.Errorf("exceptions %v", kinds)
	}
}

// Where only some claims are handed over, every form says what these come to and what the
// whole cycle does, so that neither can be taken for the other.
func TestDrawnClaimsAreNotTakenForTheWhole(t *testing.T) {
	j := asked(t)
	d := dossier(t, j, "")
	some, err := d.Sample(2, "letter of 2 May")
	if err != nil {
		t.Fatal(err)
	}
	some = some.WithoutUnproven()
	dir := packed(t, j, some, filepath.Join(t.TempDir(), "packet"))
	here := some.Claims[0].Counted
	for _, e := range some.Claims[1:] {
		here = here.Add(e.Counted)
	}
	all := d.Statement.Counted
	if here.Equal(all) {
		t.Fatal("the sample is the whole: the test shows nothing")
	}
	var got struct{ Totals audit.Totals }
	data, err := os.ReadFile(filepath.Join(dir, "data", "index.json"))
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, &got); err != nil {
		t.Fatal(err)
	}
	h, w := got.Totals.HandedOver, got.Totals.WholeCycle
	if h.Claims != len(some.Claims) || !h.Counted.Equal(here) || w.Claims != len(d.Claims) || !w.Counted.Equal(all) {
		t.Errorf("totals %+v", got.Totals)
	}
	sums := func(list []audit.CategoryAmount) (n int) {
		for _, c := range list {
			n += c.Claims
		}
		return n
	}
	if sums(h.Categories) != h.Claims || sums(w.Categories) != w.Claims {
		t.Errorf("the categories do not add up: %+v", got.Totals)
	}
	lead := fmt.Sprintf("Of the %d claims handed over, %v of %v points awarded are counted.", len(some.Claims), here, h.Awarded)
	whole := fmt.Sprintf("The whole cycle, %d claims: %v of 40 points are counted.", len(d.Claims), all)
	for name, text := range map[string]string{
		"index.pdf":       pdfText(t, filepath.Join(dir, "data", "index.pdf")),
		"index.html":      spaced(markup.ReplaceAllString(read(t, filepath.Join(dir, "data", "index.html")), " ")),
		"derivations.txt": spaced(read(t, filepath.Join(dir, "data", "derivations.txt"))),
	} {
		if !strings.Contains(text, lead) || !strings.Contains(text, whole) {
			t.Errorf("%s does not say %q and %q", name, lead, whole)
		}
	}
	if cells := recalculated(t, filepath.Join(dir, "data", "index.xlsx"), "Standing"); !near(cells[7][1], here) || !near(cells[4][1], all) ||
		!strings.Contains(cells[7][0], fmt.Sprintf("only the %d claims handed over", len(some.Claims))) || !strings.Contains(cells[4][0], fmt.Sprintf("all %d claims", len(d.Claims))) {
		t.Errorf("the workbook says %q and %q", cells[4], cells[7])
	}
}

func read(t *testing.T, name string) string {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// recalculated has an office program work out a workbook and returns a sheet's cells.
func recalculated(t *testing.T, file, sheet string) [][]string {
	t.Helper()
	dir, profile := t.TempDir(), t.TempDir()
	out, err := exec.CommandContext(t.Context(), "soffice", "-env:UserInstallation=file://"+profile, "--headless", "--norestore", "--convert-to",
		"csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,false,false,false,-1", "--outdir", dir, file).CombinedOutput()
	if err != nil {
		t.Fatalf("soffice: %v\n%s", err, out)
	}
	return cells(t, filepath.Join(dir, strings.TrimSuffix(filepath.Base(file), ".xlsx")+"-"+sheet+".csv"))
}

var englishWord = regexp.MustCompile(`(?i)\b(the|of|and|is|are|were|with|from|this|that|which|what|how|you|your|its|not|paper|pages?|claims?|claimed|days?|earns?|taken|confirmed|answer(ed)?|says?|counts?|counted|rules?|because|proof|by|to|at most|least|asks?|allows?|nothing|served|missing|carried|total|year|only|file|title|awarded|minimum|met|holder|other|open|reached)\b`)

// Nothing that is handed over in German has an English word of the program's own in it: what
// stays is what documents, the scheme and the holder wrote.
func TestNothingEnglishIsHandedOverInGerman(t *testing.T) {
	j := asked(t)
	all := dossier(t, j, "de")
	some, err := all.Only([]string{"C1", "C5"})
	if err != nil {
		t.Fatal(err)
	}
	texts := map[string]string{}
	for name, d := range map[string]audit.Dossier{"all": all.WithoutUnproven(), "some": some} {
		dir := packed(t, j, d, filepath.Join(t.TempDir(), "packet"))
		page := read(t, filepath.Join(dir, "data", "index.html"))
		texts[name+" index.html"] = html.UnescapeString(markup.ReplaceAllString(page[strings.Index(page, "<title>"):], "\n"))
		printed := output(t, "pdftotext", filepath.Join(dir, "data", "index.pdf"), "-")
		texts[name+" index.pdf"] = printed[:strings.LastIndex(printed, "Originaldateien")] // then come the copies' names, broken anywhere
		texts[name+" derivations.txt"] = read(t, filepath.Join(dir, "data", "derivations.txt"))
		texts[name+" HOW-TO-CHECK.txt"] = read(t, filepath.Join(dir, "HOW-TO-CHECK.txt"))
		_, texts[name+" bag-info.txt"], _ = strings.Cut(read(t, filepath.Join(dir, "bag-info.txt")), "External-Description: ")
		texts[name+" index.xlsx"] = workbook(t, filepath.Join(dir, "data", "index.xlsx"))
	}
	foreign := foreignTexts(all)
	looked := 0
	for name, text := range texts {
		text = spaced(text)
		for _, f := range foreign {
			text = strings.ReplaceAll(text, f, " ")
		}
		text = regexp.MustCompile(`[\w-]*\.(txt|toml|html|pdf|json|xlsx)\b|sha\d+sum|vaultctl standing|External-Identifier.*|https?://\S*|\[[^\]]*\.toml:[^\]]*\]`).ReplaceAllString(text, "")
		looked += len(text)
		for _, at := range englishWord.FindAllStringIndex(text, -1) {
			t.Errorf("%s: %q in “…%s…”", name, text[at[0]:at[1]], text[max(0, at[0]-60):min(len(text), at[1]+40)])
		}
	}
	if looked < 20000 {
		t.Errorf("only %d bytes were looked at", looked)
	}
}

// workbook is all text of a workbook, its sheets' names too.
func workbook(t *testing.T, file string) string {
	t.Helper()
	book, err := excelize.OpenFile(file)
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close() // it was only read
	var b strings.Builder
	for _, sheet := range book.GetSheetList() {
		rows, err := book.GetRows(sheet)
		if err != nil {
			t.Fatal(err)
		}
		b.WriteString(sheet + "\n")
		for _, row := range rows {
			b.WriteString(strings.Join(row, "\n") + "\n")
		}
	}
	return b.String()
}

// foreignTexts is what documents, scheme and holder wrote, the longest first.
func foreignTexts(d audit.Dossier) []string {
	list := []string{d.Title, d.Body, d.Holder, d.Scheme.Source, d.Head}
	for line := range strings.Lines(d.Head) {
		list = append(list, strings.TrimSpace(line))
	}
	for _, e := range d.Claims {
		list = append(list, e.Title, e.Provider, e.CategoryTitle, e.Rule.Source)
		for _, p := range e.Proofs {
			list = append(list, p.Value, p.Quote, p.File, p.Copy)
		}
	}
	for _, x := range d.Exceptions {
		list = append(list, x.Shown, x.Value)
	}
	for _, c := range d.Statement.Rules().Categories {
		list = append(list, c.Title, c.Source, c.ID)
	}
	for _, k := range d.Statement.Rules().Caps {
		list = append(list, k.Source)
	}
	for _, m := range d.Statement.Rules().Minimums {
		list = append(list, m.Source, m.ID)
	}
	list = append(list, d.Statement.Rules().Target.Source)
	for _, o := range d.Originals {
		list = append(list, o.Names...)
	}
	for i := range list {
		list[i] = spaced(list[i])
	}
	list = slices.DeleteFunc(list, func(s string) bool { return len(s) < 4 })
	slices.SortFunc(list, func(a, b string) int { return len(b) - len(a) })
	return slices.Compact(list)
}
