package credit

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Windows of several years in a row, each beginning a year after the one before:
// "rolling:3" of calendar years, "cycle_rolling:3" of years of the cycle.
const (
	perRolling      = "rolling:"
	perCycleRolling = "cycle_rolling:"
)

// maxRolling is the longest rolling window, in years.
const maxRolling = 100

// rolling returns how many years a rolling window has, and false if per is none.
func rolling(per string) (int, bool) {
	text, ok := strings.CutPrefix(per, perRolling)
	if !ok {
		text, ok = strings.CutPrefix(per, perCycleRolling)
	}
	n, err := strconv.Atoi(text)
	return n, ok && err == nil && n >= 1 && n <= maxRolling
}

// ofField reports whether per is a log field.
func ofField(per string) bool {
	return !slices.Contains(Windows(), per) && !strings.Contains(per, ":")
}

// ValidWindow reports whether per is a window that a cap can have: one of [Windows],
// "rolling:N" or "cycle_rolling:N" with N from 1 to 100, or the name of a log field.
func ValidWindow(per string) bool {
	if strings.Contains(per, ":") {
		_, ok := rolling(per)
		return ok
	}
	return per != ""
}

// ValidNeedWindow reports whether per is a window in which a minimum can be asked:
// cycle, year, cycle_year, or a rolling one.
func ValidNeedWindow(per string) bool {
	_, ok := rolling(per)
	return ok || per == "" || per == PerCycle || per == PerYear || per == PerCycleYear
}

// ValidWindowLabel reports whether label names one window of per, as in "2024" for year,
// "year 1" for cycle_year, "2024 to 2026" for rolling:3, "year 1 to 3" for
// cycle_rolling:3.
func ValidWindowLabel(per, label string) bool {
	text := label
	if per == PerCycleYear || strings.HasPrefix(per, perCycleRolling) {
		var ok bool
		if text, ok = strings.CutPrefix(label, "year "); !ok {
			return false
		}
	}
	first, last, to := strings.Cut(text, " to ")
	from, err := strconv.Atoi(first)
	if err != nil || from < 1 || strconv.Itoa(from) != first {
		return false
	}
	n, ok := rolling(per)
	return !ok && !to || ok && (n == 1 && !to || last == strconv.Itoa(from+n-1))
}

// byCycle reports whether the years of per are those of the cycle.
func (c *calculation) byCycle(per string) bool {
	return (per == PerCycleYear || strings.HasPrefix(per, perCycleRolling)) && !c.cycle.Start.IsZero()
}

// yearFor is the year of per that holds d: counted from 1 in the cycle, else of the
// calendar.
func (c *calculation) yearFor(per string, d Date) int {
	if c.byCycle(per) {
		return c.cycle.yearOf(d) + 1
	}
	y, _, _ := d.YMD()
	return y
}

// rollingLabel names the window of n years of per that begins with the year from.
func (c *calculation) rollingLabel(per string, from, n int) string {
	label := strconv.Itoa(from)
	if n > 1 {
		label = fmt.Sprintf("%d to %d", from, from+n-1)
	}
	if c.byCycle(per) {
		return "year " + label
	}
	return label
}

// rollingWindows are the windows of n years in which d lies.
func (c *calculation) rollingWindows(per string, n int, d Date) []string {
	if d.IsZero() {
		return nil
	}
	y := c.yearFor(per, d)
	var list []string
	for from := y - n + 1; from <= y; from++ {
		list = append(list, c.rollingLabel(per, from, n))
	}
	return list
}

// testedWindows are the windows of n years that a minimum looks at when it names none:
// those that end in the cycle and begin no earlier than claims are accepted; if the
// cycle is too short for one, the one that ends with it.
func (c *calculation) testedWindows(per string, n int) []string {
	first, last, ok := c.spanOfYears(per)
	if !ok {
		return nil
	}
	var list []string
	for from := first; from+n-1 <= last; from++ {
		if from+n-1 >= c.yearFor(per, c.cycleStart(first, per)) {
			list = append(list, c.rollingLabel(per, from, n))
		}
	}
	if len(list) == 0 {
		list = []string{c.rollingLabel(per, last-n+1, n)}
	}
	return list
}

// cycleStart is the first day of the cycle; without a cycle, a day of the year first.
func (c *calculation) cycleStart(first int, per string) Date {
	if c.cycle.Start.IsZero() {
		return Day(first, 1, 1)
	}
	return c.cycle.Start
}

// spanOfYears are the first and the last year of per in which claims are accepted;
// without a cycle, in which there are some.
func (c *calculation) spanOfYears(per string) (first, last int, ok bool) {
	if !c.window.Start.IsZero() && !c.window.End.IsZero() {
		return c.yearFor(per, c.window.Start), c.yearFor(per, c.window.End), true
	}
	for i := range c.entries {
		if d := c.entries[i].placed; !d.IsZero() {
			y := c.yearFor(per, d)
			if !ok || y < first {
				first = y
			}
			if !ok || y > last {
				last = y
			}
			ok = true
		}
	}
	return first, last, ok
}

// leavingWindows lists, for each minimum over rolling windows, what falls out of its
// window at each turn of the year within the cycle and on the day after it.
func (c *calculation) leavingWindows() {
	for _, m := range c.scheme.Minimums {
		n, ok := rolling(m.Per)
		if !ok || !c.input.Facts.Holds(m.If) || !m.Begun.Holds(c.cycle.Start) {
			continue
		}
		sums := map[int]Amount{}
		var years []int
		for i := range c.entries {
			e := &c.entries[i]
			if e.counted.Sign() == 0 || e.placed.IsZero() || e.carried && !m.Carried || !m.Selection.Holds(e.Claim) {
				continue
			}
			y := c.yearFor(m.Per, e.placed)
			if _, ok := sums[y]; !ok {
				years = append(years, y)
			}
			sums[y] = sums[y].Add(e.counted)
		}
		slices.Sort(years)
		for _, y := range years {
			day := Day(y+n, 1, 1)
			if c.byCycle(m.Per) {
				day = c.cycle.Start.AddYears(y + n - 1)
			}
			if !day.IsZero() {
				c.st.Leaving = append(c.st.Leaving, Leaving{Date: day, Amount: sums[y], Minimum: m.ID})
			}
		}
	}
	slices.SortStableFunc(c.st.Leaving, func(a, b Leaving) int { return a.Date.Compare(b.Date) })
}
