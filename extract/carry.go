package extract

import (
	"fmt"
	"slices"

	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// carries reports whether doc is a message that a document came with.
func carries(doc page.Document) bool {
	return doc.Type == "eml" && slices.ContainsFunc(doc.Parts, func(p page.Part) bool {
		return !p.Inline && document(p.Type) && len(p.Data) > 0
	})
}

// evidential reports whether a reading says that the paper proves something.
func evidential(r paper.Reading) bool {
	return r.Outcome == paper.OutcomeRead && r.Kind() != paper.NotEvidence
}

// carrier is the reading of a message that proves nothing but carries a document,
// which is a paper of its own.
func carrier(r paper.Reading) paper.Reading {
	return noEvidence(r, "it is the message that a document came with; the document is a paper of its own")
}

// archive is the reading of an archive: its files are papers of their own. One of which
// not all could be taken out stays unread, so that a person sees to the rest.
func archive(doc page.Document) paper.Reading {
	if doc.Reason != "" {
		return paper.Reading{Outcome: paper.OutcomeUnreadable, Reason: doc.Reason, From: 1, To: 1, Reader: Version, Values: map[paper.Field]paper.Value{}}
	}
	return noEvidence(paper.Reading{From: 1, To: 1}, fmt.Sprintf("it is an archive; what is in it (%d) is a paper of its own each", len(doc.Parts)))
}

func noEvidence(r paper.Reading, why string) paper.Reading {
	return paper.Reading{Outcome: paper.OutcomeNotEvidence, From: r.From, To: r.To, Part: r.Part, Language: r.Language, Reader: Version,
		Reason: why,
		Values: map[paper.Field]paper.Value{paper.FieldKind: {Text: string(paper.NotEvidence), Certain: true, Score: 1000, By: paper.ByProgram, Place: r.Values[paper.FieldKind].Place}}}
}

// quoteMost bounds a quote, in letters: a file of one endless word must not become an
// endless reading.
const quoteMost = 400

// bound cuts what is quoted and said in r to a length that a person would read.
func bound(r *paper.Reading) {
	for f, v := range r.Values {
		v.Text, v.Place.Quote = clip(elide(v.Text)), clip(v.Place.Quote)
		v.Candidates = boundAll(v.Candidates)
		r.Values[f] = v
	}
	for i := range r.Questions {
		q := &r.Questions[i]
		q.Text = clip(q.Text)
		q.Candidates = boundAll(q.Candidates)
	}
	for i := range r.Rows {
		r.Rows[i].Title, r.Rows[i].Place.Quote = clip(r.Rows[i].Title), clip(r.Rows[i].Place.Quote)
	}
}

// elided is a French article or pronoun that has lost its vowel, torn from the word
// that it belongs to where a slanted letter stands far off.
var elided = matching(`(^|[ («])([dljnsmtcDLJNSMTC]|[Qq]u)([’']) (\pL)`)

func elide(s string) string { return elided.ReplaceAllString(s, "$1$2$3$4") }

func boundAll(list []paper.Candidate) []paper.Candidate {
	list = slices.Clone(list)
	for i := range list {
		list[i].Text, list[i].Why, list[i].Place.Quote = clip(list[i].Text), clip(list[i].Why), clip(list[i].Place.Quote)
	}
	return list
}

func clip(s string) string {
	if len(s) <= quoteMost {
		return s
	}
	if runes := []rune(s); len(runes) > quoteMost {
		return string(runes[:quoteMost-1]) + "…"
	}
	return s
}
