package page

import (
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
)

// unmangled undoes what a program did that took UTF-8 for Windows-1252: "PrÃ¼fung" is
// "Prüfung". A text is changed only as a whole, and only where all its letters outside
// ASCII come to UTF-8 that way; then hardly anybody meant what stands there.
func unmangled(text string) string {
	if !strings.ContainsAny(text, "ÂÃÄÅâðÐÎ") {
		return text // what every letter of the languages read here would begin with
	}
	raw, err := charmap.Windows1252.NewEncoder().String(text)
	if err != nil || !utf8.ValidString(raw) {
		return text
	}
	return raw
}
