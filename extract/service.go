package extract

import (
	"slices"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

// When somebody came and left is told in sentences ("joined this practice as a technician on", "her
// last working day was"), and on forms in a table of the posts held.

// enteredBefore stands, with who came and as what, before the day on which an employment began.
var enteredBefore = matching(`\b(?:joined|entered (?:our|the|this|into)|took up (?:\w+ ){0,2}(?:duties|post|position|work|service|employment|appointment)|(?:came to|started|began|commenced)(?: to)? (?:us|work\w*|with|here|at|employment|service|duties|as|in)|on (?:the|our) (?:staff|payroll) since|` +
	`trat\b[^.;]{0,60}|eingetreten|begann\b|nahm\b[^.;]{0,40}\b(?:arbeit|dienst|tatigkeit)\b[^.;]{0,10}|kam zu uns|` +
	`entree?|integre|rejoint|a pris ses fonctions|a debute|a commence|pris son service|` +
	`se incorporo|incorporad[oa]|entro a|comenzo|empezo|inicio (?:sus|su) \w+|tomo posesion|ingreso|` +
	`trad\b[^.;]{0,40}|in dienst getreden|kwam\b[^.;]{0,30}|begon\b|gestart|aan het werk gegaan)\b[^.;:]{0,90}$`)

// lastWorkday is what stands before the last day at work.
const lastWorkday = `(?:last|final) (?:working )?day(?: of (?:work|service|employment|duty))?(?: (?:with us|here|at work|in the office|worked))?,?(?: was| being| is| fell on)?|letzter (?:arbeits|dienst)tag(?: bei uns)?(?: war(?: der)?| ist(?: der)?)?|dernier jour (?:de travail|de presence|travaille|d'activite)(?: parmi nous)?(?: a ete| etait| fut| est)?|ultimo dia (?:de trabajo|trabajado|laborable|de servicio)(?: con nosotros)?(?: fue| es)?|laatste (?:werkdag|dienstdag)(?: bij ons)?(?: was| is| viel op)?`

// enteredOn reports the day on which a sentence says that somebody came.
func (l *look) enteredOn(d day) bool {
	text := l.passages[d.at.passage].text
	before := fold(tail(text[max(0, l.lastDayBefore(d.at)):d.at.span.From], 150))
	return d.label == "" && enteredBefore.MatchString(lastSentence(before))
}

// postColumns returns the first and the last day of an employment from a table of posts with a
// column for each: the earliest beginning, and the end of the post that began last, if it has one.
func (l *look) postColumns() (start, end *pick) {
	var latest credit.Date
	for _, t := range l.tables {
		from, to := slices.Index(t.roles, isStart), slices.Index(t.roles, isEnd)
		if from < 0 || to < 0 {
			continue
		}
		for _, line := range t.lines {
			s := l.dayInCells(line[from])
			if s == nil {
				continue
			}
			if first := starts(*s); start == nil || first.days[0].Before(start.days[0]) {
				start = &first
			}
			if latest.Before(s.spans[0].Start) {
				latest, end = s.spans[0].Start, nil
				if e := l.dayInCells(line[to]); e != nil {
					last := ends(*e)
					end = &last
				}
			}
		}
	}
	return start, end
}

// dayInCells returns the one day that cells of a column hold.
func (l *look) dayInCells(cells []int) *day {
	days := l.daysIn(cells)
	if len(days) != 1 || !days[0].single || days[0].lack != find.Whole || len(days[0].spans) == 0 {
		return nil
	}
	return &days[0]
}

// columnDays gives a day of a table the role of its column where that says when something began,
// ended, or what else the day is, and nothing nearer does.
func (l *look) columnDays() {
	for _, t := range l.tables {
		for k, r := range t.roles {
			if r != isStart && r != isEnd && r != isOther && r != isExam {
				continue
			}
			for _, line := range t.lines {
				for i := range l.days {
					if d := &l.days[i]; (d.role == noRole || r == isOther && d.label == "") && d.lack == find.Whole && slices.Contains(line[k], l.cellAt(d.at)) {
						d.role, d.sure, d.label = r, true, fold(l.cells[t.head[k]].text)
					}
				}
			}
		}
	}
}

// paidEvent returns the day of what the words before it say that money was given for, though its
// sentence speaks of receiving or paying.
func (l *look) paidEvent() (start, end *pick) {
	for _, d := range l.days {
		if d.role != isOther && d.role != isPaid && d.role != noRole || d.lack != find.Whole || len(d.spans) == 0 {
			continue
		}
		text := l.passages[d.at.passage].text
		if eventFor.MatchString(fold(tail(text[max(0, l.lastDayBefore(d.at)):d.at.span.From], 120))) {
			s, e := starts(d), ends(d)
			s.sure, e.sure = false, false
			return &s, &e
		}
	}
	return nil, nil
}

// eventFor ends in front of the day of a course that was paid for.
var eventFor = matching(`\b(?:for|fur|pour|para|por|voor)\b[^.;]{0,60}\b(?:course|seminar|workshop|webinar|conference|training|class|lecture|study day|\w*day|evenings?|\w*kurs|\w*seminar|lehrgang|\w*tagung|schulung|formation|stage|atelier|colloque|journee|curso|taller|jornada|seminario|congreso|cursus|studiedag|opleiding|training)\b[^.;]{0,60}[ ,(](?:on|of|am|vom|le|du|el|del|op|van)?(?: the| dia)? ?$`)

// beneathTitle returns the day in the line of what was paid for or in the one beneath it, where
// nothing says that it is another.
func (l *look) beneathTitle() (start, end *pick) {
	v, ok := l.out.Values[paper.FieldTitle]
	if !ok || v.Text == "" {
		return nil, nil
	}
	for i, p := range l.passages {
		if !strings.Contains(fold(p.text), fold(v.Text)) {
			continue
		}
		for _, d := range l.daysOf(noRole, isEvent) {
			if n := d.at.passage - i; n >= 0 && n < 4 && d.lack == find.Whole && len(d.spans) > 0 && !d.open && !d.alone {
				s, e := starts(d), ends(d)
				s.sure, e.sure = false, false
				return &s, &e
			}
		}
	}
	return nil, nil
}
