package catalog

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"time"

	"evidencevault/extract/paper"
)

// timeForm is how times stand in the log and in rows: UTC, to the millisecond, always
// of the same length, so that they sort.
const timeForm = "2006-01-02T15:04:05.000Z"

// rows makes the rows of one event. It is the only thing that writes to any table but
// event and tree, for a new event and when rows are made again from the log.
type rows struct {
	ctx   context.Context
	tx    querier
	event int64
	at    string // UTC, in timeForm

	blanked map[int64]blank // events whose bodies are gone; nil where none can be
}

// querier is a database, one of its transactions or connections.
type querier interface {
	ExecContext(ctx context.Context, query string, args ...any) (sql.Result, error)
	QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error)
	QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row
}

// kindNamed returns a new empty body of a kind. The error wraps [ErrBody].
func kindNamed(kind string) (Body, error) {
	fresh, ok := kinds[kind]
	if !ok {
		return nil, fmt.Errorf("%w: kind %q is not known; a later version of this program wrote it", ErrBody, kind)
	}
	return fresh(), nil
}

// parseBody reads the canonical bytes of a body.
func parseBody(kind string, text []byte) (Body, error) {
	body, err := kindNamed(kind)
	if err != nil {
		return nil, err
	}
	dec := json.NewDecoder(strings.NewReader(string(text)))
	dec.DisallowUnknownFields()
	if err := dec.Decode(body); err != nil {
		return nil, fmt.Errorf("%w of kind %q: %v", ErrBody, kind, err)
	}
	return body, nil
}

// apply makes the rows of an event and notes which ids it is about.
func (r *rows) apply(body Body) error {
	if err := body.apply(r); err != nil {
		return fmt.Errorf("event %d, %s: %w", r.event, body.Kind(), err)
	}
	for _, id := range body.About() {
		if err := r.exec(`INSERT OR IGNORE INTO about (id, event) VALUES (?, ?)`, id, r.event); err != nil {
			return err
		}
	}
	return nil
}

func (r *rows) exec(query string, args ...any) error {
	_, err := r.tx.ExecContext(r.ctx, query, args...)
	return sqlError(err)
}

// change runs a statement that must touch one row. The error wraps [ErrUnknown].
func (r *rows) change(what, id, query string, args ...any) error {
	result, err := r.tx.ExecContext(r.ctx, query, args...)
	if err != nil {
		return sqlError(err)
	}
	if n, err := result.RowsAffected(); err != nil {
		return err
	} else if n != 1 {
		return fmt.Errorf("%s %s: %w", what, id, ErrUnknown)
	}
	return nil
}

// count says that a short number is used.
func (r *rows) count(l Letter, n int) error {
	return r.exec(`INSERT INTO number (letter, last) VALUES (?, ?)
		ON CONFLICT (letter) DO UPDATE SET last = max(last, excluded.last)`, string(l), n)
}

// run runs the steps until one fails.
func run(steps ...func() error) error {
	for _, step := range steps {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

func (b *VaultMade) apply(r *rows) error {
	return r.exec(`INSERT INTO vault (id, public, made) VALUES (?, ?, ?)`, b.ID, b.Public, r.at)
}

func (b *KeyRenewed) apply(r *rows) error {
	return r.change("key", b.Old, `UPDATE vault SET public = ? WHERE public = ?`, b.New, b.Old)
}

func (b *HeadTakenOver) apply(*rows) error { return nil }

func (b *HolderNamed) apply(r *rows) error {
	return r.exec(`INSERT INTO holder (event, name, former) VALUES (?, ?, ?)`, r.event, b.Name, b.Former)
}

func (b *SchemeKept) apply(r *rows) error {
	return r.exec(`INSERT INTO scheme (sha256, id, version, file, event) VALUES (?, ?, ?, ?, ?)
		ON CONFLICT (sha256) DO NOTHING`, b.SHA256, b.ID, b.Version, b.File, r.event)
}

func (b *CertificationAdded) apply(r *rows) error {
	return r.exec(`INSERT INTO certification (id, name, title, scheme, number, event) VALUES (?, ?, ?, ?, ?, ?)`,
		b.ID, b.Name, b.Title, b.Scheme, b.Number, r.event)
}

func (b *CycleOpened) apply(r *rows) error {
	return r.exec(`INSERT INTO cycle (id, certification, first, last, scheme, closed, event) VALUES (?, ?, ?, ?, ?, 0, ?)`,
		b.ID, b.Certification, b.Start.String(), b.End.String(), b.Scheme, r.event)
}

func (b *SchemeChanged) apply(r *rows) error {
	return r.change("cycle under scheme "+b.Was, b.Cycle, `UPDATE cycle SET scheme = ? WHERE id = ? AND scheme = ?`, b.Scheme, b.Cycle, b.Was)
}

func (b *FactSet) apply(r *rows) error {
	return r.exec(`INSERT INTO fact (name, since, value, event) VALUES (?, ?, ?, ?)
		ON CONFLICT (name, since) DO UPDATE SET value = excluded.value, event = excluded.event`,
		b.Name, b.From.String(), b.Value, r.event)
}

func (b *DropSet) apply(r *rows) error {
	if b.Gone {
		return r.change("drop folder", b.Dir, `DELETE FROM drop_folder WHERE dir = ?`, b.Dir)
	}
	return r.exec(`INSERT INTO drop_folder (dir, empty, event) VALUES (?, ?, ?)
		ON CONFLICT (dir) DO UPDATE SET empty = excluded.empty, event = excluded.event`, b.Dir, b.Empty, r.event)
}

// relative returns b with a folder that lies within the vault's folder written
// relative to it, with slashes.
func (b DropSet) relative(vault string) DropSet {
	if rel, err := filepath.Rel(vault, b.Dir); err == nil && filepath.IsLocal(rel) {
		b.Dir = filepath.ToSlash(rel)
	}
	return b
}

func (b *EvidenceTaken) apply(r *rows) error {
	return run(
		func() error {
			return r.exec(`INSERT INTO evidence (sha256, size, type, ext, event, taken) VALUES (?, ?, ?, ?, ?, ?)`,
				b.SHA256, b.Size, b.Type, b.Ext, r.event, r.at)
		},
		func() error { return r.name(b.SHA256, b.Name, b.Origin) },
		func() error { return r.paper(b.SHA256, NewPaper{ID: b.Paper, Number: b.Number}) },
	)
}

func (b *NameAdded) apply(r *rows) error { return r.name(b.SHA256, b.Name, b.Origin) }

func (r *rows) name(sha256 string, name FileName, o *Origin) error {
	var parent, part any
	if o != nil {
		parent, part = o.Parent, []byte(o.Part)
	}
	return r.exec(`INSERT INTO evidence_name (event, sha256, name, readable, parent, part) VALUES (?, ?, ?, ?, ?, ?)`,
		r.event, sha256, []byte(name), name.String(), parent, part)
}

// paper makes an unread paper.
func (r *rows) paper(sha256 string, p NewPaper) error {
	err := r.exec(`INSERT INTO paper (id, number, sha256, first, last, part, state, why, reading, event, made)
		VALUES (?, ?, ?, ?, ?, ?, 'unread', '', 0, ?, ?)`, p.ID, p.Number, sha256, p.From, max(p.From, p.To), p.Part, r.event, r.at)
	if err != nil {
		return err
	}
	return r.count(LetterPaper, p.Number)
}

func (b *PaperMade) apply(r *rows) error { return r.paper(b.SHA256, b.NewPaper) }

func (b *ReadingMade) apply(r *rows) error {
	body, err := canonical(b.Reading)
	if err != nil {
		return err
	}
	state, why := Unread, b.Reading.Reason
	if b.Reading.Outcome == paper.OutcomeRead || b.Reading.Outcome == paper.OutcomeNotEvidence {
		state, why = Waiting, ""
	}
	return run(
		func() error {
			return r.exec(`INSERT INTO reading (event, paper, outcome, kind, made, body) VALUES (?, ?, ?, ?, ?, ?)`,
				r.event, b.Paper, string(b.Reading.Outcome), string(b.Reading.Kind()), r.at, string(body))
		},
		func() error {
			return r.change("paper", b.Paper, `UPDATE paper SET reading = ? WHERE id = ?`, r.event, b.Paper)
		},
		func() error {
			return r.exec(`UPDATE paper SET state = ?, why = ? WHERE id = ? AND state IN ('unread', 'waiting')`, state, why, b.Paper)
		},
		func() error { return r.pages(b) },
	)
}

// pages notes the pages of a paper once they are known.
func (r *rows) pages(b *ReadingMade) error {
	if b.Reading.From > 0 {
		if err := r.exec(`UPDATE paper SET first = ?, last = ? WHERE id = ? AND first = 0`,
			b.Reading.From, max(b.Reading.From, b.Reading.To), b.Paper); err != nil {
			return err
		}
	}
	if b.Reading.Part == "" {
		return nil
	}
	return r.exec(`UPDATE paper SET part = ? WHERE id = ? AND part = ''`, b.Reading.Part, b.Paper)
}

func (r *rows) state(id, state, why string) error {
	return r.change("paper", id, `UPDATE paper SET state = ?, why = ? WHERE id = ?`, state, why, id)
}

func (r *rows) rowState(id string, row int, state string) error {
	if state == Waiting {
		return r.exec(`DELETE FROM paper_row WHERE paper = ? AND row = ?`, id, row)
	}
	return r.exec(`INSERT INTO paper_row (paper, row, state) VALUES (?, ?, ?)
		ON CONFLICT (paper, row) DO UPDATE SET state = excluded.state`, id, row, state)
}

func (b *PaperConfirmed) apply(r *rows) error {
	if b.Row > 0 {
		return r.rowState(b.Paper, b.Row, Confirmed)
	}
	return r.state(b.Paper, Confirmed, "")
}

func (b *RowsSkipped) apply(r *rows) error {
	for _, row := range b.Rows {
		if err := r.rowState(b.Paper, row, LeftOut); err != nil {
			return err
		}
	}
	return nil
}

func (b *PaperSetAside) apply(r *rows) error { return r.state(b.Paper, SetAside, b.Why) }

func (b *PaperCut) apply(r *rows) error { return r.retire([]string{b.Paper}, b.Into) }

func (b *PapersJoined) apply(r *rows) error { return r.retire(b.Papers, []NewPaper{b.Into}) }

// retire makes new papers of an evidence and retires the old ones.
func (r *rows) retire(old []string, fresh []NewPaper) error {
	var sha256 string
	for _, id := range old {
		row := r.tx.QueryRowContext(r.ctx, `SELECT sha256 FROM paper WHERE id = ?`, id)
		if err := row.Scan(&sha256); err != nil {
			return notThere("paper", id, err)
		}
		if err := r.state(id, Retired, ""); err != nil {
			return err
		}
	}
	for _, p := range fresh {
		if err := r.paper(sha256, p); err != nil {
			return err
		}
		for _, id := range old {
			if err := r.exec(`INSERT INTO paper_into (paper, fresh) VALUES (?, ?)`, id, p.ID); err != nil {
				return err
			}
		}
	}
	return nil
}

// notThere turns a missing row into [ErrUnknown].
func notThere(what, id string, err error) error {
	if errors.Is(err, sql.ErrNoRows) {
		return fmt.Errorf("%s %s: %w", what, id, ErrUnknown)
	}
	return sqlError(err)
}

// timeText prints a time as it stands in the log.
func timeText(t time.Time) string { return t.UTC().Truncate(time.Millisecond).Format(timeForm) }
