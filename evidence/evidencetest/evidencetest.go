// Package evidencetest gives the tests of other packages a ready evidence store in a
// temporary folder.
package evidencetest

import (
	"context"
	"path/filepath"
	"strings"
	"testing"

	"evidencevault/evidence"
)

// New returns an empty store that is closed when the test ends.
func New(t testing.TB) *evidence.Store {
	t.Helper()
	s, err := evidence.Open(filepath.Join(t.TempDir(), "evidence"), evidence.Options{})
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

// Put stores a text.
func Put(t testing.TB, s *evidence.Store, text string) evidence.Kept {
	t.Helper()
	kept, err := s.Put(context.Background(), strings.NewReader(text), int64(len(text)))
	if err != nil {
		t.Fatal(err)
	}
	return kept
}
