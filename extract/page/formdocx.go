package page

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"
)

// formDocx lists or fills the content controls of a word processor's document: each by
// its tag, or by its title where it has no tag. Only the letters of a control change;
// every other byte of the document's files stays.
// Source: ECMA-376, part 1, section 17.5.2 (structured document tags).
func formDocx(b []byte, o order) (reply, []byte) {
	z, err := zip.NewReader(bytes.NewReader(b), int64(len(b)))
	if err != nil || len(z.File) > docxEntries {
		return noForm("the document is damaged: its archive cannot be opened"), nil
	}
	room := int64(docxBytes)
	var a reply
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	seen := map[string]bool{}
	for _, f := range z.File {
		if f.Name != "word/document.xml" {
			if err := w.Copy(f); err != nil {
				return noForm("the document is damaged: " + plain(err.Error(), 200)), nil
			}
			continue
		}
		c, err := controlsIn(f, &room, o.Values)
		if err != nil {
			return noForm("the document is damaged: " + plain(err.Error(), 200)), nil
		}
		for _, field := range c.fields {
			if !seen[field.Name] {
				seen[field.Name] = true
				a.Fields = append(a.Fields, field)
			}
		}
		a.Problems = append(a.Problems, c.problems...)
		if err := rewrite(w, f, c.edited()); err != nil {
			return noForm("the document cannot be written: " + plain(err.Error(), 200)), nil
		}
	}
	if len(seen) == 0 {
		return noForm("the document has no content control; in a word processor, insert one for each value and give it a tag"), nil
	}
	if err := w.Close(); err != nil {
		return noForm("the document cannot be written: " + plain(err.Error(), 200)), nil
	}
	a.Problems = append(a.Problems, unknown(o.Values, seen)...)
	if o.Do != doFill {
		return a, nil
	}
	return a, out.Bytes()
}

// controlsIn walks the controls of one file of a document, of which room is left to unpack.
func controlsIn(f *zip.File, room *int64, values []FormValue) (*controls, error) {
	text, err := wholeFile(f, room)
	if err != nil {
		return nil, err
	}
	return controlsOf(text, values)
}

// rewrite puts text in the place of a file of a document.
func rewrite(w *zip.Writer, f *zip.File, text []byte) error {
	to, err := w.CreateHeader(&zip.FileHeader{Name: f.Name, Method: zip.Deflate, Modified: f.Modified})
	if err != nil {
		return err
	}
	_, err = to.Write(text)
	return err
}

func wholeFile(f *zip.File, room *int64) ([]byte, error) {
	rc, err := f.Open()
	if err != nil {
		return nil, err
	}
	defer rc.Close()
	return io.ReadAll(counted{rc, room})
}

// edit replaces the bytes from, up to but not with, to.
type edit struct {
	from, to int64
	with     string
}

// control is a content control that is open while the document is walked.
type control struct {
	tag, title  string
	inside      bool // its content has begun
	written     bool
	placeholder edit // that says its text is only a hint
	text        strings.Builder
	locked      bool
}

func (c *control) name() string {
	if c.tag != "" {
		return c.tag
	}
	return c.title
}

// controls walks one file of a document.
type controls struct {
	source   []byte
	values   map[string]FormValue
	open     []*control
	edits    []edit
	fields   []FormField
	problems []Problem
}

func controlsOf(source []byte, values []FormValue) (*controls, error) {
	c := &controls{source: source, values: map[string]FormValue{}}
	for _, v := range values {
		c.values[v.Name] = v
	}
	dec := xml.NewDecoder(bytes.NewReader(source))
	dec.Entity = map[string]string{}
	depth := 0
	for {
		from := dec.InputOffset()
		token, err := dec.Token()
		if errors.Is(err, io.EOF) {
			return c, nil
		}
		if err != nil {
			return nil, err
		}
		switch t := token.(type) {
		case xml.StartElement:
			if depth++; depth > docxDepth {
				return nil, errors.New("it is nested too deeply")
			}
			if t.Name.Local == "t" && len(c.open) > 0 && c.open[len(c.open)-1].inside {
				if err := c.letters(dec, from); err != nil {
					return nil, err
				}
				depth--
				continue
			}
			c.begin(t, from, dec.InputOffset())
		case xml.EndElement:
			depth--
			c.end(t.Name.Local)
		}
	}
}

func attribute(t xml.StartElement, name string) string {
	for _, a := range t.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

func (c *controls) begin(t xml.StartElement, from, to int64) {
	if t.Name.Local == "sdt" {
		c.open = append(c.open, &control{})
		return
	}
	if len(c.open) == 0 {
		return
	}
	top := c.open[len(c.open)-1]
	switch t.Name.Local {
	case "tag":
		top.tag = plain(attribute(t, "val"), 500)
	case "alias":
		top.title = plain(attribute(t, "val"), 500)
	case "lock":
		top.locked = strings.Contains(strings.ToLower(attribute(t, "val")), "contentlocked")
	case "showingPlcHdr":
		if bytes.HasSuffix(c.source[from:to], []byte("/>")) {
			top.placeholder = edit{from: from, to: to}
		}
	case "sdtContent":
		top.inside = true
	}
}

// letters reads one run of letters in a control, and replaces it: the first takes the
// whole value, the others become empty.
func (c *controls) letters(dec *xml.Decoder, from int64) error {
	var text strings.Builder
	for depth := 1; depth > 0; {
		token, err := dec.Token()
		if err != nil {
			return err
		}
		switch t := token.(type) {
		case xml.StartElement:
			depth++
		case xml.EndElement:
			depth--
		case xml.CharData:
			text.Write(t)
		}
	}
	top := c.open[len(c.open)-1]
	top.text.WriteString(text.String())
	v, wanted := c.values[top.name()]
	if !wanted || top.locked {
		return nil
	}
	with := ""
	if !top.written {
		top.written = true
		tag := string(c.source[from+1 : from+1+int64(bytes.IndexAny(c.source[from+1:], " \t\r\n/>"))]) // with its prefix
		prefix := strings.TrimSuffix(tag, "t")
		var escaped bytes.Buffer
		if err := xml.EscapeText(&escaped, []byte(plainLines(v.Text))); err != nil {
			return err
		}
		lines := strings.ReplaceAll(escaped.String(), "&#xA;", "</"+tag+"><"+prefix+`br/><`+tag+` xml:space="preserve">`)
		with = "<" + tag + ` xml:space="preserve">` + lines + "</" + tag + ">"
		if top.placeholder.to > 0 {
			c.edits = append(c.edits, top.placeholder)
		}
	}
	c.edits = append(c.edits, edit{from, dec.InputOffset(), with})
	return nil
}

// plainLines takes out of a text what XML cannot hold; lines stay.
func plainLines(text string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' && r != '\n' && r != '\t' || r == 0xFFFE || r == 0xFFFF {
			return -1
		}
		return r
	}, strings.ReplaceAll(text, "\r\n", "\n"))
}

func (c *controls) end(name string) {
	if name != "sdt" || len(c.open) == 0 {
		return
	}
	top := c.open[len(c.open)-1]
	c.open = c.open[:len(c.open)-1]
	if top.name() == "" {
		return
	}
	c.fields = append(c.fields, FormField{Name: top.name(), Kind: FieldText, Value: plain(top.text.String(), 1000), Locked: top.locked})
	v, wanted := c.values[top.name()]
	switch {
	case !wanted || top.written:
	case top.locked:
		c.problems = append(c.problems, Problem{v.Name, ProblemLocked, "the document does not let anyone write there"})
	default:
		c.problems = append(c.problems, Problem{v.Name, ProblemLocked, fmt.Sprintf("the control %s holds no text that could be replaced; write a word into it first", v.Name)})
	}
}

// edited returns the file with the edits made, in the order of their places.
func (c *controls) edited() []byte {
	var out bytes.Buffer
	at := int64(0)
	for _, e := range sortedEdits(c.edits) {
		if e.from < at {
			continue
		}
		out.Write(c.source[at:e.from])
		out.WriteString(e.with)
		at = e.to
	}
	out.Write(c.source[at:])
	return out.Bytes()
}
