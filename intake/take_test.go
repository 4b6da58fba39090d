package intake_test

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"evidencevault/catalog"
	"evidencevault/evidence"
	"evidencevault/intake"
	"evidencevault/watcher"
)

func TestTakesInReadsAndEmpties(t *testing.T) {
	v := newVault(t, true)
	path := v.put("sub/cert.txt", certificate)
	v.onTook = func(taken intake.Taken) {
		if _, err := v.c.Evidence(t.Context(), taken.SHA256); err != nil {
			t.Errorf("acknowledged before it was committed: %v", err)
		}
		if err := v.c.Store().Check(t.Context(), taken.SHA256); err != nil {
			t.Errorf("acknowledged before it was stored: %v", err)
		}
	}
	r := v.once()
	if len(r.Taken) != 1 || !r.Taken[0].New || r.Taken[0].Left != nil || len(r.Left) != 0 || r.ToSee() {
		t.Fatalf("report %+v, want one new file and nothing to see", r)
	}
	if _, err := os.Stat(path); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("the drop file still lies there: %v", err)
	}
	if diff := cmp.Diff([]string{"sub/cert.txt"}, names(v.evidence()[0])); diff != "" {
		t.Errorf("names (-want +got):\n%s", diff)
	}
	papers := v.papers()
	if len(papers) != 1 || papers[0].State != catalog.Waiting || papers[0].Reading == 0 {
		t.Errorf("papers %+v, want one that waits", papers)
	}
	if len(v.took) != 1 || len(v.read) != 1 || v.read[0].Paper.Number != 1 {
		t.Errorf("told of %d files and %d readings, want one of each", len(v.took), len(v.read))
	}
	v.sound()
}

// A folder that is left as it is costs no event and no copy at the next start.
func TestAKeptFolderIsLeftAndNotTakenAgain(t *testing.T) {
	v := newVault(t, false)
	path := v.put("cert.txt", certificate)
	v.once()
	before := v.events()
	r := v.once()
	if len(r.Taken) != 1 || r.Taken[0].New || r.Taken[0].Renamed || r.Taken[0].Before() != "kept before as P1" {
		t.Errorf("second run: %+v, want the same file, kept before as P1", r.Taken)
	}
	if got := v.events(); got != before {
		t.Errorf("the log grew from %d to %d events", before, got)
	}
	if _, err := os.Stat(path); err != nil {
		t.Errorf("the file of a kept folder is gone: %v", err)
	}
}

// Same file twice, same content under another name, other content under the same
// name, and content that was set aside (B7).
func TestSameAndOtherContent(t *testing.T) {
	v := newVault(t, true)
	v.put("f.txt", certificate)
	v.once()
	v.put("f.txt", certificate)
	v.put("g.txt", certificate)
	r := v.once()
	if len(r.Taken) != 2 || r.Taken[0].Renamed || !r.Taken[1].Renamed || r.Taken[0].New || r.Taken[1].New {
		t.Errorf("took %+v, want f.txt known and g.txt as a further name", r.Taken)
	}
	v.put("f.txt", certificate+"changed\n")
	v.once()
	all := v.evidence()
	if len(all) != 2 || !slices.Equal(names(all[0]), []string{"f.txt", "g.txt"}) || !slices.Equal(names(all[1]), []string{"f.txt"}) {
		t.Fatalf("evidence %+v, want two, the first with two names", all)
	}
	err := v.c.Act(t.Context(), func(tx *catalog.Tx) error {
		_, err := tx.Record(t.Context(), &catalog.PaperSetAside{Paper: v.papers()[0].ID, Why: "not mine"})
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	v.put("again.txt", certificate)
	r = v.once()
	if len(r.Taken) != 1 || r.Taken[0].Before() != "kept before, and set aside as P1" {
		t.Errorf("took %+v, want it said that it was set aside", r.Taken)
	}
	if got := v.papers(); got[0].State != catalog.SetAside || len(got) != 2 {
		t.Errorf("papers %+v: what was set aside must not come back as new", got)
	}
	if len(v.dropped()) != 0 {
		t.Errorf("left in the drop folder: %q", v.dropped())
	}
	v.sound()
}

// Hard links give one evidence with two names (B13).
func TestHardLinks(t *testing.T) {
	v := newVault(t, true)
	path := v.put("a.txt", certificate)
	if err := os.Link(path, filepath.Join(v.drop, "b.txt")); err != nil {
		t.Fatal(err)
	}
	for range 2 { // removing one name changes the other's inode, which then settles anew
		v.once()
	}
	if all := v.evidence(); len(all) != 1 || !slices.Equal(names(all[0]), []string{"a.txt", "b.txt"}) {
		t.Errorf("evidence %+v, want one with both names", all)
	}
	if len(v.dropped()) != 0 {
		t.Errorf("left: %q", v.dropped())
	}
}

// A file that changed since it had settled is not taken, and lies where it lay (B6).
func TestChangedSinceItSettled(t *testing.T) {
	v := newVault(t, true)
	path := v.put("a.txt", certificate)
	f, err := watcher.At(path)
	if err != nil {
		t.Fatal(err)
	}
	v.put("a.txt", certificate+"more")
	if _, err := v.in.Take(t.Context(), f, intake.RemoveFile); !errors.Is(err, watcher.ErrChanged) {
		t.Errorf("Take gave %v, want ErrChanged", err)
	}
	if len(v.evidence()) != 0 || len(v.took) != 0 || len(v.dropped()) != 1 {
		t.Errorf("something was taken or lost: %v, %v, %q", v.evidence(), v.took, v.dropped())
	}
}

// A file that takes the name between the commit and the removal is left, and comes in
// its turn (B6).
func TestTheReplacementIsNotRemoved(t *testing.T) {
	v := newVault(t, true)
	path := v.put("a.txt", certificate)
	f, err := watcher.At(path)
	if err != nil {
		t.Fatal(err)
	}
	taken, err := v.in.Take(t.Context(), f, intake.LeaveFile)
	if err != nil {
		t.Fatal(err)
	}
	later := write(t, filepath.Join(filepath.Dir(v.dir), "later.txt"), "later")
	if err := os.Rename(later, path); err != nil {
		t.Fatal(err)
	}
	if err := taken.File.Remove(); !errors.Is(err, watcher.ErrChanged) {
		t.Errorf("Remove gave %v, want ErrChanged", err)
	}
	v.once()
	if all := v.evidence(); len(all) != 2 || len(v.dropped()) != 0 {
		t.Errorf("%d evidences, left %q, want the replacement taken too", len(all), v.dropped())
	}
}

// Larger than the store takes, though nearly nothing of it is on the disk: refused
// before its first byte (B14).
func TestAHugeSparseFileIsRefusedAndStays(t *testing.T) {
	v := newVault(t, true)
	path := v.put("huge.pdf", "x")
	if err := os.Truncate(path, 1<<40); err != nil {
		t.Fatal(err)
	}
	v.put("cert.txt", certificate)
	r := v.once()
	if len(r.Left) != 1 || !(errors.Is(r.Left[0].Err, evidence.ErrTooLarge) || errors.Is(r.Left[0].Err, evidence.ErrDiskFull)) || !r.ToSee() {
		t.Errorf("left %v, want the huge file with its reason", r.Left)
	}
	if len(r.Taken) != 1 || !slices.Equal(v.dropped(), []string{"huge.pdf"}) {
		t.Errorf("took %v, left %q, want the other file taken", r.Taken, v.dropped())
	}
}

func TestAnEmptyFileIsEvidence(t *testing.T) {
	v := newVault(t, true)
	v.put("empty.pdf", "")
	r := v.once()
	if len(r.Taken) != 1 || len(v.evidence()) != 1 || v.evidence()[0].Size != 0 {
		t.Fatalf("took %+v, want the empty file kept", r.Taken)
	}
	if len(r.Read) != 1 || !strings.Contains(r.Read[0].Reason, "empty") {
		t.Errorf("read %+v, want the reason that it is empty", r.Read)
	}
	v.sound()
}

func TestByProductsAndLinksAreSaid(t *testing.T) {
	v := newVault(t, true)
	v.put("~$cert.docx", "mark")
	if err := os.Symlink("/etc/passwd", filepath.Join(v.drop, "link.pdf")); err != nil {
		t.Fatal(err)
	}
	r := v.once()
	if len(r.Taken) != 0 || len(r.Left) != 1 || r.Left[0].File.Name != "link.pdf" || !r.ToSee() {
		t.Errorf("report %+v, want the link left with its reason", r)
	}
	if !slices.ContainsFunc(v.notices, func(n watcher.Notice) bool {
		return n.What == watcher.PassedOver && strings.Contains(n.Text, "~$*")
	}) {
		t.Errorf("the rule for the by-product was not told: %v", v.notices)
	}
	if len(v.dropped()) != 2 {
		t.Errorf("left %q, want both where they lay", v.dropped())
	}
}

// The drop folder is not there: that is said, and is not "nothing to do" (B12).
func TestAMissingDropFolderIsAnError(t *testing.T) {
	v := newVault(t, true)
	if err := os.Remove(v.drop); err != nil {
		t.Fatal(err)
	}
	if _, err := v.in.Once(t.Context()); !errors.Is(err, os.ErrNotExist) || !strings.Contains(err.Error(), v.drop) {
		t.Errorf("Once gave %v, want the folder named", err)
	}
}
