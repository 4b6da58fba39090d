package extract_test

import (
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"evidencevault/extract"
	"evidencevault/extract/paper"
)

// What the trace tells is what the reading says: for each value its candidate, and for
// each that is asked about what keeps it open; and without a trace nothing else is read.
func TestTraceTellsTheReading(t *testing.T) {
	files, err := filepath.Glob("testdata/corpus/files/*")
	if err != nil || len(files) < 12 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	r := newKept(t)
	told, open := 0, 0
	for _, file := range files {
		plain, err := readWith(r, file, extract.Hints{})
		if err != nil {
			t.Fatal(err)
		}
		traced, err := readWith(r, file, extract.Hints{Trace: true})
		if err != nil {
			t.Fatal(err)
		}
		for i, p := range traced {
			if diff := cmp.Diff(plain[i].Reading, p.Reading); diff != "" {
				t.Errorf("%s: the trace changes the reading:\n%s", file, diff)
			}
			if p.Trace == nil {
				if p.Reading.Outcome == paper.OutcomeRead {
					t.Errorf("%s: no trace", file)
				}
				continue
			}
			for _, f := range p.Trace.Fields {
				checkTraced(t, file, f, p.Reading.Values[f.Field])
				told++
				if !f.Certain {
					open++
				}
			}
			if len(p.Trace.Pages) == 0 || len(p.Trace.Text) == 0 {
				t.Errorf("%s: no pages or no text", file)
			}
		}
	}
	if told < 80 || open < 5 {
		t.Errorf("%d fields, %d of them open: too few to show anything", told, open)
	}
}

func checkTraced(t *testing.T, file string, f extract.TracedField, v paper.Value) {
	t.Helper()
	if f.Value != v.Text || f.Certain && !v.Certain {
		t.Errorf("%s, %s: the trace says %q, %v, the reading %q, %v", file, f.Field, f.Value, f.Certain, v.Text, v.Certain)
	}
	if f.Certain && len(f.Doubts) > 0 {
		t.Errorf("%s, %s is certain in spite of %q", file, f.Field, f.Doubts)
	}
	if !f.Certain && v.Text != "" && f.Question == "" {
		t.Errorf("%s, %s is open without a question", file, f.Field)
	}
	if len(f.Candidates) == 0 {
		t.Errorf("%s, %s has no candidate", file, f.Field)
	}
}
