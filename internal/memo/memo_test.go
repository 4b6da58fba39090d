package memo

import (
	"strconv"
	"sync"
	"testing"
)

// TestOf asks more than a memo keeps, by several at a time: every answer is the right one, what was
// asked just before is not worked out anew, and no more is kept than allowed.
func TestOf(t *testing.T) {
	var m Memo[int, string]
	var wg sync.WaitGroup
	for range 4 {
		wg.Go(func() {
			for q := range 3 * most {
				if a := m.Of(q, strconv.Itoa); a != strconv.Itoa(q) {
					t.Errorf("of %d: %q", q, a)
				}
			}
		})
	}
	wg.Wait()
	if len(m.kept) > most {
		t.Errorf("%d answers are kept, most %d", len(m.kept), most)
	}
	m.Of(1, strconv.Itoa)
	m.Of(1, func(int) string { t.Error("asked again"); return "" })
}
