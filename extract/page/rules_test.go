package page_test

import (
	"testing"

	"evidencevault/extract/page"
)

// TestRules: the lines that are drawn on a page are told as they are displayed, whatever they are drawn with; what is
// painted white, curved, or short is none.
func TestRules(t *testing.T) {
	for _, c := range []struct {
		name, drawn string
		rules       int
		one         [4]int // one of them
	}{
		{"a stroke", "1 w 100 700 m 300 700 l S", 1, [4]int{9900, 14100, 30100, 14300}},
		{"a thin rectangle", "100 700 200 1 re f", 1, [4]int{10000, 14100, 30000, 14200}},
		{"an outline", "100 600 200 50 re S", 4, [4]int{10000, 19200, 30000, 19200}},
		{"a shaded cell", "0.9 g 100 600 200 50 re f", 0, [4]int{}},
		{"a grey cell", "0.5 g 100 600 200 50 re f", 4, [4]int{10000, 19200, 10000, 24200}},
		{"lines of one path", "100 600 m 300 600 l 100 500 m 300 500 l S", 2, [4]int{10000, 34200, 30000, 34200}},
		{"moved and scaled", "q 2 0 0 2 50 100 cm 25 300 m 125 300 l 125 250 l S Q", 2, [4]int{10000, 14200, 30000, 14200}},
		{"a slope and a curve", "100 600 m 300 500 l S 100 600 m 150 700 250 700 300 600 c S", 0, [4]int{}},
		{"a tick", "100 600 m 103 600 l S", 0, [4]int{}},
	} {
		d := readBytes(t, reader(t), onePage(c.drawn+" BT /F 12 Tf 72 72 Td (A line of text) Tj ET"), page.Request{NoOCR: true})
		if len(d.Pages) != 1 || len(d.Pages[0].Rules) != c.rules {
			t.Errorf("%s: %+v, want %d rules", c.name, d.Pages, c.rules)
			continue
		}
		found := c.rules == 0
		for _, r := range d.Pages[0].Rules {
			near := true
			for k := range r {
				near = near && max(r[k]-c.one[k], c.one[k]-r[k]) <= 100
			}
			found = found || near
		}
		if !found {
			t.Errorf("%s: rules %v, none of which is %v", c.name, d.Pages[0].Rules, c.one)
		}
	}
}
