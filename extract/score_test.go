package extract_test

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// A truth is what a careful reader writes down of one document, in canonical text;
// fields that are absent have none.
type truth struct {
	name   string
	values map[paper.Field]string
	also   map[paper.Field][]string
	ask    []paper.Field
}

// A tally counts verdicts of one field.
type tally struct {
	exact, wrong, missing, invented, certain, certainExact, needless, asked, silent, left int
}

// A board is the score over many documents, counted as the corpus schema says.
type board struct {
	fields   map[paper.Field]*tally
	mistakes []string
	n, right int
}

func newBoard() *board {
	b := &board{fields: map[paper.Field]*tally{}}
	for _, f := range paper.Fields() {
		b.fields[f] = &tally{}
	}
	return b
}

// add judges one reading.
func (b *board) add(want truth, got paper.Reading) { b.addOf(paper.Fields(), want, got) }

// addOf judges some fields of one reading.
func (b *board) addOf(fields []paper.Field, want truth, got paper.Reading) {
	right := true
	nothing := want.values[paper.FieldKind] == string(paper.NotEvidence)
	for _, f := range fields {
		t, v := b.fields[f], got.Values[f]
		_, asked := got.Question(f)
		verdict := ""
		switch {
		case slices.Contains(want.ask, f):
			verdict = judgeAsked(t, v.Certain, asked)
		case nothing && f != paper.FieldKind:
			if v.Certain && v.Text != "" {
				t.certain++
				t.invented++
				verdict = "false evidence"
			}
		default:
			verdict = judgeValue(t, f, want, v, asked)
		}
		if verdict != "" {
			right = false
			if v.Certain {
				verdict += " and certain"
			}
			b.mistakes = append(b.mistakes, fmt.Sprintf("%s\t%s\t%s\twant %q\tgot %q", want.name, f, verdict, want.values[f], v.Text))
		}
	}
	b.n++
	if right {
		b.right++
	}
}

func judgeAsked(t *tally, certain, asked bool) string {
	switch {
	case certain:
		t.silent++
		return "silent"
	case asked:
		t.asked++
		return ""
	}
	t.left++
	return "left"
}

func judgeValue(t *tally, f paper.Field, want truth, v paper.Value, asked bool) string {
	ok := same(f, want.values[f], v.Text)
	for _, other := range want.also[f] {
		ok = ok || same(f, other, v.Text)
	}
	if v.Text != "" && v.Certain {
		t.certain++
		if ok {
			t.certainExact++
		}
	}
	if asked {
		t.needless++
	}
	switch {
	case ok && v.Text != "" && want.values[f] != "":
		t.exact++
		return ""
	case ok:
		return ""
	case want.values[f] == "":
		t.invented++
		return "invented"
	case v.Text == "":
		t.missing++
		return "missing"
	}
	t.wrong++
	return "wrong"
}

func bare(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return unicode.ToLower(r)
		}
		return -1
	}, norm.NFKC.String(text))
}

var title = regexp.MustCompile(`(?i)^(?:mrs?|ms|miss|dr|prof|herrn?|frau|mme|madame|monsieur|m|de|heer|mevrouw|dhr|mevr|sr|sra|don|doña|dña|d|dª|rn|pe|ing|dipl)\.?$`)

// same reports whether two values of a field are equal by the rules of the schema.
func same(f paper.Field, a, b string) bool {
	if a == "" || b == "" {
		return a == b
	}
	switch f {
	case paper.FieldTitle, paper.FieldProvider:
		return bare(a) == bare(b)
	case paper.FieldAttendee:
		return parts(a) == parts(b)
	case paper.FieldCredits:
		return units(a) == units(b)
	case paper.FieldTotal:
		x, err1 := paper.ParseMoney(a)
		y, err2 := paper.ParseMoney(b)
		return err1 == nil && err2 == nil && x.Currency == y.Currency && credit.MustAmount(x.Amount).Equal(credit.MustAmount(y.Amount))
	}
	return a == b
}

func parts(name string) string {
	words := slices.DeleteFunc(strings.Fields(strings.ReplaceAll(name, ",", " ")), title.MatchString)
	for i := range words {
		words[i] = bare(words[i])
	}
	slices.Sort(words)
	return strings.Join(words, " ")
}

func units(text string) string {
	list, err := paper.ParseCredits(text)
	if err != nil {
		return text
	}
	var out []string
	for _, p := range list {
		out = append(out, p.Value.String()+" "+strings.TrimSuffix(bare(p.Unit), "s"))
	}
	slices.Sort(out)
	return strings.Join(out, ";")
}

func percent(a, b int) string {
	if b == 0 {
		return "–"
	}
	return fmt.Sprintf("%d.%d %%", 100*a/b, 1000*a/b%10)
}

// log prints the shares, and the mistakes when the test is verbose.
func (b *board) log(t *testing.T, name string) {
	t.Helper()
	var sum tally
	for _, f := range paper.Fields() {
		c := b.fields[f]
		has := c.exact + c.wrong + c.missing
		t.Logf("%s %-17s has %3d exact %7s invented %d certain %3d precision %8s ask %d asked %d silent %d needless %d", name, f, has,
			percent(c.exact, has), c.invented, c.certain, percent(c.certainExact, c.certain), c.asked+c.silent+c.left, c.asked, c.silent, c.needless)
		sum.exact += c.exact
		sum.certain += c.certain
		sum.certainExact += c.certainExact
		sum.silent += c.silent
		sum.needless += c.needless
	}
	t.Logf("%s: %d of %d documents right; certain precision %s over %d values, %s of the right ones certain; %d silent, %d needless questions", name, b.right, b.n,
		percent(sum.certainExact, sum.certain), sum.certain, percent(sum.certainExact, sum.exact), sum.silent, sum.needless)
	for _, m := range b.mistakes {
		t.Log(m)
	}
}

// A level is the least share of exact values, in per cent.
type level map[paper.Field]int

// hold fails the test where the score lies below the levels, where certain values are
// wrong too often, or where an ambiguity was decided silently.
func (b *board) hold(t *testing.T, least level) {
	t.Helper()
	certain, exact := 0, 0
	for f, c := range b.fields {
		has := c.exact + c.wrong + c.missing
		if has > 0 && 100*c.exact < least[f]*has {
			t.Errorf("%s: %d of %d exact, want at least %d %%", f, c.exact, has, least[f])
		}
		if c.silent > 0 || c.left > 0 {
			t.Errorf("%s: %d ambiguous values were decided silently and %d were not asked about", f, c.silent, c.left)
		}
		certain, exact = certain+c.certain, exact+c.certainExact
	}
	if 100*exact < 95*certain {
		t.Errorf("%d of %d certain values are right, want at least 95 %%", exact, certain)
	}
}
