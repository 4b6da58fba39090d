package page

import (
	"slices"
	"strings"
)

// smallWords are the words that tell a language in a few lines, as the names of
// recognition have it (ISO 639-2/T); each stands in one language of these only. Common
// practice, no source.
var smallWords = map[string][]string{
	"eng": {"the", "of", "and", "this", "that", "has", "for", "on", "by", "certificate", "attended", "date", "hours", "name"},
	"deu": {"der", "die", "das", "und", "hat", "von", "für", "fur", "fiir", "am", "wird", "dass", "bis", "uhr", "mit", "zum", "bescheinigung", "stunden", "teilgenommen", "datum"},
	"fra": {"le", "les", "et", "une", "pour", "du", "est", "par", "nous", "que", "attestation", "heures", "durée", "formation", "certificat", "à"},
	"spa": {"el", "los", "del", "y", "por", "con", "ha", "certificado", "horas", "fecha", "duración", "nombre", "una", "las", "para"},
	"nld": {"het", "een", "van", "heeft", "voor", "op", "uur", "bewijs", "deelname", "naam", "wij", "dat", "te", "aan", "met"},
}

// tongueOf returns the language that the words are in, of those listed, if one stands out
// clearly; else "".
func tongueOf(words []Word, among []string) string {
	count := map[string]int{}
	for _, w := range words {
		low := strings.Trim(strings.ToLower(w.Text), ".,:;()")
		for lang, list := range smallWords {
			if slices.Contains(list, low) {
				count[lang]++
			}
		}
	}
	best, second := "", 0
	for _, lang := range among {
		switch n := count[lang]; {
		case best == "" || n > count[best]:
			second = count[best]
			best = lang
		case n > second:
			second = n
		}
	}
	if count[best] < 3 || count[best] < 2*second {
		return ""
	}
	return best
}

// spoken chooses between what all languages together read and what the page's own
// language read: that one knows its accents, but a page in two languages suffers.
func spoken(all, own attempt) attempt {
	if own.worth()*100 >= all.worth()*93 {
		own.words = withSpaces(own.words, all.words)
		doubted(own.words, all.words)
		return own
	}
	doubted(all.words, own.words)
	return all
}
