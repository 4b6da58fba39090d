package find_test

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"evidencevault/credit"
	"evidencevault/extract/find"
)

// outside is a case of the collections named in testdata/SOURCES.md.
type outside struct {
	ID        string      `json:"id"`
	Lang      string      `json:"lang"`
	Text      string      `json:"text"`
	Reference credit.Date `json:"reference"`
	Expect    []item      `json:"expect"`
	Note      string      `json:"note"`
}

// item is what is found in a text; each kind of case has its own fields.
type item struct {
	Start    string  `json:"start,omitempty"`
	End      string  `json:"end,omitempty"`
	Minutes  int64   `json:"minutes,omitempty"`
	From     string  `json:"from,omitempty"`
	To       string  `json:"to,omitempty"`
	Amount   string  `json:"amount,omitempty"`
	Currency *string `json:"currency,omitempty"`
}

func readCases(t *testing.T, path string) []outside {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var cases []outside
	lines := bufio.NewScanner(f)
	for lines.Scan() {
		var c outside
		if err := json.Unmarshal(lines.Bytes(), &c); err != nil {
			t.Fatalf("%s: %v", path, err)
		}
		cases = append(cases, c)
	}
	if err := lines.Err(); err != nil {
		t.Fatal(err)
	}
	return cases
}

func languages(c outside) find.Languages {
	if len(c.Lang) < 2 || c.Lang == "und" {
		return nil
	}
	return find.Languages{find.Lang(c.Lang[:2])}
}

// nearest gives the day of r in the year that brings it nearest to ref.
func nearest(r find.Reading, ref credit.Date) string {
	if !r.Day.IsZero() {
		return r.Day.String()
	}
	y, _, _ := ref.YMD()
	var best credit.Date
	for _, year := range []int{y - 1, y, y + 1} {
		if d, ok := r.In(year); ok && (best.IsZero() || abs(d.Sub(ref)) < abs(best.Sub(ref))) {
			best = d
		}
	}
	return best.String()
}

func abs(n int) int { return max(n, -n) }

func answerDates(c outside) []item {
	var got []item
	for _, r := range find.Ranges(c.Text, languages(c)) {
		if st := r.Readings[0]; r.Lack == find.Whole && !r.Open && st.Start == st.End {
			got = append(got, item{Start: st.Start.String()}) // from 9 to 11 on one day
		}
	}
	for _, d := range find.Dates(c.Text, languages(c)) {
		switch {
		case d.Form == find.Relative && !c.Reference.IsZero():
			got = append(got, item{Start: c.Reference.AddDays(d.Offset).String()})
		case d.Form == find.Relative || d.Lack > find.NoYear || d.Lack == find.NoYear && c.Reference.IsZero():
		default:
			got = append(got, item{Start: nearest(d.Readings[0], c.Reference)})
		}
	}
	return got
}

func answerRanges(c outside) []item {
	var got []item
	for _, r := range find.Ranges(c.Text, languages(c)) {
		st := r.Readings[0]
		switch {
		case r.Open, r.Lack == find.Whole && st.Start == st.End:
		case r.Lack != find.NoYear:
			got = append(got, item{Start: st.Start.String(), End: st.End.String()})
		case !c.Reference.IsZero():
			from := credit.MustDate(nearest(st.From, c.Reference))
			to := credit.MustDate(nearest(st.To, c.Reference))
			if to.Before(from) {
				to = to.AddYears(1)
			}
			got = append(got, item{Start: from.String(), End: to.String()})
		}
	}
	for _, d := range find.Dates(c.Text, languages(c)) {
		if d.Lack == find.MonthOnly {
			got = append(got, item{Start: d.Readings[0].First().String(), End: d.Readings[0].Last().String()})
		}
	}
	return got
}

func clock(m int) string { return time.Unix(int64(m)*60, 0).UTC().Format("15:04") }

func answerClocks(c outside) []item {
	var got []item
	for _, k := range find.Clocks(c.Text, languages(c)) {
		got = append(got, item{From: clock(k.From), To: clock(k.To)})
	}
	return got
}

func answerDurations(c outside) []item {
	var got []item
	for _, d := range find.Durations(c.Text, languages(c)) {
		m := int64(d.Minutes)
		if days, ok := map[find.Unit]int64{find.Day: 1440, find.Week: 10080}[d.Unit]; ok && m == 0 {
			if v := d.Count.Rat().Num(); v.IsInt64() && d.Count.Rat().IsInt() {
				m = v.Int64() * days
			}
		}
		got = append(got, item{Minutes: m})
	}
	return got
}

func answerAmounts(c outside) []item {
	var got []item
	for _, a := range find.Amounts(c.Text, languages(c)) {
		it := item{Amount: a.Value}
		switch {
		case a.Currency != "":
			it.Currency = &a.Currency
		case a.Sign != "":
			sign := a.Family
			it.Currency = &sign
		}
		got = append(got, it)
	}
	if len(got) == 0 && c.Lang == "und" {
		if a, ok := find.Figure(c.Text); ok {
			got = append(got, item{Amount: a.Value})
		}
	}
	return got
}

var answers = map[string]func(outside) []item{
	"dates": answerDates, "ranges": answerRanges, "clock_ranges": answerClocks, "durations": answerDurations, "amounts": answerAmounts,
}

// sharing are the currencies that print the same sign.
var sharing = map[string]string{
	"$": "USD CAD AUD NZD HKD SGD MXN TWD BZD JMD TTD ARS CLP COP UYU", "£": "GBP EGP LBP SDG SYP GIP FKP",
	"kr": "SEK NOK DKK ISK", "¥": "JPY CNY", "Rs": "INR PKR LKR NPR MUR SCR",
}

// same reports whether got is what is wanted. A sign is met by any currency that
// prints it.
func same(t *testing.T, want, got item) bool {
	t.Helper()
	if want.Amount == "" {
		return want.Start == got.Start && (want.End == got.End || want.End == "" && got.End == want.Start || got.End == "" && want.End == want.Start) &&
			want.Minutes == got.Minutes && want.From == got.From && want.To == got.To
	}
	a, err := credit.ParseAmount(want.Amount)
	if err != nil {
		t.Fatal(err)
	}
	b, err := credit.ParseAmount(got.Amount)
	if err != nil || !a.Equal(b) {
		return false
	}
	if want.Currency == nil || got.Currency == nil {
		return want.Currency == got.Currency
	}
	return *want.Currency == *got.Currency || strings.Contains(sharing[*want.Currency], *got.Currency)
}

// whole reports whether got holds exactly what is wanted, in any order.
func whole(t *testing.T, want, got []item) bool {
	t.Helper()
	left := slices.Clone(got)
	for _, w := range want {
		n := slices.IndexFunc(left, func(g item) bool { return same(t, w, g) })
		if n < 0 {
			return false
		}
		left = slices.Delete(left, n, n+1)
	}
	return len(left) == 0
}

// least is the share of cases, in percent, that each finder reads without any error.
// Of a length in days, which the outside libraries count as 24 hours each, no case counts.
var least = map[string]int{"dates": 93, "ranges": 88, "clock_ranges": 93, "durations": 80, "amounts": 85}

// tally counts cases, and those read without any error.
type tally struct{ good, cases int }

// few is the number of cases below which a share of a language says nothing.
const few = 10

// judge compares what was found with the least share, for all and for each language.
func judge(t *testing.T, kind, path string, by map[string]tally) {
	t.Helper()
	for _, lang := range slices.Sorted(maps.Keys(by)) {
		n := by[lang]
		t.Logf("%s %s: %d of %d, %.1f %%", path, lang, n.good, n.cases, 100*float64(n.good)/float64(n.cases))
		if n.good*100 < least[kind]*n.cases && n.cases >= few {
			t.Errorf("%s %s: %d of %d cases read without error, want %d %%", path, lang, n.good, n.cases, least[kind])
		}
	}
}

// TestOutside reads the cases of testdata/outside/SOURCES.md. With DATES naming
// another folder of KIND*.jsonl files it reads those instead, and with ANSWERS
// naming a folder it writes there what it found in each.
func TestOutside(t *testing.T) {
	from, to := os.Getenv("DATES"), os.Getenv("ANSWERS")
	if from == "" {
		from = "testdata/outside"
	}
	for kind, answer := range answers {
		paths, err := filepath.Glob(filepath.Join(from, kind+"*.jsonl"))
		if err != nil || len(paths) == 0 {
			t.Fatalf("%s: no cases of kind %s (%v)", from, kind, err)
		}
		for _, path := range paths {
			var lines bytes.Buffer
			by := make(map[string]tally)
			for _, c := range readCases(t, path) {
				got := answer(c)
				line, err := json.Marshal(map[string]any{"id": c.ID, "found": got})
				if err != nil {
					t.Fatal(err)
				}
				fmt.Fprintln(&lines, string(line))
				if strings.Contains(c.Note, "24 hours") {
					continue
				}
				for _, lang := range []string{"all", c.Lang[:min(2, len(c.Lang))]} {
					n := by[lang]
					n.cases++
					if whole(t, c.Expect, got) {
						n.good++
					}
					by[lang] = n
				}
			}
			judge(t, kind, path, by)
			if to == "" {
				continue
			}
			if err := os.WriteFile(filepath.Join(to, filepath.Base(path)), lines.Bytes(), 0o600); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// TestOutsideListed: a case that is read otherwise than expected stands in one of the tables
// of testdata/outside/SOURCES.md, with the reason; and what stands there is read so still.
func TestOutsideListed(t *testing.T) {
	sources, err := os.ReadFile("testdata/outside/SOURCES.md")
	if err != nil {
		t.Fatal(err)
	}
	_, tables, ok := strings.Cut(string(sources), "## Where the finders differ on purpose")
	if !ok {
		t.Fatal("no table of differences")
	}
	var listed []string
	for i, quoted := range strings.Split(tables, "`") {
		if i%2 == 1 {
			listed = append(listed, strings.TrimSuffix(quoted, " …"))
		}
	}
	met := map[string]bool{}
	for kind, answer := range answers {
		for _, c := range readCases(t, "testdata/outside/"+kind+".jsonl") {
			if strings.Contains(c.Note, "24 hours") || whole(t, c.Expect, answer(c)) {
				continue
			}
			n := slices.IndexFunc(listed, func(text string) bool { return strings.Contains(c.Text, text) })
			if n < 0 {
				t.Errorf("%s %s %q is read as %+v and not listed", kind, c.Lang, c.Text, answer(c))
				continue
			}
			for _, text := range listed {
				met[text] = met[text] || strings.Contains(c.Text, text)
			}
		}
	}
	if len(met) < 40 {
		t.Errorf("%d texts are listed, want at least 40", len(met))
	}
	for _, text := range listed {
		if !met[text] && text != "Uhr" && text != "h" && text != "REF-2026-03-03" && text != "TestOutsideListed" {
			t.Errorf("%q is listed, and no case that has it is read otherwise than expected", text)
		}
	}
}
