package credit_test

import (
	"fmt"
	"math/big"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"evidencevault/credit"
)

// judged is how many drawn schemes the outside solver judges.
const judged = 500

// scale makes whole numbers of all that [dice.overlapping] draws, so that the solver
// reads exactly what we count with.
const scale = 60

// TestTotalsAgainstGlpsol writes each drawn scheme with its claims as a linear
// programme, one variable for each claim, and lets glpsol solve it in exact arithmetic:
// first with all that is asked, and without it where that cannot be met. Its total is
// ours, and it can meet what is asked when we say so.
func TestTotalsAgainstGlpsol(t *testing.T) {
	program, err := exec.LookPath("glpsol")
	if err != nil {
		t.Fatalf("the judge of this test is missing: %v; install it, on Debian: apt-get install glpk-utils", err)
	}
	dir := t.TempDir()
	met, cut := 0, 0
	for seed := range uint64(judged) {
		d := newDice(seed + 1_000_000)
		s := d.overlapping()
		in := credit.Input{Cycle: cycle}
		for i := range 1 + d.IntN(14) {
			c := d.claim(i)
			hours := credit.Minutes(60 * d.IntN(34))
			c.Minutes = &hours
			in.Claims = append(in.Claims, c)
		}
		st, err := credit.Calculate(s, in)
		if err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(dir, fmt.Sprint(seed))
		total, ok := glpsol(t, program, file, linearProgramme(s, in, st, true))
		if ok != st.Meets {
			t.Errorf("seed %d: glpsol can meet what is asked: %v, we: %v", seed, ok, st.Meets)
		}
		if !ok {
			total, ok = glpsol(t, program, file, linearProgramme(s, in, st, false))
		}
		ours, _ := st.Counted.Rat().Float64()
		if gap := total/scale - ours; !ok || gap > 1e-9 || gap < -1e-9 {
			t.Errorf("seed %d: glpsol counts %v (solved: %v), we %v", seed, total/scale, ok, st.Counted)
		}
		certified(t, seed, s, in, st)
		cut += min(1, len(st.Cuts))
		if st.Meets {
			met++
		}
	}
	if cut < judged/3 || met < judged/8 || met > judged*7/8 {
		t.Errorf("the drawn schemes show too little: %d of %d with cuts, %d met", cut, judged, met)
	}
}

// certified holds the total against the prices of the rows, and what cannot be met
// against those of the shortfalls: exact fractions, no solver's word.
func certified(t *testing.T, seed uint64, s credit.Scheme, in credit.Input, st credit.Statement) {
	t.Helper()
	c, err := credit.Certify(s, in, st.Meets)
	if err != nil {
		t.Fatal(err)
	}
	if !c.Total.Equal(st.Counted) || !c.Bound.Equal(st.Counted) {
		t.Errorf("seed %d: counted %v, the programme reaches %v, its prices allow %v", seed, st.Counted, c.Total, c.Bound)
	}
	if !c.Shortfall.Equal(c.LeastShort) || st.Meets != (c.Shortfall.Sign() == 0) && (st.HasTarget || len(st.Minimums) > 0) {
		t.Errorf("seed %d: meets %v, but what is missing at least is %v, by the prices %v", seed, st.Meets, c.Shortfall, c.LeastShort)
	}
}

// overlapping draws a scheme whose caps and minimums overlap, all of them of the kinds
// that [linearProgramme] can write.
func (d dice) overlapping() credit.Scheme {
	s := credit.Scheme{ID: "drawn", Unit: "point", Target: credit.Target{Set: true, Amount: d.amount(40)}}
	for _, id := range categories {
		s.Categories = append(s.Categories, credit.Category{ID: id, Award: credit.Award{From: "hours", Steps: []credit.Step{{Op: credit.OpDivide, By: credit.Operand{Amount: credit.Whole(int64(1 + d.IntN(5)))}}}}})
	}
	for i := range 2 + d.IntN(7) {
		c := credit.Cap{ID: fmt.Sprintf("cap %d", i), Selection: d.selection(), Most: d.amount(30)}
		switch d.IntN(6) {
		case 0:
			c.Per = []string{credit.PerYear}
		case 1:
			c.Per = []string{credit.PerProvider}
		case 2:
			c.Share, c.Most = credit.ShareCounted, credit.Fraction(int64(1+d.IntN(3)), 4)
		}
		s.Caps = append(s.Caps, c)
	}
	for i := range d.IntN(4) {
		m := credit.Minimum{ID: fmt.Sprintf("minimum %d", i), Selection: d.selection(), Least: d.amount(12)}
		if d.oneIn(4) {
			m.Per = credit.PerYear
		}
		s.Minimums = append(s.Minimums, m)
	}
	return s
}

// linearProgramme writes what the rules say of the claims in the CPLEX form of linear
// programmes, straight from the rules. Of the statement it takes only the awards.
func linearProgramme(s credit.Scheme, in credit.Input, st credit.Statement, asked bool) string {
	var rows []string
	row := func(sign string, most credit.Amount, factor func(c credit.Claim) int64) {
		var sum strings.Builder
		for i, c := range in.Claims {
			if f := factor(c); f != 0 {
				fmt.Fprintf(&sum, " %+d x%d", f, i)
			}
		}
		if sum.Len() == 0 {
			sum.WriteString(" 0 x0")
		}
		rows = append(rows, fmt.Sprintf(" r%d:%s %s %s", len(rows), sum.String(), sign, whole(most)))
	}
	in1 := func(sel credit.Selection, per []string, window string) func(credit.Claim) int64 {
		return func(c credit.Claim) int64 {
			if sel.Holds(c) && (len(per) == 0 || windowOf(per[0], c) == window) {
				return 1
			}
			return 0
		}
	}
	for _, k := range s.Caps {
		if k.Share == credit.ShareCounted {
			n := k.Most.Mul(credit.Whole(4)).Rat().Num().Int64()
			row("<=", credit.Amount{}, func(c credit.Claim) int64 { return 4*in1(k.Selection, nil, "")(c) - n })
			continue
		}
		for _, window := range windowsOf(k.Per, in.Claims) {
			row("<=", k.Most, in1(k.Selection, k.Per, window))
		}
	}
	if asked {
		row(">=", s.Target.Amount, func(credit.Claim) int64 { return 1 })
		for _, m := range s.Minimums {
			windows, per := []string{""}, []string(nil)
			if m.Per != "" {
				windows, per = []string{"2024", "2025", "2026"}, []string{m.Per}
			}
			for _, window := range windows {
				row(">=", m.Least, in1(m.Selection, per, window))
			}
		}
	}
	var b strings.Builder
	b.WriteString("Maximize\n total:")
	for i := range in.Claims {
		fmt.Fprintf(&b, " + x%d", i)
	}
	b.WriteString("\nSubject To\n" + strings.Join(rows, "\n") + "\nBounds\n")
	for i, r := range st.Claims {
		fmt.Fprintf(&b, " 0 <= x%d <= %s\n", i, whole(r.Awarded))
	}
	return b.String() + "End\n"
}

// windowOf is the window in which a claim lies; "" for a claim without a date.
func windowOf(per string, c credit.Claim) string {
	if per == credit.PerProvider {
		return "provider " + c.Provider
	}
	if c.Date().IsZero() {
		return ""
	}
	return c.Date().String()[:4]
}

func windowsOf(per []string, claims []credit.Claim) []string {
	if len(per) == 0 {
		return []string{""}
	}
	var list []string
	for _, c := range claims {
		if w := windowOf(per[0], c); w != "" && !slices.Contains(list, w) {
			list = append(list, w)
		}
	}
	return list
}

// whole prints a times scale, which is a whole number.
func whole(a credit.Amount) string {
	r := a.Rat()
	if r.Mul(r, big.NewRat(scale, 1)); !r.IsInt() {
		panic("an amount that does not come out whole: " + a.String())
	}
	return r.Num().String()
}

// glpsol solves the programme and returns the total, and false if nothing solves it.
func glpsol(t *testing.T, program, file, text string) (float64, bool) {
	t.Helper()
	if err := os.WriteFile(file+".lp", []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.CommandContext(t.Context(), program, "--exact", "--lp", file+".lp", "-w", file+".out").CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s\n%s", err, out, text)
	}
	data, err := os.ReadFile(file + ".out")
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(data)) {
		// s bas ROWS COLUMNS PRIMAL DUAL TOTAL; the primal is f where a solution was found
		if f := strings.Fields(line); len(f) == 7 && f[0] == "s" {
			total, err := strconv.ParseFloat(f[6], 64)
			if err != nil {
				t.Fatalf("%q: %v", line, err)
			}
			return total, f[4] == "f" && f[5] == "f"
		}
	}
	t.Fatalf("glpsol wrote no solution:\n%s", data)
	return 0, false
}
