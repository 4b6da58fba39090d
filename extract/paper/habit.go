package paper

// Sort says what a labelled value is, and so which fields it can be the value of.
type Sort string

// The sorts of labelled values.
const (
	SortDay     Sort = "day"
	SortFirst   Sort = "first day" // of a span
	SortLast    Sort = "last day"
	SortLength  Sort = "minutes"
	SortCredits Sort = "credits"
	SortSum     Sort = "sum"
	SortText    Sort = "text"
)

// Fits reports whether a value of this sort can be that of f.
func (s Sort) Fits(f Field) bool {
	switch f {
	case FieldStart:
		return s == SortDay || s == SortFirst
	case FieldEnd:
		return s == SortDay || s == SortLast
	case FieldIssue:
		return s == SortDay
	case FieldDuration:
		return s == SortLength
	case FieldCredits:
		return s == SortCredits
	case FieldTotal:
		return s == SortSum
	case FieldTitle:
		return s == SortText
	}
	return false
}

// Labelled is a value of a paper with the label at which it stands. Readings keep them so
// that a correction can teach from which label a field is to be taken, or from which place
// on the page where there is no label. A day whose order is open has an entry for each meaning.
type Labelled struct {
	Label string `json:"label"` // in small letters, without accents and colon; "" if it has none
	Sort  Sort   `json:"sort"`
	Text  string `json:"value"` // canonical, see [Canonical]
	Place Place  `json:"place,omitzero"`
}

// Habit is what corrections taught of a provider's papers: the label at which the value
// of a field stands there, or the place on the page. It proposes, and never decides.
type Habit struct {
	Providers []string // the provider's name, as the person writes it and as it is read
	Field     Field
	Label     string
	At        Place    // without a label: the page, counted from the paper's first, and the box
	From      []string // the claims it comes from, by their short numbers
}
