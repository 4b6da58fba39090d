package audit

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"os"

	"evidencevault/evidence"
)

// copyOriginal copies one evidence below root with mode 0400. The bytes that are
// written are hashed; if they are not those that the vault took in, the error is an
// [evidence.DigestError].
func copyOriginal(store *evidence.Store, root *os.Root, o Original) (err error) {
	from, err := store.Open(o.SHA256)
	if err != nil {
		return fmt.Errorf("%s (%s): %w; see vaultctl verify", o.Copy, firstOf(o.Names), err)
	}
	defer from.Close() // it was only read
	to, err := root.OpenFile(o.Copy, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o400)
	if err != nil {
		return err
	}
	hash := sha256.New()
	_, err = io.Copy(io.MultiWriter(to, hash), from)
	if err = errors.Join(err, to.Sync(), to.Close()); err != nil {
		return fmt.Errorf("%s: copying %s: %w", o.Copy, firstOf(o.Names), err)
	}
	if got := hex.EncodeToString(hash.Sum(nil)); got != o.SHA256 {
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
