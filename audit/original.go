package audit

import (
	"context"
	"fmt"
	"os"

	"evidencevault/evidence"
)

// open opens the original: in the archive of a closed cycle, where the dossier is of one,
// if the store has lost or altered it.
func (o Original) open(ctx context.Context, store *evidence.Store) (*os.File, error) {
	if o.archived != "" && store.Check(ctx, o.SHA256) != nil {
		if from, err := os.Open(o.archived); err == nil {
			return from, nil
		}
	}
	return store.Open(o.SHA256)
}

// copyOriginal copies one evidence with mode 0400. The bytes that are written are
// hashed; if they are not those that the vault took in, the error wraps
// [evidence.ErrChanged].
func copyOriginal(ctx context.Context, store *evidence.Store, to adder, o Original) error {
	from, err := o.open(ctx, store)
	if err != nil {
		return fmt.Errorf("%s (%s): %w; see vaultctl verify", o.Copy, firstOf(o.Names), err)
	}
	defer from.Close() // it was only read
	got, err := to.Add(o.Copy, from, 0o400)
	if err != nil {
		return fmt.Errorf("%s: copying %s: %w", o.Copy, firstOf(o.Names), err)
	}
	if got != o.SHA256 {
		return fmt.Errorf("%s (%s): %w: want sha256 %s, got %s; see vaultctl verify", o.Copy, firstOf(o.Names), evidence.ErrChanged, o.SHA256, got)
	}
	return nil
}

func firstOf(names []string) string {
	if len(names) == 0 {
		return "no name"
	}
	return names[0]
}
