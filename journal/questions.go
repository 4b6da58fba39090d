package journal

import (
	"fmt"
	"slices"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// asker is what a paper's questions are asked against: the rules and the holder.
type asker struct {
	scheme credit.Scheme
	names  []string // the holder's name, then former ones
	habits []Habit  // of this certification, and of all
}

// ask returns what is open about a paper whose values are these, the questions of its
// reading among them, and the values with the category that is proposed when exactly
// one accepts the paper. A value that a person set answers the question on its field.
func (k asker) ask(reading paper.Reading, values map[paper.Field]paper.Value) ([]WaitingQuestion, map[paper.Field]paper.Value) {
	kind := paper.Kind(values[paper.FieldKind].Text)
	values = k.propose(kind, values)
	q := questions{reading: reading, values: values}
	q.fromReading()
	k.nameKnown(&q)
	switch {
	case kind == "":
		q.open(paper.FieldKind, "What kind of paper is this?", kindCandidates())
	case kind == paper.NotEvidence: // whom a flyer names is nobody's concern
		q.list = slices.DeleteFunc(q.list, func(a asked) bool { return a.Field != paper.FieldKind })
	case kind == paper.Receipt:
		q.attendee(k.names)
		if values[paper.FieldTotal].Text == "" {
			q.open(paper.FieldTotal, "What is the whole sum, with its currency?", nil)
		}
	default:
		q.attendee(k.names)
		k.askProvider(&q)
		k.askCategory(&q, kind)
		k.askFields(&q, len(reading.Rows) > 0 && kind == paper.Transcript)
	}
	return q.judge(kind, k.needs(values)), values
}

// nameKnown settles a question on the attendee that the reading asked before the
// holder gave a former name: when every name in question is the holder's now.
func (k asker) nameKnown(q *questions) {
	for i, open := range q.list {
		if open.Field != paper.FieldAttendee || len(open.Candidates) == 0 || len(k.names) == 0 ||
			slices.ContainsFunc(open.Candidates, func(c paper.Candidate) bool { return !namesOne(c.Text, k.names) }) {
			continue
		}
		first := open.Candidates[0]
		q.values[paper.FieldAttendee] = paper.Value{Text: first.Text, Place: first.Place, Certain: true, By: paper.ByProgram, Why: first.Why}
		q.list = slices.Delete(q.list, i, i+1)
		return
	}
}

// propose adds the category when exactly one accepts the kind.
func (k asker) propose(kind paper.Kind, values map[paper.Field]paper.Value) map[paper.Field]paper.Value {
	out := make(map[paper.Field]paper.Value, len(values)+1)
	for f, v := range values {
		out[f] = v
	}
	if out[paper.FieldCategory].Text != "" || kind == "" || kind == paper.Receipt || kind == paper.NotEvidence {
		return out
	}
	list := k.accepting(kind, values)
	if len(list) != 1 {
		return out
	}
	out[paper.FieldCategory] = paper.Value{Text: list[0].ID, Certain: true, By: paper.ByProgram, Why: "it is the one category that takes this kind"}
	return out
}

func (k asker) accepting(kind paper.Kind, values map[paper.Field]paper.Value) []credit.Category {
	return k.scheme.Accepting(string(kind), splitTags(values[FieldTags].Text)...)
}

func (k asker) askCategory(q *questions, kind paper.Kind) {
	if q.values[paper.FieldCategory].Text != "" {
		return
	}
	list := k.accepting(kind, q.values)
	text := categoryQuestion(string(kind), len(list))
	if len(list) == 0 {
		list = k.scheme.Categories
	}
	candidates := make([]paper.Candidate, len(list))
	for i, c := range list {
		candidates[i] = paper.Candidate{Text: c.ID, Why: c.Title}
	}
	q.open(paper.FieldCategory, text, k.suggest(kind, q.values[paper.FieldProvider].Text, candidates))
}

// categoryQuestion asks for the category of a paper of a kind that so many accept by
// themselves: none, several, or one that the person did not choose.
func categoryQuestion(kind string, accepting int) string {
	switch accepting {
	case 0:
		return fmt.Sprintf("No category of the scheme accepts a paper of the kind %s by itself. In which one do you claim it?", kind)
	case 1:
		return fmt.Sprintf("Another category accepts a paper of the kind %s. In which one do you claim it?", kind)
	}
	return fmt.Sprintf("Several categories accept a paper of the kind %s. In which one do you claim it?", kind)
}

// askFields asks for what the category's award and conditions read and the paper does
// not say; of a transcript row by row.
func (k asker) askFields(q *questions, byRow bool) {
	if byRow {
		for i := range q.reading.Rows {
			row := rowValues(q.values, q.reading, i+1)
			for _, m := range k.missing(row) {
				q.list = append(q.list, asked{Question: paper.Question{Field: m.field, Text: fmt.Sprintf("Row %d: %s", i+1, m.text)}, own: true, row: i + 1})
			}
		}
		return
	}
	for _, m := range k.missing(q.values) {
		q.open(m.field, m.text, nil)
	}
}

type missingField struct {
	field paper.Field
	text  string
}

func (k asker) missing(values map[paper.Field]paper.Value) []missingField {
	var list []missingField
	if values[paper.FieldEnd].Text == "" {
		text := "On which day did it end?"
		if values[paper.FieldKind].Text == string(paper.Employment) {
			text = "Until which day do you claim it? Give the last day, or while it goes on the day up to which you claim it."
		}
		list = append(list, missingField{paper.FieldEnd, text})
	}
	cat, ok := k.scheme.Category(values[paper.FieldCategory].Text)
	if !ok {
		return list
	}
	claim, err := ruleClaim("", cat.ID, texts(values))
	if err != nil {
		return list // a reading's own text that is not canonical is asked about as missing below
	}
	for _, name := range cat.Missing(claim) {
		if f := paper.Field(name); f != paper.FieldEnd {
			list = append(list, missingField{f, missingText(f, cat)})
		}
	}
	return list
}

func missingText(f paper.Field, c credit.Category) string {
	switch f {
	case paper.FieldDuration:
		return "How many minutes of contact time did it have?"
	case paper.FieldCredits:
		return "How many credits does the paper state, and in which unit?"
	case paper.FieldStart:
		return "On which day did it begin?"
	}
	title := c.Title
	if title == "" {
		title = c.ID
	}
	return fmt.Sprintf("What is %s? The rate of %q reads it.", strings.ReplaceAll(string(f), "_", " "), title)
}

// needs returns the fields on which a question matters because the award reads them:
// those of the category, or while that is open of every category in question.
func (k asker) needs(values map[paper.Field]paper.Value) []string {
	if c, ok := k.scheme.Category(values[paper.FieldCategory].Text); ok {
		return c.Needs()
	}
	var names []string
	for _, c := range k.accepting(paper.Kind(values[paper.FieldKind].Text), values) {
		names = append(names, c.Needs()...)
	}
	return names
}

// questions gathers what is open about one paper, one question for each field but for
// the rows of a transcript.
type questions struct {
	reading paper.Reading
	values  map[paper.Field]paper.Value
	list    []asked
}

type asked struct {
	paper.Question
	own bool // the journal asks, and never in vain
	row int
}

func (q *questions) fromReading() {
	for _, open := range q.reading.Questions {
		if v := q.values[open.Field]; v.By == paper.ByPerson && v.Text != "" {
			continue
		}
		q.list = append(q.list, asked{Question: open})
	}
}

// open adds a question, unless the reading asks about the same field already; then
// that one matters.
func (q *questions) open(f paper.Field, text string, candidates []paper.Candidate) {
	for i := range q.list {
		if q.list[i].Field == f && q.list[i].row == 0 {
			q.list[i].own = true
			return
		}
	}
	q.list = append(q.list, asked{Question: paper.Question{Field: f, Text: text, Candidates: candidates}, own: true})
}

// attendee asks when the paper names somebody who is not the holder, or nobody.
func (q *questions) attendee(names []string) {
	v := q.values[paper.FieldAttendee]
	if v.By == paper.ByPerson || len(names) == 0 || v.Text != "" && namesOne(v.Text, names) {
		return
	}
	holder := paper.Candidate{Text: names[0], Why: "the holder of this vault"}
	if v.Text == "" {
		q.open(paper.FieldAttendee, fmt.Sprintf("The paper names nobody. Is it about you, %s?", names[0]), []paper.Candidate{holder})
		return
	}
	q.open(paper.FieldAttendee, fmt.Sprintf("The paper names %s. Is that you, %s?", v.Text, names[0]),
		[]paper.Candidate{holder, {Text: v.Text, Why: "named in the paper", Place: v.Place}})
}

// judge says of each question whether it keeps the paper from being confirmed.
func (q *questions) judge(kind paper.Kind, needs []string) []WaitingQuestion {
	out := make([]WaitingQuestion, len(q.list))
	byRow := kind == paper.Transcript && len(q.reading.Rows) > 0
	for i, open := range q.list {
		line := paper.LineQuestions([]paper.Question{open.Question})[0]
		out[i] = WaitingQuestion{LineQuestion: line, Matters: open.own || matters(kind, open.Field, needs, byRow), Row: open.row, question: open.Question}
	}
	return out
}

func matters(kind paper.Kind, f paper.Field, needs []string, byRow bool) bool {
	switch {
	case f == paper.FieldKind:
		return true
	case kind == paper.NotEvidence:
		return false
	case f == paper.FieldAttendee:
		return true
	case kind == paper.Receipt:
		return f == paper.FieldTotal
	case f == paper.FieldCategory:
		return true
	case byRow && rowField(f):
		return false // the rows say it, and each is asked about by itself
	case f == paper.FieldEnd:
		return true
	}
	return slices.Contains(needs, string(f))
}

func kindCandidates() []paper.Candidate {
	list := make([]paper.Candidate, 0, len(paper.Kinds()))
	for _, k := range paper.Kinds() {
		list = append(list, paper.Candidate{Text: string(k)})
	}
	return list
}
