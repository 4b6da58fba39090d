package extract_test

import (
	"bytes"
	"context"
	"errors"
	"maps"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/extracttest"
	"evidencevault/extract/paper"
)

// TestReport reads drawn papers of two seeds, one that rules were tuned on and one that
// was kept apart from all tuning, every sixth PDF as a scan, and prints for each part, by
// source, by language and by field, what is exact and what is certain and right. REPORT
// says how many papers each part has, 15 by default. `make report` reads 520 of each.
func TestReport(t *testing.T) {
	count := 15
	if v := os.Getenv("REPORT"); v != "" {
		n, err := strconv.Atoi(v)
		if err != nil || n < 1 {
			t.Fatalf("REPORT %q: want a whole number above 0", v)
		}
		count = n
	}
	r := newKept(t)
	for _, part := range []struct {
		name string
		seed uint64
	}{{"tuned on", 601}, {"kept apart", 502}} {
		groups := map[string]*board{}
		pdfs := 0
		for i, m := range extracttest.Make(part.seed, count) {
			if m.Truth.Format == "pdf" {
				if pdfs++; pdfs%6 == 0 {
					m = scanOf(t, m, uint64(i))
				}
			}
			papers, err := extract.ReadBy(context.Background(), r, bytes.NewReader(m.Data), extract.Hints{})
			if err != nil {
				t.Fatalf("%s: %v", m.Name, err)
			}
			source := "text"
			if slices.Contains([]string{"pdf-scan", "jpg", "png"}, m.Truth.Format) {
				source = "scan"
			}
			for _, g := range []string{"all", source, m.Truth.Language[:2]} {
				if groups[g] == nil {
					groups[g] = newBoard()
				}
				groups[g].add(truthOf(t, m), papers[len(papers)-1].Reading)
			}
		}
		for _, g := range slices.Sorted(maps.Keys(groups)) {
			groups[g].report(t, part.name+" | "+g, g == "all" || g == "scan" || g == "text")
		}
		if exact, has := groups["all"].sum().exact, groups["all"].sum().has(); 100*exact < 85*has {
			t.Errorf("%s: %d of %d values are exact, want at least 85 %%", part.name, exact, has)
		}
	}
}

// scanOf is the paper as a scan, or itself where no scanner is installed.
func scanOf(t *testing.T, m extracttest.Made, seed uint64) extracttest.Made {
	t.Helper()
	scan, err := extracttest.Scan(m, seed)
	if errors.Is(err, extracttest.ErrNoScanner) {
		return m
	}
	if err != nil {
		t.Fatal(err)
	}
	return scan
}

func (c tally) has() int { return c.exact + c.wrong + c.missing }

// sum adds up all fields.
func (b *board) sum() tally {
	var s tally
	for _, f := range paper.Fields() {
		c := b.fields[f]
		s.exact, s.wrong, s.missing, s.invented = s.exact+c.exact, s.wrong+c.wrong, s.missing+c.missing, s.invented+c.invented
		s.certain, s.certainExact, s.needless = s.certain+c.certain, s.certainExact+c.certainExact, s.needless+c.needless
		s.asked, s.silent, s.left = s.asked+c.asked, s.silent+c.silent, s.left+c.left
	}
	return s
}

// report prints the sum of a board and, if asked to, its fields.
func (b *board) report(t *testing.T, name string, fields bool) {
	t.Helper()
	row := func(what string, c tally) {
		t.Log("| " + strings.Join([]string{name, what, strconv.Itoa(c.has()), percent(c.exact, c.has()), percent(c.certainExact, c.certain),
			percent(c.certainExact, c.exact), percent(c.needless, c.has()), strconv.Itoa(c.invented), strconv.Itoa(c.silent)}, " | ") + " |")
	}
	row("all", b.sum())
	for _, f := range paper.Fields() {
		if fields {
			row(string(f), *b.fields[f])
		}
	}
}
