package journal

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// Fields that only a person sets, besides the log fields that the scheme names.
const (
	FieldTags  paper.Field = "tags"  // words of the scheme, parted by commas
	FieldCount paper.Field = "count" // of items, where one claim stands for several

	FieldStartTime paper.Field = "start_time" // HH:MM, of an activity held at given hours
	FieldEndTime   paper.Field = "end_time"   // HH:MM
	FieldSignature paper.Field = "signature"  // whether the paper bears one: "yes" or "no"; only where a category asks
)

// ruleClaim turns the fields of an activity, claimed in a category, into the claim
// that the rules see. What is absent stays unknown. The error names a field whose
// text is not canonical, which the catalog does not hold.
func ruleClaim(id, category string, fields map[paper.Field]string) (credit.Claim, error) {
	c := credit.Claim{ID: id, Category: category, Fields: map[string]string{}}
	for f, text := range fields {
		if text == "" {
			continue
		}
		if err := setRuleField(&c, f, text); err != nil {
			return credit.Claim{}, fmt.Errorf("%s: %w", id, err)
		}
	}
	return c, nil
}

// newRuleClaim is ruleClaim for what a person is about to claim. The error wraps
// [paper.ErrValue] when it would end before it starts.
func newRuleClaim(id, category string, fields map[paper.Field]string) (credit.Claim, error) {
	c, err := ruleClaim(id, category, fields)
	if err == nil && !c.Start.IsZero() && !c.End.IsZero() && c.End.Before(c.Start) {
		err = fmt.Errorf("%s: end_date %s lies before start_date %s: %w; correct one of them with --set", id, c.End, c.Start, paper.ErrValue)
	}
	return c, err
}

func setRuleField(c *credit.Claim, f paper.Field, text string) (err error) {
	switch f {
	case paper.FieldStart:
		c.Start, err = credit.ParseDate(text)
	case paper.FieldEnd:
		c.End, err = credit.ParseDate(text)
	case paper.FieldDuration:
		var n int64
		n, err = strconv.ParseInt(text, 10, 64)
		c.Minutes = new(credit.Minutes(n))
	case paper.FieldCredits:
		var list []paper.Printed
		list, err = paper.ParseCredits(text)
		for _, p := range list {
			c.Credits = append(c.Credits, credit.Credit{Unit: p.Unit, Value: p.Value})
		}
	case FieldCount:
		var n int64
		n, err = strconv.ParseInt(text, 10, 64)
		c.Count = &n
	case FieldTags:
		c.Tags = splitTags(text)
	case paper.FieldProvider:
		c.Provider = text
	case paper.FieldCategory, paper.FieldTotal:
	default:
		c.Fields[string(f)] = text
	}
	if err != nil {
		return fmt.Errorf("%s %q: %w", f, text, err)
	}
	return nil
}

func splitTags(text string) []string {
	var tags []string
	for tag := range strings.SplitSeq(text, ",") {
		if tag = strings.TrimSpace(tag); tag != "" && !slices.Contains(tags, tag) {
			tags = append(tags, tag)
		}
	}
	return tags
}

// settable returns the names that --set takes under a scheme: the fields of a paper,
// the category, tags, count and hours, every log field that the scheme's rules read,
// and the signature where a category wants one.
func settable(s credit.Scheme) []paper.Field {
	list := append(paper.Fields(), paper.FieldCategory, FieldTags, FieldCount, FieldStartTime, FieldEndTime)
	add := func(names ...string) {
		for _, n := range names {
			if f := paper.Field(n); n != "" && !slices.Contains(list, f) {
				list = append(list, f)
			}
		}
	}
	for _, c := range s.Categories {
		add(c.Needs()...)
		if c.Signed {
			add(string(FieldSignature))
		}
		for _, l := range c.Log {
			add(l.Names...)
		}
	}
	for _, c := range s.Caps {
		for _, per := range c.Per {
			if !slices.Contains(credit.Windows(), per) && !strings.HasPrefix(per, "rolling:") {
				add(per)
			}
		}
	}
	return list
}

// canonicalSet checks what a person sets: every name is one of allowed, every value
// canonical for its field. An empty value takes a value away. The error wraps
// [ErrField], [paper.ErrValue] or [credit.ErrDate], and says what is wanted.
func canonicalSet(set map[string]string, allowed []paper.Field) (map[paper.Field]string, error) {
	out := make(map[paper.Field]string, len(set))
	for name, text := range set {
		f := paper.Field(name)
		if !slices.Contains(allowed, f) {
			return nil, fmt.Errorf("%q: %w: want one of %s", name, ErrField, joinFields(allowed))
		}
		if strings.TrimSpace(text) == "" {
			out[f] = ""
			continue
		}
		got, err := canonicalValue(f, text)
		if err != nil {
			return nil, err
		}
		out[f] = got
	}
	return out, nil
}

func canonicalValue(f paper.Field, text string) (string, error) {
	switch f {
	case FieldCount:
		n, err := strconv.ParseUint(strings.TrimSpace(text), 10, 31)
		if err != nil {
			return "", fmt.Errorf("count %q: %w: want a whole number, as in 3", text, paper.ErrValue)
		}
		return strconv.FormatUint(n, 10), nil
	case FieldTags:
		return strings.Join(splitTags(text), ", "), nil
	case FieldSignature:
		seen := strings.ToLower(strings.TrimSpace(text))
		if seen != "yes" && seen != "no" {
			return "", fmt.Errorf("signature %q: %w: want yes or no, as you see it on the paper", text, paper.ErrValue)
		}
		return seen, nil
	case FieldStartTime, FieldEndTime:
		at, err := time.Parse("15:04", strings.TrimSpace(text))
		if err != nil {
			return "", fmt.Errorf("%s %q: %w: want HH:MM, as in 09:30", f, text, paper.ErrValue)
		}
		return at.Format("15:04"), nil
	}
	return paper.Canonical(f, text)
}

func joinFields(list []paper.Field) string {
	names := make([]string, len(list))
	for i, f := range list {
		names[i] = string(f)
	}
	return strings.Join(names, ", ")
}
