package extract_test

import (
	"path/filepath"
	"testing"
)

// TestThirdRound reads the papers in testdata/third, written blind by two hands in five
// languages. The first reading is in README.md; of the half "apart" only sums are taken.
func TestThirdRound(t *testing.T) {
	readRound(t, "third", 32, map[string]shares{
		"shown": {exact: 800, certain: 930},
		"apart": {exact: 755, certain: 950, silent: 1},
	})
}

// TestPapersFromAbroad reads the papers in testdata/abroad: French, Spanish and Dutch.
func TestPapersFromAbroad(t *testing.T) {
	b := readFolder(t, newKept(t), filepath.Join("testdata", "abroad"), 56)
	b.holdShares(t, shares{exact: 710, certain: 880, silent: 3})
	b.log(t, "abroad")
}

// TestPapersOfManyTrades reads the papers in testdata/trades: English and German.
func TestPapersOfManyTrades(t *testing.T) {
	b := readFolder(t, newKept(t), filepath.Join("testdata", "trades"), 56)
	b.holdShares(t, shares{exact: 850, certain: 950, silent: 3})
	b.log(t, "trades")
}

// TestFourthRound reads the papers in testdata/fourth, written blind by two hands, harder
// than those before. The first reading is in README.md; of the half "apart" only sums are taken.
func TestFourthRound(t *testing.T) {
	readRound(t, "fourth", 36, map[string]shares{
		"shown": {exact: 800, certain: 950, silent: 1},
		"apart": {exact: 750, certain: 920, silent: 1},
	})
}

// TestFifthRound reads the papers in testdata/fifth, written blind by three hands, in the
// same way.
func TestFifthRound(t *testing.T) {
	readRound(t, "fifth", 64, map[string]shares{
		"shown": {exact: 870, certain: 960, silent: 1},
		"apart": {exact: 765, certain: 915, silent: 1},
	})
}

// TestSixthRound reads the papers in testdata/sixth, written blind by two hands, in the same way.
func TestSixthRound(t *testing.T) {
	readRound(t, "sixth", 60, map[string]shares{
		"shown": {exact: 980, certain: 990, silent: 0},
		"apart": {exact: 815, certain: 965, silent: 3},
	})
}

// TestSeventhRound reads the papers in testdata/seventh, written blind by one hand, in the same way.
func TestSeventhRound(t *testing.T) {
	readRound(t, "seventh", 30, map[string]shares{
		"shown": {exact: 985, certain: 990, silent: 0},
		"apart": {exact: 925, certain: 985, silent: 1},
	})
}

// TestEighthRound reads the papers in testdata/eighth, crowded ones written blind by another hand.
func TestEighthRound(t *testing.T) {
	readRound(t, "eighth", 30, map[string]shares{
		"shown": {exact: 980, certain: 990, silent: 0},
		"apart": {exact: 835, certain: 935, silent: 0},
	})
}

// TestNinthRound reads the papers in testdata/ninth, ordinary ones written blind by one hand.
func TestNinthRound(t *testing.T) {
	readRound(t, "ninth", 27, map[string]shares{
		"shown": {exact: 960, certain: 990, silent: 0},
		"apart": {exact: 935, certain: 980, silent: 2},
	})
}

// TestTenthRound reads the papers in testdata/tenth, forms, tables, letters and pictures
// written blind by another hand.
func TestTenthRound(t *testing.T) {
	readRound(t, "tenth", 27, map[string]shares{
		"shown": {exact: 870, certain: 950, silent: 0},
		"apart": {exact: 875, certain: 940, silent: 1},
	})
}

// readRound reads both halves of a set, each of so many papers, and holds them against floors; what was
// mistaken is shown of one half only.
func readRound(t *testing.T, round string, count int, floors map[string]shares) {
	t.Helper()
	r := newKept(t)
	for half, floor := range floors {
		t.Run(half, func(t *testing.T) {
			b := readFolder(t, r, filepath.Join("testdata", round, half), count)
			b.holdShares(t, floor)
			if half == "shown" {
				b.log(t, half)
			}
		})
	}
}
