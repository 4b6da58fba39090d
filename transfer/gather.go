package transfer

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"evidencevault/catalog"
	"evidencevault/catalog/seal"
	"evidencevault/evidence"
)

// adder is where files go: a tar archive or a folder. It reads size bytes of r. Of mode
// the owner's rights count.
type adder interface {
	add(name string, r io.Reader, size int64, mode fs.FileMode) error
	folder(name string) error
}

// apart lists what lies at the top of a vault's folder and is not among "what else":
// because it goes another way, or because it must never leave, as the key.
var apart = map[string]bool{
	catalog.StoreFolder: true, catalog.SchemeFolder: true, seal.HeadFile: true, "head.new": true,
	seal.KeyFile: true, "key.new": true, "writing": true, "daemon": true,
}

// isApart reports whether a name at the top of a vault's folder is one of those; also
// in another case, since some file systems do not tell the two apart.
func isApart(name string) bool {
	low := strings.ToLower(name)
	return apart[low] || strings.HasPrefix(low, catalog.DatabaseFile) ||
		strings.HasPrefix(low, "catalog-before-schema-") || strings.Contains(low, making)
}

// vaultName is the name of the vault's key, which the head gives.
func vaultName(head []byte) string {
	name, _, _ := strings.Cut(string(head), "\n")
	return name
}

// addEvidence adds the evidence that was taken in up to the event size, hashing it on
// the way. What is missing or altered is listed, and stops it unless incomplete is set.
// again is true when evidence was deleted in good order meanwhile.
func addEvidence(ctx context.Context, c *catalog.Catalog, v *catalog.View, to adder, under string, size int64, o Options, res *Result) (again bool, err error) {
	all, err := v.AllEvidence(ctx)
	if err != nil {
		return false, err
	}
	var of, done int64
	for _, e := range all {
		of += e.Size
	}
	for _, e := range all {
		if err := ctx.Err(); err != nil {
			return false, err
		}
		if e.Event > size || e.Deleted > 0 && e.Deleted <= size {
			continue
		}
		if e.Deleted > 0 {
			return true, nil
		}
		err := addOne(c.Store(), to, under, e)
		switch {
		case err == nil:
			res.Evidence++
			res.Bytes += e.Size
		case errors.Is(err, evidence.ErrMissing), errors.Is(err, evidence.ErrChanged), errors.Is(err, evidence.ErrUnreadable):
			if now, nerr := c.Evidence(ctx, e.SHA256); nerr == nil && now.Deleted > 0 {
				return true, nil
			}
			res.Missing = append(res.Missing, e.SHA256)
			if !o.Incomplete {
				return false, fmt.Errorf("%s: %w: %v; or go on without it with --incomplete", e.Names[0].Name, ErrMissing, err)
			}
		default:
			return false, err
		}
		if done += e.Size; o.Progress != nil {
			o.Progress(done, of)
		}
	}
	return false, nil
}

// addOne checks an evidence and adds it; what is altered adds nothing.
func addOne(store *evidence.Store, to adder, under string, e catalog.Evidence) error {
	if err := store.Check(context.Background(), e.SHA256); err != nil {
		return err
	}
	f, err := store.Open(e.SHA256)
	if err != nil {
		return err
	}
	name := under + e.SHA256 + e.Ext
	if under == evidenceIn {
		name = under + e.SHA256[:2] + "/" + e.SHA256 + e.Ext
	}
	return errors.Join(to.add(name, f, e.Size, 0o400), f.Close())
}

// addSchemes adds the bytes of every scheme that the log names.
func addSchemes(ctx context.Context, c *catalog.Catalog, v *catalog.View, to adder) error {
	kept, err := v.Schemes(ctx)
	if err != nil {
		return err
	}
	for _, s := range kept {
		data, err := c.SchemeBytes(s.SHA256)
		if err != nil {
			return err
		}
		if err := to.add(schemesIn+s.SHA256+".toml", strings.NewReader(string(data)), int64(len(data)), 0o400); err != nil {
			return err
		}
	}
	return nil
}

// addFiles adds what else lies in the vault's folder: the file of what is possible, the
// archives of closed cycles, what waits in a drop folder. Links and devices are passed
// over, and so are archives of closings that the copy of the database does not have as
// done. again is true when one of those that it has, or of those that were copied, was
// finished, taken back or deleted meanwhile.
func addFiles(ctx context.Context, c *catalog.Catalog, closings []catalog.Closing, to adder) (again bool, err error) {
	dir := c.Dir()
	copied := map[string]bool{} // archives
	err = filepath.WalkDir(dir, func(at string, d fs.DirEntry, err error) error {
		if err != nil {
			if errors.Is(err, fs.ErrNotExist) && at != dir {
				return nil // taken in from the drop folder just now
			}
			return err
		}
		if err := ctx.Err(); err != nil {
			return err
		}
		rel, err := filepath.Rel(dir, at)
		if err != nil || rel == "." {
			return err
		}
		if filepath.Dir(rel) == "." && isApart(rel) {
			if d.IsDir() {
				return fs.SkipDir
			}
			return nil
		}
		if filepath.Dir(rel) == catalog.ArchiveFolder && d.IsDir() {
			if passedOver(closings, filepath.Base(rel)) {
				return fs.SkipDir
			}
			copied[filepath.Base(rel)] = true
		}
		name := filesIn + filepath.ToSlash(rel)
		if d.IsDir() {
			return to.folder(name)
		}
		if !d.Type().IsRegular() {
			return nil
		}
		return addFile(at, name, to)
	})
	if err != nil {
		return false, err
	}
	now, err := c.Closings(ctx, "")
	return moved(closings, now, copied), err
}

// counts reports whether a closing has an archive by that name that is to be there.
func counts(list []catalog.Closing, archive string) (event int64, ok bool) {
	for _, k := range list {
		if k.Archive == archive && k.State == catalog.ClosingClosed && k.Gone == 0 {
			return k.Event, true
		}
	}
	return 0, false
}

// passedOver reports whether a folder among the archives is one that is being made, or
// of a closing that was only begun or does not count any more.
func passedOver(list []catalog.Closing, name string) bool {
	if _, ok := counts(list, name); ok {
		return false
	}
	return strings.HasPrefix(name, ".") || slices.ContainsFunc(list, func(k catalog.Closing) bool { return k.Archive == name })
}

// moved reports whether archives that were copied, or should have been, are of other
// closings now than before.
func moved(before, now []catalog.Closing, copied map[string]bool) bool {
	for _, k := range slices.Concat(before, now) {
		was, did := counts(before, k.Archive)
		is, does := counts(now, k.Archive)
		if did && (!does || was != is) || !did && copied[k.Archive] {
			return true
		}
	}
	return false
}

func addFile(at, name string, to adder) error {
	f, err := os.Open(at)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	info, err := f.Stat()
	if err == nil {
		err = to.add(name, f, info.Size(), info.Mode().Perm()&0o700)
	}
	return errors.Join(err, f.Close())
}

// within refuses a place for a backup or an export in the vault itself: it would hold
// itself, and be gone with the disk that it is to save from.
func within(dir, target string) error {
	real, err := filepath.EvalSymlinks(dir)
	if err != nil {
		return err
	}
	parent, err := filepath.EvalSymlinks(filepath.Dir(target))
	if err != nil {
		return nil // it is made later, and cannot lie within what exists
	}
	rel, err := filepath.Rel(real, filepath.Join(parent, filepath.Base(target)))
	if err == nil && filepath.IsLocal(rel) {
		return fmt.Errorf("%s: it lies in the vault itself; name a place outside, best on another disk", target)
	}
	return nil
}

func stamp(t time.Time) string { return t.UTC().Format(time.RFC3339) }

// cleanName checks a name within a backup or an export: relative, with slashes, no
// dots, nothing that another system takes for a drive, a device or a folder.
func cleanName(name string) error {
	switch {
	case name == "" || name != path.Clean(name) || !fs.ValidPath(name) || !filepath.IsLocal(filepath.FromSlash(name)):
	case strings.ContainsAny(name, "\x00\\"):
	default:
		return nil
	}
	return fmt.Errorf("%q: %w: it leads elsewhere", name, ErrName)
}
