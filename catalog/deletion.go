package catalog

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"slices"

	"evidencevault/evidence"
)

// EvidenceDeleted says that the file of an evidence was deleted after its time of
// keeping. It keeps what must outlive the file, and names the events of its taking-in
// and reading, whose bodies are blanked.
type EvidenceDeleted struct {
	SHA256  string   `json:"sha256"`
	Size    int64    `json:"size"`
	Type    string   `json:"type"`
	Ext     string   `json:"ext"`
	Name    FileName `json:"name"`             // the first name it came under
	Parent  string   `json:"parent,omitempty"` // SHA-256 of the evidence that it was a part of
	Why     string   `json:"why"`
	Blanked []Blank  `json:"blanked"`
}

// Blank names an event whose body was blanked, with what its rows cannot do without.
type Blank struct {
	Event  int64  `json:"event"`
	Paper  string `json:"paper,omitempty"`  // UUID of the paper that it made or read
	Number int    `json:"number,omitempty"` // of a paper that it made
}

// EvidenceReturned says that an evidence whose file was deleted came again and is in
// the store, and makes a further paper of it, unread. Put the file into the store before.
type EvidenceReturned struct {
	SHA256 string   `json:"sha256"`
	Name   FileName `json:"name"`
	Origin *Origin  `json:"origin,omitempty"`
	Paper  string   `json:"paper"`  // UUID
	Number int      `json:"number"` // of that paper, from [Tx.Next]
}

// Kind returns "evidence deleted".
func (*EvidenceDeleted) Kind() string { return "evidence deleted" }

// Kind returns "evidence returned".
func (*EvidenceReturned) Kind() string { return "evidence returned" }

// About returns the evidence and its papers.
func (b *EvidenceDeleted) About() []string {
	ids := []string{b.SHA256}
	for _, k := range b.Blanked {
		ids = append(ids, k.Paper)
	}
	return some(ids...)
}

// About returns the ids of the event.
func (b *EvidenceReturned) About() []string { return []string{b.SHA256, b.Paper} }

// apply leaves hash, size, type and first name, and takes away every word that was
// read.
func (b *EvidenceDeleted) apply(r *rows) error {
	return run(
		func() error {
			return r.exec(`INSERT INTO deleted (sha256, why, event, made) VALUES (?, ?, ?, ?)`, b.SHA256, b.Why, r.event, r.at)
		},
		func() error {
			return r.exec(`DELETE FROM evidence_name WHERE sha256 = ? AND event <> (SELECT event FROM evidence WHERE sha256 = ?)`, b.SHA256, b.SHA256)
		},
		func() error { return r.exec(`UPDATE evidence_name SET part = NULL WHERE sha256 = ?`, b.SHA256) },
		func() error {
			return r.exec(`UPDATE proof SET reading = NULL, box = NULL, quote = NULL WHERE evidence = ?`, b.SHA256)
		},
		func() error {
			return r.exec(`UPDATE paper SET reading = 0, first = 0, last = 0, part = '' WHERE sha256 = ?`, b.SHA256)
		},
		func() error {
			return r.exec(`DELETE FROM reading WHERE paper IN (SELECT id FROM paper WHERE sha256 = ?)`, b.SHA256)
		},
	)
}

func (b *EvidenceReturned) apply(r *rows) error {
	return run(
		func() error {
			return r.change("deleted evidence", b.SHA256, `DELETE FROM deleted WHERE sha256 = ?`, b.SHA256)
		},
		func() error { return r.name(b.SHA256, b.Name, b.Origin) },
		func() error { return r.paper(b.SHA256, NewPaper{ID: b.Paper, Number: b.Number}) },
	)
}

// DeleteEvidence records that an evidence is deleted, and blanks the bodies of the
// events of its taking-in and reading. The file itself goes when the act is committed.
// Whether it may go is for the caller to judge. The error wraps [ErrUnknown] when it
// is not there or was deleted before.
func (tx *Tx) DeleteEvidence(ctx context.Context, sha256, why string) error {
	e, err := tx.Evidence(ctx, sha256)
	if err != nil {
		return err
	}
	if e.Deleted > 0 {
		return fmt.Errorf("evidence %s: %w: it was deleted by event %d", sha256, ErrUnknown, e.Deleted)
	}
	body := &EvidenceDeleted{SHA256: sha256, Size: e.Size, Type: e.Type, Ext: e.Ext, Name: e.Names[0].Name, Parent: e.Names[0].Parent, Why: why}
	if body.Blanked, err = tx.toBlank(ctx, sha256); err != nil {
		return err
	}
	// What is deleted is overwritten: https://www.sqlite.org/pragma.html#pragma_secure_delete
	if _, err := tx.q.ExecContext(ctx, `PRAGMA secure_delete = ON`); err != nil {
		return sqlError(err)
	}
	if _, err := tx.Record(ctx, body); err != nil {
		return err
	}
	for _, b := range body.Blanked {
		if _, err := tx.q.ExecContext(ctx, `UPDATE event SET body = NULL WHERE number = ?`, b.Event); err != nil {
			return sqlError(err)
		}
	}
	return nil
}

// toBlank lists the events of an evidence's taking-in and reading that still have a body.
func (tx *Tx) toBlank(ctx context.Context, sha256 string) ([]Blank, error) {
	papers, err := tx.PapersOf(ctx, sha256)
	if err != nil {
		return nil, err
	}
	ids := []string{sha256}
	for _, p := range papers {
		ids = append(ids, p.ID)
	}
	out := []Blank{}
	for _, id := range ids {
		events, err := tx.History(ctx, id)
		if err != nil {
			return nil, err
		}
		for _, e := range events {
			if e.Body == nil || !mayBlank(e.Kind) || slices.ContainsFunc(out, func(b Blank) bool { return b.Event == e.Number }) {
				continue
			}
			body, err := e.Parse()
			if err != nil {
				return nil, err
			}
			out = append(out, blankOf(e.Number, body))
		}
	}
	slices.SortFunc(out, func(a, b Blank) int { return int(a.Event - b.Event) })
	return out, nil
}

func blankOf(number int64, body Body) Blank {
	b := Blank{Event: number}
	switch body := body.(type) {
	case *EvidenceTaken:
		b.Paper, b.Number = body.Paper, body.Number
	case *EvidenceReturned:
		b.Paper, b.Number = body.Paper, body.Number
	case *ReadingMade:
		b.Paper = body.Paper
	}
	return b
}

// blank is a blanked event with the deletion that names it.
type blank struct {
	Blank
	by *EvidenceDeleted
}

// blanks lists every blanked event that a deletion names.
func blanks(ctx context.Context, q querier) (map[int64]blank, error) {
	found, err := list(ctx, &View{q: q}, scanEvent, `SELECT number, act, at, kind, body, 0 FROM event WHERE kind = ? ORDER BY number`,
		(*EvidenceDeleted)(nil).Kind())
	if err != nil {
		return nil, err
	}
	out := map[int64]blank{}
	for _, e := range found {
		var d EvidenceDeleted
		if err := json.Unmarshal(e.Body, &d); err != nil {
			return nil, &LogError{From: e.Number, Why: fmt.Sprintf("event %d (%s) cannot be read: %v", e.Number, e.Kind, err), Mend: wayBack}
		}
		for _, b := range d.Blanked {
			if _, twice := out[b.Event]; !twice {
				out[b.Event] = blank{b, &d}
			}
		}
	}
	return out, nil
}

// applyBlank makes what is left of the rows of a blanked event. The error is a
// [*LogError] when no deletion names the event, or it may not be blanked.
func (r *rows) applyBlank(e Event) error {
	b, ok := r.blanked[e.Number]
	if !ok || !mayBlank(e.Kind) {
		return &LogError{From: e.Number, Why: fmt.Sprintf("the body of event %d (%s) is gone, and no deletion names it", e.Number, e.Kind), Mend: wayBack}
	}
	switch e.Kind {
	case (*EvidenceTaken)(nil).Kind():
		body := &EvidenceTaken{SHA256: b.by.SHA256, Size: b.by.Size, Type: b.by.Type, Ext: b.by.Ext, Name: b.by.Name, Paper: b.Paper, Number: b.Number}
		if b.by.Parent != "" {
			body.Origin = &Origin{Parent: b.by.Parent}
		}
		return r.apply(body)
	case (*EvidenceReturned)(nil).Kind():
		return r.apply(&EvidenceReturned{SHA256: b.by.SHA256, Paper: b.Paper, Number: b.Number})
	case (*ReadingMade)(nil).Kind():
		return r.exec(`INSERT OR IGNORE INTO about (id, event) VALUES (?, ?)`, b.Paper, e.Number)
	}
	return r.exec(`INSERT OR IGNORE INTO about (id, event) VALUES (?, ?)`, b.by.SHA256, e.Number)
}

// Sweep removes from the store the files of evidence that was deleted, where a stop came
// between the deletion and that. It is harmless to repeat.
func (c *Catalog) Sweep(ctx context.Context) error {
	gone, err := list(ctx, &c.View, scanText, `SELECT sha256 FROM deleted ORDER BY event`)
	if err != nil {
		return err
	}
	var left []string
	for _, sha256 := range gone {
		if _, err := c.store.Path(sha256); err == nil {
			left = append(left, sha256)
		} else if !errors.Is(err, evidence.ErrMissing) {
			return err
		}
	}
	if len(left) == 0 {
		return nil
	}
	// Within an act nobody records that such a file came again.
	err = c.Act(ctx, func(tx *Tx) error {
		for _, sha256 := range left {
			e, err := tx.Evidence(ctx, sha256)
			if err != nil {
				return err
			}
			if e.Deleted == 0 {
				continue
			}
			if err := c.store.Remove(sha256); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return err
	}
	// The words that were blanked leave the write-ahead log too; another reader may
	// keep them there for now, which is no failure.
	_, err = c.db.ExecContext(ctx, `PRAGMA wal_checkpoint(TRUNCATE)`)
	return sqlError(err)
}
