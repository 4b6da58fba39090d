// Package stop names the places at which a test may stop the program.
//
// The product is built without the tag faultpoints, and there [At] does nothing.
// With the tag the environment says where the program dies, fails or waits, so that a
// test can show what is left on disk after a stop at any step:
//
//	EVIDENCE_VAULT_STOP=name[:n][:kill|error|wait]
//
// stops at the n-th time (default the first) that the name is reached. kill, the
// default, ends the process at once as a power cut would; error makes At return
// [ErrStopped]; wait writes the file named by EVIDENCE_VAULT_STOP_FILE, and goes on
// when that file is gone.
package stop

import "errors"

// ErrStopped is what [At] returns at a point that was told to fail.
var ErrStopped = errors.New("stopped here by a test")

// The stop points of taking in, in the order in which they are reached. Those of the
// catalog are reached by every act, also by the commit of a reading.
const (
	Opened           = "opened"            // the drop file is open, nothing is read yet
	TempMade         = "temp-made"         // the temporary file is there, and empty
	Copied           = "copied"            // copied to a temporary file and hashed
	TempSynced       = "temp-synced"       // the temporary file is on the disk
	ReadBack         = "read-back"         // read back, and the hash agrees
	Renamed          = "renamed"           // the evidence has its name
	FolderSynced     = "folder-synced"     // and the name is on the disk
	Begun            = "begun"             // the transaction has begun
	Inserted         = "inserted"          // event and rows are inserted, not committed
	Committed        = "committed"         // committed, the head is not signed yet
	Signed           = "signed"            // the new head is in place
	DropRemoved      = "drop-removed"      // the drop file is gone
	Read             = "read"              // the paper was read, the reading not yet kept
	ReadingCommitted = "reading-committed" // the reading is in the log
)

// The stop points of closing a cycle and of deleting, which pass those of the catalog too.
const (
	CloseBegun       = "close-begun"       // the closing is in the log
	ArchiveMade      = "archive-made"      // the archive is whole, under a name that is not its own
	ArchivePlaced    = "archive-placed"    // it has its name; the cycle is not closed yet
	CloseFinished    = "close-finished"    // the cycle is closed and the next one open
	CloseTakenBack   = "close-taken-back"  // the closing does not count; its archive still lies there
	DeleteCommitted  = "delete-committed"  // the log says that evidence is deleted; its files still lie there
	ArchiveForgotten = "archive-forgotten" // the log says that an archive is deleted; it still lies there
)

// ClosePoints lists the stop points of closing and deleting. Nobody writes to it.
var ClosePoints = []string{CloseBegun, ArchiveMade, ArchivePlaced, CloseFinished, CloseTakenBack, DeleteCommitted, ArchiveForgotten}

// The stop points of backup, restore, export and import in their order, and of an index.
const (
	Snapped  = "snapped"  // the catalog's copy is made
	Packed   = "packed"   // everything is written beside its place, nothing has its name yet
	Unpacked = "unpacked" // everything is unpacked beside its place, and its hashes agree
	Rekeyed  = "rekeyed"  // the new key is in force, and the vault is not in place yet
	Placed   = "placed"   // it has its name
	Aside    = "aside"    // an index that is replaced was put aside, and the new one has no name yet
)

// Moving lists the stop points of backup, restore, export, import and index. Nobody writes to it.
var Moving = []string{Snapped, Packed, Unpacked, Rekeyed, Placed, Aside}

// Points lists every stop point of taking in. Nobody writes to it. A name that is in
// no list panics in [At] when the tag is set.
var Points = []string{Opened, TempMade, Copied, TempSynced, ReadBack, Renamed, FolderSynced,
	Begun, Inserted, Committed, Signed, DropRemoved, Read, ReadingCommitted}
