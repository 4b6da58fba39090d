package audit

import (
	"archive/zip"
	"errors"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"
	"time"

	"evidencevault/credit"
	"evidencevault/internal/lock"
)

// archive has a folder filled and packs it into the ZIP archive name, under the
// archive's own name and in the order of the paths. Every file carries the day on, so
// that equal folders give equal archives.
func archive(name string, on credit.Date, fill func(*os.Root) error) (err error) {
	making, err := lock.Make(name)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, making.Discard()) }() // what is whole was moved out of it
	work := making.Dir
	tree, packed := filepath.Join(work, "tree"), filepath.Join(work, "packed.zip")
	if err := os.Mkdir(tree, 0o700); err != nil {
		return err
	}
	root, err := os.OpenRoot(tree)
	if err != nil {
		return err
	}
	top := strings.TrimSuffix(filepath.Base(name), filepath.Ext(name))
	if err = fill(root); err == nil {
		err = pack(root, packed, top, on)
	}
	if err = errors.Join(err, root.Close()); err != nil {
		return err
	}
	if err := vacant(name); err != nil {
		return err
	}
	return os.Rename(packed, name)
}

func pack(root *os.Root, to, top string, on credit.Date) (err error) {
	f, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	y, m, d := on.YMD()
	day := time.Date(y, time.Month(m), d, 0, 0, 0, 0, time.UTC)
	z := zip.NewWriter(f)
	err = fs.WalkDir(root.FS(), ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		info, err := e.Info()
		if err != nil {
			return err
		}
		h := &zip.FileHeader{Name: path.Join(top, name), Method: zip.Deflate, Modified: day}
		h.SetMode(info.Mode())
		into, err := z.CreateHeader(h)
		if err != nil {
			return err
		}
		from, err := root.Open(name)
		if err != nil {
			return err
		}
		_, err = io.Copy(into, from)
		return errors.Join(err, from.Close())
	})
	return errors.Join(err, z.Close(), f.Sync())
}
