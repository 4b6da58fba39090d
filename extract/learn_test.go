package extract_test

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/extracttest"
	"evidencevault/extract/paper"
)

// learnt are the sets of papers on which weights are learned: those that were looked at.
var learnt = []string{"third/shown", "abroad", "trades", "hand/shown", "fresh", "definitions", "blind/shown", "elsewhere/shown", "corpus", "fourth/shown", "fifth/shown", "sixth/shown", "seventh/shown", "eighth/shown", "ninth/shown", "tenth/shown", drawnSet}

// drawnSet is the set of papers drawn by a program.
const drawnSet = "drawn"

// A lesson is the texts of one paper, of which some are the one that is looked for.
type lesson struct {
	group string
	texts []sight
	share float64 // of a paper written by hand that it counts as
}

// drawnLesson is what a paper drawn by a program counts as: there are many, and they are
// more alike than papers are.
const drawnLesson = 0.4

// counted returns the lessons of a set as what they count.
func counted(set string, lessons []lesson) []lesson {
	for k := range lessons {
		lessons[k].share = 1
		if filepath.Base(set) == drawnSet {
			lessons[k].share = drawnLesson
		}
	}
	return lessons
}

// sight is a text by its traits.
type sight struct {
	seen  []string
	right bool
}

// tracedPaper is a paper with the truth about it and how it was read.
type tracedPaper struct {
	extract.Paper
	want truth
}

// tracedPapers reads the papers of a set whose text is looked at.
func tracedPapers(t *testing.T, r pages, root string) []tracedPaper {
	t.Helper()
	if filepath.Base(root) == drawnSet {
		return drawnPapers(t, r)
	}
	names, err := filepath.Glob(filepath.Join(root, "truth", "*.json"))
	if err != nil || len(names) == 0 {
		t.Fatalf("%s: no truth (%v)", root, err)
	}
	var out []tracedPaper
	for _, name := range names {
		want, _ := readTruth(t, name)
		papers, err := readWith(r, filepath.Join(root, "files", want.name), extract.Hints{Trace: true})
		if err != nil {
			t.Fatalf("%s: %v", want.name, err)
		}
		if p := papers[len(papers)-1]; p.Trace != nil && len(p.Trace.Traits) > 0 {
			out = append(out, tracedPaper{p, want})
		}
	}
	return out
}

// drawnPapers reads papers drawn by a program, of a seed that is used for nothing else.
func drawnPapers(t *testing.T, r pages) []tracedPaper {
	t.Helper()
	var out []tracedPaper
	for _, m := range extracttest.Make(917, 600) {
		papers, err := extract.ReadBy(context.Background(), r, bytes.NewReader(m.Data), extract.Hints{Trace: true})
		if err != nil {
			t.Fatalf("%s: %v", m.Name, err)
		}
		if p := papers[len(papers)-1]; p.Trace != nil && len(p.Trace.Traits) > 0 {
			out = append(out, tracedPaper{p, truthOf(t, m)})
		}
	}
	return out
}

// titleLessons reads the papers of a set and returns what could be seen of all their texts.
// A paper is none where its kind is read wrong, or it has no title or an open one.
func titleLessons(papers []tracedPaper) []lesson {
	return textLessons(papers, paper.FieldTitle, extract.TopicGroup)
}

// nameLessons is the same for the names of persons.
func nameLessons(papers []tracedPaper) []lesson {
	return textLessons(papers, paper.FieldAttendee, extract.PersonGroup)
}

// bodyLessons is the same for the names of bodies.
func bodyLessons(papers []tracedPaper) []lesson {
	return textLessons(papers, paper.FieldProvider, extract.BodyGroup)
}

func textLessons(papers []tracedPaper, f paper.Field, group func(paper.Kind) string) []lesson {
	var out []lesson
	for _, p := range papers {
		if p.want.values[f] == "" || slices.Contains(p.want.ask, f) || string(p.Reading.Kind()) != p.want.values[paper.FieldKind] {
			continue
		}
		one := lesson{group: group(p.Reading.Kind())}
		for _, traced := range p.Trace.Fields {
			for _, c := range traced.Candidates {
				if traced.Field != f || c.Seen == nil {
					continue
				}
				right := same(f, p.want.values[f], c.Value) || slices.ContainsFunc(p.want.also[f], func(o string) bool { return same(f, o, c.Value) })
				one.texts = append(one.texts, sight{c.Seen, right})
			}
		}
		if len(one.texts) > 0 {
			out = append(out, one)
		}
	}
	return out
}

// kindLessons reads the papers of a set and returns for each what it would be as a paper of
// each kind. A paper whose kind must be asked about is none.
func kindLessons(papers []tracedPaper) []lesson {
	var out []lesson
	for _, p := range papers {
		f := paper.FieldKind
		if slices.Contains(p.want.ask, f) {
			continue
		}
		var one lesson
		for _, k := range paper.Kinds() {
			right := string(k) == p.want.values[f] || slices.Contains(p.want.also[f], string(k))
			one.texts = append(one.texts, sight{extract.Prefixed(string(k), p.Trace.Traits), right})
		}
		out = append(out, one)
	}
	return out
}

// learn returns the weights under which the right texts of all lessons are likeliest
// together, the likelihood of each paper being shared among its texts (a conditional logit),
// with a penalty on the square of a weight. It is deterministic.
func learn(lessons []lesson) map[string]float64 {
	const rounds, rate, penalty = 60, 0.3, 0.01
	order := rand.New(rand.NewPCG(1, 2))
	weights, squares := map[string]float64{}, map[string]float64{}
	usable := slices.DeleteFunc(slices.Clone(lessons), func(l lesson) bool {
		return !slices.ContainsFunc(l.texts, func(s sight) bool { return s.right })
	})
	for range rounds {
		order.Shuffle(len(usable), func(i, j int) { usable[i], usable[j] = usable[j], usable[i] })
		for _, l := range usable {
			for trait, slope := range slopes(l, weights) {
				slope = l.share * (slope - penalty*weights[trait])
				squares[trait] += slope * slope
				weights[trait] += rate * slope / math.Sqrt(squares[trait]+1e-6)
			}
		}
	}
	return weights
}

// slopes returns how the log-likelihood of one lesson rises with each weight.
func slopes(l lesson, weights map[string]float64) map[string]float64 {
	odds := make([]float64, len(l.texts))
	all, right := 0.0, 0.0
	for i, s := range l.texts {
		odds[i] = math.Exp(extract.Weigh(weights, l.group, s.seen))
		all += odds[i]
		if s.right {
			right += odds[i]
		}
	}
	out := map[string]float64{}
	for i, s := range l.texts {
		d := -odds[i] / all
		if s.right {
			d += odds[i] / right
		}
		for _, trait := range s.seen {
			out[trait] += d
			if l.group != "" {
				out[l.group+"|"+trait] += d
			}
		}
	}
	return out
}

// found counts the lessons in which weights put a right text first.
func found(lessons []lesson, weights map[string]float64) int {
	n := 0
	for _, l := range lessons {
		top := slices.MaxFunc(l.texts, func(a, b sight) int {
			return int(math.Copysign(1, extract.Weigh(weights, l.group, a.seen)-extract.Weigh(weights, l.group, b.seen)))
		})
		if top.right {
			n++
		}
	}
	return n
}

// TestLearned learns from the papers of one hand where a title, a person and a body stand and
// what kind of paper it is, and reads those of another with it, without any sign: what can be seen is enough for
// seven of ten. With WEIGHTS=folder it learns from all sets that were looked at, says how
// much is found in each by what the others taught, and writes the weights.
func TestLearned(t *testing.T) {
	r := newKept(t)
	papers := map[string][]tracedPaper{}
	sets := []string{"hand/shown", "blind/shown"}
	folder := os.Getenv("WEIGHTS")
	if folder != "" {
		sets = learnt
	}
	for _, set := range sets {
		papers[set] = tracedPapers(t, r, filepath.Join("testdata", filepath.FromSlash(set)))
	}
	for name, of := range map[string]func([]tracedPaper) []lesson{"title": titleLessons, "kind": kindLessons, "attendee": nameLessons, "provider": bodyLessons} {
		t.Run(name, func(t *testing.T) {
			taught, unseen := counted("hand/shown", of(papers["hand/shown"])), of(papers["blind/shown"])
			n := found(unseen, learn(taught))
			t.Logf("%d papers teach to find %d of %d of others", len(taught), n, len(unseen))
			if 10*n < 7*len(unseen) {
				t.Errorf("%d of %d are found by what can be seen of them, want at least seven of ten", n, len(unseen))
			}
			if folder != "" {
				lessons := map[string][]lesson{}
				for _, set := range sets {
					lessons[set] = counted(set, of(papers[set]))
				}
				writeWeights(t, lessons, filepath.Join(folder, name+".txt"))
			}
		})
	}
}

// writeWeights learns from all sets, and from all but one for each of them.
func writeWeights(t *testing.T, sets map[string][]lesson, file string) {
	t.Helper()
	var all []lesson
	right := 0
	for _, name := range learnt {
		all = append(all, sets[name]...)
		var others []lesson
		for _, other := range learnt {
			if other != name {
				others = append(others, sets[other]...)
			}
		}
		n := found(sets[name], learn(others))
		t.Logf("%-16s %d of %d found by what the other sets taught", name, n, len(sets[name]))
		right += n
	}
	t.Logf("all: %d of %d", right, len(all))
	var text strings.Builder
	fmt.Fprintf(&text, "# trait, tab, weight in hundredths; learned from %d papers by TestLearned\n", len(all))
	weights := learn(all)
	for _, trait := range slices.Sorted(func(yield func(string) bool) {
		for k := range weights {
			if !yield(k) {
				return
			}
		}
	}) {
		if w := int(math.Round(100 * weights[trait])); w != 0 {
			fmt.Fprintf(&text, "%s\t%d\n", trait, w)
		}
	}
	if err := os.WriteFile(file, []byte(text.String()), 0o600); err != nil {
		t.Fatal(err)
	}
}
