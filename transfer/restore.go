package transfer

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"

	"evidencevault/catalog"
	"evidencevault/catalog/seal"
	"evidencevault/evidence"
	"evidencevault/internal/stop"
)

// Restore makes the vault dir from a backup. dir must be absent or empty. Everything is
// unpacked beside it and checked: the list of hashes, the name of each evidence, the log
// against the head it came with. Then a new key is made, in an event that names the old
// public key, the whole is verified, and only then dir has its name.
//
// The error wraps [ErrForeign], [ErrCut], [ErrChanged], [ErrSecret], [ErrNewer],
// [ErrThere], [ErrName] or [catalog.ErrLog]; then nothing is left. Findings of the verify
// are no error: the vault had them when the backup was made. progress, if not nil, is
// told how many bytes of the backup are read, of how many.
func Restore(ctx context.Context, file, dir string, secret Secret, o catalog.Options, progress func(done, of int64)) (Result, error) {
	return bringIn(ctx, dir, o, func(root *os.Root, _ string) (missing []string, err error) {
		f, err := os.Open(file)
		if err != nil {
			return nil, err
		}
		defer func() { err = errors.Join(err, f.Close()) }()
		from, err := telling(ctx, f, progress)
		if err != nil {
			return nil, err
		}
		in, err := secret.decrypt(from)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", file, err)
		}
		about, err := unpack(in, &restoring{intoFolder{root}})
		if err != nil {
			return nil, fmt.Errorf("%s: %w", file, err)
		}
		return about.Missing, nil
	})
}

// bringIn makes a vault beside dir, has it filled, gives it a new key, verifies it and
// puts it in place. fill returns which evidence is known to be missing.
func bringIn(ctx context.Context, dir string, o catalog.Options, fill func(root *os.Root, dir string) ([]string, error)) (res Result, err error) {
	if dir, err = filepath.Abs(dir); err != nil {
		return res, err
	}
	fresh, err := begin(dir, "vault", true)
	if err != nil {
		return res, err
	}
	defer func() { err = errors.Join(err, fresh.discard()) }()
	root, err := os.OpenRoot(fresh.temp)
	if err != nil {
		return res, err
	}
	missing, err := fill(root, fresh.temp)
	if err = errors.Join(err, root.Close()); err != nil {
		return res, err
	}
	if err := stop.At(stop.Unpacked); err != nil {
		return res, err
	}
	if res, err = settle(ctx, fresh.temp, o); err != nil {
		return Result{}, err
	}
	if missing != nil {
		res.Missing = missing
	}
	return res, fresh.place(true)
}

// settle opens a vault that was brought in, gives it its key and verifies it.
func settle(ctx context.Context, dir string, o catalog.Options) (res Result, err error) {
	c, err := catalog.Open(ctx, dir, o)
	if err != nil {
		return res, err
	}
	defer func() { err = errors.Join(err, c.Close()) }()
	if err := c.Rekey(ctx); err != nil {
		return res, err
	}
	if err := stop.At(stop.Rekeyed); err != nil {
		return res, err
	}
	found, err := c.Verify(ctx, catalog.VerifyOptions{})
	if err != nil {
		return res, err
	}
	res = Result{Missing: []string{}, Findings: []string{}}
	for _, f := range found {
		res.Findings = append(res.Findings, f.What+" "+f.Where+": "+f.Why+"; "+f.Mend)
	}
	all, err := c.AllEvidence(ctx)
	if err != nil {
		return res, err
	}
	for _, e := range all {
		if _, err := c.Store().Path(e.SHA256); err == nil {
			res.Evidence++
			res.Bytes += e.Size
		}
	}
	drops, err := c.Drops(ctx)
	if err != nil {
		return res, err
	}
	for _, d := range drops { // an empty drop folder within the vault
		if rel, err := filepath.Rel(c.Dir(), d.Dir); err == nil && filepath.IsLocal(rel) {
			if err := os.MkdirAll(d.Dir, 0o700); err != nil {
				return res, err
			}
		}
	}
	n, err := c.Length(ctx)
	res.Events = int64(n)
	return res, err
}

// restoring writes a backup's files where they belong in a vault.
type restoring struct{ to intoFolder }

func (r *restoring) about(a About) error { return known(a) }

// known refuses what a later program made.
func known(a About) error {
	version, err := catalog.SchemaVersion()
	if err == nil && a.Schema > version {
		err = fmt.Errorf("%w: its catalog has schema version %d, this program knows up to %d; use the newer program", ErrNewer, a.Schema, version)
	}
	return err
}

func (r *restoring) folder(name string) error {
	under, rest := split(name + "/")
	if under == filesIn && rest != "" {
		if rest = strings.TrimSuffix(rest, "/"); isApart(topOf(rest)) {
			return fmt.Errorf("%q: %w: a vault keeps something else there", name, ErrName)
		}
		return r.to.folder(rest)
	}
	if isFolderOf(name) {
		return nil
	}
	return fmt.Errorf("%q: %w", name, ErrName)
}

func (r *restoring) take(name string, from io.Reader, size int64, mode fs.FileMode) error {
	switch under, rest := split(name); under {
	case evidenceIn:
		if folder, file := path.Split(rest); len(file) < 65 || folder != file[:2]+"/" {
			return fmt.Errorf("%q: %w: it is not named as evidence is", name, ErrName)
		}
		return r.evidence(rest, from, size)
	case schemesIn:
		return r.scheme(name, rest, from, size)
	case filesIn:
		return r.other(name, rest, from, size, mode)
	}
	if name == headName || name == catalog.DatabaseFile {
		return r.to.add(name, from, size, 0o600)
	}
	return fmt.Errorf("%q: %w", name, ErrName)
}

func (r *restoring) evidence(rest string, from io.Reader, size int64) error {
	hash := sha256.New()
	if err := r.to.add(catalog.StoreFolder+"/"+rest, io.TeeReader(from, hash), size, 0o400); err != nil {
		return err
	}
	return named(rest, hex.EncodeToString(hash.Sum(nil)))
}

func (r *restoring) scheme(name, rest string, from io.Reader, size int64) error {
	if len(rest) != 64+len(".toml") || strings.Contains(rest, "/") || !strings.HasSuffix(rest, ".toml") {
		return fmt.Errorf("%q: %w: it is not named as a kept scheme is", name, ErrName)
	}
	return r.to.add(catalog.SchemeFolder+"/"+rest, from, size, 0o400)
}

// other writes what else lay in the vault's folder; never over what a vault is made of.
func (r *restoring) other(name, rest string, from io.Reader, size int64, mode fs.FileMode) error {
	if isApart(topOf(rest)) {
		return fmt.Errorf("%q: %w: a vault keeps something else there", name, ErrName)
	}
	return r.to.add(rest, from, size, mode|0o400)
}

func topOf(name string) string {
	top, _, _ := strings.Cut(name, "/")
	return top
}

// named compares the hash in an evidence's name with that of its bytes.
func named(file, sum string) error {
	if want, _, _ := strings.Cut(path.Base(file), "."); want != sum {
		return fmt.Errorf("%s: %w: its SHA-256 is %s", file, ErrChanged, sum)
	}
	return nil
}

// sameAsNamed copies an evidence and compares it with the hash in its name.
func sameAsNamed(file string, from io.Reader, to io.Writer) error {
	hash := sha256.New()
	if _, err := io.Copy(io.MultiWriter(to, hash), from); err != nil {
		return err
	}
	return named(file, hex.EncodeToString(hash.Sum(nil)))
}

// RestoreEvidence puts back, from a backup, the files of evidence that are missing from
// the vault's store or altered in it, and the schemes that are; nothing else is changed.
// It returns the SHA-256 of what was put back. The backup may be of an earlier day, and
// is read to its end; each file is checked against its own name before it takes its
// place, so what was put back is right even when the backup turns out damaged later on.
// progress is told as by [Restore].
func RestoreEvidence(ctx context.Context, c *catalog.Catalog, file string, secret Secret, progress func(done, of int64)) (back []string, err error) {
	f, err := os.Open(file)
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	from, err := telling(ctx, f, progress)
	if err != nil {
		return nil, err
	}
	in, err := secret.decrypt(from)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", file, err)
	}
	m := &mending{ctx: ctx, c: c, wanted: map[string]catalog.Evidence{}, schemes: map[string]bool{}, back: []string{}}
	if err := m.look(); err != nil {
		return nil, err
	}
	if _, err := unpack(in, m); err != nil {
		return m.back, fmt.Errorf("%s: %w", file, err)
	}
	return m.back, nil
}

// mending takes from a backup what a vault lacks.
type mending struct {
	ctx     context.Context
	c       *catalog.Catalog
	wanted  map[string]catalog.Evidence // by SHA-256
	schemes map[string]bool             // SHA-256
	back    []string
}

// look finds what is missing or altered.
func (m *mending) look() error {
	all, err := m.c.AllEvidence(m.ctx)
	if err != nil {
		return err
	}
	for _, e := range all {
		if e.Deleted > 0 {
			continue
		}
		switch err := m.c.Store().Check(m.ctx, e.SHA256); {
		case err == nil:
		case errors.Is(err, evidence.ErrMissing), errors.Is(err, evidence.ErrChanged), errors.Is(err, evidence.ErrUnreadable):
			m.wanted[e.SHA256] = e
		default:
			return err
		}
	}
	kept, err := m.c.Schemes(m.ctx)
	for _, s := range kept {
		if _, err := m.c.SchemeBytes(s.SHA256); err != nil {
			m.schemes[s.SHA256] = true
		}
	}
	return err
}

func (m *mending) about(a About) error {
	head, err := seal.ReadHead(m.c.Dir())
	if errors.Is(err, seal.ErrNoHead) {
		return nil // evidence proves itself by its hash
	}
	if err == nil && vaultName(head) != a.Vault {
		err = fmt.Errorf("%w: it is a backup of another vault (%s)", ErrForeign, a.Vault)
	}
	return err
}

func (m *mending) folder(string) error { return nil }

func (m *mending) take(name string, r io.Reader, size int64, _ fs.FileMode) error {
	under, rest := split(name)
	sum, _, _ := strings.Cut(path.Base(rest), ".")
	if e, ok := m.wanted[sum]; ok && under == evidenceIn {
		if err := m.c.Store().Replace(m.ctx, sum, e.Ext, r, size); err != nil {
			return err
		}
		m.back = append(m.back, sum)
		return nil
	}
	if under == schemesIn && m.schemes[sum] && size < 64<<20 {
		data, err := io.ReadAll(r)
		if err != nil {
			return err
		}
		if got := sha256.Sum256(data); hex.EncodeToString(got[:]) != sum {
			return fmt.Errorf("%s: %w", name, ErrChanged)
		}
		if _, err := m.c.KeepScheme(data); err != nil {
			return err
		}
		m.back = append(m.back, sum)
		return nil
	}
	_, err := io.Copy(io.Discard, r)
	return err
}
