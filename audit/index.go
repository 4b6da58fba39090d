package audit

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"evidencevault/evidence"
	"evidencevault/internal/lock"
	"evidencevault/internal/stop"
)

// ErrFolder says that the folder for the index holds other things.
var ErrFolder = errors.New("the folder is not empty, and what lies there is no index")

const (
	originals = "originals"
	sums      = "SHA256SUMS"
	rules     = "scheme.toml"
)

// parts are the names that an index consists of, and nothing else.
var parts = []string{"index.html", "index.pdf", "index.csv", "index.xlsx", "index.json", rules, sums, originals}

// WriteIndex writes the dossier to the folder dir: index.html, index.pdf,
// index.csv, index.xlsx, index.json, scheme.toml (the rules, as they came), SHA256SUMS, and originals/, copies
// of the evidence with mode 0400.
//
// It is made beside dir and put in place when it is whole, so that a stop half-way
// leaves either the index that was there or the new one. A dir that holds anything
// but an index is refused with [ErrFolder]. Every copy is hashed while it is written;
// an original that is missing or changed stops the index with an error that names it.
func WriteIndex(ctx context.Context, store *evidence.Store, d Dossier, dir string) error {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return err
	}
	there, err := replaceable(dir)
	if err != nil {
		return err
	}
	return place(dir, there, func(root *os.Root) error {
		if err := root.Mkdir(originals, 0o700); err != nil {
			return err
		}
		list, err := fill(ctx, store, d, folder{root}, nil)
		if err != nil {
			return err
		}
		_, err = folder{root}.Add(sums, strings.NewReader(list), 0o600)
		return err
	})
}

// place makes a folder beside dir, has it filled, and puts it in place: there says
// that it takes the place of one that exists.
func place(dir string, there bool, fill func(*os.Root) error) (err error) {
	making, err := lock.Make(dir)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, making.Discard()) }()
	there = there || making.Back
	fresh := filepath.Join(making.Dir, "new")
	if err := os.Mkdir(fresh, 0o700); err != nil {
		return err
	}
	root, err := os.OpenRoot(fresh)
	if err != nil {
		return err
	}
	if err := errors.Join(fill(root), root.Close()); err != nil {
		return err
	}
	if !there {
		return os.Rename(fresh, dir)
	}
	old := filepath.Join(making.Dir, lock.Old)
	if err := os.Rename(dir, old); err != nil {
		return err
	}
	if err := stop.At(stop.Aside); err != nil {
		return errors.Join(err, os.Rename(old, dir))
	}
	if err := os.Rename(fresh, dir); err != nil {
		return errors.Join(err, os.Rename(old, dir))
	}
	return nil
}

// replaceable reports whether dir exists, and refuses one that holds other things.
func replaceable(dir string) (there bool, err error) {
	info, err := os.Lstat(dir)
	if errors.Is(err, os.ErrNotExist) {
		return false, nil
	}
	if err != nil {
		return false, err
	}
	if !info.IsDir() {
		return false, fmt.Errorf("%s: is no folder; name another one", dir)
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return false, err
	}
	for _, e := range entries {
		if !slices.Contains(parts, e.Name()) {
			return false, fmt.Errorf("%s: %w (%s); name another folder", dir, ErrFolder, e.Name())
		}
	}
	return true, nil
}

// adder is where the files of an index go: a folder, or the payload of a bag. Add
// returns the SHA-256 of what was written.
type adder interface {
	Add(name string, from io.Reader, mode os.FileMode) (string, error)
}

// folder adds files to a folder.
type folder struct{ root *os.Root }

// Add writes a file that must not be there yet.
func (f folder) Add(name string, from io.Reader, mode os.FileMode) (string, error) {
	to, err := f.root.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return "", err
	}
	hash := sha256.New()
	_, err = io.Copy(io.MultiWriter(to, hash), from)
	if err = errors.Join(err, to.Sync(), to.Close()); err != nil {
		return "", err
	}
	return hex.EncodeToString(hash.Sum(nil)), nil
}

// fill writes the originals, the forms of the index and the scheme, and returns the
// list of hashes of all but the forms. done is told after each original; nil: nobody.
func fill(ctx context.Context, store *evidence.Store, d Dossier, to adder, done func(int)) (string, error) {
	var list strings.Builder
	for i, o := range d.Originals {
		if err := ctx.Err(); err != nil {
			return "", err
		}
		if err := copyOriginal(ctx, store, to, o); err != nil {
			return "", err
		}
		fmt.Fprintf(&list, "%s  %s\n", o.SHA256, o.Copy)
		if done != nil {
			done(i + 1)
		}
	}
	fmt.Fprintf(&list, "%s  %s\n", d.Scheme.SHA256, rules)
	forms := d.forms()
	defer func() {
		for _, f := range forms {
			<-f.done // none is left at work
		}
	}()
	for _, f := range forms {
		<-f.done
		if f.err != nil {
			return "", fmt.Errorf("%s: %w", f.name, f.err)
		}
		if _, err := to.Add(f.name, f.text.reader(), 0o600); err != nil {
			return "", err
		}
		f.text = pile{}
	}
	return list.String(), nil
}

// form is one form of the index.
type form struct {
	name  string
	write func(io.Writer) error
	text  pile
	err   error
	done  chan struct{} // closed when text and err hold
}

// pile keeps what is written to it in pieces: one buffer would be copied again and again
// while it grows.
type pile struct{ pieces [][]byte }

func (p *pile) Write(b []byte) (int, error) {
	const size = 256 << 10
	for rest := b; len(rest) > 0; {
		k := len(p.pieces) - 1
		if k < 0 || len(p.pieces[k]) == cap(p.pieces[k]) {
			p.pieces = append(p.pieces, make([]byte, 0, size))
			k++
		}
		n := min(len(rest), cap(p.pieces[k])-len(p.pieces[k]))
		p.pieces[k] = append(p.pieces[k], rest[:n]...)
		rest = rest[n:]
	}
	return len(b), nil
}

// reader reads what was written.
func (p *pile) reader() io.Reader {
	list := make([]io.Reader, len(p.pieces))
	for i, piece := range p.pieces {
		list[i] = bytes.NewReader(piece)
	}
	return io.MultiReader(list...)
}

// forms begins to write the forms of the index, several at once. The printed one takes about
// as long as the others together, and so is the last of the list: the others can be put where
// they go meanwhile.
func (d Dossier) forms() []*form {
	list := []*form{
		{name: "index.html", write: d.WriteHTML},
		{name: "index.csv", write: d.WriteCSV},
		{name: "index.xlsx", write: func(w io.Writer) error { return SheetOf(d).Write(w) }},
		{name: "index.json", write: d.WriteJSON},
		{name: rules, write: func(w io.Writer) error { _, err := w.Write(d.Scheme.bytes); return err }},
		{name: "index.pdf", write: func(w io.Writer) error { return d.WritePDF(w, "") }},
	}
	for _, f := range list {
		f.done = make(chan struct{})
	}
	for _, f := range slices.Backward(list) {
		go func() {
			defer close(f.done)
			f.err = f.write(&f.text)
		}()
	}
	return list
}

// WriteJSON writes the dossier as indented JSON, with what is handed over and the whole
// cycle parted.
func (d Dossier) WriteJSON(w io.Writer) error {
	d.Exceptions = d.exceptions()
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", " ")
	return enc.Encode(struct {
		Totals Totals `json:"totals"`
		Dossier
	}{d.totals(), d})
}

// copyName is the name of a copy that a person understands: the day, what it is,
// and enough of the hash to tell two apart. It is plain ASCII, so that no checker,
// archive or file system changes it: letters, digits, hyphens and one point.
func copyName(day, title, sha256, ext string) string {
	name := slug(title, 60)
	if day != "" {
		name = strings.Trim(day+"-"+name, "-")
	}
	if name == "" {
		name = "file"
	}
	return originals + "/" + name + "-" + sha256[:12] + ext
}

// slug turns s into lower-case ASCII letters and digits with hyphens between, at
// most n bytes.
func slug(s string, n int) string {
	var b strings.Builder
	for _, r := range strings.ToLower(fold(s)) {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
		if b.Len() >= n {
			break
		}
	}
	return strings.Trim(b.String(), "-")
}
