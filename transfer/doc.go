// Package transfer takes a whole vault out and in: backup and restore in one file,
// export and import as open files.
//
// A backup is a tar archive (POSIX.1-2001 pax), optionally encrypted with age
// (https://age-encryption.org/v1): about.json first, then the database as it stood at
// one moment, the signed head, the schemes, the evidence that this database names, what
// else lies in the vault's folder, and last manifest-sha256.txt, the list of all hashes.
// A file without that list at its end is cut off. An export holds the same as a folder
// that needs no program: the log and the rows as JSON, the originals, and SHA256SUMS.
//
// Neither holds the private key. Whoever brings a vault in gives it a new one, in an
// event that names the old public key. What is taken out or brought in is made beside
// its place and gets its name only when it is whole and was checked.
package transfer

import "errors"

// The errors that a caller may test for.
var (
	// ErrForeign says that a file is no backup, or a folder no export, of a vault.
	ErrForeign = errors.New("not made by this program")
	// ErrCut says that a backup ends before its list of hashes.
	ErrCut = errors.New("cut off")
	// ErrChanged says that a file within a backup or an export is not what its list of hashes says.
	ErrChanged = errors.New("damaged")
	// ErrSecret says that a backup is encrypted and the secret is missing or does not fit.
	ErrSecret = errors.New("encrypted")
	// ErrThere says that something lies already where something is to be made.
	ErrThere = errors.New("there is something already")
	// ErrNewer says that a later program made it.
	ErrNewer = errors.New("made by a later program")
	// ErrName says that it holds a file under a name that leads elsewhere, or that must not be there.
	ErrName = errors.New("a file name that must not be there")
	// ErrMissing says that evidence is missing from the store, or altered.
	ErrMissing = errors.New("evidence is missing or altered")
)

// The names within a backup and an export.
const (
	aboutName = "about.json"
	headName  = "head"
	listName  = "manifest-sha256.txt" // of a backup
	sumsName  = "SHA256SUMS"          // of an export
	logName   = "log.jsonl"
	rowsName  = "vault.json"

	schemesIn   = "schemes/"
	evidenceIn  = "evidence/"  // in a backup
	originalsIn = "originals/" // in an export
	filesIn     = "files/"     // what else lies in the vault's folder
)

// formVersion is the version of both forms that this program writes and reads.
const formVersion = 1

// About is what a backup or an export says of itself.
type About struct {
	Form    string   `json:"form"`    // "evidence vault backup" or "evidence vault export"
	Version int      `json:"version"` // of the form
	Schema  int      `json:"schema"`  // version of the database's schema
	Vault   string   `json:"vault"`   // the name of its key, which tells vaults apart
	Made    string   `json:"made"`    // UTC, RFC 3339
	Events  int64    `json:"events"`  // in the log
	Head    string   `json:"head"`    // the signed head over them
	Missing []string `json:"missing"` // SHA-256 of evidence that was missing or altered when it was made; empty, never nil
}

const (
	backupForm = "evidence vault backup"
	exportForm = "evidence vault export"
)

// Result says what was taken out or brought in.
type Result struct {
	Events   int64    `json:"events"`
	Evidence int      `json:"evidence"` // files
	Bytes    int64    `json:"bytes"`    // of the evidence
	Missing  []string `json:"missing"`  // SHA-256 of evidence that it does not have; empty, never nil
	Findings []string `json:"findings"` // what verify finds in a vault that was brought in; empty, never nil
}
