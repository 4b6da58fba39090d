package extract

import (
	"slices"
	"strings"
)

// restOfName returns the first names that a form has in the next box behind the surname, or
// beneath it: "VEY," beside "ANN MARIE"; "" where the value of the label is whole.
func (l *look) restOfName(p pair) string {
	if first := l.firstByLabel(p); first != "" {
		if small := l.partByLabel(beforeLabel); small != "" && isParticles(small) {
			first += " " + small
		}
		return first
	}
	ci := l.cellAt(p.value)
	c := &l.cells[ci]
	if last, ok := strings.CutSuffix(c.text, ","); !ok || !surnameOnly.MatchString(last) {
		return ""
	}
	row := l.rows[c.row]
	next := l.below(c.row, ci)
	if k := slices.Index(row, ci); k >= 0 && k+1 < len(row) {
		next = row[k+1]
	}
	if next < 0 || l.isLabel(next) {
		return ""
	}
	first := l.cells[next].text
	if m := plainName.FindStringIndex(first); m == nil || m[1] < len(first) || len(strings.Fields(first)) > 3 || notName.MatchString(fold(first)) {
		return ""
	}
	return first
}

// partByLabel returns the only value of a label for a part of a name; "" where there is none or
// are several.
func (l *look) partByLabel(asks *pattern) string {
	part := ""
	for _, p := range l.pairs {
		if !asks.MatchString(p.label) {
			continue
		}
		if part != "" {
			return ""
		}
		part = strings.Trim(l.text(p.value), " .")
	}
	return part
}

// isParticles reports nothing but small words of a name: "van der".
func isParticles(text string) bool {
	return !slices.ContainsFunc(strings.Fields(text), func(w string) bool { return !isParticle.MatchString(w) })
}

// surnameKnown reports that a label of its own gives the surname of the person, to which p, which
// asks for first names, belongs.
func (l *look) surnameKnown(p pair) bool {
	return slices.ContainsFunc(l.pairs, func(o pair) bool {
		return (surnameLabel.MatchString(o.label) || nameLabel.MatchString(o.label)) && l.firstByLabel(o) == strings.Trim(l.text(p.value), " .")
	})
}

// firstByLabel returns the first names that a label of their own gives, where p asks for the
// surname: "Surname: Vey" with "First name: Ann".
func (l *look) firstByLabel(p pair) string {
	value := strings.Trim(l.text(p.value), " .")
	if !surnameLabel.MatchString(p.label) && !(nameLabel.MatchString(p.label) && !strings.Contains(value, " ")) {
		return ""
	}
	first := ""
	for _, o := range l.pairs {
		text := strings.Trim(l.text(o.value), " .")
		if !firstLabel.MatchString(o.label) || strings.EqualFold(text, value) {
			continue
		}
		if m := plainName.FindStringIndex(text); first != "" || m == nil || m[1] < len(text) || len(strings.Fields(text)) > 3 || notName.MatchString(fold(text)) {
			return "" // of several, or none
		}
		first = text
	}
	return first
}

var (
	surnameLabel  = matching(`^(?:` + surnameWords + `|(?:primer )?apellidos?(?: (?:del?|de la) \p{L}+)?)$`)
	nameLabel     = matching(`^(?:name|nom|naam)$`)
	firstLabel    = matching(`^(?:` + firstWords + `|nombres?(?:\(s\))?)$`)
	onlyFirst     = matching(`^(?:` + firstWords + `)$`)
	secondSurname = matching(`^(?:segundo apellido)$`)
	beforeLabel   = matching(`^(?:` + beforeWords + `)$`)
)

// The parts of a name that a form asks for by themselves: the surname, the first names, and the
// small words before the surname.
const (
	surnameWords = `(?:your |holder's |participant's )?(?:last name|surname|family name)s?|nachname|familienname|zuname|nom de (?:famille|naissance)|nom d'usage|nom patronymique|primer apellido|achternaam|familienaam|geslachtsnaam`
	firstWords   = `(?:your |holder's |participant's )?(?:first|given|fore)[ -]?names?(?:\(s\))?|forenames?|christian names?|vornamen?(?:\(n\))?|rufname|prenoms?(?:\(s\))?|nombres? de pila|voorna(?:am|men)|roepnaam`
	beforeWords  = `tussenvoegsels?|voorvoegsels?|namenszusatz|vorsatzwort|particule`
)

// listBeneath reports a label over several names, as the heading of a list has them: the
// first of them is no more meant than the others.
func (l *look) listBeneath(p pair) bool {
	if p.how != beneath {
		return false
	}
	ci := l.cellAt(p.value)
	next := l.below(l.cells[ci].row, ci)
	return next >= 0 && isPersonal(l.cells[ci].text) && isPersonal(l.cells[next].text) && roleOf(l.cells[next].text) == noRole && !l.noName(l.cells[next].text) && !l.isLabel(next)
}
