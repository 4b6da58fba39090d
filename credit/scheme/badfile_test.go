package scheme_test

import (
	"strings"
	"testing"
	"time"

	"evidencevault/credit/scheme"
)

// TestBadClaimsFilesAreFindings: what no claims file can mean is told with its place, at
// once, and nothing is put in the place of what cannot be read.
func TestBadClaimsFilesAreFindings(t *testing.T) {
	claim := func(rest string) string { return `{"claims": [{"id": "a", "category": "course"` + rest + `}]}` }
	tests := []struct {
		why, file, want string
		line, column    int
	}{
		{"UTF-16", "\xff\xfe{\x00}\x00", "UTF-16", 1, 1},
		{"a byte that is no text", claim(`, "title": "` + "\xff" + `"`), "no text in UTF-8", 1, 57},
		{"NUL", claim(`, "title": "` + "\x00" + `"`), "no text", 1, 57},
		{"no number", claim(`, "count": NaN`), "invalid character", 1, 56},
		{"an exponent", claim(`, "count": 1e400`), "1e400", 1, 56},
		{"a negative time", claim(`, "duration_minutes": -5`), "below 0", 1, 67},
		{"25 hours in a day", claim(`, "start_date": "2024-02-01", "end_date": "2024-02-01", "duration_minutes": 1500`), "more than its 1 day", 1, 121},
		{"an id over two lines", `{"claims": [{"id": "a\nb", "category": "course"}]}`, "breaks the line", 1, 14},
		{"one id twice", "{\"claims\": [{\"id\": \"a\", \"category\": \"c\"},\r\n{\"id\": \"a\", \"category\": \"c\"}]}", "second time, first on line 1", 2, 2},
		{"nested 10,000 deep", strings.Repeat("[", 10_000), "nested more than 32", 1, 34},
		{"50 MB", `{"claims": [` + strings.Repeat(" ", 50_000_000) + `]}`, "bytes, more than", 1, 1},
		{"a turned line", claim(`, "provider": "a` + "\u202e" + `b"`), "does not show", 1, 59},
	}
	for _, tt := range tests {
		began := time.Now()
		_, bad := scheme.ParseClaims("f.json", []byte(tt.file))
		if took := time.Since(began); took > 2*time.Second {
			t.Errorf("%s: %v until it was told", tt.why, took)
		}
		if len(bad) == 0 || !strings.Contains(bad[0].Text, tt.want) || bad[0].Line != tt.line || bad[0].Column != tt.column {
			t.Errorf("%s: %v, want %q at %d:%d", tt.why, bad, tt.want, tt.line, tt.column)
		}
	}
}
