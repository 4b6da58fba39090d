package extract

import (
	"slices"
	"strconv"
	"strings"
)

// What a column of a bill is headed with, where the other headings tell that it is one.
var (
	thingHead = whole(`what|was|wofur|quoi|pour quoi|que|wat|waarvoor|particulars|ordered|goods|services?|bestellung|leistungen|prestations?|servicios?|producto|dienst(?:en)?|line`)
	priceHead = whole(`[€£$]|(?:eur|gbp|chf|usd|cad|aud|nzd)|(?:each|per piece|je stuck|je|la piece|piece|per stuk|stuk|c/u|unidad)|(?:betrag|summe|preis|montant|prix|importe|precio|bedrag|prijs|amount|price|total|gesamt)(?: (?:in |en )?(?:eur|gbp|chf|usd|cad|€|£|\$))`)
)

// headRoles returns the roles of a row of headings. One that says no more than "what", or
// only a currency, has its role from the headings of sums beside it.
func (s *sheet) headRoles(row []int) []role {
	roles := make([]role, len(row))
	sums := 0
	for k, ci := range row {
		if roles[k] = roleOf(s.cells[ci].text); roles[k] == isPartSum || roles[k] == isGrandTotal {
			sums++
		}
	}
	if len(row) < 3 {
		return roles
	}
	if sums == 0 {
		s.listRoles(row, roles)
		return roles
	}
	for k, ci := range row {
		low := strings.TrimSpace(fold(s.cells[ci].text))
		switch {
		case roles[k] != noRole:
		case thingHead.MatchString(low) && !slices.Contains(roles, isTitle):
			roles[k] = isTitle
		case priceHead.MatchString(low):
			roles[k] = isPartSum
		}
	}
	return roles
}

// What a column of a list of sessions or courses is headed with, where the other headings tell that
// it is one.
var (
	lengthHead = whole(`min\.?|mins\.?|(?:min\.?|minutes?|minuten|minutos|hours?|hrs\.?|std\.?|stunden|heures|horas|uren) (?:credited|granted|attended|taught|given|counted|angerechnet|anerkannt|besucht|gehalten|comptees?|retenues?|suivies|computad[oa]s|reconocid[oa]s|impartidas|toegekend|gevolgd|gegeven)|taught|(?:indicative|notional|listed|guide|planned|net) (?:duration|length|time|hours)|(?:richt|plan|soll|netto|lern)(?:zeit|dauer|wert)|(?:duree|duracion) (?:indicative|conseillee|estimee|nette|indicativa|orientativa|neta)|(?:richt|netto)(?:tijd|duur)`)
	dayHead    = whole(`evenings?|abend|soiree|seance du|tarde|avond|termin|jour|dia|dag|tag|(?:done|passed|validated|completed|finished|ticked off) on|(?:abgeschlossen|bestanden|erledigt|bestatigt) am|(?:validee?|acheve|termine|reussi|suivi) le|(?:validado|aprobado|superado|terminado) el|(?:voltooid|afgerond|behaald) op`)
	clockHead  = whole(`\p{L}+ clock|clock|from ?[-–/] ?to|von ?[-–/] ?bis|de ?[-–/] ?a|van ?[-–/] ?tot|uhr|uur|hour`)
	hereHead   = whole(`(?:the )?(?:register|sign(?:ed|ature)?|initials|roll|mark)|anwesenheitsliste|kurzel|zeichen|unterschrift|emargement|paraphe|firma|rubrica|handtekening|paraaf`)
	topicHead  = whole(`intitules?|intitule (?:du|de la|des) \p{L}+|inhalt|lerninhalt|denominacion|omschrijving`)
)

// listRoles gives headings of which no role is known that of a column of a list.
func (s *sheet) listRoles(row []int, roles []role) {
	for k, ci := range row {
		low := strings.Trim(fold(s.cells[ci].text), " :")
		switch {
		case roles[k] != noRole:
		case lengthHead.MatchString(low) && !slices.Contains(roles, isDuration):
			roles[k] = isDuration
		case topicHead.MatchString(low) && !slices.Contains(roles, isTitle):
			roles[k] = isTitle
		case len(row) < 4:
		case dayHead.MatchString(low) && !slices.ContainsFunc(roles, asksDay):
			roles[k] = isEvent
		case clockHead.MatchString(low) && !slices.Contains(roles, isTime):
			roles[k] = isTime
		case hereHead.MatchString(low) && !slices.Contains(roles, isPresent):
			roles[k] = isPresent
		}
	}
}

// headGoesOn reports a row right beneath the headings of a table, and nearer to them than to what
// follows, in which words go on with a heading: "Min." over "credited".
func (s *sheet) headGoesOn(t *table, r int) bool {
	row := s.rows[r]
	if !s.boxed || len(t.lines) > 0 || r+1 >= len(s.rows) || len(row) == 0 || 2*len(row) > len(t.head) {
		return false
	}
	for _, ci := range row {
		c, h := &s.cells[ci], &s.cells[t.head[s.column(t, &s.cells[ci])]]
		if hasFigure(c.text) || len(strings.Fields(c.text)) > 3 || c.bold != h.bold || 10*abs(c.size-h.size) > h.size || c.box[2] <= h.box[0] || h.box[2] <= c.box[0] {
			return false
		}
	}
	above, below := s.gap(t.headRow(s), r), s.gap(r, s.nextRow(r))
	return above < s.cells[row[0]].box[3]-s.cells[row[0]].box[1] && 2*above < below
}

// headRow is the row of the headings.
func (t *table) headRow(s *sheet) int { return s.cells[t.head[0]].row }

// nextRow is the next row with cells, or r where there is none.
func (s *sheet) nextRow(r int) int {
	for k := r + 1; k < len(s.rows); k++ {
		if len(s.rows[k]) > 0 {
			return k
		}
	}
	return r
}

// itemNamed reports a thing on a bill with a subtitle: what stands before the colon is no label.
func (s *sheet) itemNamed(t *table, ci int) bool {
	label, _, _ := strings.Cut(s.cells[ci].text, ":")
	return t.priced() && t.roles[0] == isTitle && s.column(t, &s.cells[ci]) == 0 && roleOf(label) == noRole && len(strings.Fields(label)) > 1
}

// numbering is how often the boxes of a form are numbered before the numbers are taken for that.
const numbering = 3

// formNumbers returns the rows, given by the texts of their cells, whose first cell only
// numbers the box of a form: 1, 2, 3, each before a label and what was filled in.
func formNumbers(rows [][]string) map[int]bool {
	out := map[int]bool{}
	var run []int
	labels := 0
	for r, row := range rows {
		if len(row) < 2 {
			continue
		}
		n, err := strconv.Atoi(strings.TrimRight(row[0], ".)"))
		if err != nil || len(row) > 3 {
			continue
		}
		if n == 1 {
			run, labels = nil, 0
		}
		if n != len(run)+1 || hasFigure(row[1]) || len(row[1]) > 60 {
			continue
		}
		run = append(run, r)
		if roleOf(row[1]) != noRole {
			labels++
		}
		if len(run) >= numbering && labels > 1 {
			for _, k := range run {
				out[k] = true
			}
		}
	}
	return out
}
