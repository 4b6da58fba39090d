package extract_test

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// ablated are the folders of papers that were looked at, and so are read well.
var ablated = []string{"corpus", "hand/shown", "elsewhere/shown", "blind/shown", "definitions", "fresh"}

// Of 1000 certain values of all ways together so many may be wrong, in the sample and in a
// long run.
const sampleCeiling, longCeiling = 22, 16

// A stripped paper is one of text, as its pages were read, with its truth.
type stripped struct {
	set  string
	doc  page.Document
	want truth
}

// TestAblation makes papers that are read well stranger, and holds the share of certain
// values that are wrong against a ceiling: on a paper of a kind never seen words and places
// are not those that the rules know, and then the reading must ask rather than err. It takes
// every fourth paper; ABLATIONS is how many variants of each way every paper gets instead,
// and then what is certain and wrong is listed.
func TestAblation(t *testing.T) {
	rounds, long := 1, os.Getenv("ABLATIONS") != ""
	papers := readStripped(t, ablated)
	if long {
		rounds = wholeNumber(t, "ABLATIONS", 1)
	} else {
		var sample []stripped
		for i := 0; i < len(papers); i += 4 {
			sample = append(sample, papers[i])
		}
		papers = sample
	}
	var all tally
	for _, way := range ablations() {
		s := readAblated(t, papers, way, rounds, long).sum()
		t.Logf("%-14s %d values, %s exact; %d certain, %s right; %s of the right ones certain", way, s.has(), percent(s.exact, s.has()), s.certain, percent(s.certainExact, s.certain), percent(s.certainExact, s.exact))
		all.exact, all.certain, all.certainExact = all.exact+s.exact, all.certain+s.certain, all.certainExact+s.certainExact
	}
	ceiling := sampleCeiling
	if long {
		ceiling = longCeiling
	}
	wrong := all.certain - all.certainExact
	t.Logf("all: %d of %d certain values are wrong, %s of the right ones certain", wrong, all.certain, percent(all.certainExact, all.exact))
	if 1000*wrong > ceiling*all.certain {
		t.Errorf("%d of %d certain values are wrong, want at most %d ‰", wrong, all.certain, ceiling)
	}
	if 100*all.certainExact < 85*all.exact {
		t.Errorf("%d of %d right values are certain, want at least 85 %%", all.certainExact, all.exact)
	}
}

// readStripped reads the pages of all papers of text of some sets.
func readStripped(t *testing.T, sets []string) []stripped {
	t.Helper()
	r := newKept(t)
	var out []stripped
	for _, set := range sets {
		root := filepath.Join("testdata", set)
		if from := os.Getenv("CORPUS"); from != "" && set == "corpus" {
			root = from
		}
		names, err := filepath.Glob(filepath.Join(root, "truth", "*.json"))
		if err != nil || len(names) == 0 {
			t.Fatalf("%s: %d truths (%v)", root, len(names), err)
		}
		for _, name := range names {
			want, file := readTruth(t, name)
			if slices.Contains([]string{".jpg", ".png", ".tif", ".tiff", ".zip"}, filepath.Ext(file)) {
				continue
			}
			data, err := os.ReadFile(filepath.Join(root, "files", file))
			if err != nil {
				t.Fatal(err)
			}
			doc := lastDocument(t, r, data)
			if doc.Trouble == page.None && doc.Badge == nil && !slices.ContainsFunc(doc.Pages, func(p page.Page) bool { return p.Picture }) {
				out = append(out, stripped{set, doc, want})
			}
		}
	}
	return out
}

// lastDocument reads the pages of a file, or of what is attached to it.
func lastDocument(t *testing.T, r pages, data []byte) page.Document {
	t.Helper()
	doc, err := r.Read(context.Background(), bytes.NewReader(data), page.Request{Second: true})
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range slices.Backward(doc.Parts) {
		if p.Type == "pdf" || p.Type == "docx" {
			return lastDocument(t, r, p.Data)
		}
	}
	doc.Parts = nil
	return doc
}

// readAblated reads variants of papers, two at a time.
func readAblated(t *testing.T, papers []stripped, way ablationWay, rounds int, listed bool) *board {
	t.Helper()
	b := newBoard()
	var mu sync.Mutex
	var wg sync.WaitGroup
	next := make(chan stripped)
	for range 2 {
		wg.Go(func() {
			for p := range next {
				for round := range rounds {
					doc, ok := ablate(p.doc, way, p.want.texts(), uint64(round)+1)
					if !ok {
						continue
					}
					readings := extract.Understand(doc, extract.Hints{})
					mu.Lock()
					b.add(p.want, readings[len(readings)-1])
					if listed {
						listFalse(t, p, way, round, readings[len(readings)-1])
					}
					mu.Unlock()
				}
			}
		})
	}
	for _, p := range papers {
		next <- p
	}
	close(next)
	wg.Wait()
	return b
}

// texts are the values of a truth.
func (w truth) texts() []string {
	var out []string
	for _, v := range w.values {
		out = append(out, v)
	}
	for _, l := range w.also {
		out = append(out, l...)
	}
	return out
}

// listFalse logs what is certain and wrong.
func listFalse(t *testing.T, p stripped, way ablationWay, round int, got paper.Reading) {
	t.Helper()
	one := newBoard()
	one.add(p.want, got)
	for _, f := range paper.Fields() {
		if c, v := one.fields[f], got.Values[f]; c.certain > c.certainExact || c.silent > 0 {
			t.Logf("FALSE\t%s\t%s\t%s\t%d\t%s/%s\twant %q\tgot %q\tscore %d\twhy %s\tread as %s", f, way, p.want.values[paper.FieldKind], round, p.set, p.want.name, p.want.values[f], v.Text, v.Score, v.Why, got.Kind())
		}
	}
}
