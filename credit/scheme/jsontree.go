package scheme

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
)

// maxClaimsSize bounds a claims file, in bytes; maxDepth how deep its values nest;
// maxValues how many there are, since each takes far more memory than its bytes do.
const (
	maxClaimsSize = 32 << 20
	maxDepth      = 32
	maxValues     = 1_500_000
)

const null kind = "null"

// jsonReader turns the bytes of a claims file into nodes.
type jsonReader struct {
	*problems
	treeReader
	decoder *json.Decoder
	data    []byte
	values  int // read so far
}

var (
	errDepth  = fmt.Errorf("values are nested more than %d deep", maxDepth)
	errValues = fmt.Errorf("there are more than %d values; split the file", maxValues)
)

// readJSON returns the object of a claims file, or nil after saying why not.
func readJSON(p *problems, data []byte) *node {
	first := position{1, 1}
	if len(data) > maxClaimsSize {
		p.add(first, "split it", "the file has %d bytes, more than %d", len(data), maxClaimsSize)
		return nil
	}
	if bytes.HasPrefix(data, []byte{0xff, 0xfe}) || bytes.HasPrefix(data, []byte{0xfe, 0xff}) {
		p.add(first, "save the file as UTF-8", "the file is UTF-16")
		return nil
	}
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	r := &jsonReader{problems: p, data: data, decoder: json.NewDecoder(bytes.NewReader(data))}
	r.lines = lineStarts(data)
	if i := badByte(data); i >= 0 { // the decoder would put another sign in its place
		p.add(r.at(i), "save the file as UTF-8", "a byte that is no text in UTF-8")
		return nil
	}
	r.decoder.UseNumber()
	n, err := r.next(0)
	if err == nil {
		if _, more := r.decoder.Token(); !errors.Is(more, io.EOF) {
			err = errors.New("something stands behind the end of the object")
		}
	}
	if err != nil {
		p.add(r.position(r.decoder.InputOffset(), err), "a claims file is one JSON object", "not readable as JSON: %s", plain(err))
		return nil
	}
	if n.kind != table {
		p.add(n.position, `as in {"claims": []}`, "the file holds %s where an object is wanted", n.describe())
		return nil
	}
	return n
}

func plain(err error) string {
	cut := errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF)
	if cut || strings.Contains(err.Error(), "unexpected end of JSON input") { // toolchains differ here
		return "the file ends in the middle"
	}
	return strings.TrimPrefix(err.Error(), "json: ")
}

func (r *jsonReader) position(offset int64, err error) position {
	var bad *json.SyntaxError
	if errors.As(err, &bad) && bad.Offset > offset {
		offset = bad.Offset - 1
	}
	return r.at(int(min(max(offset, 0), int64(max(len(r.data)-1, 0)))))
}

// here is the place of the token that comes next.
func (r *jsonReader) here() position {
	i := int(r.decoder.InputOffset())
	for i < len(r.data)-1 && strings.IndexByte(" \t\r\n,:", r.data[i]) >= 0 {
		i++
	}
	return r.at(min(i, max(len(r.data)-1, 0)))
}

func (r *jsonReader) next(depth int) (*node, error) {
	if depth > maxDepth {
		return nil, errDepth
	}
	if r.values++; r.values > maxValues {
		return nil, errValues
	}
	n := &node{position: r.here()}
	token, err := r.decoder.Token()
	if err != nil {
		return nil, err
	}
	switch v := token.(type) {
	case json.Delim:
		if v == '[' {
			n.kind = array
			return n, r.list(n, depth)
		}
		n = newTable(n.position)
		return n, r.object(n, depth)
	case string:
		n.kind, n.text = text, v
	case json.Number:
		n.kind, n.text = integer, v.String()
		if strings.ContainsAny(n.text, ".eE") {
			n.kind = decimal
		}
	case bool:
		n.kind, n.text = boolean, fmt.Sprint(v)
	default:
		n.kind, n.text = null, "null"
	}
	return n, nil
}

func (r *jsonReader) list(n *node, depth int) error {
	for r.decoder.More() {
		item, err := r.next(depth + 1)
		if err != nil {
			return err
		}
		n.items = append(n.items, item)
	}
	_, err := r.decoder.Token()
	return err
}

func (r *jsonReader) object(n *node, depth int) error {
	for r.decoder.More() {
		at := r.here()
		token, err := r.decoder.Token()
		if err != nil {
			return err
		}
		key := token.(string) // the decoder lets nothing else stand here
		item, err := r.next(depth + 1)
		if err != nil {
			return err
		}
		if before, ok := n.places[key]; ok {
			r.problems.add(at, "keep one of the two", "%s stands here a second time, first on line %d", shorten(key), before.line)
			continue
		}
		if item.kind != null { // null says that it is not there
			n.put(key, at, item)
		} else {
			n.places[key] = at
		}
	}
	_, err := r.decoder.Token()
	return err
}
