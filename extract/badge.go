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
// nothing is to be found; but what no signature covers was perhaps written by anyone,
// and then every value is a question. So are always the kind, for a badge does not say
// in these words what it proves, and the unit of its credits.
func badge(doc page.Document, h Hints) paper.Reading {
	b := doc.Badge
	r := paper.Reading{Outcome: paper.OutcomeRead, From: 1, To: 1, Reader: Version, Language: doc.Language, Values: map[paper.Field]paper.Value{},
		Reason: fmt.Sprintf("signature %s: %s", b.Seal, b.Why)}
	put := func(f paper.Field, text, quote string, certain bool, ask string) {
		if text == "" {
			return
		}
		at := paper.Place{Page: 1, Quote: quote}
		v := paper.Value{Text: text, Place: at, By: paper.ByProgram, Score: 500, Certain: certain}
		if certain {
			v.Score = 1000
		} else {
			v.Candidates = []paper.Candidate{{Text: text, Why: "the badge says so", Place: at}}
			r.Questions = append(r.Questions, paper.Question{Field: f, Text: ask, Candidates: v.Candidates})
		}
		r.Values[f] = v
	}
	good := b.Seal == page.SealGood
	put(paper.FieldKind, string(badgeKind(b.Type)), "Digital badge", false, fmt.Sprintf("What does this badge prove: %s? It does not say so in words.", badgeKind(b.Type)))
	fields := map[string]paper.Field{"Title": paper.FieldTitle, "Provider": paper.FieldProvider, "Attendee": paper.FieldAttendee,
		"Start": paper.FieldStart, "End": paper.FieldEnd, "Issued": paper.FieldIssue, "Credits": paper.FieldCredits}
	for _, l := range b.Labelled() {
		f, known := fields[l[0]]
		if !known {
			continue
		}
		text, certain := l[1], good
		ask := fmt.Sprintf("Is this right: %s: %s? The badge's signature was not checked: %s.", l[0], text, b.Why)
		switch f {
		case paper.FieldStart, paper.FieldEnd, paper.FieldIssue:
			var ok bool
			if text, ok = badgeDay(text); !ok {
				continue
			}
		case paper.FieldCredits:
			certain, ask = false, fmt.Sprintf("Credits %s of what unit? The badge names none.", text)
		}
		canonical, err := paper.Canonical(f, text)
		if err != nil {
			continue // not a value of this field; the line shows it
		}
		put(f, canonical, l[0]+": "+l[1], certain, ask)
	}
	badgeLength(&r, doc, h)
	badgeHolder(&r, h)
	return r
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
	if _, asked := r.Question(paper.FieldAttendee); asked || h.Holder == "" || named && slices.ContainsFunc(names, func(n string) bool { return samePerson(n, v.Text) }) {
		return
	}
	holder := paper.Candidate{Text: h.Holder, Why: "the vault is kept for this name"}
	text := fmt.Sprintf("Is this badge about %s? It names nobody.", h.Holder)
	if named {
		text = fmt.Sprintf("Is %s you, %s? The badge gives another name.", v.Text, h.Holder)
		v.Certain, v.Candidates = false, []paper.Candidate{{Text: v.Text, Why: "the badge names this person", Place: v.Place}, holder}
		r.Values[paper.FieldAttendee] = v
	}
	r.Questions = append(r.Questions, paper.Question{Field: paper.FieldAttendee, Text: text, Candidates: []paper.Candidate{holder}})
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

// badgeDay returns the day of a date with or without a time, as the badge writes it.
func badgeDay(s string) (string, bool) {
	s = strings.TrimSpace(s)
	for _, form := range []string{time.DateOnly, time.RFC3339} {
		if t, err := time.Parse(form, s); err == nil {
			return t.Format(time.DateOnly), true
		}
	}
	return "", false
}
