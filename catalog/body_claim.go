package catalog

import "evidencevault/extract/paper"

// ActivityMade makes an activity: what the person did, once.
type ActivityMade struct {
	ID     string                 `json:"id"` // UUID
	Number int                    `json:"number"`
	Paper  string                 `json:"paper,omitempty"` // the paper it was confirmed from; "" for one without a document yet
	Row    int                    `json:"row,omitempty"`   // of a transcript, counted from 1
	Fields map[paper.Field]string `json:"fields"`          // canonical, see [paper.Canonical]; without empty ones
	By     map[paper.Field]string `json:"by,omitempty"`    // who says it: [paper.ByProgram], the default, or [paper.ByPerson]
}

// ActivityChanged changes fields of an activity; "" takes a field away.
type ActivityChanged struct {
	ID     string                 `json:"id"`
	Fields map[paper.Field]string `json:"fields"`
	By     map[paper.Field]string `json:"by,omitempty"` // as in ActivityMade, but [paper.ByPerson] is the default
}

// ActivityWithdrawn says that an activity no longer stands.
type ActivityWithdrawn struct {
	ID  string `json:"id"`
	Why string `json:"why,omitempty"`
}

// ProofLinked links one field of an activity to the place that shows it. Box and
// quote are taken from the reading when the rows are made, and are not repeated here.
type ProofLinked struct {
	Activity string      `json:"activity"`
	Field    paper.Field `json:"field"`
	Evidence string      `json:"evidence"` // SHA-256
	Paper    string      `json:"paper"`
	Reading  int64       `json:"reading,omitempty"` // number of the event of the reading; 0: no reading shows it
	Row      int         `json:"row,omitempty"`     // of a transcript: the place is the row's
	Page     int         `json:"page"`              // counted from 1
	Value    string      `json:"value"`             // canonical
	By       string      `json:"by"`                // [paper.ByProgram] or [paper.ByPerson]; a person's has no box and no quote
	Replace  bool        `json:"replace,omitempty"` // takes the place of every earlier proof of this field
}

// ClaimMade puts an activity forward for a certification's cycle in a category.
type ClaimMade struct {
	ID            string `json:"id"` // UUID
	Number        int    `json:"number"`
	Activity      string `json:"activity"`
	Certification string `json:"certification"` // UUID
	Cycle         string `json:"cycle"`         // UUID
	Category      string `json:"category"`
}

// ClaimChanged changes what is not empty.
type ClaimChanged struct {
	ID       string `json:"id"`
	Cycle    string `json:"cycle,omitempty"`
	Category string `json:"category,omitempty"`
}

// ClaimWithdrawn says that a claim is no longer put forward.
type ClaimWithdrawn struct {
	ID  string `json:"id"`
	Why string `json:"why,omitempty"`
}

// ReceiptMade makes a receipt of a confirmed paper.
type ReceiptMade struct {
	ID       string                 `json:"id"` // UUID
	Number   int                    `json:"number"`
	Paper    string                 `json:"paper"`
	Activity string                 `json:"activity,omitempty"` // of which it is a cost; "": paid, no certificate yet
	Fields   map[paper.Field]string `json:"fields"`             // canonical
}

// ReceiptChanged changes fields of a receipt; "" takes a field away.
type ReceiptChanged struct {
	ID     string                 `json:"id"`
	Fields map[paper.Field]string `json:"fields"`
}

// ReceiptTied says of which activity a receipt is a cost; "" unties it.
type ReceiptTied struct {
	ID       string `json:"id"`
	Activity string `json:"activity,omitempty"`
}

// ReceiptWithdrawn says that a receipt no longer stands.
type ReceiptWithdrawn struct {
	ID  string `json:"id"`
	Why string `json:"why,omitempty"`
}

// Undone says that an act was taken back, and how everything it touched stands now.
type Undone struct {
	Act        int64        `json:"act"` // number of the act, see [Event]
	Papers     []PaperState `json:"papers,omitempty"`
	Rows       []RowState   `json:"rows,omitempty"`
	Activities []Withdrawal `json:"activities,omitempty"`
	Claims     []Withdrawal `json:"claims,omitempty"`
	Receipts   []Withdrawal `json:"receipts,omitempty"`
	Letters    []Withdrawal `json:"letters,omitempty"`
}

// PaperState says in which state a paper is from now on.
type PaperState struct {
	ID    string `json:"id"`
	State string `json:"state"`
	Why   string `json:"why,omitempty"`
}

// RowState says how a row of a transcript stands from now on: [Waiting], [Confirmed] or [LeftOut].
type RowState struct {
	Paper string `json:"paper"`
	Row   int    `json:"row"`
	State string `json:"state"`
}

// Withdrawal says whether an activity, claim, receipt or audit letter is withdrawn from now on.
type Withdrawal struct {
	ID        string `json:"id"`
	Withdrawn bool   `json:"withdrawn,omitempty"`
	Why       string `json:"why,omitempty"`
}
