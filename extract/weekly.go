package extract

import (
	"strconv"

	"evidencevault/credit"
	"evidencevault/extract/find"
)

// behindWeekly stands right behind a length that is one week's.
var behindWeekly = matching(`^ ?(?:weekly|wochentlich|hebdomadaires?|semanales|wekelijks|(?:(?:per|a|each|every|pro|par|por|a la|je|in der|/) ?)(?:week|woche|semaine|semana)\b)`)

// weeklyAhead ends in front of a length that is one week's: "die Lernzeit betrug wöchentlich".
var weeklyAhead = matching(`\b(?:weekly|(?:per|a|each|every|pro|par|por|je) (?:week|woche|semaine|semana)|wochentlich|hebdomadaires?|semanal(?:es|mente)?|wekelijks)(?: (?:about|around|some|etwa|rund|ca\.?|environ|unas?|unos|ongeveer|circa|for|de|von))? ?$`)

// weekly multiplies the time of a week by the weeks that the paper counts: "6 semaines, 2 à
// 3 heures par semaine" is one of two lengths, in minutes. Where it counts no weeks, or
// gives two counts, there is none.
func (l *look) weekly() []timed {
	weeks := l.weekCount()
	if weeks == 0 {
		return nil
	}
	var out []timed
	for _, h := range l.lengths {
		d := h.length
		before, after := l.around(h.at)
		if !d.PerWeek && !weeklyAhead.MatchString(before) || d.Break || d.Unit != find.Hour && d.Unit != find.Minute || !behindWeekly.MatchString(after) && !weeklyAhead.MatchString(before) {
			continue
		}
		if h.role == isBreak || h.role == isLeftOut || leftOutWord.MatchString(weeklyAhead.ReplaceAllString(tail(before, 36), "")+" ") {
			continue
		}
		t := timed{minutes: d.Minutes * weeks, level: 1}
		for _, m := range d.Candidates {
			t.open = append(t.open, m*weeks)
		}
		if t.minutes == 0 && len(t.open) == 0 {
			continue
		}
		t.guess = guess{text: strconv.FormatInt(int64(t.minutes), 10), at: h.at, score: 70, why: "the weeks times the time of one", sure: true}
		if been, of := l.attendedCount(); of == int(weeks) && been > 0 && been < of && t.minutes > 0 {
			t.minutes, t.level = d.Minutes*credit.Minutes(been), 5
			t.text, t.why = strconv.FormatInt(int64(t.minutes), 10), "the sessions attended times the time of one"
		}
		out = append(out, t)
	}
	return out
}

// weekCount is the one whole number of weeks that the paper names, or 0.
func (l *look) weekCount() credit.Minutes {
	var weeks credit.Minutes
	for _, h := range l.lengths {
		if h.length.Unit != find.Week || h.length.PerWeek {
			continue
		}
		n, err := strconv.ParseInt(h.length.Count.String(), 10, 16)
		if err != nil || n <= 0 || weeks != 0 && weeks != credit.Minutes(n) {
			return 0
		}
		weeks = credit.Minutes(n)
	}
	return weeks
}
