package extract

import (
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// putRows lists the courses or events of a transcript.
func (l *look) putRows() {
	if l.kind != paper.Transcript {
		return
	}
	for _, r := range l.series {
		if r.total || r.absent || r.title == "" {
			continue
		}
		row := paper.Row{Title: strings.Trim(r.title, " |,;"), Credits: r.credits}
		row.Place, _, _ = l.place(r.at)
		for _, d := range r.days {
			if s := d.spans[0]; len(d.spans) == 1 {
				if row.Start.IsZero() || s.Start.Before(row.Start) {
					row.Start = s.Start
				}
				if row.End.IsZero() || s.End.After(row.End) {
					row.End = s.End
				}
			}
		}
		if r.minutes > 0 {
			row.Duration = new(r.minutes)
		}
		l.out.Rows = append(l.out.Rows, row)
	}
}

// transcriptTotal returns the stated total of a list, or the sum of its rows.
func (l *look) transcriptTotal(stated []timed) []timed {
	var sum credit.Minutes
	t := timed{level: 3}
	t.why, t.score, t.sure = "the rows add up to it", 70, len(l.lostRows()) == 0
	for _, r := range l.series {
		if !r.absent && r.minutes == 0 && !r.total && len(r.days) > 0 {
			t.sure = false // a length may have been missed
		}
		if r.absent || r.minutes == 0 {
			continue
		}
		if t.at == (at{}) {
			t.at = r.at
		}
		if r.total {
			total := timed{minutes: r.minutes, level: 5}
			total.guess = guess{text: minutesText(r.minutes), at: r.at, score: 85, why: "it is the sum that is stated", sure: sum == 0 || sum == r.minutes || !t.sure}
			return []timed{total}
		}
		sum += r.minutes
	}
	if sum > 0 {
		t.minutes, t.text = sum, minutesText(sum)
		stated = append(stated, t)
	}
	return l.wholeColumn(stated, sum)
}
