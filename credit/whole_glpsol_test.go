package credit_test

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"evidencevault/credit"
)

// judgedWhole is how many drawn schemes with choices the outside solver judges.
const judgedWhole = 260

// TestWholeChoicesAgainstGlpsol draws schemes in which claims may count in another
// category, only so many or only whole claims count, and one of several lists of
// minimums is enough. glpsol solves each by its own branch and bound: its total is ours,
// and it can meet what is asked when we say so. What we say counts is held against
// every rule by itself.
func TestWholeChoicesAgainstGlpsol(t *testing.T) {
	program, err := exec.LookPath("glpsol")
	if err != nil {
		t.Fatalf("the judge of this test is missing: %v; install it, on Debian: apt-get install glpk-utils", err)
	}
	dir := t.TempDir()
	met, moved, left := 0, 0, 0
	for seed := range uint64(judgedWhole) {
		d := newDice(seed + 2_000_000)
		s := d.choices()
		in := credit.Input{Cycle: cycle}
		for i := range 2 + d.IntN(9) {
			c := d.claim(i)
			hours := credit.Minutes(60 * d.IntN(34))
			c.Minutes = &hours
			in.Claims = append(in.Claims, c)
		}
		st, err := credit.Calculate(s, in)
		if err != nil {
			t.Fatal(err)
		}
		if st.Unproven != nil {
			t.Errorf("seed %d: not proven: %+v", seed, st.Unproven)
			continue
		}
		file := filepath.Join(dir, fmt.Sprint(seed))
		p := newWholeProgramme(s, in)
		total, ok := glpsolWhole(t, program, file, p.text(true))
		if ok != st.Meets {
			t.Errorf("seed %d: glpsol can meet what is asked: %v, we: %v", seed, ok, st.Meets)
		}
		if !ok {
			total, ok = glpsolWhole(t, program, file, p.text(false))
		}
		ours, _ := st.Counted.Rat().Float64()
		if gap := total/scale - ours; !ok || gap > 1e-9 || gap < -1e-9 {
			t.Errorf("seed %d: glpsol counts %v (solved: %v), we %v", seed, total/scale, ok, st.Counted)
		}
		a, b := p.check(t, seed, st)
		moved, left = moved+a, left+b
		if st.Meets {
			met++
		}
	}
	if met < judgedWhole/10 || met > judgedWhole*9/10 || moved < judgedWhole/10 || left < judgedWhole/4 {
		t.Errorf("the drawn schemes show too little: %d met, %d claims count elsewhere, %d are left out", met, moved, left)
	}
}

// TestFewStepsAreHonest lets the search end early: what counts then still respects every
// rule, and the best lies no farther off than is said.
func TestFewStepsAreHonest(t *testing.T) {
	early := 0
	for seed := range uint64(60) {
		d := newDice(seed + 2_000_000)
		s := d.choices()
		in := credit.Input{Cycle: cycle}
		for i := range 6 + d.IntN(12) {
			c := d.claim(i)
			hours := credit.Minutes(60 * d.IntN(34))
			c.Minutes = &hours
			in.Claims = append(in.Claims, c)
		}
		best, err := credit.Calculate(s, in)
		if err != nil || best.Unproven != nil {
			t.Fatal(err, best.Unproven)
		}
		p := newWholeProgramme(s, in)
		for _, steps := range []int{1, 2, 4, 8, 16, 32} {
			in.Steps = steps
			st, err := credit.Calculate(s, in)
			if err != nil {
				t.Fatal(err)
			}
			p.check(t, seed, st)
			u := st.Unproven
			if u == nil {
				if st.Meets != best.Meets || !st.Counted.Equal(best.Counted) {
					t.Errorf("seed %d, %d steps: proven to count %v (meets %v), but %v (%v) is right", seed, steps, st.Counted, st.Meets, best.Counted, best.Meets)
				}
				continue
			}
			early++
			if st.Meets && !best.Meets {
				t.Errorf("seed %d, %d steps: said to meet what cannot be met", seed, steps)
			}
			if st.Meets == best.Meets && (st.Counted.Cmp(best.Counted) > 0 || u.What == "whether more can count in all" && best.Counted.Cmp(st.Counted.Add(u.Distance)) > 0) {
				t.Errorf("seed %d, %d steps: counts %v, the best is %v, said: %v", seed, steps, st.Counted, best.Counted, u)
			}
			if text := strings.Join(st.ExplainAll(), "\n"); !strings.Contains(text, u.String()) || !strings.Contains(st.Summary(), u.String()) {
				t.Errorf("seed %d: it is not said that the search ended early:\n%s", seed, text)
			}
		}
	}
	if early < 60 {
		t.Errorf("only %d searches ended early", early)
	}
}

// choices draws a scheme whose rules leave choices.
func (d dice) choices() credit.Scheme {
	s := d.overlapping()
	s.Minimums = nil
	for i := range s.Categories {
		if other := categories[d.IntN(len(categories))]; d.oneIn(3) && other != s.Categories[i].ID {
			s.Categories[i].Or = []string{other}
		}
	}
	for i := range 1 + d.IntN(3) {
		c := credit.Cap{ID: fmt.Sprintf("choice %d", i), Selection: d.selection(), Most: d.amount(40)}
		switch d.IntN(3) {
		case 0:
			c.Whole = true
		case 1:
			c.MostClaims = 1 + d.IntN(3)
		default:
			c.MostClaims, c.Per = 1, []string{credit.PerProvider}
		}
		s.Caps = append(s.Caps, c)
	}
	for i := range d.IntN(5) {
		m := credit.Minimum{ID: fmt.Sprintf("minimum %d", i), Selection: d.selection(), Least: d.amount(12)}
		if d.oneIn(4) {
			m.Per = credit.PerYear
		}
		s.Minimums = append(s.Minimums, m)
	}
	switch len(s.Minimums) {
	case 3:
		s.Minimums = append(s.Minimums, credit.Minimum{ID: "either", AnyOf: [][]string{{"minimum 0"}, {"minimum 1", "minimum 2"}}})
	case 4:
		s.Minimums = append(s.Minimums, credit.Minimum{ID: "either", AnyOf: [][]string{{"minimum 0", "minimum 3"}, {"minimum 1", "minimum 3"}, {"minimum 2"}}})
	}
	return s
}

// wholeProgramme is what the rules say, with one variable for each claim and category
// in which it may count, and a yes or no beside it.
type wholeProgramme struct {
	scheme credit.Scheme
	claims []credit.Claim
	ways   []claimWay
}

type claimWay struct {
	claim int
	as    credit.Claim
	award credit.Amount
	whole bool
}

func newWholeProgramme(s credit.Scheme, in credit.Input) wholeProgramme {
	p := wholeProgramme{scheme: s, claims: in.Claims}
	for i, c := range in.Claims {
		own, _ := s.Category(c.Category)
		for _, id := range append([]string{c.Category}, own.Or...) {
			w := claimWay{claim: i, as: c}
			w.as.Category = id
			k, _ := s.Category(id)
			if d := c.Date(); d.IsZero() || cycle.Holds(d) {
				w.award = credit.Whole(int64(*c.Minutes) / 60).Div(k.Award.Steps[0].By.Amount)
			}
			for _, k := range s.Caps {
				w.whole = w.whole || k.Whole && k.Selection.Holds(w.as)
			}
			p.ways = append(p.ways, w)
		}
	}
	return p
}

func (p wholeProgramme) holds(sel credit.Selection, per []string, window string, w claimWay) bool {
	return sel.Holds(w.as) && (len(per) == 0 || windowOf(per[0], w.as) == window)
}

func (p wholeProgramme) sum(name string, per []string, window string, sel credit.Selection) string {
	var b strings.Builder
	for i, w := range p.ways {
		if p.holds(sel, per, window, w) {
			fmt.Fprintf(&b, " + %s%d", name, i)
		}
	}
	if b.Len() == 0 {
		return " 0 x0"
	}
	return b.String()
}

// windowsOfCap leaves out, of a number of claims, those of no provider.
func (p wholeProgramme) windowsOfCap(k credit.Cap) []string {
	list := windowsOf(k.Per, p.claims)
	if k.MostClaims > 0 && len(k.Per) > 0 {
		list = slices.DeleteFunc(list, func(w string) bool { return w == "provider " })
	}
	return list
}

func (p wholeProgramme) text(asked bool) string {
	var rows []string
	row := func(format string, args ...any) {
		rows = append(rows, fmt.Sprintf(" r%d: %s", len(rows), fmt.Sprintf(format, args...)))
	}
	for i, w := range p.ways {
		sign := "<="
		if w.whole {
			sign = "="
		}
		row("x%d - %s y%d %s 0", i, whole(w.award), i, sign)
	}
	for c := range p.claims {
		var b strings.Builder
		for i, w := range p.ways {
			if w.claim == c {
				fmt.Fprintf(&b, " + y%d", i)
			}
		}
		row("%s <= 1", b.String())
	}
	for _, k := range p.scheme.Caps {
		for _, window := range p.windowsOfCap(k) {
			switch {
			case k.MostClaims > 0:
				row("%s <= %d", p.sum("y", k.Per, window, k.Selection), k.MostClaims)
			case k.Share == credit.ShareCounted:
				n := k.Most.Mul(credit.Whole(4)).Rat().Num().Int64()
				var b strings.Builder
				for i, w := range p.ways {
					f := -n
					if k.Selection.Holds(w.as) {
						f += 4
					}
					fmt.Fprintf(&b, " %+d x%d", f, i)
				}
				row("%s <= 0", b.String())
			default:
				row("%s <= %s", p.sum("x", k.Per, window, k.Selection), whole(k.Most))
			}
		}
	}
	lists := 0
	if asked {
		lists = p.ask(row)
	}
	var b strings.Builder
	b.WriteString("Maximize\n total:")
	for i := range p.ways {
		fmt.Fprintf(&b, " + x%d", i)
	}
	b.WriteString("\nSubject To\n" + strings.Join(rows, "\n") + "\nBinary\n")
	for i := range p.ways {
		fmt.Fprintf(&b, " y%d\n", i)
	}
	for i := range lists {
		fmt.Fprintf(&b, " l%d\n", i)
	}
	return b.String() + "End\n"
}

// ask writes what is asked, and returns how many lists there are to choose from.
func (p wholeProgramme) ask(row func(string, ...any)) int {
	row("%s >= %s", p.sum("x", nil, "", credit.Selection{}), whole(p.scheme.Target.Amount))
	var either [][]string
	listed := map[string]bool{}
	for _, m := range p.scheme.Minimums {
		for _, ids := range m.AnyOf {
			either = append(either, ids)
			for _, id := range ids {
				listed[id] = true
			}
		}
	}
	need := func(m credit.Minimum, list int) {
		windows, per := []string{""}, []string(nil)
		if m.Per != "" {
			windows, per = []string{"2024", "2025", "2026"}, []string{m.Per}
		}
		for _, window := range windows {
			if sum := p.sum("x", per, window, m.Selection); list < 0 {
				row("%s >= %s", sum, whole(m.Least))
			} else {
				row("%s - %s l%d >= 0", sum, whole(m.Least), list)
			}
		}
	}
	for _, m := range p.scheme.Minimums {
		if len(m.AnyOf) == 0 && !listed[m.ID] {
			need(m, -1)
		}
	}
	var some strings.Builder
	for n, ids := range either {
		fmt.Fprintf(&some, " + l%d", n)
		for _, id := range ids {
			i := slices.IndexFunc(p.scheme.Minimums, func(m credit.Minimum) bool { return m.ID == id })
			need(p.scheme.Minimums[i], n)
		}
	}
	if len(either) > 0 {
		row("%s >= 1", some.String())
	}
	return len(either)
}

// check holds what counts against every rule, and returns how many claims count in
// another category than their own, and how many do not count at all.
func (p wholeProgramme) check(t *testing.T, seed uint64, st credit.Statement) (moved, left int) {
	t.Helper()
	counted := make([]credit.Amount, len(p.ways))
	for i, w := range p.ways {
		r := st.Claims[w.claim]
		if r.Category != w.as.Category {
			continue
		}
		counted[i] = r.Counted
		if r.Counted.Sign() < 0 || !r.Counted.AtMost(w.award) || w.whole && r.Counted.Sign() > 0 && !r.Counted.Equal(w.award) || !r.Awarded.Equal(w.award) {
			t.Errorf("seed %d: %s counts %v in %s, awarded %v of %v (whole: %v)", seed, r.ID, r.Counted, r.Category, r.Awarded, w.award, w.whole)
		}
		if r.Category != p.claims[w.claim].Category {
			moved++
		}
		if r.Counted.Sign() == 0 && w.award.Sign() > 0 {
			left++
		}
	}
	for _, k := range p.scheme.Caps {
		for _, window := range p.windowsOfCap(k) {
			var sum credit.Amount
			n := 0
			for i, w := range p.ways {
				if p.holds(k.Selection, k.Per, window, w) {
					sum = sum.Add(counted[i])
					n += counted[i].Sign()
				}
			}
			most := k.Most
			if k.Share == credit.ShareCounted {
				most = most.Mul(st.Counted)
			}
			if k.MostClaims == 0 && !sum.AtMost(most) || k.MostClaims > 0 && n > k.MostClaims {
				t.Errorf("seed %d: %s (%s): %v of %d claims count", seed, k.ID, window, sum, n)
			}
		}
	}
	return moved, left
}

// glpsolWhole solves a programme with whole numbers and returns the total, and false if
// nothing solves it.
func glpsolWhole(t *testing.T, program, file, text string) (float64, bool) {
	t.Helper()
	if err := os.WriteFile(file+".lp", []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.CommandContext(t.Context(), program, "--lp", file+".lp", "-w", file+".out").CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s\n%s", err, out, text)
	}
	data, err := os.ReadFile(file + ".out")
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(data)) {
		// s mip ROWS COLUMNS STATUS TOTAL; the status is o where the best was found
		if f := strings.Fields(line); len(f) == 6 && f[0] == "s" && f[1] == "mip" {
			total, err := strconv.ParseFloat(f[5], 64)
			if err != nil {
				t.Fatalf("%q: %v", line, err)
			}
			return total, f[4] == "o"
		}
	}
	t.Fatalf("glpsol wrote no solution:\n%s\n%s", data, out)
	return 0, false
}
