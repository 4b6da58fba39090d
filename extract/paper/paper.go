package paper

import (
	"maps"
	"slices"

	"evidencevault/credit"
)

// Kind says what a paper proves.
type Kind string

// The kinds of paper.
const (
	Attendance  Kind = "attendance"   // present at an event held at given times
	Completion  Kind = "completion"   // finished something at one's own pace or at a distance
	Transcript  Kind = "transcript"   // a list of several courses or events
	Instruction Kind = "instruction"  // taught, lectured, presented or examined
	Employment  Kind = "employment"   // is or was employed
	Membership  Kind = "membership"   // is a member, for a period
	Meeting     Kind = "meeting"      // present at a meeting of a section, committee or working group
	Publication Kind = "publication"  // a text was accepted or published
	Credential  Kind = "credential"   // passed an examination or holds a qualification
	Receipt     Kind = "receipt"      // money was paid, is owed, or was paid back
	NotEvidence Kind = "not-evidence" // proves nothing about what the person did
)

var kinds = []Kind{Attendance, Completion, Transcript, Instruction, Employment, Membership, Meeting, Publication, Credential, Receipt, NotEvidence}

// Kinds returns every kind, in the order in which they are listed to people.
func Kinds() []Kind { return slices.Clone(kinds) }

// Known reports whether k is one of [Kinds].
func (k Kind) Known() bool { return slices.Contains(kinds, k) }

// Field names one thing that a paper says. Log fields that a scheme asks for
// (place, instructor, approval number …) are fields too, with names of their own.
type Field string

// The fields that the reader looks for, and Category, which is proposed in a vault.
const (
	FieldKind     Field = "kind"
	FieldTitle    Field = "title"
	FieldProvider Field = "provider"
	FieldAttendee Field = "attendee"
	FieldStart    Field = "start_date"
	FieldEnd      Field = "end_date"
	FieldIssue    Field = "issue_date"
	FieldDuration Field = "duration_minutes"
	FieldCredits  Field = "credits"
	FieldTotal    Field = "total"
	FieldCategory Field = "category"
)

var fields = []Field{FieldKind, FieldTitle, FieldProvider, FieldAttendee, FieldStart, FieldEnd, FieldIssue, FieldDuration, FieldCredits, FieldTotal}

// Fields returns the fields that the reader looks for, without [FieldCategory],
// in the order in which they are shown.
func Fields() []Field { return slices.Clone(fields) }

// Box is a rectangle on a page: left, top, right, bottom in hundredths of a point
// of the page as displayed, origin at the top left. The zero Box is no place.
type Box [4]int

// IsZero reports whether b is no place.
func (b Box) IsZero() bool { return b == Box{} }

// Union returns the smallest box around b and c; a zero Box adds nothing.
func (b Box) Union(c Box) Box {
	if b.IsZero() {
		return c
	}
	if c.IsZero() {
		return b
	}
	return Box{min(b[0], c[0]), min(b[1], c[1]), max(b[2], c[2]), max(b[3], c[3])}
}

// Place says where in a document something stands.
type Place struct {
	Page  int    `json:"page,omitempty"` // counted from 1 within the evidence; formats without pages have page 1
	Box   Box    `json:"box,omitzero"`   // zero where the format has no pages, or a person set the value
	Quote string `json:"quote,omitempty"`
}

// Who says what a value is.
const (
	ByProgram = "program" // read in the paper
	ByPerson  = "person"  // set by the person
)

// Candidate is one value that is possible, with what speaks for it.
type Candidate struct {
	Text  string `json:"value"` // canonical, see [Canonical]
	Why   string `json:"why,omitempty"`
	Place Place  `json:"place,omitzero"`
}

// Value is what a paper says of one field.
type Value struct {
	Text       string      `json:"value,omitempty"` // canonical, see [Canonical]; "" while only candidates are known
	Place      Place       `json:"place,omitzero"`
	Certain    bool        `json:"certain,omitempty"` // a careful reader would not ask
	Score      int         `json:"score,omitempty"`   // 0 to 1000, how much speaks for Text; compare only within one field
	Why        string      `json:"why,omitempty"`     // what speaks for Text, as a sentence for the person; "" where its place says enough
	By         string      `json:"by,omitempty"`      // ByProgram or ByPerson
	Candidates []Candidate `json:"candidates,omitempty"`
}

// Question is a field that is open, as a sentence for the person.
type Question struct {
	Field      Field       `json:"field"`
	Text       string      `json:"text"`
	Candidates []Candidate `json:"candidates,omitempty"`
}

// Row is one course or event of a transcript.
type Row struct {
	Title    string          `json:"title,omitempty"`
	Start    credit.Date     `json:"start_date,omitzero"`
	End      credit.Date     `json:"end_date,omitzero"`
	Duration *credit.Minutes `json:"duration_minutes,omitempty"` // nil: not stated
	Credits  []Printed       `json:"credits,omitempty"`
	Place    Place           `json:"place,omitzero"`
}

// Outcome says how reading ended. The words are part of the machine interface.
type Outcome string

// The outcomes.
const (
	OutcomeRead        Outcome = "reads anyway"   // fields were read
	OutcomeNotEvidence Outcome = "not evidence"   // read, and proves nothing
	OutcomeUnreadable  Outcome = "unreadable"     // kept, nothing could be got out of it
	OutcomePassword    Outcome = "needs password" // opens only with a password
	OutcomeTooLarge    Outcome = "too large"      // stopped at a limit of size, pages, depth, memory or time
)

// Reading is what the program found in one paper.
type Reading struct {
	Outcome   Outcome         `json:"outcome"`
	Reason    string          `json:"reason,omitempty"`   // why not, with the way out; a sentence for the person
	From      int             `json:"from,omitempty"`     // first page of the paper within its evidence, counted from 1
	To        int             `json:"to,omitempty"`       // its last page
	Part      string          `json:"part,omitempty"`     // name of the attachment or archive member that was read
	Language  string          `json:"language,omitempty"` // BCP 47, as far as the document tells
	Values    map[Field]Value `json:"values,omitempty"`
	Questions []Question      `json:"questions,omitempty"`
	Rows      []Row           `json:"rows,omitempty"` // of a transcript
	Labelled  []Labelled      `json:"labelled,omitempty"`
	Reader    string          `json:"reader,omitempty"` // version of the finders that read it
}

// Kind returns the kind that was read, or "" if none was.
func (r Reading) Kind() Kind { return Kind(r.Values[FieldKind].Text) }

// Clear reports whether the paper was read and nothing about it is open.
func (r Reading) Clear() bool {
	return (r.Outcome == OutcomeRead || r.Outcome == OutcomeNotEvidence) && len(r.Questions) == 0
}

// Question returns the open question on f, if there is one.
func (r Reading) Question(f Field) (Question, bool) {
	for _, q := range r.Questions {
		if q.Field == f {
			return q, true
		}
	}
	return Question{}, false
}

// Clone returns a copy that shares nothing with r.
func (r Reading) Clone() Reading {
	r.Values = maps.Clone(r.Values)
	for f, v := range r.Values {
		v.Candidates = slices.Clone(v.Candidates)
		r.Values[f] = v
	}
	r.Questions = slices.Clone(r.Questions)
	r.Rows = slices.Clone(r.Rows)
	r.Labelled = slices.Clone(r.Labelled)
	return r
}
