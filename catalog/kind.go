package catalog

import "slices"

// kinds makes an empty body of each kind. Nobody writes to it.
var kinds = map[string]func() Body{
	"vault made":          func() Body { return new(VaultMade) },
	"key renewed":         func() Body { return new(KeyRenewed) },
	"head taken over":     func() Body { return new(HeadTakenOver) },
	"head stamped":        func() Body { return new(HeadStamped) },
	"holder named":        func() Body { return new(HolderNamed) },
	"scheme kept":         func() Body { return new(SchemeKept) },
	"certification added": func() Body { return new(CertificationAdded) },
	"cycle opened":        func() Body { return new(CycleOpened) },
	"scheme changed":      func() Body { return new(SchemeChanged) },
	"fact set":            func() Body { return new(FactSet) },
	"drop set":            func() Body { return new(DropSet) },
	"evidence taken":      func() Body { return new(EvidenceTaken) },
	"name added":          func() Body { return new(NameAdded) },
	"paper made":          func() Body { return new(PaperMade) },
	"reading made":        func() Body { return new(ReadingMade) },
	"paper confirmed":     func() Body { return new(PaperConfirmed) },
	"rows skipped":        func() Body { return new(RowsSkipped) },
	"paper set aside":     func() Body { return new(PaperSetAside) },
	"paper cut":           func() Body { return new(PaperCut) },
	"papers joined":       func() Body { return new(PapersJoined) },
	"activity made":       func() Body { return new(ActivityMade) },
	"activity changed":    func() Body { return new(ActivityChanged) },
	"activity withdrawn":  func() Body { return new(ActivityWithdrawn) },
	"proof linked":        func() Body { return new(ProofLinked) },
	"claim made":          func() Body { return new(ClaimMade) },
	"claim changed":       func() Body { return new(ClaimChanged) },
	"claim withdrawn":     func() Body { return new(ClaimWithdrawn) },
	"receipt made":        func() Body { return new(ReceiptMade) },
	"receipt changed":     func() Body { return new(ReceiptChanged) },
	"receipt tied":        func() Body { return new(ReceiptTied) },
	"receipt withdrawn":   func() Body { return new(ReceiptWithdrawn) },
	"letter recorded":     func() Body { return new(LetterRecorded) },
	"letter answered":     func() Body { return new(LetterAnswered) },
	"undone":              func() Body { return new(Undone) },
	"habit forgotten":     func() Body { return new(HabitForgotten) },
	"closing begun":       func() Body { return new(ClosingBegun) },
	"cycle closed":        func() Body { return new(CycleClosed) },
	"credit carried":      func() Body { return new(CreditCarried) },
	"closing taken back":  func() Body { return new(ClosingTakenBack) },
	"cycle noted":         func() Body { return new(CycleNoted) },
	"archive deleted":     func() Body { return new(ArchiveDeleted) },
	"evidence held":       func() Body { return new(EvidenceHeld) },
	"evidence deleted":    func() Body { return new(EvidenceDeleted) },
	"evidence returned":   func() Body { return new(EvidenceReturned) },
}

// Kind returns "vault made".
func (*VaultMade) Kind() string { return "vault made" }

// Kind returns "key renewed".
func (*KeyRenewed) Kind() string { return "key renewed" }

// Kind returns "head taken over".
func (*HeadTakenOver) Kind() string { return "head taken over" }

// Kind returns "holder named".
func (*HolderNamed) Kind() string { return "holder named" }

// Kind returns "scheme kept".
func (*SchemeKept) Kind() string { return "scheme kept" }

// Kind returns "certification added".
func (*CertificationAdded) Kind() string { return "certification added" }

// Kind returns "cycle opened".
func (*CycleOpened) Kind() string { return "cycle opened" }

// Kind returns "scheme changed".
func (*SchemeChanged) Kind() string { return "scheme changed" }

// Kind returns "fact set".
func (*FactSet) Kind() string { return "fact set" }

// Kind returns "drop set".
func (*DropSet) Kind() string { return "drop set" }

// Kind returns "evidence taken".
func (*EvidenceTaken) Kind() string { return "evidence taken" }

// Kind returns "name added".
func (*NameAdded) Kind() string { return "name added" }

// Kind returns "paper made".
func (*PaperMade) Kind() string { return "paper made" }

// Kind returns "reading made".
func (*ReadingMade) Kind() string { return "reading made" }

// Kind returns "paper confirmed".
func (*PaperConfirmed) Kind() string { return "paper confirmed" }

// Kind returns "rows skipped".
func (*RowsSkipped) Kind() string { return "rows skipped" }

// Kind returns "paper set aside".
func (*PaperSetAside) Kind() string { return "paper set aside" }

// Kind returns "paper cut".
func (*PaperCut) Kind() string { return "paper cut" }

// Kind returns "papers joined".
func (*PapersJoined) Kind() string { return "papers joined" }

// Kind returns "activity made".
func (*ActivityMade) Kind() string { return "activity made" }

// Kind returns "activity changed".
func (*ActivityChanged) Kind() string { return "activity changed" }

// Kind returns "activity withdrawn".
func (*ActivityWithdrawn) Kind() string { return "activity withdrawn" }

// Kind returns "proof linked".
func (*ProofLinked) Kind() string { return "proof linked" }

// Kind returns "claim made".
func (*ClaimMade) Kind() string { return "claim made" }

// Kind returns "claim changed".
func (*ClaimChanged) Kind() string { return "claim changed" }

// Kind returns "claim withdrawn".
func (*ClaimWithdrawn) Kind() string { return "claim withdrawn" }

// Kind returns "receipt made".
func (*ReceiptMade) Kind() string { return "receipt made" }

// Kind returns "receipt changed".
func (*ReceiptChanged) Kind() string { return "receipt changed" }

// Kind returns "receipt tied".
func (*ReceiptTied) Kind() string { return "receipt tied" }

// Kind returns "receipt withdrawn".
func (*ReceiptWithdrawn) Kind() string { return "receipt withdrawn" }

// Kind returns "undone".
func (*Undone) Kind() string { return "undone" }

// About returns the ids of the event.
func (b *VaultMade) About() []string { return []string{b.ID} }

// About returns nothing: the event is about the vault.
func (*KeyRenewed) About() []string { return nil }

// About returns nothing: the event is about the vault.
func (*HeadTakenOver) About() []string { return nil }

// About returns nothing: the event is about the vault.
func (*HolderNamed) About() []string { return nil }

// About returns the ids of the event.
func (b *SchemeKept) About() []string { return []string{b.SHA256} }

// About returns the ids of the event.
func (b *CertificationAdded) About() []string { return []string{b.ID} }

// About returns the ids of the event.
func (b *CycleOpened) About() []string { return []string{b.ID, b.Certification} }

// About returns the cycle and the scheme it runs under from now on.
func (b *SchemeChanged) About() []string { return []string{b.Cycle, b.Scheme} }

// About returns nothing: the event is about the vault.
func (*FactSet) About() []string { return nil }

// About returns nothing: the event is about the vault.
func (*DropSet) About() []string { return nil }

// About returns the ids of the event.
func (b *EvidenceTaken) About() []string { return []string{b.SHA256, b.Paper} }

// About returns the ids of the event.
func (b *NameAdded) About() []string { return []string{b.SHA256} }

// About returns the ids of the event.
func (b *PaperMade) About() []string { return []string{b.ID, b.SHA256} }

// About returns the ids of the event.
func (b *ReadingMade) About() []string { return []string{b.Paper} }

// About returns the ids of the event.
func (b *PaperConfirmed) About() []string { return []string{b.Paper} }

// About returns the ids of the event.
func (b *RowsSkipped) About() []string { return []string{b.Paper} }

// About returns the ids of the event.
func (b *PaperSetAside) About() []string { return []string{b.Paper} }

// About returns the ids of the event.
func (b *PaperCut) About() []string { return append(newIDs(b.Into), b.Paper) }

// About returns the ids of the event.
func (b *PapersJoined) About() []string { return append(slices.Clone(b.Papers), b.Into.ID) }

// About returns the ids of the event.
func (b *ActivityMade) About() []string { return some(b.ID, b.Paper) }

// About returns the ids of the event.
func (b *ActivityChanged) About() []string { return []string{b.ID} }

// About returns the ids of the event.
func (b *ActivityWithdrawn) About() []string { return []string{b.ID} }

// About returns the ids of the event.
func (b *ProofLinked) About() []string { return some(b.Activity, b.Paper) }

// About returns the ids of the event.
func (b *ClaimMade) About() []string { return []string{b.ID, b.Activity} }

// About returns the ids of the event.
func (b *ClaimChanged) About() []string { return []string{b.ID} }

// About returns the ids of the event.
func (b *ClaimWithdrawn) About() []string { return []string{b.ID} }

// About returns the ids of the event.
func (b *ReceiptMade) About() []string { return some(b.ID, b.Paper, b.Activity) }

// About returns the ids of the event.
func (b *ReceiptChanged) About() []string { return []string{b.ID} }

// About returns the ids of the event.
func (b *ReceiptTied) About() []string { return some(b.ID, b.Activity) }

// About returns the ids of the event.
func (b *ReceiptWithdrawn) About() []string { return []string{b.ID} }

// About returns everything that the act touched.
func (b *Undone) About() []string {
	var ids []string
	for _, p := range b.Papers {
		ids = append(ids, p.ID)
	}
	for _, r := range b.Rows {
		ids = append(ids, r.Paper)
	}
	for _, list := range [][]Withdrawal{b.Activities, b.Claims, b.Receipts, b.Letters} {
		for _, w := range list {
			ids = append(ids, w.ID)
		}
	}
	return ids
}

func newIDs(list []NewPaper) []string {
	ids := make([]string, len(list))
	for i, p := range list {
		ids[i] = p.ID
	}
	return ids
}

// some returns the ids that are not empty.
func some(ids ...string) []string {
	return slices.DeleteFunc(ids, func(id string) bool { return id == "" })
}
