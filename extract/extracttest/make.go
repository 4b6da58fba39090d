package extracttest

import (
	"fmt"
	"math/rand/v2"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// Make returns n invented papers drawn from seed. Equal arguments give equal papers
// (equal bytes, but for the lists within an embedded font),
// and a larger n gives the same papers and further ones behind them.
func Make(seed uint64, n int) []Made {
	made := make([]Made, n)
	for i := range made {
		made[i] = makeOne(seed, i)
	}
	return made
}

// makeOne draws paper number i of seed, and again until nothing in it contradicts itself.
func makeOne(seed uint64, i int) Made {
	for try := uint64(0); ; try++ {
		s := newSheet(rand.New(rand.NewPCG(seed, uint64(i)<<8|try)))
		if m, ok := s.make(fmt.Sprintf("paper-%04d", i+1)); ok {
			return m
		}
	}
}

func newSheet(r *rand.Rand) *sheet {
	s := &sheet{draw: draw{r}}
	s.loc = []string{"en-GB", "en-US", "en", "de", "fr", "es", "nl"}[s.weighted(20, 20, 10, 18, 12, 10, 10)]
	s.lang = s.loc[:2]
	s.w = lists[s.lang]
	s.dayFirst = s.loc != "en-US" && (s.loc != "en" || s.chance(60))
	s.open = s.loc == "en"
	s.t = Truth{Language: s.loc, Ask: []Ask{}, Also: map[string][]any{}}
	s.city = s.syllables("place")
	s.holder = s.someone()
	return s
}

// make fills the sheet and writes it in a format.
func (s *sheet) make(name string) (Made, bool) {
	kinds := []paper.Kind{paper.Attendance, paper.Completion, paper.Transcript, paper.Instruction, paper.Employment, paper.Membership,
		paper.Meeting, paper.Publication, paper.Credential, paper.Receipt, paper.NotEvidence}
	s.t.Kind = kinds[s.weighted(34, 16, 6, 6, 4, 5, 4, 3, 5, 9, 8)]
	s.drawDress()
	s.drawDays()
	s.provider = s.compose("org")
	s.t.Provider, s.t.Attendee = text(s.provider), text(s.holder.full())
	map[paper.Kind]func(){
		paper.Attendance: s.attendance, paper.Completion: s.completion, paper.Transcript: s.transcript, paper.Instruction: s.instruction,
		paper.Employment: s.employment, paper.Membership: s.membership, paper.Meeting: s.meeting, paper.Publication: s.publication,
		paper.Credential: s.credential, paper.Receipt: s.receipt, paper.NotEvidence: s.notEvidence,
	}[s.t.Kind]()
	if s.t.Kind != paper.NotEvidence {
		s.t.Start, s.t.End, s.t.Issue = isoDate(s.f.start), isoDate(s.f.end), isoDate(s.f.issue)
		if s.week {
			s.t.Start, s.t.End = nil, nil
		}
		s.settle()
		s.attach()
	}
	return s.finish(name)
}

// drawDress draws format and layout.
func (s *sheet) drawDress() {
	s.t.Format = []string{"pdf", "html", "txt", "eml", "eml-pdf", "docx"}[s.weighted(66, 7, 5, 8, 5, 9)]
	s.mail = s.t.Format == "eml"
	s.plain = s.t.Format == "txt" || s.t.Format == "eml"
	switch s.t.Format {
	case "pdf", "eml-pdf":
		s.layout = []string{"centred", "pairs", "beneath", "above", "columns", "boxes", "letter", "sentence", "landscape", "sidebar", "panel"}[s.weighted(20, 13, 8, 8, 8, 8, 8, 9, 7, 6, 7)]
	case "html", "docx":
		s.layout = oneOf(s.draw, "centred", "pairs", "columns", "letter", "sentence")
	default:
		s.layout = oneOf(s.draw, "pairs", "letter", "sentence")
	}
	switch s.t.Kind {
	case paper.Employment, paper.Publication:
		if s.chance(60) {
			s.layout = "letter"
		}
	}
	switch s.layout {
	case "pairs", "beneath", "above", "columns", "boxes":
		s.labelled = true
	}
}

// drawDays draws the days of an event and the day of issue after it.
func (s *sheet) drawDays() {
	s.f.start = credit.Day(2023, 1, s.between(5, 1350))
	if s.open && s.chance(50) { // a day that day and month can both be
		s.f.start = credit.Day(s.between(2023, 2025), oneOf(s.draw, months...), s.between(1, 12))
	}
	for w := s.f.start.Weekday(); w == 0 || w == 6; w = s.f.start.Weekday() {
		s.f.start = s.f.start.AddDays(1)
	}
	s.f.end = s.f.start.AddDays([]int{0, 1, 2, 3, 4, 11}[s.weighted(62, 18, 10, 4, 4, 2)])
	if s.chance(78) {
		s.f.issue = s.f.end.AddDays(oneOf(s.draw, 0, 0, 0, 1, 2, 3, 5, 7, 9, 14, 21, 30))
	}
}

// fields that every certificate has: heading, holder, title, days, and where they stand.
func (s *sheet) frame(holder, title string) {
	heads := s.w["head."+string(s.t.Kind)]
	s.c.heading = oneOf(s.draw, heads...)
	for s.labelled && strings.HasPrefix(s.c.heading, "*") {
		s.c.heading = oneOf(s.draw, heads...)
	}
	s.c.heading = strings.TrimPrefix(s.c.heading, "*")
	if s.labelled {
		s.item(holder, s.shown(s.holder))
		s.item(title, *s.t.Title)
		if s.chance(30) {
			n := len(s.c.items)
			s.c.items[n-1], s.c.items[n-2] = s.c.items[n-2], s.c.items[n-1]
		}
	}
}

// speakTo writes to the person instead of about the person; some letters know only
// the surname.
func (s *sheet) speakTo(values []string) {
	s.c.to, s.c.letter = s.shown(s.holder), true
	lone := s.t.Kind == paper.Instruction || s.t.Kind == paper.Publication
	if lone && s.holder.honor != "" && s.t.Format != "eml" && s.t.Format != "eml-pdf" {
		s.c.to = s.holder.honor + " " + s.holder.last
		s.t.Attendee = text(s.holder.last)
		s.why("only the surname is given")
	}
	values = append(values, "title", s.quoted(*s.t.Title), "event", s.say("event"))
	s.c.says = append(s.c.says, s.say("you."+string(s.t.Kind), values...))
}

// named writes the title as its kind is written in a sentence: posts and grades, and
// mostly qualifications, stand without quotes.
func (s *sheet) named(title string) string {
	switch s.t.Kind {
	case paper.Employment, paper.Membership:
		return title
	case paper.Credential, paper.Meeting:
		if s.chance(70) {
			return title
		}
	}
	return s.quoted(title)
}

// sentence draws the five parts of the certifying sentence.
func (s *sheet) sentence(section string, values ...string) {
	if s.layout == "letter" && s.chance(45) && section == "lines."+string(s.t.Kind) && s.w["you."+string(s.t.Kind)] != nil {
		s.speakTo(values)
		return
	}
	values = append(values, "holder", s.shown(s.holder), "title", s.named(*s.t.Title), "provider", s.provider, "event", s.say("event"))
	for i, part := range strings.Split(s.say(section), "|") {
		part = strings.TrimSpace(fill(part, values...))
		for _, mark := range []string{" .", " ,"} {
			part = strings.ReplaceAll(part, mark, mark[1:])
		}
		if i == 3 && s.layout != "sentence" && s.layout != "letter" && !s.plain && s.chance(60) {
			part = *s.t.Title
		}
		if part == "." && s.inParts() {
			part = "" // nothing follows the title, which stands alone
		}
		s.c.lines = append(s.c.lines, part)
	}
}
