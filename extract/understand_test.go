package extract_test

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"evidencevault/extract"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// text returns a document of plain lines.
func text(lines ...string) page.Document {
	return page.Document{Type: "txt", Pages: []page.Page{{Number: 1, Lines: lines}}}
}

// certificate is clear in every field; tests change one thing of it.
var certificate = []string{
	"Marrowgate Safety Centre", "Certificate of Attendance", "Name: Ivor Pennyfeather", "Course: Slinging Signals",
	"Date of course: 1 July 2026", "Hours: 4", "Issued: 3 July 2026",
}

// with returns the certificate with one line in place of another.
func with(old, line string) []string {
	out := slices.Clone(certificate)
	out[slices.Index(out, old)] = line
	return out
}

func TestCertificateIsClear(t *testing.T) {
	r := extract.Understand(text(certificate...), extract.Hints{})[0]
	want := map[paper.Field]string{
		paper.FieldKind: "attendance", paper.FieldTitle: "Slinging Signals", paper.FieldProvider: "Marrowgate Safety Centre", paper.FieldAttendee: "Ivor Pennyfeather",
		paper.FieldStart: "2026-07-01", paper.FieldEnd: "2026-07-01", paper.FieldIssue: "2026-07-03", paper.FieldDuration: "240",
	}
	got := map[paper.Field]string{}
	for f, v := range r.Values {
		got[f] = v.Text
		if !v.Certain {
			t.Errorf("%s is not certain", f)
		}
		if v.Place.Page != 1 || v.Place.Quote == "" {
			t.Errorf("%s stands at %+v, want page 1 and a quote", f, v.Place)
		}
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("values (-want +got):\n%s", diff)
	}
	if !r.Clear() {
		t.Errorf("questions: %+v, want none", r.Questions)
	}
}

func TestOrderOfDayAndMonth(t *testing.T) {
	tests := []struct {
		name, why string
		lines     []string
		want      string // of end_date; "" means it must be asked
	}{
		{"open", "nothing settles it", with("Issued: 3 July 2026", "Hall 4"), ""},
		{"above twelve", "another date of the form has 25 in front", with("Issued: 3 July 2026", "Issued: 25/07/2026"), "2026-07-04"},
		{"weekday", "4 July 2026 is a Saturday", with("Issued: 3 July 2026", "Hall 4"), "2026-07-04"},
		{"spelt out", "the same day stands in words", with("Issued: 3 July 2026", "It was held on 4 July 2026."), "2026-07-04"},
		{"sequence", "it cannot be issued before it was held", with("Issued: 3 July 2026", "Issued: 5 May 2026"), "2026-04-07"},
		{"United States", "an American address", append(with("Issued: 3 July 2026", "Hall 4"), "Toledo, OH 43604"), "2026-04-07"},
		{"United Kingdom", "a British telephone", append(with("Issued: 3 July 2026", "Hall 4"), "Telephone 01632 960 417"), "2026-07-04"},
		{"spelling", "the spelling of a word settles nothing", append(with("Issued: 3 July 2026", "Hall 4"), "Our programme organised by colour"), ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			lines := slices.Clone(tt.lines)
			day := "Date of course: 04/07/2026"
			if tt.name == "weekday" {
				day = "Date of course: Saturday, 04/07/2026"
			}
			lines[slices.Index(lines, "Date of course: 1 July 2026")] = day
			r := extract.Understand(text(lines...), extract.Hints{})[0]
			v := r.Values[paper.FieldEnd]
			q, asked := r.Question(paper.FieldEnd)
			if tt.want == "" {
				if !asked || v.Certain {
					t.Fatalf("%q was decided as %s (%s)", day, v.Text, tt.why)
				}
				if !strings.HasPrefix(q.Text, "Is 04/07/2026 the 4th of July 2026 or the 7th of April 2026?") || len(q.Candidates) != 2 {
					t.Errorf("question %q with %d candidates", q.Text, len(q.Candidates))
				}
				return
			}
			if asked || !v.Certain || v.Text != tt.want {
				t.Errorf("got %s, certain %v, asked %v; want %s: %s", v.Text, v.Certain, asked, tt.want, tt.why)
			}
		})
	}
}

func TestDurationInOrder(t *testing.T) {
	tests := []struct {
		name, why, line, want string // want "" means it must be asked
	}{
		{"stated", "the stated total", "Duration: 4 hours", "240"},
		{"attended first", "what was attended goes before what was planned", "Scheduled hours: 6, hours attended: 5", "300"},
		{"clock", "less the break that is listed", "Time: 09:00 to 12:30 (break 10:30 to 10:45)", "195"},
		{"count times length", "lessons with their length", "Duration: 4 lessons of 45 minutes", "180"},
		{"lessons alone", "their length is not told", "Duration: 4 teaching units", ""},
		{"a span", "it is not one duration", "Duration: 45–60 minutes", ""},
		{"disagree", "clock and total differ and no break is listed", "Time: 09:00 to 12:00, no breaks. Total time: 5 hours", ""},
		{"credits", "credits are never turned into time", "CPD hours: 4", "none"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := extract.Understand(text(with("Hours: 4", tt.line)...), extract.Hints{})[0]
			v, found := r.Values[paper.FieldDuration]
			_, asked := r.Question(paper.FieldDuration)
			switch {
			case tt.want == "none":
				if found {
					t.Errorf("%q gave %s: %s", tt.line, v.Text, tt.why)
				}
			case tt.want == "":
				if !asked || v.Certain {
					t.Errorf("%q was not asked about, got %s: %s", tt.line, v.Text, tt.why)
				}
			case v.Text != tt.want || asked:
				t.Errorf("%q gave %s, asked %v; want %s: %s", tt.line, v.Text, asked, tt.want, tt.why)
			}
		})
	}
}

func TestHolder(t *testing.T) {
	tests := []struct {
		name, why string
		hints     extract.Hints
		asked     bool
	}{
		{"unknown", "who reads without a vault is never asked", extract.Hints{}, false},
		{"the same", "the paper names the holder", extract.Hints{Holder: "Ivor Pennyfeather"}, false},
		{"former", "a former name is the holder's", extract.Hints{Holder: "Ivor Marsh", FormerNames: []string{"Pennyfeather, Ivor"}}, false},
		{"another", "it may be somebody else's paper", extract.Hints{Holder: "Wilf Garrad"}, true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := extract.Understand(text(certificate...), tt.hints)[0]
			if _, asked := r.Question(paper.FieldAttendee); asked != tt.asked {
				t.Errorf("asked %v, want %v: %s", asked, tt.asked, tt.why)
			}
		})
	}
}

func TestSeveralPapersInOneScan(t *testing.T) {
	second := slices.Clone(certificate)
	second[3] = "Course: Load Charts"
	programme := []string{"Programme of the day", "09:00 Welcome", "10:00 Practice", "12:00 Lunch"}
	doc := page.Document{Type: "pdf", Pages: []page.Page{onPage(1, certificate), onPage(2, programme), onPage(3, second)}}
	got := extract.Understand(doc, extract.Hints{})
	var spans [][2]int
	for _, r := range got {
		spans = append(spans, [2]int{r.From, r.To})
	}
	if diff := cmp.Diff([][2]int{{1, 2}, {3, 3}}, spans); diff != "" {
		t.Fatalf("papers (-want +got):\n%s", diff)
	}
	if title := got[1].Values[paper.FieldTitle]; title.Text != "Load Charts" || title.Place.Page != 3 {
		t.Errorf("second title %+v, want Load Charts on page 3", title)
	}
	one := extract.Understand(doc, extract.Hints{Pages: [2]int{3, 3}})
	if len(one) != 1 || one[0].From != 3 {
		t.Errorf("pages 3 to 3 gave %d readings from %d", len(one), one[0].From)
	}
}

// onPage sets lines on a page of that number.
func onPage(number int, lines []string) page.Page {
	p := invented{lines: lines}.asPage().Pages[0]
	p.Number = number
	return p
}

func TestDoubtfulLettersAreNotCertain(t *testing.T) {
	tests := []struct {
		name, why string
		change    func(*page.Page)
	}{
		{"recognition", "the digits were recognised badly", func(p *page.Page) {
			p.Picture = true
			for i := range p.Words {
				p.Words[i].Confidence = 90
				if p.Words[i].Text == "4" {
					p.Words[i].Confidence = 31
				}
			}
		}},
		{"second opinion", "the second opinion reads other digits", func(p *page.Page) {
			p.Second = strings.Replace(strings.Join(certificate, " "), "Hours: 4", "Hours: 40", 1)
			p.Second = strings.ReplaceAll(p.Second, " 4 ", " ")
			p.Second = strings.Replace(p.Second, "Hours: 40", "Hours: 9", 1)
		}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := onPage(1, certificate)
			tt.change(&p)
			r := extract.Understand(page.Document{Type: "pdf", Pages: []page.Page{p}}, extract.Hints{})[0]
			if v := r.Values[paper.FieldDuration]; v.Certain || v.Text != "240" {
				t.Errorf("duration %s is certain %v: %s", v.Text, v.Certain, tt.why)
			}
			if v := r.Values[paper.FieldTitle]; !v.Certain {
				t.Error("the title is not certain, though it can be read")
			}
		})
	}
}

func TestHiddenWordsAreNotRead(t *testing.T) {
	p := onPage(1, certificate)
	hidden := onPage(1, []string{"Hours: 40"}).Words
	for i := range hidden {
		hidden[i].Hidden = true
		hidden[i].Box[1] += 40000
		hidden[i].Box[3] += 40000
	}
	p.Words = append(p.Words, hidden...)
	r := extract.Understand(page.Document{Type: "pdf", Pages: []page.Page{p}}, extract.Hints{})[0]
	if v := r.Values[paper.FieldDuration]; v.Text != "240" || !v.Certain {
		t.Errorf("duration %s, certain %v; want 240: what is hidden counts for nothing", v.Text, v.Certain)
	}
}

func TestTroubles(t *testing.T) {
	tests := []struct {
		give page.Trouble
		want paper.Outcome
	}{
		{page.Unreadable, paper.OutcomeUnreadable}, {page.Password, paper.OutcomePassword}, {page.TooLarge, paper.OutcomeTooLarge},
		{page.Empty, paper.OutcomeNotEvidence}, {page.Other, paper.OutcomeUnreadable},
	}
	for _, tt := range tests {
		r := extract.Understand(page.Document{Trouble: tt.give}, extract.Hints{})[0]
		if r.Outcome != tt.want || r.Reason == "" {
			t.Errorf("%s: outcome %q, reason %q; want %q and a reason", tt.give, r.Outcome, r.Reason, tt.want)
		}
	}
}

func TestPlaceIsOnThePage(t *testing.T) {
	p := onPage(1, certificate)
	r := extract.Understand(page.Document{Type: "pdf", Pages: []page.Page{p}}, extract.Hints{})[0]
	v := r.Values[paper.FieldIssue]
	var box paper.Box
	for _, w := range p.Words[len(p.Words)-3:] {
		box = box.Union(paper.Box(w.Box))
	}
	if v.Place.Quote != "3 July 2026" || v.Place.Box != box {
		t.Errorf("issue date stands at %+v, want %v", v.Place, box)
	}
	line, err := json.Marshal(paper.LineOf("x.pdf", r))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`"duration_minutes":240`, `"credits":null`, `"pages":[1,1]`, `"outcome":"reads anyway"`, `"questions":[]`} {
		if !strings.Contains(string(line), want) {
			t.Errorf("the line lacks %s:\n%s", want, line)
		}
	}
}

// TestDaysThatContradict: where days contradict a weekday, each other or the day a message
// was sent, nobody is told a day for certain; where they settle an order, they do.
func TestDaysThatContradict(t *testing.T) {
	tests := []struct {
		name  string
		lines []string
		want  map[paper.Field]string // the candidates that are asked about; one with a mark is certain
	}{
		{"another weekday", with("Date of course: 1 July 2026", "Date of course: Monday, 1 July 2026"),
			map[paper.Field]string{paper.FieldStart: "2026-07-01 2026-06-29", paper.FieldEnd: "2026-07-01 2026-06-29", paper.FieldIssue: "2026-07-03!"}},
		{"its weekday", with("Date of course: 1 July 2026", "Date of course: Wednesday, 1 July 2026"), map[paper.Field]string{paper.FieldStart: "2026-07-01!", paper.FieldEnd: "2026-07-01!"}},
		{"weekday of the issue", with("Issued: 3 July 2026", "Issued: Sunday, 5. July 2026 at the school"), map[paper.Field]string{paper.FieldIssue: "2026-07-05!"}},
		{"another of the issue", with("Issued: 3 July 2026", "Issued: Sonntag, 6. Juli 2026"), map[paper.Field]string{paper.FieldEnd: "2026-07-01!", paper.FieldIssue: "2026-07-06 2026-07-05"}},
		{"a span", with("Date of course: 1 July 2026", "Date of course: Monday 1 – Thursday 2 July 2026"), map[paper.Field]string{paper.FieldStart: "2026-07-01", paper.FieldEnd: "2026-07-02"}},
		{"issued before", with("Issued: 3 July 2026", "Issued: 3 June 2026"), map[paper.Field]string{paper.FieldEnd: "2026-07-01!", paper.FieldIssue: "2026-06-03"}},
	}
	for _, tt := range tests {
		r := extract.Understand(text(tt.lines...), extract.Hints{})[0]
		for f, want := range tt.want {
			if got := shownDays(r, f); got != want {
				t.Errorf("%s: %s is %q, want %q", tt.name, f, got, want)
			}
		}
	}
	mail := page.Document{Type: "eml", Mail: &page.Mail{From: "Marrowgate Safety Centre <o@m.invalid>", Subject: "Your attendance", Date: "2026-03-10T10:00:00+02:00"},
		Pages: []page.Page{{Number: 1, Lines: []string{"Dear Ivor Pennyfeather,", "", "you attended our course \"Slinging Signals\" on 03/04/2026.", "", "Marrowgate Safety Centre"}}}}
	if got := shownDays(extract.Understand(mail, extract.Hints{})[0], paper.FieldEnd); got != "2026-03-04!" {
		t.Errorf("a message of 10 March that says what was done gives %q, want 4 March for certain", got)
	}
	mail.Mail.Date = "2026-05-10T10:00:00+02:00"
	if got := shownDays(extract.Understand(mail, extract.Hints{})[0], paper.FieldEnd); got != "2026-04-03 2026-03-04" {
		t.Errorf("a message of 10 May gives %q, want both days asked", got)
	}
}

// shownDays writes a day with a mark if it is certain, or the days that are asked about.
func shownDays(r paper.Reading, f paper.Field) string {
	q, asked := r.Question(f)
	if !asked {
		v := r.Values[f]
		if v.Certain {
			return v.Text + "!"
		}
		return v.Text
	}
	var out []string
	for _, c := range q.Candidates {
		out = append(out, c.Text)
	}
	return strings.Join(out, " ")
}

// TestQuestionsSayWhy: of every question on the invented papers each candidate says what
// speaks for it and where it stands.
func TestQuestionsSayWhy(t *testing.T) {
	asked := map[paper.Field]int{}
	for _, file := range []string{"testdata/invented1.txt", "testdata/invented2.txt", "testdata/invented3.txt", "testdata/invented5.txt"} {
		for _, p := range readInvented(t, file) {
			for _, q := range extract.Understand(p.asPage(), extract.Hints{})[0].Questions {
				asked[q.Field]++
				if len(q.Candidates) == 0 || !strings.Contains(q.Text, "?") {
					t.Errorf("%s: %s: %q has %d candidates", p.name, q.Field, q.Text, len(q.Candidates))
				}
				for _, c := range q.Candidates {
					if c.Text == "" || c.Why == "" || c.Place.Page != 1 || c.Place.Quote == "" {
						t.Errorf("%s: %s: %q: %+v, want what speaks for it and its place", p.name, q.Field, q.Text, c)
					}
				}
			}
		}
	}
	if len(asked) < 8 {
		t.Errorf("questions on %v: too few to show anything", asked)
	}
}

// TestNumbersAreNumbers: numbers of registration, telephone and address beside the values
// of a certificate change none of them, and are none.
func TestNumbersAreNumbers(t *testing.T) {
	plain := extract.Understand(text(certificate...), extract.Hints{})[0]
	for _, line := range []string{
		"Registration no. 2026-03-04", "Member no. 03/04/2026", "Provider no. CPD 12", "Approved provider number: 15 CPE", "Kursnummer CPD 40", "N° d'agrément CPD 31", "Course no. 16.5.2026-7",
		"Tél. 03 04 20 26 10", "Telephone: 01.02.03.04.05", "Phone 918-555-0142", "Tel. +49 30 12 05 2026", "ABN 51 824 753 556", "IBAN GB33 BUKB 2020 1555 5555 55", "Certificate No. 2026-07-12/45", "VAT no. GB 120 3450 00",
	} {
		r := extract.Understand(text(append(slices.Clone(certificate), "", line)...), extract.Hints{})[0]
		for _, f := range []paper.Field{paper.FieldKind, paper.FieldStart, paper.FieldEnd, paper.FieldIssue, paper.FieldDuration, paper.FieldCredits, paper.FieldTotal} {
			if got, want := r.Values[f], plain.Values[f]; got.Text != want.Text || got.Certain != want.Certain {
				t.Errorf("with %q %s is %q, certain %v; want %q, %v as without", line, f, got.Text, got.Certain, want.Text, want.Certain)
			}
		}
	}
}

// TestEveryKindHasItsReason: whatever kind a paper is taken for, it is said what speaks
// for it and where that stands; what proves nothing says so in its outcome too.
func TestEveryKindHasItsReason(t *testing.T) {
	seen := map[paper.Kind]int{}
	for _, file := range []string{"testdata/invented1.txt", "testdata/invented2.txt", "testdata/invented4.txt", "testdata/invented6.txt"} {
		for _, p := range readInvented(t, file) {
			r := extract.Understand(p.asPage(), extract.Hints{})[0]
			v := r.Values[paper.FieldKind]
			seen[r.Kind()]++
			if v.Why == "" || v.Place.Page != 1 || v.Place.Quote == "" {
				t.Errorf("%s is of the kind %s because %q, at %+v: want a reason and its place", p.name, v.Text, v.Why, v.Place)
			}
			if r.Kind() == paper.NotEvidence && (r.Outcome != paper.OutcomeNotEvidence || !strings.Contains(r.Reason, v.Why)) {
				t.Errorf("%s proves nothing; its outcome is %q because %q, want the reason %q", p.name, r.Outcome, r.Reason, v.Why)
			}
		}
	}
	for _, k := range paper.Kinds() {
		if seen[k] == 0 {
			t.Errorf("no paper of the kind %s", k)
		}
	}
}

// TestCreditsAndTime: a CEU is ten contact hours and a PDH one. Credits that fit the time
// raise its score, others lower it, and those that are far off are asked about.
func TestCreditsAndTime(t *testing.T) {
	of := func(lines ...string) paper.Reading {
		return extract.Understand(text(append(with("Hours: 4", "Contact hours: 4"), lines...)...), extract.Hints{})[0]
	}
	alone := of().Values[paper.FieldDuration].Score
	for _, tt := range []struct {
		credits string
		sign    int // of what they do to the score of the time
		asked   bool
	}{{"CEU: 0.4", 1, false}, {"PDH: 4", 1, false}, {"CEU: 0.5", -1, false}, {"CEU: 1.2", -1, true}, {"CPD points: 12", 0, false}} {
		r := of(tt.credits)
		v := r.Values[paper.FieldDuration]
		q, asked := r.Question(paper.FieldCredits)
		if v.Text != "240" || !v.Certain || (v.Score > alone) != (tt.sign > 0) || (v.Score < alone) != (tt.sign < 0) || asked != tt.asked || asked && !strings.Contains(q.Text, "do not fit 240 minutes") {
			t.Errorf("%s: %q minutes of score %d where %d alone, certain %v, asked %q", tt.credits, v.Text, v.Score, alone, v.Certain, q.Text)
		}
	}
}

// TestTimesWithinTimes: a break or a part not attended within a stated time, a time of each
// day, study beside the contact time, and a day that was moved.
func TestTimesWithinTimes(t *testing.T) {
	tests := []struct{ line, minutes, end string }{
		{"Duration: 8 hours including 1 hour for lunch", "420", "2026-03-04"},
		{"Dauer: 8 Stunden inkl. 45 Minuten Pause", "435", "2026-03-04"},
		{"Duration: 8 hours, including 2 hours of practice", "480", "2026-03-04"},
		{"Duration: 7.5 hours (excluding lunch)", "450", "2026-03-04"},
		{"Duration: 6 hours, of which 5 attended", "300", "2026-03-04"},
		{"Umfang: 21 Stunden, davon 18 besucht", "1080", "2026-03-04"},
		{"Contact time: 6.5 hours per day", "780", "2026-03-04"},
		{"Zeit: 6 Stunden pro Tag", "720", "2026-03-04"},
		{"Contact time 4 h, self-study 10 h", "240", "2026-03-04"},
		{"The course was postponed from 3 February 2026 to 4 March 2026.", "", "2026-03-04"},
	}
	for _, tt := range tests {
		days := "Dates of course: 3 to 4 March 2026"
		if tt.minutes == "" {
			days = "Room 4"
		}
		lines := append(with("Hours: 4", tt.line), days)
		lines = slices.DeleteFunc(lines, func(l string) bool { return strings.HasPrefix(l, "Date of course") })
		r := extract.Understand(text(lines...), extract.Hints{})[0]
		v, end := r.Values[paper.FieldDuration], r.Values[paper.FieldEnd]
		if v.Text != tt.minutes || tt.minutes != "" && !v.Certain || end.Text != tt.end {
			t.Errorf("%q: %q minutes, certain %v, until %s; want %q, %s", tt.line, v.Text, v.Certain, end.Text, tt.minutes, tt.end)
		}
	}
}

// TestPapersThatSayTheyProveNothing: a specimen, a void certificate and an examination that
// was not passed are asked about; words of a title are no such thing.
func TestPapersThatSayTheyProveNothing(t *testing.T) {
	exam := []string{"National Board of Chain Inspection", "Examination result", "Candidate: Ivor Pennyfeather", "Examination: Chain Inspector, Level II", "Date of examination: 4 March 2026"}
	tests := []struct {
		lines []string
		says  string // in the question; "" if there is none
	}{
		{append([]string{"SPECIMEN", ""}, certificate...), "It says “SPECIMEN”"},
		{append(slices.Clone(certificate), "", "– Muster –"), "It says “– Muster –”"},
		{append([]string{"VOID - replaced by certificate 118", ""}, certificate...), "It says “VOID”"},
		{append(slices.Clone(exam), "Result: not passed, 44 of 100 points"), "It says “not passed”"},
		{append(slices.Clone(exam), "Ergebnis: nicht bestanden"), "It says “nicht bestanden”"},
		{append(slices.Clone(exam), "Result: passed, 84 of 100 points"), ""},
		{with("Course: Slinging Signals", "Course: Sample Preparation"), ""},
		{with("Course: Slinging Signals", "Course: Why Slings Failed"), ""},
	}
	for _, tt := range tests {
		r := extract.Understand(text(tt.lines...), extract.Hints{})[0]
		q, asked := r.Question(paper.FieldKind)
		v := r.Values[paper.FieldKind]
		if asked != (tt.says != "") || v.Certain == asked || !strings.Contains(q.Text, tt.says) || asked && (len(q.Candidates) != 2 || q.Candidates[0].Text != "not-evidence" && q.Candidates[1].Text != "not-evidence" || q.Candidates[1].Place.Quote == "") {
			t.Errorf("%q: kind %s, certain %v, %q: want a question with %q", tt.lines[0], v.Text, v.Certain, q.Text, tt.says)
		}
	}
}
