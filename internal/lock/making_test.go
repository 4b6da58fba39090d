package lock_test

import (
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"evidencevault/internal/lock"
)

// What a stopped run left is removed by the next one for the same target; what another
// run works in, and what belongs to another target, is left alone.
func TestOnlyWhatNobodyHoldsIsSweptAway(t *testing.T) {
	if runtime.GOOS == "windows" {
		return // folders are not locked there, and nothing is swept away
	}
	base := t.TempDir()
	target := filepath.Join(base, "a[b]*")
	held, err := lock.Make(target)
	if err != nil {
		t.Fatal(err)
	}
	left, others := filepath.Join(base, ".a[b]*.making-1"), filepath.Join(base, ".ab.making-1")
	if err := errors.Join(os.Mkdir(left, 0o700), os.Mkdir(others, 0o700)); err != nil {
		t.Fatal(err)
	}
	for at, want := range map[string]bool{left: false, held.Dir: true, target: false} {
		if is, err := lock.Held(at); err != nil || is != want {
			t.Errorf("%s is held: %v, %v, want %v", at, is, err, want)
		}
	}
	if back, err := lock.Sweep(target); err != nil || back {
		t.Errorf("put back %v, %v", back, err)
	}
	for at, want := range map[string]bool{left: false, others: true, held.Dir: true} {
		if _, err := os.Lstat(at); (err == nil) != want {
			t.Errorf("%s is there: %v, want %v", at, err == nil, want)
		}
	}
	if err := held.Discard(); err != nil {
		t.Error(err)
	}
	if _, err := os.Lstat(held.Dir); !errors.Is(err, os.ErrNotExist) {
		t.Error("discarded, and still there")
	}
}

// A run that was stopped after it put the old thing aside: it comes back, but never over
// what has taken the place meanwhile.
func TestWhatWasPutAsideComesBack(t *testing.T) {
	if runtime.GOOS == "windows" {
		return // as above
	}
	for _, taken := range []bool{false, true} {
		target := filepath.Join(t.TempDir(), "index")
		old := filepath.Join(filepath.Dir(target), ".index.making-1", lock.Old)
		if err := errors.Join(os.MkdirAll(old, 0o700), os.WriteFile(filepath.Join(old, "x"), nil, 0o600)); err != nil {
			t.Fatal(err)
		}
		if taken {
			if err := os.Mkdir(target, 0o700); err != nil {
				t.Fatal(err)
			}
		}
		made, err := lock.Make(target)
		if err != nil || made.Back == taken {
			t.Fatalf("taken %v: %+v, %v", taken, made, err)
		}
		if _, err := os.Lstat(filepath.Join(target, "x")); (err == nil) == taken {
			t.Errorf("taken %v: the old thing is there: %v", taken, err == nil)
		}
		if err := made.Discard(); err != nil {
			t.Error(err)
		}
	}
}
