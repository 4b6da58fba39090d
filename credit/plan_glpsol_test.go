package credit_test

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"evidencevault/credit"
)

// plansJudged is how many drawn plans the outside solver judges.
const plansJudged = 120

// TestPlansAgainstGlpsol writes each drawn plan as an integer programme, straight from
// the rules: how often in which year, and how much of it counts. glpsol's least cost and
// least time are ours, and it finds a way exactly when we do.
func TestPlansAgainstGlpsol(t *testing.T) {
	program := glpsolProgram(t)
	dir := t.TempDir()
	open, shut := 0, 0
	for seed := range uint64(plansJudged) {
		d := newDice(seed + 9_000_000)
		s, in := d.planned(4 + d.IntN(9))
		plan, err := credit.MakePlan(s, in)
		if err != nil {
			t.Fatal(err)
		}
		if plan.Nothing || plan.Ahead.Meets {
			continue
		}
		for _, what := range []string{"cost", "hours"} {
			want, ok := glpsolPlan(t, program, filepath.Join(dir, fmt.Sprint(seed, what)), integerProgramme(t, s, in, what))
			if ok == plan.Open || !plan.Proven {
				t.Errorf("seed %d: glpsol finds a way: %v, we: %v (proven %v, %v)", seed, ok, !plan.Open, plan.Proven, plan.Notes)
				break
			}
			if !ok {
				shut++
				break
			}
			open++
			ours := *plan.Ways[0].Compared
			if what == "hours" {
				ours = plan.Ways[len(plan.Ways)-1].Hours
			}
			if f, _ := ours.Rat().Float64(); f-want > 1e-9 || want-f > 1e-9 {
				t.Errorf("seed %d: glpsol's least %s is %v, ours %v", seed, what, want, ours)
			}
		}
		for _, w := range plan.Ways {
			if !plan.Open && !w.Meets {
				t.Errorf("seed %d: a way that does not meet everything", seed)
			}
		}
	}
	if open < plansJudged/2 || shut < 5 {
		t.Errorf("the drawn plans show too little: %d optima, %d without a way", open, shut)
	}
}

func glpsolProgram(t testing.TB) string {
	t.Helper()
	program, err := exec.LookPath("glpsol")
	if err != nil {
		t.Fatalf("the judge of this test is missing: %v; install it, on Debian: apt-get install glpk-utils", err)
	}
	return program
}

// column is one variable of the integer programme: an activity in a year, or a claim.
type column struct {
	claim credit.Claim
	award credit.Amount
	units string // how often; "" for a claim
	of    int
	most  int
}

// integerProgramme writes a drawn plan in the CPLEX form of integer programmes. Of our
// own figures it takes only what one activity is awarded.
func integerProgramme(t testing.TB, s credit.Scheme, in credit.PlanInput, what string) string {
	t.Helper()
	columns := columnsOf(t, s, in)
	var b strings.Builder
	b.WriteString("Minimize\n goal: 0 none")
	for _, c := range columns {
		if c.units != "" {
			o := in.Possible[c.of]
			n := o.Cost
			if what == "hours" {
				n = o.Hours.Add(o.Extra)
			}
			fmt.Fprintf(&b, " + %s %s", n, c.units)
		}
	}
	b.WriteString("\nSubject To\n")
	rows := 0
	row := func(sign string, most string, factor func(k int, c column) string) {
		var sum strings.Builder
		for k, c := range columns {
			sum.WriteString(factor(k, c))
		}
		if sum.Len() == 0 {
			sum.WriteString(" 0 none")
		}
		rows++
		fmt.Fprintf(&b, " r%d:%s %s %s\n", rows, sum.String(), sign, most)
	}
	for k, c := range columns {
		if c.units != "" {
			row("<=", "0", func(i int, _ column) string {
				if i == k {
					return fmt.Sprintf(" + c%d - %s %s", k, whole(c.award), c.units)
				}
				return ""
			})
		}
	}
	rulesOf(s, columns, row)
	for i, o := range in.Possible {
		row("<=", fmt.Sprint(timesOf(o)), func(_ int, c column) string {
			if c.units != "" && c.of == i {
				return " + " + c.units
			}
			return ""
		})
	}
	b.WriteString("Bounds\n none = 0\n")
	var names []string
	for k, c := range columns {
		if c.units == "" {
			fmt.Fprintf(&b, " 0 <= c%d <= %s\n", k, whole(c.award))
			continue
		}
		fmt.Fprintf(&b, " 0 <= %s <= %d\n", c.units, c.most)
		names = append(names, c.units)
	}
	return b.String() + "Generals\n " + strings.Join(names, "\n ") + "\nEnd\n"
}

func timesOf(o credit.Possible) int {
	if o.Times == 0 {
		return max(1, len(o.Dates))
	}
	return o.Times
}

func rulesOf(s credit.Scheme, columns []column, row func(string, string, func(int, column) string)) {
	in := func(sel credit.Selection, per []string, window string) func(int, column) string {
		return func(k int, c column) string {
			if sel.Holds(c.claim) && (len(per) == 0 || windowOf(per[0], c.claim) == window) {
				return fmt.Sprintf(" + c%d", k)
			}
			return ""
		}
	}
	var claims []credit.Claim
	for _, c := range columns {
		claims = append(claims, c.claim)
	}
	for _, k := range s.Caps {
		if k.Share == credit.ShareCounted {
			n := k.Most.Mul(credit.Whole(4)).Rat().Num().Int64()
			row("<=", "0", func(i int, c column) string {
				if f := -n + 4*int64(strings.Count(in(k.Selection, nil, "")(i, c), "c")); f != 0 {
					return fmt.Sprintf(" %+d c%d", f, i)
				}
				return ""
			})
			continue
		}
		for _, window := range windowsOf(k.Per, claims) {
			row("<=", whole(k.Most), in(k.Selection, k.Per, window))
		}
	}
	row(">=", whole(s.Target.Amount), in(credit.Selection{}, nil, ""))
	for _, m := range s.Minimums {
		windows, per := []string{""}, []string(nil)
		if m.Per != "" {
			windows, per = []string{"2024", "2025", "2026"}, []string{m.Per}
		}
		for _, window := range windows {
			row(">=", whole(m.Least), in(m.Selection, per, window))
		}
	}
}

func columnsOf(t testing.TB, s credit.Scheme, in credit.PlanInput) []column {
	t.Helper()
	award := func(c credit.Claim) credit.Amount {
		st, err := credit.Calculate(s, credit.Input{Cycle: in.Cycle, Claims: []credit.Claim{c}})
		if err != nil {
			t.Fatal(err)
		}
		return st.Claims[0].Awarded
	}
	var list []column
	for _, c := range in.Claims {
		list = append(list, column{claim: c, award: award(c)})
	}
	for i, o := range in.Possible {
		for y, days := range yearsOf(o, in) {
			m := credit.Minutes(o.Hours.Mul(credit.Whole(60)).Rat().Num().Int64())
			c := credit.Claim{ID: "one", Category: o.Category, Tags: o.Tags, Provider: o.Provider, End: days[0], Minutes: &m}
			most := timesOf(o)
			if len(o.Dates) > 0 {
				most = min(most, len(days))
			}
			list = append(list, column{claim: c, award: award(c), units: fmt.Sprintf("x%d_%d", i, y), of: i, most: most})
		}
	}
	return list
}

// glpsolPlan solves an integer programme and returns its goal, and false if there is no
// solution.
func glpsolPlan(t testing.TB, program, file, text string) (float64, bool) {
	t.Helper()
	if err := os.WriteFile(file+".lp", []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.CommandContext(t.Context(), program, "--cuts", "--tmlim", "20", "--lp", file+".lp", "-w", file+".out").CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s\n%s", err, out, text)
	}
	data, err := os.ReadFile(file + ".out")
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(data)) {
		// s mip ROWS COLUMNS STATE TOTAL; the state is o for the best there is, n for none
		if f := strings.Fields(line); len(f) == 6 && f[0] == "s" {
			total, err := strconv.ParseFloat(f[5], 64)
			if err != nil {
				t.Fatalf("%q: %v", line, err)
			}
			return total, f[4] == "o"
		}
	}
	t.Fatalf("glpsol wrote no solution:\n%s", data)
	return 0, false
}

// possibleNow draws a plan of ordinary size: a scheme like many a body's, and so many
// possible activities over three years.
func possibleNow(seed uint64, activities int) (credit.Scheme, credit.PlanInput) {
	d := newDice(seed)
	s := credit.Scheme{ID: "drawn", Unit: "point", Target: credit.Target{Set: true, Amount: credit.Whole(60)}}
	for i, id := range categories {
		s.Categories = append(s.Categories, ofHours(id, strconv.Itoa(1+i%3)))
		s.Caps = append(s.Caps, over(id, 30, id), over(id+" and next", 45, id, categories[(i+1)%len(categories)]))
	}
	s.Caps = append(s.Caps, credit.Cap{ID: "a year", Selection: credit.Selection{Categories: []string{"a", "b"}}, Per: []string{credit.PerYear}, Most: credit.Whole(15)})
	s.Minimums = []credit.Minimum{{ID: "x", Selection: credit.Selection{Tags: []string{"x"}}, Least: credit.Whole(12)},
		{ID: "yearly", Least: credit.Whole(10), Per: credit.PerYear}}
	in := credit.PlanInput{Input: credit.Input{Cycle: cycle, On: cycle.Start.AddDays(40)}}
	for i := range activities {
		o := credit.Possible{Title: fmt.Sprintf("activity %d", i+1), Category: categories[i%len(categories)], Hours: credit.Fraction(int64(2+d.IntN(40)), 2),
			Cost: credit.Whole(int64(10 * d.IntN(60))), Currency: "EUR", Times: 1 + d.IntN(2)}
		if d.oneIn(3) {
			o.Tags = []string{"x"}
		}
		if d.oneIn(2) {
			o.Dates, o.Times = []credit.Date{in.On.AddDays(d.IntN(1000))}, 1
		}
		in.Possible = append(in.Possible, o)
	}
	return s, in
}

// BenchmarkPlan makes whole plans with 40 possible activities, which must take less
// than 2 s, and lets glpsol find only the cheapest way of the same.
func BenchmarkPlan(b *testing.B) {
	program := glpsolProgram(b)
	for seed := range uint64(3) {
		s, in := possibleNow(seed, 40)
		b.Run(fmt.Sprintf("40 activities, number %d", seed), func(b *testing.B) {
			ways := 0
			for b.Loop() {
				plan, err := credit.MakePlan(s, in)
				if err != nil {
					b.Fatal(err)
				}
				ways = len(plan.Ways)
				if !plan.Proven {
					b.Logf("not proven: %v", plan.Notes)
				}
			}
			b.ReportMetric(float64(ways), "ways")
		})
		b.Run(fmt.Sprintf("40 activities, number %d, glpsol, cheapest only", seed), func(b *testing.B) {
			text := integerProgramme(b, s, in, "cost")
			for b.Loop() {
				began := time.Now()
				glpsolPlan(b, program, filepath.Join(b.TempDir(), "plan"), text)
				b.ReportMetric(float64(time.Since(began).Milliseconds()), "ms/last")
			}
		})
	}
}
