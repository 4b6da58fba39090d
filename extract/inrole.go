package extract

import (
	"strings"

	"evidencevault/extract/paper"
)

// A form may ask as what somebody took part, and a box or a word answers: "This person took part as
// (mark one only): Instructor". The answer tells the kind of the paper.

var (
	// roleAsked ends a question as what somebody took part.
	roleAsked = matching(`(?:^|\b(?:took|taken|takes) part |\b(?:participated|attended|acted|present|there|registered|registriert|anwesend|teilgenommen|mitgewirkt|tatig|participe|participo|intervenue?|intervino|asistio|aanwezig|deelgenomen|nam deel|deel) )(?:as|als|en tant que|comme|como|en calidad de)(?: an?)?$|\b(?:in the (?:role|capacity) of|in der (?:rolle|eigenschaft|funktion) (?:als|von|eine[rs])|en qualite de|en calidad de|in de (?:rol|hoedanigheid) van)$|^(?:role|part|capacity) (?:at|in) the (?:event|course|meeting|session)$|^(?:rolle|funktion) bei der (?:veranstaltung|sitzung)$|^(?:role|qualite) (?:lors de|pendant) (?:la|l')\S*$|^(?:papel|calidad) en (?:el|la) \S+$|^(?:rol|hoedanigheid) (?:bij|tijdens) (?:de|het) \S+$`)
	// ledIn and heardIn are the answers.
	ledIn   = whole(`(?:guest |visiting |lead |co-)?(?:instructor|trainer|tutor|teacher|lecturer|speaker|presenter|facilitator|faculty|examiner|assessor)|(?:gast)?(?:dozent|referent|trainer|lehrkraft|ausbilder|kursleiter|kursleitung|vortragende[rn]?|prufer)(?:in|/in|:in)?|format(?:eur|rice)|intervenante?|animat(?:eur|rice)|enseignante?|confer(?:encier|enciere)|orat(?:eur|rice)|ponente|docente|profesora?|instructora?|formadora?|conferenciante|(?:gast)?(?:docent|spreker|opleider|inleider)e?|cursusleid(?:er|ster)`)
	heardIn = whole(`participante?s?|attendee|delegate|listener|learner|teilnehm(?:er|erin|ende|ender|er/in)|(?:zu)?horer(?:in)?|stagiaire|audit(?:eur|rice)|asistente|alumn[oa]|oyente|deelnem(?:er|ster)|cursist|toehoorder`)
)

// weighRole gives the paper to those who led or to those who took part where a form says which it was.
func (w *scales) weighRole() {
	for i, text := range w.folded {
		asked := strings.TrimSpace(strings.Trim(withoutBrackets(text), " :"))
		answer := ""
		for _, p := range w.pairs {
			if roleAsked.MatchString(strings.TrimSpace(withoutBrackets(p.label))) && p.value.passage == i {
				answer = fold(w.text(p.value))
			}
		}
		if answer == "" && i+1 < len(w.folded) && roleAsked.MatchString(asked) {
			answer = w.folded[i+1]
		}
		switch answer = strings.Trim(answer, " .,;"); {
		case ledIn.MatchString(answer):
			w.hears(paper.Instruction, 160, answer, true)
			w.look.answered = paper.Instruction
			w.add(paper.Attendance, -90, "") // "took part as" is what was asked
		case heardIn.MatchString(answer):
			w.hears(paper.Attendance, 60, answer, false)
		}
	}
}
