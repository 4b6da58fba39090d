package find

import "slices"

// Span is a half-open part of a text, in bytes. The zero Span is empty.
type Span struct{ From, To int }

// Of returns the part of text that s covers.
func (s Span) Of(text string) string { return text[s.From:s.To] }

// Overlaps reports whether s and t share a byte.
func (s Span) Overlaps(t Span) bool { return s.From < t.To && t.From < s.To }

// Within reports whether s lies in t.
func (s Span) Within(t Span) bool { return t.From <= s.From && s.To <= t.To }

// Lang is a language by its ISO 639-1 code; "" is not known.
type Lang string

// The languages that the finders read.
const (
	English Lang = "en"
	German  Lang = "de"
	French  Lang = "fr"
	Spanish Lang = "es"
	Dutch   Lang = "nl"
)

// Languages are those a text may be in. Nil or empty means any. Words are
// found in all five languages whatever stands here, since papers mix them; what
// depends on it is the order of day and month, and words that two languages
// use in different senses.
type Languages []Lang

// DayFirst reports whether no language of l puts the month first, so that
// 03/04/2026 can only be 3 April. Any includes English, which may.
func (l Languages) DayFirst() bool {
	return len(l) > 0 && !slices.Contains(l, English) && !slices.Contains(l, "")
}
