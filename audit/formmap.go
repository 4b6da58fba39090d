package audit

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"github.com/pelletier/go-toml/v2"
)

// ErrMap says that a mapping file is not as it should be.
var ErrMap = errors.New("not a mapping as it should be")

// FormMap says which expression goes into which field of a body's form.
type FormMap struct {
	file   string
	fields map[string]formExpr
	rows   []formRows
	leave  []string // fields that stay empty on purpose
}

// formRows is a block of rows, each filled from one claim.
type formRows struct {
	first, count int
	categories   []string // of the claims that go there; none: all
	fields       map[string]formExpr
}

// takes reports whether the claim goes into the block.
func (r formRows) takes(c FormClaim) bool {
	return len(r.categories) == 0 || slices.Contains(r.categories, c.Category)
}

// rowMark stands in a field's name for the number of the row.
const rowMark = "{n}"

// Bounds of a mapping.
const (
	mostRows   = 10_000
	mostBlocks = 100
)

// ParseFormMap reads a mapping file: [field] with a field's name and an expression, and
// [[rows]] with first, count, categories and [rows.field], in whose names {n} is the
// number of the row. The error wraps [ErrMap] and names the file and the place.
func ParseFormMap(file string, data []byte) (FormMap, error) {
	var raw struct {
		Field map[string]string `toml:"field"`
		Leave []string          `toml:"leave"`
		Rows  []struct {
			First      int               `toml:"first"`
			Count      int               `toml:"count"`
			Categories []string          `toml:"categories"`
			Field      map[string]string `toml:"field"`
		} `toml:"rows"`
	}
	dec := toml.NewDecoder(strings.NewReader(string(data)))
	dec.DisallowUnknownFields()
	if err := dec.Decode(&raw); err != nil {
		return FormMap{}, fmt.Errorf("%w: %s", ErrMap, mapError(file, err))
	}
	m := FormMap{file: file, leave: raw.Leave}
	if len(raw.Field)+len(raw.Rows) == 0 {
		return m, fmt.Errorf("%w: %s names no field; want [field] or [[rows]]", ErrMap, file)
	}
	if len(raw.Rows) > mostBlocks {
		return m, fmt.Errorf("%w: %s has %d blocks of rows, more than %d", ErrMap, file, len(raw.Rows), mostBlocks)
	}
	var err error
	if m.fields, err = parseFields(file, "field", raw.Field); err != nil {
		return m, err
	}
	for i, r := range raw.Rows {
		what := fmt.Sprintf("rows %d", i+1)
		if r.First == 0 {
			r.First = 1
		}
		if r.Count < 1 || r.Count > mostRows || r.First < 1 {
			return m, fmt.Errorf("%w: %s, %s: want count = from 1 to %d, and first = 1 or more", ErrMap, file, what, mostRows)
		}
		block := formRows{first: r.First, count: r.Count, categories: r.Categories}
		if block.fields, err = parseFields(file, what, r.Field); err != nil {
			return m, err
		}
		for name := range block.fields {
			if !strings.Contains(name, rowMark) {
				return m, fmt.Errorf("%w: %s, %s: the field %q is the same in every row; want %s in its name", ErrMap, file, what, name, rowMark)
			}
		}
		if len(block.fields) == 0 {
			return m, fmt.Errorf("%w: %s, %s has no field", ErrMap, file, what)
		}
		m.rows = append(m.rows, block)
	}
	return m, nil
}

func parseFields(file, what string, raw map[string]string) (map[string]formExpr, error) {
	out := map[string]formExpr{}
	for _, name := range slices.Sorted(maps.Keys(raw)) {
		e, err := parseExpr(raw[name])
		if err != nil {
			return nil, fmt.Errorf("%w: %s, %s, %q = %q: %v", ErrMap, file, what, name, raw[name], err)
		}
		out[name] = e
	}
	return out, nil
}

// mapError names the line of a mistake.
func mapError(file string, err error) string {
	var strict *toml.StrictMissingError
	if errors.As(err, &strict) && len(strict.Errors) > 0 {
		line, column := strict.Errors[0].Position()
		return fmt.Sprintf("%s:%d:%d: %q is not known; want field, leave and rows with first, count, categories and field", file, line, column, strings.Join(strict.Errors[0].Key(), "."))
	}
	var syntax *toml.DecodeError
	if errors.As(err, &syntax) {
		line, column := syntax.Position()
		return fmt.Sprintf("%s:%d:%d: %v", file, line, column, syntax)
	}
	return fmt.Sprintf("%s: %v", file, err)
}

// names returns every field that the mapping names, those of each row too.
func (m FormMap) names() map[string]bool {
	out := map[string]bool{}
	for name := range m.fields {
		out[name] = true
	}
	for _, name := range m.leave {
		out[name] = true
	}
	for _, r := range m.rows {
		for name := range r.fields {
			for n := range r.count {
				out[rowName(name, r.first+n)] = true
			}
		}
	}
	return out
}

func rowName(name string, n int) string { return strings.ReplaceAll(name, rowMark, strconv.Itoa(n)) }
