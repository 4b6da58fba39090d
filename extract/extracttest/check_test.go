package extracttest

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// TestTruthsAreConsistent checks each truth against the words of its paper and against
// what was drawn.
func TestTruthsAreConsistent(t *testing.T) {
	for _, m := range papers(t) {
		for _, problem := range slices.Concat(checkShape(m), checkDays(m), checkLength(m), checkPrinted(m), checkWeekdays(m), checkCountry(m), checkOrder(m)) {
			t.Errorf("%s (%s, %s, %s): %s\n%s", m.Name, m.Truth.Kind, m.Truth.Language, m.facts.layout, problem, m.Text)
		}
	}
}

// valueOf returns a field of the truth in the form that paper.Canonical reads, or "".
func valueOf(tr Truth, f paper.Field) string {
	get := func(s *string) string {
		if s == nil {
			return ""
		}
		return *s
	}
	switch f {
	case paper.FieldKind:
		return string(tr.Kind)
	case paper.FieldTitle:
		return get(tr.Title)
	case paper.FieldProvider:
		return get(tr.Provider)
	case paper.FieldAttendee:
		return get(tr.Attendee)
	case paper.FieldStart:
		return get(tr.Start)
	case paper.FieldEnd:
		return get(tr.End)
	case paper.FieldIssue:
		return get(tr.Issue)
	case paper.FieldDuration:
		if tr.Duration != nil {
			return strconv.FormatInt(*tr.Duration, 10)
		}
	case paper.FieldCredits:
		return strings.TrimSpace(paper.FormatCredits(tr.Credits))
	case paper.FieldTotal:
		if tr.Total != nil {
			return tr.Total.String()
		}
	}
	return ""
}

// checkShape finds values that are not canonical, and fields that are both known and open.
func checkShape(m Made) (problems []string) {
	for _, f := range paper.Fields() {
		v := valueOf(m.Truth, f)
		if v == "" {
			continue
		}
		if got, err := paper.Canonical(f, v); err != nil || got != v {
			problems = append(problems, fmt.Sprintf("%s %q is not canonical: %v", f, v, err))
		}
		if m.Truth.Asks(f) {
			problems = append(problems, fmt.Sprintf("%s is known and asked about", f))
		}
		if m.Truth.Kind == paper.NotEvidence && f != paper.FieldKind {
			problems = append(problems, fmt.Sprintf("%s of a paper that is no evidence", f))
		}
	}
	for i, a := range m.Truth.Ask {
		if len(a.Candidates) < 1 || slices.ContainsFunc(m.Truth.Ask[i+1:], func(b Ask) bool { return a.Field == b.Field }) {
			problems = append(problems, fmt.Sprintf("%s is asked about twice, or without candidates", a.Field))
		}
	}
	if len(m.Data) == 0 || m.Truth.File != m.Name {
		problems = append(problems, "the file is empty or has another name than its truth")
	}
	return problems
}

// checkDays finds days in a wrong order, and fields that a kind cannot have.
func checkDays(m Made) (problems []string) {
	day := func(f paper.Field) credit.Date {
		d, _ := credit.ParseDate(valueOf(m.Truth, f)) // checked by checkShape; no day is the zero Date
		return d
	}
	start, end, issue := day(paper.FieldStart), day(paper.FieldEnd), day(paper.FieldIssue)
	if !inOrder(start, end) {
		problems = append(problems, "the end lies before the start")
	}
	switch m.Truth.Kind {
	case paper.Receipt, paper.Membership, paper.Employment, paper.Publication, paper.Credential:
		if m.Truth.Duration != nil {
			problems = append(problems, "this kind has no length")
		}
	case paper.Transcript:
		if m.Truth.Title != nil {
			problems = append(problems, "a transcript has no single title")
		}
	}
	switch m.Truth.Kind {
	case paper.Receipt, paper.Membership, paper.Employment:
	default:
		if !inOrder(end, issue) {
			problems = append(problems, "issued before the end")
		}
		if m.Truth.Total != nil {
			problems = append(problems, "this kind has no total")
		}
	}
	return problems
}

// checkLength works the minutes out again from what was drawn.
func checkLength(m Made) []string {
	f := m.facts
	if m.Truth.Duration == nil && !m.Truth.Asks(paper.FieldDuration) {
		return nil
	}
	net := 0
	for _, c := range f.clocks {
		net += c.minutes()
	}
	for _, b := range f.breaks {
		net -= b.minutes()
	}
	net *= max(1, f.days)
	if m.Truth.Asks(paper.FieldDuration) {
		if len(f.clocks) > 0 && (net >= f.stated || f.stated == 0) {
			return []string{"asked about, but the stated length is not longer than the clock times"}
		}
		return nil
	}
	got := int(*m.Truth.Duration)
	switch {
	case f.stated > 0 && got != f.stated:
		return []string{fmt.Sprintf("%d minutes, but %d are stated", got, f.stated)}
	case f.stated > 0 && len(f.clocks) > 0 && f.stated > net:
		return []string{fmt.Sprintf("%d minutes are stated, more than the clock's %d", f.stated, net)}
	case f.stated == 0 && len(f.clocks) > 0 && got != net:
		return []string{fmt.Sprintf("%d minutes, but the clock times less breaks give %d", got, net)}
	case got <= 0 || got > 7*24*60:
		return []string{fmt.Sprintf("%d minutes cannot be", got)}
	}
	return nil
}

var letters = regexp.MustCompile(`[^\pL\pN]+`)

func folded(text string) string {
	return strings.TrimSpace(letters.ReplaceAllString(strings.ToLower(text), " "))
}

// checkPrinted finds values that do not stand on the paper.
func checkPrinted(m Made) (problems []string) {
	on := " " + folded(m.Text) + " "
	where := on
	if m.Truth.Format == "eml" { // a message names its sender, its receiver and its day in its head
		where += folded(string(m.Data[:min(len(m.Data), 700)])) + " "
	}
	for _, f := range []paper.Field{paper.FieldTitle, paper.FieldProvider} {
		if v := folded(valueOf(m.Truth, f)); v != "" && !strings.Contains(on, " "+v+" ") {
			problems = append(problems, fmt.Sprintf("%s %q is not printed", f, v))
		}
	}
	for word := range strings.FieldsSeq(folded(valueOf(m.Truth, paper.FieldAttendee))) {
		if !strings.Contains(on, " "+word+" ") {
			problems = append(problems, fmt.Sprintf("attendee: %q is not printed", word))
		}
	}
	for _, f := range []paper.Field{paper.FieldStart, paper.FieldEnd, paper.FieldIssue} {
		d, err := credit.ParseDate(valueOf(m.Truth, f))
		if err == nil && !dayPrinted(m, where, d) {
			problems = append(problems, fmt.Sprintf("%s %v is not printed", f, d))
		}
	}
	digits := regexp.MustCompile(`[^0-9]+`)
	if v := m.Truth.Total; v != nil && !strings.Contains(digits.ReplaceAllString(m.Text, ""), digits.ReplaceAllString(v.Amount, "")) {
		problems = append(problems, "the total is not printed")
	}
	for _, c := range m.Truth.Credits {
		if !strings.Contains(on, folded(c.Unit)) || m.Truth.Kind != paper.Transcript && !strings.Contains(on, folded(c.Value.String())) {
			problems = append(problems, fmt.Sprintf("credits %v %s are not printed", c.Value, c.Unit))
		}
	}
	return problems
}

// dayPrinted reports whether day, month and year stand on the paper, the month as a
// number or a name.
func dayPrinted(m Made, on string, d credit.Date) bool {
	if m.Truth.Kind == paper.Membership && strings.Contains(on, " "+strconv.Itoa(d.Time().Year())+" ") {
		return true // a period may be a year
	}
	y, month, day := d.YMD()
	name := strings.ToLower(lists[m.Truth.Language[:2]]["months"][month-1])
	short := strings.ToLower(month.String()[:3]) // in the head of a message
	has := func(any ...string) bool {
		return slices.ContainsFunc(any, func(s string) bool { return strings.Contains(on, " "+s+" ") })
	}
	n, mm := strconv.Itoa(day), strconv.Itoa(int(month))
	return has(strconv.Itoa(y), fmt.Sprintf("%02d", y%100)) &&
		has(n, "0"+n, n+"st", n+"nd", n+"rd", n+"th", n+"er") &&
		has(mm, "0"+mm, name, string([]rune(name)[:3]), short)
}

// checkWeekdays finds weekdays beside a spelt date that are not that date's.
func checkWeekdays(m Made) (problems []string) {
	w := lists[m.Truth.Language[:2]]
	sep := `,?(?: den| the)? `
	for i, name := range w["weekdays"] {
		numeric := regexp.MustCompile(`(?i)\b` + name + sep + `(\d\d?)[./](\d\d?)[./](\d{4})`)
		for _, got := range numeric.FindAllStringSubmatch(m.Text, -1) {
			a, _ := strconv.Atoi(got[1])
			b, _ := strconv.Atoi(got[2])
			y, _ := strconv.Atoi(got[3])
			first, ok1 := credit.ValidDay(y, b, a)
			second, ok2 := credit.ValidDay(y, a, b)
			if !(ok1 && int(first.Weekday()) == i) && !(ok2 && int(second.Weekday()) == i) {
				problems = append(problems, fmt.Sprintf("%q is another weekday", got[0]))
			}
		}
		for j, month := range w["months"] {
			spelt := regexp.MustCompile(`(?i)\b` + name + sep + `(\d\d?)(?:st|nd|rd|th|er|\.)? (?:de )?` + month + ` (?:de )?(\d{4})`)
			for _, got := range spelt.FindAllStringSubmatch(m.Text, -1) {
				d, _ := strconv.Atoi(got[1])
				y, _ := strconv.Atoi(got[2])
				if day, ok := credit.ValidDay(y, j+1, d); !ok || int(day.Weekday()) != i {
					problems = append(problems, fmt.Sprintf("%q is another weekday", got[0]))
				}
			}
		}
	}
	return problems
}

var (
	british  = regexp.MustCompile(`01632 960|\b(?:OT4 9ZZ|QX7 3AA|ZZ1 1ZZ|XQ12 8QQ)\b`)
	american = regexp.MustCompile(`-555-01|, (?:KS|OK|ND|ID|OH|NM)\s\d{5}`)
)

// checkCountry finds English papers that do not show their country, and those that do
// though nothing should.
func checkCountry(m Made) []string {
	if m.Truth.Kind == paper.NotEvidence {
		return nil
	}
	all := strings.Join(strings.Fields(m.Text), " ")
	gb, us := british.MatchString(all), american.MatchString(all)
	if gb != (m.Truth.Language == "en-GB") || us != (m.Truth.Language == "en-US") {
		return []string{fmt.Sprintf("language %s: British address %v, American %v", m.Truth.Language, gb, us)}
	}
	return nil
}

var slashed = regexp.MustCompile(`\b(\d{1,2})[./](\d{1,2})[./](\d{4})\b`)

// checkOrder finds papers that leave the order of day and month open although a number
// above 12 settles it, and papers that do so outside plain English.
func checkOrder(m Made) []string {
	open := slices.ContainsFunc(m.Truth.Ask, func(a Ask) bool {
		first, ok1 := credit.ParseDate(fmt.Sprint(a.Candidates[0]))
		second, ok2 := credit.ParseDate(fmt.Sprint(a.Candidates[len(a.Candidates)-1]))
		turned, can := otherWay(first)
		return ok1 == nil && ok2 == nil && can && first != second && turned == second
	})
	if !open {
		return nil
	}
	if m.Truth.Language != "en" {
		return []string{"the language or the address settles the order"}
	}
	for _, got := range slashed.FindAllStringSubmatch(m.Text, -1) {
		a, _ := strconv.Atoi(got[1]) // digits by the pattern
		b, _ := strconv.Atoi(got[2])
		if a > 12 || b > 12 {
			return []string{fmt.Sprintf("%s settles the order", got[0])}
		}
	}
	return nil
}

// TestEveryKindLanguageAndFormatIsMade guards the mixture: a weight that fell to nothing
// would leave the reading unjudged there.
func TestEveryKindLanguageAndFormatIsMade(t *testing.T) {
	count := map[string]int{}
	open := map[paper.Field]int{}
	for _, m := range Make(3, 400) {
		count[string(m.Truth.Kind)]++
		count[m.Truth.Language]++
		count[m.Truth.Format]++
		count[m.facts.layout]++
		for _, a := range m.Truth.Ask {
			open[a.Field]++
		}
	}
	for _, k := range paper.Kinds() {
		if count[string(k)] < 4 {
			t.Errorf("only %d papers of kind %s among 400", count[string(k)], k)
		}
	}
	for _, name := range []string{"en-GB", "en-US", "en", "de", "fr", "es", "nl", "pdf", "html", "txt", "eml", "docx", "ics",
		"centred", "pairs", "beneath", "above", "columns", "boxes", "letter", "sentence", "landscape", "sidebar", "panel", "slip"} {
		if count[name] == 0 {
			t.Errorf("no %s paper among 400", name)
		}
	}
	for _, f := range []paper.Field{paper.FieldAttendee, paper.FieldStart, paper.FieldEnd, paper.FieldIssue, paper.FieldDuration, paper.FieldCredits, paper.FieldTotal} {
		if open[f] == 0 {
			t.Errorf("no paper among 400 leaves %s open", f)
		}
	}
}

// TestEveryLanguageHasEveryWording finds a section that one language lacks, and a
// placeholder that one wording of a section has to have and does not.
func TestEveryLanguageHasEveryWording(t *testing.T) {
	onlyHere := []string{"particle", "phoneno", "address", "dear.all"}
	for language, w := range lists {
		for section, lines := range lists["en"] {
			if base, isForm := strings.CutSuffix(section, ".us"); isForm || strings.HasSuffix(section, ".en") || slices.Contains(onlyHere, base) {
				continue
			}
			if len(w[section]) == 0 {
				t.Errorf("words/%s.txt lacks [%s], which en has with %d wordings", language, section, len(lines))
			}
		}
		for section, lines := range w {
			for _, line := range lines {
				if strings.HasPrefix(section, "lines.") && strings.Count(line, "|") != 4 {
					t.Errorf("words/%s.txt [%s] %q: want five parts", language, section, line)
				}
				if strings.Count(line, "{") != strings.Count(line, "}") || line != strings.TrimFunc(line, func(r rune) bool {
					return unicode.IsSpace(r) && section != "joiner" && section != "list.and" && !strings.HasPrefix(section, "joiner")
				}) {
					t.Errorf("words/%s.txt [%s] %q: loose brace or space", language, section, line)
				}
			}
		}
	}
}
