package evidence_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/iotest"

	"github.com/google/go-cmp/cmp"
	"go.uber.org/goleak"

	"evidencevault/evidence"
	"evidencevault/evidence/evidencetest"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

var ctx = context.Background()

func open(t *testing.T, dir string, o evidence.Options) *evidence.Store {
	t.Helper()
	s, err := evidence.Open(dir, o)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := s.Close(); err != nil {
			t.Error(err)
		}
	})
	return s
}

// Source: NIST, "Examples with Intermediate Values", SHA-256 (to FIPS 180-4): one and
// two blocks; the empty message and the million letters a: NIST CAVP, and RFC 6234, section 8.5.
var fipsVectors = []struct{ name, give, want string }{
	{"one block", "abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"},
	{"two blocks", "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq", "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"},
	{"empty", "", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"},
	{"a million times a", strings.Repeat("a", 1_000_000), "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0"},
}

func TestNameIsTheSHA256(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "store")
	s := open(t, dir, evidence.Options{})
	for _, test := range fipsVectors {
		kept := evidencetest.Put(t, s, test.give)
		if kept.SHA256 != test.want || kept.Size != int64(len(test.give)) || kept.Already {
			t.Errorf("%s: %+v, want sha256 %s", test.name, kept, test.want)
		}
		path, err := s.Path(kept.SHA256)
		if err != nil {
			t.Fatal(err)
		}
		if want := test.want[:2] + "/" + test.want + kept.Ext; path != want {
			t.Errorf("%s: lies at %s, want %s", test.name, path, want)
		}
		out, err := exec.Command("sha256sum", "--", filepath.Join(dir, path)).Output()
		if err != nil {
			t.Fatalf("the program sha256sum: %v", err)
		}
		if !strings.HasPrefix(string(out), test.want) {
			t.Errorf("%s: sha256sum says %s", test.name, out)
		}
		if err := s.Check(ctx, kept.SHA256); err != nil {
			t.Error(err)
		}
	}
}

func TestModesAndNothingLeft(t *testing.T) {
	if runtime.GOOS == "windows" {
		return // access lists stand for modes there
	}
	dir := filepath.Join(t.TempDir(), "store")
	s := open(t, dir, evidence.Options{})
	evidencetest.Put(t, s, "a")
	evidencetest.Put(t, s, "a")
	files := 0
	err := filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err != nil {
			return err
		}
		info, err := d.Info()
		if err != nil {
			return err
		}
		want := os.FileMode(0o700)
		if !d.IsDir() {
			files++
			want = 0o400
		}
		if info.Mode().Perm() != want {
			t.Errorf("%s: mode %04o, want %04o", path, info.Mode().Perm(), want)
		}
		return nil
	})
	if err != nil || files != 1 {
		t.Errorf("%d files, want 1 (%v)", files, err)
	}
}

func TestTypeFollowsTheContent(t *testing.T) {
	tests := []struct{ name, why, give, kind, ext string }{
		{"pdf", "its first bytes", "%PDF-1.7\n%âãÏÓ\n", "application/pdf", ".pdf"},
		{"text", "no parameter in the type", "Hello, world\n", "text/plain", ".txt"},
		{"empty", "there is nothing to tell by", "", "application/x-empty", ".bin"},
		{"unknown", "a name needs an extension all the same", "\x00\x01\x02\x03", "application/octet-stream", ".bin"},
		{"html", "by its root", "<!DOCTYPE html><html><body>x</body></html>", "text/html", ".html"},
	}
	s := evidencetest.New(t)
	for _, test := range tests {
		kept := evidencetest.Put(t, s, test.give)
		if kept.Type != test.kind || kept.Ext != test.ext {
			t.Errorf("%s (%s): %s %s, want %s %s", test.name, test.why, kept.Type, kept.Ext, test.kind, test.ext)
		}
		again, err := s.Describe(ctx, kept.SHA256)
		kept.Already = true
		if diff := cmp.Diff(kept, again); err != nil || diff != "" {
			t.Errorf("%s: described %v\n%s", test.name, err, diff)
		}
	}
}

func TestSameContentIsKeptOnce(t *testing.T) {
	s := evidencetest.New(t)
	first := evidencetest.Put(t, s, "the same")
	before, err := s.Open(first.SHA256)
	if err != nil {
		t.Fatal(err)
	}
	defer before.Close()
	second := evidencetest.Put(t, s, "the same")
	if !second.Already || second.SHA256 != first.SHA256 {
		t.Errorf("second time: %+v", second)
	}
	after, err := s.Open(first.SHA256)
	if err != nil {
		t.Fatal(err)
	}
	defer after.Close()
	a, aerr := before.Stat()
	b, berr := after.Stat()
	if aerr != nil || berr != nil || !os.SameFile(a, b) {
		t.Error("the file was replaced by its equal")
	}
}

func TestManyAtOnceKeepOne(t *testing.T) {
	s := evidencetest.New(t)
	text := strings.Repeat("crowd ", 50_000)
	var group sync.WaitGroup
	fresh := make(chan bool, 16)
	for range 16 {
		group.Go(func() {
			kept, err := s.Put(ctx, strings.NewReader(text), -1)
			if err != nil {
				t.Error(err)
			}
			fresh <- !kept.Already
		})
	}
	group.Wait()
	close(fresh)
	first := 0
	for f := range fresh {
		if f {
			first++
		}
	}
	if first != 1 {
		t.Errorf("%d were told that they were the first, want 1", first)
	}
}

// alter changes a stored file as someone with the rights could.
func alter(t *testing.T, path string, change func([]byte) []byte) {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(path, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, change(data), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(path, 0o400); err != nil {
		t.Fatal(err)
	}
}

func TestEveryAlterationIsFound(t *testing.T) {
	tests := []struct {
		name   string
		change func([]byte) []byte
	}{
		{"one bit of the first byte", func(b []byte) []byte { b[0] ^= 1; return b }},
		{"one bit in the middle", func(b []byte) []byte { b[len(b)/2] ^= 128; return b }},
		{"one bit of the last byte", func(b []byte) []byte { b[len(b)-1] ^= 1; return b }},
		{"a byte more", func(b []byte) []byte { return append(b, 0) }},
		{"a byte less", func(b []byte) []byte { return b[:len(b)-1] }},
		{"nothing left", func([]byte) []byte { return nil }},
	}
	dir := filepath.Join(t.TempDir(), "store")
	s := open(t, dir, evidence.Options{})
	for _, test := range tests {
		text := "certificate " + test.name
		kept := evidencetest.Put(t, s, text)
		path, err := s.Path(kept.SHA256)
		if err != nil {
			t.Fatal(err)
		}
		alter(t, filepath.Join(dir, path), test.change)
		var bad *evidence.DigestError
		if err := s.Check(ctx, kept.SHA256); !errors.As(err, &bad) || bad.Path != path || bad.Want != kept.SHA256 {
			t.Errorf("%s: %v, want a DigestError of %s", test.name, err, path)
		}
		was, err := os.ReadFile(filepath.Join(dir, path))
		if err != nil {
			t.Fatal(err)
		}
		if _, err := s.Put(ctx, strings.NewReader(text), -1); !errors.Is(err, evidence.ErrChanged) {
			t.Errorf("%s: put again: %v, want ErrChanged", test.name, err)
		}
		if now, err := os.ReadFile(filepath.Join(dir, path)); err != nil || !bytes.Equal(was, now) {
			t.Errorf("%s: the altered file was overwritten (%v)", test.name, err)
		}
	}
}

func TestRefused(t *testing.T) {
	broken := errors.New("the stick was pulled out")
	small := evidence.Options{Largest: 10}
	tests := []struct {
		name, why string
		o         evidence.Options
		give      io.Reader
		size      int64
		want      error
	}{
		{"said to be too large", "before its first byte", small, iotest.ErrReader(broken), 1 << 40, evidence.ErrTooLarge},
		{"too large all the same", "the size said is only a hint", small, strings.NewReader("eleven bytes"), -1, evidence.ErrTooLarge},
		{"no room", "before its first byte", evidence.Options{Reserve: 1 << 61}, iotest.ErrReader(broken), 1, evidence.ErrDiskFull},
		{"source fails", "that is not the store's fault", evidence.Options{}, io.MultiReader(strings.NewReader("half"), iotest.ErrReader(broken)), 8, evidence.ErrSource},
	}
	for _, test := range tests {
		dir := filepath.Join(t.TempDir(), "store")
		s := open(t, dir, test.o)
		if _, err := s.Put(ctx, test.give, test.size); !errors.Is(err, test.want) {
			t.Errorf("%s (%s): %v, want %v", test.name, test.why, err, test.want)
		}
		if left, err := os.ReadDir(dir); err != nil || len(left) != 0 {
			t.Errorf("%s: %d files left (%v)", test.name, len(left), err)
		}
	}
	s := evidencetest.New(t)
	ended, cancel := context.WithCancel(ctx)
	cancel()
	if _, err := s.Put(ended, strings.NewReader("x"), 1); !errors.Is(err, context.Canceled) {
		t.Errorf("ended context: %v", err)
	}
}

func TestMissingAndMisnamed(t *testing.T) {
	s := evidencetest.New(t)
	absent := strings.Repeat("ab", 32)
	if _, err := s.Open(absent); !errors.Is(err, evidence.ErrMissing) {
		t.Errorf("absent: %v", err)
	}
	if err := s.Check(ctx, absent); !errors.Is(err, evidence.ErrMissing) {
		t.Errorf("absent: %v", err)
	}
	for _, name := range []string{"", "..", "../../etc/passwd", strings.ToUpper(absent), absent + "0", absent[:63] + "/"} {
		if _, err := s.Open(name); !errors.Is(err, evidence.ErrDigest) {
			t.Errorf("%q: %v, want ErrDigest", name, err)
		}
	}
}

func TestCleanRemovesOnlyWhatNobodyHolds(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "store")
	s := open(t, dir, evidence.Options{})
	left := filepath.Join(dir, ".incoming-left")
	if err := os.WriteFile(left, []byte("half"), 0o600); err != nil {
		t.Fatal(err)
	}
	r, w := io.Pipe()
	done := make(chan error, 1)
	go func() {
		_, err := s.Put(ctx, r, -1)
		done <- err
	}()
	if _, err := w.Write([]byte("under ")); err != nil { // read, so its temporary file is there
		t.Fatal(err)
	}
	listed := 0
	if err := s.Walk(ctx, func(e evidence.Entry) error { listed++; return nil }); err != nil || listed != 1 {
		t.Errorf("listed %d, %v, want the left one alone", listed, err)
	}
	if n, err := s.Clean(); err != nil || n != 1 {
		t.Errorf("cleaned %d, %v, want the left one alone", n, err)
	}
	if _, err := os.Lstat(left); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("the left file: %v", err)
	}
	if _, err := w.Write([]byte("way")); err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(w.Close(), <-done); err != nil {
		t.Errorf("the copy under way: %v", err)
	}
}

func TestWalkNamesWhatDoesNotBelong(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "store")
	s := open(t, dir, evidence.Options{})
	good := evidencetest.Put(t, s, "good")
	linked := evidencetest.Put(t, s, "linked")
	loose := evidencetest.Put(t, s, "loose")
	at := func(sha string) string {
		path, err := s.Path(sha)
		if err != nil {
			t.Fatal(err)
		}
		return filepath.Join(dir, path)
	}
	aside := filepath.Join(t.TempDir(), "aside")
	path, loosePath := at(linked.SHA256), at(loose.SHA256)
	for _, err := range []error{
		os.Rename(path, aside), os.Symlink(aside, path), os.Chmod(loosePath, 0o640),
		os.WriteFile(filepath.Join(dir, "notes.txt"), nil, 0o600), os.Mkdir(filepath.Join(dir, "zz"), 0o700),
		os.WriteFile(filepath.Join(dir, good.SHA256[:2], "stranger.pdf"), nil, 0o600),
		os.WriteFile(filepath.Join(dir, ".incoming-left"), nil, 0o600),
	} {
		if err != nil {
			t.Fatal(err)
		}
	}
	wrong := map[string]string{}
	var fine []string
	err := s.Walk(ctx, func(e evidence.Entry) error {
		if e.Wrong == "" {
			fine = append(fine, e.SHA256)
		} else {
			wrong[e.Path] = e.Wrong
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(fine, []string{good.SHA256}) {
		t.Errorf("fine: %v, want %s alone", fine, good.SHA256)
	}
	for _, want := range []struct{ path, part string }{
		{"notes.txt", "not belong"}, {"zz", "not belong"}, {".incoming-left", "left"},
		{good.SHA256[:2] + "/stranger.pdf", "not belong"},
		{linked.SHA256[:2] + "/" + linked.SHA256 + linked.Ext, "no ordinary file"},
		{loose.SHA256[:2] + "/" + loose.SHA256 + loose.Ext, "0640"},
	} {
		if !strings.Contains(wrong[want.path], want.part) {
			t.Errorf("%s: %q, want one with %q", want.path, wrong[want.path], want.part)
		}
	}
	if len(wrong) != 6 {
		t.Errorf("%d things wrong, want 6: %v", len(wrong), wrong)
	}
	if _, err := s.Open(linked.SHA256); !errors.Is(err, evidence.ErrUnreadable) {
		t.Errorf("a link was opened: %v", err)
	}
}

func FuzzPutGivesBackTheBytes(f *testing.F) {
	for _, seed := range []string{"", "%PDF-1.4", "\xff\xfe", "PK\x03\x04"} {
		f.Add([]byte(seed))
	}
	dir, err := os.MkdirTemp("", "store-*")
	if err != nil {
		f.Fatal(err)
	}
	f.Cleanup(func() {
		if err := os.RemoveAll(dir); err != nil {
			f.Error(err)
		}
	})
	s, err := evidence.Open(filepath.Join(dir, "store"), evidence.Options{})
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		kept, err := s.Put(ctx, bytes.NewReader(data), int64(len(data)))
		if err != nil {
			t.Fatal(err)
		}
		file, err := s.Open(kept.SHA256)
		if err != nil {
			t.Fatal(err)
		}
		got, err := io.ReadAll(file)
		if err = errors.Join(err, file.Close()); err != nil || !bytes.Equal(got, data) {
			t.Fatal(fmt.Errorf("%d bytes came back of %d: %w", len(got), len(data), err))
		}
	})
}
