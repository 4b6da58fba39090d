package seal

import (
	"crypto/rand"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"

	"golang.org/x/mod/sumdb/note"
)

// KeyFile is the name of the private key's file in a vault.
const KeyFile = "key"

// newKeyFile holds the next key while a renewal is under way.
const newKeyFile = "key.new"

// The errors that a caller may test for.
var (
	// ErrNoKey says that there is no key file.
	ErrNoKey = errors.New("the key is missing")
	// ErrExposed says that others than the owner may read the key, or that it is another user's.
	ErrExposed = errors.New("the key is exposed")
	// ErrBadKey says that the key file holds no private key.
	ErrBadKey = errors.New("not a private key")
	// ErrKeyExists says that there is a key file already.
	ErrKeyExists = errors.New("there is a key already")
)

// Key is a private key with its public form.
type Key struct {
	signer note.Signer
	secret string
	public string
}

// NewKey makes an Ed25519 key. name tells vaults apart; it has no blank and no plus sign.
func NewKey(name string) (*Key, error) {
	secret, public, err := note.GenerateKey(rand.Reader, name)
	if err != nil {
		return nil, fmt.Errorf("make a key: %w", err)
	}
	signer, err := note.NewSigner(secret)
	if err != nil {
		return nil, fmt.Errorf("make a key named %q: %w", name, err)
	}
	return &Key{signer: signer, secret: secret, public: public}, nil
}

func (k *Key) text() []byte { return []byte(k.secret + "\n" + k.public + "\n") }

// Public returns the public form, as package note prints it: name, hash and key.
func (k *Key) Public() string { return k.public }

// Name returns the key's name.
func (k *Key) Name() string { return k.signer.Name() }

// KeyName returns the name within a public form.
func KeyName(public string) string {
	name, _, _ := strings.Cut(public, "+")
	return name
}

// WriteKey writes a key into the vault's folder: mode 0600, private and public form a
// line each. The error wraps [ErrKeyExists] if there is one.
func WriteKey(dir string, k *Key) error {
	path := filepath.Join(dir, KeyFile)
	err := writeSynced(path, k.text(), os.O_EXCL)
	switch {
	case errors.Is(err, fs.ErrExist):
		return fmt.Errorf("%s: %w", path, ErrKeyExists)
	case err != nil:
		return fmt.Errorf("write the key: %w", err)
	}
	return SyncFolder(dir)
}

// Prepare writes a key beside the one that is in force, as the first step of a renewal.
func Prepare(dir string, k *Key) error {
	if err := writeSynced(filepath.Join(dir, newKeyFile), k.text(), os.O_TRUNC); err != nil {
		return fmt.Errorf("write the new key: %w", err)
	}
	return SyncFolder(dir)
}

// FinishReplace puts the key that [Prepare] wrote in the place of the old one, if it
// is the one with this public form, and returns it.
func FinishReplace(dir, public string) (*Key, error) {
	k, err := readKey(filepath.Join(dir, newKeyFile))
	if err != nil {
		return nil, err
	}
	if k.public != public {
		return nil, fmt.Errorf("%s: %w: it is not the one that is wanted", filepath.Join(dir, newKeyFile), ErrBadKey)
	}
	if err := os.Rename(filepath.Join(dir, newKeyFile), filepath.Join(dir, KeyFile)); err != nil {
		return nil, fmt.Errorf("put the new key in place: %w", err)
	}
	return k, SyncFolder(dir)
}

// ReadKey reads the vault's key. The error wraps [ErrNoKey], [ErrExposed] or
// [ErrBadKey], and says what to do.
func ReadKey(dir string) (*Key, error) { return readKey(filepath.Join(dir, KeyFile)) }

func readKey(path string) (*Key, error) {
	info, err := os.Lstat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, fmt.Errorf("%s: %w; bring it back from where you keep it", path, ErrNoKey)
	case err != nil:
		return nil, fmt.Errorf("read the key: %w", err)
	case !info.Mode().IsRegular():
		return nil, fmt.Errorf("%s: %w: it is no ordinary file", path, ErrBadKey)
	case runtime.GOOS != "windows" && info.Mode().Perm()&0o077 != 0:
		return nil, fmt.Errorf("%s: %w: its mode is %04o, want 0600; if nobody else can have read it, type chmod 600", path, ErrExposed, info.Mode().Perm())
	case foreign(info):
		return nil, fmt.Errorf("%s: %w: it belongs to another user", path, ErrExposed)
	}
	text, err := os.ReadFile(path)
	if err != nil {
		return nil, fmt.Errorf("read the key: %w", err)
	}
	secret, public, _ := strings.Cut(strings.TrimRight(string(text), "\n"), "\n")
	signer, err := note.NewSigner(secret)
	if err != nil {
		return nil, fmt.Errorf("%s: %w; bring it back from where you keep it", path, ErrBadKey)
	}
	k := &Key{signer: signer, secret: secret, public: public}
	if err := k.pairs(); err != nil {
		return nil, fmt.Errorf("%s: %w: %v", path, ErrBadKey, err)
	}
	return k, nil
}

// pairs checks that the public form belongs to the private one.
func (k *Key) pairs() error {
	signed, err := note.Sign(&note.Note{Text: "pair\n"}, k.signer)
	if err != nil {
		return err
	}
	_, err = opened(signed, k.public)
	return err
}

// HandOver returns a statement, signed by the old key, that another key takes its place.
func HandOver(old *Key, public string) (string, error) {
	signed, err := note.Sign(&note.Note{Text: handText(old.public, public)}, old.signer)
	if err != nil {
		return "", fmt.Errorf("hand over to a new key: %w", err)
	}
	return string(signed), nil
}

// CheckHandOver checks what [HandOver] returned. The error wraps [ErrHead].
func CheckHandOver(signed, old, public string) error {
	text, err := opened([]byte(signed), old)
	if err != nil {
		return err
	}
	if text != handText(old, public) {
		return fmt.Errorf("%w: it hands over to another key", ErrHead)
	}
	return nil
}

func handText(old, public string) string { return "key renewed\n" + old + "\n" + public + "\n" }
