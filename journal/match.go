package journal

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"evidencevault/credit"
)

// event is what a receipt and an activity are compared by.
type event struct {
	id, title, provider string
	start, end          credit.Date
}

// nearDays is how far the days of an event stated on a receipt may lie from the
// activity's for them to be the same event: none. A receipt without such days may be
// made out so many days before the first or after the last day of the activity.
const nearDays = 120

// matches returns the activities that r may be the cost of, the one with most
// reasons first, then the earliest. It proposes an activity only when its title
// speaks for it, or its provider and its days together.
func matches(r event, issued credit.Date, activities []event) []Match {
	type scored struct {
		Match
		start credit.Date
	}
	var found []scored
	for _, a := range activities {
		var why []string
		provider := sameText(r.provider, a.provider)
		title := sameText(r.title, a.title)
		days := daysSpeak(r, issued, a)
		if provider {
			why = append(why, fmt.Sprintf("the same provider, %s", a.provider))
		}
		if title {
			why = append(why, "the same title")
		} else if word, ok := sharedWords(r.title, a.title); ok && provider {
			title = true
			why = append(why, "a title with the same words: "+word)
		}
		if days != "" {
			why = append(why, days)
		}
		if statedDaysDiffer(r, a) || !title && (!provider || days == "") {
			continue
		}
		found = append(found, scored{Match{Activity: a.id, Title: a.title, Why: why}, a.start})
	}
	slices.SortStableFunc(found, func(a, b scored) int {
		if n := len(b.Why) - len(a.Why); n != 0 {
			return n
		}
		return a.start.Compare(b.start)
	})
	list := make([]Match, len(found))
	for i, f := range found {
		list[i] = f.Match
	}
	return list
}

func daysSpeak(r event, issued credit.Date, a event) string {
	first, last := span(a)
	if first.IsZero() {
		return ""
	}
	if from, to := span(r); !from.IsZero() {
		if !to.Before(first) && !from.After(last) {
			return "it was paid for " + from.String() + ", and the activity was then"
		}
		return ""
	}
	if issued.IsZero() || issued.Before(first.AddDays(-nearDays)) || issued.After(last.AddDays(nearDays)) {
		return ""
	}
	return fmt.Sprintf("its date %s lies within %d days of the activity", issued, nearDays)
}

// statedDaysDiffer reports whether both say when, and not the same days.
func statedDaysDiffer(r, a event) bool {
	from, to := span(r)
	first, last := span(a)
	return !from.IsZero() && !first.IsZero() && (to.Before(first) || from.After(last))
}

// span returns the first and the last day; one known day is both.
func span(e event) (credit.Date, credit.Date) {
	switch {
	case e.start.IsZero():
		return e.end, e.end
	case e.end.IsZero():
		return e.start, e.start
	}
	return e.start, e.end
}

// plain is text without case, punctuation and doubled blanks.
func plain(text string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	}), " ")
}

func sameText(a, b string) bool { return plain(a) != "" && plain(a) == plain(b) }

// sharedWords reports whether two titles share at least two words of four letters
// or more, and which.
func sharedWords(a, b string) (string, bool) {
	other := strings.Fields(plain(b))
	var shared []string
	for _, w := range strings.Fields(plain(a)) {
		if len([]rune(w)) >= 4 && slices.Contains(other, w) && !slices.Contains(shared, w) {
			shared = append(shared, w)
		}
	}
	return strings.Join(shared, ", "), len(shared) >= 2
}
