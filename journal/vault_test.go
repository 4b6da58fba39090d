package journal_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/extract/paper"
	"evidencevault/journal"
)

const holder = "Mara Quillfeather"

// vault is a real vault in a temporary folder, with a clock that stands still.
type vault struct {
	*journal.Journal
	t     testing.TB
	ctx   context.Context
	dir   string
	files int
}

func noon(day string) func() time.Time {
	at := credit.MustDate(day).Time().Add(12 * time.Hour)
	return func() time.Time { return at }
}

// newVault sets up a vault under the demo scheme, 2025 to 2028, on 1 June 2026.
func newVault(t testing.TB) *vault {
	t.Helper()
	return setUp(t, journal.SetupOptions{SchemeID: "demo"})
}

func setUp(t testing.TB, o journal.SetupOptions) *vault {
	t.Helper()
	v := &vault{t: t, ctx: t.Context(), dir: filepath.Join(t.TempDir(), "vault")}
	if o.Holder == "" {
		o.Holder = holder
	}
	if o.Start.IsZero() {
		o.Start = credit.MustDate("2025-01-01")
	}
	if o.Now == nil {
		o.Now = noon("2026-06-01")
	}
	j, err := journal.Setup(v.ctx, v.dir, o)
	if err != nil {
		t.Fatal(err)
	}
	v.Journal = j
	t.Cleanup(func() {
		if err := v.Close(); err != nil {
			t.Error(err)
		}
	})
	return v
}

// reading makes a reading of pages 1 to pages, each value certain and on page 1.
func reading(pages int, fields map[paper.Field]string) paper.Reading {
	r := paper.Reading{Outcome: paper.OutcomeRead, From: 1, To: pages, Values: map[paper.Field]paper.Value{}}
	top := 1000
	for _, f := range paper.Fields() {
		if text := fields[f]; text != "" {
			r.Values[f] = paper.Value{Text: text, Certain: true, By: paper.ByProgram,
				Place: paper.Place{Page: 1, Box: paper.Box{7200, top, 20050, top + 1200}, Quote: text}}
			top += 2000
		}
	}
	if fields[paper.FieldKind] == string(paper.NotEvidence) {
		r.Outcome = paper.OutcomeNotEvidence
	}
	return r
}

// course is a clear certificate of a course of 7 hours, worth 7/4 under the demo scheme.
func course(title, day string) paper.Reading {
	return reading(1, map[paper.Field]string{
		paper.FieldKind: "attendance", paper.FieldTitle: title, paper.FieldProvider: "Ostrava Cableway School", paper.FieldAttendee: holder,
		paper.FieldStart: day, paper.FieldEnd: day, paper.FieldDuration: "420",
	})
}

func receipt(title, provider, total, day string) paper.Reading {
	return reading(1, map[paper.Field]string{
		paper.FieldKind: "receipt", paper.FieldTitle: title, paper.FieldProvider: provider, paper.FieldAttendee: holder,
		paper.FieldIssue: day, paper.FieldTotal: total,
	})
}

func asking(r paper.Reading, f paper.Field, text string, candidates ...string) paper.Reading {
	q := paper.Question{Field: f, Text: text}
	for _, c := range candidates {
		q.Candidates = append(q.Candidates, paper.Candidate{Text: c})
	}
	delete(r.Values, f)
	r.Questions = append(r.Questions, q)
	return r
}

// take takes a file in and records its reading; it returns the paper's number.
func (v *vault) take(name string, r paper.Reading) string {
	v.t.Helper()
	v.files++
	data := fmt.Appendf(nil, "%%PDF-1.4 %s %d", name, v.files)
	kept, err := v.Catalog().Store().Put(v.ctx, bytes.NewReader(data), int64(len(data)))
	if err != nil {
		v.t.Fatal(err)
	}
	var ref string
	err = v.Catalog().Act(v.ctx, func(tx *catalog.Tx) error {
		n, err := tx.Next(v.ctx, catalog.LetterPaper)
		if err != nil {
			return err
		}
		taken := &catalog.EvidenceTaken{SHA256: kept.SHA256, Size: kept.Size, Type: kept.Type, Ext: kept.Ext, Name: catalog.FileName(name), Paper: catalog.NewID(), Number: n}
		ref = fmt.Sprintf("P%d", n)
		if _, err := tx.Record(v.ctx, taken); err != nil || r.Outcome == "" {
			return err
		}
		_, err = tx.Record(v.ctx, &catalog.ReadingMade{Paper: taken.Paper, Reading: r})
		return err
	})
	if err != nil {
		v.t.Fatal(err)
	}
	return ref
}

func (v *vault) confirm(o journal.ConfirmOptions, ids ...string) journal.ConfirmResult {
	v.t.Helper()
	r, err := v.Confirm(v.ctx, ids, o)
	if err != nil {
		v.t.Fatal(err)
	}
	return r
}

func (v *vault) undo(ref string) journal.UndoResult {
	v.t.Helper()
	r, err := v.Undo(v.ctx, ref)
	if err != nil {
		v.t.Fatal(err)
	}
	return r
}

func (v *vault) counted() string {
	v.t.Helper()
	st, err := v.Standing(v.ctx, credit.Date{}, "")
	if err != nil {
		v.t.Fatal(err)
	}
	return st[0].Counted.String()
}

// waits returns the papers that wait or are unread, as "P1 waiting".
func (v *vault) waits() string {
	v.t.Helper()
	list, err := v.Waiting(v.ctx)
	if err != nil {
		v.t.Fatal(err)
	}
	words := make([]string, len(list))
	for i, p := range list {
		words[i] = p.ID + " " + p.State
	}
	return strings.Join(words, ", ")
}

// state is what claims, standing and waiting show, without the claims' numbers, which
// are never used twice.
func (v *vault) state() string {
	v.t.Helper()
	claims, err := v.Claims(v.ctx, journal.ClaimsFilter{})
	if err != nil {
		v.t.Fatal(err)
	}
	for i := range claims {
		claims[i].ID, claims[i].Activity = "", ""
	}
	standing, err := v.Standing(v.ctx, credit.Date{}, "")
	if err != nil {
		v.t.Fatal(err)
	}
	for i := range standing {
		standing[i].Cuts = nil
	}
	waiting, err := v.Waiting(v.ctx)
	if err != nil {
		v.t.Fatal(err)
	}
	out, err := json.MarshalIndent(map[string]any{"claims": claims, "standing": standing, "waiting": waiting}, "", " ")
	if err != nil {
		v.t.Fatal(err)
	}
	return string(out)
}
