package journal

import (
	"fmt"
	"slices"
	"strings"

	"evidencevault/catalog"
	"evidencevault/credit"
)

// elsewhere says for which other certifications the activity of a claim is claimed.
type elsewhere struct {
	claims []string      // C4, in the order of their numbers
	tags   []string      // that the rules see on the claim
	by     catalog.Claim // the first for which the claim is refused; used if cap has an id
	cap    credit.Cap    // that refuses it
}

// findElsewhere works out for each claim that stands where else its activity is
// claimed. Where two schemes each refuse what the other has, the claim that was made
// first counts and the later one does not: otherwise the activity would serve neither.
func (b *book) findElsewhere() {
	b.elsewhere = map[string]elsewhere{}
	byActivity := map[string][]catalog.Claim{}
	for _, c := range b.claims {
		if !c.Withdrawn {
			byActivity[c.Activity] = append(byActivity[c.Activity], c)
		}
	}
	for _, claims := range byActivity {
		for _, c := range claims {
			var e elsewhere
			for _, other := range claims {
				if other.Certification != c.Certification {
					e = b.alsoClaimed(e, c, other)
				}
			}
			if len(e.claims) > 0 {
				b.elsewhere[c.ID] = e
			}
		}
	}
}

func (b *book) alsoClaimed(e elsewhere, c, other catalog.Claim) elsewhere {
	e.claims = append(e.claims, other.Ref())
	by, refused := b.refuses(c, other)
	if refused && c.Number < other.Number {
		if _, too := b.refuses(other, c); too {
			return e
		}
	}
	if refused && e.cap.ID == "" {
		e.by, e.cap = other, by
	}
	e.tags = addTags(e.tags, credit.TagElsewhere, credit.ElsewhereIn(b.rules[other.Cycle].ID))
	return e
}

// refuses returns the rule by which c counts nothing because other claims the same
// activity.
func (b *book) refuses(c, other catalog.Claim) (credit.Cap, bool) {
	claim, err := ruleClaim(c.Ref(), c.Category, b.activities[c.Activity].Fields)
	if err != nil {
		return credit.Cap{}, false // it is said where the claim is counted
	}
	cycle := b.cycles[c.Cycle]
	var cert catalog.Certification
	for _, one := range b.certs {
		if one.ID == c.Certification {
			cert = one.Certification
		}
	}
	return b.rules[c.Cycle].Refuses(claim, factsOn(b.facts, credit.DateOf(b.now), cert, cycle), cycle.Start,
		credit.TagElsewhere, credit.ElsewhereIn(b.rules[other.Cycle].ID))
}

// addTags returns the tags with those added that are not among them.
func addTags(tags []string, more ...string) []string {
	out := slices.Clone(tags)
	for _, t := range more {
		if !slices.Contains(out, t) {
			out = append(out, t)
		}
	}
	return out
}

// doubleText says that a claim counts nothing because its activity is claimed
// elsewhere, or "".
func (b *book) doubleText(c catalog.Claim) string {
	e := b.elsewhere[c.ID]
	if e.cap.ID == "" {
		return ""
	}
	name := ""
	for _, cert := range b.certs {
		if cert.ID == e.by.Certification {
			name = cert.Name
		}
	}
	return fmt.Sprintf("its activity is claimed for %s too, as %s, and cap %s (%s:%d) counts nothing of that; withdraw the one that serves less",
		name, e.by.Ref(), e.cap.ID, e.cap.File, e.cap.Line)
}

// doubles warns of each claim of the activities of these claims that counts nothing
// because the activity is claimed elsewhere.
func (b *book) doubles(claims ...string) []Warning {
	var list []Warning
	var done []string
	for _, c := range b.claims {
		if !slices.Contains(claims, c.ID) || slices.Contains(done, c.Activity) {
			continue
		}
		done = append(done, c.Activity)
		for _, other := range b.claims {
			if other.Activity != c.Activity || other.Withdrawn {
				continue
			}
			if text := b.doubleText(other); text != "" {
				list = append(list, Warning{Claim: other.Ref(), Text: text})
			}
		}
	}
	return list
}

// splitCertification parts "a,b" into names.
func splitCertification(text string) []string {
	var names []string
	for name := range strings.SplitSeq(text, ",") {
		if name = strings.TrimSpace(name); name != "" {
			names = append(names, name)
		}
	}
	return names
}
