package extract_test

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"evidencevault/extract/page"
)

// rounds are the sets of papers that were written blind, each of so many papers in either half, with
// the floors of both. The first reading is in the README.md of each; of the half "apart" only
// sums are taken.
var rounds = []struct {
	name         string
	count        int
	shown, apart shares
	older        bool // its pictures are recognised with WHOLE only, as those of the half "apart" are
}{
	{"third", 32, shares{exact: 800, certain: 930}, shares{exact: 755, certain: 950, silent: 1}, true},             // two hands, five languages
	{"fourth", 36, shares{exact: 800, certain: 950, silent: 1}, shares{exact: 750, certain: 920, silent: 1}, true}, // two hands, harder
	{"fifth", 64, shares{exact: 870, certain: 960, silent: 1}, shares{exact: 765, certain: 915, silent: 1}, true},  // three hands
	{"sixth", 60, shares{exact: 980, certain: 990}, shares{exact: 815, certain: 965, silent: 3}, true},             // two hands
	{"seventh", 30, shares{exact: 985, certain: 990}, shares{exact: 925, certain: 985, silent: 1}, true},           // one hand
	{"eighth", 30, shares{exact: 980, certain: 990}, shares{exact: 835, certain: 935}, true},                       // crowded ones
	{"ninth", 27, shares{exact: 960, certain: 990}, shares{exact: 935, certain: 980, silent: 2}, true},             // ordinary ones
	{"tenth", 27, shares{exact: 870, certain: 950}, shares{exact: 875, certain: 940, silent: 1}, false},            // forms, tables, letters and pictures
	{"eleventh", 32, shares{exact: 985, certain: 990}, shares{exact: 945, certain: 980}, false},                    // as the corpus has them
	{"twelfth", 28, shares{exact: 960, certain: 990}, shares{exact: 820, certain: 935, silent: 2}, true},           // forms, lists and pictures, as the corpus has them
	{"fourteenth", 60, shares{exact: 900, certain: 988}, shares{exact: 828, certain: 955}, false},                  // times, credits and layouts
	{"sixteenth", 36, shares{exact: 915, certain: 980}, shares{exact: 915, certain: 945, silent: 1}, false},        // ordinary and hard ones
	{"fifteenth", 32, shares{exact: 880, certain: 965}, shares{exact: 908, certain: 965}, false},                   // as the corpus has them
}

// TestBlindRounds reads each of the rounds. The pictures of older ones, and of the halves "apart", are
// recognised with WHOLE only, as "make report" does: it takes minutes.
func TestBlindRounds(t *testing.T) {
	for _, r := range rounds {
		t.Run(r.name, func(t *testing.T) {
			for half, floor := range map[string]shares{"shown": r.shown, "apart": r.apart} {
				var read pages = newKept(t)
				if (r.older || half == "apart") && os.Getenv("WHOLE") == "" {
					read = newWritten(t)
				}
				readHalf(t, read, r.name, half, r.count, floor)
			}
		})
	}
}

// readRound reads both halves of a set, each of so many papers, and holds them against floors.
func readRound(t *testing.T, round string, count int, floors map[string]shares) {
	t.Helper()
	r := newKept(t)
	for half, floor := range floors {
		readHalf(t, r, round, half, count, floor)
	}
}

// readHalf reads one half of a set; what was mistaken is shown of the half "shown" only.
func readHalf(t *testing.T, r pages, round, half string, count int, floor shares) {
	t.Helper()
	t.Run(half, func(t *testing.T) {
		b := readFolder(t, r, filepath.Join("testdata", round, half), count)
		b.holdShares(t, floor)
		if half == "shown" {
			b.log(t, half)
		}
	})
}

// written reads documents that have their letters, and of those that are pictures says so.
type written struct{ *page.Reader }

// errPicture says that a document was passed over because its letters would have to be recognised.
var errPicture = errors.New("its letters would have to be recognised")

// newWritten returns such a reader: it knows no program that recognises letters.
func newWritten(t *testing.T) written {
	t.Helper()
	w := written{page.NewReader(page.Options{Pool: 2, Timeout: 2 * time.Minute, Tesseract: filepath.Join(t.TempDir(), "none")})}
	t.Cleanup(func() {
		if err := w.Close(); err != nil {
			t.Error(err)
		}
	})
	return w
}

func (w written) Read(ctx context.Context, src io.Reader, q page.Request) (page.Document, error) {
	doc, err := w.Reader.Read(ctx, src, q)
	if err == nil && strings.Contains(doc.Reason, "tesseract") {
		return page.Document{}, errPicture
	}
	return doc, err
}

// TestPapersFromAbroad reads the papers in testdata/abroad: French, Spanish and Dutch.
func TestPapersFromAbroad(t *testing.T) {
	b := readFolder(t, newKept(t), filepath.Join("testdata", "abroad"), 56)
	b.holdShares(t, shares{exact: 710, certain: 880, silent: 3})
	b.log(t, "abroad")
}

// TestHardSets reads the sets of papers that are hard in one thing each, or made of something else; those
// that are pictures with WHOLE only.
func TestHardSets(t *testing.T) {
	type hard struct {
		name  string
		count int
		floor shares
	}
	sets := []hard{
		{"toldtimes", 60, shares{exact: 925, certain: 990}},
		{"letterheads", 70, shares{exact: 905, certain: 985}},
		{"layouts", 60, shares{exact: 920, certain: 990}},    // of four producers
		{"asking", 64, shares{exact: 940, certain: 990}},     // half of them must be asked about
		{"otherfiles", 60, shares{exact: 920, certain: 985}}, // no PDF among them
	}
	if os.Getenv("WHOLE") != "" {
		sets = append(sets, hard{"photographs", 14, shares{exact: 640, certain: 920}})
	}
	for _, set := range sets {
		t.Run(set.name, func(t *testing.T) {
			b := readFolder(t, newKept(t), filepath.Join("testdata", set.name), set.count)
			b.holdShares(t, set.floor)
			b.log(t, set.name)
		})
	}
}

// TestPapersOfManyTrades reads the papers in testdata/trades: English and German.
func TestPapersOfManyTrades(t *testing.T) {
	b := readFolder(t, newKept(t), filepath.Join("testdata", "trades"), 56)
	b.holdShares(t, shares{exact: 850, certain: 950, silent: 3})
	b.log(t, "trades")
}
