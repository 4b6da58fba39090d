package catalog

import (
	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// Body is what one event says. The types are those of this file and of the files
// body_….go; each is applied to the rows by its own method and in no other way.
type Body interface {
	// Kind is the name of the event's kind, as kept in the log.
	Kind() string
	// About lists the ids that the event's history belongs to: UUIDs, or the SHA-256 of an evidence.
	About() []string
	apply(*rows) error
}

// VaultMade is the first event of every vault.
type VaultMade struct {
	ID     string `json:"id"`     // UUID of the vault
	Public string `json:"public"` // the public key that signs the head, as package note prints it
}

// KeyRenewed says that from here on another key signs the head.
type KeyRenewed struct {
	Old    string `json:"old"`              // the public key so far
	New    string `json:"new"`              // the public key from now on
	Handed string `json:"handed,omitempty"` // the new key, signed by the old one; "" without it is a break that stays for ever
	Head   string `json:"head,omitempty"`   // after a restore or import: the head that came with it, signed by the old key, over every event before this one
}

// HeadTakenOver says that one transaction was found committed but not signed, since
// the program was stopped between the two, and that it counts.
type HeadTakenOver struct {
	From int64 `json:"from"` // first event that was not signed
	To   int64 `json:"to"`   // the last one
}

// HolderNamed names the person the vault belongs to, or a name borne before.
type HolderNamed struct {
	Name   string `json:"name"`
	Former bool   `json:"former,omitempty"`
}

// SchemeKept says that a scheme's bytes lie in schemes/; write them first, with
// [Catalog.KeepScheme].
type SchemeKept struct {
	SHA256  string `json:"sha256"`
	ID      string `json:"id"`
	Version string `json:"version,omitempty"`
	File    string `json:"file"` // the name it came under, for quoting file and line
}

// CertificationAdded adds a certification of the holder.
type CertificationAdded struct {
	ID     string `json:"id"`     // UUID
	Name   string `json:"name"`   // the short id that people type, unique in the vault
	Title  string `json:"title"`  // what the holder may call themselves
	Scheme string `json:"scheme"` // id of its scheme
	Number string `json:"number,omitempty"`
}

// CycleOpened opens a cycle of a certification.
type CycleOpened struct {
	ID            string      `json:"id"` // UUID
	Certification string      `json:"certification"`
	Start         credit.Date `json:"start"`
	End           credit.Date `json:"end"`    // the last day
	Scheme        string      `json:"scheme"` // SHA-256 of the version it runs under
}

// SchemeChanged says that a cycle runs under another version of its scheme from now on.
type SchemeChanged struct {
	Cycle  string `json:"cycle"`  // UUID
	Was    string `json:"was"`    // SHA-256 of the version so far
	Scheme string `json:"scheme"` // SHA-256 of the version from now on
}

// FactSet says what rules ask about the holder. A later event of the same name and day replaces.
type FactSet struct {
	Name  string      `json:"name"`
	Value string      `json:"value"`
	From  credit.Date `json:"from,omitzero"` // the first day on which it holds; the zero Date is from ever
}

// DropSet says which folder is watched, and whether files are removed from it once
// they are taken in. A folder within the vault is kept relative to it, so that a vault
// can be moved.
type DropSet struct {
	Dir   string `json:"dir"`
	Empty bool   `json:"empty,omitempty"`
	Gone  bool   `json:"gone,omitempty"` // it is no longer watched
}

// Origin says of which evidence another one is a part: an attachment of a message, a file of an archive.
type Origin struct {
	Parent string   `json:"parent"` // SHA-256
	Part   FileName `json:"part,omitempty"`
}

// EvidenceTaken says that an evidence is in the store, and makes its first paper,
// unread. Put the file into the store before.
type EvidenceTaken struct {
	SHA256 string   `json:"sha256"`
	Size   int64    `json:"size"` // bytes
	Type   string   `json:"type"` // media type by content
	Ext    string   `json:"ext"`  // of its file in the store, with the point
	Name   FileName `json:"name"`
	Origin *Origin  `json:"origin,omitempty"`
	Paper  string   `json:"paper"`  // UUID of its first paper
	Number int      `json:"number"` // of that paper, from [Tx.Next]
}

// NameAdded says that the same content came again, under this name.
type NameAdded struct {
	SHA256 string   `json:"sha256"`
	Name   FileName `json:"name"`
	Origin *Origin  `json:"origin,omitempty"`
}

// PaperMade makes a further paper of an evidence, unread.
type PaperMade struct {
	SHA256 string `json:"sha256"`
	NewPaper
}

// NewPaper is a paper that an event makes.
type NewPaper struct {
	ID     string `json:"paper"`           // UUID
	Number int    `json:"number"`          // from [Tx.Next]
	From   int    `json:"first,omitempty"` // first page within the evidence, counted from 1; 0: not known yet
	To     int    `json:"last,omitempty"`  // its last page
	Part   string `json:"part,omitempty"`
}

// ReadingMade says what was found in a paper. An unread or waiting paper becomes
// waiting when something was read, else unread with the reason; a later reading takes
// the place of an earlier one, which stays in the log. A paper that was decided keeps
// its state.
type ReadingMade struct {
	Paper   string        `json:"paper"`
	Reading paper.Reading `json:"reading"`
}

// PaperConfirmed says that a person confirmed a paper, or one row of a transcript.
type PaperConfirmed struct {
	Paper string `json:"paper"`
	Row   int    `json:"row,omitempty"` // counted from 1; 0: the whole paper, which is then confirmed
}

// RowsSkipped leaves rows of a transcript out.
type RowsSkipped struct {
	Paper string `json:"paper"`
	Rows  []int  `json:"rows"` // counted from 1
}

// PaperSetAside says that a paper is kept but proves nothing.
type PaperSetAside struct {
	Paper string `json:"paper"`
	Why   string `json:"why,omitempty"`
}

// PaperCut retires a paper and makes new ones, unread, for its page ranges.
type PaperCut struct {
	Paper string     `json:"paper"`
	Into  []NewPaper `json:"into"`
}

// PapersJoined retires papers of one evidence and makes one, unread, of all their pages.
type PapersJoined struct {
	Papers []string `json:"papers"`
	Into   NewPaper `json:"into"`
}
