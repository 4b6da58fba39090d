package audit

import (
	"fmt"
	"slices"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/paper"
	"evidencevault/journal"
)

// Limits of a day that an auditor believes, in minutes. Common practice, no source.
const (
	manyHours     = 14 * 60
	impossibleDay = 24 * 60
)

// twice looks for activities that are claimed in two claims, and for papers that prove
// two. Of two claims the later number is the one that falls.
func (r *rehearsing) twice() {
	type key struct {
		paper string
		row   int
	}
	proves := map[key]journal.Ground{}
	byDay := map[credit.Date][]journal.Ground{}
	for _, c := range r.grounds.Claims {
		found := false
		for _, other := range byDay[c.End] {
			if !c.End.IsZero() && r.alike(c, other) {
				found = true
				break
			}
		}
		byDay[c.End] = append(byDay[c.End], c)
		for _, p := range c.Papers {
			k := key{p.ID, p.Row}
			first, used := proves[k]
			if !used {
				proves[k] = c
				continue
			}
			if !found && first.Activity != c.Activity {
				r.find(Weakness{Claim: c.ID, What: WeakShared, Weight: Grave, Why: fmt.Sprintf("its proof %s (%s) proves %s too", p.ID, p.File, first.ID),
					Mend: "attach the document that belongs to it: vaultctl attach " + c.ID + " P…, or withdraw one of the two: vaultctl claim withdraw " + c.ID})
				r.paired[[2]string{c.ID, first.ID}] = true
			}
		}
	}
}

// alike judges two claims that end on the same day.
func (r *rehearsing) alike(c, other journal.Ground) bool {
	w := Weakness{Claim: c.ID, What: WeakTwice, Weight: Grave, Mend: "withdraw one of the two: vaultctl claim withdraw " + c.ID}
	a, b := plainText(c.Title), plainText(other.Title)
	sameTime := c.Duration != nil && other.Duration != nil && *c.Duration == *other.Duration
	switch {
	case c.Activity == other.Activity:
		w.Why = "the same activity is claimed as " + other.ID
	case a != "" && a == b && plainText(c.Provider) == plainText(other.Provider):
		w.Why = fmt.Sprintf("title, provider and day are those of %s, as when one certificate was scanned twice", other.ID)
	case a != "" && b != "" && sameTime && lettersApart(a, b)*5 <= max(len(a), len(b)):
		w.Why = fmt.Sprintf("day and length are those of %s, and the title is nearly the same", other.ID)
		w.Weight = Doubt
	default:
		return false
	}
	r.find(w)
	r.paired[[2]string{c.ID, other.ID}] = true
	return true
}

// live reports whether an activity was held at given hours.
func live(c journal.Ground) bool {
	switch paper.Kind(c.Kind) {
	case paper.Attendance, paper.Instruction, paper.Meeting:
		return true
	}
	return false
}

// longDays adds up the time of each day. Time that is worked off at one's own pace, and
// work itself, belongs to no day.
func (r *rehearsing) longDays() {
	minutes, claims := map[credit.Date]credit.Minutes{}, map[credit.Date][]string{}
	for _, c := range r.grounds.Claims {
		if !live(c) {
			continue
		}
		if c.Duration == nil || c.End.IsZero() {
			continue
		}
		first := c.Start
		if first.IsZero() {
			first = c.End
		}
		days := c.End.Sub(first) + 1
		if days < 1 || days > 31 {
			continue
		}
		for d := first; !d.After(c.End); d = d.AddDays(1) {
			minutes[d] += *c.Duration / credit.Minutes(days)
			claims[d] = append(claims[d], c.ID)
		}
	}
	var days []credit.Date
	for d := range minutes {
		days = append(days, d)
	}
	slices.SortFunc(days, credit.Date.Compare)
	said := map[string]bool{}
	for _, d := range days {
		ids := claims[d]
		if minutes[d] <= manyHours || said[strings.Join(ids, " ")] {
			continue
		}
		said[strings.Join(ids, " ")] = true
		w := Weakness{Claim: ids[len(ids)-1], Others: ids[:len(ids)-1], What: WeakLongDay, Weight: Doubt,
			Why:  fmt.Sprintf("%s are claimed for %s", clockTime(new(minutes[d])), longDay(d)),
			Mend: "check the times and breaks of that day's documents"}
		if minutes[d] > impossibleDay {
			w.Weight = Grave
		}
		r.find(w)
	}
}
