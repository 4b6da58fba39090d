package extract

import (
	"fmt"
	"slices"
	"strings"

	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

// scales weigh the kinds of a paper against each other.
type scales struct {
	*look
	of    map[paper.Kind]*tallied
	head  string // the headings, folded
	lines string // the lines but the first, without who signs, without what is denied or promised
	flat  string // the same in one line
	whole string // all lines, the first and the signatures too, likewise
	none  bool   // the paper says that it is none, or that one is to come
	did   bool   // it says that somebody did something
	money bool
}

// decideKind finds the kind, how sure it is, and the runners-up.
func (l *look) decideKind() []tallied {
	w := &scales{look: l, of: map[paper.Kind]*tallied{}, money: len(l.sums) > 0 || l.plainPrices()}
	for _, k := range paper.Kinds() {
		w.of[k] = &tallied{kind: k}
	}
	w.read()
	for _, sg := range signs {
		w.sign(sg)
	}
	for _, sg := range broadSigns {
		w.broadSign(sg)
	}
	w.weighDeeds()
	for _, step := range []func(){w.weighProof, w.weighMoney, w.weighList, w.weighPerson, w.weighDistance, w.weighExam, w.weighMeeting, w.weighRole, w.weighBlanks} {
		step()
	}
	list := make([]tallied, 0, len(w.of))
	for _, t := range w.of {
		list = append(list, *t)
	}
	slices.SortFunc(list, func(a, b tallied) int {
		if a.score != b.score {
			return b.score - a.score
		}
		return strings.Compare(string(a.kind), string(b.kind))
	})
	return list
}

// read takes the texts that are weighed, without what the paper denies or promises.
func (w *scales) read() {
	flat := strings.Join(slices.DeleteFunc(slices.Clone(w.folded), func(text string) bool {
		return stayedOut.MatchString(strings.TrimSpace(text)) // in a row of a list it denies that row alone
	}), " ")
	w.none = deniesAll(flat) || slices.ContainsFunc(notYet, func(p *pattern) bool { return p.MatchString(flat) })
	w.head = blankOut(bodyOfExaminers.ReplaceAllString(taughtTime.ReplaceAllString(w.headings(), "time"), "body"), against...)
	w.lines = blankOut(w.after0(), against...)
	w.whole = blankOut(w.all, against...)
	w.flat, w.whole = strings.ReplaceAll(w.lines, "\n", " "), strings.ReplaceAll(w.whole, "\n", " ")
	w.did = didIt.MatchString(w.whole)
}

// bodyOfExaminers is who examines, in a name; what it writes may be a bill.
var bodyOfExaminers = matching(`\b(?:board|panel|college|institute|corps|society|guild|association) of (?:\w+ ){0,3}examiners\b`)

// add gives points to a kind, with the reason.
func (w *scales) add(k paper.Kind, n int, why string) {
	t := w.of[k]
	t.score += n
	if why != "" && (t.because == "" || n > 50) {
		t.because = why
	}
}

// form gives points for what is no word: a second sign where there are enough of them.
func (w *scales) form(k paper.Kind, n int, why string) {
	if n > 19 {
		w.of[k].forms++
	}
	w.add(k, n, why)
}

// hears gives points for words that were found, in a heading or in the text.
func (w *scales) hears(k paper.Kind, n int, words string, head bool) {
	t := w.of[k]
	t.say(words, head)
	t.speak(words, head)
	where := "text"
	if head {
		where = "heading"
	}
	w.add(k, n, fmt.Sprintf("the %s says %q", where, strings.Trim(words, " .,:;()\n\t\"~")))
	t.title = t.title || head
}

// sign weighs one of the signs: in a heading twice, or in the text, where a sentence that
// runs over lines counts if little else speaks for the kind.
func (w *scales) sign(sg sign) {
	if sg.kind == paper.Meeting && callsTo.MatchString(w.head) && !provesHead.MatchString(w.head) {
		return // a meeting to come
	}
	if m := sg.re.FindString(w.head); m != "" && (sg.re != distance || sg.re.MatchString(w.lines)) {
		w.hears(sg.kind, 2*sg.weight, m, true)
		return
	}
	if sg.inHead {
		return
	}
	if m := sg.re.FindString(w.lines); m != "" {
		w.hears(sg.kind, sg.weight, m, false)
	} else if m := sg.re.FindString(w.flat); m != "" && w.of[sg.kind].score < 30 {
		w.hears(sg.kind, sg.weight, m, false)
	}
}

// callsTo heads a paper that calls people to a meeting.
var callsTo = matching(`(?:^|\n) ?(?:convocation|convocatoria|einladung|einberufung|invitation|uitnodiging|oproep(?:ing)?|citacion|notice of (?:the )?(?:annual |general |extraordinary )*meeting)\b`)

// bidsTo are words with which somebody is invited.
var bidsTo = words(`nodigt? (?:u|jou|jullie|hen|alle leden)(?: \S+){0,3} uit|(?:laden|ladt|lade) (?:wir |ich )?(?:sie|dich|euch|alle mitglieder)(?: \S+){0,8} ein|(?:you are|are you|all members are) (?:\S+ )?invited|invites? (?:you|all members|its members)|(?:vous|nous) (?:invite|convie|convoque|invitons|convions|convoquons)\w*|(?:le|les|os|se) (?:invita|convoca|invitamos|convocamos)\w*`)

// broadSign weighs one of the signs that may run over lines.
func (w *scales) broadSign(sg sign) {
	if sg.kind == paper.Transcript && len(w.series) < 2 {
		return
	}
	if m := sg.re.FindString(w.head); m != "" {
		n := sg.weight
		if !w.of[sg.kind].title {
			n *= 2
		}
		w.hears(sg.kind, n, m, true)
	} else if m := sg.re.FindString(w.flat); m != "" && !sg.inHead && w.of[sg.kind].score < max(sg.weight, 31) {
		w.hears(sg.kind, sg.weight, m, false)
	}
}

// weighProof weighs whether the paper proves anything at all.
func (w *scales) weighProof() {
	if w.doc.Type == "ics" {
		w.form(paper.NotEvidence, 500, "a calendar entry announces, it does not prove")
	}
	if w.none && !w.did && !w.priced() {
		w.form(paper.NotEvidence, 60, "it says that it is no proof, or that one is to come")
	}
	if w.did {
		w.add(paper.NotEvidence, -60, "")
	} else if provesHead.MatchString(w.head) {
		w.add(paper.NotEvidence, -40, "")
	} else if w.of[paper.NotEvidence].score > 0 && w.of[paper.Receipt].score < 60 {
		w.form(paper.NotEvidence, 40, "")
	}
	if !w.did && bidsTo.MatchString(w.whole) && slices.ContainsFunc(w.folded[:min(6, len(w.folded))], callsTo.MatchString) {
		w.form(paper.NotEvidence, 60, "it invites to what is to come")
		w.of[paper.Meeting].score = min(w.of[paper.Meeting].score, 60)
	}
	if rulesWords.MatchString(w.head) {
		w.form(paper.NotEvidence, 90, "its heading says that it holds general terms")
	}
}

// weighBlanks lets a form without a name prove nothing; what it would prove stays open beside
// it, since a hand may have written what was not read.
func (w *scales) weighBlanks() {
	if !w.blankForm() {
		return
	}
	for _, t := range w.of {
		t.score = min(t.score, 60)
	}
	w.of[paper.NotEvidence].score = 10
	w.form(paper.NotEvidence, 60, "it is a form that nobody has filled in")
}

// blankForm reports a paper with blanks to be filled in, and nobody's name on it.
func (w *scales) blankForm() bool {
	n := 0
	for _, p := range w.pages {
		for _, t := range p.Lines {
			n += len(blankRun.FindAllStringIndex(t, -1))
		}
		for _, word := range p.Words {
			n += len(blankRun.FindAllStringIndex(word.Text, -1))
		}
	}
	if n < 3 || n <= len(w.pairs) || slices.ContainsFunc(w.withRole(isPerson), func(p pair) bool { return nameFirst(w.text(p.value)) }) {
		return false
	}
	return !slices.ContainsFunc(w.passages, func(p passage) bool {
		return isPersonal(p.text) && roleOf(p.text) == noRole && !provesHead.MatchString(fold(p.text)) && !eventSaid.MatchString(fold(p.text))
	})
}

// blankRun is a stroke or a row of points on which somebody is to write.
var blankRun = matching(`_{4,}|(?:_ ){4,}|\.{7,}|(?:\. ){7,}|(?:\.\.\.){2,}`)

// weighMoney weighs dues, bills and slips.
func (w *scales) weighMoney() {
	membership := w.of[paper.Membership]
	if duesWords.MatchString(w.whole) && (w.money || membership.score > 0 && !w.listsCourses()) && paysWords.MatchString(w.whole) && (len(w.periods()) > 0 || w.forYear()) {
		w.form(paper.Membership, 110, "dues for a period were paid")
	}
	w.weighDues()
	if w.money && paysWords.MatchString(w.whole) {
		w.of[paper.Receipt].forms++
	}
	if !w.money {
		w.of[paper.Receipt].score = min(w.of[paper.Receipt].score-70, 38) // no sum was read
	} else if (len(w.sums) > 1 || w.pricedRows() > 2) && tillWords.MatchString(w.whole) && totalWord.MatchString(w.whole) && !w.did {
		w.form(paper.Receipt, 70, "it adds up what was bought")
	}
	if i := slices.IndexFunc(w.folded[:min(4, len(w.folded))], func(t string) bool { return volumeNumber.MatchString(t) }); i >= 0 && textWords.MatchString(w.whole) && !w.money {
		w.of[paper.Publication].say(volumeNumber.FindString(w.folded[i]), true)
		w.form(paper.Publication, 60, "volume and number stand at its head")
	}
}

// weighList weighs what the rows of a list are: evenings of a season, or several courses.
func (w *scales) weighList() {
	been, _ := w.attendedCount()
	switch {
	case len(w.series) >= 2 && (been > 0 || w.ofOneSeries()):
		w.add(paper.Transcript, -60, "")        // the evenings of one season
		if w.of[paper.Instruction].score < 40 { // who taught them has such a list too
			w.form(paper.Attendance, 20, "it lists the evenings of one series")
		}
	case w.listsCourses():
		w.form(paper.Transcript, 60, "it lists several courses, each with its own day")
		if slices.ContainsFunc(w.series, func(r line) bool { return r.total && (r.minutes > 0 || len(r.credits) > 0) }) {
			w.form(paper.Transcript, 30, "")
		}
	case len(w.series) > 2 && w.weekByWeek() && slices.ContainsFunc(w.series, func(r line) bool { return r.absent }):
		w.add(paper.Transcript, -40, "")
		w.form(paper.Attendance, 90, "a list marks at which of its evenings somebody was")
	default:
		w.add(paper.Transcript, -40, "")
		if len(w.series) < 2 && len(w.withRole(isTitle)) == 1 && len(w.withRole(isEvent, isBare)) > 0 {
			w.add(paper.Transcript, -60, "") // an extract with one entry
			w.form(paper.Attendance, 20, "it names one event and its day")
		}
	}
}

// listsCourses reports rows of several courses, none of which is paid for there.
func (w *scales) listsCourses() bool {
	return len(w.series) >= 2 && !w.priced() && w.differentThings()
}

// weighPerson weighs who is named, and as what.
func (w *scales) weighPerson() {
	persons := len(w.withRole(isPerson)) > 0
	if provesHead.MatchString(w.head) && persons && w.of[paper.NotEvidence].score <= 0 {
		w.form(paper.Attendance, 20, "it is headed as a proof and names a person")
	}
	if persons && (w.did || len(w.withRole(isTitle)) > 0 && len(w.days) > 0 && !w.money) {
		w.form(paper.Attendance, 22, "it names a person and an event")
	}
	was := w.of[paper.Attendance].score >= 26 || w.of[paper.Completion].score >= 28
	if was && w.of[paper.Credential].title && !examWords.MatchString(w.whole) {
		w.add(paper.Credential, -80, "") // a "diploma" for having been there
	}
	taught := slices.ContainsFunc(w.withRole(isSigner), func(p pair) bool { return teachWords.MatchString(p.label) })
	if taught && !persons && w.of[paper.Attendance].score < 26 && !w.did && !slices.ContainsFunc(w.passages, func(p passage) bool { return certificateFor.MatchString(p.text) }) {
		w.form(paper.Instruction, 34, "it names a speaker and no participant")
	}
	if w.of[paper.Completion].score <= 0 && w.of[paper.Meeting].score <= 0 && slices.ContainsFunc(w.pairs, func(p pair) bool { return tookPartAs.MatchString(p.label) && nameFirst(w.text(p.value)) }) {
		w.form(paper.Attendance, 30, "a label asks who took part")
	}
	if len(w.withRole(isGrade)) > 0 && duesWords.MatchString(w.whole) {
		w.form(paper.Membership, 40, "a label asks for the grade of member")
	}
	if w.memberCard() {
		w.form(paper.Membership, 44, "it names a body of members, and a long period")
	}
}

// memberCard reports a short paper with a body of members at its head, a person and a long
// period, and nothing of a course, an examination or money.
func (w *scales) memberCard() bool {
	if w.money || len(w.folded) == 0 || len(w.folded) > 9 || !ofMembers.MatchString(w.folded[0]) || len(w.periods()) == 0 && !validWord.MatchString(w.whole) {
		return false
	}
	return !courseWords.MatchString(w.flat) && !examWords.MatchString(w.flat) && len(w.clocks) == 0 && len(w.lengths) == 0
}

var ofMembers = words(memberBody)

// tookPartAs is a label of who was there or was taught.
var tookPartAs = matching(`\b(?:present|attendee|participante?|delegate|trainee|learner|\S*teilnehmer(?:in)?|anwesend|lehrgangsteilnehmer(?:in)?|stagiaire|asistente|deelnemer|deelneemster|cursist|aanwezig)(?: name)?$|^(?:name (?:of|des|der|van)|nom du|nombre del?) (?:the )?(?:participant|attendee|trainee|teilnehm\w+|stagiaire|asistente|deelnemer)`)

// weighDistance weighs being there against finishing something at a distance.
func (w *scales) weighDistance() {
	apart, live := distance.MatchString(w.lines), len(w.clocks) > 0 || liveWords.MatchString(w.whole)
	switch {
	case apart:
		if !live {
			w.add(paper.Attendance, -30, "")
		}
		if len(w.clocks) == 0 && ownPace.MatchString(w.whole) {
			w.add(paper.Attendance, -90, "")
			w.of[paper.Attendance].score = min(w.of[paper.Attendance].score, max(w.of[paper.Completion].score, 0)) // whatever it is headed
			w.form(paper.Completion, 50, "it says that it was done at a distance")
		}
	case live || w.spansDays():
		w.add(paper.Completion, -20, "")
		if w.of[paper.Completion].score > 0 {
			w.form(paper.Attendance, 30, "it was held at given times")
		}
	}
	if inPerson.MatchString(w.whole) && w.spansDays() && !apart {
		w.form(paper.Attendance, 20, "") // the people met
	}
}

// weighExam weighs an examination against a course.
func (w *scales) weighExam() {
	if w.of[paper.Completion].score > 0 && w.of[paper.Credential].score > 0 && !w.of[paper.Credential].title && courseWords.MatchString(w.whole) {
		w.add(paper.Credential, -25, "")
	}
	if w.of[paper.Completion].title && !w.of[paper.Credential].title && len(w.lengths) > 0 {
		w.add(paper.Credential, -60, "") // what a course ends with, which is certified with its length
	} else if slices.ContainsFunc(w.withRole(isExam), func(p pair) bool { return len(find.Dates(w.text(p.value), nil)) > 0 }) {
		w.form(paper.Credential, 60, "a label asks for the day of the examination")
	}
}

// weighMeeting weighs the meeting of a body against a course.
func (w *scales) weighMeeting() {
	meeting := w.of[paper.Meeting]
	if m := atMeeting.FindString(w.flat); m != "" {
		meeting.say(m, false)
		w.form(paper.Meeting, 100, fmt.Sprintf("the text says %q", strings.TrimSpace(m)))
	}
	course := courseWords.MatchString(w.said(0))
	if meeting.score > 0 && !meeting.title && course {
		w.add(paper.Meeting, -40, "")
	}
	if meeting.score > 0 && slices.ContainsFunc(w.passages, func(p passage) bool { return meetingIn.MatchString(p.text) }) {
		w.form(paper.Meeting, 60, "")
	}
	if slices.ContainsFunc(w.pairs, func(p pair) bool { return meetingLabel.MatchString(p.label) && p.role != isNumber }) {
		w.form(paper.Meeting, 60, "a label asks for the meeting")
	}
	if w.sheetOfCourse() {
		w.form(paper.Attendance, 60, "it lists who came to a course")
		w.add(paper.Meeting, -120, "")
	}
	if w.committeeSheet() {
		w.form(paper.Meeting, 90, "a committee stands at its head, over those who came")
		w.add(paper.Attendance, -40, "")
	}
	if m := decidedAt.FindString(w.whole); m != "" && (!meeting.title || examBodies.MatchString(m)) {
		w.add(paper.Meeting, -160, "") // where it was decided, not what somebody attended
	}
	if meeting.score > 40 && !course {
		w.form(paper.Meeting, 50, "")
	}
}
