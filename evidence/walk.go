package evidence

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"regexp"
	"runtime"
	"slices"
	"strings"
)

// Entry is one thing that lies in the store.
type Entry struct {
	Path   string // below the store's folder, with slashes
	SHA256 string // as its name says; "" for what is no evidence
	Size   int64  // bytes
	Wrong  string // what is wrong with it, as a clause; "" for an evidence as it should be
}

var folderName = regexp.MustCompile(`^[0-9a-f]{2}$`)

// Walk calls fn for every evidence in the store and for whatever does not belong
// there, in the order of their names, until fn returns an error, which it returns. Contents
// are not read: see [Store.Check]. A copy that is under way is passed over. The error
// wraps [ErrUnreadable] if a folder cannot be listed.
func (s *Store) Walk(ctx context.Context, fn func(Entry) error) error {
	return s.walk(ctx, ".", func(e Entry, info fs.FileInfo) error {
		if info != nil && info.IsDir() && folderName.MatchString(e.Path) {
			if runtime.GOOS != "windows" && info.Mode().Perm() != folderMode {
				e.Wrong = fmt.Sprintf("the folder's mode is %04o, want 0700", info.Mode().Perm())
				if err := fn(e); err != nil {
					return err
				}
			}
			return s.walkFolder(ctx, e.Path, fn)
		}
		if e.Wrong == "" {
			e.Wrong = "it does not belong in the store"
		}
		if strings.HasPrefix(e.Path, tempPrefix) {
			if s.underWay(e.Path) {
				return nil
			}
			e.Wrong = "a copy that a stopped program left; vaultd removes it at its next start"
		}
		return fn(e)
	})
}

func (s *Store) walkFolder(ctx context.Context, folder string, fn func(Entry) error) error {
	last := ""
	return s.walk(ctx, folder, func(e Entry, info fs.FileInfo) error {
		name := path.Base(e.Path)
		digest, ext, _ := strings.Cut(name, ".")
		switch {
		case !digestText.MatchString(digest) || digest[:2] != folder || ext == "":
			e.Wrong = "it does not belong in the store"
			return fn(e)
		case e.Wrong != "":
		case !info.Mode().IsRegular():
			e.Wrong = "it is no ordinary file: " + info.Mode().Type().String()
			return fn(e)
		case digest == last:
			e.Wrong = "a second file of the same hash"
			return fn(e)
		case runtime.GOOS != "windows" && info.Mode().Perm() != fileMode:
			e.Wrong = fmt.Sprintf("its mode is %04o, want 0400", info.Mode().Perm())
		}
		last, e.SHA256 = digest, digest
		return fn(e)
	})
}

// walk calls fn for each name in one folder. Where the file cannot be looked at, info
// is nil and Wrong says why.
func (s *Store) walk(ctx context.Context, folder string, fn func(Entry, fs.FileInfo) error) error {
	names, err := s.names(folder)
	if err != nil {
		return onReading(folder, err)
	}
	slices.Sort(names)
	for _, name := range names {
		if err := ctx.Err(); err != nil {
			return err
		}
		e := Entry{Path: path.Join(folder, name)}
		info, err := s.root.Lstat(e.Path)
		switch {
		case os.IsNotExist(err):
			continue // a copy that got its name since the folder was listed
		case err != nil:
			e.Wrong = fmt.Sprintf("it cannot be looked at: %v", err)
		default:
			e.Size = info.Size()
		}
		if err := fn(e, info); err != nil {
			return err
		}
	}
	return nil
}

// underWay reports whether somebody writes a temporary file just now.
func (s *Store) underWay(name string) bool {
	f, err := s.root.Open(name)
	if err != nil {
		return os.IsNotExist(err)
	}
	free, err := tryLock(f)
	return errors.Join(err, f.Close()) == nil && !free
}
