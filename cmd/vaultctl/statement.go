package main

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/journal"
)

// mostLines bounds how many cuts the standing tells; explain tells all.
const mostLines = 12

// printStatement prints a standing as someone with a deadline reads it: first what is
// missing and by when, then where the credit came from, what was cut and why, the
// minimums, the deadlines.
func (a *app) printStatement(s credit.Statement) {
	first := s.Summary()
	if s.Certification != "" {
		first = s.Certification + ": " + first
	}
	a.say(first + ".")
	a.say(counted(s))
	a.printf("\n")
	a.printCategories(s)
	a.printCuts(s)
	a.printMinimums(s)
	a.printCarry(s)
	a.printDeadlines(s)
	a.printChanged(s)
}

// printChanged says what the rules of another version than that of the cycle's
// beginning make of it.
func (a *app) printChanged(s credit.Statement) {
	if s.Changed == nil {
		return
	}
	a.printf("\nVersion %s of the rules since %s; the cycle began under %s\n", safe(s.Changed.To), s.Changed.Day.Words(), safe(s.Changed.From))
	for i, line := range s.Changed.Lines {
		if i == mostLines && len(s.Changed.Lines) > mostLines+1 {
			a.say(fmt.Sprintf("  and %d more lines; standing --json has them all", len(s.Changed.Lines)-i))
			return
		}
		a.say("  " + line)
	}
}

// counted is the second line: how much, of how much, when, in which cycle.
func counted(s credit.Statement) string {
	text := credit.Quantity(s.Counted, s.Unit) + " counted"
	if s.HasTarget {
		text = fmt.Sprintf("%v of %s counted", s.Counted, credit.Quantity(s.Target, s.Unit))
	}
	if !s.On.IsZero() {
		text += " on " + s.On.Words()
	}
	text += ", scheme " + s.Scheme
	if !s.Cycle.Start.IsZero() {
		text += ", cycle from " + s.Cycle.Start.Words()
	}
	if !s.Cycle.End.IsZero() {
		text += " to " + s.Cycle.End.Words()
	}
	return text
}

// printCategories prints a row for each category with an award, and names the others
// below.
func (a *app) printCategories(s credit.Statement) {
	var rows [][]string
	var empty []string
	capped := false
	for _, c := range s.Categories {
		capped = capped || c.Cap != nil
	}
	for _, c := range s.Categories {
		limit, room := "", ""
		if c.Cap != nil {
			limit, room = c.Cap.String(), credit.Amount{}.Max(c.Cap.Sub(c.Counted)).String()
		}
		if c.Awarded.Sign() == 0 && c.Counted.Sign() == 0 {
			if limit != "" {
				limit = " (" + limit + ")"
			}
			empty = append(empty, c.ID+limit)
			continue
		}
		rows = append(rows, []string{c.ID, c.Awarded.String(), c.Counted.String(), limit, room})
	}
	columns := []column{{head: "category", most: 40}, {head: "awarded", number: true}, {head: "counted", number: true}, {head: "at most", number: true}, {head: "room", number: true}}
	if !capped {
		columns = columns[:3]
		for i := range rows {
			rows[i] = rows[i][:3]
		}
	}
	if len(rows) > 0 {
		a.table(columns, rows)
	}
	if len(empty) > 0 {
		what := "Nothing yet in "
		if capped {
			what = "Nothing yet in, with the most that counts: "
		}
		a.say(what + strings.Join(empty, ", "))
	}
}

func (a *app) printCuts(s credit.Statement) {
	lines := s.CutLines()
	if len(lines) == 0 {
		return
	}
	a.printf("\nCut by a cap\n")
	for i, line := range lines {
		if i == mostLines && len(lines) > mostLines+1 {
			a.say(fmt.Sprintf("  and %d more claims; explain --all tells them", len(lines)-i))
			return
		}
		a.say("  " + line)
	}
}

func (a *app) printMinimums(s credit.Statement) {
	if len(s.Minimums) == 0 {
		return
	}
	a.printf("\n")
	var rows [][]string
	for _, m := range s.Minimums {
		state := "met"
		if !m.Met {
			state = m.Want.Sub(m.Have).String() + " missing"
		}
		rows = append(rows, []string{m.ID, m.Want.String(), m.Have.String(), state})
	}
	a.table([]column{{head: "minimum", most: 40}, {head: "asked", number: true}, {head: "there", number: true}, {head: ""}}, rows)
}

// printCarry says what came from the cycle before, what may go on, and what stops
// counting.
func (a *app) printCarry(s credit.Statement) {
	var lines []string
	if s.CarryIn.Sign() > 0 {
		lines = append(lines, fmt.Sprintf("%s of the total %s carried in from the cycle before", credit.Quantity(s.CarryIn, s.Unit), isOrAre(s.CarryIn)))
	}
	if s.CarryOut.Sign() > 0 {
		lines = append(lines, fmt.Sprintf("%s may pass into the next cycle if this one closed so", credit.Quantity(s.CarryOut, s.Unit)))
	}
	for _, l := range s.Leaving {
		lines = append(lines, fmt.Sprintf("%s: %s %s counting (%s)", l.Date, credit.Quantity(l.Amount, s.Unit), stops(l.Amount), s.InDays(l.Date)))
	}
	if len(lines) > 0 {
		a.printf("\n")
	}
	for _, line := range lines {
		a.say(line)
	}
}

func isOrAre(n credit.Amount) string {
	if n.Equal(credit.Whole(1)) {
		return "is"
	}
	return "are"
}

func stops(n credit.Amount) string {
	if n.Equal(credit.Whole(1)) {
		return "stops"
	}
	return "stop"
}

func (a *app) printDeadlines(s credit.Statement) {
	var rows [][]string
	for _, d := range s.InOrder() {
		rows = append(rows, []string{d.Date.String(), d.What, s.InDays(d.Date)})
	}
	if len(rows) > 0 {
		a.printf("\n")
		a.table([]column{{head: "by"}, {head: "what", most: 60}, {head: ""}}, rows)
	}
}

// printNext says what a person can do now: earn what is missing, at which pace, and
// answer the papers that wait.
func (a *app) printNext(ctx context.Context, j *journal.Journal, list []credit.Statement) error {
	lines, err := a.endLines(ctx, j, list)
	if err != nil {
		return err
	}
	for _, s := range list {
		left, ok := s.DaysLeft()
		if !ok || left < 0 || s.Meets || s.Missing.Sign() == 0 || s.On.Before(s.Cycle.Start) {
			continue
		}
		weeks := credit.Fraction(int64(left+1), 7)
		pace := s.Missing.Div(weeks).Up(credit.Fraction(1, 100))
		lines = append(lines, fmt.Sprintf("earn %s for %s by %s: some %v a week", credit.Quantity(s.Missing, s.Unit), s.Certification, s.Cycle.End.Words(), pace))
	}
	for _, w := range []struct{ state, one, many, how string }{
		{catalog.Waiting, "paper waits", "papers wait", "vaultctl waiting"},
		{catalog.Unread, "paper was not read", "papers were not read", "vaultctl waiting says why"},
	} {
		papers, err := j.Catalog().Papers(ctx, w.state)
		if err != nil {
			return err
		}
		if len(papers) > 0 {
			lines = append(lines, count(len(papers), w.one, w.many)+": "+w.how)
		}
	}
	if len(lines) > 0 {
		a.printf("\nNext\n")
	}
	for _, line := range lines {
		a.say("  " + line)
	}
	return nil
}

// wrap breaks a line into parts of at most width columns, at blanks. Parts after the
// first stand two columns further in than the first. 0 is no limit.
func wrap(line string, width int) []string {
	if width <= 0 || displayed(line) <= width {
		return []string{line}
	}
	indent := line[:len(line)-len(strings.TrimLeft(line, " "))]
	part, parts := indent, []string{}
	hang := indent + "  "
	for word := range strings.SplitSeq(line[len(indent):], " ") {
		empty := strings.TrimSpace(part) == ""
		if !empty && displayed(part)+1+displayed(word) > width {
			parts, part, empty = append(parts, strings.TrimRight(part, " ")), hang, true
		}
		if !empty {
			part += " "
		}
		part += word
	}
	return slices.DeleteFunc(append(parts, strings.TrimRight(part, " ")), func(p string) bool { return p == "" })
}
