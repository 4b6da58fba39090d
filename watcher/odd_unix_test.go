//go:build linux || darwin

package watcher_test

import (
	"context"
	"errors"
	"fmt"
	"net"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"evidencevault/watcher"
)

// Links are told and not followed, a loop ends (B13).
func TestLinksAreNotFollowed(t *testing.T) {
	base := t.TempDir()
	dir, outside := filepath.Join(base, "drop"), filepath.Join(base, "outside")
	write(t, filepath.Join(dir, "real.pdf"), "real")
	write(t, filepath.Join(outside, "secret.pdf"), "secret")
	for name, target := range map[string]string{
		"file.pdf": filepath.Join(outside, "secret.pdf"), "folder": outside, "loop": dir, "self": "self", "dangling.pdf": "nowhere",
	} {
		if err := os.Symlink(target, filepath.Join(dir, name)); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Link(filepath.Join(dir, "real.pdf"), filepath.Join(dir, "hard.pdf")); err != nil {
		t.Fatal(err)
	}
	l := start(t, time.Hour, dir)
	l.untilTaken("hard.pdf", "real.pdf")
	for _, name := range []string{"file.pdf", "folder", "loop", "self", "dangling.pdf"} {
		if !l.told(watcher.NotOrdinary, name+" it is a link") {
			t.Errorf("link %s was not told: %v", name, l.notices)
		}
	}
}

// A link that is swapped in between looking and opening leads nowhere (B13).
func TestALinkSwappedInIsNotOpened(t *testing.T) {
	base := t.TempDir()
	path := filepath.Join(base, "drop", "a.pdf")
	write(t, path, "a")
	write(t, filepath.Join(base, "secret.pdf"), "secret")
	f, err := watcher.At(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(filepath.Join(base, "secret.pdf"), path); err != nil {
		t.Fatal(err)
	}
	if file, _, err := f.Open(); !errors.Is(err, watcher.ErrNotOrdinary) {
		t.Errorf("Open gave %v, %v, want ErrNotOrdinary", file, err)
	}
	if err := f.Remove(); !errors.Is(err, watcher.ErrChanged) {
		t.Errorf("Remove gave %v, want ErrChanged", err)
	}
	// And a folder on the way that became a link out of the watched folder.
	write(t, filepath.Join(base, "drop", "sub", "b.pdf"), "b")
	g := watcher.File{Dir: filepath.Join(base, "drop"), Name: "sub/secret.pdf"}
	if err := os.RemoveAll(filepath.Join(base, "drop", "sub")); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(base, filepath.Join(base, "drop", "sub")); err != nil {
		t.Fatal(err)
	}
	if file, _, err := g.Open(); err == nil {
		t.Errorf("opened %s outside of the folder", file.Name())
	}
}

// Pipes and sockets never block, folders named like documents are folders (B14).
func TestWhatIsNoFile(t *testing.T) {
	dir := t.TempDir()
	if err := syscall.Mkfifo(filepath.Join(dir, "pipe.pdf"), 0o600); err != nil {
		t.Fatal(err)
	}
	short, err := os.MkdirTemp("", "s") // the path of a socket must be short
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(short) })
	listener, err := net.Listen("unix", filepath.Join(short, "socket.pdf"))
	if err != nil {
		t.Fatal(err)
	}
	defer listener.Close()
	write(t, filepath.Join(dir, "x.pdf", "inside.pdf"), "i")
	write(t, filepath.Join(dir, "empty.pdf"), "")
	l := start(t, time.Hour, dir, short)
	l.untilTaken("empty.pdf", "x.pdf/inside.pdf")
	for _, want := range []string{"pipe.pdf it is a pipe", "socket.pdf it is a socket"} {
		l.until(want, func() bool { return l.told(watcher.NotOrdinary, want) })
	}
	f := watcher.File{Dir: dir, Name: "pipe.pdf"}
	if _, _, err := f.Open(); !errors.Is(err, watcher.ErrNotOrdinary) {
		t.Errorf("Open of a pipe gave %v, want ErrNotOrdinary at once", err)
	}
}

// hostile are names that a person or an attacker may give a file (B15).
var hostile = []string{
	"new\nline.pdf", "tab\t.pdf", "esc\x1b[31m.pdf", "emoji🎓.pdf", "-rf.pdf", " leading.pdf", "trailing.pdf ", "dot.", "..dots.pdf",
	strings.Repeat("a", 251) + ".pdf", "invalid\xff.pdf", "invalid\xfe.pdf", "cod\u202efdp.exe", `quote"'.pdf`, "%s%n.pdf", "$(id).pdf",
	"CON", "a:b.pdf", `back\slash.pdf`, "`id`.pdf", "*?.pdf", "n\u0303.pdf", "\u00f1.pdf",
}

func TestHostileNamesArriveByteForByte(t *testing.T) {
	dir := t.TempDir()
	want := slices.Clone(hostile)
	for _, name := range hostile {
		write(t, filepath.Join(dir, name), name)
	}
	deep := strings.Repeat(strings.Repeat("d", 200)+"/", 15) + "deep.pdf" // a path of some 3,000 bytes
	write(t, filepath.Join(dir, deep), "deep")
	l := start(t, time.Hour, dir)
	l.untilTaken(append(want, deep)...)
	for _, name := range hostile {
		if got := l.texts[name]; len(got) != 1 || !strings.HasPrefix(name, got[0]) {
			t.Errorf("%q was read as %q", name, got)
		}
	}
}

func TestRemoveOnlyWhatWasRead(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.pdf")
	write(t, path, "a")
	f, err := watcher.At(path)
	if err != nil {
		t.Fatal(err)
	}
	// Another file takes the name, as an editor does when it saves.
	write(t, path+".new", "b")
	if err := os.Rename(path+".new", path); err != nil {
		t.Fatal(err)
	}
	if err := f.Remove(); !errors.Is(err, watcher.ErrChanged) {
		t.Errorf("Remove of a replaced file gave %v, want ErrChanged", err)
	}
	if _, err := os.Stat(path); err != nil {
		t.Errorf("the replacement was removed: %v", err)
	}
	now, err := watcher.At(path)
	if err != nil {
		t.Fatal(err)
	}
	for range 2 { // the second time it is gone, which is no error
		if err := now.Remove(); err != nil {
			t.Errorf("Remove: %v", err)
		}
	}
}

func TestScanListsEverythingWithItsReason(t *testing.T) {
	base := t.TempDir()
	dir := filepath.Join(base, "drop")
	write(t, filepath.Join(dir, "a.pdf"), "a")
	write(t, filepath.Join(dir, "sub", "b.pdf"), "b")
	write(t, filepath.Join(dir, "~$c.docx"), "c")
	write(t, filepath.Join(dir, "d.download", "d.pdf"), "d")
	write(t, filepath.Join(dir, "vault", "catalog.db"), "own")
	if err := os.Symlink("a.pdf", filepath.Join(dir, "link.pdf")); err != nil {
		t.Fatal(err)
	}
	// The folder that is not entered is told apart by what it is: its path may go through a link.
	if err := os.Symlink(dir, filepath.Join(base, "way")); err != nil {
		t.Fatal(err)
	}
	list, err := watcher.Scan(t.Context(), dir, watcher.Options{Except: []string{filepath.Join(base, "way", "vault")}})
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, f := range list {
		got = append(got, fmt.Sprintf("%s: %s %s", f.File.Name, f.What, f.Text))
	}
	want := []string{"a.pdf: ordinary ", "d.download: passed over a download that is not finished (*.download)",
		"link.pdf: not ordinary it is a link", "sub/b.pdf: ordinary ",
		"~$c.docx: passed over mark of an office program that has the document open (~$*)"}
	if !slices.Equal(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	all, err := watcher.Scan(t.Context(), dir, watcher.Options{All: true})
	if err != nil || len(all) != 6 {
		t.Errorf("with All: %d names, %v, want 6", len(all), err)
	}
	if _, err := watcher.Scan(t.Context(), filepath.Join(base, "nowhere"), watcher.Options{}); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("a folder that is not there: %v, want it said", err)
	}
}

func TestOnceEndsAndTellsWhatWasLeft(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"a.pdf", "b.pdf", "sub/c.pdf", "x.tmp"} {
		write(t, filepath.Join(dir, name), name)
	}
	busy, err := os.Create(filepath.Join(dir, "busy.pdf"))
	if err != nil {
		t.Fatal(err)
	}
	defer busy.Close()
	l := &log{t: t, texts: map[string][]string{}}
	left, err := watcher.Once(t.Context(), []string{dir}, watcher.Options{Settle: settle}, l.take)
	if err != nil {
		t.Fatal(err)
	}
	if want := []string{"a.pdf", "b.pdf", "sub/c.pdf"}; !slices.Equal(l.names(), want) {
		t.Errorf("took %q, want %q", l.names(), want)
	}
	if len(left) != 1 || left[0].File.Name != "busy.pdf" || !errors.Is(left[0].Err, watcher.ErrBusy) {
		t.Errorf("left %v, want busy.pdf because it is being written", left)
	}
}

// A file that was being written when others were looked at is taken, however long taking those lasted.
func TestOnceLooksAgainAfterALongTaking(t *testing.T) {
	dir := t.TempDir()
	write(t, filepath.Join(dir, "a.pdf"), "a")
	late, err := os.Create(filepath.Join(dir, "late.pdf"))
	if err != nil {
		t.Fatal(err)
	}
	l := &log{t: t, texts: map[string][]string{}}
	left, err := watcher.Once(t.Context(), []string{dir}, watcher.Options{Settle: settle}, func(ctx context.Context, f watcher.File) error {
		if f.Name == "a.pdf" {
			if _, err := late.WriteString("late"); err != nil {
				t.Error(err)
			}
			late.Close()
			time.Sleep(10 * settle)
		}
		return l.take(ctx, f)
	})
	if err != nil || len(left) > 0 {
		t.Errorf("left %v, %v", left, err)
	}
	if want := []string{"a.pdf", "late.pdf"}; !slices.Equal(l.names(), want) {
		t.Errorf("took %q, want %q", l.names(), want)
	}
}
