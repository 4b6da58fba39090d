package seal

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"

	"golang.org/x/mod/sumdb/note"
	"golang.org/x/mod/sumdb/tlog"
)

// HeadFile is the name of the head's file in a vault.
const HeadFile = "head"

// headNew is written first, and then takes the place of HeadFile. Whoever writes
// holds the vault's lock, so one name is enough.
const headNew = "head.new"

// The errors that a caller may test for.
var (
	// ErrNoHead says that there is no head file.
	ErrNoHead = errors.New("the signed head is missing")
	// ErrHead says that a text is no head, or that no known key signed it.
	ErrHead = errors.New("not a head signed with the vault's key")
)

// Head says what the log holds.
type Head struct {
	Origin string // names the vault: the name of its key
	Size   int64  // number of events
	Hash   Hash   // root hash over them
}

// String prints the text that is signed: origin, size and root hash in base64, a line
// each, as in the C2SP specification tlog-checkpoint.
func (h Head) String() string { return fmt.Sprintf("%s\n%d\n%s\n", h.Origin, h.Size, h.Hash) }

func parseHead(text string) (Head, error) {
	lines := strings.Split(text, "\n")
	if len(lines) != 4 || lines[3] != "" {
		return Head{}, fmt.Errorf("%w: want three lines", ErrHead)
	}
	size, err := strconv.ParseInt(lines[1], 10, 64)
	if err != nil || size < 0 || lines[1] != strconv.FormatInt(size, 10) {
		return Head{}, fmt.Errorf("%w: size %.40q", ErrHead, lines[1])
	}
	hash, err := tlog.ParseHash(lines[2])
	if err != nil {
		return Head{}, fmt.Errorf("%w: hash %.80q", ErrHead, lines[2])
	}
	return Head{Origin: lines[0], Size: size, Hash: hash}, nil
}

// Sign returns h with the signatures of the keys, as package note writes them.
func Sign(h Head, keys ...*Key) ([]byte, error) {
	signers := make([]note.Signer, len(keys))
	for i, k := range keys {
		signers[i] = k.signer
	}
	text, err := note.Sign(&note.Note{Text: h.String()}, signers...)
	if err != nil {
		return nil, fmt.Errorf("sign the head of %d events: %w", h.Size, err)
	}
	return text, nil
}

// Check reads a signed head and its signature by the key with this public form. The
// error wraps [ErrHead].
func Check(signed []byte, public string) (Head, error) {
	text, err := opened(signed, public)
	if err != nil {
		return Head{}, err
	}
	return parseHead(text)
}

// Look reads a signed head without judging its signatures, which may be by anybody. by
// names the keys that they say they are of, each as "name+hash". The error wraps [ErrHead].
func Look(signed []byte) (h Head, by []string, err error) {
	_, err = note.Open(signed, note.VerifierList())
	var unproven *note.UnverifiedNoteError
	if !errors.As(err, &unproven) {
		return Head{}, nil, fmt.Errorf("%w: %v", ErrHead, err)
	}
	for _, sig := range unproven.Note.UnverifiedSigs {
		by = append(by, fmt.Sprintf("%s+%08x", sig.Name, sig.Hash))
	}
	h, err = parseHead(unproven.Note.Text)
	return h, by, err
}

func opened(signed []byte, public string) (string, error) {
	verifier, err := note.NewVerifier(public)
	if err != nil {
		return "", fmt.Errorf("%w: public key %.100q: %v", ErrHead, public, err)
	}
	n, err := note.Open(signed, note.VerifierList(verifier))
	if err != nil {
		return "", fmt.Errorf("%w: %v", ErrHead, err)
	}
	return n.Text, nil
}

// ReadHead returns the bytes of the head file in the vault's folder. The error wraps
// [ErrNoHead] if there is none.
func ReadHead(dir string) ([]byte, error) {
	text, err := os.ReadFile(filepath.Join(dir, HeadFile))
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, fmt.Errorf("%s: %w", filepath.Join(dir, HeadFile), ErrNoHead)
	case err != nil:
		return nil, fmt.Errorf("read the signed head: %w", err)
	}
	return text, nil
}

// WriteHead puts a signed head in the place of the one before: it is written beside
// it, synced, renamed, and the folder is synced, so that a stop at any line leaves the
// old head or the new one.
func WriteHead(dir string, signed []byte) (err error) {
	fresh := filepath.Join(dir, headNew)
	if err := writeSynced(fresh, signed, os.O_TRUNC); err != nil {
		return fmt.Errorf("write the signed head: %w", err)
	}
	if err := os.Rename(fresh, filepath.Join(dir, HeadFile)); err != nil {
		return fmt.Errorf("put the signed head in place: %w", err)
	}
	return SyncFolder(dir)
}

// writeSynced writes a file of mode 0600 and syncs it. extra is os.O_TRUNC or os.O_EXCL.
func writeSynced(path string, data []byte, extra int) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|extra, 0o600)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}

// SyncFolder makes the names in a folder last. Windows has no such call and keeps
// names in its own journal.
func SyncFolder(dir string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	return errors.Join(d.Sync(), d.Close())
}
