package extract

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// A Trace is how one paper came to be read: what was seen on its pages, what the finders
// found, which values each field could have had, and what decided. It is for people who
// want to see why; nothing is worked out from it.
type Trace struct {
	Pages  []TracedPage  `json:"pages"`
	Text   []TracedText  `json:"text"`   // lines and paragraphs, in reading order
	Labels []TracedLabel `json:"labels"` // labels with their values
	Found  []TracedFind  `json:"found"`  // days, clock times, lengths, credits, sums
	Fields []TracedField `json:"fields"` // in the order of [paper.Fields]; those for which nothing was found are left out
	Traits []string      `json:"traits"` // what the paper speaks of and holds as a whole, by which its kind was weighed
}

// TracedPage is a page as it was seen.
type TracedPage struct {
	Number     int    `json:"page"`
	Size       [2]int `json:"size"`       // width and height in hundredths of a point; 0 where the format has no pages
	Words      int    `json:"words"`      // 0 where the format has no boxes
	Hidden     int    `json:"hidden"`     // words that cannot be seen on it
	Recognised bool   `json:"recognised"` // the words come from a picture
	Confidence int    `json:"confidence"` // of recognition, the mean over its words; 100 for text
	Second     string `json:"second"`     // whether the second opinion has the same words: "not asked", "agrees with 97 of 100 words"
}

// TracedText is a passage with its place.
type TracedText struct {
	Text string    `json:"text"`
	Page int       `json:"page"`
	Box  paper.Box `json:"box"`  // hundredths of a point; zero where the format has no pages
	Size int       `json:"size"` // of the letters, hundredths of a point; 0 unknown
}

// TracedLabel is a label with the value that stands with it.
type TracedLabel struct {
	Label string `json:"label"`
	Value string `json:"value"`
	Role  string `json:"role"` // what the label says that the value is; "" if it is not known
	How   string `json:"how"`  // "inline", "beside" or "beneath"
}

// TracedFind is something that a finder found, with each meaning that it may have.
type TracedFind struct {
	What     string      `json:"what"` // "day", "clock", "length", "credits", "sum"
	Meanings []string    `json:"meanings"`
	Role     string      `json:"role"`  // what it is said to be; "" if nothing says it
	Label    string      `json:"label"` // beside it; "" if there is none
	Place    paper.Place `json:"place"`
}

// TracedField is a field with what it could have been and what it became.
type TracedField struct {
	Field      paper.Field       `json:"field"`
	Candidates []TracedCandidate `json:"candidates"` // the heaviest first
	Value      string            `json:"value"`      // "" while it is open
	Certain    bool              `json:"certain"`
	Score      int               `json:"score"`    // of the value, 0 to 1000
	Least      int               `json:"least"`    // from which score the field may be certain; 0 where its checks decide
	Doubts     []string          `json:"doubts"`   // what keeps it from being certain
	Question   string            `json:"question"` // that is asked; "" if none
}

// TracedCandidate is a value that a field could have had.
type TracedCandidate struct {
	Value   string      `json:"value"`
	Weight  int         `json:"weight"` // what speaks for it, about 0 to 100; comparable within its field
	Why     string      `json:"why"`
	Trusted bool        `json:"trusted"` // its sign is one that a careful reader trusts by itself
	Share   int         `json:"share"`   // of 100, how far what can be seen of it speaks for it before all other texts of the paper; 0 where that is not asked
	Seen    []string    `json:"seen"`    // what can be seen of it, whatever it says
	Place   paper.Place `json:"place"`
}

// note keeps what a field could have been, for the trace.
func (l *look) note(f paper.Field, list ...guess) {
	if l.hints.trace == nil {
		return
	}
	if l.noted == nil {
		l.noted = map[paper.Field][]guess{}
	}
	l.noted[f] = append(l.noted[f], list...)
}

// noteDay notes each day that a field may have, with what the paper says that it is.
func (l *look) noteDay(f paper.Field, p *pick) {
	for _, one := range p.days {
		l.note(f, guess{text: one.String(), at: p.at, score: 80, why: l.whyDay(p), sure: p.sure})
	}
}

// whyDay says what speaks for a day.
func (l *look) whyDay(p *pick) string {
	k := slices.IndexFunc(l.days, func(d day) bool { return d.at == p.at })
	switch {
	case p.why != "":
		return p.why
	case k >= 0 && l.days[k].label != "":
		return "it stands with the label " + quoted(l.days[k].label)
	case k >= 0 && l.days[k].role != noRole:
		return "the words around it say: " + string(l.days[k].role)
	}
	return "it is the day that is left"
}

// doubts says what keeps the heaviest of the guesses from being certain; none if it is.
func (l *look) doubts(f paper.Field, top guess, rivals []guess, v paper.Value) []string {
	var out []string
	if !top.sure && !top.seenProven(f) {
		out = append(out, "its sign is not one to trust by itself")
	}
	if len(rivals) > 1 {
		out = append(out, "another value comes near it")
	}
	if top.alone(f) {
		out = append(out, "its sign alone was wrong too often on papers that nobody had looked at")
	}
	if l.cutOff(top) || halfOf(top.text) {
		out = append(out, "it seems cut off, or misread")
	}
	if f == paper.FieldAttendee && l.nameCut(top) {
		out = append(out, "what follows may be more of the name")
	}
	if f == paper.FieldProvider && l.oddBody(top.text) {
		out = append(out, "it is hardly the name of a body")
	}
	if f == paper.FieldTitle && l.oddTitle(top.text) {
		out = append(out, "it is hardly a title alone")
	}
	if kind, ok := l.out.Values[paper.FieldKind]; f == paper.FieldTitle && ok && !kind.Certain && l.titleByKind(top) {
		out = append(out, "what the title is depends on the kind, which is open")
	}
	if top.seen != nil && top.share < shareFor(top.score) {
		out = append(out, "what can be seen of it speaks as much for another text")
	}
	if least := leastScore[f]; v.Score < least && !top.seenProven(f) {
		out = append(out, fmt.Sprintf("its score of %d is below %d", v.Score, least))
	}
	return append(out, l.unclear(top.at, v.Place)...)
}

// titleByKind reports that the title would be another thing if the paper were of another kind
// that it may be: of an event, a course or a talk it is the name all the same.
func (l *look) titleByKind(top guess) bool {
	named := []paper.Kind{paper.Attendance, paper.Completion, paper.Instruction}
	if len(l.rivals) == 0 {
		return !slices.Contains(named, l.kind)
	}
	kept := l.kind
	defer func() { l.kind = kept }()
	for _, k := range l.rivals {
		if slices.Contains(named, kept) && slices.Contains(named, k) || k == paper.NotEvidence {
			continue // of what proves nothing no title is kept
		}
		l.kind = k
		if list := best(l.titlesOfKind()); len(list) == 0 || bare(list[0].text) != bare(top.text) {
			return true
		}
	}
	return false
}

// tell hands out the trace, where somebody asked for it.
func (l *look) tell() {
	if l.hints.trace == nil {
		return
	}
	t := Trace{}
	for _, p := range l.pages {
		t.Pages = append(t.Pages, tracedPage(p))
	}
	for i, p := range l.passages {
		place, _, _ := l.place(l.passageAt(i))
		size := 0
		if len(p.cells) > 0 {
			size = l.cells[p.cells[0]].size
		}
		t.Text = append(t.Text, TracedText{Text: p.text, Page: place.Page, Box: place.Box, Size: size})
	}
	for _, p := range l.pairs {
		t.Labels = append(t.Labels, TracedLabel{Label: p.label, Value: l.text(p.value), Role: string(p.role), How: p.how.String()})
	}
	t.Found, t.Traits = l.tracedFinds(), l.seen
	for _, f := range paper.Fields() {
		if v, ok := l.out.Values[f]; ok || len(l.noted[f]) > 0 {
			t.Fields = append(t.Fields, l.tracedField(f, v))
		}
	}
	l.hints.trace(t)
}

func tracedPage(p page.Page) TracedPage {
	out := TracedPage{Number: p.Number, Size: [2]int{p.Width, p.Height}, Words: len(p.Words), Recognised: p.Picture, Confidence: 100, Second: "not asked"}
	sum, known, all := 0, 0, 0
	second := bare(p.Second)
	for _, w := range p.Words {
		sum += w.Confidence
		if w.Hidden {
			out.Hidden++
		}
		if b := bare(w.Text); b != "" {
			all++
			if strings.Contains(second, b) {
				known++
			}
		}
	}
	if p.Picture && len(p.Words) > 0 {
		out.Confidence = sum / len(p.Words)
	}
	if p.Second != "" && all > 0 {
		out.Second = fmt.Sprintf("has %d of 100 words", known*100/all)
	}
	return out
}

func (l *look) tracedFinds() []TracedFind {
	var out []TracedFind
	add := func(what string, a at, r role, label string, meanings ...string) {
		place, _, _ := l.place(a)
		out = append(out, TracedFind{What: what, Meanings: meanings, Role: string(r), Label: label, Place: place})
	}
	for _, d := range l.days {
		var meanings []string
		for _, s := range d.spans {
			text := s.Start.String()
			if s.End.IsZero() {
				text += " on"
			} else if s.End != s.Start {
				text += " to " + s.End.String()
			}
			meanings = append(meanings, text)
		}
		add("day", d.at, d.role, d.label, meanings...)
	}
	for _, c := range l.clocks {
		add("clock", c.at, noRole, "", fmt.Sprintf("%d minutes less %d listed breaks", c.clock.Net(), len(c.clock.Breaks)))
	}
	for _, h := range l.lengths {
		meanings := []string{strconv.Itoa(int(h.length.Minutes)) + " minutes"}
		if len(h.length.Candidates) > 0 {
			meanings = nil
		}
		for _, m := range h.length.Candidates {
			meanings = append(meanings, strconv.Itoa(int(m))+" minutes")
		}
		add("length", h.at, h.role, h.label, meanings...)
	}
	for _, c := range l.credits {
		add("credits", c.at, noRole, "", c.value.String()+" "+c.unit)
	}
	for _, s := range l.sums {
		add("sum", s.at, s.role, s.label, strings.TrimSpace(s.amount.Value+" "+s.amount.Currency))
	}
	return out
}

func (l *look) tracedField(f paper.Field, v paper.Value) TracedField {
	out := TracedField{Field: f, Value: v.Text, Certain: v.Certain, Score: v.Score, Least: leastScore[f], Doubts: []string{}}
	list := slices.Clone(l.noted[f])
	slices.SortStableFunc(list, func(a, b guess) int { return b.score - a.score })
	for _, g := range list {
		place, _, _ := l.place(g.at)
		out.Candidates = append(out.Candidates, TracedCandidate{Value: g.text, Weight: g.score, Why: g.why, Trusted: g.sure, Share: g.share, Seen: g.seen, Place: place})
	}
	k := slices.IndexFunc(list, func(g guess) bool { return g.text == v.Text })
	if !v.Certain && k >= 0 {
		out.Doubts = append(out.Doubts, l.doubts(f, list[k], nil, v)...)
	}
	if q, ok := l.out.Question(f); ok {
		out.Question = q.Text
		if len(q.Candidates) > 1 {
			out.Doubts = append(out.Doubts, "another value comes near it")
		}
	}
	return out
}

func (s standing) String() string { return [...]string{"inline", "beside", "beneath"}[s] }
