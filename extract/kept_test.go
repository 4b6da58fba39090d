package extract_test

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"time"

	"evidencevault/extract/page"
)

// pages makes pages of a document.
type pages interface {
	Read(ctx context.Context, src io.Reader, q page.Request) (page.Document, error)
}

// kept reads documents and keeps their pages in the folder that PAGES names, if any, by
// the hash of the bytes and of all that makes the pages: a long run that was stopped goes
// on where it was, and a rule that changed is tried without recognising letters anew.
type kept struct {
	r     *page.Reader
	dir   string // "" keeps nothing
	maker []byte // hash of what makes the pages
}

// recognised holds the documents of which letters were recognised, by the hash of their bytes
// and the request: several tests read the same, and recognising takes seconds.
var recognised sync.Map

// newKept returns a reader of two children for one test. How long it takes is judged elsewhere:
// here a slow machine must not leave pages unread.
func newKept(t *testing.T) *kept {
	t.Helper()
	k := &kept{r: page.NewReader(page.Options{Pool: 2, Timeout: 2 * time.Minute, PageTime: 2 * time.Minute, OCRTime: 10 * time.Minute}), dir: os.Getenv("PAGES")}
	t.Cleanup(func() {
		if err := k.r.Close(); err != nil {
			t.Error(err)
		}
	})
	if k.dir == "" {
		return k
	}
	if err := os.MkdirAll(k.dir, 0o755); err != nil {
		t.Fatal(err)
	}
	k.maker = makerOfPages(t)
	return k
}

// makerOfPages is the hash of the code that makes pages, of the modules it uses, and of
// the program that recognises letters.
func makerOfPages(t *testing.T) []byte {
	t.Helper()
	files, err := filepath.Glob(filepath.Join("page", "*.go"))
	if err != nil || len(files) == 0 {
		t.Fatalf("the code of extract/page: %v files, %v", len(files), err)
	}
	slices.Sort(files)
	h := sha256.New()
	for _, name := range append(files, filepath.Join("..", "go.sum")) {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if filepath.Ext(name) == ".go" && bytes.HasSuffix([]byte(name), []byte("_test.go")) {
			continue
		}
		h.Write(text)
	}
	version, err := exec.Command("tesseract", "--version").Output()
	if err != nil {
		version = []byte("none")
	}
	h.Write(version)
	return h.Sum(nil)
}

// Read returns the pages that were kept, or makes them and keeps them.
func (k *kept) Read(ctx context.Context, src io.Reader, q page.Request) (page.Document, error) {
	data, err := io.ReadAll(src)
	if err != nil {
		return page.Document{}, err
	}
	key := sha256.Sum256(fmt.Appendf(nil, "%x %x %v", k.maker, sha256.Sum256(data), q))
	if doc, ok := recognised.Load(key); ok {
		return doc.(page.Document), nil
	}
	doc, err := k.inFolder(ctx, data, q, filepath.Join(k.dir, fmt.Sprintf("%x.json", key)))
	if err == nil && slices.ContainsFunc(doc.Pages, func(p page.Page) bool { return p.Picture }) {
		recognised.Store(key, doc)
	}
	return doc, err
}

// inFolder returns the pages that a file of the folder holds, or makes them and writes it.
func (k *kept) inFolder(ctx context.Context, data []byte, q page.Request, name string) (page.Document, error) {
	if k.dir == "" {
		return k.r.Read(ctx, bytes.NewReader(data), q)
	}
	if text, err := os.ReadFile(name); err == nil {
		var doc page.Document
		if err := json.Unmarshal(text, &doc); err == nil {
			return doc, nil
		}
	}
	doc, err := k.r.Read(ctx, bytes.NewReader(data), q)
	if err != nil || doc.Trouble != page.None {
		return doc, err
	}
	text, err := json.Marshal(doc)
	if err != nil {
		return page.Document{}, err
	}
	if err := os.WriteFile(name+".part", text, 0o600); err != nil {
		return page.Document{}, err
	}
	return doc, os.Rename(name+".part", name)
}
