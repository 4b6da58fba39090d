package audit_test

import (
	"bytes"
	"fmt"
	"image"
	"image/jpeg"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"evidencevault/audit"
	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/extract/paper"
	"evidencevault/internal/demo"
	"evidencevault/internal/heap"
	"evidencevault/journal"
)

// largeVault has n confirmed papers, each with a proof of every field; data gives the
// bytes of each.
func largeVault(t testing.TB, n int, data func(i int) []byte) *journal.Journal {
	t.Helper()
	j, err := journal.Setup(t.Context(), filepath.Join(t.TempDir(), "vault"), journal.SetupOptions{Holder: demo.Holder, Number: demo.Number, SchemeID: demo.Scheme,
		Start: credit.MustDate(demo.CycleStart), Now: func() time.Time { return today }})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { j.Close() })
	cert, err := j.Certified(t.Context(), "", on)
	if err != nil {
		t.Fatal(err)
	}
	err = j.Catalog().Act(t.Context(), func(tx *catalog.Tx) error {
		for i := range n {
			if err := keepOne(t, j, tx, cert, i, data(i)); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func keepOne(t testing.TB, j *journal.Journal, tx *catalog.Tx, cert journal.Certified, i int, data []byte) error {
	ctx := t.Context()
	kept, err := j.Catalog().Store().Put(ctx, bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return err
	}
	day := credit.MustDate(demo.CycleStart).AddDays(1 + i%800).String()
	r := paper.Reading{Outcome: paper.OutcomeRead, From: 1, To: 1, Language: "en", Reader: "test", Values: map[paper.Field]paper.Value{}}
	fields := map[paper.Field]string{paper.FieldKind: "attendance", paper.FieldTitle: fmt.Sprintf("Inspection of carrying ropes, part %d", i+1),
		paper.FieldProvider: fmt.Sprintf("Quernbeck Rope House %d", i%40), paper.FieldAttendee: demo.Holder, paper.FieldStart: day, paper.FieldEnd: day, paper.FieldDuration: "240"}
	for k, f := range paper.Fields() {
		if text := fields[f]; text != "" {
			r.Values[f] = paper.Value{Text: text, Certain: true, By: paper.ByProgram, Place: paper.Place{Page: 1, Box: paper.Box{7200, 7200 + 2000*k, 30000, 8400 + 2000*k}, Quote: text}}
		}
	}
	id, activity := catalog.NewID(), catalog.NewID()
	bodies := []catalog.Body{
		&catalog.EvidenceTaken{SHA256: kept.SHA256, Size: kept.Size, Type: kept.Type, Ext: kept.Ext, Name: catalog.FileName(fmt.Sprintf("certificate %d.pdf", i+1)), Paper: id, Number: i + 1},
	}
	for _, b := range bodies {
		if _, err := tx.Record(ctx, b); err != nil {
			return err
		}
	}
	event, err := tx.Record(ctx, &catalog.ReadingMade{Paper: id, Reading: r})
	if err != nil {
		return err
	}
	bodies = []catalog.Body{&catalog.PaperConfirmed{Paper: id}, &catalog.ActivityMade{ID: activity, Number: i + 1, Paper: id, Fields: fields}}
	for _, f := range paper.Fields() {
		if v, ok := r.Values[f]; ok {
			bodies = append(bodies, &catalog.ProofLinked{Activity: activity, Field: f, Evidence: kept.SHA256, Paper: id, Reading: event, Page: 1,
				Value: v.Text, By: paper.ByProgram})
		}
	}
	bodies = append(bodies, &catalog.ClaimMade{ID: catalog.NewID(), Number: i + 1, Activity: activity, Certification: cert.ID, Cycle: cert.Cycle.ID, Category: "course"})
	for _, b := range bodies {
		if _, err := tx.Record(ctx, b); err != nil {
			return err
		}
	}
	return nil
}

// BenchmarkIndex makes an index of 5,000 claims without the copies of the originals: the
// forms one after the other, so that each has its figure, then all at once, and the whole
// from opening the vault to the folder in a process of its own, as the command does.
func BenchmarkIndex(b *testing.B) {
	j := largeVault(b, 5000, func(i int) []byte { return fmt.Appendf(nil, "%%PDF-1.4 certificate %d", i) })
	defer heap.Grow()() // as the command does
	b.ResetTimer()
	took, most := map[string]time.Duration{}, int64(0)
	part := func(name string, do func() error) {
		began := time.Now()
		if err := do(); err != nil {
			b.Fatal(name, err)
		}
		took[name] += time.Since(began)
	}
	for b.Loop() {
		var d audit.Dossier
		part("gather", func() (err error) { d, err = audit.Gather(b.Context(), j, "", on); return err })
		part("html", func() error { return d.WriteHTML(io.Discard) })
		part("pdf", func() error { return d.WritePDF(io.Discard, "") })
		part("csv", func() error { return d.WriteCSV(io.Discard) })
		part("xlsx", func() error { return audit.SheetOf(d).Write(io.Discard) })
		part("json", func() error { return d.WriteJSON(io.Discard) })
		d.Originals = nil
		dir := filepath.Join(b.TempDir(), "index")
		part("index", func() error { return audit.WriteIndex(b.Context(), j.Catalog().Store(), d, dir) })
		whole, rss := inOwnProcess(b, "index", j.Catalog().Dir())
		took["whole"], most = took["whole"]+whole, max(most, rss)
	}
	b.ReportMetric(float64(most)/(1<<20), "MB-most")
	for name, d := range took {
		b.ReportMetric(float64(d.Milliseconds())/float64(b.N), name+"-ms")
	}
}

// envMake has a process of its own make something of a vault, so that its memory can be told.
const envMake = "EVIDENCE_VAULT_TEST_MAKE"

// TestMakeInAProcessOfItsOwn does what [BenchmarkPacket] asks for; else it makes a small
// packet, so that it is tested itself.
func TestMakeInAProcessOfItsOwn(t *testing.T) {
	what, vault, ok := strings.Cut(os.Getenv(envMake), " ")
	if !ok {
		j := largeVault(t, 2, func(i int) []byte { return scan(t, i, 20<<10) })
		for _, what := range []string{"index", "packet", "pictures", "binder"} {
			if _, rss := inOwnProcess(t, what, j.Catalog().Dir()); rss < 1<<20 || rss > 1<<30 {
				t.Errorf("%s: %d bytes", what, rss)
			}
		}
		return
	}
	j, err := journal.Open(t.Context(), vault, journal.Options{ReadOnly: true, Now: func() time.Time { return today }})
	if err != nil {
		t.Fatal(err)
	}
	defer j.Close() // it was only read
	if what == "index" {
		defer heap.Grow()() // as the command does
	}
	d, err := audit.Gather(t.Context(), j, "", on)
	if err != nil {
		t.Fatal(err)
	}
	to := filepath.Join(t.TempDir(), "made")
	if err := makeOf(t, what, j, d, to); err != nil {
		t.Fatal(err)
	}
}

// makeOf makes what is asked for of a vault; the index without the copies of the originals.
func makeOf(t *testing.T, what string, j *journal.Journal, d audit.Dossier, to string) (err error) {
	o := audit.PacketOptions{}
	if what == "pictures" || what == "binder" {
		o.Pages = reader(t)
	}
	switch what {
	case "index":
		d.Originals = nil
		err = audit.WriteIndex(t.Context(), j.Catalog().Store(), d, to)
	case "binder":
		_, err = audit.WriteBinder(t.Context(), j.Catalog().Store(), d, to, audit.BinderOptions{Pages: o.Pages})
	default:
		err = audit.WritePacket(t.Context(), j.Catalog().Store(), d, to, o)
	}
	return err
}

// inOwnProcess makes something of a vault and returns how long it took and the most memory
// that the process or one that it started had, in bytes.
func inOwnProcess(t testing.TB, what, vault string) (time.Duration, int64) {
	t.Helper()
	cmd := exec.CommandContext(t.Context(), os.Args[0], "-test.run=^TestMakeInAProcessOfItsOwn$", "-test.v", "-test.timeout=60m")
	cmd.Env = append(os.Environ(), envMake+"="+what+" "+vault)
	began := time.Now()
	out, err := cmd.CombinedOutput()
	if err != nil || !strings.Contains(string(out), "--- PASS: TestMakeInAProcessOfItsOwn") {
		t.Fatalf("%v\n%s", err, out)
	}
	return time.Since(began), mostMemory(cmd.ProcessState)
}

// scan is a PDF with one picture of noise of about this many bytes, as a scanner makes it.
func scan(t testing.TB, seed, size int) []byte {
	t.Helper()
	side := 64
	for side*side < size {
		side += 32
	}
	noise := rand.New(rand.NewPCG(uint64(seed), 5))
	img := image.NewGray(image.Rect(0, 0, side, side))
	for i := range img.Pix {
		img.Pix[i] = uint8(noise.Uint32())
	}
	var picture, out bytes.Buffer
	if err := jpeg.Encode(&picture, img, &jpeg.Options{Quality: 90}); err != nil {
		t.Fatal(err)
	}
	f := fpdf.New("P", "pt", "A4", "")
	f.AddPage()
	f.RegisterImageOptionsReader("scan", fpdf.ImageOptions{ImageType: "JPEG"}, &picture)
	f.ImageOptions("scan", 40, 100, 500, 600, false, fpdf.ImageOptions{ImageType: "JPEG"}, 0, "")
	f.SetFont("Helvetica", "", 12)
	f.Text(72, 72, fmt.Sprintf("Certificate %d", seed))
	if err := f.Output(&out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// BenchmarkPacket makes packet and binder of 500 proofs of half a megabyte each, beside zip
// and sha256sum over the same files, with the most memory that any process had. PROOFS sets
// another number of proofs.
func BenchmarkPacket(b *testing.B) {
	n := 500
	if text := os.Getenv("PROOFS"); text != "" {
		var err error
		if n, err = strconv.Atoi(text); err != nil {
			b.Fatal(err)
		}
	}
	j := largeVault(b, n, func(i int) []byte { return scan(b, i, 500<<10) })
	vault := j.Catalog().Dir()
	b.Run("zip and sha256sum", func(b *testing.B) {
		for b.Loop() {
			cmd := exec.CommandContext(b.Context(), "sh", "-c", `zip -q -r "$0" evidence && find evidence -type f -exec sha256sum {} + > "$0.sums"`, filepath.Join(b.TempDir(), "all.zip"))
			cmd.Dir = vault
			if out, err := cmd.CombinedOutput(); err != nil {
				b.Fatalf("%v\n%s", err, out)
			}
		}
	})
	for _, what := range []string{"packet", "pictures", "binder"} {
		b.Run(what, func(b *testing.B) {
			var most int64
			for b.Loop() {
				_, rss := inOwnProcess(b, what, vault)
				most = max(most, rss)
			}
			b.ReportMetric(float64(most)/(1<<20), "MB-most")
		})
	}
}
