package extract_test

import (
	"cmp"
	"hash/fnv"
	"math/rand/v2"
	"slices"
	"strings"
	"unicode"

	"evidencevault/extract/page"
)

// An ablationWay is a way to make a paper stranger than it is, so that what a reader knows of
// its words or its layout no longer holds, while what it says stays: a paper that looks like
// one that nobody has seen.
type ablationWay string

// The ablations.
const (
	wordUnknown   ablationWay = "word unknown"   // one word is another, of letters that mean nothing, wherever it stands
	labelUnknown  ablationWay = "label unknown"  // all words of one line or cell are
	thirdUnknown  ablationWay = "third unknown"  // every third of all words is
	lineBlank     ablationWay = "line blank"     // a line or cell without a figure is missing
	lineElsewhere ablationWay = "line elsewhere" // a line stands at the foot of its page
)

// ablations lists them in order.
func ablations() []ablationWay {
	return []ablationWay{wordUnknown, labelUnknown, thirdUnknown, lineBlank, lineElsewhere}
}

// ablate returns doc made stranger, drawn from seed; false where nothing in it can be. The
// words of kept, which are those of the truth, stay what they are, and so do the names of
// months, what has a figure, and short words. doc itself is not changed.
func ablate(doc page.Document, way ablationWay, kept []string, seed uint64) (page.Document, bool) {
	a := ablation{r: rand.New(rand.NewPCG(seed, 0xab1a)), seed: seed, kept: calendar()}
	for _, text := range kept {
		for _, w := range strings.FieldsFunc(text, notLetter) {
			a.kept[strings.ToLower(w)] = true
		}
	}
	doc.Pages = slices.Clone(doc.Pages)
	for i := range doc.Pages {
		p := &doc.Pages[i]
		p.Words, p.Lines = slices.Clone(p.Words), slices.Clone(p.Lines)
		a.addPage(p)
	}
	done := false
	switch way {
	case wordUnknown, thirdUnknown:
		done = a.words(way == thirdUnknown)
	case labelUnknown:
		done = a.label()
	case lineBlank:
		done = a.blank()
	case lineElsewhere:
		done = a.elsewhere()
	}
	for i := range doc.Pages {
		p := &doc.Pages[i]
		p.Words = slices.DeleteFunc(p.Words, func(w page.Word) bool { return w.Text == "" })
		p.Second = "" // it would still have what was changed
	}
	return doc, done
}

// ablation is a document while it is made stranger.
type ablation struct {
	r    *rand.Rand
	seed uint64
	kept map[string]bool // in small letters
	runs []run
}

// A run is a line, or the part of one up to a wide gap.
type run struct {
	page  *page.Page
	words []int // of a page with boxes
	line  int   // of a page without
	text  string
}

// calendar holds what stays beside the truth: months and days, units of time, forms of address and small words.
func calendar() map[string]bool {
	out := map[string]bool{}
	for w := range strings.FieldsSeq(`january february march april june july august september october november december
		januar februar märz april juni juli august september oktober november dezember janvier février mars avril juin juillet août
		septembre octobre novembre décembre enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre
		januari februari maart april juni juli augustus september oktober november december sept
		monday tuesday wednesday thursday friday saturday sunday montag dienstag mittwoch donnerstag freitag samstag sonnabend sonntag
		minutes minute minuten minutos hours hour stunden stunde heures heure horas hora uren from this that with they have been were your their
		will then than into only when eine einer einen einem diese dieser dieses wird sind sein ihre ihrer nach pour avec dans cette vous nous leur
		sont elle para este esta como desde hasta sobre deze voor werd zijn heeft wordt heer herr herrn frau madame monsieur mevrouw heer señor señora doctor prof
		lundi mardi mercredi jeudi vendredi samedi dimanche lunes martes miércoles jueves viernes sábado domingo
		maandag dinsdag woensdag donderdag vrijdag zaterdag zondag`) {
		out[w] = true
	}
	return out
}

func notLetter(r rune) bool { return !unicode.IsLetter(r) }

// addPage collects the runs of a page.
func (a *ablation) addPage(p *page.Page) {
	if len(p.Words) == 0 {
		for i, line := range p.Lines {
			if strings.TrimSpace(line) != "" {
				a.runs = append(a.runs, run{page: p, line: i, text: line})
			}
		}
		return
	}
	order := make([]int, len(p.Words))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int {
		b, c := p.Words[i].Box, p.Words[j].Box
		if near := (b[3] - b[1]) / 3; b[3]-c[3] > near || c[3]-b[3] > near {
			return cmp.Compare(b[3], c[3])
		}
		return cmp.Compare(b[0], c[0])
	})
	last := -1
	for _, i := range order {
		w := p.Words[i]
		if last >= 0 {
			b := p.Words[last].Box
			if height := b[3] - b[1]; max(b[3]-w.Box[3], w.Box[3]-b[3]) <= height/3 && w.Box[0] >= b[0] && w.Box[0]-b[2] < height {
				r := &a.runs[len(a.runs)-1]
				r.words, r.text, last = append(r.words, i), r.text+" "+w.Text, i
				continue
			}
		}
		a.runs, last = append(a.runs, run{page: p, words: []int{i}, text: w.Text}), i
	}
}

// free reports a word that may be replaced: of four letters and more, and not of the truth.
func (a *ablation) free(word string) bool {
	return len([]rune(word)) > 3 && !a.kept[strings.ToLower(word)]
}

// freeWords lists those of a text, in small letters.
func (a *ablation) freeWords(text string) []string {
	var out []string
	for _, w := range strings.FieldsFunc(text, notLetter) {
		if a.free(w) && !strings.ContainsAny(text, "@") {
			out = append(out, strings.ToLower(w))
		}
	}
	return out
}

// unknown is a word of as many letters that means nothing, the same for the same word.
func (a *ablation) unknown(word string) string {
	h := fnv.New64a()
	h.Write([]byte(strings.ToLower(word)))
	d := rand.New(rand.NewPCG(a.seed, h.Sum64()))
	out := []rune(word)
	for i, r := range out {
		n := []rune("bdfgklmnprtvz")[d.IntN(13)]
		if i%2 == 1 {
			n = []rune("aeiou")[d.IntN(5)]
		}
		if unicode.IsUpper(r) {
			n = unicode.ToUpper(n)
		}
		out[i] = n
	}
	return string(out)
}

// replaced is a text with the words that swap names made unknown.
func (a *ablation) replaced(text string, swap func(string) bool) string {
	var b strings.Builder
	for len(text) > 0 {
		n := strings.IndexFunc(text, notLetter)
		if n < 0 {
			n = len(text)
		}
		if w := text[:n]; a.free(w) && swap(strings.ToLower(w)) {
			w = a.unknown(w)
			b.WriteString(w)
		} else {
			b.WriteString(w)
		}
		text = text[n:]
		m := strings.IndexFunc(text, unicode.IsLetter)
		if m < 0 {
			m = len(text)
		}
		b.WriteString(text[:m])
		text = text[m:]
	}
	return b.String()
}

// swap makes words unknown in some runs.
func (a *ablation) swap(runs []run, which func(string) bool) {
	for _, r := range runs {
		for _, i := range r.words {
			if text := &r.page.Words[i].Text; !strings.Contains(*text, "@") {
				*text = a.replaced(*text, which)
			}
		}
		if r.words == nil && !strings.Contains(r.page.Lines[r.line], "@") {
			r.page.Lines[r.line] = a.replaced(r.page.Lines[r.line], which)
		}
	}
}

func (a *ablation) words(third bool) bool {
	var all []string
	for _, r := range a.runs {
		all = append(all, a.freeWords(r.text)...)
	}
	slices.Sort(all)
	if all = slices.Compact(all); len(all) == 0 {
		return false
	}
	n := 1
	if third {
		n = (len(all) + 2) / 3
	}
	a.r.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	a.swap(a.runs, func(w string) bool { return slices.Contains(all[:n], w) })
	return true
}

// some returns one of the runs that are fit.
func (a *ablation) some(fit func(run) bool) (run, bool) {
	var list []run
	for _, r := range a.runs {
		if fit(r) {
			list = append(list, r)
		}
	}
	if len(list) == 0 {
		return run{}, false
	}
	return list[a.r.IntN(len(list))], true
}

func (a *ablation) label() bool {
	r, ok := a.some(func(r run) bool { return len(r.text) < 60 && len(a.freeWords(r.text)) > 0 })
	if ok {
		a.swap([]run{r}, func(string) bool { return true })
	}
	return ok
}

func (a *ablation) blank() bool {
	r, ok := a.some(func(r run) bool {
		return !strings.ContainsAny(r.text, "0123456789") && len(a.freeWords(r.text)) > 0
	})
	if !ok {
		return false
	}
	for _, i := range r.words {
		r.page.Words[i].Text = ""
	}
	if r.words == nil {
		r.page.Lines[r.line] = ""
	}
	return true
}

// elsewhere puts a whole line, with its label and its value, at the foot.
func (a *ablation) elsewhere() bool {
	r, ok := a.some(func(r run) bool { return strings.Contains(r.text, ":") && len(a.freeWords(r.text)) > 0 })
	if !ok {
		return false
	}
	if r.words == nil {
		line := r.page.Lines[r.line]
		r.page.Lines = append(slices.Delete(r.page.Lines, r.line, r.line+1), line)
		return true
	}
	first, foot := r.page.Words[r.words[0]].Box, 0
	for _, w := range r.page.Words {
		foot = max(foot, w.Box[3])
	}
	down := foot + (first[3]-first[1])/2 - first[1]
	for _, o := range a.runs {
		for _, i := range o.words {
			w := &r.page.Words[i]
			if o.page == r.page && w.Box[3]-first[3] <= (first[3]-first[1])/3 && first[3]-w.Box[3] <= (first[3]-first[1])/3 {
				w.Box[1], w.Box[3] = w.Box[1]+down, w.Box[3]+down
				if w.Laid != [4]int{} {
					w.Laid[1], w.Laid[3] = w.Laid[1]+down, w.Laid[3]+down
				}
			}
		}
	}
	return true
}
