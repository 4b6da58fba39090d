package intake

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"

	"evidencevault/catalog"
	"evidencevault/evidence"
	"evidencevault/internal/stop"
	"evidencevault/watcher"
)

// After says what becomes of a file that was taken in.
type After int

// What becomes of it.
const (
	LeaveFile  After = iota // it is left as it is
	RemoveFile              // it is removed, if it is still the file that was read
)

// Taken says how a file was taken in.
type Taken struct {
	File    watcher.File
	SHA256  string
	New     bool            // a new evidence; else the same content was kept before
	Renamed bool            // kept before, and under this name for the first time
	Papers  []catalog.Paper // of the evidence, in their order; what was decided about them before still holds
	Left    error           // why the file was not removed although it should have been; nil if all is well
}

// Before says in words what the vault knew of the content before; "" for a new one.
func (t Taken) Before() string {
	if t.New {
		return ""
	}
	for _, p := range t.Papers {
		if p.State == catalog.SetAside {
			return "kept before, and set aside as " + p.Ref()
		}
	}
	if len(t.Papers) > 0 {
		return "kept before as " + t.Papers[0].Ref()
	}
	return "kept before"
}

// Take takes one settled file into the vault, in an order in which a stop at any line
// loses nothing: the store, the commit with the signed head, the acknowledgement
// (Options.Took), and only then the removal of the file. The same content again only
// adds a name; the same content under the same name changes nothing.
//
// The error wraps [watcher.ErrChanged] if the file changed since it settled, which
// calls for another try, [watcher.ErrNotOrdinary], [evidence.ErrDiskFull],
// [evidence.ErrTooLarge], [evidence.ErrSource], or what [catalog.Catalog.Act] gives.
// With an error nothing was acknowledged and the file lies where it lay.
func (in *Intake) Take(ctx context.Context, f watcher.File, after After) (Taken, error) {
	kept, err := in.store(ctx, f)
	if err != nil {
		return Taken{}, err
	}
	taken, err := in.record(ctx, kept, nameOf(f), nil)
	if err != nil {
		return Taken{}, err
	}
	taken.File = f
	if after == RemoveFile {
		taken.Left = f.Remove()
	}
	in.took(taken)
	if after == RemoveFile {
		if err := stop.At(stop.DropRemoved); err != nil {
			return taken, err
		}
	}
	return taken, nil
}

// nameOf returns the name by which the vault knows a file: its path below the watched
// folder, with slashes, byte for byte.
func nameOf(f watcher.File) catalog.FileName { return catalog.FileName(filepath.ToSlash(f.Name)) }

// store puts the file into the store, unless it is there, whole.
func (in *Intake) store(ctx context.Context, f watcher.File) (evidence.Kept, error) {
	file, stamp, err := f.Open()
	if err != nil {
		return evidence.Kept{}, err
	}
	defer file.Close()
	if stamp != f.Stamp {
		return evidence.Kept{}, fmt.Errorf("%s: %w", f.Path(), watcher.ErrChanged)
	}
	if err := stop.At(stop.Opened); err != nil {
		return evidence.Kept{}, err
	}
	if stamp.Size <= digestFirst {
		kept, known, err := in.known(ctx, &steady{file: file, want: stamp, path: f.Path()})
		if err != nil || known {
			return kept, err
		}
		if _, err := file.Seek(0, io.SeekStart); err != nil {
			return evidence.Kept{}, err
		}
	}
	kept, err := in.c.Store().Put(ctx, &steady{file: file, want: stamp, path: f.Path()}, stamp.Size)
	if err != nil {
		return evidence.Kept{}, fmt.Errorf("%s: %w", f.Path(), err)
	}
	return kept, nil
}

// digestFirst is the size up to which a file is read once to see whether it is known.
// The store refuses larger ones, or what there is no room for, before their first byte.
const digestFirst = 1 << 30

// known reads r to its end and reports whether the vault has a row and a whole file of
// this content. Then nothing needs to be written: a folder that is left as it is would
// otherwise be copied anew at every start.
func (in *Intake) known(ctx context.Context, r io.Reader) (evidence.Kept, bool, error) {
	sum, err := digest(ctx, r)
	if err != nil {
		return evidence.Kept{}, false, err
	}
	ev, err := in.c.Evidence(ctx, sum)
	if errors.Is(err, catalog.ErrUnknown) {
		return evidence.Kept{}, false, nil
	}
	if err != nil {
		return evidence.Kept{}, false, err
	}
	switch err := in.c.Store().Check(ctx, sum); {
	case errors.Is(err, evidence.ErrMissing): // its file was lost, and here it is again
		return evidence.Kept{}, false, nil
	case err != nil:
		return evidence.Kept{}, false, err
	}
	return evidence.Kept{SHA256: sum, Size: ev.Size, Type: ev.Type, Ext: ev.Ext, Already: true}, true, nil
}

func digest(ctx context.Context, r io.Reader) (string, error) {
	hash := sha256.New()
	for {
		_, err := io.CopyN(hash, r, 8<<20)
		if errors.Is(err, io.EOF) {
			return hex.EncodeToString(hash.Sum(nil)), nil
		}
		if err == nil {
			err = ctx.Err()
		}
		if err != nil {
			return "", err
		}
	}
}

// steady reads a file and fails at its end if it changed while it was read, so that a
// mixture of two states is never stored.
type steady struct {
	file *os.File
	want watcher.Stamp
	path string
}

func (s *steady) Read(p []byte) (int, error) {
	n, err := s.file.Read(p)
	if !errors.Is(err, io.EOF) {
		return n, err
	}
	now, statErr := watcher.StampOf(s.file)
	if statErr != nil {
		return n, statErr
	}
	if now != s.want {
		return n, fmt.Errorf("%s: %w, while it was read", s.path, watcher.ErrChanged)
	}
	return n, io.EOF
}

// record commits what is in the store: a new evidence with its unread paper, or a
// further name.
func (in *Intake) record(ctx context.Context, kept evidence.Kept, name catalog.FileName, origin *catalog.Origin) (Taken, error) {
	taken := Taken{SHA256: kept.SHA256}
	err := in.c.Act(ctx, func(tx *catalog.Tx) error {
		var err error
		taken.New, taken.Renamed, err = recordIn(ctx, tx, kept, name, origin)
		if err != nil {
			return err
		}
		taken.Papers, err = tx.PapersOf(ctx, kept.SHA256)
		return err
	})
	return taken, err
}

// recordIn does the work of record within a transaction.
func recordIn(ctx context.Context, tx *catalog.Tx, kept evidence.Kept, name catalog.FileName, origin *catalog.Origin) (isNew, renamed bool, err error) {
	ev, err := tx.Evidence(ctx, kept.SHA256)
	if errors.Is(err, catalog.ErrUnknown) {
		number, err := tx.Next(ctx, catalog.LetterPaper)
		if err != nil {
			return false, false, err
		}
		_, err = tx.Record(ctx, &catalog.EvidenceTaken{SHA256: kept.SHA256, Size: kept.Size, Type: kept.Type, Ext: kept.Ext,
			Name: name, Origin: origin, Paper: catalog.NewID(), Number: number})
		return true, false, err
	}
	if err != nil {
		return false, false, err
	}
	if ev.Deleted > 0 {
		return true, false, recordAgain(ctx, tx, kept, name, origin)
	}
	want := catalog.Name{Name: name}
	if origin != nil {
		want.Parent, want.Part = origin.Parent, origin.Part
	}
	if slices.ContainsFunc(ev.Names, func(n catalog.Name) bool {
		return n.Name == want.Name && n.Parent == want.Parent && n.Part == want.Part
	}) {
		return false, false, nil
	}
	_, err = tx.Record(ctx, &catalog.NameAdded{SHA256: kept.SHA256, Name: name, Origin: origin})
	return false, true, err
}
