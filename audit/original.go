package audit

import (
	"fmt"

	"evidencevault/evidence"
)

// copyOriginal copies one evidence with mode 0400. The bytes that are written are
// hashed; if they are not those that the vault took in, the error wraps
// [evidence.ErrChanged].
func copyOriginal(store *evidence.Store, to adder, o Original) error {
	from, err := store.Open(o.SHA256)
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
