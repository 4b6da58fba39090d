package transfer

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"

	"filippo.io/age"
)

// Secret says for whom a backup is encrypted, or by what it is opened. The zero Secret
// is for a backup that is not encrypted.
type Secret struct {
	Passphrase string                 // "" for none
	Recipients string                 // public keys of age ("age1…"), one a line; for a backup
	Identities string                 // private keys of age ("AGE-SECRET-KEY-1…"), one a line; for a restore
	Ask        func() (string, error) // asks for the passphrase when a backup turns out to be encrypted with one; nil: nobody asks
}

// beginsEncrypted is how a file encrypted with age begins, see
// https://age-encryption.org/v1, section "Header".
const beginsEncrypted = "age-encryption.org/v1\n"

// seals reports whether the secret encrypts.
func (s Secret) seals() bool { return s.Passphrase != "" || strings.TrimSpace(s.Recipients) != "" }

// encrypt wraps w; closing what it returns does not close w.
func (s Secret) encrypt(w io.Writer) (io.WriteCloser, error) {
	if !s.seals() {
		return plain{w}, nil
	}
	var to []age.Recipient
	if s.Passphrase != "" {
		if strings.TrimSpace(s.Recipients) != "" {
			return nil, errors.New("a backup has either a passphrase or recipients; name one of the two")
		}
		r, err := age.NewScryptRecipient(s.Passphrase)
		if err != nil {
			return nil, fmt.Errorf("encrypt the backup: %w", err)
		}
		to = append(to, r)
	} else {
		var err error
		if to, err = age.ParseRecipients(strings.NewReader(s.Recipients)); err != nil {
			return nil, fmt.Errorf("encrypt the backup: the recipients: %w; want public keys of age, age1…, one a line", err)
		}
	}
	return age.Encrypt(w, to...)
}

type plain struct{ io.Writer }

// Close does nothing.
func (plain) Close() error { return nil }

// decrypt returns what r holds, decrypted where it is encrypted.
func (s Secret) decrypt(r io.Reader) (io.Reader, error) {
	in := bufio.NewReaderSize(r, 256<<10)
	begin, err := in.Peek(len(beginsEncrypted))
	if err != nil && !errors.Is(err, io.EOF) {
		return nil, fmt.Errorf("read the backup: %w", err)
	}
	if !bytes.Equal(begin, []byte(beginsEncrypted)) {
		return in, nil
	}
	with, err := s.identities()
	if err != nil {
		return nil, err
	}
	out, err := age.Decrypt(in, with...)
	var none *age.NoIdentityMatchError
	switch {
	case errors.As(err, &none):
		return nil, fmt.Errorf("%w, and the passphrase or key does not fit; it was not changed", ErrSecret)
	case err != nil:
		return nil, fmt.Errorf("%w, and its header cannot be read: %v", ErrCut, err)
	}
	return told{out}, nil
}

func (s Secret) identities() ([]age.Identity, error) {
	if strings.TrimSpace(s.Identities) != "" {
		with, err := age.ParseIdentities(strings.NewReader(s.Identities))
		if err != nil {
			return nil, fmt.Errorf("open the backup: the private keys: %w; want AGE-SECRET-KEY-1…, one a line", err)
		}
		return with, nil
	}
	if s.Passphrase == "" && s.Ask != nil {
		var err error
		if s.Passphrase, err = s.Ask(); err != nil {
			return nil, err
		}
	}
	if s.Passphrase == "" {
		return nil, fmt.Errorf("%w; give its passphrase with --passphrase-file, or its private key with --identity", ErrSecret)
	}
	id, err := age.NewScryptIdentity(s.Passphrase)
	if err != nil {
		return nil, fmt.Errorf("open the backup: %w", err)
	}
	return []age.Identity{id}, nil
}

// told says what an error of the decrypted stream means: each piece of it is
// authenticated, so a changed bit shows here and not in the archive.
type told struct{ r io.Reader }

func (t told) Read(p []byte) (int, error) {
	n, err := t.r.Read(p)
	switch {
	case err == nil, err == io.EOF: // the archive's reader wants it bare
		return n, err
	case errors.Is(err, io.ErrUnexpectedEOF):
		return n, fmt.Errorf("%w: its last piece is missing; take another backup", ErrCut)
	}
	return n, fmt.Errorf("%w: it was cut off or changed, a piece of it cannot be decrypted (%v); take another backup", ErrChanged, err)
}
