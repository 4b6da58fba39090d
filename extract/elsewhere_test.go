package extract_test

import "testing"

// TestPapersFromElsewhere reads papers in French, Spanish and Dutch, and in formats other
// than PDF, that were written before any rule was looked at. Only the half "shown" was
// looked at when rules were mended.
func TestPapersFromElsewhere(t *testing.T) {
	readRound(t, "elsewhere", 35, map[string]shares{
		"shown": {exact: 950, certain: 955, papers: 750},
		"apart": {exact: 895, certain: 965, papers: 600},
	})
}
