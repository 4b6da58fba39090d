package find

// Person is what may be a person's name.
type Person struct {
	Span          // the name with titles and degrees
	Name   string // without them, first name first
	Titled bool   // an honorific or degree stands with it, so that it surely is a person
	Last   bool   // only a surname is given ("Mme Verdancourt")
}

// Organisation is what may be a body's name.
type Organisation struct {
	Span
	Name string
	Form string // the word that gives it away: "GmbH", "Institute"
}

// Number is a number of registration: certificate, invoice, member, licence.
type Number struct {
	Span
	Text  string
	Label string // the words before it
}

// Phone is a telephone number.
type Phone struct {
	Span
	Country string // ISO 3166-1 alpha-2 where the number tells it, else ""
}

// Address is enough of a postal address to tell the country.
type Address struct {
	Span
	Country string // ISO 3166-1 alpha-2
}
