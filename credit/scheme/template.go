package scheme

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"regexp"
	"slices"
	"strings"
)

//go:embed templates/*.toml
var templates embed.FS

// ErrShape says that there is no template of this shape.
var ErrShape = errors.New("there is no such shape")

// ErrBlank says that a template has no place of this name, or that an answer cannot
// stand there.
var ErrBlank = errors.New("cannot be filled in")

// Shape is a template for the rules of one's own body: a whole scheme file with
// questions, and figures that are placeholders.
type Shape struct {
	Name  string // as in scheme new --from NAME
	Title string
	Data  []byte
}

// Shapes returns the templates in the order of their names.
func Shapes() []Shape {
	files, err := fs.Glob(templates, "templates/*.toml")
	if err != nil {
		panic(err) // the pattern is fixed
	}
	var list []Shape
	for _, file := range files {
		data, err := templates.ReadFile(file)
		if err != nil {
			panic(err) // it is built in
		}
		first, _, _ := strings.Cut(string(data), "\n")
		list = append(list, Shape{strings.TrimSuffix(strings.TrimPrefix(file, "templates/"), ".toml"), strings.Trim(first, "# ."), data})
	}
	return list
}

// ShapeOf returns the template of this name. The error wraps [ErrShape].
func ShapeOf(name string) (Shape, error) {
	var names []string
	for _, s := range Shapes() {
		if s.Name == name {
			return s, nil
		}
		names = append(names, s.Name)
	}
	return Shape{}, fmt.Errorf("shape %q: %w: want one of %s", name, ErrShape, strings.Join(names, ", "))
}

// Blank is a place of a template that is still to be filled in.
type Blank struct {
	Name     string `json:"name"`
	Question string `json:"question"`
	Value    string `json:"value"` // that stands there now
	Line     int    `json:"line"`  // counted from 1
}

var blankLine = regexp.MustCompile(`^(\s*[a-z_]+ = )("[^"]*"|[0-9]+)(\s*)#\? ([a-z_]+): (.*)$`)

// Blanks returns the places of a scheme file that still hold a template's placeholder,
// in the order of the file. A file that was written without a template has none.
func Blanks(data []byte) []Blank {
	var list []Blank
	for i, line := range strings.Split(strings.ReplaceAll(string(data), "\r\n", "\n"), "\n") {
		if m := blankLine.FindStringSubmatch(line); m != nil {
			list = append(list, Blank{m[4], m[5], strings.Trim(m[2], `"`), i + 1})
		}
	}
	return list
}

// FillIn writes answers into a template, by the names of its blanks, and takes the
// question mark off each line that was answered. The error wraps [ErrBlank] and names
// the blank.
func FillIn(data []byte, answers map[string]string) ([]byte, error) {
	blanks := Blanks(data)
	for name := range answers {
		if !slices.ContainsFunc(blanks, func(b Blank) bool { return b.Name == name }) {
			var names []string
			for _, b := range blanks {
				names = append(names, b.Name)
			}
			return nil, fmt.Errorf("%s: %w: the template has no such place; it has %s", name, ErrBlank, strings.Join(names, ", "))
		}
	}
	lines := strings.Split(string(data), "\n")
	for i, line := range lines {
		m := blankLine.FindStringSubmatch(line)
		if m == nil {
			continue
		}
		answer, ok := answers[m[4]]
		if !ok {
			continue
		}
		value := answer
		if strings.HasPrefix(m[2], `"`) {
			value = `"` + answer + `"`
		} else if strings.Trim(answer, "0123456789") != "" || answer == "" {
			return nil, fmt.Errorf("%s: %w: want a whole number, not %q", m[4], ErrBlank, answer)
		}
		if strings.ContainsAny(answer, "\"\\\r\n") {
			return nil, fmt.Errorf("%s: %w: %q holds a quotation mark, a backslash or a line end", m[4], ErrBlank, answer)
		}
		lines[i] = m[1] + value + m[3] + "# " + m[5]
	}
	return []byte(strings.Join(lines, "\n")), nil
}
