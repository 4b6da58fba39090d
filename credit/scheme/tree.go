package scheme

import (
	"bytes"
	"errors"
	"fmt"
	"regexp"
	"sort"
	"strings"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2/unstable"
)

// maxSize bounds a scheme file, in bytes.
const maxSize = 1 << 20

// maxSyntax bounds how many lines that cannot be read are told of one file.
const maxSyntax = 20

type position struct{ line, column int }

// kind says what a node of the file is.
type kind string

const (
	table   kind = "a table"
	array   kind = "a list"
	text    kind = "a text"
	integer kind = "a whole number"
	decimal kind = "a number"
	boolean kind = "true or false"
	date    kind = "a date"
	moment  kind = "a time"
)

// node is one value of the file, with its place. Numbers keep their characters.
type node struct {
	kind
	position
	text   string
	keys   []string // of a table, in order
	values map[string]*node
	places map[string]position // of the keys
	items  []*node             // of a list
	closed bool                // an inline table, or a list written out: nothing may be added later
	headed bool                // a table whose header stood in the file
}

func newTable(at position) *node {
	return &node{kind: table, position: at, values: map[string]*node{}, places: map[string]position{}}
}

func (n *node) put(key string, at position, value *node) {
	n.keys = append(n.keys, key)
	n.values[key], n.places[key] = value, at
}

// treeReader turns the bytes of a file into nodes.
type treeReader struct {
	*problems
	data    []byte
	lines   []int // offset of each line
	parser  unstable.Parser
	root    *node
	current *node
	begins  int // the line on which the next expression begins
}

// readTree returns the tables of the file. A line that is no TOML is a problem, and the
// rest is read on without it.
func readTree(p *problems, data []byte) *node {
	first := position{1, 1}
	switch {
	case len(data) > maxSize:
		p.add(first, "a scheme is a text of some pages", "the file has %d bytes, more than %d", len(data), maxSize)
		return nil
	case bytes.HasPrefix(data, []byte{0xff, 0xfe}) || bytes.HasPrefix(data, []byte{0xfe, 0xff}):
		p.add(first, "save the file as UTF-8", "the file is UTF-16")
		return nil
	}
	data = bytes.Clone(bytes.TrimPrefix(data, []byte("\xef\xbb\xbf")))
	var syntax []Problem
	for {
		r := &treeReader{problems: &problems{file: p.file}, data: data, root: newTable(first)}
		r.lines = lineStarts(data)
		r.current = r.root
		at, message := r.read()
		if message == "" || len(syntax) == maxSyntax {
			p.list = append(append(p.list, syntax...), r.list...)
			return r.root
		}
		syntax = append(syntax, Problem{p.file, at.line, at.column, "not readable as TOML: " + message, syntaxHint(message)})
		r.blank(at.line)
	}
}

func lineStarts(data []byte) []int {
	starts := []int{0}
	for i, b := range data {
		if b == '\n' {
			starts = append(starts, i+1)
		}
	}
	return starts
}

// expressionLine looks like the first line of a key with its value, or like a header.
var expressionLine = regexp.MustCompile(`^[ \t]*([A-Za-z0-9_."'-]+[ \t]*=|\[\[?[A-Za-z_"'][^,={}]*\]\]?[ \t]*(#|\r?\n?$))`)

// blank empties the lines of what could not be read, from where it began to where
// something else seems to begin, so that the rest can be read.
func (r *treeReader) blank(line int) {
	from := line
	if r.begins > 0 {
		from = min(r.begins, line)
	}
	for n := from; n <= len(r.lines); n++ {
		end := len(r.data)
		if n < len(r.lines) {
			end = r.lines[n]
		}
		text := r.data[r.lines[n-1]:end]
		if n > from && expressionLine.Match(text) {
			return
		}
		for i, b := range text {
			if b != '\n' {
				text[i] = ' '
			}
		}
	}
}

func (r *treeReader) at(offset int) position {
	line := sort.SearchInts(r.lines, offset+1)
	return position{line, offset - r.lines[line-1] + 1}
}

// read reads the whole file, or says where and why it could not.
func (r *treeReader) read() (position, string) {
	if i := badByte(r.data); i >= 0 {
		return r.at(i), "a byte that is no text in UTF-8"
	}
	r.parser.Reset(r.data)
	r.begins = r.following(0)
	for r.parser.NextExpression() {
		r.begins = r.following(r.expression(r.parser.Expression()))
	}
	err := r.parser.Error()
	if err == nil {
		return position{}, ""
	}
	var bad *unstable.ParserError
	if errors.As(err, &bad) && bad.Highlight != nil {
		offset := int(r.parser.Range(bad.Highlight).Offset)
		return r.at(min(offset, max(len(r.data)-1, 0))), bad.Message
	}
	return r.at(max(len(r.data)-1, 0)), err.Error()
}

func badByte(data []byte) int {
	for i := 0; i < len(data); {
		c, n := utf8.DecodeRune(data[i:])
		if c == utf8.RuneError && n <= 1 || c == 0 {
			return i
		}
		i += n
	}
	return -1
}

// expression takes in one expression, and returns an offset on its last line.
func (r *treeReader) expression(e *unstable.Node) int {
	end := 0
	switch e.Kind {
	case unstable.KeyValue:
		end = int(e.Raw.Offset + e.Raw.Length)
		r.keyValue(r.current, e)
	case unstable.Table, unstable.ArrayTable:
		for it := e.Key(); it.Next(); {
			end = int(it.Node().Raw.Offset)
		}
		r.header(e)
	}
	return end
}

// following is the first line behind the one of offset that is not empty or a remark.
func (r *treeReader) following(offset int) int {
	line := 1
	if offset > 0 {
		line = r.at(offset).line + 1
	}
	for ; line < len(r.lines); line++ {
		text := bytes.TrimSpace(r.data[r.lines[line-1]:r.lines[line]])
		if len(text) > 0 && text[0] != '#' {
			break
		}
	}
	return line
}

// key returns the parts of a key with their places.
func (r *treeReader) key(e *unstable.Node) (names []string, places []position) {
	for it := e.Key(); it.Next(); {
		k := it.Node()
		names = append(names, string(k.Data))
		places = append(places, r.at(int(k.Raw.Offset)))
	}
	return names, places
}

func (r *treeReader) keyValue(into *node, e *unstable.Node) {
	names, places := r.key(e)
	last := len(names) - 1
	for i, name := range names[:last] {
		next, ok := into.values[name]
		if !ok {
			next = newTable(places[i])
			into.put(name, places[i], next)
		}
		if next.kind != table || next.closed {
			r.add(places[i], "", "%s is %s already, so nothing can stand below it", name, next.kind)
			return
		}
		into = next
	}
	if before, ok := into.places[names[last]]; ok {
		r.add(places[last], "keep one of the two", "%s stands here a second time, first on line %d", names[last], before.line)
		return
	}
	into.put(names[last], places[last], r.value(e.Value(), places[last]))
}

func (r *treeReader) value(v *unstable.Node, near position) *node {
	at := near
	if v.Raw.Length > 0 {
		at = r.at(int(v.Raw.Offset))
	}
	n := &node{position: at, text: string(v.Data)}
	switch v.Kind {
	case unstable.String:
		n.kind = text
	case unstable.Integer:
		n.kind = integer
	case unstable.Float:
		n.kind = decimal
	case unstable.Bool:
		n.kind = boolean
	case unstable.LocalDate:
		n.kind = date
	case unstable.Array:
		n.kind, n.closed = array, true
		for it := v.Children(); it.Next(); {
			if it.Node().Kind != unstable.Comment {
				n.items = append(n.items, r.value(it.Node(), at))
			}
		}
	case unstable.InlineTable:
		n = newTable(at)
		for it := v.Children(); it.Next(); {
			if it.Node().Kind == unstable.KeyValue {
				r.keyValue(n, it.Node())
			}
		}
		if len(n.keys) > 0 {
			n.position = n.places[n.keys[0]]
		}
		n.closed = true
	default:
		n.kind = moment
	}
	return n
}

// header goes to the table that a line in brackets names.
func (r *treeReader) header(e *unstable.Node) {
	names, places := r.key(e)
	at := r.root
	for i, name := range names {
		last := i == len(names)-1
		next, ok := at.values[name]
		switch {
		case !ok && last && e.Kind == unstable.ArrayTable:
			list := &node{kind: array, position: places[i]}
			at.put(name, places[i], list)
			next = list
		case !ok:
			next = newTable(places[i])
			at.put(name, places[i], next)
		}
		if last && e.Kind == unstable.ArrayTable && next.kind == array && !next.closed {
			item := newTable(places[i])
			next.items = append(next.items, item)
			r.current = item
			return
		}
		if next.kind == array && !next.closed && !last {
			next = next.items[len(next.items)-1]
		}
		if next.kind != table || next.closed || last && (next.headed || e.Kind == unstable.ArrayTable) {
			r.add(places[i], "keep one of the two", "%s is there already, on line %d", strings.Join(names[:i+1], "."), next.line)
			r.current = newTable(places[i]) // what follows is read, and left aside
			return
		}
		at = next
	}
	at.headed = true
	r.current = at
}

// describe names what a node is, for a message.
func (n *node) describe() string {
	switch n.kind {
	case text:
		return fmt.Sprintf("the text %q", shorten(n.text))
	case integer, decimal, boolean, date, moment:
		return string(n.kind) + " (" + shorten(n.text) + ")"
	}
	return string(n.kind)
}

func shorten(s string) string {
	if len(s) > 60 {
		return strings.ToValidUTF8(s[:57], "") + "…"
	}
	return s
}
