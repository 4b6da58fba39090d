package scheme

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"evidencevault/credit"
)

var (
	chosenLine = regexp.MustCompile(`^[ \t]*(chosen|since)[ \t]*=`)
	headerLine = regexp.MustCompile(`^[ \t]*\[`)
)

// SetChosen returns the file with what is settled on written into it: how often, or how
// many hours, by the line on which the activity's table begins; 0 takes it out. Everything else keeps
// its bytes. The error says that the file cannot be changed without touching more.
func SetChosen(name string, data []byte, chosen map[int]credit.Amount, since credit.Date) ([]byte, error) {
	before, problems := ParsePossible(name, data)
	if len(problems) > 0 {
		return nil, fmt.Errorf("%s", problems[0])
	}
	lines := bytes.SplitAfter(data, []byte("\n"))
	var out bytes.Buffer
	at := 0 // the line of the activity that we are in; 0: none
	for n, line := range lines {
		if slices.ContainsFunc(before.Activities, func(a credit.Possible) bool { return a.Line == n+1 }) {
			at = n + 1
			out.Write(line)
			if a, ok := chosen[at]; ok && a.Sign() > 0 {
				if !bytes.HasSuffix(line, []byte("\n")) {
					out.WriteString("\n")
				}
				fmt.Fprintf(&out, "chosen = %q\nsince = %q\n", a, since)
			}
			continue
		}
		if headerLine.Match(line) && !strings.HasPrefix(strings.TrimSpace(string(line)), "[[activity]]") {
			at = 0
		}
		if _, ok := chosen[at]; ok && chosenLine.Match(line) {
			continue
		}
		out.Write(line)
	}
	after, problems := ParsePossible(name, out.Bytes())
	if len(problems) > 0 || !sameBut(before.Activities, after.Activities, chosen, since) {
		return nil, fmt.Errorf("%s: the lines chosen and since could not be written without touching more; write them by hand", name)
	}
	return out.Bytes(), nil
}

// sameBut reports whether after is before with what was chosen, and nothing else.
func sameBut(before, after []credit.Possible, chosen map[int]credit.Amount, since credit.Date) bool {
	if len(before) != len(after) {
		return false
	}
	for i := range before {
		want, got := before[i], after[i]
		if a, ok := chosen[before[i].Line]; ok {
			want.Chosen, want.Since = a, credit.Date{}
			if a.Sign() > 0 {
				want.Since = since
			}
		}
		want.Line, got.Line = 0, 0
		if !want.Chosen.Equal(got.Chosen) || want.Since != got.Since || want.Title != got.Title || want.Category != got.Category ||
			!want.Cost.Equal(got.Cost) || !want.Hours.Equal(got.Hours) || !slices.Equal(want.Dates, got.Dates) {
			return false
		}
	}
	return true
}
