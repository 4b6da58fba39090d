package audit_test

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/csv"
	"encoding/hex"
	"encoding/json"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"testing"
	"time"

	"evidencevault/audit"
	"evidencevault/credit"
	"evidencevault/extract/page"
	"evidencevault/intake"
	"evidencevault/internal/demo"
	"evidencevault/journal"
)

func TestMain(m *testing.M) {
	page.Main() // a child that reads a document ends here
	os.Exit(m.Run())
}

var (
	today = time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)
	on    = credit.MustDate("2026-11-25")
)

// vault makes a vault with three confirmed papers of the demo and one claim without
// a document, and returns its journal.
func vault(t *testing.T) *journal.Journal { return vaultOf(t, demo.Holder) }

// vaultOf is the same for another holder.
func vaultOf(t *testing.T, holder string) *journal.Journal {
	t.Helper()
	ctx, dir := t.Context(), filepath.Join(t.TempDir(), "vault")
	j, err := journal.Setup(ctx, dir, journal.SetupOptions{Holder: holder, Number: demo.Number, SchemeID: demo.Scheme,
		Start: credit.MustDate(demo.CycleStart), Now: func() time.Time { return today }})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { j.Close() }) // closed a second time by tests that need it closed
	papers := t.TempDir()
	for _, p := range demo.Papers() {
		switch p.Name {
		case "splicing certificate.pdf", "guest lecture.pdf", "Your certificate.eml":
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
	plan, err := j.ConfirmClear(ctx, "")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := j.DoClear(ctx, plan, ""); err != nil {
		t.Fatal(err)
	}
	_, err = j.ClaimAdd(ctx, journal.ClaimOptions{Category: "course", Set: map[string]string{
		"title": "=HYPERLINK(\"x\")<b>", "kind": "attendance", "end_date": "2026-02-03", "duration_minutes": "240"}})
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// added takes in what lies in a folder, and tries again what was left: a program that starts
// just now may hold a file for a moment.
func added(ctx context.Context, in *intake.Intake, papers string) (report intake.Report, err error) {
	for range 100 {
		if report, err = in.Add(ctx, papers); err != nil || len(report.Left) == 0 {
			break
		}
	}
	return report, err
}

func gather(t *testing.T, j *journal.Journal) audit.Dossier {
	t.Helper()
	d, err := audit.Gather(t.Context(), j, "", on)
	if err != nil {
		t.Fatal(err)
	}
	if len(d.Claims) != 4 || len(d.Originals) != 3 {
		t.Fatalf("%d claims and %d originals, want 4 and 3", len(d.Claims), len(d.Originals))
	}
	return d
}

func writeIndex(t *testing.T, j *journal.Journal, dir string) {
	t.Helper()
	if err := audit.WriteIndex(t.Context(), j.Catalog().Store(), gather(t, j), dir); err != nil {
		t.Fatal(err)
	}
}

// Each link of the index leads to a file whose SHA-256 is the one that is named, and
// the copies have mode 0400.
func TestIndexLinksEveryClaimToItsProof(t *testing.T) {
	j, dir := vault(t), filepath.Join(t.TempDir(), "index")
	writeIndex(t, j, dir)
	data, err := os.ReadFile(filepath.Join(dir, "index.json"))
	if err != nil {
		t.Fatal(err)
	}
	var d audit.Dossier
	if err := json.Unmarshal(data, &struct {
		Claims *[]audit.Entry
	}{&d.Claims}); err != nil {
		t.Fatal(err)
	}
	proofs := 0
	for _, c := range d.Claims {
		for _, p := range c.Proofs {
			proofs++
			got, err := os.ReadFile(filepath.Join(dir, p.Copy))
			if err != nil {
				t.Fatal(err)
			}
			if sum := sha256.Sum256(got); hex.EncodeToString(sum[:]) != p.SHA256 {
				t.Errorf("%s %s: the copy is another file", c.ID, p.Field)
			}
			if info, err := os.Stat(filepath.Join(dir, p.Copy)); err != nil || runtime.GOOS != "windows" && info.Mode().Perm() != 0o400 {
				t.Errorf("%s: mode %v, %v", p.Copy, info.Mode(), err)
			}
		}
	}
	if proofs < 15 {
		t.Fatalf("only %d proofs: the test checks nothing", proofs)
	}
	html, err := os.ReadFile(filepath.Join(dir, "index.html"))
	if err != nil {
		t.Fatal(err)
	}
	links := regexp.MustCompile(`href="([^"#]+)(#[^"]*)?"`).FindAllSubmatch(html, -1)
	for _, l := range links {
		if _, err := os.Stat(filepath.Join(dir, string(l[1]))); err != nil {
			t.Errorf("dead link: %v", err)
		}
	}
	if len(links) < proofs {
		t.Errorf("%d links for %d proofs", len(links), proofs)
	}
	if bytes.Contains(html, []byte("<b>")) || bytes.Contains(html, []byte("<script")) {
		t.Error("text of a claim became markup")
	}
}

// sha256sum, a program of another's making, agrees with the list beside the copies.
func TestSumsAreReadBySha256sum(t *testing.T) {
	j, dir := vault(t), filepath.Join(t.TempDir(), "index")
	writeIndex(t, j, dir)
	check := exec.Command("sha256sum", "-c", "SHA256SUMS")
	check.Dir = dir
	if out, err := check.CombinedOutput(); err != nil || strings.Count(string(out), ": OK") != 4 {
		t.Fatalf("%v\n%s", err, out)
	}
}

func TestIndexIsTheSameBytesAgain(t *testing.T) {
	j, one, two := vault(t), filepath.Join(t.TempDir(), "index"), filepath.Join(t.TempDir(), "index")
	writeIndex(t, j, one)
	writeIndex(t, j, two)
	for _, name := range []string{"index.html", "index.pdf", "index.csv", "index.xlsx", "index.json", "SHA256SUMS"} {
		a, err := os.ReadFile(filepath.Join(one, name))
		if err != nil {
			t.Fatal(err)
		}
		if b, err := os.ReadFile(filepath.Join(two, name)); err != nil || !bytes.Equal(a, b) {
			t.Errorf("%s: other bytes the second time, %v", name, err)
		}
	}
}

// A cell that begins like a formula is none when a spreadsheet program opens the file.
func TestCSVHoldsNoFormula(t *testing.T) {
	var out bytes.Buffer
	d := gather(t, vault(t))
	if err := d.WriteCSV(&out); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&out).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	found := false
	for _, row := range rows {
		for _, cell := range row {
			if cell != "" && strings.ContainsRune("=+-@\t\r", rune(cell[0])) {
				t.Errorf("a formula: %q", cell)
			}
			found = found || strings.HasPrefix(cell, "'=HYPERLINK")
		}
	}
	if !found {
		t.Error("the title that looks like a formula is not there")
	}
}

func TestIndexSaysWhatAnAuditorWouldAsk(t *testing.T) {
	d := gather(t, vault(t))
	for _, e := range d.Exceptions {
		if strings.Contains(e.Text, "no document of a kind that the category accepts proves it") {
			return
		}
	}
	t.Fatalf("the claim without a proof is not named: %+v", d.Exceptions)
}

// An index replaces an index, and nothing else.
func TestIndexLeavesOtherFoldersAlone(t *testing.T) {
	j, dir := vault(t), filepath.Join(t.TempDir(), "index")
	writeIndex(t, j, dir)
	writeIndex(t, j, dir)
	if err := os.WriteFile(filepath.Join(dir, "my notes.txt"), nil, 0o600); err != nil {
		t.Fatal(err)
	}
	err := audit.WriteIndex(t.Context(), j.Catalog().Store(), gather(t, j), dir)
	if !errors.Is(err, audit.ErrFolder) || !strings.Contains(err.Error(), "my notes.txt") {
		t.Fatalf("got %v", err)
	}
	beside, err := os.ReadDir(filepath.Dir(dir))
	if err != nil || len(beside) != 1 {
		t.Fatalf("left beside the index: %v, %v", beside, err)
	}
}

// A missing original stops the index with its name, and nothing half-made is left.
func TestIndexStopsAtAMissingOriginal(t *testing.T) {
	j, dir := vault(t), filepath.Join(t.TempDir(), "index")
	d := gather(t, j)
	place, err := j.Catalog().Store().Path(d.Originals[0].SHA256)
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(j.Catalog().Dir(), "evidence", filepath.FromSlash(place))
	if err := os.Remove(file); err != nil {
		t.Fatal(err)
	}
	err = audit.WriteIndex(t.Context(), j.Catalog().Store(), d, dir)
	if err == nil || !strings.Contains(err.Error(), d.Originals[0].Names[0]) {
		t.Fatalf("got %v", err)
	}
	if left, err := os.ReadDir(filepath.Dir(dir)); err != nil || len(left) != 0 {
		t.Fatalf("left: %v, %v", left, err)
	}
	report, err := audit.Verify(context.Background(), j.Catalog().Dir(), nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(report.Findings) != 1 || report.Findings[0].What != "evidence" || len(report.Findings[0].Claims) == 0 {
		t.Fatalf("want one finding on evidence that names its claim, got %+v", report.Findings)
	}
}
