package audit

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/paper"
	"evidencevault/journal"
)

// hour is a time of a day, in minutes from midnight: from, up to but not with, to.
type hour struct{ from, to int }

func (h hour) String() string {
	return fmt.Sprintf("%02d:%02d to %02d:%02d", h.from/60, h.from%60, h.to/60, h.to%60)
}

// clockSpan is a beginning and an end as papers print them: 08:30 – 17:00 Uhr, 9.00 bis
// 12.30, 14h00 à 17h30, 9:00 a.m. to 1:30 p.m.
var clockSpan = regexp.MustCompile(`(?i)(?:^|[^\d.:])([01]?\d|2[0-3])[:.h]([0-5]\d)\s*(uhr|h|uur|[ap]\.?\s?m\.?)?\s*(?:-|–|—|to|bis|until|till|à|a|tot|hasta)\s*([01]?\d|2[0-4])[:.h]([0-5]\d)\s*([ap]\.?\s?m\.?)?`)

// clockHours returns the spans of time that a text names.
func clockHours(text string) []hour {
	var list []hour
	for _, m := range clockSpan.FindAllStringSubmatch(text, -1) {
		from, to := minuteOf(m[1], m[2], m[3]), minuteOf(m[4], m[5], m[6])
		if afternoon(m[6]) && !afternoon(m[3]) && !strings.HasPrefix(strings.ToLower(m[3]), "a") && from+12*60 < to {
			from += 12 * 60 // 1:00 to 5:00 p.m.
		}
		if from < to {
			list = append(list, hour{from, to})
		}
	}
	return list
}

func afternoon(mark string) bool { return strings.HasPrefix(strings.ToLower(mark), "p") }

// minuteOf reads hour and minute, which the pattern has found to be digits.
func minuteOf(hours, minutes, mark string) int {
	h, err1 := strconv.Atoi(hours)
	m, err2 := strconv.Atoi(minutes)
	if err1 != nil || err2 != nil {
		return 0
	}
	switch {
	case afternoon(mark) && h < 12:
		h += 12
	case strings.HasPrefix(strings.ToLower(mark), "a") && h == 12:
		h = 0
	}
	return h*60 + m
}

// hoursOf returns the hours at which an activity was held, as its log fields say, else
// as its papers print them beside its length.
func hoursOf(c journal.Ground) []hour {
	if set := clockHours(c.Fields[string(journal.FieldStartTime)] + " - " + c.Fields[string(journal.FieldEndTime)]); len(set) > 0 {
		return set
	}
	for _, p := range c.Papers {
		v := p.Values[paper.FieldDuration]
		texts := []string{v.Place.Quote}
		for _, k := range v.Candidates {
			texts = append(texts, k.Place.Quote)
		}
		for _, text := range texts {
			if list := clockHours(text); len(list) > 0 {
				return list
			}
		}
	}
	return nil
}

// hours looks for two activities of which each was held while the other was.
func (r *rehearsing) hours() {
	type held struct {
		claim journal.Ground
		hour
	}
	byDay := map[credit.Date][]held{}
	for _, c := range r.grounds.Claims {
		spans := hoursOf(c)
		first := c.Start
		if first.IsZero() {
			first = c.End
		}
		if !live(c) || len(spans) == 0 || c.End.IsZero() || c.End.Sub(first) > 31 {
			continue
		}
		for day := first; !day.After(c.End); day = day.AddDays(1) {
			for _, other := range byDay[day] {
				r.sameHour(c, other.claim, day, spans, other.hour)
			}
			for _, s := range spans {
				byDay[day] = append(byDay[day], held{c, s})
			}
		}
	}
}

func (r *rehearsing) sameHour(c, other journal.Ground, day credit.Date, spans []hour, at hour) {
	pair := [2]string{c.ID, other.ID}
	for _, s := range spans {
		if c.Activity == other.Activity || r.paired[pair] || s.from >= at.to || at.from >= s.to {
			continue
		}
		r.paired[pair] = true
		r.find(Weakness{Claim: c.ID, What: WeakHour, Weight: Grave,
			Why: fmt.Sprintf("%s, %s, it was held while %s was (%s)", longDay(day), s, other.ID, at),
			Mend: "check the day and hours of both papers; withdraw the one that you did not attend: vaultctl claim withdraw " + c.ID + ", or take the hours apart: vaultctl claim change " +
				c.ID + " --set start_time=HH:MM --set end_time=HH:MM"})
	}
}

// scans looks for two scans of one paper of which one was misread: title, provider,
// length and day of issue are the same, and the day differs in one digit.
func (r *rehearsing) scans() {
	byText := map[string][]journal.Ground{}
	for _, c := range r.grounds.Claims {
		issued := issuedOn(c)
		if issued == "" || c.Duration == nil || c.End.IsZero() || plainText(c.Title) == "" {
			continue
		}
		key := strings.Join([]string{plainText(c.Title), plainText(c.Provider), issued, strconv.Itoa(int(*c.Duration))}, "\n")
		for _, other := range byText[key] {
			if pair := [2]string{c.ID, other.ID}; !r.paired[pair] && c.Activity != other.Activity && oneDigit(c.End.String(), other.End.String()) {
				r.paired[pair] = true
				r.find(Weakness{Claim: c.ID, Others: []string{other.ID}, What: WeakScan, Weight: Doubt,
					Why:  fmt.Sprintf("title, provider, length and day of issue are those of %s, and the day differs in one digit: %s and %s, as when one paper was scanned twice and misread", other.ID, c.End, other.End),
					Mend: "look at both papers; if they are one, withdraw the second: vaultctl claim withdraw " + c.ID})
			}
		}
		byText[key] = append(byText[key], c)
	}
}

func issuedOn(c journal.Ground) string {
	for _, p := range c.Papers {
		if day := p.Values[paper.FieldIssue].Text; day != "" {
			return day
		}
	}
	return ""
}

// oneDigit reports whether two texts of one length differ in just one sign.
func oneDigit(a, b string) bool {
	if len(a) != len(b) {
		return false
	}
	n := 0
	for i := range a {
		if a[i] != b[i] {
			n++
		}
	}
	return n == 1
}
