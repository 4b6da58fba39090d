package catalog

import (
	"bytes"
	"cmp"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"slices"
	"strings"

	"modernc.org/sqlite"
)

// rebuild makes the rows again from the events of q, in an empty database that has no
// name and vanishes when it is closed, and hands it to fn. The error is a [*LogError]
// if an event cannot be applied.
func rebuild(ctx context.Context, q querier, fn func(*sql.Conn) error) (err error) {
	base, err := sqlite.NewConnector("file:?_foreign_keys=1&_dqs=0&_defensive=1&_synchronous=OFF&_journal_mode=MEMORY&_txlock=immediate")
	if err != nil {
		return fmt.Errorf("open an empty database: %w", err)
	}
	db := sql.OpenDB(base)
	defer func() { err = errors.Join(err, db.Close()) }()
	conn, err := db.Conn(ctx) // each connection would have a database of its own
	if err != nil {
		return sqlError(err)
	}
	defer func() { err = errors.Join(err, conn.Close()) }()
	list, err := steps(schemaFiles)
	if err != nil {
		return err
	}
	for _, s := range list {
		if _, err := conn.ExecContext(ctx, s.sql); err != nil {
			return fmt.Errorf("%s: %w", s.name, sqlError(err))
		}
	}
	if err := replay(ctx, q, conn); err != nil {
		return err
	}
	return fn(conn)
}

// replay applies every event of q to the rows of an empty database.
func replay(ctx context.Context, q querier, to *sql.Conn) error {
	if _, err := to.ExecContext(ctx, `BEGIN`); err != nil {
		return sqlError(err)
	}
	blanked, err := blanks(ctx, q)
	if err != nil {
		return err
	}
	err = eachEvent(ctx, q, 1, func(e Event) error {
		r := &rows{ctx: ctx, tx: to, event: e.Number, at: timeText(e.At), blanked: blanked}
		if e.Body == nil {
			return r.applyBlank(e)
		}
		body, err := e.Parse()
		if err == nil {
			err = r.apply(body)
		}
		if err != nil && ctx.Err() == nil {
			return &LogError{From: e.Number, Why: fmt.Sprintf("event %d (%s) cannot be applied: %v", e.Number, e.Kind, err), Mend: wayBack}
		}
		return err
	})
	if err != nil {
		return err
	}
	_, err = to.ExecContext(ctx, `COMMIT`)
	return sqlError(err)
}

// table is a table that is made from events.
type table struct {
	name    string
	columns []string
	keys    []int // which of columns make the primary key, in its order
}

// tablesOf lists the tables that are made from events.
func tablesOf(ctx context.Context, q querier) ([]table, error) {
	v := &View{q: q}
	names, err := list(ctx, v, scanText, `SELECT name FROM sqlite_schema WHERE type = 'table'
		AND name NOT IN ('event', 'tree') AND name NOT LIKE 'sqlite\_%' ESCAPE '\' ORDER BY name`)
	if err != nil {
		return nil, err
	}
	var out []table
	for _, name := range names {
		t := table{name: name}
		var places []int
		_, err := list(ctx, v, func(r *sql.Rows) (none struct{}, err error) {
			var column string
			var place int
			err = r.Scan(&column, &place)
			if t.columns = append(t.columns, column); place > 0 {
				t.keys = append(t.keys, len(t.columns)-1)
				places = append(places, place)
			}
			return none, err
		}, `SELECT name, pk FROM pragma_table_info(?) ORDER BY cid`, name)
		if err != nil {
			return nil, err
		}
		order := slices.Clone(t.keys)
		for i, place := range places {
			order[place-1] = t.keys[i]
		}
		t.keys = order
		out = append(out, t)
	}
	return out, nil
}

// query reads the whole table in the order of its key.
func (t table) query() string {
	keys := make([]string, len(t.keys))
	for i, k := range t.keys {
		keys[i] = t.columns[k]
	}
	return `SELECT ` + strings.Join(t.columns, ", ") + ` FROM ` + t.name + ` ORDER BY ` + strings.Join(keys, ", ")
}

// row is one row of a table, in the order of its columns.
type row []any

// text names the row by its key.
func (t table) text(r row) string {
	parts := make([]string, len(t.keys))
	for i, k := range t.keys {
		parts[i] = show(r[k])
	}
	return t.name + " " + strings.Join(parts, " ")
}

// value returns a column of a row as text; "" if the table has no such column.
func (t table) value(r row, column string) string {
	i := slices.Index(t.columns, column)
	if i < 0 || r[i] == nil {
		return ""
	}
	return show(r[i])
}

// show prints a value for a message, cut off when it is long.
func show(v any) string {
	text := fmt.Sprint(v)
	switch b := v.(type) {
	case nil:
		return "null"
	case []byte:
		text = FileName(b).Exact()
	}
	if r := []rune(text); len(r) > 120 {
		text = string(r[:120]) + "…"
	}
	return text
}

// compareKeys orders two rows as SQLite does, by value and text by its bytes.
func (t table) compareKeys(a, b row) int {
	for _, k := range t.keys {
		var c int
		switch x := a[k].(type) {
		case int64:
			y, ok := b[k].(int64)
			if !ok {
				return -1
			}
			c = cmp.Compare(x, y)
		default:
			c = strings.Compare(fmt.Sprint(a[k]), fmt.Sprint(b[k]))
		}
		if c != 0 {
			return c
		}
	}
	return 0
}

// differs is a row that is not what the log says.
type differs struct {
	table table
	row   row    // as it stands, or as it should stand where it is missing
	why   string // what was found and what the log says
}

// difference compares a table in two databases and calls fn for each row that differs.
func (t table) difference(ctx context.Context, have, want querier, fn func(differs) error) (err error) {
	a, err := openCursor(ctx, have, t)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, a.rows.Close()) }()
	b, err := openCursor(ctx, want, t)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, b.rows.Close()) }()
	for a.now != nil || b.now != nil {
		order := 0
		switch {
		case a.now == nil:
			order = 1
		case b.now == nil:
			order = -1
		default:
			order = t.compareKeys(a.now, b.now)
		}
		if err := t.report(order, a.now, b.now, fn); err != nil {
			return err
		}
		if order <= 0 {
			if err := a.next(); err != nil {
				return err
			}
		}
		if order >= 0 {
			if err := b.next(); err != nil {
				return err
			}
		}
	}
	return nil
}

func (t table) report(order int, have, want row, fn func(differs) error) error {
	switch {
	case order < 0:
		return fn(differs{t, have, "no event makes this row"})
	case order > 0:
		return fn(differs{t, want, "the row is missing"})
	}
	var why []string
	for i, column := range t.columns {
		if !sameValue(have[i], want[i]) {
			why = append(why, fmt.Sprintf("%s is %s, and the log says %s", column, show(have[i]), show(want[i])))
		}
	}
	if why == nil {
		return nil
	}
	return fn(differs{t, have, strings.Join(why, "; ")})
}

func sameValue(a, b any) bool {
	x, xb := a.([]byte)
	y, yb := b.([]byte)
	if xb || yb {
		return xb && yb && bytes.Equal(x, y)
	}
	return a == b
}

// cursor walks through a table.
type cursor struct {
	rows *sql.Rows
	now  row // nil at the end
	size int
}

func openCursor(ctx context.Context, q querier, t table) (*cursor, error) {
	rows, err := q.QueryContext(ctx, t.query())
	if err != nil {
		return nil, sqlError(err)
	}
	c := &cursor{rows: rows, size: len(t.columns)}
	if err := c.next(); err != nil {
		return nil, errors.Join(err, rows.Close())
	}
	return c, nil
}

func (c *cursor) next() error {
	c.now = nil
	if !c.rows.Next() {
		return sqlError(c.rows.Err())
	}
	now := make(row, c.size)
	into := make([]any, c.size)
	for i := range now {
		into[i] = &now[i]
	}
	if err := c.rows.Scan(into...); err != nil {
		return sqlError(err)
	}
	c.now = now
	return nil
}
