package extract

import (
	"slices"
	"strings"
)

// Around what a paper says stand lines that say something of the sheet alone: which copy it is,
// who may see it, which form was filled in, that it holds without a signature. They name neither a
// body nor an event, and would part what belongs together.

// furnitureAt is how many rows at the head and at the foot of a page may be furniture of which the
// words alone could be something else.
const furnitureAt = 4

// leaveOutFurniture takes out the rows that say something of the sheet alone, unless nothing else
// stands on it.
func (s *sheet) leaveOutFurniture() {
	drop := map[int]bool{}
	rest := false
	for first := 0; first < len(s.cells); {
		past := first
		for past < len(s.cells) && s.cells[past].page == s.cells[first].page {
			past++
		}
		last := s.cells[past-1].row
		for ci := first; ci < past; ci++ {
			c := &s.cells[ci]
			edge := c.row-s.cells[first].row < furnitureAt || last-c.row < furnitureAt
			if len(s.rows[c.row]) == 1 && furniture(fold(c.text), s.cells[first:ci], edge) {
				drop[ci] = true
			} else {
				rest = true
			}
		}
		first = past
	}
	if len(drop) == 0 || !rest {
		return
	}
	kept := s.cells[:0:0]
	for r, row := range s.rows {
		var now []int
		for _, ci := range row {
			if !drop[ci] {
				now = append(now, len(kept))
				kept = append(kept, s.cells[ci])
			}
		}
		s.rows[r] = now
	}
	s.cells = kept
}

// furniture reports a line, folded, that says something of the sheet alone; above are the cells of its page before
// it, and edge says that it stands at the head or the foot.
func furniture(low string, above []cell, edge bool) bool {
	if parts := partsOfRow.re().Split(low, -1); len(parts) > 1 {
		return len(low) < 160 && !slices.ContainsFunc(parts, func(part string) bool { return !furniture(part, above, edge) })
	}
	return len(low) < 160 && (aboutSheet.MatchString(low) || edge && (whichCopy.MatchString(low) || memberElsewhere(above, low)))
}

// memberElsewhere reports a line, folded, that says whose member a body is that one of the first
// cells names.
func memberElsewhere(cells []cell, low string) bool {
	m := memberOf.FindStringIndex(low)
	if m == nil {
		return false
	}
	of := strings.TrimSpace(low[m[1]:])
	for _, c := range cells[:min(3, len(cells))] {
		if head := fold(c.text); bodyWord.MatchString(head) && !certifyLine.MatchString(head) {
			return !strings.Contains(head, of) && !strings.Contains(of, head)
		}
	}
	return false
}

// partsOfRow parts what stands in one row of the head or the foot.
var partsOfRow = matching(` [-–·|] `)

var (
	// memberOf begins a line with what a body is to another; the person's name does not stand in it.
	memberOf = matching(`^\W*(?:(?:a |ein |un |une |een )?(?:proud |full |founding |corporate |associate |affiliated? )?(?:member|mitglied|membre|miembro|lid|affiliate)(?:s|organi[sz]ation)? (?:of|der|des|im|in|bei|de|del|van)(?: the| der| dem| de| la| het)? )`)
	// whichCopy says which copy of the paper it is, or who may see it.
	whichCopy = matching(`^\W*(?:(?:(?:customer|file|student|participant|attendee|candidate|office|client|employee|member|certified|true|delegate|your|2nd|second)(?:'?s)? )?(?:copy|duplicate|original)|(?:beglaubigte )?(?:kopie|abschrift)|duplikat|zweitschrift|zweitausfertigung|(?:fur den|fur die) (?:teilnehmer(?:in)?|kund(?:en|in))|duplicata|copie(?: conforme)?|exemplaire (?:du client|du participant|du stagiaire)|copia|duplicado|ejemplar para el (?:cliente|alumno|participante)|kopij|afschrift|duplicaat|exemplaar (?:deelnemer|klant)|origineel|` +
		`(?:strictly )?(?:private|confidential|personal)(?:(?: and | & |/)(?:confidential|private|personal))?|(?:streng )?vertraulich|personlich(?: und vertraulich)?|confidentiel|personnel(?: et confidentiel)?|confidencial|vertrouwelijk|persoonlijk)\W*$`)
	// aboutSheet speaks of the sheet: which form it is, that it was made by a machine, when it was
	// scanned, what to do with it, whose rights are reserved.
	aboutSheet = matching(`^\W*(?:(?:form|formular|formblatt|vordruck|formulaire|imprime|formulario|impreso|formulier)\b(?: (?:no\.?|nr\.?|n\W{0,2}))?:? ?(?:[a-z]{0,6}[-/ .]?)?\d[\w./-]*(?:[ ,·|–-]+(?:(?:rev(?:ision)?|version|vers|v|issue|ed(?:ition)?|stand|ausgabe|edicion|versie|uitgave|indice)\b\.?:? ?)?[(\d][\w./()-]*)*\W*` +
		`|(?:(?:©|\(c\)|copyright)\s*(?:\d{4}(?:\s?[-–]\s?\d{4})?)?[ .,·|–-]*)?(?:all rights reserved|alle rechte vorbehalten|tous droits reserves|todos los derechos reservados|(?:alle )?rechten voorbehouden)\W*` +
		`|(?:this|the) (?:document|certificate|statement|confirmation|letter|invoice|receipt) (?:was|is|has been) (?:(?:produced|generated|created|issued|printed|made)? ?(?:electronically|automatically|by computer)|(?:computer|system)[- ](?:generated|produced))[^.]{0,30}\b(?:valid without|requires? no|needs no|without|no) (?:a )?signature(?: is (?:required|needed))?\W*` +
		`|(?:dieses|diese|dieser|das|die) (?:schreiben|dokument|bescheinigung|bestatigung|beleg|rechnung) (?:wurde|ist) (?:maschinell|elektronisch|automatisch) (?:erstellt|erzeugt|ausgestellt)[^.]{0,30}\b(?:ohne unterschrift|keine(?:r)? unterschrift)[^.]{0,20}\W*` +
		`|(?:ce|cette|le present) (?:document|attestation|certificat|recu)[^.]{0,30}\b(?:electroniquement|automatiquement)[^.]{0,30}\bsans signature\W*` +
		`|est[ea] (?:documento|certificado|recibo)[^.]{0,30}\b(?:electronicamente|automaticamente)[^.]{0,30}\bsin firma\W*` +
		`|dit (?:document|bewijs|certificaat)[^.]{0,20}\b(?:elektronisch|automatisch)[^.]{0,30}\bzonder handtekening[^.]{0,10}\W*` +
		`|please (?:keep|retain|file|save) th(?:is|e) (?:document|certificate|letter|statement|confirmation|receipt|page)(?: (?:safely|safe|carefully))?(?: (?:for|with) your (?:own )?(?:records|files|papers|portfolio))?\W*` +
		`|bitte (?:bewahren sie (?:diese[sn]?|das|die) \w+ (?:sorgfaltig |gut )?auf|(?:sorgfaltig |gut )?aufbewahren)\W*|(?:document )?a conserver(?: precieusement)?\W*|(?:por favor,? )?conserve este documento\W*|(?:gelieve |graag )?(?:zorgvuldig|goed)? ?bewaren(?: a\.?u\.?b)?\W*` +
		`|(?:our|the) (?:quality )?management system is certified (?:to|according to|under) [\w :.-]{3,30}|(?:certified|zertifiziert|certifie|certificad[oa]|gecertificeerd) (?:to|nach|selon|segun|volgens) (?:din )?(?:en )?iso \d{4,5}\S*` +
		`|(?:scanned|gescannt|eingescannt|numerise|escaneado|digitalizado)(?: (?:on|by|with|am|le|el|op))?:? [^a-z]{6,24}` +
		`|(?:cpd[- ])?(?:accredited|akkreditiert|accreditee?|acreditad[oa]|geaccrediteerd)(?: (?:training |course |learning )?(?:provider|centre|center|course))? (?:by|through|durch|von|par|por|door) [^\d]{4,80}(?: (?:until|through|to|bis|jusqu'au|hasta el|tot)(?: zum)? \d{1,2}\W{1,2}[^\d]{0,12}\d{2,4})?\W*` +
		`|(?:la |notre )?certification qualite\b[^:;]{0,110}(?:: actions? de formation)?\W*` +
		`|registered (?:charity|company|in [a-z]+)(?: (?:in [a-z]+ ?(?:and wales)?))?[ ,:]*(?:(?:no|number|nr)\.?:? ?)?\d{5,9}\W*` +
		`|(?:handels|vereins|genossenschafts)register(?: [a-z. -]{3,30})?,?:? ?(?:nr\.? ?)?(?:hr[ab]|vr|gnr)\.? ?\d[\d ]{1,8}\W*` +
		`|(?:amtsgericht|registergericht) [a-z. -]{3,30},? (?:hr[ab]|vr|hrb-nr\.?) ?\d[\d ]{1,8}(?:[,;·| -]+(?:geschaftsfuhr\w*|vorstand|vertretungsberechtigt\w*|ust[- .]*id\S*|steuer\S*)[^:]{0,12}:? [^:]{3,60})?)$`)
)
