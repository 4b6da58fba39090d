package catalog

import (
	"context"
	"database/sql"
	"fmt"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"time"

	"evidencevault/credit"
)

// View asks a vault questions. Lists are in the order of the short numbers or of the
// log, and empty when there is nothing. A single thing that is not there gives an
// error that wraps [ErrUnknown]. A View is only got from a [Catalog] or a [Tx].
type View struct {
	q   querier
	dir string // of the vault, absolute
}

// list runs a query and returns what scan makes of each row.
func list[T any](ctx context.Context, v *View, scan func(*sql.Rows) (T, error), query string, args ...any) (_ []T, err error) {
	rows, err := v.q.QueryContext(ctx, query, args...)
	if err != nil {
		return nil, sqlError(err)
	}
	defer func() {
		if cerr := rows.Close(); err == nil {
			err = sqlError(cerr)
		}
	}()
	out := []T{}
	for rows.Next() {
		one, err := scan(rows)
		if err != nil {
			return nil, sqlError(err)
		}
		out = append(out, one)
	}
	return out, sqlError(rows.Err())
}

// one returns the only thing of a list, or an error that wraps [ErrUnknown].
func one[T any](what, id string, found []T, err error) (T, error) {
	var none T
	if err != nil {
		return none, err
	}
	if len(found) == 0 {
		return none, fmt.Errorf("%s %s: %w", what, id, ErrUnknown)
	}
	return found[0], nil
}

var (
	shortRef = regexp.MustCompile(`^([PACRLpacrl])([1-9][0-9]{0,8})$`)
	longRef  = regexp.MustCompile(`^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$`)
)

// tables says in which table the things of a letter stand.
var tables = []struct {
	letter Letter
	table  string
}{{LetterPaper, "paper"}, {LetterActivity, "activity"}, {LetterClaim, "claim"}, {LetterReceipt, "receipt"}, {LetterLetter, "letter"}}

// Resolve returns what a reference names: a short number ("P12") or a UUID, in upper
// or lower case. The error wraps [ErrUnknown].
func (v *View) Resolve(ctx context.Context, ref string) (Letter, string, error) {
	column, key := "id", any(strings.ToLower(ref))
	short := shortRef.FindStringSubmatch(ref)
	if short != nil {
		n, err := strconv.Atoi(short[2])
		if err != nil {
			return "", "", fmt.Errorf("%q: %w: %v", ref, ErrUnknown, err)
		}
		column, key = "number", n
	} else if !longRef.MatchString(strings.ToLower(ref)) {
		return "", "", fmt.Errorf("%q: %w: want P12 (a paper), A7 (an activity), C9 (a claim), R3 (a receipt), L2 (a letter), or a UUID", ref, ErrUnknown)
	}
	for _, t := range tables {
		if short != nil && string(t.letter) != strings.ToUpper(short[1]) {
			continue
		}
		var id string
		switch err := v.q.QueryRowContext(ctx, `SELECT id FROM `+t.table+` WHERE `+column+` = ?`, key).Scan(&id); err {
		case nil:
			return t.letter, id, nil
		case sql.ErrNoRows:
		default:
			return "", "", sqlError(err)
		}
	}
	return "", "", fmt.Errorf("%s: %w", ref, ErrUnknown)
}

// Holder returns the person the vault belongs to.
func (v *View) Holder(ctx context.Context) (Holder, error) {
	type named struct {
		name   string
		former bool
	}
	names, err := list(ctx, v, func(r *sql.Rows) (n named, err error) {
		return n, r.Scan(&n.name, &n.former)
	}, `SELECT name, former FROM holder ORDER BY event`)
	var h Holder
	for _, n := range names {
		if n.former {
			h.Former = append(h.Former, n.name)
		} else {
			h.Name = n.name // the last one counts
		}
	}
	return h, err
}

const certificationQuery = `SELECT id, name, title, scheme, number FROM certification`

func scanCertification(r *sql.Rows) (c Certification, err error) {
	return c, r.Scan(&c.ID, &c.Name, &c.Title, &c.Scheme, &c.Number)
}

// Certifications returns the holder's certifications in the order in which they were added.
func (v *View) Certifications(ctx context.Context) ([]Certification, error) {
	return list(ctx, v, scanCertification, certificationQuery+` ORDER BY event`)
}

// Certification returns one by its UUID or its short name.
func (v *View) Certification(ctx context.Context, id string) (Certification, error) {
	found, err := list(ctx, v, scanCertification, certificationQuery+` WHERE id = ? OR name = ?`, id, id)
	return one("certification", id, found, err)
}

// Cycles returns the cycles of a certification (its UUID), earliest first; "" for all.
func (v *View) Cycles(ctx context.Context, certification string) ([]Cycle, error) {
	return list(ctx, v, func(r *sql.Rows) (c Cycle, err error) {
		return c, r.Scan(&c.ID, &c.Certification, (*dayText)(&c.Start), (*dayText)(&c.End), &c.Scheme, &c.Closed, &c.Closing)
	}, `SELECT id, certification, first, last, scheme, closed, EXISTS (SELECT 1 FROM closing WHERE cycle = cycle.id AND state = 'begun') FROM cycle WHERE ? IN ('', certification) ORDER BY first, event`, certification)
}

// Schemes returns every scheme kept, in the order in which they came.
func (v *View) Schemes(ctx context.Context) ([]Scheme, error) {
	return list(ctx, v, func(r *sql.Rows) (s Scheme, err error) {
		return s, r.Scan(&s.SHA256, &s.ID, &s.Version, &s.File)
	}, `SELECT sha256, id, version, file FROM scheme ORDER BY event`)
}

// Facts returns every fact, by name and day.
func (v *View) Facts(ctx context.Context) ([]Fact, error) {
	return list(ctx, v, func(r *sql.Rows) (f Fact, err error) {
		return f, r.Scan(&f.Name, &f.Value, (*dayText)(&f.From))
	}, `SELECT name, value, since FROM fact ORDER BY name, since`)
}

// Drops returns the watched folders, in the order in which they were set.
func (v *View) Drops(ctx context.Context) ([]Drop, error) {
	return list(ctx, v, func(r *sql.Rows) (d Drop, err error) {
		err = r.Scan(&d.Dir, &d.Empty)
		if d.Dir = filepath.FromSlash(d.Dir); !filepath.IsAbs(d.Dir) {
			d.Dir = filepath.Join(v.dir, d.Dir)
		}
		return d, err
	}, `SELECT dir, empty FROM drop_folder ORDER BY event`)
}

// dayText and timeValue read what stands in a column.
type (
	dayText   credit.Date
	timeValue time.Time
)

func (d *dayText) Scan(src any) error {
	text, ok := src.(string)
	if !ok {
		return fmt.Errorf("a day of type %T, want text", src)
	}
	return (*credit.Date)(d).UnmarshalText([]byte(text))
}

func (t *timeValue) Scan(src any) error {
	text, ok := src.(string)
	if !ok {
		return fmt.Errorf("a time of type %T, want text", src)
	}
	at, err := time.Parse(timeForm, text)
	*t = timeValue(at)
	return err
}

const eventQuery = `SELECT number, act, at, kind, body, coalesce((SELECT event FROM undone WHERE undone.act = event.act), 0) FROM event`

func scanEvent(r *sql.Rows) (e Event, err error) {
	var body sql.NullString
	var at string
	if err := r.Scan(&e.Number, &e.Act, &at, &e.Kind, &body, &e.Undone); err != nil {
		return e, err
	}
	if body.Valid {
		e.Body = []byte(body.String)
	}
	if e.At, err = time.Parse(timeForm, at); err != nil {
		err = &LogError{From: e.Number, Why: fmt.Sprintf("event %d was altered: its time is %.40q", e.Number, at), Mend: wayBack}
	}
	return e, err
}

// Events returns the events from one number to another, both included; a to of 0 is the end.
func (v *View) Events(ctx context.Context, from, to int64) ([]Event, error) {
	return list(ctx, v, scanEvent, eventQuery+` WHERE number >= ? AND (? = 0 OR number <= ?) ORDER BY number`, from, to, to)
}

// Length returns how many events the log has.
func (v *View) Length(ctx context.Context) (n int, err error) {
	err = v.q.QueryRowContext(ctx, `SELECT count(*) FROM event`).Scan(&n)
	return n, sqlError(err)
}

// History returns the events about one id: a UUID, or the SHA-256 of an evidence.
func (v *View) History(ctx context.Context, id string) ([]Event, error) {
	return list(ctx, v, scanEvent, eventQuery+` WHERE number IN (SELECT event FROM about WHERE id = ?) ORDER BY number`, id)
}

// Event returns one by its number.
func (v *View) Event(ctx context.Context, number int64) (Event, error) {
	found, err := list(ctx, v, scanEvent, eventQuery+` WHERE number = ?`, number)
	return one("event", strconv.FormatInt(number, 10), found, err)
}

// Parse returns the body of an event. The error wraps [ErrBody]; also when the body is blanked.
func (e Event) Parse() (Body, error) {
	if e.Body == nil {
		return nil, fmt.Errorf("event %d: %w: it is blanked", e.Number, ErrBody)
	}
	body, err := parseBody(e.Kind, e.Body)
	if err != nil {
		return nil, fmt.Errorf("event %d: %w", e.Number, err)
	}
	return body, nil
}
