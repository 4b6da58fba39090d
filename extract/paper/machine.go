package paper

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
)

// Line is what the machine interface prints for one paper: the fields of the corpus
// schema, absent ones as null, and where each value stands. Field names and shapes
// are kept stable.
type Line struct {
	File      string              `json:"file"`
	Part      string              `json:"part,omitempty"`
	Pages     *[2]int             `json:"pages,omitempty"` // first and last page; nil where nothing was read
	Outcome   Outcome             `json:"outcome"`
	Reason    string              `json:"reason,omitempty"`
	Language  string              `json:"language,omitempty"`
	Kind      *string             `json:"kind"`
	Title     *string             `json:"title"`
	Provider  *string             `json:"provider"`
	Attendee  *string             `json:"attendee"`
	Start     *string             `json:"start_date"`
	End       *string             `json:"end_date"`
	Issue     *string             `json:"issue_date"`
	Duration  *int64              `json:"duration_minutes"`
	Credits   []Printed           `json:"credits"`
	Total     *Money              `json:"total"`
	Certain   []Field             `json:"certain"`
	Questions []LineQuestion      `json:"questions"`
	Values    map[Field]LineValue `json:"values"`
	Rows      []Row               `json:"rows,omitempty"`
}

// LineValue is a value as the machine interface prints it.
type LineValue struct {
	Value      any             `json:"value"` // a string; minutes an integer, credits a list, the total an object; nil while open
	Page       int             `json:"page,omitempty"`
	Box        *Points         `json:"box"` // null where the format has no pages
	Quote      string          `json:"quote,omitempty"`
	Certain    bool            `json:"certain"`
	Candidates []LineCandidate `json:"candidates,omitempty"`
	By         string          `json:"by,omitempty"`

	Why   string `json:"-"` // what speaks for it, for the page
	Score int    `json:"-"` // see [Value]
}

// LineQuestion is an open question as the machine interface prints it.
type LineQuestion struct {
	Field      Field           `json:"field"`
	Text       string          `json:"text"`
	Candidates []LineCandidate `json:"candidates,omitempty"`
}

// LineCandidate is one possible value with what speaks for it.
type LineCandidate struct {
	Value any    `json:"value"`
	Why   string `json:"why,omitempty"`
}

// Points is a [Box] that is written in points, as in [72.5,100,210.25,112].
type Points Box

// MarshalJSON writes p as four decimal numbers of points. It never fails.
func (p Points) MarshalJSON() ([]byte, error) {
	var b strings.Builder
	for i, n := range p {
		b.WriteByte("[,,,"[i])
		sign := ""
		if n < 0 {
			sign, n = "-", -n
		}
		b.WriteString(strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%s%d.%02d", sign, n/100, n%100), "0"), "."))
	}
	b.WriteByte(']')
	return []byte(b.String()), nil
}

// UnmarshalJSON reads what [Points.MarshalJSON] writes.
func (p *Points) UnmarshalJSON(text []byte) error {
	var numbers [4]json.Number
	if err := json.Unmarshal(text, &numbers); err != nil {
		return fmt.Errorf("box %.60s: want four numbers of points: %w", text, err)
	}
	for i, n := range numbers {
		whole, part, _ := strings.Cut(n.String(), ".")
		hundredths, err := strconv.Atoi(whole + (part + "00")[:2]) // "-0.05" keeps its sign in whole
		if err != nil || len(part) > 2 {
			return fmt.Errorf("box %.60s: want numbers of points with at most two decimals", text)
		}
		p[i] = hundredths
	}
	return nil
}

// LineOf returns r as the machine interface prints it, under the name of its file.
func LineOf(file string, r Reading) Line {
	l := Line{
		File: file, Part: r.Part, Outcome: r.Outcome, Reason: r.Reason, Language: r.Language,
		Certain: []Field{}, Questions: LineQuestions(r.Questions), Values: LineValues(r.Values), Rows: r.Rows,
	}
	if r.From > 0 {
		l.Pages = &[2]int{r.From, r.To}
	}
	texts := map[Field]**string{FieldKind: &l.Kind, FieldTitle: &l.Title, FieldProvider: &l.Provider,
		FieldAttendee: &l.Attendee, FieldStart: &l.Start, FieldEnd: &l.End, FieldIssue: &l.Issue}
	for _, f := range fields {
		v, ok := r.Values[f]
		if !ok || v.Text == "" {
			continue
		}
		if v.Certain {
			l.Certain = append(l.Certain, f)
		}
		if into := texts[f]; into != nil {
			*into = &v.Text
		}
		switch got := Typed(f, v.Text).(type) {
		case int64:
			l.Duration = &got
		case []Printed:
			l.Credits = got
		case Money:
			l.Total = &got
		}
	}
	return l
}

// LineValues returns values as `read` and `waiting` print them.
func LineValues(values map[Field]Value) map[Field]LineValue {
	out := make(map[Field]LineValue, len(values))
	for f, v := range values {
		lv := LineValue{Value: Typed(f, v.Text), Page: v.Place.Page, Quote: v.Place.Quote,
			Certain: v.Certain, Candidates: lineCandidates(f, v.Candidates), By: v.By, Why: v.Why, Score: v.Score}
		if !v.Place.Box.IsZero() {
			lv.Box = new(Points(v.Place.Box))
		}
		out[f] = lv
	}
	return out
}

// LineQuestions returns questions as `read` and `waiting` print them; an empty list, never nil.
func LineQuestions(questions []Question) []LineQuestion {
	out := make([]LineQuestion, len(questions))
	for i, q := range questions {
		out[i] = LineQuestion{Field: q.Field, Text: q.Text, Candidates: lineCandidates(q.Field, q.Candidates)}
	}
	return out
}

func lineCandidates(f Field, list []Candidate) []LineCandidate {
	var out []LineCandidate
	for _, c := range list {
		out = append(out, LineCandidate{Value: Typed(f, c.Text), Why: c.Why})
	}
	return out
}

// Typed returns the canonical text of a value in the type that JSON shows: an int64
// for minutes, []Printed for credits, Money for the total, else the text itself. Text
// that is empty or not canonical gives nil for these three fields, and "" gives nil for all.
func Typed(f Field, text string) any {
	if text == "" {
		return nil
	}
	switch f {
	case FieldDuration:
		if n, err := strconv.ParseInt(text, 10, 64); err == nil {
			return n
		}
		return nil
	case FieldCredits:
		if list, err := ParseCredits(text); err == nil {
			return list
		}
		return nil
	case FieldTotal:
		if m, err := ParseMoney(text); err == nil {
			return m
		}
		return nil
	}
	return text
}
