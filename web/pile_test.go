package web_test

import (
	"bytes"
	"fmt"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"codeberg.org/go-pdf/fpdf"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/extract/paper"
	"evidencevault/internal/demo"
	"evidencevault/journal"
)

// book makes a PDF with one line on each page, of this size in points.
func book(t *testing.T, pages int, width, height float64) []byte {
	t.Helper()
	f := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: fpdf.SizeType{Wd: width, Ht: height}})
	f.SetFont("Helvetica", "", 14)
	for n := range pages {
		f.AddPage()
		f.Text(60, 80, fmt.Sprintf("Page %d: Certificate of attendance, Rope course %d, 4 hours on 3 March 2026", n+1, n+1))
	}
	var b bytes.Buffer
	if err := f.Output(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// put takes in files by their names and returns the papers that wait.
func (v *served) put(files map[string][]byte) []journal.WaitingPaper {
	v.Helper()
	dir := v.TempDir()
	for name, data := range files {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o600); err != nil {
			v.Fatal(err)
		}
	}
	if _, err := v.intake.Add(v.Context(), dir); err != nil {
		v.Fatal(err)
	}
	list, err := v.journal.Waiting(v.Context())
	if err != nil {
		v.Fatal(err)
	}
	return list
}

// send posts a form of the page, and follows to the screen that comes.
func (v *served) send(path string, form url.Values) (int, string) {
	v.Helper()
	form.Set("token", v.token())
	r, err := http.NewRequestWithContext(v.Context(), http.MethodPost, v.address+path, strings.NewReader(form.Encode()))
	if err != nil {
		v.Fatal(err)
	}
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	resp, err := http.DefaultClient.Do(r)
	if err != nil {
		v.Fatal(err)
	}
	defer resp.Body.Close()
	var b bytes.Buffer
	if _, err := b.ReadFrom(resp.Body); err != nil {
		v.Fatal(err)
	}
	return resp.StatusCode, b.String()
}

// get is one screen as it is sent.
func (v *served) get(path string) string {
	v.Helper()
	status, body, _ := v.ask(http.MethodGet, v.address+path, "", "", nil)
	if status != http.StatusOK {
		v.Fatalf("%s: %d %s", path, status, body)
	}
	return body
}

// made is a reading of a paper that was never read.
func made(pages int, values map[paper.Field]string) paper.Reading {
	r := paper.Reading{From: 1, To: pages, Outcome: paper.OutcomeRead, Values: map[paper.Field]paper.Value{}}
	for f, text := range values {
		r.Values[f] = paper.Value{Text: text, Certain: true, By: paper.ByProgram, Place: paper.Place{Page: 1, Box: paper.Box{100, 100, 900, 200}, Quote: text}}
	}
	return r
}

// keep puts papers with made readings into the vault, all in one act.
func (v *served) keep(data func(n int) []byte, list ...paper.Reading) {
	v.Helper()
	err := v.journal.Catalog().Act(v.Context(), func(tx *catalog.Tx) error {
		for i, r := range list {
			bytesOf := data(i)
			kept, err := v.journal.Catalog().Store().Put(v.Context(), bytes.NewReader(bytesOf), int64(len(bytesOf)))
			if err != nil {
				return err
			}
			n, err := tx.Next(v.Context(), catalog.LetterPaper)
			if err != nil {
				return err
			}
			taken := &catalog.EvidenceTaken{SHA256: kept.SHA256, Size: kept.Size, Type: kept.Type, Ext: kept.Ext, Name: catalog.FileName(fmt.Sprintf("paper %d.txt", n)), Paper: catalog.NewID(), Number: n}
			if _, err := tx.Record(v.Context(), taken); err != nil {
				return err
			}
			if _, err := tx.Record(v.Context(), &catalog.ReadingMade{Paper: taken.Paper, Reading: r}); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		v.Fatal(err)
	}
}

// transcript is a list of four courses, each of which becomes a claim; the second says no
// length.
func transcript() paper.Reading {
	r := made(1, map[paper.Field]string{paper.FieldKind: "transcript", paper.FieldProvider: "Vallmere Registry", paper.FieldAttendee: demo.Holder})
	for i, title := range []string{"Grips", "Haul ropes", "Evacuation", "Brakes"} {
		day := credit.MustDate("2026-01-10").AddMonths(i)
		row := paper.Row{Title: title, Start: day, End: day, Duration: new(credit.Minutes(240)), Place: paper.Place{Page: 1, Quote: title}}
		if i == 1 {
			row.Duration = nil
		}
		r.Rows = append(r.Rows, row)
	}
	return r
}

// states says what became of each row.
func (v *served) states(id string) string {
	v.Helper()
	d, err := v.journal.Show(v.Context(), id)
	if err != nil {
		v.Fatal(err)
	}
	var list []string
	for _, r := range d.Paper.Rows {
		list = append(list, r.State)
	}
	return strings.Join(list, ", ")
}

// A transcript is decided row by row: one by itself with its own values, some left out,
// some later, the rest together; each act is taken back by one button.
func TestTranscriptRowByRow(t *testing.T) {
	v := serve(t)
	v.keep(func(int) []byte { return []byte("a list of courses") }, transcript())
	form := func(pairs ...string) url.Values {
		f := url.Values{"ask.category": {"course"}}
		for i := 0; i < len(pairs); i += 2 {
			f.Add(pairs[i], pairs[i+1])
		}
		return f
	}
	t.Run("a row by itself, with its own values", func(t *testing.T) {
		v.T = t
		if whole := v.get("paper/P1"); strings.Count(whole, `name="row.`) != 4 || strings.Contains(whole, `name="set.title"`) {
			t.Error("the whole list has other choices than one for each row")
		}
		if one := v.get("paper/P1?row=2"); !strings.Contains(one, "Row 2 by itself") || !strings.Contains(one, `value="Haul ropes"`) {
			t.Errorf("row 2 by itself lacks its title:\n%s", one)
		}
		status, body := v.send("paper/P1/confirm", form("row", "2", "set.title", "Haul ropes, anew", "was.title", "Haul ropes", "set.duration_minutes", "120", "was.duration_minutes", ""))
		if got := v.states("P1"); status != http.StatusOK || got != "waiting, confirmed, waiting, waiting" || !strings.Contains(body, "Row 3 by itself") {
			t.Fatalf("%d %s\n%s", status, got, body)
		}
		claims, err := v.journal.Claims(t.Context(), journal.ClaimsFilter{})
		if err != nil || len(claims) != 1 || claims[0].Title != "Haul ropes, anew" || *claims[0].Duration != 120 {
			t.Errorf("claims %+v, %v", claims, err)
		}
	})
	t.Run("some left out, some later, the rest claimed", func(t *testing.T) {
		v.T = t
		none := form("row.1", "leave", "row.3", "later", "row.4", "later")
		if status, body := v.send("paper/P1/confirm", none); status != http.StatusUnprocessableEntity || !strings.Contains(body, "No row is to be claimed") {
			t.Errorf("nothing to claim: %d", status)
		}
		some := form("row.1", "leave", "row.3", "claim", "row.4", "later")
		if status, body := v.send("paper/P1/preview", some); status != http.StatusOK || strings.Count(body, "Earns") != 1 {
			t.Errorf("foretold %d: %d", status, strings.Count(body, "Earns"))
		}
		if status, body := v.send("paper/P1/confirm", some); status != http.StatusOK || v.states("P1") != "left out, confirmed, confirmed, waiting" {
			t.Errorf("%d %s\n%s", status, v.states("P1"), body)
		}
		if status, _ := v.send("paper/P1/confirm", form("row.4", "claim")); status != http.StatusOK || v.states("P1") != "left out, confirmed, confirmed, confirmed" {
			t.Errorf("the last row: %d %s", status, v.states("P1"))
		}
	})
	t.Run("taken back act by act", func(t *testing.T) {
		v.T = t
		for _, want := range []string{"left out, confirmed, confirmed, waiting", "waiting, confirmed, waiting, waiting", "waiting, waiting, waiting, waiting"} {
			if status, body := v.send("undo", url.Values{"id": {"P1"}}); status != http.StatusOK || v.states("P1") != want {
				t.Errorf("%d %s, want %s\n%s", status, v.states("P1"), want, body)
			}
		}
		if claims, err := v.journal.Claims(t.Context(), journal.ClaimsFilter{}); err != nil || len(claims) != 0 {
			t.Errorf("%d claims are left, %v", len(claims), err)
		}
	})
}

// Pages are cut and joined by looking at them, by keyboard and with undo.
func TestCutAndJoinByLooking(t *testing.T) {
	v := serve(t)
	v.put(map[string][]byte{"three.pdf": book(t, 3, 595, 842)})
	ctx := browser(t, 1280, 800, false, true)
	v.open(ctx, "paper/P1")
	key(t, ctx, "s")
	is(t, ctx, "document.body.dataset.screen === 'cut' && document.querySelectorAll('.strip img').length === 3 && [...document.querySelectorAll('.strip img')].every(i => i.complete && i.naturalWidth > 0)")
	run(t, ctx, chromedp.Focus(`input[value="3"]`))
	run(t, ctx, chromedp.KeyEvent(" "))
	key(t, ctx, "c")
	is(t, ctx, "document.body.dataset.screen === 'paper' && document.querySelector('.note').innerText.includes('cut into 2 papers')")
	if got := v.ranges(); got != "P2 1-2, P3 3-3" {
		t.Errorf("cut into %s", got)
	}
	key(t, ctx, "s")
	is(t, ctx, "document.body.dataset.screen === 'cut' && document.querySelector('.beside')")
	key(t, ctx, "o")
	is(t, ctx, "document.body.dataset.screen === 'paper' && document.querySelector('.note').innerText.includes('joined to P4')")
	if got := v.ranges(); got != "P4 1-3" {
		t.Errorf("joined to %s", got)
	}
	key(t, ctx, "u")
	is(t, ctx, "document.querySelector('.note') && document.querySelector('.note').innerText.includes('taken back')")
	if got := v.ranges(); got != "P2 1-2, P3 3-3" {
		t.Errorf("after undo %s", got)
	}
}

// ranges lists the papers that wait with their pages.
func (v *served) ranges() string {
	v.Helper()
	list, err := v.journal.Waiting(v.Context())
	if err != nil {
		v.Fatal(err)
	}
	var out []string
	for _, p := range list {
		out = append(out, fmt.Sprintf("%s %d-%d", p.ID, p.Pages[0], p.Pages[1]))
	}
	return strings.Join(out, ", ")
}

// Set aside with a reason, attached to a claim, and made the cost of an activity: by keys,
// each taken back.
func TestOtherActsByKeyboard(t *testing.T) {
	v := serve(t)
	course := func(title string) paper.Reading {
		return made(1, map[paper.Field]string{paper.FieldKind: "attendance", paper.FieldTitle: title, paper.FieldProvider: "Vallmere", paper.FieldAttendee: demo.Holder,
			paper.FieldEnd: "2026-03-03", paper.FieldDuration: "240", paper.FieldCategory: "course"})
	}
	receipt := made(1, map[paper.Field]string{paper.FieldKind: "receipt", paper.FieldTitle: "Grips", paper.FieldAttendee: demo.Holder, paper.FieldProvider: "Vallmere", paper.FieldIssue: "2026-02-20", paper.FieldTotal: "90.00 EUR"})
	v.keep(func(n int) []byte { return fmt.Appendf(nil, "text %d", n) }, course("Grips"), course("Brakes"), course("Ropes"), receipt)
	if _, err := v.journal.Confirm(t.Context(), []string{"P1"}, journal.ConfirmOptions{}); err != nil {
		t.Fatal(err)
	}
	ctx := browser(t, 1000, 900, false, true)
	done := func(text string) {
		is(t, ctx, "document.querySelector('.note') && document.querySelector('.note').innerText.includes("+fmt.Sprintf("%q", text)+")")
	}
	back := func(id string) { key(t, ctx, "u"); done(id + ": taken back") }

	v.open(ctx, "paper/P2")
	key(t, ctx, "x")
	is(t, ctx, "document.activeElement.id === 'f-why'")
	run(t, ctx, chromedp.KeyEvent("a double"+kb.Enter))
	done("P2 is set aside")
	back("P2")

	key(t, ctx, "v")
	is(t, ctx, "document.activeElement.id === 'f-claim'")
	run(t, ctx, chromedp.KeyEvent(kb.Tab+kb.Enter))
	done("P2 is a proof of C1")
	back("P2")

	v.open(ctx, "paper/P4")
	key(t, ctx, "f")
	is(t, ctx, "document.activeElement.id === 'f-cost'")
	run(t, ctx, chromedp.KeyEvent(kb.Escape))
	key(t, ctx, "c")
	done("P4 is confirmed")
	v.open(ctx, "paper/P4")
	is(t, ctx, "document.querySelector('#f-tie').value === 'A1' && document.querySelector('.letter').textContent.includes('Vallmere')")
	key(t, ctx, "c")
	done("R1 is a cost of A1")
	back("R1")
}

// A paper of 500 pages: all of them can be reached, drawn and cut, and no more is asked of
// the reader than what is looked at.
func TestPaperOf500Pages(t *testing.T) {
	v := serve(t)
	if list := v.put(map[string][]byte{"long.pdf": book(t, 500, 595, 842)}); len(list) != 1 || list[0].Pages != [2]int{1, 500} {
		t.Fatalf("read as %+v", list)
	}
	ctx := browser(t, 1280, 800, false, true)
	v.open(ctx, "paper/P1")
	is(t, ctx, "document.querySelectorAll('.sheet').length === 40 && document.querySelector('.parts').innerText.includes('481–500')")
	is(t, ctx, "document.querySelector('.sheet svg')")
	if drawn := run(t, ctx, chromedp.Evaluate[int]("document.querySelectorAll('.sheet svg').length")); drawn > 5 {
		t.Errorf("%d pages were read before anybody looked at them", drawn)
	}
	v.open(ctx, "paper/P1?page=500")
	is(t, ctx, "document.querySelectorAll('.sheet').length === 20")
	run(t, ctx, chromedp.Evaluate[bool]("document.querySelector('.sheet:last-of-type').scrollIntoView(), true"))
	is(t, ctx, "(i => i.complete && i.naturalWidth > 0)(document.querySelector('.sheet:last-of-type img'))")
	if status, body := v.send("paper/P1/cut", url.Values{"begin": {"250", "500"}}); status != http.StatusOK || v.ranges() != "P2 1-249, P3 250-499, P4 500-500" {
		t.Errorf("%d %s %s", status, v.ranges(), body)
	}
}

// One paper is claimed for two certifications at once, each in a category of its own; it
// is one act, foretold for both, and taken back as one.
func TestSeveralCertificationsAtOnce(t *testing.T) {
	v := serve(t)
	if _, err := v.journal.CertificationAdd(t.Context(), journal.CertificationOptions{ID: "second", SchemeID: demo.Scheme, Start: credit.MustDate(demo.CycleStart)}); err != nil {
		t.Fatal(err)
	}
	v.keep(func(n int) []byte { return fmt.Appendf(nil, "text %d", n) }, made(1, map[paper.Field]string{paper.FieldKind: "attendance", paper.FieldTitle: "Grips",
		paper.FieldProvider: "Vallmere", paper.FieldAttendee: demo.Holder, paper.FieldEnd: "2026-03-03", paper.FieldDuration: "480", paper.FieldCategory: "course"}))
	if body := v.get("paper/P1"); !strings.Contains(body, `name="for.second"`) {
		t.Fatal("the second certification cannot be chosen")
	}
	form := url.Values{"certification": {demo.Scheme}, "for.second": {"study"}}
	if status, body := v.send("paper/P1/preview", form); status != http.StatusOK || strings.Count(body, "Earns") != 2 || strings.Count(body, `class="change"`) != 2 {
		t.Errorf("foretold %d: %d claims", status, strings.Count(body, "Earns"))
	}
	if status, body := v.send("paper/P1/confirm", form); status != http.StatusOK || !strings.Contains(body, "P1 is confirmed") {
		t.Fatalf("%d %s", status, body)
	}
	claims, err := v.journal.Claims(t.Context(), journal.ClaimsFilter{})
	if err != nil || len(claims) != 2 || claims[0].Activity != claims[1].Activity || claims[0].Category == claims[1].Category {
		t.Fatalf("claims %+v, %v", claims, err)
	}
	if body := v.get("standing"); strings.Count(body, `<section aria-labelledby="s-`) != 2 {
		t.Error("standing shows one certification only")
	}
	if body := v.get("standing?certification=second"); strings.Count(body, `<section aria-labelledby="s-`) != 1 || !strings.Contains(body, "s-second") {
		t.Error("one certification cannot be chosen")
	}
	if status, _ := v.send("undo", url.Values{"id": {"P1"}}); status != http.StatusOK {
		t.Errorf("undo: %d", status)
	}
	if claims, err := v.journal.Claims(t.Context(), journal.ClaimsFilter{}); err != nil || len(claims) != 0 {
		t.Errorf("%d claims are left, %v", len(claims), err)
	}
}
