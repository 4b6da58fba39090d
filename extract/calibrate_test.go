package extract_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"evidencevault/extract/paper"
)

// judged is one value that was read, by its score.
type judged struct {
	score          int
	certain, exact bool
}

// TestCalibration prints, for each field and threshold, the share of values from that
// score on and how many of them are right, over the folder that CORPUS names, and fails
// where what is called certain is right less often than what is asked about.
func TestCalibration(t *testing.T) {
	root := os.Getenv("CORPUS")
	if root == "" {
		root = "testdata/corpus"
	}
	names, err := filepath.Glob(filepath.Join(root, "truth", "*.json"))
	if err != nil || len(names) < 12 {
		t.Fatalf("%s: %d truths, want at least 12 (%v)", root, len(names), err)
	}
	r := newKept(t)
	values := map[paper.Field][]judged{}
	for _, name := range names {
		want, file := readTruth(t, name)
		papers, err := readFile(r, filepath.Join(root, "files", file))
		if err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		got := papers[len(papers)-1].Reading
		for _, f := range paper.Fields() {
			v := got.Values[f]
			if v.Text == "" || want.asks(f) || want.values[paper.FieldKind] == string(paper.NotEvidence) {
				continue
			}
			j := judged{score: v.Score, certain: v.Certain, exact: same(f, want.values[f], v.Text)}
			for _, other := range want.also[f] {
				j.exact = j.exact || same(f, other, v.Text)
			}
			values[f] = append(values[f], j)
		}
	}
	for _, f := range paper.Fields() {
		logCurve(t, f, values[f])
	}
}

func (w truth) asks(f paper.Field) bool {
	for _, a := range w.ask {
		if a == f {
			return true
		}
	}
	return false
}

// logCurve prints the curve of a field, and what is certain now.
func logCurve(t *testing.T, f paper.Field, list []judged) {
	t.Helper()
	line := func(name string, in func(judged) bool) (n, exact int) {
		for _, j := range list {
			if in(j) {
				n++
				if j.exact {
					exact++
				}
			}
		}
		t.Logf("| %s | %s | %d | %s | %s |", f, name, n, percent(n, len(list)), percent(exact, n))
		return n, exact
	}
	for _, least := range []int{1, 400, 500, 550, 600, 650, 700, 750, 800, 850, 900, 950} {
		line(fmt.Sprintf("from %d", least), func(j judged) bool { return j.score >= least })
	}
	n, exact := line("certain", func(j judged) bool { return j.certain })
	open, right := line("asked about", func(j judged) bool { return !j.certain })
	if open >= 5 && n >= 5 && exact*open < right*n {
		t.Errorf("%s: %d of %d certain values are right, and %d of %d open ones", strings.ToLower(string(f)), exact, n, right, open)
	}
}
