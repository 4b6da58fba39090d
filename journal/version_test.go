package journal_test

import (
	"testing"

	"evidencevault/journal"
)

func TestCompareVersions(t *testing.T) {
	inOrder := []string{"", "1", "1.2", "1.2.1", "1.10", "2", "2026", "2026-2", "2026-2a", "2026-10", "2026-11", "draft", "draft 2"}
	for i, a := range inOrder {
		for k, b := range inOrder {
			got := journal.CompareVersions(a, b)
			if want := min(1, max(-1, i-k)); min(1, max(-1, got)) != want {
				t.Errorf("%q against %q: %d, want %d", a, b, got, want)
			}
		}
	}
}
