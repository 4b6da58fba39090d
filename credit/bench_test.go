package credit_test

import (
	"fmt"
	"testing"

	"evidencevault/credit"
)

// manyClaims are n claims over three years in four categories with ten caps that overlap.
func manyClaims(n int) (credit.Scheme, credit.Input) {
	s := hoursScheme(nil, credit.Minimum{ID: "x", Selection: credit.Selection{Tags: []string{"x"}}, Least: credit.Whole(40)},
		credit.Minimum{ID: "yearly", Selection: credit.Selection{}, Least: credit.Whole(20), Per: credit.PerYear})
	s.Target = credit.Target{Set: true, Amount: credit.Whole(120)}
	for i, id := range categories {
		s.Caps = append(s.Caps, over(id, 40, id), over(id+" and next", 60, id, categories[(i+1)%len(categories)]))
		s.Caps = append(s.Caps, credit.Cap{ID: id + " a year", Selection: credit.Selection{Categories: []string{id}}, Per: []string{credit.PerYear}, Most: credit.Whole(15)})
	}
	in := credit.Input{Cycle: cycle}
	for i := range n {
		c := hour(fmt.Sprintf("C%d", i+1), categories[i%len(categories)], int64(1+i%7), tags[i%2])
		c.End = cycle.Start.AddDays(i * 7 % 1090)
		in.Claims = append(in.Claims, c)
	}
	return s, in
}

// BenchmarkCalculate must grow with the claims no worse than n log n; 1,000 of them are
// to take less than 0.1 s.
func BenchmarkCalculate(b *testing.B) {
	for _, n := range []int{100, 1_000, 10_000, 100_000} {
		s, in := manyClaims(n)
		b.Run(fmt.Sprintf("%d claims", n), func(b *testing.B) {
			for b.Loop() {
				if _, err := credit.Calculate(s, in); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkCalculatePerDay adds a cap for each of a thousand days: so many caps overlap
// with the others.
func BenchmarkCalculatePerDay(b *testing.B) {
	for _, n := range []int{1_000, 10_000} {
		s, in := manyClaims(n)
		s.Caps = append(s.Caps, credit.Cap{ID: "a day", Per: []string{credit.PerDay}, Most: credit.Whole(5)})
		b.Run(fmt.Sprintf("%d claims", n), func(b *testing.B) {
			for b.Loop() {
				if _, err := credit.Calculate(s, in); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
