package find_test

import (
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"pgregory.net/rapid"

	"evidencevault/credit"
	"evidencevault/extract/find"
)

// inOrder fails unless the spans lie in text, are not empty, and come in order
// without overlap.
func inOrder(t interface {
	Helper()
	Fatalf(string, ...any)
}, what, text string, spans []find.Span) {
	t.Helper()
	end := 0
	for _, s := range spans {
		if s.From < end || s.To <= s.From || s.To > len(text) {
			t.Fatalf("%s of %q: span %v is empty, out of order or outside", what, text, s)
		}
		if utf8.ValidString(text) && !utf8.ValidString(s.Of(text)) {
			t.Fatalf("%s of %q: span %v cuts a letter", what, text, s)
		}
		end = s.To
	}
}

func spans[T any](list []T, of func(T) find.Span) []find.Span {
	var out []find.Span
	for _, x := range list {
		out = append(out, of(x))
	}
	return out
}

var seeds = []string{
	"", "3 March 2026", "03/04/2026 – 05/04/2026", "vom 3. bis 5. März 2026", "09:00–17:30 (breaks: 10:30–10:45, 12:30–13:30)", "4 × 90 min",
	"16 UE à 45 Min.", "PT7H30M", "1.5 CEU, 12 CPD points", "CHF 1'250.00 -$150.00", "Herr Dipl.-Ing. T. Wendelhorst", "Boise, ID 83702, +44 20 7946 0958",
	"1½ 3/4 h two and a half days", "\u00ad2O26\u200b", "..--//::,,", "\xff\xfe 3.\xff3.2026", "I I I I II III 2026",
}

func fuzz(f *testing.F, check func(t *testing.T, text string, l find.Languages)) {
	for _, s := range seeds {
		f.Add(s, "")
		f.Add(s, "de")
	}
	f.Fuzz(func(t *testing.T, text, lang string) {
		var l find.Languages
		if lang != "" {
			l = find.Languages{find.Lang(lang)}
		}
		check(t, text, l)
	})
}

// FuzzDates promises that no text breaks the finder of dates, and that each reading
// of a whole date is a day.
func FuzzDates(f *testing.F) {
	fuzz(f, func(t *testing.T, text string, l find.Languages) {
		got := find.Dates(text, l)
		inOrder(t, "dates", text, spans(got, func(d find.Date) find.Span { return d.Span }))
		for _, d := range got {
			if d.Form != find.Relative && len(d.Readings) == 0 || d.Form != find.Relative && d.Lack == find.Whole && len(d.Days()) != len(d.Readings) {
				t.Errorf("%q: %+v has a reading that is no day", text, d)
			}
		}
	})
}

// FuzzRanges promises that a range never ends before it starts.
func FuzzRanges(f *testing.F) {
	fuzz(f, func(t *testing.T, text string, l find.Languages) {
		got := find.Ranges(text, l)
		inOrder(t, "ranges", text, spans(got, func(r find.Range) find.Span { return r.Span }))
		for _, r := range got {
			if len(r.Readings) == 0 {
				t.Errorf("%q: %+v has no reading", text, r)
			}
			for _, st := range r.Readings {
				if !st.End.IsZero() && st.End.Before(st.Start) {
					t.Errorf("%q: %v ends before it starts", text, st)
				}
			}
		}
	})
}

// FuzzClocks promises times of a day, and never less than no time.
func FuzzClocks(f *testing.F) {
	fuzz(f, func(t *testing.T, text string, l find.Languages) {
		got := find.Clocks(text, l)
		inOrder(t, "clocks", text, spans(got, func(c find.Clock) find.Span { return c.Span }))
		for _, c := range got {
			if c.From < 0 || c.From > 1440 || c.To < 0 || c.To > 1440 || c.Minutes <= 0 || c.Minutes > 1440 || c.Net() < 0 || c.Net() > c.Minutes {
				t.Errorf("%q: %+v", text, c)
			}
		}
		for _, b := range find.Breaks(text, l) {
			if b.Minutes <= 0 || b.Count < 1 || b.Span.To > len(text) {
				t.Errorf("%q: break %+v", text, b)
			}
		}
	})
}

// FuzzDurations promises that no length is negative, and that one that is open has
// candidates in rising order.
func FuzzDurations(f *testing.F) {
	fuzz(f, func(t *testing.T, text string, l find.Languages) {
		got := find.Durations(text, l)
		inOrder(t, "durations", text, spans(got, func(d find.Duration) find.Span { return d.Span }))
		for _, d := range got {
			if d.Minutes < 0 || d.Unit == "" || d.Minutes > 0 && len(d.Candidates) > 0 {
				t.Errorf("%q: %+v", text, d)
			}
			for n := 1; n < len(d.Candidates); n++ {
				if d.Candidates[n] <= d.Candidates[n-1] {
					t.Errorf("%q: %v do not rise", text, d.Candidates)
				}
			}
		}
	})
}

// FuzzCredits promises exact values with a unit.
func FuzzCredits(f *testing.F) {
	fuzz(f, func(t *testing.T, text string, l find.Languages) {
		got := find.Credits(text, l)
		inOrder(t, "credits", text, spans(got, func(c find.Credit) find.Span { return c.Span }))
		for _, c := range got {
			if _, err := credit.ParseAmount(c.Value); err != nil || c.Unit == "" {
				t.Errorf("%q: %+v: %v", text, c, err)
			}
		}
	})
}

// FuzzAmounts promises exact values, and a currency or several.
func FuzzAmounts(f *testing.F) {
	fuzz(f, func(t *testing.T, text string, l find.Languages) {
		got := find.Amounts(text, l)
		inOrder(t, "amounts", text, spans(got, func(a find.Amount) find.Span { return a.Span }))
		for _, a := range got {
			if _, err := credit.ParseAmount(a.Value); err != nil || (a.Currency == "") != (len(a.Candidates) > 0) {
				t.Errorf("%q: %+v: %v", text, a, err)
			}
		}
		if a, ok := find.Figure(text); ok {
			if _, err := credit.ParseAmount(a.Value); err != nil {
				t.Errorf("%q: %+v: %v", text, a, err)
			}
		}
	})
}

// FuzzNames promises that every name lies in the text and is not empty.
func FuzzNames(f *testing.F) {
	fuzz(f, func(t *testing.T, text string, _ find.Languages) {
		inOrder(t, "persons", text, spans(find.Persons(text), func(p find.Person) find.Span { return p.Span }))
		inOrder(t, "organisations", text, spans(find.Organisations(text), func(o find.Organisation) find.Span { return o.Span }))
		inOrder(t, "numbers", text, spans(find.Numbers(text), func(n find.Number) find.Span { return n.Span }))
		inOrder(t, "phones", text, spans(find.Phones(text), func(p find.Phone) find.Span { return p.Span }))
		inOrder(t, "addresses", text, spans(find.Addresses(text), func(a find.Address) find.Span { return a.Span }))
		find.Bare(text)
		find.Language(text)
	})
}

// TestDayRoundTrip writes a day in many forms; each must give it back.
func TestDayRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := credit.MustDate("1970-01-01").AddDays(rapid.IntRange(0, 36000).Draw(t, "day"))
		form := rapid.SampledFrom([]string{"2006-01-02", "2 January 2006", "January 2, 2006", "2. January 2006", "02/01/2006", "01/02/2006", "2.1.2006", "20060102", "Monday, 2 January 2006", "2 Jan 2006", "2-Jan-2006"}).Draw(t, "form")
		text := d.Time().Format(form)
		for _, got := range find.Dates(text, nil) {
			for _, r := range got.Readings {
				if r.Day == d && got.Of(text) == text {
					return
				}
			}
		}
		t.Fatalf("%q does not give %v back", text, d)
	})
}

// TestLongText reads long texts of one piece over and over; a finder that looked
// back over it again and again would not end.
func TestLongText(t *testing.T) {
	for _, piece := range []string{"3, ", "1 000 ", "12 and ", "9:00-", "von Van ", "A. ", "(", "€", "two and ", "5 CEU ", "+1 2 3 ", "no no no ", "3 March "} {
		text := strings.Repeat(piece, 40_000/len(piece))
		start := time.Now()
		find.Dates(text, nil)
		find.Ranges(text, nil)
		find.Clocks(text, nil)
		find.Durations(text, nil)
		find.Credits(text, nil)
		find.Amounts(text, nil)
		find.Persons(text)
		find.Organisations(text)
		find.Numbers(text)
		find.Phones(text)
		find.Addresses(text)
		if d := time.Since(start); d > 30*time.Second {
			t.Errorf("%d bytes of %q took %v", len(text), piece, d)
		}
	}
}
