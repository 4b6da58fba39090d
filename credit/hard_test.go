package credit_test

import (
	"fmt"
	"os"
	"runtime"
	"strconv"
	"testing"
	"time"

	"evidencevault/credit"
)

// hardSteps is how many steps the hard cases may take here; the environment variable
// HARD_STEPS lets them run longer.
func hardSteps(t *testing.T) int {
	text := os.Getenv("HARD_STEPS")
	if text == "" {
		return 15_000
	}
	n, err := strconv.Atoi(text)
	if err != nil {
		t.Fatalf("HARD_STEPS: %v", err)
	}
	return n
}

// tangled are n claims under as many caps that overlap by tags drawn at random; equal
// makes all awards and caps alike, so that nearly every choice is a tie.
func tangled(seed uint64, claims, caps int, equal bool) (credit.Scheme, credit.Input) {
	d := newDice(seed)
	s := hoursScheme(nil)
	for i := range caps {
		most := int64(20 + d.IntN(60))
		if equal {
			most = 30
		}
		s.Caps = append(s.Caps, credit.Cap{ID: fmt.Sprintf("cap %d", i), Selection: credit.Selection{Tags: []string{fmt.Sprint("t", i)}}, Most: credit.Fraction(most, 3)})
	}
	in := credit.Input{Cycle: cycle}
	for i := range claims {
		n := int64(1 + d.IntN(9))
		if equal {
			n = 2
		}
		c := dated(fmt.Sprintf("C%d", i+1), categories[d.IntN(4)], n, d.IntN(1000))
		for range 1 + d.IntN(4) {
			c.Tags = append(c.Tags, fmt.Sprint("t", d.IntN(caps)))
		}
		in.Claims = append(in.Claims, c)
	}
	return s, in
}

// TestHardCases gives the search more than rule books ever ask: it is exact or says how
// far it may be off, ends with its budget, and needs little memory.
func TestHardCases(t *testing.T) {
	choices := func(s credit.Scheme, in credit.Input) (credit.Scheme, credit.Input) {
		for i := range s.Caps {
			s.Caps[i].Whole = true
		}
		return s, in
	}
	few, fewIn := tangled(3, 300, 60, false)
	some, someIn := choices(few, fewIn)
	plain, plainIn := tangled(1, 2_000, 200, false)
	ties, tiesIn := tangled(2, 2_000, 200, true)
	tests := []struct {
		name string
		s    credit.Scheme
		in   credit.Input
	}{
		{"200 caps and 2,000 claims", plain, plainIn},
		{"ties everywhere", ties, tiesIn},
		{"300 whole claims under 60 caps", some, someIn},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			in := tt.in
			in.Steps = hardSteps(t)
			start := time.Now()
			st, err := credit.Calculate(tt.s, in)
			if err != nil {
				t.Fatal(err)
			}
			var m runtime.MemStats
			runtime.ReadMemStats(&m)
			t.Logf("%v, %d MB: counted %v, %v", time.Since(start), m.Sys>>20, st.Counted, st.Unproven)
			if m.Sys > 512<<20 {
				t.Errorf("it took %d MB", m.Sys>>20)
			}
			held(t, tt.s, in, st)
		})
	}
}

// held holds what counts against the caps.
func held(t *testing.T, s credit.Scheme, in credit.Input, st credit.Statement) {
	t.Helper()
	if st.Counted.Sign() <= 0 {
		t.Error("nothing counts")
	}
	for _, k := range s.Caps {
		var sum credit.Amount
		for i, c := range in.Claims {
			r := st.Claims[i]
			if !k.Selection.Holds(c) {
				continue
			}
			sum = sum.Add(r.Counted)
			if k.Whole && r.Counted.Sign() != 0 && !r.Counted.Equal(r.Awarded) {
				t.Errorf("%s counts %v of %v, and is to count whole", r.ID, r.Counted, r.Awarded)
			}
		}
		if !sum.AtMost(k.Most) {
			t.Errorf("%s allows %v, and %v counts", k.ID, k.Most, sum)
		}
	}
}

// TestCountingStops ends a count in the middle, and still counts nothing wrong.
func TestCountingStops(t *testing.T) {
	s, in := tangled(1, 2_000, 200, false)
	asked := 0
	in.Stop = func() bool { asked++; return asked >= 5 }
	st, err := credit.Calculate(s, in)
	if err != nil || st.Unproven == nil || asked != 5 {
		t.Fatalf("asked %d times, %v, %v", asked, st.Unproven, err)
	}
	held(t, s, in, st)
}
