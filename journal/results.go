package journal

import (
	"slices"
	"time"

	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// SchemeFile is a scheme as it came: its bytes, and the name that derivations quote.
type SchemeFile struct {
	Name string
	Data []byte
}

// SetupOptions says what a new vault begins with. Holder, a scheme and Start are
// required.
type SetupOptions struct {
	Holder        string
	Scheme        SchemeFile  // used if it has bytes, else SchemeID
	SchemeID      string      // of a scheme that ships
	Certification string      // a short name; "" means the scheme's id
	Start         credit.Date // first day of the cycle
	End           credit.Date // last day; zero: as the scheme says
	Number        string      // that the body gave; "" unknown
	Drop          string      // the drop folder; "" means drop inside the vault
	EmptyDrop     bool        // a drop folder that existed before is emptied as files are taken in
	KeepDropped   bool        // one that setup makes is left as it is
	Now           func() time.Time
}

// Options says how a vault is opened. The zero Options is ready to use.
type Options struct {
	Now      func() time.Time // the clock; nil means time.Now. "Today" is its local date
	ReadOnly bool             // nothing can be changed; works on a read-only disk
}

// CertificationOptions says what a further certification begins with; see
// [SetupOptions].
type CertificationOptions struct {
	ID         string
	Scheme     SchemeFile
	SchemeID   string
	Start, End credit.Date
	Number     string
}

// ConfirmOptions says how papers are confirmed. The zero value confirms them as read.
type ConfirmOptions struct {
	Certification string            // "" means the only one; "a,b" claims it for each, as Also does
	Category      string            // "" means the one that is proposed
	Also          []ClaimFor        // further certifications for which the same activity is claimed
	Set           map[string]string // field → value, as a person writes it; "" takes a value away
	CostOf        string            // of a receipt: the activity (A7) or a claim of it (C9)
	Row           int               // one row of a transcript, counted from 1; 0 means all
	SkipRows      []int             // rows that are left out

	clear bool // among the clear ones: what seems to be claimed already is passed over
}

// ClaimFor is a further certification for which an activity is claimed.
type ClaimFor struct {
	Certification string
	Category      string // "" means the one that is proposed
}

// several moves all but the first name of "a,b" to Also.
func (o ConfirmOptions) several() ConfirmOptions {
	names := splitCertification(o.Certification)
	if len(names) < 2 {
		return o
	}
	also := slices.Clone(o.Also)
	for _, name := range names[1:] {
		if !slices.ContainsFunc(also, func(f ClaimFor) bool { return f.Certification == name }) {
			also = append(also, ClaimFor{Certification: name})
		}
	}
	o.Certification, o.Also = names[0], also
	return o
}

// ConfirmResult is what a confirmation made.
type ConfirmResult struct {
	Claims   []Claim   `json:"claims"`
	Receipts []Receipt `json:"receipts"`
	SetAside []string  `json:"set_aside"` // papers, by confirm --clear
	Waiting  []string  `json:"waiting"`   // transcripts with rows that are still open
	Warnings []Warning `json:"warnings"`
}

// ClearPlan is what confirming everything clear would do, in the order of the papers'
// numbers; it is shown before it is done.
type ClearPlan struct {
	Confirm  []WaitingPaper `json:"confirm"`   // papers that become claims
	Receipts []WaitingPaper `json:"receipts"`  // papers that become costs, or wait for a certificate
	SetAside []WaitingPaper `json:"set_aside"` // papers that certainly prove nothing
	Left     []WaitingPaper `json:"left"`      // unread, or with a question
}

// ClaimOptions says what is claimed without a document.
type ClaimOptions struct {
	Certification string // "" means the only one
	Category      string
	Activity      string            // an activity that is there already (A7); then Set must be empty
	Set           map[string]string // field → value
}

// ClaimsFilter says which claims are listed. The zero value lists those of every
// certification's present cycle that are not withdrawn.
type ClaimsFilter struct {
	Certification string
	IDs           []string    // claims (C9) or their activities (A7)
	On            credit.Date // figures on that day; zero: the cycle's end
	Withdrawn     bool        // those that were withdrawn too
}

// ClaimResult is one claim after an act, with warnings.
type ClaimResult struct {
	Claim    Claim     `json:"claim"`
	Warnings []Warning `json:"warnings"`
}

// UndoResult says what was taken back.
type UndoResult struct {
	ID        string   `json:"id"`
	Undone    string   `json:"undone"` // the act, in words
	State     string   `json:"state"`  // of the paper or claim now
	Withdrawn []string `json:"withdrawn"`
}

// Detail is one paper, activity, claim, receipt or audit letter with its history, as
// `show` prints it. Exactly one of Paper, Activity, Claim, Receipt and Letter is set.
type Detail struct {
	ID       string        `json:"id"`
	Paper    *PaperDetail  `json:"paper,omitempty"`
	Activity *Activity     `json:"activity,omitempty"`
	Claim    *Claim        `json:"claim,omitempty"`
	Receipt  *Receipt      `json:"receipt,omitempty"`
	Letter   *AuditLetter  `json:"letter,omitempty"`
	History  []HistoryItem `json:"history"`
}

// PaperDetail is a paper of any state.
type PaperDetail struct {
	WaitingPaper
	Names   []string `json:"names"`       // all under which it came, as they may be shown
	Exact   []string `json:"names_exact"` // the same, so that the bytes can be had back; see [catalog.ParseExact]
	Claims  []string `json:"claims"`      // made from it, or proven by it
	Receipt string   `json:"receipt,omitempty"`
	Size    int64    `json:"size"`
}

// Activity is what the person did, once, with its proofs.
type Activity struct {
	ID     string                 `json:"id"`
	Fields map[paper.Field]string `json:"fields"`
	Proofs []Proof                `json:"proofs"`
	Claims []string               `json:"claims"`
	Costs  []Receipt              `json:"costs"`
	Sums   []Sum                  `json:"sums"` // of the costs, one for each currency
}

// HistoryItem is one act, oldest first.
type HistoryItem struct {
	Event int64     `json:"event"` // its number in the log
	Time  time.Time `json:"time"`  // UTC
	Kind  string    `json:"kind"`
	Text  string    `json:"text"`
}

// Explanation is the derivation of one claim, of a category or minimum, or of a whole
// certification.
type Explanation struct {
	ID            string              `json:"id"` // C9, the category or minimum, or the certification
	Certification string              `json:"certification"`
	Title         string              `json:"title"`
	Category      string              `json:"category,omitempty"`
	Awarded       credit.Amount       `json:"awarded"`
	Counted       credit.Amount       `json:"counted"`
	Unit          string              `json:"unit"`
	Proofs        []Proof             `json:"proofs"`
	Steps         []credit.Derivation `json:"steps"`
	Lines         []string            `json:"lines"`             // the same for people, one line each; empty ones part what belongs together
	Without       *credit.Effect      `json:"without,omitempty"` // of a claim: what leaving it out would change
}
