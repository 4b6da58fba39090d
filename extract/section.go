package extract

import (
	"strings"
)

// A form asks for "Name" several times: under "Employer" it is a body's, under "Employee" the
// person's, under "Supervisor" that of somebody who signs. The heading above says which.

var (
	// asksName asks for a name and does not say whose.
	asksName = matching(`^(?:(?:full |legal |complete |print(?:ed)? |registered |official |business |trading |offizieller |vollstandiger )?name|name und (?:anschrift|sitz|adresse)|name and address|nom(?: complet| legal| officiel| et adresse)?|denomination(?: sociale)?|raison sociale|nombre(?: completo| y apellidos| o razon social| legal| y direccion)?|razon social|(?:volledige |officiele |statutaire )?naam(?: en adres)?|bezeichnung)$`)
	// partMark is the number of a part of a form before its heading.
	partMark = matching(`^(?:(?:part|section|block|box|step|teil|abschnitt|feld|punkt|partie|rubrique|cadre|volet|bloc|parte|seccion|apartado|bloque|deel|onderdeel|rubriek|vak)\.? ?)?(?:[a-h]|[ivx]{1,4}|\d{1,2})\s?[.):–—-]+\s*|^(?:part|section|block|box|step|teil|abschnitt|feld|partie|rubrique|cadre|volet|bloc|parte|seccion|apartado|bloque|deel|onderdeel|rubriek|vak)\.? (?:[a-h]|[ivx]{1,4}|\d{1,2})\s?[.):–—-]*\s*`)
	// aboutWhom are the words by which a heading says that particulars follow.
	aboutWhom = matching(`^(?:(?:the |contact |personal |persoonlijke |personliche |allgemeine )?(?:details|particulars|information|data|identity|identification|angaben|daten|gegevens|donnees|coordonnees|renseignements|informations|identite|datos|informacion|identificacion|about|completed by|to be completed by|auszufullen (?:von|vom|durch)|a (?:remplir|completer) par|a (?:rellenar|cumplimentar) por|in te vullen door)(?: (?:personnelles|personales))? ?)(?:(?:of|on|about|about|for|zur|zum|zu|uber|von|vom|der|des|dem|du|de|de la|del|de los|sur|sobre|concernant|over|van|van de|van het|by|the|the|la|le|l'|el|het)\s?)*`)
	// signerPart heads the part of a form that somebody else fills in.
	signerPart = matching(`^(?:(?:immediate |line |direct |your |the )?(?:supervisor|line manager|manager|verifier|assessor|referee|witness|signator(?:y|ies)|signature|certifying officer|declaration|official use|sign-?off|contact(?: person)?)|vorgesetzter?|vorgesetzte|unterschrift|ansprechpartner(?:in)?|gutachter(?:in)?|bestatigung|signature|signataire|responsable|superieur(?: hierarchique)?|tuteur|firma|firmante|responsable|superior|persona de contacto|ondertekening|leidinggevende|contactpersoon|handtekening|beoordelaar)\b`)
)

// articleFirst is the article before what a heading names.
var articleFirst = matching(`^(?:the|der|die|das|le|la|les|l['’]|el|los|las|de|het)[ '’]`)

// headsPart reports what the heading of a part of a form asks for, and whether it is one.
func headsPart(text string) (role, bool) {
	low := strings.Trim(fold(text), " .:")
	if strings.Contains(text, ": ") && !partHeading.MatchString(text) || len(strings.Fields(low)) > 8 || ended(text) && !partMark.MatchString(low) {
		return noRole, false
	}
	rest := strings.TrimLeft(articleFirst.ReplaceAllString(low, ""), " ")
	if m := partMark.FindStringIndex(low); m != nil {
		rest = low[m[1]:]
	}
	if m := aboutWhom.FindStringIndex(rest); m != nil && m[1] < len(rest) {
		rest = rest[m[1]:]
	}
	rest = strings.TrimLeft(articleFirst.ReplaceAllString(rest, ""), " ")
	switch {
	case signerPart.MatchString(rest):
		return isSigner, true
	case roleOf(rest) == isProvider || ownFirm.MatchString(rest) || rest != low && providerStem.MatchString(rest) && len(strings.Fields(rest)) < 4:
		return isProvider, true
	case (roleOf(rest) == isPerson || strongPerson.MatchString(rest)) && (rest != low && len(strings.Fields(rest)) < 5 || len(strings.Fields(rest)) < 4) && !hasFigure(rest) && !asksName.MatchString(rest):
		return isPerson, true
	}
	return noRole, rest != low
}

// rolesOfParts gives labels that ask for a name the role of the heading above them, the
// first label beneath each.
func (s *sheet) rolesOfParts() {
	given := map[int]bool{}
	for i := range s.pairs {
		p := &s.pairs[i]
		if !asksName.MatchString(strings.Trim(p.label, " *.")) || p.role != isPerson && p.role != noRole && p.role != isTitle {
			continue
		}
		for k := p.value.passage; k >= max(0, p.value.passage-9); k-- {
			if s.passages[k].text == "" || strings.Contains(s.passages[k].text, ":") && !partHeading.MatchString(s.passages[k].text) || asksName.MatchString(strings.Trim(fold(s.passages[k].text), " :*.")) {
				continue
			}
			r, heads := headsPart(s.passages[k].text)
			if !heads || k == p.value.passage {
				continue
			}
			if (r == isProvider || r == isSigner) && !given[k] {
				p.role, given[k] = r, true
			}
			break
		}
	}
}
