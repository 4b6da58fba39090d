package extract_test

import "testing"

// TestBlindPapers reads the papers in testdata/blind, written by somebody who had seen
// neither the rules nor the other papers. What was measured before anything was mended is
// in its README.md; the half "apart" is never looked at but for its sums.
func TestBlindPapers(t *testing.T) {
	readRound(t, "blind", 28, map[string]shares{
		"shown": {exact: 965, certain: 985},
		"apart": {exact: 850, certain: 945, silent: 1},
	})
}
