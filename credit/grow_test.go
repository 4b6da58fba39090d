package credit_test

import (
	"testing"
	"time"

	"evidencevault/credit"
)

// TestCalculateGrowsEvenly gives eight times the claims and holds the times against
// each other: 8 × log n is near 11, and counting that looks at every claim for each
// claim would need 64. The best of three runs, and three tries, keep a busy machine out.
func TestCalculateGrowsEvenly(t *testing.T) {
	best := func(n int) time.Duration {
		s, in := manyClaims(n)
		least := time.Hour
		for range 3 {
			start := time.Now()
			if _, err := credit.Calculate(s, in); err != nil {
				t.Fatal(err)
			}
			least = min(least, time.Since(start))
		}
		return least
	}
	var few, many time.Duration
	for range 3 {
		if few, many = best(2_000), best(16_000); many <= 32*few {
			return
		}
	}
	t.Errorf("2,000 claims take %v, 16,000 take %v", few, many)
}
