package extract

import (
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"evidencevault/credit"
	"evidencevault/extract/find"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// A look is one paper while it is being understood.
type look struct {
	*sheet
	doc      page.Document
	hints    Hints
	kind     paper.Kind
	seen     []string     // by which traits the kind was weighed
	why      string       // what decided the kind
	answered paper.Kind   // the kind that a form tells by asking as what somebody took part
	rivals   []paper.Kind // what else it may be, where that is open

	lost     *[]day       // days of rows that were not made out; nil until looked for
	headed   *[]headedDay // see headedDays
	unpassed bool         // it says that an examination was failed
	days     []day
	clocks   []clockHit
	lengths  []lengthHit
	lesson   credit.Minutes // how long the paper says that a lesson is, or 0
	credits  []creditHit
	sums     []sumHit
	order    find.Order
	folded   []string // the passages, folded
	all      string   // all of them
	out      paper.Reading
	series   []line // rows of a table that have a day each
	closing  closing
	quotes   int                     // how many texts stand in quotation marks
	noted    map[paper.Field][]guess // what each field could have been, for the trace
	dayAt    map[paper.Field]guess   // the days that were put into the reading, with their places
}

// A day is a day or a span of days in the text, with what it is said to be.
type day struct {
	at      at
	role    role
	sure    bool // the role comes from a label or from words right beside it
	spans   []find.Stretch
	single  bool
	open    bool // a span without end
	week    bool
	numeric bool
	lack    find.Lack
	alone   bool         // nothing else stands in its passage but a place
	weak    bool         // taken for the day of issue only because it stands alone
	lone    bool         // a small word stands before it and no place: "le 18 mai 2026."
	clash   bool         // a weekday stands with it, and is that of none of its readings
	weekday time.Weekday // that weekday, where it is one day; see clash
	label   string
	guessed bool       // the label is not known, or does not say what the day is
	hangs   dependence // on what kind of word of its sentence it depends
	cut     bool       // it begins or ends with its line, and may go on in another
}

type clockHit struct {
	at    at
	clock find.Clock
}

type lengthHit struct {
	at     at
	length find.Duration
	role   role
	label  string
}

type creditHit struct {
	at    at
	value credit.Amount
	unit  string
	kind  string
	total bool
}

type sumHit struct {
	at     at
	amount find.Amount
	role   role
	label  string
}

// newLook collects what the finders find.
func newLook(doc page.Document, pages []page.Page, h Hints) *look {
	l := &look{sheet: newSheet(doc, pages), doc: doc, hints: h, dayAt: map[paper.Field]guess{}}
	for i, p := range l.passages {
		l.folded = append(l.folded, fold(p.text))
		l.collectDays(i, p.text)
		l.collectBoxed(i, p.text)
		for _, c := range find.Clocks(p.text, l.langs) {
			if !numbered.MatchString(c.Of(p.text)) || l.bareClock(at{i, c.Span}, c) {
				l.clocks = append(l.clocks, clockHit{at{i, c.Span}, c})
			}
		}
		l.collectLengths(i, p.text)
		l.collectCredits(i, p.text)
		l.collectSums(i, p.text)
	}
	l.endsOfLabels()
	l.toldClocks()
	l.carryLists()
	l.addNamedBoxes()
	l.addCellBoxes()
	l.addByYear()
	l.addBySection()
	l.addWithin()
	l.addYearless()
	l.plainSums()
	l.totalsUnsigned()
	l.demote()
	l.all = strings.Join(l.folded, "\n")
	l.labelledLengths()
	l.hourFigures()
	l.wholesInAll()
	l.lesson = l.lessonMinutes()
	l.lessonsDefined()
	l.labelledCredits()
	l.recognised()
	l.settleOrder()
	l.columnDays()
	l.boxRoles()
	l.headRoles()
	l.setAside()
	l.oneListOneRole()
	l.series = l.seriesLines()
	l.findClosing()
	l.copyDays()
	l.footDays()
	return l
}

var (
	numbered = matching(`^\d{3,4}\s*[-–]\s*\d{3,4}$`) // a number of registration rather than a span of the day
	yearLike = matching(`^(?:19|20)\d\d\s*[Hh]$`)     // a year before an initial
)

func (l *look) collectDays(passage int, text string) {
	ranges, dates := find.Ranges(text, l.langs), find.Dates(text, l.langs)
	found := append(joinedDays(passage, text, ranges, dates), listedDays(passage, text, ranges, dates)...)
	for _, d := range daysInLists(passage, text, ranges, dates, l.langs) {
		if !slices.ContainsFunc(found, func(o day) bool { return o.at.span.Overlaps(d.at.span) }) {
			found = append(found, d)
		}
	}
	joined := len(found)
	for _, r := range ranges {
		if r.Lack != find.NoYear && len(r.Readings) > 0 && !slices.ContainsFunc(found[:joined], func(d day) bool { return d.at.span.Overlaps(r.Span) }) {
			found = append(found, day{at: at{passage, r.Span}, spans: r.Readings, open: r.Open, week: r.Week, numeric: r.Form == find.Numeric, lack: r.Lack,
				clash: r.Weekday && !r.Open && !r.Week && r.Lack == find.Whole && !slices.ContainsFunc(r.Readings, func(s find.Stretch) bool { return s.Weekday })})
		}
	}
	for _, f := range dates {
		if slices.ContainsFunc(found[:joined], func(d day) bool { return d.at.span.Overlaps(f.Span) }) {
			continue
		}
		if f.Form == find.Relative || slices.ContainsFunc(ranges, func(r find.Range) bool { return r.Overlaps(f.Span) }) {
			continue
		}
		d := day{at: at{passage, f.Span}, single: true, numeric: f.Form == find.Numeric, lack: f.Lack, weekday: f.Weekday,
			clash: f.HasWeekday && f.Lack == find.Whole && !slices.ContainsFunc(f.Readings, func(r find.Reading) bool { return r.Weekday })}
		for _, r := range f.Readings {
			if r.Year != 0 {
				d.spans = append(d.spans, find.Stretch{Start: r.First(), End: r.Last(), From: r, To: r, Order: r.Order, Weekday: r.Weekday && f.HasWeekday})
			}
		}
		if len(d.spans) > 0 {
			found = append(found, d)
		}
	}
	onLatter(found, text)
	l.presentMarks(found, text)
	for _, d := range found {
		whole := strings.TrimRight(d.at.span.Of(text), " .")
		d.cut = !d.single && !d.open && !d.week && !endsYear.MatchString(whole) && strings.TrimSpace(text[d.at.span.To:]) == "" && d.lack == find.Whole && !d.numeric || goesOnList.MatchString(fold(tail(text[:d.at.span.From], 200)))
		l.addDay(d, text)
	}
}

var (
	endsYear   = matching(`(?:\d{4}|['’]\d\d)$`)
	goesOnList = matching(`^ ?(?:and|und|et|y|e|en|puis|bis|to|until|till|au|al|tot|t/m|sowie)(?: \S+){0,2} ?$|(?:^| )\d{1,2}\.? (?:and|und|et|y|e|en|&) (?:(?:le|the|den|el|de|am|on|op) )?$`)
)

// onLatter sorts days, and of two between which something was moved keeps the second.
func onLatter(found []day, text string) {
	slices.SortFunc(found, func(a, b day) int { return a.at.span.From - b.at.span.From })
	for i, d := range found {
		if !d.single && !d.open && movedFrom.MatchString(fold(tail(text[:d.at.span.From], 48))) {
			found[i].single, found[i].spans = true, nil
			for _, s := range d.spans { // "postponed from 3 to 10 March": it was held on the latter
				found[i].spans = append(found[i].spans, find.Stretch{Start: s.End, End: s.End, From: s.To, To: s.To, Order: s.Order, Weekday: s.Weekday})
			}
		}
	}
}

// movedFrom ends in front of two days of which only the second holds.
var movedFrom = matching(`\b(?:postponed|moved|rescheduled|brought forward|changed|deferred|verschoben|verlegt|vorverlegt|reportee?s?|avancee?s?|deplacee?s?|aplazad[oa]s?|trasladad[oa]s?|adelantad[oa]s?|verplaatst|verzet|verschoven)\b[^.;]{0,24}$`)

var joins = matching(`(?i)^\s*(?:,?\s*(?:tot en met|t/m|tot|bis zum|bis|until|through|up to|jusqu'au|hasta el|al))\s+(?:den\s+|the\s+|el\s+|le\s+)?$`)

// joinedDays makes spans of two spelt days with a word such as "until" between them,
// where the finder took each alone. A year that the first lacks is that of the second.
func joinedDays(passage int, text string, ranges []find.Range, dates []find.Date) []day {
	var out []day
	for i := 1; i < len(dates); i++ {
		a, b := dates[i-1], dates[i]
		whole := find.Span{From: a.From, To: b.To}
		if len(a.Readings) != 1 || len(b.Days()) != 1 || a.To > b.From || !joins.MatchString(text[a.To:b.From]) ||
			slices.ContainsFunc(ranges, func(r find.Range) bool { return r.Overlaps(whole) }) {
			continue
		}
		end, start := b.Days()[0], a.Readings[0].Day
		if a.Lack == find.NoYear {
			year, _, _ := end.YMD()
			if d, ok := a.Readings[0].In(year); ok && !d.After(end) {
				start = d
			} else if d, ok := a.Readings[0].In(year - 1); ok {
				start = d
			}
		}
		if !start.IsZero() && !end.Before(start) {
			out = append(out, day{at: at{passage, whole}, spans: []find.Stretch{{Start: start, End: end, From: a.Readings[0], To: b.Readings[0]}}})
		}
	}
	return out
}

// listedDays makes one span of a list of days that runs over two months, where the finder
// took the first month without its year: "3, 10 and 17 November and 1 December 2025".
func listedDays(passage int, text string, ranges []find.Range, dates []find.Date) []day {
	var out []day
	for _, r := range ranges {
		if r.Lack != find.NoYear || len(r.Readings) != 1 {
			continue
		}
		for _, d := range dates {
			if d.From < r.To || len(d.Days()) != 1 || !listJoins.MatchString(text[r.To:d.From]) {
				continue
			}
			end := d.Days()[0]
			year, _, _ := end.YMD()
			start, ok := r.Readings[0].From.In(year)
			if ok && start.After(end) {
				start, ok = r.Readings[0].From.In(year - 1)
			}
			if ok && !start.IsZero() {
				out = append(out, day{at: at{passage, find.Span{From: r.From, To: d.To}}, spans: []find.Stretch{{Start: start, End: end, From: r.Readings[0].From, To: d.Readings[0]}}})
			}
			break
		}
	}
	return out
}

var listJoins = matching(`(?i)^(?:\s*,)?\s*(?:(?:and|und|et|y|e|en|&|sowie|as well as|ainsi que|así como|alsook)\s+)?(?:(?:on|am|le|les|el|los|op|den)\s+(?:the\s+)?)?$`)

// addDay finds out what a day is said to be.
func (l *look) addDay(d day, text string) {
	before, after := text[:d.at.span.From], text[d.at.span.To:]
	if i := l.lastDayBefore(d.at); i >= 0 {
		before = text[i:d.at.span.From]
	}
	p, labelled := l.labelOf(d.at)
	inner := ""
	if labelled {
		inner = text[p.value.span.From:d.at.span.From]
		d.label = p.label
	}
	before = l.leadIn(d, before) + before
	before, after = besideSigner(before, head(after, 500), d.single)
	d.alone = strings.Trim(after, " .,") == "" && placeBefore(before) &&
		(len(strings.Fields(before)) < 2 && !capitalised(before+" x") || strings.TrimSpace(before) == "" || placeGiven(before) || heading.MatchString(fold(before)))
	cue, near, beside := cueOf(before, after)
	switch {
	case labelled && p.role != noRole && len(inner) < 40 && (cue == noRole || cue == isEvent || p.role == isOther && (cue == isStart || cue == isEnd) || !near || inner == "" || p.how == inline && len(strings.Fields(inner)) < 2):
		d.role, d.sure = p.role, true
	case cue != noRole:
		d.role, d.sure = cue, near
	case labelled && p.role != noRole:
		d.role = p.role
	}
	d.guessed = labelled && (p.role == noRole || p.role != d.role)
	d.depend(before, after, labelled && p.role == d.role && d.role != noRole, beside)
	if labelled && d.single && (p.role == isSigner || p.role == isPresent) && handLabel.MatchString(p.label) && inner != "" {
		d.role, d.sure = isIssue, true // "Unterschrift: G. Rapp, 18.11.2025"
	}
	if d.single && !labelled && d.role == isEvent && onlyDate.MatchString(before) && strings.Trim(after, " .") == "" {
		d.role, d.sure = isBare, true // "Date 8 May 2026" without a colon
	}
	l.madeOn(&d, before, after, labelled)
	l.days = append(l.days, d)
}

// isPriced reports that a price stands at the end of a row over which the passage of a place runs.
func (l *look) isPriced(a at) bool {
	return slices.ContainsFunc(l.passages[a.passage].cells, func(ci int) bool {
		row := l.rows[l.cells[ci].row]
		last := row[len(row)-1]
		return last != ci && priceAtEnd.MatchString(l.cells[last].text)
	})
}

// leadIn returns the line above a day that begins its own, where that line ends with the word that
// leads to it: "has passed the examination on".
func (l *look) leadIn(d day, before string) string {
	if i := d.at.passage; strings.TrimSpace(before) == "" && d.at.span.From < 4 && i > 0 && len(l.passages[i-1].text) < 120 && leadsToDay.MatchString(fold(l.passages[i-1].text)) {
		return l.passages[i-1].text + " "
	}
	return ""
}

// leadsToDay ends a line beneath which a day stands.
var leadsToDay = matching(`\p{L}[^:]* (?:on|on the|am|le|el|el dia|op|vom|du|del|since|seit|depuis|desde|sinds|from|until|bis zum|jusqu'au|hasta el|tot en met|dated)$`)

// onlyDate is a word for a day alone.
var onlyDate = matching(`^(?i:date|datum|fecha) $`)

// madeOn gives the role of issue to a day that its place shows to be that of the paper.
func (l *look) madeOn(d *day, before, after string, labelled bool) {
	if l.isPriced(d.at) && strings.TrimSpace(before) != "" && strings.Trim(after, " .,)") == "" {
		d.alone = false // what was bought, with its day, and no place with the paper's
		if d.role == noRole || d.role == isIssue {
			d.role, d.sure = isEvent, true
		}
		return
	}
	if d.single && (d.role == isEvent || d.role == noRole || d.hangs == onOther && writtenThen.MatchString(lastSentence(fold(before)))) && !labelled && madeThat(before, after, l.lastDayBefore(d.at) >= 0 || len(l.days) > 0) {
		d.role, d.sure = isIssue, true
	}
	if !d.alone && d.single && placeGiven(before) && placeBefore(before) && signedBehind(after) {
		d.alone = true // "Eichenau, 28.05.2026, Hiltrud Mangold"
	}
	if d.single && (d.role == isEvent || d.role == noRole || d.role == isBare && !labelled) && d.alone && placeGiven(before) {
		d.role, d.sure, d.weak = isIssue, true, len(strings.Fields(before)) < 2
		d.lone = !capitalised(before)
	}
	if d.role != isIssue && !labelled && l.headsBill(*d) {
		d.role, d.sure = isIssue, true
	}
	if !d.single && d.role == isPaid {
		d.role = isEvent // nothing is paid over several days
	}
}

// besideSigner returns what stands before and behind a day without who signs beside it.
func besideSigner(before, after string, single bool) (string, string) {
	signer, _, _, _ := person(strings.TrimLeft(signedMark.ReplaceAllString(after, ""), " ."))
	if full, _ := nameWords(signer); full > 1 && placeGiven(before) && strings.Contains(before, ",") {
		after = "" // who signs stands beside the place and the day
	}
	if rest := strings.Trim(after, " .,"); rest == "" && single {
		if _, place, ok := signedAt(before); ok {
			before = place // who signs stands before the place
		}
	}
	return before, after
}

// madeThat reports that the sentence before a day says of the paper that it was made or
// handed over then: "Given on", or a day at the end behind "Extract issued to Ann Vey as …,".
func madeThat(before, after string, later bool) bool {
	text := lastSentence(fold(before))
	if later && givenThen.MatchString(text) {
		return true
	}
	if writtenThen.MatchString(text) {
		return true
	}
	return strings.Trim(after, " .") == "" && endsComma.MatchString(text) && paperMade.MatchString(text)
}

// lastSentence returns what stands behind the last end of a sentence in a folded text.
func lastSentence(text string) string {
	if i := lastMatch(sentenceEnd, text); i > 0 && !shortens(text[:i]) {
		text = text[max(0, i-1):]
	}
	return strings.TrimLeft(text, ".!? ")
}

// What says of a paper, and not of an event, when it was made.
var (
	givenThen   = matching(`^(?:given|done|made|witnessed|gegeben|geschehen)(?: under (?:\w+ ){1,3}(?:hand|seal))?(?: on)?(?: this| the)? ?$`)
	writtenThen = matching(`^ ?(?:written|ecrite?|fait|redigee?|escrit[oa]|hecho|geschrieben|geschreven|verfasst|opgesteld)(?: (?:at|in|zu|a|en|te) [^,.;:]{2,40}?,?)?(?: on| le| am| el| op)(?: the)? ?$`)
	endsComma   = matching(`(?:,|, ?(?:a|a los|al|el|on|on the|am|den|le|op|this))\s*$`)
	paperMade   = matching(`^(?:(?:la |el |esta |este )?(?:presente|certificado|constancia|documento)(?: se)? (?:expide|extiende|emite|firma|otorga)|se (?:expide|extiende|emite|firma)|(?:la |le |cette |cet |ce )?(?:presente|attestation|certificat|document)(?: est| a ete)? (?:delivre|etabli|remis|fait)e?|(?:deze |dit |het |de )?(?:verklaring|bewijs|certificaat|document)(?: is| wordt| werd)? (?:afgegeven|uitgereikt|opgemaakt))\b|^(?:this |the |dieser? |diese[sr]? |der |die |das )?(?:\w+ )?(?:extract|copy|certificate|statement|letter|document|paper|record|confirmation|slip|duplicate|auszug|abschrift|bescheinigung|bestatigung|nachweis|urkunde|zeugnis|kopie|zweitschrift|ausfertigung)(?: is| was| wurde| wird)? (?:issued|made out|prepared|drawn up|given|handed|supplied|sent|ausgestellt|erteilt|ausgefertigt|ausgehandigt|erstellt)\b`)
)

// signedAt parts what stands before the day at the end of a line into who signs, and the
// place where: "Kursstätte Oberlohe, Oberlohe, ", "… was present. A. Vey, ".
func signedAt(before string) (who, place string, ok bool) {
	text := strings.TrimRight(before, " ")
	if !strings.HasSuffix(text, ",") {
		return "", "", false
	}
	text = strings.TrimSuffix(text, ",")
	if k := strings.LastIndex(text, ": "); k > 0 && k < 40 {
		if rest := text[k+2:]; capitalised(rest) && len(strings.Fields(rest)) < 5 && !hasFigure(rest) && certifiedBy.MatchString(fold(text[:k])) {
			return rest, rest + ",", true // "Für die Richtigkeit: Geschäftsstelle, "
		}
	}
	if m := nameAtEnd.FindStringSubmatchIndex(text); m != nil {
		return text[m[2]:m[3]], text[m[2]:] + ",", true
	}
	who, place, ok = strings.Cut(text, ", ")
	if !ok || strings.ContainsAny(text, "0123456789:;()\"“”«»") || strings.Contains(place, ", ") || !capitalised(who) || !capitalised(place) || len(strings.Fields(who)) < 2 || len(strings.Fields(who)) > 8 || len(strings.Fields(place)) > 3 {
		return "", "", false
	}
	return who, place + ",", true
}

// certifiedBy is a label for who stands for what the paper says.
var certifiedBy = matching(`^(?:fur die richtigkeit|certified (?:correct|true)?|certified by|signed|confirmed|pour copie conforme|certifie (?:conforme|exact)|conforme|es conforme|voor akkoord|voor echt|namens .*|unterschrift|signature)$`)

// nameAtEnd is a name at the end of a line, behind the end of a sentence.
var nameAtEnd = matching(`\p{Ll}[.!] ((?:\p{Lu}\.\s?){1,3}\p{Lu}[\p{L}'’-]+|\p{Lu}[\p{L}'’-]+(?: \p{Lu}\.)?(?: \p{Lu}[\p{L}'’-]+){1,2})$`)

// handLabel is a label for somebody's hand.
var handLabel = matching(`unterschrift|sign(?:ature|ed)|firma|handtekening|stempel|stamp`)

// signedMark stands before a name in place of its hand.
var signedMark = matching(`^[\s,.]*(?i:gez\.|gezeichnet|sgd\.?|signed|s\.|signé|firmado|fdo\.|getekend|w\.g\.):?\s+`)

// signedBehind reports that nothing but a name stands behind a day.
func signedBehind(after string) bool {
	rest, ok := strings.CutPrefix(after, ", ")
	if !ok {
		return false
	}
	name, _, to, _ := person(rest)
	full, _ := nameWords(name)
	return full > 1 && strings.Trim(rest[to:], " .") == ""
}

// demote takes the role of issue from days that have it for standing alone, where
// another day is said to be that of issue.
func (l *look) demote() {
	other := func(d day) bool { return !d.lone && !slices.Contains([]role{isOther, isIssue, isPaid}, d.role) }
	if !slices.ContainsFunc(l.days, other) {
		for i := range l.days {
			if d := &l.days[i]; d.lone {
				d.role, d.weak = isEvent, false // the end of a sentence that is set in lines
				break
			}
		}
	}
	if !slices.ContainsFunc(l.days, func(d day) bool { return d.role == isIssue && !d.weak }) {
		return
	}
	for i := range l.days {
		if d := &l.days[i]; d.weak && !l.headsOrCloses(d) {
			d.role = isEvent
		}
	}
}

// headsOrCloses reports a day with its place in the first or last lines of a paper that says of
// another day that something took place on it: it is that of the paper, whatever else is.
func (l *look) headsOrCloses(d *day) bool {
	if d.at.passage > 2 && d.at.passage < len(l.passages)-2 {
		return false
	}
	same := func(o day) bool { return slices.Equal(o.spans, d.spans) }
	return !slices.ContainsFunc(l.days, func(o day) bool { return o.at != d.at && o.role != isIssue && same(o) }) &&
		slices.ContainsFunc(l.days, func(o day) bool {
			return o.at != d.at && slices.Contains([]role{isEvent, isStart, isEnd, isFinish}, o.role) && o.sure && !o.weak
		})
}

// lastDayBefore returns where the last day that was found in the passage before a ends, or -1.
func (l *look) lastDayBefore(a at) int {
	end := -1
	for _, d := range l.days {
		if d.at.passage == a.passage && d.at.span.To <= a.span.From {
			end = max(end, d.at.span.To)
		}
	}
	return end
}

// placeBefore reports that nothing or only a place stands before a day.
func placeBefore(before string) bool {
	before = strings.TrimSpace(before)
	return len(before) < 50 && !strings.ContainsAny(before, "0123456789:;()") && len(strings.Fields(before)) < 7
}

// shortDay is a day of the week in two letters.
var shortDay = matching(`^(?:ma|di|wo|do|vr|za|zo|mo|mi|fr|sa|so)$`)

// placeGiven reports "Hainrode, den" and the like before a day: a place, a comma or a small word.
func placeGiven(before string) bool {
	text := strings.TrimSpace(before)
	for _, in := range []string{"en ", "à ", "a ", "te ", "in ", "zu ", "at "} {
		if rest, ok := strings.CutPrefix(text, in); ok && capitalised(rest) && len(strings.Fields(rest)) < 5 {
			text = rest
			break
		}
	}
	if text == "" || strings.ContainsAny(text, "„“”\"«»") {
		return false
	}
	low := fold(text)
	if k := strings.LastIndex(low, ", "); k > 0 && shortDay.MatchString(low[k+2:]) {
		return capitalised(text) && len(strings.Fields(text)) < 5 // "Westervoort, za"
	}
	for _, small := range []string{"den", "le", "a", "el", "op", "am", "on", "d.d.", "the", "this", "this the", "on this", "ce", "a dia"} {
		if rest, ok := strings.CutSuffix(low, " "+small); ok {
			return strings.HasSuffix(rest, ",") && capitalised(text) || small != "a" && small != "op" && small != "am" && small != "on" && len(strings.Fields(rest)) == 1 && capitalised(text)
		}
		if low == small {
			return small == "le" || small == "den" || small == "a" || small == "el"
		}
	}
	return strings.HasSuffix(low, ",") && capitalised(text) && len(strings.Fields(text)) < 5 && !namesEvent.MatchString(low)
}

// namesEvent is an event rather than the place before a day: "Spring seminar,", "Seminar Waid,".
var namesEvent = matching(`(?:^|[ -])(?:seminar|webinar|workshop|(?:training )?course|conference|congress|symposium|study (?:day|weekend|evening)|masterclass|refresher|lecture|talk|meeting|session|(?:general )?assembly|\p{L}*(?:seminar|kurs|lehrgang|tagung|schulung|fortbildung|weiterbildung|vortrag|veranstaltung|sitzung|versammlung)|seminaire|atelier|colloque|formation|congres|reunion|journee(?: d'etude)?|assemblee(?: generale)?|curso|taller|seminario|congreso|jornadas?|ponencia|reunion|asamblea(?: general)?|\p{L}*(?:cursus|opleiding|scholing|bijeenkomst|vergadering|studiedag|lezing|congres)),$|^(?:seminar|webinar|workshop|kurs|lehrgang|vortrag|course|lecture|talk|seminaire|atelier|stage|formation|curso|taller|seminario|ponencia|cursus|lezing|scholing) `)

func capitalised(text string) bool {
	r, _ := utf8.DecodeRuneInString(strings.TrimLeft(text, " \"“„«‘'¿¡("))
	return unicode.IsUpper(r) || unicode.IsDigit(r)
}

func (l *look) collectLengths(passage int, text string) {
	for _, f := range find.Durations(text, l.langs) {
		if yearLike.MatchString(f.Of(text)) {
			continue
		}
		h := lengthHit{at: at{passage, f.Span}, length: f}
		if m := spanBefore.FindStringSubmatch(text[:f.From]); m != nil && f.Unit == find.Minute && len(f.Candidates) == 0 {
			if least, err := strconv.Atoi(m[1]); err == nil {
				h.length.Candidates, h.length.Minutes = []credit.Minutes{credit.Minutes(least), f.Minutes}, 0
			}
		}
		if n := countOf(text[:f.From]); n > 0 && (f.Unit == find.Minute || f.Unit == find.Hour) && f.Each == 0 && len(h.length.Candidates) == 0 {
			h.length.Each, h.length.Minutes, h.length.Count = f.Minutes, f.Minutes*credit.Minutes(n), credit.Whole(int64(n))
		}
		if f.Each > 0 && f.Minutes < f.Each { // "Deux demi-journées de 3 h 30"
			ahead := strings.Fields(text[:f.From])
			n := max(1, numberOf(firstWord(f.Of(text))))
			if len(ahead) > 0 {
				n = max(n, numberOf(ahead[len(ahead)-1]))
			}
			h.length.Minutes, h.length.Count = f.Each*credit.Minutes(n), credit.Whole(int64(n))
		}
		if m, from := l.earlierHalf(text[:f.From], text[f.To:], f.Unit); m > 0 && f.Each == 0 && len(f.Candidates) == 0 {
			h.length.Minutes, h.at.span.From = f.Minutes+m, from
		}
		if p, ok := l.labelOf(h.at.last()); ok {
			h.role, h.label = p.role, p.label
		}
		l.lengths = append(l.lengths, h)
	}
}

// firstWord is the first word of a text.
func firstWord(text string) string {
	first, _, _ := strings.Cut(strings.TrimSpace(text), " ")
	return first
}

// spanBefore is the lower end of a span of time: "between 40 and 55 minutes".
var spanBefore = matching(`(?i)(?:between|tussen|zwischen|entre)\s+(\d{1,3})\s+(?:and|en|und|et|y)\s+$`)

func (l *look) collectCredits(passage int, text string) {
	for _, f := range find.Credits(text, l.langs) {
		label := fold(tail(text[:f.From], 200))
		if p, ok := l.labelOf(at{passage, f.Span}.last()); ok && strings.TrimSpace(label) == "" {
			label = p.label
		}
		if numberOfWhat.MatchString(label) {
			continue // "Provider no. CPD 12"
		}
		unit := dictionary(f.Unit)
		if m := whoseUnit.FindString(text[f.To:]); m != "" && len(strings.Fields(unit)) == 1 {
			unit += m
		}
		l.credits = append(l.credits, creditHit{at: at{passage, f.Span}, value: f.Amount(), unit: unit, kind: f.Kind, total: f.Total})
	}
}

// numberOfWhat ends in front of a number by which somebody or something is registered.
var numberOfWhat = matching(`(?:\b(?:provider|sponsor|course|activity|event|programme?|approval|accreditation|registration|register|member(?:ship)?|licen[cs]e|certificate|document|serial|reference|anbieter|kurs|zertifikat|agrement|organisme|adherent|licence|registro|curso|proveedor|socio|cursus|aanbieder|lid)[ -]?(?:no|nr|n°|nº|number|nummer|numero|num|id|code|ref)|\p{L}{3,}(?:nummer|-nr|nr)|\bref(?:erence)?|\b(?:n°|nº|numero) d['e] ?(?:agrement|organisme|adherent|registro|curso|socio))\.?\s*[:#]?\s*$`)

// whoseUnit stands behind "points" and says of what they are.
var whoseUnit = matching(`^ de (?:formation(?: continue| permanente)?|formación(?: continuada| continua| permanente)?|perfectionnement(?: professionnel)?|capacitación(?: continua| profesional)?|développement professionnel(?: continu)?|desarrollo profesional(?: continuo)?)`)

// dictionary writes a unit in the form in which a dictionary has it: "Fortbildungspunkten"
// is the dative of "Fortbildungspunkte".
func dictionary(unit string) string {
	if strings.HasSuffix(strings.ToLower(unit), "punkten") {
		return unit[:len(unit)-1]
	}
	return unit
}

func (l *look) collectSums(passage int, text string) {
	for _, f := range find.Amounts(text, l.langs) {
		h := sumHit{at: at{passage, f.Span}, amount: f}
		if p, ok := l.labelOf(h.at.last()); ok && len(find.Amounts(p.label, l.langs)) == 0 { // the line above has its own sum
			h.role, h.label = p.role, p.label
		}
		l.sums = append(l.sums, h)
	}
}
