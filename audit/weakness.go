package audit

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"golang.org/x/text/language"
	"golang.org/x/text/language/display"

	"evidencevault/credit"
	"evidencevault/extract/paper"
	"evidencevault/journal"
)

// proofs judges whether the claim has a proof at all, of the right kind, of this holder.
func (r *rehearsing) proofs(c journal.Ground) {
	if len(c.Papers) == 0 {
		r.find(Weakness{Claim: c.ID, What: WeakUnproven, Weight: Grave, Why: "no document proves it" + r.wording("; ", c.Category),
			Mend: "attach its certificate: vaultctl attach " + c.ID + " P…, or withdraw the claim: vaultctl claim withdraw " + c.ID})
		return
	}
	category, _ := r.grounds.Certification.Scheme.Category(c.Category)
	if !c.Proven {
		var have []string
		for _, p := range c.Papers {
			have = append(have, fmt.Sprintf("%s is %s", p.ID, cmp.Or(string(p.Kind), "of no kind that could be told")))
		}
		r.find(Weakness{Claim: c.ID, What: WeakKind, Weight: Grave,
			Why:  fmt.Sprintf("the category takes %s; %s%s", strings.Join(category.Accepts, " or "), strings.Join(have, ", "), r.wording("; ", c.Category)),
			Mend: "attach a document of that kind: vaultctl attach " + c.ID + " P…" + r.otherCategory(c)})
	}
	for _, p := range c.Papers {
		r.holder(c, p)
		for _, q := range p.Questions {
			if q.Field == paper.FieldCategory || q.Field == paper.FieldKind || q.Field == paper.FieldAttendee || q.Field == paper.FieldTotal {
				continue
			}
			r.find(Weakness{Claim: c.ID, What: WeakFigures, Weight: Doubt,
				Why:  fmt.Sprintf("%s (%s) left a question open: %s You answered %s", p.ID, p.File, q.Text, cmp.Or(c.Fields[string(q.Field)], "nothing")),
				Mend: "have by you what settles it, such as the invitation or a line from the provider"})
		}
	}
	r.language(c)
}

// holder judges the name that a paper gives.
func (r *rehearsing) holder(c journal.Ground, p journal.GroundPaper) {
	given := p.Values[paper.FieldAttendee].Text
	if given == "" || r.grounds.NamesHolder(given) {
		return
	}
	nearest, distance := "", -1
	for _, name := range r.grounds.Names {
		if d := lettersApart(plainText(given), plainText(name)); distance < 0 || d < distance {
			nearest, distance = name, d
		}
	}
	w := Weakness{Claim: c.ID, What: WeakName, Weight: Grave,
		Why:  fmt.Sprintf("%s names %s; the holder is %s, %s apart", p.ID, given, nearest, count(distance, "letter", "letters")),
		Mend: fmt.Sprintf("ask the provider for a corrected certificate; a name that you bore before is told with vaultctl fact set former_name='%s'", strings.ReplaceAll(given, "'", "’"))}
	if former := r.grounds.Names[1:]; len(former) > 0 {
		w.Why += "; known as former: " + strings.Join(former, ", ")
	}
	if distance <= 2 {
		w.Weight = Doubt
	}
	r.find(w)
}

// languages counts the languages of the papers and returns that of most.
func languages(g journal.Grounds) (map[string]int, string) {
	counts, most := map[string]int{}, ""
	for _, c := range g.Claims {
		for _, p := range c.Papers {
			if l := mainLanguage(p); l != "" {
				counts[l]++
				if counts[l] > counts[most] {
					most = l
				}
			}
		}
	}
	return counts, most
}

func mainLanguage(p journal.GroundPaper) string {
	l, _, _ := strings.Cut(p.Language, "-")
	return l
}

// languageName names a language of BCP 47 in English.
func languageName(tag string) string {
	t, err := language.Parse(tag)
	if err != nil {
		return tag
	}
	base, _ := t.Base()
	return cmp.Or(display.English.Languages().Name(language.Make(base.String())), tag)
}

// language points out a paper in another language than most.
func (r *rehearsing) language(c journal.Ground) {
	for _, p := range c.Papers {
		if l := mainLanguage(p); l != "" && r.languages[l] < r.languages[r.most] {
			r.find(Weakness{Claim: c.ID, What: WeakLanguage, Weight: Doubt, Why: fmt.Sprintf("%s is written in %s, unlike most of your proofs", p.ID, languageName(p.Language)),
				Mend: "ask the body whether it wants a translation"})
		}
	}
}

// values compares what is claimed with what the papers show.
func (r *rehearsing) values(c journal.Ground) {
	if len(c.Papers) > 0 && !slices.ContainsFunc(c.Papers, func(p journal.GroundPaper) bool { return !p.Deleted }) {
		return // nothing can be compared any more, and that is said
	}
	var silent []string
	for _, f := range []paper.Field{paper.FieldDuration, paper.FieldCredits, paper.FieldStart, paper.FieldEnd, paper.FieldTitle, paper.FieldProvider} {
		have := c.Fields[string(f)]
		if have == "" || len(c.Papers) == 0 {
			continue
		}
		shown := r.shown(c, f)
		switch {
		case len(shown) == 0:
			silent = append(silent, fieldWords(f))
		case slices.ContainsFunc(shown, func(s string) bool { return sameValue(f, s, have) }):
		default:
			r.differs(c, f, have, shown)
		}
	}
	if len(silent) > 0 {
		r.find(Weakness{Claim: c.ID, What: WeakPerson, Weight: Doubt, Why: "set by you, and shown by no document: " + strings.Join(silent, ", "),
			Mend: "attach a document that shows it, such as the programme or a letter: vaultctl attach " + c.ID + " P…"})
	}
	if c.End.IsZero() && c.Start.IsZero() {
		r.find(Weakness{Claim: c.ID, What: WeakHoldsMore, Weight: Doubt, Why: "it has no date", Mend: "give it with vaultctl claim change " + c.ID + " --set end_date=YYYY-MM-DD"})
	}
}

// shown returns what the claim's papers show for f, certain or proposed.
func (r *rehearsing) shown(c journal.Ground, f paper.Field) []string {
	var list []string
	for _, p := range c.Papers {
		v := p.Values[f]
		for _, text := range append([]string{v.Text}, candidates(p, f)...) {
			if text != "" && !slices.Contains(list, text) {
				list = append(list, text)
			}
		}
	}
	return list
}

func candidates(p journal.GroundPaper, f paper.Field) []string {
	var list []string
	for _, q := range p.Questions {
		if q.Field == f {
			for _, k := range q.Candidates {
				list = append(list, k.Text)
			}
		}
	}
	return list
}

// differs says that the papers show another value. More time or credit than a paper
// shows is grave; less is the holder's right.
func (r *rehearsing) differs(c journal.Ground, f paper.Field, have string, shown []string) {
	w := Weakness{Claim: c.ID, What: WeakOther, Weight: Doubt,
		Why:  fmt.Sprintf("the %s is claimed as %s; the document shows %s", fieldWords(f), inWords(f, have), inWords(f, shown...)),
		Mend: "change it: vaultctl claim change " + c.ID + " --set " + setting(f, shown) + ", or attach a document that shows it: vaultctl attach " + c.ID + " P…"}
	switch f {
	case paper.FieldDuration, paper.FieldCredits:
		order := compare(f, have, shown)
		if order <= 0 {
			return
		}
		w.What, w.Weight = WeakAbove, Grave
	case paper.FieldStart, paper.FieldEnd:
		w.Weight = Grave
	}
	r.find(w)
}

// setting is what is typed to give f the value that the document shows.
func setting(f paper.Field, shown []string) string {
	value := "…"
	if len(shown) == 1 {
		value = shown[0]
	}
	if strings.ContainsAny(value, " ;&|$`\"\\*?<>()#!") {
		value = "'" + strings.ReplaceAll(value, "'", "’") + "'"
	}
	return string(f) + "=" + value
}

// compare returns 1 when have is above everything that is shown, −1 when it is not, and
// 1 too when the two cannot be compared.
func compare(f paper.Field, have string, shown []string) int {
	for _, s := range shown {
		if f == paper.FieldDuration {
			a, err1 := strconv.ParseInt(have, 10, 64)
			b, err2 := strconv.ParseInt(s, 10, 64)
			if err1 == nil && err2 == nil && a <= b {
				return -1
			}
			continue
		}
		if creditsWithin(have, s) {
			return -1
		}
	}
	return 1
}

// creditsWithin reports whether each figure of have is at most one that shown gives in
// the same unit.
func creditsWithin(have, shown string) bool {
	a, err1 := paper.ParseCredits(have)
	b, err2 := paper.ParseCredits(shown)
	if err1 != nil || err2 != nil {
		return false
	}
	return !slices.ContainsFunc(a, func(x paper.Printed) bool {
		return !slices.ContainsFunc(b, func(y paper.Printed) bool { return strings.EqualFold(x.Unit, y.Unit) && x.Value.AtMost(y.Value) })
	})
}

// fieldWords names a field as people do.
func fieldWords(f paper.Field) string {
	if f == paper.FieldDuration {
		return "time"
	}
	return strings.ReplaceAll(string(f), "_", " ")
}

func sameValue(f paper.Field, a, b string) bool {
	if f == paper.FieldTitle || f == paper.FieldProvider {
		return plainText(a) == plainText(b)
	}
	return a == b
}

func inWords(f paper.Field, values ...string) string {
	var list []string
	for _, v := range values {
		if n, err := strconv.ParseInt(v, 10, 32); f == paper.FieldDuration && err == nil {
			v = clockTime(new(credit.Minutes(n)))
		}
		list = append(list, v)
	}
	return strings.Join(list, " or ")
}

// rules judges what the scheme asks of the claim besides.
func (r *rehearsing) rules(c journal.Ground) {
	category, ok := r.grounds.Certification.Scheme.Category(c.Category)
	if !ok {
		return
	}
	if c.Outside {
		r.find(Weakness{Claim: c.ID, What: WeakOutside, Weight: Grave, Why: "it is dated outside the cycle, and counts nothing", Mend: "withdraw it: vaultctl claim withdraw " + c.ID + ", or correct the date: vaultctl claim change " + c.ID + " --set end_date=YYYY-MM-DD"})
	} else if c.Awarded.Sign() == 0 {
		r.find(Weakness{Claim: c.ID, What: WeakNothing, Weight: Doubt, Why: "it earns nothing: see vaultctl explain " + c.ID, Mend: "withdraw it, or give what the rule asks for"})
	}
	for _, l := range category.Log {
		if !slices.ContainsFunc(l.Names, func(n string) bool { return c.Fields[n] != "" }) {
			r.find(Weakness{Claim: c.ID, What: WeakLog, Weight: Doubt, Why: "the body's journal asks for " + strings.Join(l.Names, " or "),
				Mend: "give it with vaultctl claim change " + c.ID + " --set " + l.Names[0] + "=…"})
		}
	}
	for _, a := range category.Asks {
		if a.Tag != "" && c.Awarded.Sign() > 0 {
			r.find(Weakness{Claim: c.ID, What: WeakTagged, Weight: Doubt, Why: fmt.Sprintf("it counts because you marked it %q", a.Tag),
				Mend: "have by you what shows it, such as the provider's approval number"})
		}
	}
}
