package extract

import (
	"fmt"
	"slices"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// Version names the rules by which a reading came about; it changes when they do.
const Version = "1"

// Hints is what the caller knows besides the document. The zero Hints is ready to use.
type Hints struct {
	Holder      string        // whose vault it is; "" means unknown, and then nobody is asked about the name
	FormerNames []string      // further names that are the holder's
	Habits      []paper.Habit // what corrections taught of the papers of single providers; they propose, and decide nothing
	Pages       [2]int        // first and last page of the paper within its evidence; zero means all, cut where a new paper begins
	Password    string        // opens an encrypted document; used and forgotten
	Trace       bool          // [Read] tells how each paper came to be read

	trace func(Trace) // is told of each paper that is looked at
}

// Understand returns what a document says, one reading per paper, in the order of
// their pages; never none. It is pure: equal documents and hints give equal readings.
// A fault in it is the outcome of this one document and stops nothing else.
func Understand(doc page.Document, h Hints) []paper.Reading {
	return guarded(doc, func() []paper.Reading { return understandWhole(doc, h) })
}

// faultHere begins the reason of a document that could not be understood for a fault in this program.
const faultHere = "a fault in this program stopped its reading"

// guarded returns what read returns, or that the document is unreadable where read fails by a fault.
func guarded(doc page.Document, read func() []paper.Reading) (out []paper.Reading) {
	defer func() {
		fault := recover()
		if fault == nil {
			return
		}
		r := paper.Reading{Outcome: paper.OutcomeUnreadable, Reader: Version, Values: map[paper.Field]paper.Value{},
			Reason: fmt.Sprintf("%s (%v); it is kept as it is, fill in what it says by hand and report the fault", faultHere, fault)}
		if n := len(doc.Pages); n > 0 {
			r.From, r.To = doc.Pages[0].Number, doc.Pages[n-1].Number
		}
		out = []paper.Reading{r}
	}()
	return read()
}

func understandWhole(doc page.Document, h Hints) []paper.Reading {
	var cut bool
	doc.Pages, cut = within(doc.Pages, mostWords)
	out := understand(doc, h)
	if carries(doc) && !slices.ContainsFunc(out, evidential) {
		out = []paper.Reading{carrier(out[0])}
	}
	for i := range out {
		bound(&out[i])
	}
	if cut {
		doubt(&out[len(out)-1], "what follows was not read")
	}
	return out
}

func understand(doc page.Document, h Hints) []paper.Reading {
	if doc.Type == "zip" && doc.Trouble == page.None {
		return []paper.Reading{archive(doc)}
	}
	if r, ok := troubled(doc); ok {
		return []paper.Reading{r}
	}
	if doc.Badge != nil {
		return []paper.Reading{badge(doc, h)}
	}
	if mail, ok := savedMessage(doc); ok {
		doc = mail
	}
	if inner, ok := forwarded(doc); ok {
		doc = inner
	} else {
		doc = withoutEarlier(doc)
	}
	pages := doc.Pages
	if h.Pages != [2]int{} {
		pages = slices.DeleteFunc(slices.Clone(pages), func(p page.Page) bool { return p.Number < h.Pages[0] || p.Number > h.Pages[1] })
		if len(pages) == 0 {
			return []paper.Reading{{Outcome: paper.OutcomeUnreadable, From: h.Pages[0], To: h.Pages[1], Reader: Version,
				Reason: fmt.Sprintf("pages %d to %d were not read: the document has %d that can be; look at the original", h.Pages[0], h.Pages[1], len(doc.Pages))}}
		}
		r := understandPaper(doc, part{pages: pages}, h)
		reach(&r, h.Pages[1])
		return []paper.Reading{r}
	}
	var out []paper.Reading
	for _, part := range papersIn(doc, h) {
		r := understandPaper(doc, part, h)
		askCut(&r, part.doubt)
		out = append(out, r)
	}
	if doc.Unread > 0 && doc.Type == "pdf" && len(doc.Pages) > 0 {
		out[0].From = 1
		reach(&out[len(out)-1], len(doc.Pages)+doc.Unread)
	}
	return out
}

// reach makes a paper include the pages up to last that were not read, so that none of a
// file's pages belongs to no paper.
func reach(r *paper.Reading, last int) {
	if last <= r.To {
		return
	}
	r.To = last
	doubt(r, "not all of its pages were read")
}

// askOther takes over the question how long it was, where a page behind the last one that proves
// something gives another time.
func askOther(r *paper.Reading, all paper.Reading, last int) {
	q, asked := all.Question(paper.FieldDuration)
	v, found := r.Values[paper.FieldDuration]
	if !asked || !found || !v.Certain || len(q.Candidates) < 2 || !slices.ContainsFunc(q.Candidates, func(c paper.Candidate) bool { return c.Place.Page > last && c.Text != v.Text }) {
		return
	}
	v.Certain, v.Candidates = false, q.Candidates
	r.Values[paper.FieldDuration] = v
	r.Questions = append(r.Questions, q)
}

// troubled returns the reading of a document that has nothing to read.
func troubled(doc page.Document) (paper.Reading, bool) {
	r := paper.Reading{Reader: Version, Reason: doc.Reason, Values: map[paper.Field]paper.Value{}}
	switch doc.Trouble {
	case page.None:
		if hasText(doc) {
			return r, false
		}
		r.Outcome = paper.OutcomeUnreadable
		r.Reason = "no text was found on its pages; if it shows writing, scan it again more clearly; the original is kept"
	case page.Password:
		r.Outcome = paper.OutcomePassword
		r.Reason = otherwise(doc.Reason, "it opens only with its password; give the password with unlock")
	case page.TooLarge:
		r.Outcome = paper.OutcomeTooLarge
		r.Reason = otherwise(doc.Reason, "it is larger than what is read; save the pages that count as a PDF of their own and drop that")
	case page.Empty:
		r.Outcome = paper.OutcomeNotEvidence
		r.Reason = otherwise(doc.Reason, "it is empty; set it aside, or drop the right file")
		r.Values[paper.FieldKind] = paper.Value{Text: string(paper.NotEvidence), Certain: true, By: paper.ByProgram}
	default:
		r.Outcome = paper.OutcomeUnreadable
		r.Reason = otherwise(doc.Reason, "nothing could be read in it; save it as PDF and drop it again; the original is kept")
	}
	return r, true
}

func otherwise(text, instead string) string {
	if text == "" {
		return instead
	}
	return text
}

func hasText(doc page.Document) bool {
	for _, p := range doc.Pages {
		if len(p.Words) > 0 {
			return true
		}
		for _, line := range p.Lines {
			if strings.TrimSpace(line) != "" {
				return true
			}
		}
	}
	return false
}

// isMessage reports that the paper is the message itself, not one that was attached to it.
func (l *look) isMessage() bool { return l.doc.Type == "eml" }

// understandPaper reads one paper: some pages of a document.
func understandPaper(doc page.Document, part part, h Hints) paper.Reading {
	last := part.pages[len(part.pages)-1].Number
	pages, cut := within(part.pages, mostOfOne)
	part.pages = pages
	if cut { // perhaps within a page, which then is not as it was looked at
		part.leaves = part.leaves[:min(len(part.leaves), len(pages)-1)]
	}
	proof, rest := front(doc, part, h)
	r := understandPages(doc, proof, h)
	if rest {
		askRest(&r, understandPages(doc, pages, h), proof[len(proof)-1].Number)
	}
	r.To = max(pages[len(pages)-1].Number, 1)
	if cut {
		r.To = max(last, 1)
		doubt(&r, "only its beginning was read")
	}
	return r
}

// askRest takes over what only the pages behind the last one that proves something say,
// as open questions.
func askRest(r *paper.Reading, all paper.Reading, last int) {
	askOther(r, all, last)
	for _, f := range paper.Fields() {
		v, found := all.Values[f]
		if _, has := r.Values[f]; has || !found || v.Text == "" || v.Place.Page <= last {
			continue
		}
		if _, asked := r.Question(f); asked {
			continue
		}
		v.Certain = false
		v.Candidates = []paper.Candidate{{Text: v.Text, Why: v.Why, Place: v.Place}}
		r.Values[f] = v
		r.Questions = append(r.Questions, paper.Question{Field: f, Candidates: v.Candidates,
			Text: fmt.Sprintf("Does %s hold for this paper? It stands on page %d, which does not speak of the person.", quoted(v.Place.Quote), v.Place.Page)})
	}
}

func understandPages(doc page.Document, pages []page.Page, h Hints) paper.Reading {
	l := newLook(doc, pages, h)
	l.out = paper.Reading{Outcome: paper.OutcomeRead, Reader: Version, Language: l.language(), Values: map[paper.Field]paper.Value{},
		From: max(pages[0].Number, 1), To: max(pages[len(pages)-1].Number, 1)}
	if len(l.passages) == 0 {
		l.out.Outcome = paper.OutcomeUnreadable
		l.out.Reason = "no text was found on its pages; if it shows writing, scan it again more clearly; the original is kept"
		return l.out
	}
	l.putKind()
	if l.kind == paper.NotEvidence {
		defer l.tell()
		l.out.Outcome = paper.OutcomeNotEvidence
		l.out.Reason = "it proves nothing that the person did: " + l.why
		return l.out
	}
	l.putAttendee()
	l.doubtNobody()
	l.settle(paper.FieldProvider, withForm(l.viewProvider(l.doubtBody(l.findProvider()))), func(rivals []guess) string {
		if len(rivals) > 1 {
			return "Who held it: " + orList(rivals, func(g guess) string { return g.text }) + "?"
		}
		return "Was it held or issued by " + rivals[0].text + "?"
	})
	l.findTitle()
	l.findDates()
	l.findDuration()
	l.findCredits()
	l.findTotal()
	l.checkCEU()
	l.putRows()
	l.weigh(doc)
	l.keepLabelled()
	l.taught()
	l.tell()
	return l.out
}

func (l *look) language() string {
	if l.doc.Language != "" && strings.HasPrefix(strings.ToLower(l.doc.Language), string(l.lang)) {
		return l.doc.Language
	}
	return string(l.lang)
}

// putKind decides the kind; a close call is a question.
func (l *look) putKind() {
	list := l.kindsFound()
	if list[0].score < 30 {
		none := tallied{kind: paper.NotEvidence, score: list[0].score, because: "nothing in it says that somebody took part, finished, paid or was certified"}
		list = append([]tallied{none}, slices.DeleteFunc(list, func(t tallied) bool { return t.kind == paper.NotEvidence })...)
	}
	list, same := l.viewKinds(list)
	top := list[0]
	l.kind, l.why = top.kind, top.because
	rivals := []guess{l.kindGuess(top)}
	l.note(paper.FieldKind, rivals[0])
	for _, t := range list[1:] {
		if t.kind == top.kind || t.score <= 0 && t.share == 0 {
			continue
		}
		l.note(paper.FieldKind, l.kindGuess(t))
		if !same && t.near(top) && len(rivals) < 4 {
			rivals = append(rivals, l.kindGuess(t))
		}
	}
	v := l.value(rivals[0])
	v.Certain = same && l.sureKind(top, v)
	l.askKind(&v, rivals, list)
	l.out.Values[paper.FieldKind] = v
}

// kindGuess is a kind with what speaks for it.
func (l *look) kindGuess(t tallied) guess {
	return guess{text: string(t.kind), score: min(100, max(t.score, 1)), at: l.shown(t), why: otherwise(t.because, wordsAsWhole), share: t.share, sure: true}
}

// kindsFound returns the kinds with what speaks for each, the first by the form of the paper
// or by a trace where words say too little.
func (l *look) kindsFound() []tallied {
	list := l.decideKind()
	top := list[0]
	if top.score >= 30 || top.kind == paper.NotEvidence && top.score > 0 {
		return list
	}
	t, ok := l.kindByForm(top)
	if !ok {
		t, ok = l.kindByTrace(list)
	}
	if !ok {
		return list
	}
	return append([]tallied{t}, list...)
}

// sureKind reports that what speaks for a kind is enough, where its words as a whole speak
// for it too. What is certainly no evidence may be set aside in a batch.
func (l *look) sureKind(top tallied, v paper.Value) bool {
	switch {
	case l.doc.Type == "ics":
		return true
	case v.Score < leastScore[paper.FieldKind]:
		return false
	case top.kind == paper.NotEvidence:
		return top.score >= 90 || top.score >= 50 && !provesHead.MatchString(l.headings())
	}
	return true
}

// askKind asks about the kind where it is not certain, and where the paper says that it
// proves nothing, or that an examination was not passed.
func (l *look) askKind(v *paper.Value, rivals []guess, list []tallied) {
	a, spoilt := l.spoilt()
	says := guess{text: string(paper.NotEvidence), at: a, why: "the paper says so"}
	switch {
	case spoilt && l.kind == paper.NotEvidence:
		says.text = string(paper.Credential)
		l.rivals = runnersUp(list)
		l.question(paper.FieldKind, v, []guess{{text: string(l.kind), at: a, why: "the paper says so"}, says}, fmt.Sprintf("Does this paper prove anything? It says %s.", quoted(l.text(a))))
	case spoilt:
		if !v.Certain {
			l.rivals = runnersUp(list)
		}
		l.question(paper.FieldKind, v, []guess{rivals[0], says}, fmt.Sprintf("Does this paper prove anything? It says %s.", quoted(l.text(a))))
	case !v.Certain:
		l.rivals = runnersUp(list)
		text := "Does this paper prove anything? Nothing in it says what it is."
		if len(rivals) > 1 {
			text = "What does this paper prove: " + orList(rivals, func(g guess) string { return g.text }) + "?"
		}
		l.question(paper.FieldKind, v, rivals, text)
	}
}

// runnersUp returns the kinds that follow the first, of those that anything speaks for.
func runnersUp(list []tallied) []paper.Kind {
	var out []paper.Kind
	for n, t := range list[1:] {
		if (n < 3 && t.score > 0 || t.share >= rivalKindShare) && t.kind != list[0].kind {
			out = append(out, t.kind)
		}
	}
	return out
}

var (
	spoiltLine = matching(`^[^\p{L}]*(?:void|specimen|sample|muster|entwurf|draft|cancelled|annulled|ungultig|storniert|annulee?|borrador|anulad[oa]|no valid[oa]|concept|ongeldig|geannuleerd)(?: (?:copy|only|certificate|exemplar|document))?[^\p{L}]*$`)
	spoiltHead = matching(`^[^\p{L}]*(?:VOID|SPECIMEN|SAMPLE|MUSTER|ENTWURF|DRAFT|CANCELLED|UNGÜLTIG|STORNIERT|ANNULÉE?|BORRADOR|ANULAD[OA]|ONGELDIG|GEANNULEERD)\s*[-–—:,(!]`)
	notPassed  = matching(`\b(?:not passed|did not pass|has not passed|not successful|unsuccessful|failed|nicht bestanden|non admise?|ajournee?|echec|no aprobad[oa]|no apt[oa]|no superad[oa]|suspens[oa]|niet geslaagd|niet behaald|gezakt)\b`)
)

// spoilt finds words by which a paper says that it holds no more, never did, or that an
// examination was not passed. On a bill it is the booking that was cancelled.
func (l *look) spoilt() (at, bool) {
	if l.kind == paper.Receipt {
		return at{}, false
	}
	for i, p := range l.passages {
		if l.kind == paper.NotEvidence {
			break
		}
		if len(strings.Fields(p.text)) < 4 && spoiltLine.MatchString(l.folded[i]) {
			return l.passageAt(i), true
		}
		if m := spoiltHead.FindStringIndex(p.text); m != nil {
			return l.passageAt(i).within(0, len(strings.TrimRight(p.text[:m[1]], " -–—:,(!"))), true
		}
	}
	return l.notPassed()
}

// notPassed finds the words by which the result of an examination says that it was not passed.
func (l *look) notPassed() (at, bool) {
	if l.kind != paper.Credential && (l.kind != paper.NotEvidence || !l.unpassed) {
		return at{}, false
	}
	for i := range l.passages {
		m := notPassed.FindString(l.folded[i])
		if m == "" && l.kind == paper.NotEvidence {
			m = strings.Trim(failed.FindString(l.folded[i]), " .,:;")
		}
		if m == "" {
			continue
		}
		if a, found := l.findText(m); found {
			return a, true
		}
		return l.passageAt(i), true
	}
	return at{}, false
}

// putAttendee settles whom the paper is about, and compares with the holder.
func (l *look) putAttendee() {
	list := best(l.findAttendee())
	if len(list) > 0 {
		list[0] = l.withFirstName(list[0])
	}
	if len(list) > 0 && list[0].score >= 50 && (strings.Contains(list[0].text, " ") || l.spokenTo(list[0].at)) && (len(list) == 1 || list[1].score < 40) {
		list[0].sure = true // the one name that stands out
	}
	l.doubtName(list)
	list = l.viewAttendee(list)
	l.settle(paper.FieldAttendee, list, func(rivals []guess) string {
		if len(rivals) > 1 {
			return "Whom is it about: " + orList(rivals, func(g guess) string { return g.text }) + "?"
		}
		return "Is it about " + rivals[0].text + "?"
	})
	v, ok := l.out.Values[paper.FieldAttendee]
	if other, differs := l.otherSpelling(list); ok && differs {
		l.question(paper.FieldAttendee, &v, []guess{list[0], other}, fmt.Sprintf("Is the name %s or %s? The paper spells it in two ways.", list[0].text, other.text))
		l.out.Values[paper.FieldAttendee] = v
	}
	l.compareHolder(v, ok)
}

// spokenTo reports a surname with a form of address before it in one line: a letter
// gives no more, but a line of its own may have lost the rest of the name.
func (l *look) spokenTo(a at) bool {
	text := l.passages[a.passage].text
	return endsAddress.MatchString(text[:a.span.From]) && strings.Trim(text[a.span.To:], " ") != ""
}

var endsAddress = matching(`(?:^|[\s(,])` + honorific + `\s*$`)

// compareHolder asks when the paper names neither the holder nor a former name.
func (l *look) compareHolder(v paper.Value, ok bool) {
	if l.hints.Holder == "" {
		return
	}
	names := append([]string{l.hints.Holder}, l.hints.FormerNames...)
	if ok && slices.ContainsFunc(names, func(n string) bool { return samePerson(n, v.Text) }) {
		return
	}
	if !ok {
		for _, n := range names {
			if strings.Contains(" "+strings.Join(strings.Fields(l.all), " ")+" ", " "+fold(n)+" ") {
				return
			}
		}
		l.out.Questions = append(l.out.Questions, paper.Question{Field: paper.FieldAttendee, Text: fmt.Sprintf("Is this paper about %s? It names nobody.", l.hints.Holder),
			Candidates: []paper.Candidate{{Text: l.hints.Holder, Why: "the vault is kept for this name"}}})
		return
	}
	g := guess{text: v.Text, why: "the paper names this person"}
	if len(l.passages) > 0 {
		if a, found := l.findText(v.Place.Quote); found {
			g.at = a
		}
	}
	l.question(paper.FieldAttendee, &v, []guess{g, {text: l.hints.Holder, at: g.at, why: "the vault is kept for this name"}},
		fmt.Sprintf("Is %s you, %s? The paper gives another name.", v.Text, l.hints.Holder))
	l.out.Values[paper.FieldAttendee] = v
}

// samePerson reports that two names have the same parts, whatever their order; a
// surname alone is the person's too, and so is an initial for a first name.
func samePerson(a, b string) bool {
	pa, pb := strings.FieldsFunc(fold(a), notPart), strings.FieldsFunc(fold(b), notPart)
	if len(pb) < len(pa) {
		pa, pb = pb, pa
	}
	if len(pa) == 0 {
		return false
	}
	for _, w := range pa {
		if !slices.ContainsFunc(pb, func(o string) bool {
			return o == w || len(w) == 1 && strings.HasPrefix(o, w) || len(o) == 1 && strings.HasPrefix(w, o)
		}) {
			return false
		}
	}
	return true
}

func notPart(r rune) bool { return r == ' ' || r == ',' || r == '.' || r == '-' }

// otherSpelling returns a second strong spelling of the attendee's name that nearly
// equals the first.
func (l *look) otherSpelling(list []guess) (guess, bool) {
	if len(list) == 0 {
		return guess{}, false
	}
	if g, ok := l.misspelt(list[0]); ok {
		return g, true
	}
	for _, g := range list[1:] {
		if d := distanceOf(fold(list[0].text), fold(g.text)); g.score >= 55 && d > 0 && d <= 2 && len(strings.Fields(g.text)) == len(strings.Fields(list[0].text)) {
			return g, true
		}
		if g.score >= 80 && nearParts(list[0].text, g.text) {
			return g, true
		}
	}
	return guess{}, false
}

// nearParts reports two names whose parts, in whatever order, nearly equal each other.
func nearParts(a, b string) bool {
	pa, pb := strings.FieldsFunc(fold(a), notPart), strings.FieldsFunc(fold(b), notPart)
	slices.Sort(pa)
	slices.Sort(pb)
	if len(pa) != len(pb) || len(pa) < 2 || slices.Equal(pa, pb) {
		return false
	}
	for i := range pa {
		if len(pa[i]) > 1 && len(pb[i]) > 1 && pa[i][0] == pb[i][0] && distanceOf(pa[i], pb[i]) <= min(2, len(pa[i])/3) {
			continue
		}
		return false
	}
	return true
}

// turnedName is a name with its surname first, wherever it stands.
var turnedName = matching(nameWord + `, ` + nameWord)

// misspelt finds a name in the text that nearly equals that of the attendee, and is no
// case of it: "Anna Veys".
func (l *look) misspelt(top guess) (guess, bool) {
	full, _ := nameWords(top.text)
	if _, confidence, _ := l.place(top.at); full < 2 || confidence < 100 {
		return guess{}, false
	}
	want := fold(top.text)
	for i, p := range l.passages {
		for _, m := range turnedName.FindAllStringIndex(p.text, -1) {
			if text := p.text[m[0]:m[1]]; nearParts(top.text, text) {
				name, _, _, _ := person(text)
				return guess{text: name, at: l.passageAt(i).within(m[0], m[1]-m[0]), score: 60, why: "the name stands in the text"}, true
			}
		}
		for _, m := range anyName.FindAllStringIndex(p.text, -1) {
			words := strings.Fields(p.text[m[0]:m[1]])
			for k := 0; k+full <= len(words); k++ {
				text := strings.Join(words[k:k+full], " ")
				got := fold(text)
				if got == want || got == want+"s" || got == want+"'s" || len(got) < 8 || abs(len(got)-len(want)) > 2 || got[0] != want[0] {
					continue
				}
				if d := distanceOf(want, got); d > 0 && d <= 2 {
					return guess{text: text, at: l.passageAt(i).within(m[0], m[1]-m[0]), score: 60, why: "the name stands in the text"}, true
				}
			}
		}
	}
	return l.misaddressed(top.text)
}

// addressed is a surname behind a form of address, as a letter speaks of somebody.
var addressed = matching(`(?:^|[\s(,])(?:Mr|Mrs|Ms|Miss|Herrn?|Frau|Mme|Madame|Monsieur|M\.|Sra?|Señora?|[Mm]evrouw|[Mm]evr|[Dd]e heer|[Dd]hr)\.?\s+(` + nameWord + `)(?:[,:;.!]|\s+\p{Ll}|\s*$)`)

// misaddressed finds a surname behind a form of address that nearly equals the last of a name:
// "Dear Ms Halvorsen", and further on "Greta Halvorson". A surname that somebody else on the
// paper has is that one's.
func (l *look) misaddressed(name string) (guess, bool) {
	words := strings.Fields(fold(name))
	last := words[len(words)-1]
	for i, p := range l.passages {
		for _, m := range addressed.FindAllStringSubmatchIndex(p.text, -1) {
			text := p.text[m[2]:m[3]]
			got := fold(text)
			if len(got) < 5 || got[0] != last[0] || got == last+"s" {
				continue
			}
			if d := distanceOf(last, got); d > 0 && d <= 2 && !l.surnameInFull(got) {
				return guess{text: text, at: l.passageAt(i).within(m[2], m[3]-m[2]), score: 60, why: "the name stands in the text"}, true
			}
		}
	}
	return guess{}, false
}

// surnameInFull reports that a full name on the paper ends with the surname.
func (l *look) surnameInFull(surname string) bool {
	return slices.ContainsFunc(l.passages, func(p passage) bool {
		return slices.ContainsFunc(anyName.FindAllStringIndex(p.text, -1), func(m []int) bool {
			name, _, _, _ := person(p.text[m[0]:m[1]])
			words := strings.Fields(fold(name))
			return len(words) > 1 && words[len(words)-1] == surname
		})
	})
}

// distanceOf counts the letters to put in, take out or change to turn a into b.
func distanceOf(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := 1; i <= len(a); i++ {
		diagonal := row[0]
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			diagonal, row[j] = row[j], min(row[j]+1, row[j-1]+1, diagonal+cost)
		}
	}
	return row[len(b)]
}

// checkCEU compares credits with the time: a CEU is ten contact hours. A difference
// takes the certainty from neither, but it is said in the question on credits if
// they differ by more than rounding.
func (l *look) checkCEU() {
	v, ok := l.out.Values[paper.FieldCredits]
	d, err := credit.ParseAmount(l.out.Values[paper.FieldDuration].Text)
	if !ok || err != nil || !v.Certain {
		return
	}
	list, err := paper.ParseCredits(v.Text)
	if err != nil {
		return
	}
	for _, p := range list {
		if foldUnit(p.Unit) != "ceu" {
			continue
		}
		hours := p.Value.Mul(credit.Whole(600))
		if d.Equal(p.Value.Mul(credit.Whole(60))) {
			continue // a body that counts one for each hour
		}
		if hours.Cmp(d.Mul(credit.Whole(2))) > 0 || d.Cmp(hours.Mul(credit.Whole(2))) > 0 {
			g, _ := l.findText(v.Place.Quote)
			l.question(paper.FieldCredits, &v, []guess{{text: v.Text, at: g, why: "it is printed"}},
				fmt.Sprintf("Are %s right? At ten contact hours each they do not fit %s minutes.", v.Text, d))
			l.out.Values[paper.FieldCredits] = v
		}
	}
}

// weigh takes certainty from a document of which pages were left unread.
func (l *look) weigh(doc page.Document) {
	if doc.Unread == 0 {
		return
	}
	doubt(&l.out, fmt.Sprintf("%d pages were not read", doc.Unread))
}
