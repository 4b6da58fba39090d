package page

import (
	"slices"
	"strconv"
	"strings"
)

// leastLines is of how many lines the slant must be known.
const leastLines = 4

// slantOf measures, in the table that tesseract prints of a picture so many pixels wide, by
// how much its lines fall to the right: hundredths of a point in 100 points, 0 where too few
// lines tell. A photograph taken at an angle keeps such a slant after it was set level by
// its edges. The middle one of all lines counts.
func slantOf(out string, width int) int {
	type foot struct{ x, y int }
	lines := map[string][]foot{}
	for _, row := range strings.Split(out, "\n") {
		cells := strings.Split(strings.TrimSuffix(row, "\r"), "\t")
		if len(cells) != 12 || cells[0] != "5" || len(cells[11]) < 2 || strings.ContainsAny(cells[11], "gjpqyQJ,;()[]/|_-–—.:*'\"") {
			continue
		}
		var n [4]int
		for i := range n {
			n[i], _ = strconv.Atoi(cells[6+i]) // a cell that is no number was refused before
		}
		key := strings.Join(cells[1:5], " ")
		lines[key] = append(lines[key], foot{n[0] + n[2]/2, n[1] + n[3]})
	}
	var slopes []int
	for _, f := range lines {
		slices.SortFunc(f, func(a, b foot) int { return a.x - b.x })
		if last := len(f) - 1; last > 0 && (f[last].x-f[0].x)*6 > width {
			slopes = append(slopes, (f[last].y-f[0].y)*10000/(f[last].x-f[0].x))
		}
	}
	if len(slopes) < leastLines {
		return 0
	}
	slices.Sort(slopes)
	if s := slopes[len(slopes)/2]; s > leastTilt && s < 500 || s < -leastTilt && s > -500 {
		return s
	}
	return 0
}
