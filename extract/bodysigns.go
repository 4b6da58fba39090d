package extract

import (
	"slices"
	"strings"
)

// endsAsOffice is what somebody is in a body: "Education Officer".
var endsAsOffice = matching(`^(?:\p{L}+ ){1,2}(?:officer|secretary|manager|director|coordinator|chair|lead|administrator|beauftragte[rn]?|referent(?:in)?|leit(?:er|ung|erin)|koordinator(?:in)?|coordinat(?:eur|rice)|secretaire|coordinadora?|secretari[oa]|responsable|coordinator|secretaris|functionaris)$`)

// bodiesSigning finds bodies for which somebody signs, with a label, beneath the name, or
// before the place and the day.
func (l *look) bodiesSigning(add func(at, int, string)) {
	for _, p := range l.withRole(isPresent) { // "Signature: Archive Society, p.p. Vey"
		if body, _, _ := strings.Cut(l.text(p.value), ", "); l.isBody(body) && len(strings.Fields(body)) > 1 {
			add(p.value.within(0, len(body)), 76, "it signs")
		}
	}
	for _, a := range l.closing.bodies {
		if !officeLine(l.text(a)) && !endsAsOffice.MatchString(fold(l.text(a))) && !l.saysInShort(l.text(a)) {
			add(a, 74, "somebody signs for it")
		}
	}
	for _, d := range l.days {
		text := l.passages[d.at.passage].text
		who, _, ok := signedAt(text[:d.at.span.From])
		if !ok || d.role != isIssue || !strings.HasPrefix(text, who) || isPersonal(who) || officeLine(who) {
			continue
		}
		score := 62
		if l.isBody(who) {
			score = 72
		}
		add(l.passageAt(d.at.passage).within(0, len(who)), score, "it stands before the place and the day")
	}
}

// saysInShort reports one word for a body that the head of the paper names in full: "for the Academy"
// beneath the name of the "Academy of Weaving".
func (l *look) saysInShort(body string) bool {
	word := fold(strings.TrimSpace(body))
	if strings.Contains(word, " ") || len(word) < 5 {
		return false
	}
	return slices.ContainsFunc(l.folded[:min(3, len(l.folded))], func(head string) bool {
		return head != word && slices.ContainsFunc(strings.Fields(head), func(w string) bool { return strings.HasSuffix(strings.Trim(w, ",.;"), word) })
	})
}

// bodyInCopyright finds who claims the copyright in passage i, without the years and without
// where the body is at home.
func (l *look) bodyInCopyright(i int, add func(at, int, string)) {
	m := copyRight.FindStringSubmatchIndex(l.passages[i].text)
	if m == nil {
		return
	}
	a := l.passageAt(i).within(m[2], m[3]-m[2])
	if y := yearsAfter.FindStringIndex(l.text(a)); y != nil && y[0] > 3 {
		a = a.within(0, y[0])
	}
	a = a.within(0, len(l.withoutTown(l.text(a))))
	add(a, 62, "the copyright names it")
}

// withoutTown takes what stands behind a comma off the name of a body that has no legal form,
// and an office off the front of one.
func (l *look) withoutTown(name string) string {
	office, body, parted := strings.Cut(name, ", ")
	switch {
	case parted && isOffice(office) && capitalised(body) && len(strings.Fields(body)) > 1:
		return body // "The Editors, Annals of Vexley"
	case parted && l.isBody(office) && !legalForm.MatchString(name):
		return office
	}
	return name
}

// bodiesOfMail finds who sent a message: by its sender, and by the body at its foot where that
// is a person or an office.
func (l *look) bodiesOfMail() []guess {
	m := l.doc.Mail
	if m == nil || !l.isMessage() || len(l.passages) == 0 {
		return nil
	}
	name := l.withoutTown(strings.Trim(strings.Split(m.From, "<")[0], ` "`))
	if name == "" {
		return nil
	}
	g := guess{text: name, at: at{0, l.passageAt(0).span}, score: 58, why: "the message came from it", sure: true}
	if a, ok := l.signedAsSent(name); ok {
		text := l.text(a)
		return []guess{{text: text, at: a, score: 84, why: "the message came from it and is signed with it", sure: l.isBody(text) || !l.isName(text)}}
	}
	if l.writesForBody(name) {
		g.score, g.sure = 30, false
	} else if a, ok := l.findText(name); ok {
		g.at, g.score = a, 76
		return []guess{g}
	}
	a, ok := l.bodyAtFoot()
	if !ok {
		return []guess{g}
	}
	if g.sure {
		g.score, g.sure = 40, false // an office of the body that signs
	}
	return []guess{{text: l.text(a), at: a, score: 74, why: "the message is signed with it", sure: true}, g}
}

// signedAsSent returns the line at the end of a message that is the name of its sender, or the end
// of it, and no person's: both say who it is from.
func (l *look) signedAsSent(name string) (at, bool) {
	for i := len(l.passages) - 1; i >= max(1, len(l.passages)/2, len(l.passages)-6); i-- {
		text := strings.Trim(l.passages[i].text, " .,")
		key := bare(text)
		n, ends := len(strings.Fields(text)), strings.HasSuffix(fold(name), " "+fold(text)) && stripTitles(name) != text
		if n < 2 || n > 8 || !capitalised(text) || key != bare(name) && !ends {
			continue
		}
		if l.writesForBody(text) && !(ends && l.ownDomain(text)) && !l.domainOf(text) {
			return at{}, false
		}
		return l.passageAt(i).within(0, len(text)), true
	}
	return at{}, false
}

// ownDomain reports that the sender's address is at a domain that is named like the body.
func (l *look) ownDomain(name string) bool {
	_, host, parted := strings.Cut(l.doc.Mail.From, "@")
	if !parted {
		return false
	}
	host = bare(host)
	return slices.ContainsFunc(strings.Fields(fold(name)), func(w string) bool { return len(w) > 5 && strings.Contains(host, bare(w)) })
}

// domainOf reports that two words of a name of three or more stand one behind the other in the domain of
// the sender's address: what looks like a person is a body.
func (l *look) domainOf(name string) bool {
	_, host, _ := strings.Cut(l.doc.Mail.From, "@")
	host = bare(host)
	words := strings.Fields(name)
	for i := 1; i < len(words) && len(words) > 2; i++ {
		if strings.Contains(host, bare(words[i-1])+bare(words[i])) {
			return true
		}
	}
	return false
}

// writesForBody reports a sender who is a person, an office or an address: somebody who writes
// for a body.
func (l *look) writesForBody(name string) bool {
	who, _, to, _ := person(name)
	writes := who != "" && to == len(name) && !l.isBody(name) && len(strings.Fields(who)) > 1
	return writes || officeLine(name) || outsideDesk.MatchString(fold(name)) || strings.Contains(name, "@")
}
