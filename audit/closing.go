package audit

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"evidencevault/audit/bag"
	"evidencevault/catalog"
	"evidencevault/catalog/seal"
	"evidencevault/credit"
	"evidencevault/internal/lock"
	"evidencevault/internal/stop"
	"evidencevault/journal"
)

// ErrAltered says that a proof is missing or not as it was taken in.
var ErrAltered = errors.New("a proof is not as it was taken in")

// ErrWeak says that a strict auditor would strike claims.
var ErrWeak = errors.New("claims that an auditor would strike")

// ClosePreview is what closing a cycle would do, with the rehearsal of it; it is shown
// before it is done.
type ClosePreview struct {
	Plan      journal.ClosePlan
	Rehearsal Rehearsal
}

// Closed is a closing that is done.
type Closed struct {
	Cycle   journal.Cycle    `json:"cycle"`
	Passed  []credit.Carried `json:"-"`
	Next    *journal.Cycle   `json:"next"`     // null if none follows
	Moved   []string         `json:"moved"`    // claims dated after the cycle, which went to the next
	LeftOut []string         `json:"unproven"` // claims that the packet of the archive leaves out
}

// PreviewClose rehearses the present cycle of a certification and says what closing it
// would do. The error wraps [ErrAltered] when a proof is missing or changed: such a
// cycle is not closed.
func PreviewClose(ctx context.Context, j *journal.Journal, o journal.CloseOptions) (ClosePreview, error) {
	plan, err := j.ClosePlan(ctx, o)
	if err != nil {
		return ClosePreview{}, err
	}
	return rehearsed(ctx, j, plan)
}

func rehearsed(ctx context.Context, j *journal.Journal, plan journal.ClosePlan) (ClosePreview, error) {
	r, err := Rehearse(ctx, j, plan.Certification.Name, plan.On)
	if err != nil {
		return ClosePreview{}, err
	}
	for _, w := range r.Findings {
		if w.What == WeakEvidence {
			return ClosePreview{}, fmt.Errorf("claim %s: %w: %s; %s", w.Claim, ErrAltered, w.Why, w.Mend)
		}
	}
	return ClosePreview{plan, r}, nil
}

// Close closes the cycle as the preview shows it: it begins the closing, makes the
// archive, and then closes the cycle and opens the next in one act. A stop before that
// leaves the closing begun; [ResumeClose] finishes it, and [UndoClose] takes it back.
// done, if not nil, is told how many of the originals are copied.
//
// The error wraps [ErrWeak] when the rehearsal found claims that would fall, unless
// withFindings; [journal.ErrMoved] when the preview is no longer how things stand; and
// [journal.ErrCycle] when a closing was begun before.
func Close(ctx context.Context, j *journal.Journal, p ClosePreview, withFindings bool, done func(n, of int)) (Closed, error) {
	if p.Plan.Begun > 0 {
		return Closed{}, fmt.Errorf("certification %s: %w: its closing was begun on an earlier day; finish it with close --resume, or take it back with close --undo",
			p.Plan.Certification.Name, journal.ErrCycle)
	}
	if len(p.Rehearsal.Weak) > 0 && !withFindings {
		return Closed{}, fmt.Errorf("%w: %s; mend them, see vaultctl rehearse, or close all the same with --with-findings", ErrWeak, strings.Join(p.Rehearsal.Weak, " "))
	}
	closing, err := j.CloseBegin(ctx, p.Plan)
	if err != nil {
		return Closed{}, err
	}
	if err := stop.At(stop.CloseBegun); err != nil {
		return Closed{}, err
	}
	return finish(ctx, j, p, closing, done)
}

// ResumeClose finishes a closing that was begun and interrupted. Its archive is made
// anew. The error wraps [journal.ErrCycle] when none was begun, or [ErrAltered].
func ResumeClose(ctx context.Context, j *journal.Journal, certification string, done func(n, of int)) (Closed, error) {
	plan, closing, err := j.CloseBegun(ctx, certification)
	if err != nil {
		return Closed{}, err
	}
	if err := SweepArchives(ctx, j); err != nil {
		return Closed{}, err
	}
	p, err := rehearsed(ctx, j, plan)
	if err != nil {
		return Closed{}, err
	}
	return finish(ctx, j, p, closing, done)
}

// UndoClose takes the last closing back and removes its archive, see
// [journal.Journal.CloseUndo].
func UndoClose(ctx context.Context, j *journal.Journal, certification, why string) (catalog.Closing, error) {
	c, err := j.CloseUndo(ctx, certification, why)
	if err != nil {
		return c, err
	}
	if err := stop.At(stop.CloseTakenBack); err != nil {
		return c, err
	}
	return c, SweepArchives(ctx, j)
}

// finish makes the archive and closes the cycle.
func finish(ctx context.Context, j *journal.Journal, p ClosePreview, closing catalog.Closing, done func(n, of int)) (_ Closed, err error) {
	folder := filepath.Join(j.Catalog().Dir(), journal.ArchiveFolder)
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return Closed{}, fmt.Errorf("make the archive: %w", err)
	}
	d, err := archived(ctx, j, p, closing)
	if err != nil {
		return Closed{}, err
	}
	target := filepath.Join(folder, closing.Archive)
	making, err := lock.Make(target)
	if err != nil {
		return Closed{}, fmt.Errorf("make the archive: %w", err)
	}
	defer func() { err = errors.Join(err, making.Discard()) }() // what is whole was moved out of it
	fresh := filepath.Join(making.Dir, "new")
	if err := filled(fresh, func(root *os.Root) error {
		return writeBag(ctx, j.Catalog().Store(), d, root, PacketOptions{Done: done})
	}); err != nil {
		return Closed{}, fmt.Errorf("make the archive: %w", err)
	}
	if report, err := bag.Check(fresh); err != nil || !report.Valid() {
		return Closed{}, errors.Join(fmt.Errorf("the archive, read back, is not as it was written: %v", report.Findings), err)
	}
	if err := stop.At(stop.ArchiveMade); err != nil {
		return Closed{}, err
	}
	err = j.CloseFinish(ctx, p.Plan, closing, journal.Sealed{Statement: d.Statement, Claims: len(d.Claims), Place: func() (string, error) {
		digest, err := put(fresh, target)
		return digest, errors.Join(err, making.Discard()) // empty now; a stop from here on leaves nothing
	}})
	if err != nil {
		return Closed{}, err
	}
	if err := stop.At(stop.CloseFinished); err != nil {
		return Closed{}, err
	}
	return closed(ctx, j, p, d, closing)
}

// filled makes a folder and has it filled.
func filled(dir string, fill func(*os.Root) error) error {
	if err := os.Mkdir(dir, 0o700); err != nil {
		return err
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		return err
	}
	return errors.Join(fill(root), root.Close())
}

// put gives an archive its name, in place of what an interrupted closing left there, and
// returns the digest that stands for it.
func put(fresh, target string) (string, error) {
	if err := os.RemoveAll(target); err != nil {
		return "", err
	}
	if err := os.Rename(fresh, target); err != nil {
		return "", err
	}
	if err := errors.Join(seal.SyncFolder(target), seal.SyncFolder(filepath.Dir(target)), seal.SyncFolder(filepath.Dir(filepath.Dir(target)))); err != nil {
		return "", err
	}
	digest, err := archiveDigest(target)
	if err != nil {
		return "", err
	}
	return digest, stop.At(stop.ArchivePlaced)
}

// closed gathers what was done.
func closed(ctx context.Context, j *journal.Journal, p ClosePreview, d Dossier, closing catalog.Closing) (Closed, error) {
	out := Closed{Passed: p.Plan.Passing, Moved: p.Plan.Moves, LeftOut: d.Asked.LeftOut}
	list, err := j.Cycles(ctx, p.Plan.Certification.ID)
	if err != nil {
		return out, err
	}
	for i, c := range list {
		switch {
		case c.ID == closing.Cycle:
			out.Cycle = c
		case c.ID == closing.Next:
			out.Next = &list[i]
		}
	}
	return out, nil
}

// SweepArchives removes what interrupted closings and deletions left in the vault's
// folder of archives: copies that were being made, and archives of closings that were
// taken back or whose archive was deleted. What nobody knows is left alone, and so is
// what another program is making now.
func SweepArchives(ctx context.Context, j *journal.Journal) error {
	folder := filepath.Join(j.Catalog().Dir(), journal.ArchiveFolder)
	return j.Catalog().Act(ctx, func(tx *catalog.Tx) error { // nobody puts an archive in place meanwhile
		left, _, err := leftovers(ctx, &tx.View, folder)
		if err != nil {
			return err
		}
		for _, name := range left {
			if err := os.RemoveAll(filepath.Join(folder, name)); err != nil {
				return err
			}
		}
		return nil
	})
}

// leftovers names what [SweepArchives] removes, and what is being made.
func leftovers(ctx context.Context, v *catalog.View, folder string) (left, making []string, err error) {
	entries, err := os.ReadDir(folder)
	if errors.Is(err, os.ErrNotExist) {
		return nil, nil, nil
	}
	if err != nil {
		return nil, nil, err
	}
	closings, err := v.Closings(ctx, "")
	if err != nil {
		return nil, nil, err
	}
	for _, e := range entries {
		switch {
		case slices.ContainsFunc(closings, func(c catalog.Closing) bool { return lock.IsMaking(e.Name(), c.Archive) }):
			held, err := lock.Held(filepath.Join(folder, e.Name()))
			if err != nil {
				return nil, nil, err
			}
			if held {
				making = append(making, e.Name())
			} else {
				left = append(left, e.Name())
			}
		case slices.ContainsFunc(closings, func(c catalog.Closing) bool {
			return e.Name() == c.Archive && (c.State != catalog.ClosingClosed || c.Gone > 0)
		}):
			left = append(left, e.Name())
		}
	}
	return left, making, nil
}

// Statement is what would be handed in.
func (p ClosePreview) Statement() credit.Statement { return p.Plan.Statement }

// Delete does what the plan shows, see [journal.Journal.Delete], and removes the files
// and archives. A stop between the two leaves files that the next start of a program, or
// the next deletion, removes.
func Delete(ctx context.Context, j *journal.Journal, p journal.DeletePlan, why string) error {
	if err := j.Delete(ctx, p, why); err != nil {
		return err
	}
	if err := stop.At(stop.DeleteCommitted); err != nil {
		return err
	}
	if err := j.Catalog().Sweep(ctx); err != nil {
		return err
	}
	if err := stop.At(stop.ArchiveForgotten); err != nil {
		return err
	}
	return SweepArchives(ctx, j)
}
