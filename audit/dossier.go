package audit

import (
	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// Dossier is everything that the index says, gathered once, so that its forms
// (HTML, CSV, JSON) cannot come to differ.
type Dossier struct {
	Holder        string            `json:"holder"`
	Certification string            `json:"certification"` // the vault's short name of it
	Title         string            `json:"title"`         // as the body calls it
	Body          string            `json:"body"`
	Number        string            `json:"number,omitempty"`
	Scheme        SchemeRef         `json:"scheme"`
	On            credit.Date       `json:"on"`       // the day for which the figures hold
	Statement     credit.Statement  `json:"standing"` // of the whole cycle, whatever is handed over
	Asked         Asked             `json:"asked"`
	Claims        []Entry           `json:"claims"` // those that were asked for
	Exceptions    []Exception       `json:"exceptions"`
	Originals     []Original        `json:"originals"`
	Head          string            `json:"head"` // the signed head of the vault's log
	titles        map[string]string // of the scheme's categories
	made          credit.Date       // the day on which it is packed; zero: On
	records       []record          // further files of the packet: those of a closing
	w             *wording          // of what people read; nil: English
}

// record is a further file of a packet.
type record struct {
	name string // below data/
	data []byte
}

// Asked says which claims are handed over, and why these.
type Asked struct {
	All     bool     `json:"all"`                // every claim of the cycle
	Of      int      `json:"of"`                 // claims of the cycle
	Claims  []string `json:"claims,omitempty"`   // unless all
	Seed    string   `json:"seed,omitempty"`     // with which they were drawn, see [Draw]
	LeftOut []string `json:"left_out,omitempty"` // asked for, and unproven
	Letter  string   `json:"letter,omitempty"`   // the audit letter that asks, in words; "" without one
	Without []string `json:"without,omitempty"`  // fields that were not asked for, and are not shown
}

// SchemeRef says under which rules the figures were worked out.
type SchemeRef struct {
	ID      string `json:"id"`
	Version string `json:"version"`
	File    string `json:"file"`
	Copy    string `json:"copy"` // relative to the index
	SHA256  string `json:"sha256"`
	Source  string `json:"source,omitempty"`
	bytes   []byte
}

// Entry is one claim with its rule and its proofs.
type Entry struct {
	ID            string          `json:"id"`
	Activity      string          `json:"activity"`
	Category      string          `json:"category"`
	CategoryTitle string          `json:"category_title"`
	Title         string          `json:"title,omitempty"`
	Provider      string          `json:"provider,omitempty"`
	Start         credit.Date     `json:"start_date,omitzero"`
	End           credit.Date     `json:"end_date,omitzero"`
	Minutes       *credit.Minutes `json:"duration_minutes,omitempty"` // nil: not stated
	Awarded       credit.Amount   `json:"awarded"`
	Counted       credit.Amount   `json:"counted"`
	Rule          Rule            `json:"rule"`
	Why           []string        `json:"derivation"` // how the figure came about, line by line
	Proofs        []Proof         `json:"proofs"`
	Proven        bool            `json:"proven"`                // by a document of a kind that the category accepts
	CarriedFrom   credit.Date     `json:"carried_from,omitzero"` // credit carried in: the last day of the cycle that it came from
}

// Rule is where in the scheme a claim's figure comes from.
type Rule struct {
	File   string `json:"file"`
	Line   int    `json:"line"`
	Source string `json:"source,omitempty"` // the body's rule book, edition, section
}

// Proof is one field of a claim and the place that shows it.
type Proof struct {
	Field  string        `json:"field"`
	Value  string        `json:"value"`
	File   string        `json:"file"`   // the name under which the original came; of a part: the whole's, and its own
	Copy   string        `json:"copy"`   // relative to the index
	Link   string        `json:"link"`   // Copy, with the page where the format has pages
	SHA256 string        `json:"sha256"` // of the original, lower-case hex
	Page   int           `json:"page"`
	Box    *paper.Points `json:"box"` // points, origin top left; null without a place
	Quote  string        `json:"quote,omitempty"`
	By     string        `json:"by"` // program or person
}

// Original is one evidence that is handed over, unaltered.
type Original struct {
	SHA256 string   `json:"sha256"`
	Size   int64    `json:"size"`
	Names  []string `json:"names"`       // under which it came, as they may be shown
	Exact  []string `json:"names_exact"` // the same, so that the bytes can be had back: see catalog.ParseExact
	Copy   string   `json:"copy"`        // relative to the index
	// Languages are those in which its papers are written, "und" where that could not be told (BCP 47).
	Languages []string `json:"languages,omitempty"`

	archived string // where its copy lies in the archive of a closed cycle; "": nowhere
}
