package audit

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"evidencevault/audit/bag"
	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/journal"
)

// ErrArchive says that the archive of a closed cycle is missing or not as at its closing.
var ErrArchive = errors.New("the archive is not as at its closing")

// sealName is the file whose SHA-256 stands for a whole archive: it lists the hashes of
// the lists of hashes.
const sealName = "tagmanifest-sha256.txt"

// otherSeal is the same with SHA-512.
const otherSeal = "tagmanifest-sha512.txt"

// Archive is the archive of a closed cycle. Everything that it returns is, byte for byte,
// what was written at the closing: each file is hashed against the lists of hashes, and
// these against the log.
type Archive struct {
	Cycle  journal.Cycle
	dir    string
	where  string            // the same within the vault
	digest string            // as the log says
	sums   map[string]string // SHA-256 by path within the bag
}

// OpenArchive opens the archive of a closed cycle, named by its number or a day in it.
// The error wraps [journal.ErrCycle] when the cycle is not closed or its archive was
// deleted, and [ErrArchive] when it is missing or its lists of hashes were altered.
func OpenArchive(ctx context.Context, j *journal.Journal, certification, cycle string) (*Archive, error) {
	c, err := j.Cycle(ctx, certification, cycle)
	if err != nil {
		return nil, err
	}
	switch {
	case c.State != journal.CycleClosed:
		return nil, fmt.Errorf("cycle %d, %v to %v: %w: it is not closed, so leave out --cycle", c.Number, c.Start, c.End, journal.ErrCycle)
	case c.ArchiveGone:
		return nil, fmt.Errorf("cycle %d, %v to %v: %w: its archive was deleted after the time of keeping; vaultctl cycles has its figures", c.Number, c.Start, c.End, journal.ErrCycle)
	}
	a, err := openArchive(j.Catalog().Dir(), c.Closing)
	if err != nil {
		return nil, err
	}
	a.Cycle = c
	return a, nil
}

// backFromBackup ends what is said of an archive that is not whole.
const backFromBackup = "; bring it back from a backup"

// openArchive opens the archive of a closing. The error wraps [ErrArchive].
func openArchive(vault string, c catalog.Closing) (*Archive, error) {
	a := &Archive{where: journal.ArchiveFolder + "/" + c.Archive, digest: c.Digest, sums: map[string]string{}}
	a.dir = filepath.Join(vault, filepath.FromSlash(a.where))
	digest, err := archiveDigest(a.dir)
	if err != nil {
		return nil, fmt.Errorf("%s: %w: %w; bring it back from a backup", a.where, ErrArchive, err)
	}
	if digest != a.digest {
		return nil, fmt.Errorf("%s/%s: %w: it has sha256 %s, and the log says %s; bring it back from a backup", a.where, sealName, ErrArchive, digest, a.digest)
	}
	return a, a.lists()
}

// archiveDigest is the SHA-256 that stands for an archive.
func archiveDigest(dir string) (string, error) {
	data, err := os.ReadFile(filepath.Join(dir, sealName))
	if err != nil {
		return "", err
	}
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:]), nil
}

// lists reads the lists of hashes.
func (a *Archive) lists() error {
	for _, name := range []string{sealName, "manifest-sha256.txt"} {
		data, err := os.ReadFile(filepath.Join(a.dir, name))
		if err != nil {
			return fmt.Errorf("%s: %w: %w", a.where, ErrArchive, err)
		}
		if want, listed := a.sums[name]; listed && want != sumOf(data) {
			return fmt.Errorf("%s/%s: %w: it was altered; bring it back from a backup", a.where, name, ErrArchive)
		}
		for line := range strings.Lines(string(data)) {
			if sum, file, ok := strings.Cut(strings.TrimRight(line, "\r\n"), "  "); ok {
				a.sums[file] = sum
			}
		}
	}
	return nil
}

func sumOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// read returns a file of the payload, checked.
func (a *Archive) read(name string) ([]byte, error) {
	data, err := os.ReadFile(filepath.Join(a.dir, filepath.FromSlash(payload+name)))
	if err != nil {
		return nil, fmt.Errorf("%w: %w; bring it back from a backup", ErrArchive, err)
	}
	if want := a.sums[payload+name]; want != sumOf(data) {
		return nil, fmt.Errorf("%s/%s%s: %w: it was altered; bring it back from a backup", a.where, payload, name, ErrArchive)
	}
	return data, nil
}

func readRecord[T any](a *Archive, name string) (out T, err error) {
	data, err := a.read(name)
	if err != nil {
		return out, err
	}
	if err := json.Unmarshal(data, &out); err != nil {
		return out, fmt.Errorf("%s/%s%s: %w", a.where, payload, name, err)
	}
	return out, nil
}

// Standing returns the standing at the closing, and the bytes that standing --json
// printed then.
func (a *Archive) Standing() (credit.Recorded, []byte, error) {
	data, err := a.read(recordStatement)
	if err != nil {
		return credit.Recorded{}, nil, err
	}
	st, err := credit.ParseRecorded(data)
	if err != nil {
		return st, nil, err
	}
	text, err := a.read(recordStanding)
	return st, text, err
}

// Claims returns the claims at the closing, and the bytes that claims --json printed then.
func (a *Archive) Claims() ([]journal.Claim, []byte, error) {
	list, err := readRecord[[]journal.Claim](a, recordClaims)
	if err != nil {
		return nil, nil, err
	}
	text, err := a.read(recordClaims)
	return list, text, err
}

// Record returns what the archive says of the closing itself.
func (a *Archive) Record() (ClosingRecord, error) {
	return readRecord[ClosingRecord](a, recordClosing)
}

// Explain returns the derivations as they were at the closing. The error wraps
// [ErrNoClaim] or [journal.ErrNotAsked].
func (a *Archive) Explain(f journal.ExplainFilter) ([]journal.Explanation, error) {
	asked, err := readRecord[map[string][]journal.Explanation](a, recordExplanations)
	if err != nil {
		return nil, err
	}
	keys := []string{""}
	switch {
	case len(f.IDs) > 0:
		keys = f.IDs
	case f.Category != "":
		keys = []string{"category " + f.Category}
	case f.Minimum != "":
		keys = []string{"minimum " + f.Minimum}
	}
	var list []journal.Explanation
	for _, key := range keys {
		found, ok := asked[key]
		if !ok && len(f.IDs) > 0 {
			return nil, fmt.Errorf("claim %s: %w %d", key, ErrNoClaim, a.Cycle.Number)
		}
		if !ok {
			return nil, fmt.Errorf("%q: %w in cycle %d", f.Category+f.Minimum, journal.ErrNotAsked, a.Cycle.Number)
		}
		list = append(list, found...)
	}
	return list, nil
}

// CopyPacket writes the archive as a packet to the folder dir or, where dir ends in
// .zip, as one file. It is the packet of the closing, byte for byte. The error wraps
// [ErrThere] or [ErrArchive].
func (a *Archive) CopyPacket(ctx context.Context, dir string) error {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return err
	}
	if err := free(dir); err != nil {
		return err
	}
	fill := func(root *os.Root) error { return a.copyTo(ctx, root, "") }
	if isArchive(dir) {
		return archive(dir, a.Cycle.On, fill)
	}
	return place(dir, false, fill)
}

// CopyIndex writes the index of the closing to the folder dir, byte for byte. The error
// wraps [ErrFolder] or [ErrArchive].
func (a *Archive) CopyIndex(ctx context.Context, dir string) error {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return err
	}
	there, err := replaceable(dir)
	if err != nil {
		return err
	}
	return place(dir, there, func(root *os.Root) error { return a.copyTo(ctx, root, payload) })
}

// copyTo copies the files below a folder of the bag: of the payload only what an index
// consists of.
func (a *Archive) copyTo(ctx context.Context, root *os.Root, below string) error {
	names := []string{}
	for name := range a.sums {
		rest, ok := strings.CutPrefix(name, below)
		if top, _, _ := strings.Cut(rest, "/"); ok && (below == "" || slices.Contains(parts, top)) {
			names = append(names, name)
		}
	}
	if below == "" {
		names = append(names, sealName, otherSeal)
	}
	slices.Sort(names)
	for _, name := range names {
		if err := ctx.Err(); err != nil {
			return err
		}
		if err := a.copyFile(root, name, strings.TrimPrefix(name, below)); err != nil {
			return err
		}
	}
	return nil
}

func (a *Archive) copyFile(root *os.Root, name, to string) (err error) {
	from, err := os.Open(filepath.Join(a.dir, filepath.FromSlash(name)))
	if err != nil {
		return fmt.Errorf("%w: %w; bring it back from a backup", ErrArchive, err)
	}
	defer func() { err = errors.Join(err, from.Close()) }()
	info, err := from.Stat()
	if err != nil {
		return err
	}
	if dir := path.Dir(to); dir != "." {
		if err := root.MkdirAll(dir, 0o700); err != nil {
			return err
		}
	}
	sum, err := folder{root}.Add(to, from, info.Mode().Perm())
	if err != nil {
		return err
	}
	want := a.sums[name]
	if name == sealName {
		want = a.digest
	}
	if sum != want && name != otherSeal { // no list has that one; verify checks it against the files
		return fmt.Errorf("%s/%s: %w: it was altered; bring it back from a backup", a.where, name, ErrArchive)
	}
	return nil
}

// WhatArchive is what a finding on the archive of a closed cycle is about.
const WhatArchive = "archive"

// verifyArchives checks the archive of every closed cycle, and looks for what lies
// beside them. notes are what is no finding.
func verifyArchives(ctx context.Context, cat *catalog.Catalog) (found []Finding, notes []string, err error) {
	closings, err := cat.Closings(ctx, "")
	if err != nil {
		return nil, nil, err
	}
	add := func(where, why, mend string, claims ...string) {
		f := Finding{}
		f.What, f.Where, f.Why, f.Mend, f.Claims = WhatArchive, where, why, mend, some(claims)
		found = append(found, f)
	}
	known := map[string]bool{}
	for _, c := range closings {
		if c.State == catalog.ClosingOpen {
			known[c.Archive] = true
			notes = append(notes, "the closing "+c.Archive+" was begun and is not finished: close --resume or close --undo")
		}
		if c.State != catalog.ClosingClosed || c.Gone > 0 {
			continue
		}
		known[c.Archive] = true
		a, err := openArchive(cat.Dir(), c)
		if errors.Is(err, ErrArchive) {
			why := strings.TrimSuffix(strings.TrimPrefix(err.Error(), journal.ArchiveFolder+"/"+c.Archive+": "), backFromBackup)
			add(journal.ArchiveFolder+"/"+c.Archive, why, "bring it back from a backup")
			continue
		}
		if err != nil {
			return nil, nil, err
		}
		report, err := bag.Check(a.dir)
		if err != nil {
			return nil, nil, err
		}
		for _, f := range report.Findings {
			add(a.where, f.String(), "bring it back from a backup", a.claimsOf(f.File)...)
		}
	}
	left, making, err := leftovers(ctx, &cat.View, filepath.Join(cat.Dir(), journal.ArchiveFolder))
	if err != nil {
		return nil, nil, err
	}
	for _, name := range left {
		known[name] = true
		notes = append(notes, journal.ArchiveFolder+"/"+name+" was left by a closing or deletion that was stopped; the next close or delete removes it")
	}
	for _, name := range making {
		known[name] = true
		notes = append(notes, journal.ArchiveFolder+"/"+name+" is being made by a closing that goes on now")
	}
	entries, err := os.ReadDir(filepath.Join(cat.Dir(), journal.ArchiveFolder))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, nil, err
	}
	for _, e := range entries {
		if !known[e.Name()] {
			add(journal.ArchiveFolder+"/"+e.Name(), "no closing made it", "look at it, and take it away if it is not yours")
		}
	}
	return found, notes, nil
}

// claimsOf names the claims that an original of the archive proves.
func (a *Archive) claimsOf(file string) []string {
	data, err := a.read("index.json")
	if err != nil {
		return nil
	}
	var d struct{ Claims []Entry }
	if err := json.NewDecoder(bytes.NewReader(data)).Decode(&d); err != nil && !errors.Is(err, io.EOF) {
		return nil
	}
	var out []string
	for _, e := range d.Claims {
		if slices.ContainsFunc(e.Proofs, func(p Proof) bool { return payload+p.Copy == file }) {
			out = append(out, e.ID)
		}
	}
	return out
}
