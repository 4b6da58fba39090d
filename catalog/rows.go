package catalog

import (
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// The errors that a caller may test for.
var (
	// ErrUnknown says that the vault has nothing of this name.
	ErrUnknown = errors.New("not in this vault")
	// ErrNoVault says that a folder holds no vault.
	ErrNoVault = errors.New("no vault")
	// ErrExists says that a folder holds a vault already.
	ErrExists = errors.New("a vault already")
	// ErrSchema says that catalog.db was written by a later program, or is not ours.
	ErrSchema = errors.New("not a catalog that this program can open")
	// ErrPlace says that a vault must not lie on this file system.
	ErrPlace = errors.New("no place for a vault")
	// ErrLog says that the log does not continue its signed head, so that nothing may be written; see [LogError].
	ErrLog = errors.New("the log does not agree with its signed head")
	// ErrKey says that the key is missing or not usable, so that nothing may be written.
	ErrKey = errors.New("the key is not usable")
	// ErrBusy says that another program holds the vault; see [BusyError].
	ErrBusy = errors.New("another program holds the vault")
	// ErrReadOnly says that the vault was opened for reading only.
	ErrReadOnly = errors.New("the vault is open for reading only")
	// ErrBody says that an event's body is not what its kind asks for.
	ErrBody = errors.New("not a body for the log")
	// ErrDamaged says that SQLite finds catalog.db damaged.
	ErrDamaged = errors.New("the database is damaged; restore a backup")
	// ErrNoScheme says that the bytes of a scheme are not in schemes/, or not the right ones.
	ErrNoScheme = errors.New("the scheme's bytes are missing or altered")
)

// A LogError says from which event on nothing is proven, and why. It matches [ErrLog].
type LogError struct {
	From int64  // the first event that is not proven; 0 when it cannot be told
	Why  string // what was found, as a clause
	Mend string // the way out
}

func (e *LogError) Error() string {
	from := ""
	if e.From > 0 {
		from = fmt.Sprintf("; nothing is proven from event %d on", e.From)
	}
	return fmt.Sprintf("%v: %s%s; %s", ErrLog, e.Why, from, e.Mend)
}

func (e *LogError) Unwrap() error { return ErrLog }

// A BusyError names who holds the vault. It matches [ErrBusy].
type BusyError struct {
	Path string // the lock file
	Who  string // "process 4711 (vaultd)"; "" when it left no name
}

func (e *BusyError) Error() string {
	who := ""
	if e.Who != "" {
		who = ": " + e.Who
	}
	return fmt.Sprintf("%s: %v%s; wait for it or end it", e.Path, ErrBusy, who)
}

func (e *BusyError) Unwrap() error { return ErrBusy }

// A Letter says what a short number counts.
type Letter string

// The letters.
const (
	LetterPaper    Letter = "P"
	LetterActivity Letter = "A"
	LetterClaim    Letter = "C"
	LetterReceipt  Letter = "R"
	LetterLetter   Letter = "L"
)

// The states of a paper, and of a row of a transcript (Waiting, Confirmed, LeftOut).
const (
	Unread    = "unread"    // kept; the reading is pending or failed, with the reason
	Waiting   = "waiting"   // read, not yet decided
	Confirmed = "confirmed" // a person confirmed it
	SetAside  = "set aside" // kept, but proves nothing
	Retired   = "retired"   // cut or joined into others
	LeftOut   = "left out"  // of a row only
)

// Event is one entry of the log.
type Event struct {
	Number int64           // gapless, from 1
	Act    int64           // number of the first event of the same transaction
	At     time.Time       // UTC
	Kind   string          // as [Body.Kind] names it
	Body   json.RawMessage // canonical; nil once blanked
	Undone int64           // number of the event that took its act back; 0: it stands
}

// Holder is the person the vault belongs to.
type Holder struct {
	Name   string   // "" before it was named
	Former []string // names borne before, in the order in which they were added
}

// Scheme is a scheme whose bytes are kept.
type Scheme struct {
	SHA256  string
	ID      string
	Version string
	File    string // the name it came under
}

// Certification is one title of the holder under one scheme.
type Certification struct {
	ID     string // UUID
	Name   string // the short id that people type
	Title  string
	Scheme string // id of its scheme
	Number string // that the body gave; "" if none
}

// Cycle is one cycle of a certification.
type Cycle struct {
	ID            string // UUID
	Certification string // UUID
	Start, End    credit.Date
	Scheme        string // SHA-256 of the version it runs under
	Closed        bool
	Closing       bool // its closing was begun, and neither completed nor taken back
}

// Frozen reports whether nothing in the cycle may change.
func (c Cycle) Frozen() bool { return c.Closed || c.Closing }

// Fact is what rules ask about the holder.
type Fact struct {
	Name, Value string
	From        credit.Date // the zero Date is from ever
}

// Drop is a watched folder.
type Drop struct {
	Dir   string // absolute, in the form of this system
	Empty bool   // files are removed from it once taken in
}

// Evidence is one file as it came.
type Evidence struct {
	SHA256 string
	Size   int64
	Type   string // media type by content
	Ext    string // with the point
	Event  int64  // by which it was taken in
	Taken  time.Time
	Names  []Name // in the order in which they came; never empty

	Deleted int64 // event by which its file was deleted after its time of keeping; 0: it is there
}

// Name is one name that an evidence came under.
type Name struct {
	Name   FileName
	Parent string   // SHA-256 of the evidence that it is a part of; "" for a dropped file
	Part   FileName // of which part
	Event  int64
}

// Paper is one document within an evidence.
type Paper struct {
	ID       string // UUID
	Number   int    // 12 is shown as P12
	SHA256   string // of its evidence
	From, To int    // first and last page within the evidence, counted from 1; 0: not known yet
	Part     string
	State    string // Unread … Retired
	Why      string // why it is unread, or was set aside; "" when nothing is to be said
	Reading  int64  // number of the event of its newest reading; 0 without one
	Made     time.Time
	Into     []string       // ids of the papers it was cut or joined into, when retired
	Rows     map[int]string // of a transcript: rows that were decided, from 1; Confirmed or LeftOut
}

// Ref returns the short number, as "P12".
func (p Paper) Ref() string { return ref(LetterPaper, p.Number) }

// Reading is one reading of a paper, with the number and time of its event.
type Reading struct {
	Event int64
	At    time.Time
	Paper string
	paper.Reading
}

// Activity is what the person did, once.
type Activity struct {
	ID        string
	Number    int                    // 7 is shown as A7
	Paper     string                 // it was confirmed from; "" without a document
	Row       int                    // of a transcript; 0 for a whole paper
	Fields    map[paper.Field]string // canonical, without empty ones
	By        map[paper.Field]string // who says it, for each of Fields
	Made      time.Time
	Withdrawn bool
	Why       string // why it was withdrawn
}

// Ref returns the short number, as "A7".
func (a Activity) Ref() string { return ref(LetterActivity, a.Number) }

// Claim is an activity put forward for a certification's cycle in a category.
type Claim struct {
	ID            string
	Number        int // 9 is shown as C9
	Activity      string
	Certification string
	Cycle         string
	Category      string
	Event         int64 // that made it
	Made          time.Time
	Withdrawn     bool
	Why           string
}

// Ref returns the short number, as "C9".
func (c Claim) Ref() string { return ref(LetterClaim, c.Number) }

// Proof links one field of an activity to the place that shows it.
type Proof struct {
	Event    int64
	Activity string
	Field    paper.Field
	SHA256   string
	Paper    string
	Reading  int64 // event of the reading; 0 without one
	Row      int
	Value    string
	By       string      // [paper.ByProgram] or [paper.ByPerson]
	Place    paper.Place // box zero and quote "" for a person's
}

// Receipt is money paid or paid back.
type Receipt struct {
	ID        string
	Number    int // 3 is shown as R3
	Paper     string
	Activity  string // of which it is a cost; "" while there is no certificate
	Fields    map[paper.Field]string
	Made      time.Time
	Withdrawn bool
	Why       string
}

// Ref returns the short number, as "R3".
func (r Receipt) Ref() string { return ref(LetterReceipt, r.Number) }

func ref(l Letter, n int) string { return fmt.Sprintf("%s%d", l, n) }
