package extract

// A course that is held over weeks has as many days as the paper counts: "on four Mondays, from 12
// January to 2 February, in sessions of two hours each".

var (
	// occasions counts the days, evenings or sessions of a passage.
	occasions = matching(`(?:^|[\s(])(\d{1,2}|\p{L}{3,12}) (?:(?:consecutive|weekly|full|whole|ganzen|vollen|aufeinanderfolgenden|wochentlichen|volle|hele|opeenvolgende|wekelijkse) )?(?:` +
		`(?:mon|tues|wednes|thurs|fri|satur|sun)days|(?:week)?(?:evenings|mornings|afternoons|sessions|meetings|classes)|` +
		`(?:mon|diens|donners|frei|sams|sonn)tage?n?|mittwochen?|sonnabende?n?|(?:kurs|seminar|unterrichts)?(?:abende?n?|nachmittage?n?|vormittage?n?|termine?n?|sitzungen)|` +
		`lundis|mardis|mercredis|jeudis|vendredis|samedis|dimanches|soirs|soirees|matins|matinees|apres-midi|seances|` +
		`lunes|martes|miercoles|jueves|viernes|sabados|domingos|tardes|mananas|noches|sesiones|` +
		`(?:maan|dins|woens|donder|vrij|zater|zon)dagen|(?:cursus|les)?(?:avonden|middagen|ochtenden|bijeenkomsten|lessen))\b`)
	// countedDays counts plain days, behind a word by which the event was held on them.
	countedDays = matching(`\b(?:on|over|an|uber|verteilt auf|sur|pendant|en|durante|op|verdeeld over|gedurende) (\d{1,2}|\p{L}{3,12}) (?:separate |full |ganzen |einzelnen |vollen |aparte |hele )?(?:days|tagen|jours|journees|dias|jornadas|dagen)\b`)
)

// occasionsOf returns how many days or sessions a passage counts; 0 where it does not, or counts
// several things.
func (l *look) occasionsOf(passage int) int {
	count := 0
	for _, p := range []*pattern{occasions, countedDays} {
		for _, m := range p.FindAllStringSubmatch(l.folded[passage], -1) {
			n := numberOf(m[1])
			if n < 2 || n == count {
				continue
			}
			if count > 0 || n > 60 {
				return 0
			}
			count = n
		}
	}
	return count
}
