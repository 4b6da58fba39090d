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
func finish(ctx context.Context, j *journal.Journal, p ClosePreview, closing catalog.Closing, done func(n, of int)) (Closed, error) {
	folder := filepath.Join(j.Catalog().Dir(), journal.ArchiveFolder)
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return Closed{}, fmt.Errorf("make the archive: %w", err)
	}
	d, err := archived(ctx, j, p, closing)
	if err != nil {
		return Closed{}, err
	}
	target := filepath.Join(folder, closing.Archive)
	fresh, err := beside(target, func(root *os.Root) error {
		return writeBag(ctx, j.Catalog().Store(), d, root, PacketOptions{Done: done})
	})
	if err != nil {
		return Closed{}, fmt.Errorf("make the archive: %w", err)
	}
	defer os.RemoveAll(fresh) // gone already when it was put in place
	if report, err := bag.Check(fresh); err != nil || !report.Valid() {
		return Closed{}, errors.Join(fmt.Errorf("the archive, read back, is not as it was written: %v", report.Findings), err)
	}
	if err := stop.At(stop.ArchiveMade); err != nil {
		return Closed{}, err
	}
	err = j.CloseFinish(ctx, p.Plan, closing, journal.Sealed{Statement: d.Statement, Claims: len(d.Claims), Place: func() (string, error) {
		return put(fresh, target)
	}})
	if err != nil {
		return Closed{}, err
	}
	if err := stop.At(stop.CloseFinished); err != nil {
		return Closed{}, err
	}
	return closed(ctx, j, p, d, closing)
}

// beside makes a folder beside target and has it filled. It returns its path; after an
// error it is gone.
func beside(target string, fill func(*os.Root) error) (string, error) {
	fresh, err := os.MkdirTemp(filepath.Dir(target), "."+filepath.Base(target)+makingMark)
	if err != nil {
		return "", err
	}
	root, err := os.OpenRoot(fresh)
	if err == nil {
		err = errors.Join(fill(root), root.Close())
	}
	if err != nil {
		return "", errors.Join(err, os.RemoveAll(fresh))
	}
	return fresh, nil
}

// makingMark is in the name of an archive that is being made.
const makingMark = ".making-"

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
// taken back or whose archive was deleted. What nobody knows is left alone.
func SweepArchives(ctx context.Context, j *journal.Journal) error {
	left, err := leftovers(ctx, j.Catalog())
	if err != nil {
		return err
	}
	for _, name := range left {
		if err := os.RemoveAll(filepath.Join(j.Catalog().Dir(), journal.ArchiveFolder, name)); err != nil {
			return err
		}
	}
	return nil
}

// leftovers names what [SweepArchives] removes.
func leftovers(ctx context.Context, cat *catalog.Catalog) ([]string, error) {
	entries, err := os.ReadDir(filepath.Join(cat.Dir(), journal.ArchiveFolder))
	if errors.Is(err, os.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	closings, err := cat.Closings(ctx, "")
	if err != nil {
		return nil, err
	}
	var left []string
	for _, e := range entries {
		if slices.ContainsFunc(closings, func(c catalog.Closing) bool {
			counts := c.State == catalog.ClosingClosed && c.Gone == 0
			return strings.HasPrefix(e.Name(), "."+c.Archive+makingMark) || e.Name() == c.Archive && !counts
		}) {
			left = append(left, e.Name())
		}
	}
	return left, nil
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
