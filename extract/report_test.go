package extract_test

import (
	"bytes"
	"context"
	"errors"
	"maps"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/extracttest"
	"evidencevault/extract/paper"
)

// TestReport reads drawn papers of two seeds, one that rules were tuned on and one that
// was kept apart from all tuning, and prints for each part, by source, by language, by the
// program that wrote the PDF and by field, what is exact and what is certain and right. REPORT says how many papers each
// part has, 6 by default; SCANS has every n-th PDF as a scan, none by default. The pages
// are kept where PAGES says, so that a run that was stopped goes on where it was.
// `make report` reads 520 papers of each, every twelfth PDF as a scan.
func TestReport(t *testing.T) {
	count, scans := wholeNumber(t, "REPORT", 6), wholeNumber(t, "SCANS", 1<<30)
	r := newKept(t)
	for _, part := range []struct {
		name string
		seed uint64
	}{{"tuned on", 701}, {"kept apart", 721}} {
		groups := map[string]*board{}
		list, by := extracttest.Make(part.seed, count), map[int]string{}
		pdfs := 0
		for i, m := range list {
			if m.Truth.Format == "pdf" {
				if pdfs++; pdfs%scans == 0 {
					list[i] = scanOf(t, m, uint64(i))
				} else {
					by[i] = producerOf(part.seed, i)
					list[i] = reprinted(t, m, by[i])
				}
			}
		}
		readings := readDrawn(t, r, list)
		for i, m := range list {
			source := "text"
			if slices.Contains([]string{"pdf-scan", "jpg", "png"}, m.Truth.Format) {
				source = "scan"
			}
			names := []string{"all", source, m.Truth.Language[:2]}
			if by[i] != "" {
				names = append(names, "by "+by[i])
			}
			for _, g := range names {
				if groups[g] == nil {
					groups[g] = newBoard()
				}
				groups[g].add(truthOf(t, m), readings[i])
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

// wholeNumber reads a number above 0 from the environment.
func wholeNumber(t *testing.T, name string, usual int) int {
	t.Helper()
	v := os.Getenv(name)
	if v == "" {
		return usual
	}
	n, err := strconv.Atoi(v)
	if err != nil || n < 1 {
		t.Fatalf("%s %q: want a whole number above 0", name, v)
	}
	return n
}

// readDrawn reads papers, two at a time, and returns the last reading of each.
func readDrawn(t *testing.T, r *kept, list []extracttest.Made) []paper.Reading {
	t.Helper()
	out, errs := make([]paper.Reading, len(list)), make([]error, len(list))
	var wg sync.WaitGroup
	for k := range 2 {
		wg.Go(func() {
			for i := k; i < len(list); i += 2 {
				papers, err := extract.ReadBy(context.Background(), r, bytes.NewReader(list[i].Data), extract.Hints{})
				if errs[i] = err; err == nil {
					out[i] = papers[len(papers)-1].Reading
				}
			}
		})
	}
	wg.Wait()
	for i, err := range errs {
		if err != nil {
			t.Fatalf("%s: %v", list[i].Name, err)
		}
	}
	return out
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

// producerOf draws who writes a PDF, apart from all else that is drawn for it.
func producerOf(seed uint64, i int) string {
	list := extracttest.Producers()
	return list[rand.New(rand.NewPCG(seed, uint64(i)^0x9d0d)).IntN(len(list))]
}

// reprinted is the paper as that producer writes it, or itself where it is not installed.
func reprinted(t *testing.T, m extracttest.Made, producer string) extracttest.Made {
	t.Helper()
	out, err := extracttest.Reprint(m, producer)
	if errors.Is(err, extracttest.ErrNoProducer) {
		return m
	}
	if err != nil {
		t.Fatal(err)
	}
	return out
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
