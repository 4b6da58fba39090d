package credit_test

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"evidencevault/credit"
)

var update = flag.Bool("update", false, "write testdata/statements.txt anew; read the difference")

// goldenStatements is how many drawn statements testdata/statements.txt holds.
const goldenStatements = 400

// dice draws schemes and claims that depend on nothing but the seed.
type dice struct{ *rand.Rand }

func newDice(seed uint64) dice { return dice{rand.New(rand.NewPCG(seed, 7))} }

func (d dice) amount(high int) credit.Amount {
	return credit.Fraction(int64(d.IntN(high+1)), int64(1+d.IntN(6)))
}

func (d dice) oneIn(n int) bool { return d.IntN(n) == 0 }

func (d dice) selection() credit.Selection {
	var s credit.Selection
	for _, c := range categories {
		if d.oneIn(2) {
			s.Categories = append(s.Categories, c)
		}
	}
	if d.oneIn(4) {
		s.Tags = []string{tags[d.IntN(len(tags))]}
	}
	if d.oneIn(8) {
		s.NotTags = []string{tags[d.IntN(len(tags))]}
	}
	return s
}

var capWindows = [][]string{nil, nil, nil, {credit.PerYear}, {credit.PerClaim}, {credit.PerCycleYear}, {"rolling:2"}, {credit.PerProvider}, {credit.PerDay}, {"society", credit.PerYear}}

func (d dice) cap(i int) credit.Cap {
	c := credit.Cap{ID: fmt.Sprintf("cap %d", i), Selection: d.selection(), Most: d.amount(30), Per: capWindows[d.IntN(len(capWindows))]}
	switch d.IntN(10) {
	case 0:
		c.Share, c.Most = credit.ShareTarget, credit.Fraction(int64(d.IntN(5)), 4)
	case 1:
		c.Share, c.Most, c.Per = credit.ShareCounted, credit.Fraction(int64(1+d.IntN(3)), 4), nil
	case 2:
		c.Largest = true
	}
	return c
}

func (d dice) minimum(i int) credit.Minimum {
	m := credit.Minimum{ID: fmt.Sprintf("minimum %d", i), Selection: d.selection(), Least: d.amount(20), Carried: d.oneIn(3)}
	switch d.IntN(6) {
	case 0:
		m.Per = credit.PerYear
	case 1:
		m.HasPart, m.Part, m.PartMost = true, credit.Selection{Tags: tags[:1]}, d.amount(5)
	case 2:
		m.Least, m.Distinct = credit.Amount{}, 1+d.IntN(4)
	}
	return m
}

func (d dice) scheme() credit.Scheme {
	s := credit.Scheme{ID: "drawn", Unit: "point", Target: credit.Target{Set: true, Amount: d.amount(60)}}
	for _, id := range categories {
		c := credit.Category{ID: id, Award: credit.Award{From: "hours", Steps: []credit.Step{{Op: credit.OpDivide, By: credit.Operand{Amount: credit.Whole(int64(1 + d.IntN(5)))}}}}}
		if d.oneIn(5) {
			c.Repeat = credit.Repeat{By: "provider", Factors: []credit.Amount{credit.Whole(1), credit.Fraction(1, 2)}}
		}
		if d.oneIn(6) {
			c.Life = 18
		}
		s.Categories = append(s.Categories, c)
	}
	for i := range d.IntN(7) {
		s.Caps = append(s.Caps, d.cap(i))
	}
	for i := range d.IntN(4) {
		s.Minimums = append(s.Minimums, d.minimum(i))
	}
	if n := len(s.Minimums); n >= 2 {
		switch d.IntN(4) {
		case 0:
			s.Minimums = append(s.Minimums, credit.Minimum{ID: "either", AnyOf: [][]string{{"minimum 0"}, {"minimum 1"}}})
		case 1:
			s.Exclusive = []credit.Exclusive{{Minimums: []string{"minimum 0", "minimum 1"}}}
		}
	}
	if d.oneIn(2) {
		k := credit.CarryOver{Set: true, HasMost: d.oneIn(2), Most: d.amount(20), Fill: d.oneIn(2), Whole: d.oneIn(4), FromAwarded: d.oneIn(4), IfMet: d.oneIn(4)}
		if d.oneIn(3) {
			k.Selection = d.selection()
		}
		s.CarryOver = k
	}
	return s
}

func (d dice) claim(i int) credit.Claim {
	n := credit.Minutes(d.IntN(2000))
	c := credit.Claim{ID: fmt.Sprintf("C%d", i+1), Category: categories[d.IntN(len(categories))], Minutes: &n,
		Provider: []string{"", "p", "q"}[d.IntN(3)], Fields: map[string]string{"society": []string{"s", "t"}[d.IntN(2)]}}
	if !d.oneIn(12) {
		c.End = cycle.Start.AddDays(d.IntN(1140) - 20)
	}
	for _, tag := range tags {
		if d.oneIn(2) {
			c.Tags = append(c.Tags, tag)
		}
	}
	return c
}

func (d dice) input(claims int) credit.Input {
	in := credit.Input{Cycle: cycle}
	for i := range claims {
		in.Claims = append(in.Claims, d.claim(i))
	}
	for range d.IntN(3) {
		in.Carried = append(in.Carried, credit.Carried{Amount: d.amount(12), Tags: tags[:d.IntN(3)]})
	}
	if d.oneIn(4) {
		in.On = cycle.Start.AddDays(d.IntN(1200))
	}
	return in
}

// statementText is all that a statement says: its figures, and how each came about.
func statementText(t *testing.T, s credit.Scheme, in credit.Input) (figures, words string, st credit.Statement) {
	t.Helper()
	st, err := credit.Calculate(s, in)
	if err != nil {
		t.Fatal(err)
	}
	sums, err := json.Marshal(credit.Calc{Statement: st})
	if err != nil {
		t.Fatal(err)
	}
	way, err := json.Marshal(st.Derivations)
	if err != nil {
		t.Fatal(err)
	}
	return string(sums), string(way) + "\n" + strings.Join(st.ExplainAll(), "\n"), st
}

// digest is enough of a hash to tell two texts apart.
func digest(text string) string {
	sum := sha256.Sum256([]byte(text))
	return hex.EncodeToString(sum[:8])
}

// TestStatementsStayTheSame holds drawn statements against the digests of an earlier
// version, their figures and the words of their derivations apart: whoever makes
// counting quicker must change neither, and whoever words it better must not change a
// figure. After a change that is meant, -update writes them anew.
func TestStatementsStayTheSame(t *testing.T) {
	const name = "testdata/statements.txt"
	var lines []string
	cut, met, carried := 0, 0, 0
	for seed := range uint64(goldenStatements) {
		d := newDice(seed)
		s := d.scheme()
		n := d.IntN(12)
		if seed%20 == 0 {
			n = 150
		}
		figures, words, st := statementText(t, s, d.input(n))
		lines = append(lines, fmt.Sprintf("%d figures %s words %s counted %v", seed, digest(figures), digest(words), st.Counted))
		cut += min(1, len(st.Cuts))
		carried += st.CarryOut.Sign()
		if st.Meets {
			met++
		}
	}
	if cut < goldenStatements/3 || met < goldenStatements/10 || carried < goldenStatements/20 {
		t.Errorf("the drawn statements show too little: %d with cuts, %d met, %d carry on", cut, met, carried)
	}
	got := strings.Join(lines, "\n") + "\n"
	if *update {
		if err := os.WriteFile(name, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	want := strings.Split(strings.ReplaceAll(string(data), "\r\n", "\n"), "\n")
	wrong := 0
	for i, line := range lines {
		if i < len(want) && want[i] == line {
			continue
		}
		if wrong++; wrong <= 5 {
			t.Errorf("seed %d: -want +got\n-%s\n+%s", i, want[min(i, len(want)-1)], line)
		}
	}
	if wrong > 5 {
		t.Errorf("%d statements differ in all", wrong)
	}
}
