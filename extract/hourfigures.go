package extract

import (
	"slices"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/find"
)

// A line may give several bare numbers of hours, each behind the word that says what it is of: "Course
// hours: 10. Hours attended: 7." or "Sollstunden 8, Iststunden 6".

// hourFigure is such a number: what it is of in one of the first three groups (planned, attended,
// missed), and the number in the fourth.
var hourFigure = matching(`(?:^|[\s(,;.–-])(?:` +
	`((?:total|course|scheduled|planned|programme|programmed) hours|hours (?:scheduled|planned|offered|in total|of the course)|(?:gesamt|soll|kurs|plan|lehrgangs)stunden|(?:geplante|vorgesehene|angebotene) stunden|(?:nombre d')?heures (?:prevues|programmees|totales|du stage)|horas (?:previstas|totales|programadas|ofertadas|del curso)|(?:geplande|totale|aangeboden) uren|(?:cursus|plan)uren)|` +
	`(hours (?:attended|present|completed)|attended hours|(?:ist|anwesenheits|teilnahme)stunden|davon (?:anwesend|besucht|teilgenommen)|(?:besuchte|geleistete|absolvierte) stunden|heures (?:suivies|effectuees|realisees|de presence)|horas (?:cursadas|asistidas|realizadas|cumplidas|de asistencia)|(?:gevolgde|bijgewoonde) uren|(?:uren )?(?:waarvan|daarvan) (?:gevolgd|bijgewoond|aanwezig))|` +
	`(hours (?:missed|absent|of absence)|(?:fehl|ausfall)stunden|davon (?:gefehlt|versaumt|fehlend)|heures d'absence|horas de ausencia|horas no asistidas|(?:verzuimde|gemiste) uren|verzuimuren))` +
	` ?[:=]? ?(\d{1,3}(?:[.,]\d{1,2})?)(?:$|[\s.,;)–-])`)

// hourFigures puts down the hours attended of a line that gives them beside those planned or missed, in
// the place of what else was found there.
func (l *look) hourFigures() {
	for i, text := range l.folded {
		var said [4]credit.Minutes
		n := 0
		for rest := text; ; {
			m := hourFigure.FindStringSubmatchIndex(rest)
			if m == nil {
				break
			}
			for k := 1; k < 4; k++ {
				if m[2*k] >= 0 {
					said[k], _ = wholeMinutes(amount(strings.ReplaceAll(rest[m[8]:m[9]], ",", ".")).Mul(credit.Whole(60)))
					n++
				}
			}
			rest = rest[m[9]:]
		}
		been := said[2]
		if been == 0 && said[3] < said[1] && said[3] > 0 {
			been = said[1] - said[3]
		}
		if n < 2 || been <= 0 || said[1] > 0 && been > said[1] {
			continue
		}
		here := l.passageAt(i)
		l.lengths = slices.DeleteFunc(l.lengths, func(h lengthHit) bool { return h.at.inside(here) })
		d := find.Duration{Unit: find.Hour, Minutes: been, Count: credit.Fraction(int64(been), 60)}
		l.lengths = append(l.lengths, lengthHit{at: here, length: d, role: isAttended})
	}
}
