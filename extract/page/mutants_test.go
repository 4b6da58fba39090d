package page_test

import (
	"math/rand/v2"
	"os"
	"slices"
	"testing"
	"time"

	"evidencevault/extract/page"
)

// mutants makes n damaged copies of a document: cut off, bytes flipped, parts swapped.
func mutants(b []byte, n int, seed uint64) [][]byte {
	rnd := rand.New(rand.NewPCG(seed, 1))
	var all [][]byte
	for i := range n {
		m := slices.Clone(b)
		switch i % 3 {
		case 0:
			m = m[:rnd.IntN(len(m))]
		case 1:
			for range 1 + rnd.IntN(20) {
				m[rnd.IntN(len(m))] ^= byte(1 << rnd.IntN(8))
			}
		case 2:
			at, to, size := rnd.IntN(len(m)), rnd.IntN(len(m)), rnd.IntN(1+len(m)/8)
			copy(m[at:], slices.Clone(m[to:min(to+size, len(m))]))
		}
		all = append(all, m)
	}
	return all
}

func TestDamagedCopiesEndInTime(t *testing.T) {
	seed := uint64(time.Now().UnixNano())
	t.Logf("seed %d", seed)
	files := []string{"own/Oakhurst_cert_final.pdf", "own/completion.pdf", "hard/form-no-appearances-utf8.pdf", "hard/text-ligatures.pdf", "own/Arbeitszeugnis.docx", "own/acceptance.eml", "own/member-card.png"}
	ended := map[page.Trouble]int{}
	for _, f := range files {
		b, err := os.ReadFile("testdata/" + f)
		if err != nil {
			t.Fatal(err)
		}
		for i, m := range mutants(b, 45, seed) {
			start := time.Now()
			d := readBytes(t, reader(t), m, page.Request{NoOCR: true})
			ended[d.Trouble]++
			if took := time.Since(start); took > limit || (d.Trouble != page.None && d.Reason == "") {
				t.Errorf("seed %d, %s, mutant %d: %v, trouble %q, reason %q", seed, f, i, took, d.Trouble, d.Reason)
			}
		}
	}
	t.Logf("ended: %v", ended)
	nextReadsFine(t)
}
