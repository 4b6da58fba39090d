package extract_test

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/paper"
)

// judged is one value that was read, by its score. ready says that all signs but the
// score would have it certain.
type judged struct {
	score        int
	ready, exact bool
}

const (
	folds   = 5
	wanted  = 995 // of 1000 certain values that are right
	covered = 800 // of 1000 right values that are certain
)

// TestCalibration prints, for each field and score, the share of values from that score
// on and how many of them are right, over the folder that CORPUS names. It chooses the
// least score of each field on four fifths of the papers, measures it on the fifth that
// is left, five times, and fails where what is called certain is right less often than
// what is asked about.
func TestCalibration(t *testing.T) {
	root := os.Getenv("CORPUS")
	if root == "" {
		root = "testdata/corpus"
	}
	names, err := filepath.Glob(filepath.Join(root, "truth", "*.json"))
	if err != nil || len(names) < 12 {
		t.Fatalf("%s: %d truths, want at least 12 (%v)", root, len(names), err)
	}
	values := map[paper.Field][folds][]judged{}
	now := extract.WithoutLeast(func() {
		r := newKept(t)
		for i, name := range names {
			want, file := readTruth(t, name)
			papers, err := readFile(r, filepath.Join(root, "files", file))
			if err != nil {
				t.Fatalf("%s: %v", file, err)
			}
			got := papers[len(papers)-1].Reading
			for _, f := range paper.Fields() {
				if j, ok := judge(want, got, f); ok {
					parts := values[f]
					parts[i%folds] = append(parts[i%folds], j)
					values[f] = parts
				}
			}
		}
	})
	var sum tally
	for _, f := range paper.Fields() {
		c := crossed(t, f, values[f], now[f])
		sum.exact, sum.certain, sum.certainExact = sum.exact+c.exact, sum.certain+c.certain, sum.certainExact+c.certainExact
	}
	t.Logf("| all | held out | %d | %s | %s |", sum.certain, percent(sum.certainExact, sum.exact), percent(sum.certainExact, sum.certain))
}

// judge compares one value with the truth; false if the field is not judged.
func judge(want truth, got paper.Reading, f paper.Field) (judged, bool) {
	v := got.Values[f]
	if v.Text == "" || want.asks(f) || want.values[paper.FieldKind] == string(paper.NotEvidence) && f != paper.FieldKind {
		return judged{}, false
	}
	j := judged{score: v.Score, ready: v.Certain, exact: same(f, want.values[f], v.Text)}
	for _, other := range want.also[f] {
		j.exact = j.exact || same(f, other, v.Text)
	}
	return j, true
}

func (w truth) asks(f paper.Field) bool {
	for _, a := range w.ask {
		if a == f {
			return true
		}
	}
	return false
}

// from counts what is certain from a least score on: exact counts all right values.
func from(list []judged, least int) tally {
	var c tally
	for _, j := range list {
		if j.exact {
			c.exact++
		}
		if j.ready && j.score >= least {
			c.certain++
			if j.exact {
				c.certainExact++
			}
		}
	}
	return c
}

// choose returns the lowest score from which enough certain values are right; if none
// does, the one with the best share of those that leave enough right values certain.
func choose(list []judged) int {
	best, bestShare := 0, -1
	for least := 0; least <= 1000; least += 10 {
		c := from(list, least)
		if c.certain == 0 || 1000*c.certainExact < covered*c.exact {
			break
		}
		if share := 10000 * c.certainExact / c.certain; share > bestShare {
			best, bestShare = least, share
		}
		if 1000*c.certainExact >= wanted*c.certain {
			return least
		}
	}
	return best
}

// crossed prints the curve of a field, what its least score now gives, and what least
// scores give that were chosen without the papers they are measured on.
func crossed(t *testing.T, f paper.Field, parts [folds][]judged, now int) tally {
	t.Helper()
	var all []judged
	for _, p := range parts {
		all = append(all, p...)
	}
	row := func(name string, c tally) {
		t.Logf("| %s | %s | %d | %s | %s |", f, name, c.certain, percent(c.certainExact, c.exact), percent(c.certainExact, c.certain))
	}
	for _, least := range []int{0, 600, 650, 700, 750, 800, 850, 900, 950} {
		row(fmt.Sprintf("from %d", least), from(all, least))
	}
	row(fmt.Sprintf("now, from %d", now), from(all, now))
	row(fmt.Sprintf("chosen on all, from %d", choose(all)), from(all, choose(all)))
	var out tally
	for k := range parts {
		var rest []judged
		for i, p := range parts {
			if i != k {
				rest = append(rest, p...)
			}
		}
		c := from(parts[k], choose(rest))
		out.exact, out.certain, out.certainExact = out.exact+c.exact, out.certain+c.certain, out.certainExact+c.certainExact
	}
	row("held out", out)
	c := from(all, now)
	open, right := len(all)-c.certain, c.exact-c.certainExact
	if open >= 5 && c.certain >= 5 && c.certainExact*open < right*c.certain {
		t.Errorf("%s: %d of %d certain values are right, and %d of %d open ones", f, c.certainExact, c.certain, right, open)
	}
	return out
}
