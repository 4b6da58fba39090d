package page

import (
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A page is read more than once: in all languages and in its own, as a page with columns
// and as one block. What one reading lacks the other may have; where they contradict each
// other neither is sure.

// torn says that words are missing their beginning, as the sums of a slip do whose column
// was cut, that they have letters that nobody wrote, or that one was cut in two: neither
// ".00" nor "HaARBOUR" is a word.
func (a attempt) torn() bool {
	return len(pieces(a.words)) > 0 || slices.ContainsFunc(a.words, func(w Word) bool {
		return oddCase.MatchString(w.Text) || len(w.Text) > 1 && strings.ContainsAny(w.Text[:1], ".,-") && w.Text[1] >= '0' && w.Text[1] <= '9'
	})
}

// oddCase is a small letter between capitals, of which recognition makes two of one; a
// name like McDONALD has it too, and is read so both times.
var oddCase = regexp.MustCompile(`^\p{Lu}+\p{Ll}\p{Lu}{2,}`)

// withMissed adds words of a second pass where the first found none, or only the end of
// them. The first, which looks for columns and pictures, takes a column of figures that
// stands alone for a picture and leaves it out; the second takes the page for one block
// and reads it.
func withMissed(first, second []Word) []Word {
	all := slices.Clone(first)
	for _, w := range second {
		sure := missedSure
		if utf8.RuneCountInString(w.Text) == 1 {
			sure = missedLetter
		}
		if w.Confidence < sure || !lettered(w.Text) {
			continue
		}
		over := func(o Word) bool { return o.holdsMiddle(w) || w.holdsMiddle(o) }
		all = slices.DeleteFunc(all, func(o Word) bool {
			return over(o) && (tails(w, o) || oddCase.MatchString(o.Text) && !oddCase.MatchString(w.Text) && len(w.Text)+1 == len(o.Text))
		})
		if !slices.ContainsFunc(all, over) {
			all = append(all, w)
		}
	}
	return all
}

// tails says whether part reads as the end of whole, and stands there.
func tails(whole, part Word) bool {
	end := strings.TrimLeft(part.Text, ".,-–—:")
	return len(end) < len(whole.Text) && strings.HasSuffix(whole.Text, end) && part.Box[0] > whole.Box[0]
}

// doubted lowers the confidence in words that another reading of the same picture has
// otherwise: in letters or figures, not in accents or marks.
func doubted(words, other []Word) {
	for i := range words {
		w := &words[i]
		for _, o := range other {
			surely := o.Confidence+20 >= w.Confidence // a reading that is itself unsure contradicts nothing
			if surely && w.holdsMiddle(o) && o.holdsMiddle(*w) && core(o.Text) != core(w.Text) && core(o.Text) != "" && core(w.Text) != "" {
				w.Confidence = min(w.Confidence, contradicted)
			}
		}
	}
}

// withSpaces parts words of a reading where another has the same letters with a space, and is surer of
// them: letters that nearly touch are soon taken for one word, hardly ever one word for two.
func withSpaces(words, other []Word) []Word {
	var out []Word
	for _, w := range words {
		var parts []Word
		text := ""
		for _, o := range other {
			if w.holdsMiddle(o) && (len(parts) == 0 || o.line == parts[0].line) {
				parts, text = append(parts, o), text+o.Text
			}
		}
		surer := len(parts) > 1 && text == w.Text && !slices.ContainsFunc(parts, func(p Word) bool { return p.Confidence <= w.Confidence || utf8.RuneCountInString(p.Text) < 2 })
		if !surer {
			out = append(out, w)
			continue
		}
		for _, p := range parts {
			p.line = w.line
			out = append(out, p)
		}
	}
	return out
}

// contradicted is the confidence in a word that was read otherwise the second time: too
// little for anything that is certain.
const contradicted = 60

// core is what two readings must have in common: letters without their accents, and figures.
func core(text string) string {
	return strings.Map(func(r rune) rune {
		if plain, ok := unaccented[r]; ok {
			r = plain
		}
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return unicode.ToLower(r)
		}
		return -1
	}, text)
}

var unaccented = map[rune]rune{
	'ä': 'a', 'à': 'a', 'á': 'a', 'â': 'a', 'Ä': 'a', 'Á': 'a', 'À': 'a', 'ö': 'o', 'ó': 'o', 'ô': 'o', 'Ö': 'o', 'Ó': 'o', 'ü': 'u', 'ú': 'u', 'ù': 'u', 'û': 'u',
	'Ü': 'u', 'Ú': 'u', 'é': 'e', 'è': 'e', 'ê': 'e', 'ë': 'e', 'É': 'e', 'È': 'e', 'í': 'i', 'ï': 'i', 'î': 'i', 'Í': 'i', 'ñ': 'n', 'Ñ': 'n', 'ç': 'c', 'Ç': 'c',
}
