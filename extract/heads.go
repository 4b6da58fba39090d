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
	if sums == 0 || len(row) < 3 {
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
