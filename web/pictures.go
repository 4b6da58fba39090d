package web

import (
	"context"
	"fmt"
	"io"
	"sync"

	"evidencevault/evidence"
	"evidencevault/extract/page"
)

// mostPictures bounds the pictures that are kept, in bytes.
const mostPictures = 64 << 20

// pictures draws pages, and keeps the last ones in memory. It is safe for use by several
// goroutines.
type pictures struct {
	pages *page.Reader
	store *evidence.Store

	mu    sync.Mutex
	kept  map[string][]byte
	order []string // oldest first
	size  int
	sheet map[string]page.Page
}

func newPictures(r *page.Reader, s *evidence.Store) *pictures {
	return &pictures{pages: r, store: s, kept: map[string][]byte{}, sheet: map[string]page.Page{}}
}

// png returns a page of an evidence as a picture. The error is that of
// [page.Reader.Picture].
func (p *pictures) png(ctx context.Context, sha256 string, number, dpi int) ([]byte, error) {
	key := fmt.Sprint(sha256, number, dpi)
	p.mu.Lock()
	data, ok := p.kept[key]
	p.mu.Unlock()
	if ok {
		return data, nil
	}
	f, err := p.store.Open(sha256)
	if err != nil {
		return nil, err
	}
	defer func() { _ = f.Close() }() // it was only read
	data, err = p.pages.Picture(ctx, f, number, dpi, "")
	if err != nil {
		return nil, err
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	if _, ok := p.kept[key]; !ok {
		p.kept[key] = data
		p.order = append(p.order, key)
		p.size += len(data)
	}
	for p.size > mostPictures && len(p.order) > 1 {
		p.size -= len(p.kept[p.order[0]])
		delete(p.kept, p.order[0])
		p.order = p.order[1:]
	}
	return data, nil
}

// page returns one page's size and words. Where the file has pictures only, letters
// are recognised if recognise is set.
func (p *pictures) page(ctx context.Context, sha256 string, number int, recognise bool) (page.Page, error) {
	key := fmt.Sprint(sha256, number, recognise)
	p.mu.Lock()
	sheet, ok := p.sheet[key]
	p.mu.Unlock()
	if ok {
		return sheet, nil
	}
	f, err := p.store.Open(sha256)
	if err != nil {
		return page.Page{}, err
	}
	defer func() { _ = f.Close() }() // it was only read
	doc, err := p.pages.Read(ctx, io.Reader(f), page.Request{NoOCR: !recognise, From: number, To: number})
	if err != nil {
		return page.Page{}, err
	}
	for _, s := range doc.Pages {
		if s.Number == number || len(doc.Pages) == 1 {
			sheet = s
		}
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	if len(p.sheet) > 500 {
		clear(p.sheet)
	}
	p.sheet[key] = sheet
	return sheet, nil
}
