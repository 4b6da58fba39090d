package demo_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"evidencevault/credit"
	"evidencevault/extract/paper"
	"evidencevault/internal/demo"

	"github.com/google/go-cmp/cmp"
)

// The second is another download of the first.
const first, second = "splicing certificate.pdf", "splicing certificate (1).pdf"

func TestEveryPaperHasItsTruth(t *testing.T) {
	var names, told []string
	for _, p := range demo.Papers() {
		names = append(names, p.Name)
		if len(p.Data) == 0 || len(p.Data) > 150_000 {
			t.Errorf("%s: %d bytes; the demo's papers are small", p.Name, len(p.Data))
		}
	}
	if !slices.IsSorted(names) {
		t.Errorf("papers are not sorted: %q", names)
	}
	for _, truth := range demo.Truths() {
		told = append(told, truth.File)
	}
	if diff := cmp.Diff(names, slices.Compact(told)); diff != "" {
		t.Errorf("papers and truths differ (-papers +truths):\n%s", diff)
	}
}

func TestOnlyTheSecondDownloadIsAlike(t *testing.T) {
	papers := demo.Papers()
	for i, p := range papers {
		for _, q := range papers[:i] {
			alike := bytes.Equal(p.Data, q.Data)
			meant := slices.Contains([]string{first, second}, p.Name) && slices.Contains([]string{first, second}, q.Name)
			if alike != meant {
				t.Errorf("%s and %s: the same bytes is %t, want %t", p.Name, q.Name, alike, meant)
			}
		}
	}
}

// fields returns the values of a truth under the names that readings use.
func fields(t demo.Truth) map[paper.Field]string {
	list := map[paper.Field]string{
		paper.FieldKind: t.Kind, paper.FieldTitle: t.Title, paper.FieldProvider: t.Provider, paper.FieldAttendee: t.Attendee,
		paper.FieldStart: t.StartDate, paper.FieldEnd: t.EndDate, paper.FieldIssue: t.IssueDate,
	}
	var printed []paper.Printed
	for _, c := range t.Credits {
		printed = append(printed, paper.Printed(c))
	}
	list[paper.FieldCredits] = paper.FormatCredits(printed)
	if t.Total != nil {
		list[paper.FieldTotal] = paper.Money(*t.Total).String()
	}
	maps.DeleteFunc(list, func(_ paper.Field, text string) bool { return text == "" })
	return list
}

func TestTruthIsCanonical(t *testing.T) {
	for _, truth := range demo.Truths() {
		if truth.Outcome != nil {
			for _, o := range truth.Outcome {
				if !slices.Contains([]paper.Outcome{paper.OutcomeUnreadable, paper.OutcomeNotEvidence, paper.OutcomeRead}, paper.Outcome(o)) {
					t.Errorf("%s: outcome %q is none", truth.File, o)
				}
			}
			continue
		}
		got := fields(truth)
		for f, text := range got {
			if want, err := paper.Canonical(f, text); err != nil || want != text {
				t.Errorf("%s: %s is %q, canonical %q, %v", truth.File, f, text, want, err)
			}
		}
		for _, a := range truth.Ask {
			if len(a.Candidates) < 2 || !slices.Contains(paper.Fields(), paper.Field(a.Field)) || got[paper.Field(a.Field)] != "" {
				t.Errorf("%s: asks %s with %d candidates and value %q", truth.File, a.Field, len(a.Candidates), got[paper.Field(a.Field)])
			}
		}
	}
}

func TestTruthLiesInTheCycle(t *testing.T) {
	start, end := demo.Cycle()
	last := credit.MustDate("2026-12-31") // a membership's year; nothing is dated later
	for _, truth := range demo.Truths() {
		var days []credit.Date
		for _, text := range []string{truth.StartDate, truth.EndDate, truth.IssueDate} {
			if text != "" {
				days = append(days, credit.MustDate(text))
			}
		}
		for _, d := range days {
			if d.Before(start) || d.After(end) || d.After(last) {
				t.Errorf("%s: %v lies outside %v to %v", truth.File, d, start, last)
			}
		}
		if truth.Kind == "attendance" && !slices.IsSortedFunc(days, credit.Date.Compare) {
			t.Errorf("%s: start, end and issue are not in order: %v", truth.File, days)
		}
		if truth.Kind != "" && truth.Kind != "not-evidence" && truth.Attendee != demo.Holder {
			t.Errorf("%s: about %q, want %q", truth.File, truth.Attendee, demo.Holder)
		}
	}
}

func TestPromisedMix(t *testing.T) {
	kinds, formats, languages, asked := map[string]int{}, map[string]int{}, map[string]int{}, map[string]int{}
	pages, trouble := 0, 0
	for _, truth := range demo.Truths() {
		if truth.Outcome != nil {
			trouble++
			continue
		}
		kinds[truth.Kind]++
		formats[truth.Format]++
		languages[truth.Language[:2]]++
		for _, a := range truth.Ask {
			asked[a.Field]++
		}
		if truth.Pages != "" {
			pages++
		}
	}
	if got := len(demo.Papers()); got != 24 {
		t.Errorf("%d papers, want 24", got)
	}
	tests := []struct {
		name string
		got  map[string]int
		want map[string]int // at least
	}{
		{"kinds", kinds, map[string]int{"attendance": 8, "completion": 2, "instruction": 1, "employment": 1, "membership": 1,
			"meeting": 1, "credential": 1, "publication": 1, "receipt": 2, "not-evidence": 1}},
		{"formats", formats, map[string]int{"pdf": 14, "pdf-scan": 3, "jpg": 1, "docx": 1, "eml": 1}},
		{"languages", languages, map[string]int{"en": 10, "de": 2, "fr": 1}},
		{"questions", asked, map[string]int{"start_date": 1, "end_date": 1, "duration_minutes": 1}},
	}
	for _, tt := range tests {
		for what, n := range tt.want {
			if tt.got[what] < n {
				t.Errorf("%s: %d of %s, want at least %d", tt.name, tt.got[what], what, n)
			}
		}
	}
	if pages != 2 || trouble != 2 {
		t.Errorf("%d papers share a scan, want 2; %d files cannot be read well, want 2", pages, trouble)
	}
}

func TestProducersDiffer(t *testing.T) {
	var found []string
	for _, mark := range []string{"FPDF", "LibreOffice", "Skia/PDF", "cairo", "Ghostscript"} {
		wide := strings.ToUpper(hexOf(mark))
		if slices.ContainsFunc(demo.Papers(), func(p demo.Paper) bool {
			return strings.HasSuffix(p.Name, ".pdf") && (bytes.Contains(p.Data, []byte(mark)) || bytes.Contains(p.Data, []byte(wide)) || bytes.Contains(p.Data, zeroed(mark)))
		}) {
			found = append(found, mark)
		}
	}
	if len(found) < 4 {
		t.Errorf("PDFs of only %q; want four producers or more", found)
	}
}

// zeroed returns text in two-byte letters, as some producers write their name, and hexOf
// the same in hexadecimal digits.
func zeroed(text string) []byte {
	var wide []byte
	for _, r := range text {
		wide = append(wide, 0, byte(r))
	}
	return wide
}

func hexOf(text string) string { return fmt.Sprintf("%x", zeroed(text)) }

// invented lists every body that the papers name as provider. A further one is
// looked up before it is added: no real body may stand in the demo.
var invented = []string{
	"Bildungswerk Seilbahntechnik Grauensteig", "Carriage and Cable Quarterly", "Corrivane School of Rope Work",
	"Dunnochmoor Cable Workshop", "Ellerhaugh College of Ropeway Trades", "Hexlow Wind School", "Hraundorn Cableway Association",
	"Institut du Câble de Valcombreuse", "Kestrelmoor Distance Learning", "Larkrigg Brake Test Centre", "Marrenfeld Testing Board",
	"Moorbrigg Rescue Trainers", "Ostlermoor Cableway Academy", "Pellarick Training Centre", "Quernbeck Rope House",
	"Skarnvik Fire Training Ground", "Tarnhollow Ropeways Ltd", "Vallmere Guild of Ropeway Engineers", "Vallmere Ropeway Inspection Council",
}

func TestOnlyInventedNames(t *testing.T) {
	for _, truth := range demo.Truths() {
		if truth.Provider != "" && !slices.Contains(invented, truth.Provider) {
			t.Errorf("%s: provider %q is not among the invented ones", truth.File, truth.Provider)
		}
	}
	for _, p := range demo.Papers() {
		for _, trace := range []string{"/home/", "/root/", "/tmp/", "localhost"} {
			if bytes.Contains(p.Data, []byte(trace)) {
				t.Errorf("%s: shows %q, a trace of the machine that made it", p.Name, trace)
			}
		}
	}
	mail := string(named(t, "Your certificate.eml").Data)
	for word := range strings.FieldsSeq(mail) {
		if strings.Contains(word, "@") && !strings.HasSuffix(strings.Trim(word, "<>"), ".example") {
			t.Errorf("Your certificate.eml: address %s does not end in .example", word)
		}
	}
}

func named(t *testing.T, name string) demo.Paper {
	t.Helper()
	for _, p := range demo.Papers() {
		if p.Name == name {
			return p
		}
	}
	t.Fatalf("no paper %s", name)
	return demo.Paper{}
}

func TestWrite(t *testing.T) {
	dir := t.TempDir()
	if err := demo.Write(dir); err != nil {
		t.Fatal(err)
	}
	for _, p := range demo.Papers() {
		file := filepath.Join(dir, p.Name)
		got, err := os.ReadFile(file)
		if err != nil || !bytes.Equal(got, p.Data) {
			t.Errorf("%s: not as embedded, %v", p.Name, err)
		}
		info, err := os.Stat(file)
		if err != nil {
			t.Fatal(err)
		}
		if runtime.GOOS != "windows" && info.Mode().Perm() != 0o600 {
			t.Errorf("%s: mode %v, want 0600", p.Name, info.Mode())
		}
	}
	if err := demo.Write(dir); !errors.Is(err, fs.ErrExist) {
		t.Errorf("a second Write gave %v, want fs.ErrExist", err)
	}
	if err := demo.Write(filepath.Join(dir, "none")); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("Write into a folder that is not there gave %v, want fs.ErrNotExist", err)
	}
}

func TestTruthFilesCarryEveryField(t *testing.T) {
	files, err := fs.Glob(demo.TruthFiles(), "*.json")
	if err != nil || len(files) != 22 {
		t.Fatalf("%d truth files, want 22, %v", len(files), err)
	}
	for _, name := range files {
		data, err := fs.ReadFile(demo.TruthFiles(), name)
		if err != nil {
			t.Fatal(err)
		}
		var got map[string]json.RawMessage
		if err := json.Unmarshal(data, &got); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		for _, f := range paper.Fields() {
			if _, ok := got[string(f)]; !ok {
				t.Errorf("%s: no %s, not even null", name, f)
			}
		}
	}
}
