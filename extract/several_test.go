package extract_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"evidencevault/extract/paper"
)

// TestSeveralPapers cuts the files in testdata/several into their papers. A cut that is wrong must be asked about.
func TestSeveralPapers(t *testing.T) {
	names, err := filepath.Glob("testdata/several/truth/*.json")
	if err != nil || len(names) != 45 {
		t.Fatalf("%d truths, %v", len(names), err)
	}
	r, right, silent := newKept(t), 0, 0
	for _, name := range names {
		var want struct {
			File   string
			Papers []struct{ Pages [2]int }
		}
		b, err := os.ReadFile(name)
		if err == nil {
			err = json.Unmarshal(b, &want)
		}
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		papers, err := readFile(r, filepath.Join("testdata/several/files", want.File))
		if err != nil {
			t.Fatalf("%s: %v", want.File, err)
		}
		var pages, got [][2]int
		asked := false
		for _, p := range want.Papers {
			pages = append(pages, p.Pages)
		}
		for _, p := range papers {
			from, to := p.Reading.From, p.Reading.To
			if from == 0 {
				from, to = 1, pages[len(pages)-1][1] // all of them
			}
			got = append(got, [2]int{from, to})
			q, open := p.Reading.Question(paper.FieldKind)
			asked = asked || open && strings.Contains(q.Text, "Page ")
		}
		switch {
		case slices.Equal(got, pages):
			right++
		case !asked:
			silent++
			t.Logf("%s: cut into %v and not asked about, want %v", want.File, got, pages)
		}
	}
	t.Logf("%d of %d rightly cut, %d wrongly without a question", right, len(names), silent)
	if right < 41 || silent > 1 {
		t.Errorf("%d of %d are rightly cut and %d wrongly without a question, want at least 41 and at most 1", right, len(names), silent)
	}
}
