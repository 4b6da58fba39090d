package bag

import (
	"bytes"
	"crypto/sha256"
	"crypto/sha512"
	"encoding/hex"
	"errors"
	"fmt"
	"hash"
	"io"
	"maps"
	"os"
	"path"
	"slices"
	"strings"
)

// ErrName says that a file's name has no place in a bag that sha256sum must read.
var ErrName = errors.New("not a plain path: want letters without %, backslash or line end, below data/ for the payload")

// Label is one line of bag-info.txt.
type Label struct{ Name, Value string }

// Writer makes a bag of version 1.0 in an empty folder, with manifests of sha256 and
// sha512. Files are hashed as they are written. The folder is a bag after
// [Writer.Close] only. Equal calls give equal bytes.
type Writer struct {
	root  *os.Root
	sums  map[string][2]string // by path: sha256, sha512
	bytes int64                // of the payload
	files int                  // of the payload
}

// NewWriter begins a bag in the folder root, which must be empty.
func NewWriter(root *os.Root) (*Writer, error) {
	w := &Writer{root: root, sums: map[string][2]string{}}
	if err := root.Mkdir("data", 0o700); err != nil {
		return nil, err
	}
	return w, nil
}

// Add copies from into the bag as the file name with this mode: payload when it lies
// below data/, else a tag file. It returns the SHA-256 of what was written. The error
// wraps [ErrName], or says what could not be written; the bag is then no more than a
// folder to be removed.
func (w *Writer) Add(name string, from io.Reader, mode os.FileMode) (sum string, err error) {
	if !plain(name) {
		return "", fmt.Errorf("%q: %w", name, ErrName)
	}
	if dir := path.Dir(name); dir != "." {
		if err := w.root.MkdirAll(dir, 0o700); err != nil {
			return "", err
		}
	}
	f, err := w.root.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return "", err
	}
	h256, h512 := sha256.New(), sha512.New()
	n, err := io.Copy(io.MultiWriter(f, h256, h512), from)
	if err = errors.Join(err, f.Sync(), f.Close()); err != nil {
		return "", fmt.Errorf("%s: %w", name, err)
	}
	w.sums[name] = [2]string{hexOf(h256), hexOf(h512)}
	if strings.HasPrefix(name, "data/") {
		w.bytes += n
		w.files++
	}
	return w.sums[name][0], nil
}

func hexOf(h hash.Hash) string { return hex.EncodeToString(h.Sum(nil)) }

// plain reports whether a manifest can name the file as it is, so that both a checker
// of bags and sha256sum read it, and no system changes it.
func plain(name string) bool {
	return name != "" && !strings.ContainsAny(name, "%\\\r\n") && path.Clean(name) == name && !strings.HasPrefix(name, "/") &&
		!strings.HasPrefix(name, "../") && !strings.HasPrefix(name, "~") && name != ".."
}

// Close writes the manifests, bagit.txt and bag-info.txt with these labels and the
// payload's size. Source: RFC 8493, sections 2.1.1, 2.1.3, 2.2.1 and 2.2.2.
func (w *Writer) Close(labels ...Label) error {
	var info bytes.Buffer
	for _, l := range append(labels, Label{"Payload-Oxum", fmt.Sprintf("%d.%d", w.bytes, w.files)}) {
		if strings.ContainsAny(l.Name+l.Value, "\r\n") || strings.ContainsAny(l.Name, ": ") {
			return fmt.Errorf("bag-info.txt: label %q: want one line, and no colon or blank in its name", l.Name)
		}
		fmt.Fprintf(&info, "%s: %s\n", l.Name, l.Value)
	}
	tags := []struct {
		name string
		text string
	}{
		{declarationFile, "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"},
		{"bag-info.txt", info.String()},
		{"manifest-sha256.txt", w.manifest(0, true)},
		{"manifest-sha512.txt", w.manifest(1, true)},
	}
	for _, t := range tags {
		if _, err := w.Add(t.name, strings.NewReader(t.text), 0o600); err != nil {
			return err
		}
	}
	lists := []string{w.manifest(0, false), w.manifest(1, false)} // both before either is a file
	for i, name := range []string{"tagmanifest-sha256.txt", "tagmanifest-sha512.txt"} {
		if _, err := w.Add(name, strings.NewReader(lists[i]), 0o600); err != nil {
			return err
		}
	}
	return nil
}

// manifest lists the payload, or the tag files, in order.
func (w *Writer) manifest(algorithm int, payload bool) string {
	var b strings.Builder
	for _, name := range slices.Sorted(maps.Keys(w.sums)) {
		if strings.HasPrefix(name, "data/") == payload {
			fmt.Fprintf(&b, "%s  %s\n", w.sums[name][algorithm], name)
		}
	}
	return b.String()
}
