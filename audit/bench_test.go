package audit_test

import (
	"bytes"
	"fmt"
	"io"
	"path/filepath"
	"testing"
	"time"

	"evidencevault/audit"
	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/extract/paper"
	"evidencevault/internal/demo"
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

// BenchmarkIndex makes every form of an index of 5,000 claims, the copies of the
// originals left out.
func BenchmarkIndex(b *testing.B) {
	j := largeVault(b, 5000, func(i int) []byte { return fmt.Appendf(nil, "%%PDF-1.4 certificate %d", i) })
	b.ResetTimer()
	took := map[string]time.Duration{}
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
	}
	for name, d := range took {
		b.ReportMetric(float64(d.Milliseconds())/float64(b.N), name+"-ms")
	}
}
