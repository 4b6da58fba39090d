package extract_test

import (
	"bytes"
	"context"
	"encoding/json"
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/extracttest"
	"evidencevault/extract/paper"
)

// TestDrawnPapers reads a fixed sample of drawn papers, on which nothing was tuned, and
// holds the share of exact values, and of those that are called certain and are right,
// against floors. The large run is in DEVELOPERS.md.
func TestDrawnPapers(t *testing.T) {
	r := newKept(t)
	b := newBoard()
	for _, m := range extracttest.Make(77, 60) {
		papers, err := extract.ReadBy(context.Background(), r, bytes.NewReader(m.Data), extract.Hints{})
		if err != nil {
			t.Fatalf("%s: %v", m.Name, err)
		}
		b.add(truthOf(t, m), papers[len(papers)-1].Reading)
	}
	b.log(t, "drawn")
	var sum tally
	for _, f := range paper.Fields() {
		c := b.fields[f]
		sum.exact, sum.wrong, sum.missing = sum.exact+c.exact, sum.wrong+c.wrong, sum.missing+c.missing
		sum.certain, sum.certainExact = sum.certain+c.certain, sum.certainExact+c.certainExact
	}
	has := sum.exact + sum.wrong + sum.missing
	if 100*sum.exact < 91*has {
		t.Errorf("%d of %d values are exact, want at least 91 %%", sum.exact, has)
	}
	if 1000*sum.certainExact < 975*sum.certain {
		t.Errorf("%d of %d certain values are right, want at least 97.5 %%", sum.certainExact, sum.certain)
	}
	if 100*sum.certainExact < 80*sum.exact {
		t.Errorf("%d of %d right values are called certain, want at least 80 %%", sum.certainExact, sum.exact)
	}
}

// truthOf is the truth of a drawn paper as the board judges it.
func truthOf(t *testing.T, m extracttest.Made) truth {
	t.Helper()
	text, err := json.Marshal(m.Truth)
	if err != nil {
		t.Fatal(err)
	}
	var raw map[string]json.RawMessage
	if err := json.Unmarshal(text, &raw); err != nil {
		t.Fatal(err)
	}
	want := truth{name: m.Name, values: map[paper.Field]string{}, also: map[paper.Field][]string{}}
	for _, a := range m.Truth.Ask {
		want.ask = append(want.ask, a.Field)
	}
	for _, f := range paper.Fields() {
		want.values[f] = canonical(t, m.Name, raw[string(f)])
		for _, other := range m.Truth.Also[string(f)] {
			value, err := json.Marshal(other)
			if err != nil {
				t.Fatal(err)
			}
			want.also[f] = append(want.also[f], canonical(t, m.Name, value))
		}
	}
	return want
}
