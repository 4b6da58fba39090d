package journal_test

import (
	"bytes"
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/emersion/go-ical"

	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/extract/paper"
	"evidencevault/journal"
)

// lettered is a vault with three claims and a paper that is an audit letter of a
// certain date.
func lettered(t *testing.T) (v *vault, letter string) {
	v = newVault(t)
	v.take("a.pdf", course("A", "2026-03-03"))
	v.take("b.pdf", course("B", "2026-03-04"))
	v.take("c.pdf", course("C", "2026-03-05"))
	v.confirm(journal.ConfirmOptions{}, "P1-P3")
	return v, v.take("letter.pdf", reading(1, map[paper.Field]string{paper.FieldKind: "not-evidence", paper.FieldIssue: "2026-05-20"}))
}

func (v *vault) due() []string {
	v.t.Helper()
	list, err := v.Standing(v.ctx, credit.Date{}, "")
	if err != nil {
		v.t.Fatal(err)
	}
	var out []string
	for _, d := range list[0].Deadlines {
		if strings.Contains(d.What, "audit letter") {
			out = append(out, d.Date.String()+" "+d.What)
		}
	}
	return out
}

// wholeLog says that the log's rows can be made again from its events.
func (v *vault) wholeLog() {
	v.t.Helper()
	found, err := v.Catalog().Verify(v.ctx, catalog.VerifyOptions{})
	if err != nil || len(found) > 0 {
		v.t.Fatalf("verify: %v, %v", found, err)
	}
}

func TestLetterIsADeadlineUntilItIsAnswered(t *testing.T) {
	v, p := lettered(t)
	before := v.state()
	l, err := v.RecordLetter(v.ctx, []string{p}, journal.LetterOptions{Claims: []string{"C3,C1", "C3"}})
	if err != nil {
		t.Fatal(err)
	}
	if l.ID != "L1" || l.Dated.String() != "2026-05-20" || l.Due.String() != "2026-06-19" || *l.DaysLeft != 18 || l.All ||
		!slices.Equal(l.Claims, []string{"C1", "C3"}) || !slices.Equal(l.Files, []string{"letter.pdf"}) {
		t.Errorf("%+v", l)
	}
	v.wholeLog()
	if got := v.due(); !slices.Equal(got, []string{"2026-06-19 answer the audit letter L1: C1 C3"}) {
		t.Errorf("deadlines %q", got)
	}
	if _, err := v.RecordLetter(v.ctx, []string{p}, journal.LetterOptions{}); !errors.Is(err, journal.ErrNotWaiting) || !strings.Contains(err.Error(), "L1") {
		t.Errorf("the same paper twice: %v", err)
	}
	l, err = v.AnswerLetter(v.ctx, "", credit.Date{}, "by post")
	if err != nil || l.State != journal.LetterAnswered || l.Answered.String() != "2026-06-01" || l.Note != "by post" || l.DaysLeft != nil {
		t.Fatalf("%+v, %v", l, err)
	}
	if got := v.due(); len(got) != 0 {
		t.Errorf("answered, and still a deadline: %q", got)
	}
	v.wholeLog()
	if r := v.undo("L1"); r.Undone != "answered" || len(v.due()) != 1 {
		t.Errorf("%+v, deadlines %q", r, v.due())
	}
	if r := v.undo("L1"); r.State != "withdrawn" || v.state() != before {
		t.Errorf("%+v: the vault is not as before the letter", r)
	}
	if _, err := v.Undo(v.ctx, "L1"); !errors.Is(err, journal.ErrNothing) {
		t.Errorf("a third undo: %v", err)
	}
	v.wholeLog()
	if again, err := v.RecordLetter(v.ctx, []string{p}, journal.LetterOptions{}); err != nil || again.ID != "L2" || !again.All || len(again.Claims) != 3 {
		t.Errorf("%+v, %v", again, err)
	}
	v.undo(p) // the paper's last act is the letter
	if list, err := v.Letters(v.ctx); err != nil || len(list) != 0 || v.state() != before {
		t.Errorf("%+v, %v", list, err)
	}
}

func TestLettersThatCannotBe(t *testing.T) {
	v, p := lettered(t)
	undated := v.take("undated.pdf", reading(1, map[paper.Field]string{paper.FieldKind: "not-evidence"}))
	before := v.state()
	if _, err := v.ClaimWithdraw(v.ctx, "C2", "a slip"); err != nil {
		t.Fatal(err)
	}
	day := credit.MustDate
	tests := []struct {
		name, why, paper string
		o                journal.LetterOptions
		want             error
	}{
		{"no date", "the day to answer hangs on it", undated, journal.LetterOptions{Due: day("2026-08-01")}, journal.ErrLetter},
		{"a date to come", "no letter is from tomorrow", p, journal.LetterOptions{Dated: day("2026-06-02")}, journal.ErrLetter},
		{"due before it came", "a slip of the year", p, journal.LetterOptions{Due: day("2025-06-19")}, journal.ErrLetter},
		{"a claim withdrawn", "nothing would be in the packet", p, journal.LetterOptions{Claims: []string{"C2"}}, journal.ErrLetter},
		{"a claim not there", "", p, journal.LetterOptions{Claims: []string{"C9"}}, journal.ErrUnknown},
		{"a confirmed paper", "it is a certificate", "P1", journal.LetterOptions{}, journal.ErrNotWaiting},
		{"no paper", "", "C1", journal.LetterOptions{}, journal.ErrReference},
	}
	for _, tt := range tests {
		if _, err := v.RecordLetter(v.ctx, []string{tt.paper}, tt.o); !errors.Is(err, tt.want) {
			t.Errorf("%s (%s): %v, want %v", tt.name, tt.why, err, tt.want)
		}
	}
	v.undo("C2")
	if v.state() != before {
		t.Error("a letter that was refused changed the vault")
	}
	if _, err := v.AnswerLetter(v.ctx, "", credit.Date{}, ""); !errors.Is(err, journal.ErrLetter) {
		t.Errorf("no letter is open, and one was answered: %v", err)
	}
}

// The calendar is read back by a reader that knows nothing of ours.
func TestCalendarIsReadByOthers(t *testing.T) {
	v, p := lettered(t)
	if _, err := v.RecordLetter(v.ctx, []string{p}, journal.LetterOptions{Claims: []string{"C2"}}); err != nil {
		t.Fatal(err)
	}
	list, err := v.Standing(v.ctx, credit.Date{}, "")
	if err != nil {
		t.Fatal(err)
	}
	awkward := "send it; \\ first, “" + strings.Repeat("ünï", 40) + "”\nthen wait"
	list[0].Deadlines = append(list[0].Deadlines, credit.Deadline{What: awkward, Date: credit.MustDate("2027-02-28")},
		credit.Deadline{What: awkward, Date: credit.MustDate("2027-03-31")}, credit.Deadline{What: "long past", Date: credit.MustDate("2026-01-01")})
	data := journal.Calendar(list, time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC))
	for _, line := range bytes.SplitAfter(data, []byte("\n")) {
		if len(line) > 0 && (!bytes.HasSuffix(line, []byte("\r\n")) || len(line) > 77) {
			t.Errorf("line of %d octets: %q", len(line), line)
		}
	}
	cal, err := ical.NewDecoder(bytes.NewReader(data)).Decode()
	if err != nil {
		t.Fatal(err)
	}
	got, uids := map[string]string{}, map[string]bool{}
	for _, e := range cal.Events() {
		summary, err := e.Props.Text(ical.PropSummary)
		if err != nil {
			t.Fatal(err)
		}
		start, err := e.DateTimeStart(time.UTC)
		if err != nil {
			t.Fatal(err)
		}
		end, err := e.DateTimeEnd(time.UTC)
		if err != nil || end.Sub(start) != 24*time.Hour {
			t.Errorf("%s lasts %v, want a day (%v)", summary, end.Sub(start), err)
		}
		uid := e.Props.Get(ical.PropUID).Value
		if uids[uid] || len(e.Children) != 1 || e.Children[0].Name != ical.CompAlarm {
			t.Errorf("%s: uid %s seen %v, alarms %v", summary, uid, uids[uid], e.Children)
		}
		uids[uid] = true
		got[start.Format(time.DateOnly)] = summary
	}
	for day, want := range map[string]string{"2026-06-19": "demo: answer the audit letter L1: C2", "2027-02-28": "demo: " + awkward, "2027-03-31": "demo: " + awkward} {
		if got[day] != want {
			t.Errorf("%s: %q, want %q", day, got[day], want)
		}
	}
	if got["2026-01-01"] != "" {
		t.Error("a day that is past is in the calendar")
	}
	if again := journal.Calendar(list, time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC)); !bytes.Equal(again, data) {
		t.Error("made again, it differs")
	}
}

// A vault from before there were letters is brought up, and its numbers go on.
func TestNumbersGoOnAfterTheLetter(t *testing.T) {
	v, p := lettered(t)
	if _, err := v.RecordLetter(v.ctx, []string{p}, journal.LetterOptions{}); err != nil {
		t.Fatal(err)
	}
	err := v.Catalog().Act(v.ctx, func(tx *catalog.Tx) error {
		for letter, want := range map[catalog.Letter]int{catalog.LetterPaper: 5, catalog.LetterClaim: 4, catalog.LetterLetter: 2} {
			if n, err := tx.Next(v.ctx, letter); err != nil || n != want {
				t.Errorf("%s: next %d, want %d (%v)", letter, n, want, err)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
