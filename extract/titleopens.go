package extract

// A line may leave its sentence open in front of a name that is set on a line of its own: behind the
// verb for taking part or teaching, or behind what somebody may call themselves.

// opensName ends such a line.
var opensName = matching(`(?:^|\s)(?:` +
	`(?:attended|completed|took part in|taken part in|participated in|was (?:present )?at|were (?:present )?at|sat through(?: the whole of)?|delivered|taught|presented|passed)(?: the| our| a)?|` +
	`(?:entitled|allowed|permitted|authori[sz]ed|licen[cs]ed) to (?:call|style|describe) (?:himself|herself|themselves|oneself)(?: as)?(?: an?| the)?|(?:may|shall) (?:be called|be styled|call (?:himself|herself|themselves))(?: an?| the)?|` +
	`hat\b[^.;]*\s(?:am|an der|an dem|an den|beim|bei der|bei dem)|(?:darf|dürfen) sich|(?:berechtigt|befugt), sich|` +
	`(?:participé|assisté|pris part) (?:à|au|aux|à la|à l['’])|a (?:suivi|animé|terminé|achevé|validé|réussi|donné|dispensé)(?: (?:la|le|les|l['’]))?|(?:autorisée?|habilitée?) à (?:se nommer|s['’]intituler|se dire|prendre le titre de)|` +
	`(?:participado|participó|asistido|asistió|tomado parte|tomó parte) (?:al?|en)(?: (?:el|la|los|las))?|(?:completado|superado|finalizado|impartido|dictado|cursado|realizado|impartió|dictó|completó|superó|cursó)(?: (?:el|la|los|las|un|una))?|(?:puede|podrá) (?:llamarse|denominarse|titularse)|` +
	`(?:heeft|nam|hebben|was)\b[^.;]*\s(?:aan|bij)(?: (?:de|het))?|(?:volgde|bezocht|voltooide)(?: (?:de|het))?|(?:mag|mogen|gerechtigd) zich` +
	`)$`)

// nextBelow returns the passage beneath the last line of a passage in its own column, else the next
// one; -1 for none.
func (l *look) nextBelow(i int) int {
	cells := l.passages[i].cells
	last := cells[len(cells)-1]
	if l.boxed {
		if ci := l.below(l.cells[last].row, last); ci >= 0 && l.cells[ci].passage != i && l.passages[l.cells[ci].passage].cells[0] == ci {
			return l.cells[ci].passage
		}
	}
	return l.nextPassage(i)
}
