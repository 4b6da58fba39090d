package catalog

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
)

const evidenceQuery = `SELECT sha256, size, type, ext, event, taken,
	coalesce((SELECT deleted.event FROM deleted WHERE deleted.sha256 = evidence.sha256), 0) FROM evidence`

func scanEvidence(r *sql.Rows) (e Evidence, err error) {
	return e, r.Scan(&e.SHA256, &e.Size, &e.Type, &e.Ext, &e.Event, (*timeValue)(&e.Taken), &e.Deleted)
}

// named is a name with the evidence that it belongs to.
type named struct {
	sha256 string
	Name
}

// withNames adds the names. where narrows them to those of found.
func (v *View) withNames(ctx context.Context, found []Evidence, where string, args ...any) ([]Evidence, error) {
	names, err := list(ctx, v, func(r *sql.Rows) (n named, err error) {
		var name, part []byte
		var parent sql.NullString
		err = r.Scan(&n.sha256, &name, &parent, &part, &n.Event)
		n.Name.Name, n.Parent, n.Part = FileName(name), parent.String, FileName(part)
		return n, err
	}, `SELECT sha256, name, parent, part, event FROM evidence_name `+where+` ORDER BY event`, args...)
	if err != nil {
		return nil, err
	}
	at := make(map[string]int, len(found))
	for i, e := range found {
		at[e.SHA256] = i
	}
	for _, n := range names {
		if i, ok := at[n.sha256]; ok {
			found[i].Names = append(found[i].Names, n.Name)
		}
	}
	return found, nil
}

// Evidence returns one by its SHA-256 (lower-case hex).
func (v *View) Evidence(ctx context.Context, sha256 string) (Evidence, error) {
	found, err := list(ctx, v, scanEvidence, evidenceQuery+` WHERE sha256 = ?`, sha256)
	if err == nil {
		found, err = v.withNames(ctx, found, `WHERE sha256 = ?`, sha256)
	}
	return one("evidence", sha256, found, err)
}

// AllEvidence returns every evidence in the order of taking in.
func (v *View) AllEvidence(ctx context.Context) ([]Evidence, error) {
	found, err := list(ctx, v, scanEvidence, evidenceQuery+` ORDER BY event`)
	if err != nil {
		return nil, err
	}
	return v.withNames(ctx, found, ``)
}

// EvidenceOf returns the evidence of every paper in any of these states, by its SHA-256,
// in two queries however many there are.
func (v *View) EvidenceOf(ctx context.Context, states ...string) (map[string]Evidence, error) {
	args := make([]any, len(states))
	for i, s := range states {
		args[i] = s
	}
	where := `WHERE sha256 IN (SELECT sha256 FROM paper WHERE state IN (NULL` + strings.Repeat(`, ?`, len(states)) + `))`
	found, err := list(ctx, v, scanEvidence, evidenceQuery+` `+where, args...)
	if err == nil {
		found, err = v.withNames(ctx, found, where, args...)
	}
	out := make(map[string]Evidence, len(found))
	for _, e := range found {
		out[e.SHA256] = e
	}
	return out, err
}

// Parts returns the SHA-256 of every evidence that came out of this one, in the order of the log.
func (v *View) Parts(ctx context.Context, sha256 string) ([]string, error) {
	return list(ctx, v, scanText, `SELECT sha256 FROM evidence_name WHERE parent = ? GROUP BY sha256 ORDER BY min(event)`, sha256)
}

func scanText(r *sql.Rows) (s string, err error) { return s, r.Scan(&s) }

const paperQuery = `SELECT id, number, sha256, first, last, part, state, why, reading, made FROM paper`

func scanPaper(r *sql.Rows) (p Paper, err error) {
	return p, r.Scan(&p.ID, &p.Number, &p.SHA256, &p.From, &p.To, &p.Part, &p.State, &p.Why, &p.Reading, (*timeValue)(&p.Made))
}

// papers runs a query for papers, and adds to each its decided rows and what it became.
func (v *View) papers(ctx context.Context, where string, args ...any) ([]Paper, error) {
	found, err := list(ctx, v, scanPaper, paperQuery+` `+where+` ORDER BY number`, args...)
	if err != nil || len(found) == 0 {
		return found, err
	}
	at := make(map[string]int, len(found))
	for i, p := range found {
		at[p.ID] = i
	}
	only, with := ``, []any{}
	if len(found) == 1 {
		only, with = `WHERE paper = ?`, []any{found[0].ID}
	}
	_, err = list(ctx, v, func(r *sql.Rows) (none struct{}, err error) {
		var id, state string
		var row int
		err = r.Scan(&id, &row, &state)
		if i, ok := at[id]; ok {
			if found[i].Rows == nil {
				found[i].Rows = map[int]string{}
			}
			found[i].Rows[row] = state
		}
		return none, err
	}, `SELECT paper, row, state FROM paper_row `+only, with...)
	if err != nil {
		return nil, err
	}
	_, err = list(ctx, v, func(r *sql.Rows) (none struct{}, err error) {
		var id, fresh string
		err = r.Scan(&id, &fresh)
		if i, ok := at[id]; ok {
			found[i].Into = append(found[i].Into, fresh)
		}
		return none, err
	}, `SELECT paper, fresh FROM paper_into `+only+` ORDER BY paper, fresh`, with...)
	return found, err
}

// Papers returns the papers in any of the states given; all when none is given.
func (v *View) Papers(ctx context.Context, states ...string) ([]Paper, error) {
	if len(states) == 0 {
		return v.papers(ctx, ``)
	}
	args := make([]any, len(states))
	for i, s := range states {
		args[i] = s
	}
	return v.papers(ctx, `WHERE state IN (?`+strings.Repeat(`, ?`, len(states)-1)+`)`, args...)
}

// PapersOf returns the papers of one evidence, retired ones too.
func (v *View) PapersOf(ctx context.Context, sha256 string) ([]Paper, error) {
	return v.papers(ctx, `WHERE sha256 = ?`, sha256)
}

// Paper returns one by its UUID.
func (v *View) Paper(ctx context.Context, id string) (Paper, error) {
	found, err := v.papers(ctx, `WHERE id = ?`, id)
	return one("paper", id, found, err)
}

const readingQuery = `SELECT event, made, paper, body FROM reading`

func scanReading(r *sql.Rows) (out Reading, err error) {
	var body string
	if err := r.Scan(&out.Event, (*timeValue)(&out.At), &out.Paper, &body); err != nil {
		return out, err
	}
	if err := json.Unmarshal([]byte(body), &out.Reading); err != nil {
		return out, fmt.Errorf("reading %d: %w: %v", out.Event, ErrBody, err)
	}
	return out, nil
}

// Reading returns the newest reading of a paper. Without one the error wraps [ErrUnknown].
func (v *View) Reading(ctx context.Context, paper string) (Reading, error) {
	found, err := list(ctx, v, scanReading, readingQuery+` WHERE paper = ? ORDER BY event DESC LIMIT 1`, paper)
	return one("reading of paper", paper, found, err)
}

// Readings returns the newest reading of every paper in any of the states given, by
// the paper's UUID; of all papers when none is given.
func (v *View) Readings(ctx context.Context, states ...string) (map[string]Reading, error) {
	where, args := ``, []any{}
	if len(states) > 0 {
		where = ` WHERE state IN (?` + strings.Repeat(`, ?`, len(states)-1) + `)`
		for _, s := range states {
			args = append(args, s)
		}
	}
	found, err := list(ctx, v, scanReading, readingQuery+` WHERE event IN (SELECT reading FROM paper`+where+`)`, args...)
	out := make(map[string]Reading, len(found))
	for _, r := range found {
		out[r.Paper] = r
	}
	return out, err
}

// ReadingAt returns the reading that an event made.
func (v *View) ReadingAt(ctx context.Context, event int64) (Reading, error) {
	found, err := list(ctx, v, scanReading, readingQuery+` WHERE event = ?`, event)
	return one("reading", strconv.FormatInt(event, 10), found, err)
}
