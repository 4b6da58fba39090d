package extract

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// badge is the reading of a digital badge. Its values stand in named places, so that
// nothing is to be found; but none is ever certain. What no signature covers was perhaps
// written by anyone, and so was what is signed by a key that the file itself brings along:
// that the key is the issuer's could only be asked outside, and nothing is.
func badge(doc page.Document, h Hints) paper.Reading {
	b := doc.Badge
	r := paper.Reading{Outcome: paper.OutcomeRead, From: 1, To: 1, Reader: Version, Language: doc.Language, Values: map[paper.Field]paper.Value{},
		Reason: fmt.Sprintf("signature %s: %s", b.Seal, b.Why)}
	put := func(f paper.Field, text, quote, ask string, others ...paper.Candidate) {
		if text == "" {
			return
		}
		at := paper.Place{Page: 1, Quote: quote}
		v := paper.Value{Text: text, Place: at, By: paper.ByProgram, Score: 500}
		v.Candidates = append([]paper.Candidate{{Text: text, Why: "the badge says so", Place: at}}, others...)
		r.Questions = append(r.Questions, paper.Question{Field: f, Text: ask, Candidates: v.Candidates})
		r.Values[f] = v
	}
	put(paper.FieldKind, string(badgeKind(b.Type)), "Digital badge", fmt.Sprintf("What does this badge prove: %s? It does not say so in words. Its signature is %s: %s.", badgeKind(b.Type), b.Seal, b.Why))
	fields := map[string]paper.Field{"Title": paper.FieldTitle, "Provider": paper.FieldProvider, "Attendee": paper.FieldAttendee,
		"Start": paper.FieldStart, "End": paper.FieldEnd, "Issued": paper.FieldIssue, "Credits": paper.FieldCredits}
	for _, l := range b.Labelled() {
		f, known := fields[l[0]]
		if !known {
			continue
		}
		value, ask, others := badgeValue(b, f, l[0], l[1])
		canonical, err := paper.Canonical(f, value)
		if err != nil {
			continue // not a value of this field; the line shows it
		}
		put(f, canonical, l[0]+": "+l[1], ask, others...)
	}
	badgeLength(&r, doc, h)
	badgeHolder(&r, h)
	return r
}

// badgeValue returns the value of a field in the line "label: text" of a badge, what to ask about
// it, and the other day that a time may mean; "" for a time that is none.
func badgeValue(b *page.Badge, f paper.Field, label, text string) (value, ask string, others []paper.Candidate) {
	switch f {
	case paper.FieldStart, paper.FieldEnd, paper.FieldIssue:
		day, other := badgeDay(text)
		if other == "" {
			return day, sealQuestion(b, label, text), nil
		}
		ask = fmt.Sprintf("Is it %s or %s? The badge gives the time %s, in UTC; where it was made it may have been another day.", day, other, text)
		return day, ask, []paper.Candidate{{Text: other, Why: "the day where it was made, if that lies eight hours off or more", Place: paper.Place{Page: 1, Quote: label + ": " + text}}}
	case paper.FieldCredits:
		return text, fmt.Sprintf("Credits %s of what unit? The badge names none.", text), nil
	}
	return text, sealQuestion(b, label, text), nil
}

// sealQuestion asks whether a value is right, and why that is asked. Whose key it is, or
// why none was checked, is said once, with the kind.
func sealQuestion(b *page.Badge, label, text string) string {
	if b.Seal == page.SealGood {
		return fmt.Sprintf("Is this right: %s: %s? That the badge's key is the issuer's is not checked.", label, text)
	}
	return fmt.Sprintf("Is this right: %s: %s? The badge's signature was not checked.", label, text)
}

// badgeLength proposes the time that the badge's free text names. Free text is not a
// named place, so that it is never certain.
func badgeLength(r *paper.Reading, doc page.Document, h Hints) {
	h.trace = nil // that would be a paper of its own
	v, ok := understandPages(doc, doc.Pages, h).Values[paper.FieldDuration]
	if !ok || v.Text == "" {
		return
	}
	v.Certain = false
	v.Candidates = []paper.Candidate{{Text: v.Text, Why: "the badge's text says so", Place: v.Place}}
	r.Values[paper.FieldDuration] = v
	r.Questions = append(r.Questions, paper.Question{Field: paper.FieldDuration, Text: fmt.Sprintf("Did it take %s minutes? Only the badge's free text says so.", v.Text), Candidates: v.Candidates})
}

// badgeHolder asks for whom the badge is, where it does not name the vault's holder.
func badgeHolder(r *paper.Reading, h Hints) {
	v, named := r.Values[paper.FieldAttendee]
	names := append([]string{h.Holder}, h.FormerNames...)
	if h.Holder == "" || named && slices.ContainsFunc(names, func(n string) bool { return samePerson(n, v.Text) }) {
		return
	}
	r.Questions = slices.DeleteFunc(r.Questions, func(q paper.Question) bool { return q.Field == paper.FieldAttendee })
	candidates := []paper.Candidate{{Text: h.Holder, Why: "the vault is kept for this name"}}
	text := fmt.Sprintf("Is this badge about %s? It names nobody.", h.Holder)
	if named {
		text = fmt.Sprintf("Is %s you, %s? The badge gives another name.", v.Text, h.Holder)
		candidates = append([]paper.Candidate{{Text: v.Text, Why: "the badge names this person", Place: v.Place}}, candidates...)
		v.Candidates = candidates
		r.Values[paper.FieldAttendee] = v
	}
	r.Questions = append(r.Questions, paper.Question{Field: paper.FieldAttendee, Text: text, Candidates: candidates})
}

// badgeKind proposes a kind for the type of an achievement.
// Source: Open Badges 3.0, section B.5.1 (AchievementType enumeration).
func badgeKind(achievement string) paper.Kind {
	switch achievement {
	case "Certification", "License", "CertificateOfCompletion", "Degree", "Diploma", "Certificate":
		return paper.Credential
	case "Membership":
		return paper.Membership
	}
	return paper.Completion
}

// nearMidnight is how far from midnight an instant in UTC lies in another day for many
// people: those who live eight hours to the west or to the east.
const nearMidnight = 8 * time.Hour

// badgeDay returns the day of a date with or without a time, as the badge writes it: with
// an offset it is the day at that place. A bare Z tells no place, so that near midnight
// the day before or after is possible, and other names it; but midnight itself, or the
// last second of a day, is how programs write a day.
func badgeDay(s string) (day, other string) {
	s = strings.TrimSpace(s)
	if t, err := time.Parse(time.DateOnly, s); err == nil {
		return t.Format(time.DateOnly), ""
	}
	t, err := time.Parse(time.RFC3339, s)
	if err != nil {
		return "", ""
	}
	day = t.Format(time.DateOnly)
	start := t.Truncate(24 * time.Hour)
	since, until := t.Sub(start), start.Add(24*time.Hour).Sub(t)
	switch {
	case !strings.HasSuffix(strings.ToUpper(s), "Z"), since == 0, until <= time.Second:
		return day, ""
	case since < nearMidnight:
		return day, t.AddDate(0, 0, -1).Format(time.DateOnly)
	case until <= nearMidnight:
		return day, t.AddDate(0, 0, 1).Format(time.DateOnly)
	}
	return day, ""
}
