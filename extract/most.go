package extract

import (
	"fmt"
	"strings"

	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// What is looked at of one document: more than any certificate has, and little enough
// that reading ends soon whatever was dropped. What is beyond is not looked at.
const (
	mostLetters = 2_000  // of a line, or of a word
	mostLines   = 2_000  // of a page without boxes
	mostWords   = 40_000 // of a document
	mostOfOne   = 8_000  // words of one paper
	mostOfLeaf  = 1_500  // words of a page, where it is asked whether a paper begins there
)

// within returns pages without what is beyond these limits and so many words, and
// whether something was. What pages holds is not changed.
func within(all []page.Page, most int) (pages []page.Page, cut bool) {
	words := 0
	for _, p := range all {
		if words >= most {
			cut = true
			break
		}
		if n := min(len(p.Words), most-words); n < len(p.Words) {
			p.Words, cut = p.Words[:n], true
		}
		words += len(p.Words)
		lines := make([]string, 0, min(len(p.Lines), mostLines))
		for _, l := range p.Lines {
			if len(lines) >= mostLines || words >= most {
				cut = true
				break
			}
			if len(l) > mostLetters {
				l, cut = strings.ToValidUTF8(l[:mostLetters], ""), true
			}
			words += 1 + strings.Count(l, " ")
			lines = append(lines, l)
		}
		if p.Lines != nil {
			p.Lines = lines
		}
		p.Words = shorter(p.Words, &cut)
		pages = append(pages, p)
	}
	return pages, cut
}

func shorter(words []page.Word, cut *bool) []page.Word {
	for i, w := range words {
		if len(w.Text) <= mostLetters {
			continue
		}
		words = append([]page.Word(nil), words...)
		for j := i; j < len(words); j++ {
			if t := words[j].Text; len(t) > mostLetters {
				words[j].Text, *cut = strings.ToValidUTF8(t[:mostLetters], ""), true
			}
		}
		return words
	}
	return words
}

// doubt takes certainty from the reading of a paper that was not read to its end, and
// asks, so that nobody confirms it unseen with the clear ones.
func doubt(r *paper.Reading, why string) {
	for f, v := range r.Values {
		v.Certain = false
		r.Values[f] = v
	}
	if r.Reason == "" {
		r.Reason = why + "; look at the rest before confirming"
	}
	kind := r.Values[paper.FieldKind]
	if _, asked := r.Question(paper.FieldKind); asked || kind.Text == "" {
		return
	}
	r.Questions = append(r.Questions, paper.Question{Field: paper.FieldKind,
		Text:       fmt.Sprintf("Is it of the kind %s? Of the paper, %s.", kind.Text, why),
		Candidates: []paper.Candidate{{Text: kind.Text, Why: "what was read says so", Place: kind.Place}}})
}
