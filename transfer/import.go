package transfer

import (
	"bufio"
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
	"slices"
	"strings"
	"time"

	"evidencevault/catalog"
	"evidencevault/catalog/seal"
)

// Import makes the vault dir, which must be absent or empty, from an export. Every file
// is compared with SHA256SUMS, every leaf of the log made again, the tree compared with
// the signed head, and the rows made from the events; vault.json is for other programs
// and not read. Then it goes on as [Restore] does, with the same errors. progress, if not
// nil, is told how many bytes of the export are copied, of how many.
func Import(ctx context.Context, from, dir string, o catalog.Options, progress func(done, of int64)) (Result, error) {
	return bringIn(ctx, dir, o, func(to *os.Root, made string) (_ []string, err error) {
		root, err := os.OpenRoot(from)
		if err != nil {
			return nil, err
		}
		defer func() { err = errors.Join(err, root.Close()) }()
		about, err := importInto(ctx, root, to, made, progress)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", from, err)
		}
		return about.Missing, nil
	})
}

func importInto(ctx context.Context, root, to *os.Root, made string, progress func(done, of int64)) (About, error) {
	about, err := exportAbout(root)
	if err != nil {
		return about, err
	}
	text, err := root.ReadFile(sumsName)
	if err != nil {
		return about, fmt.Errorf("%w: %v; export again", ErrCut, err)
	}
	want, err := parseList(string(text))
	if err != nil {
		return about, err
	}
	tell, err := tellOf(root, progress)
	if err != nil {
		return about, err
	}
	got, err := copyAll(ctx, root, &restoring{intoFolder{to}}, tell)
	if err != nil {
		return about, err
	}
	if err := sameSums(want, got); err != nil {
		return about, err
	}
	if err := refill(ctx, root, made); err != nil {
		return about, err
	}
	head, err := root.ReadFile(headName)
	if err != nil {
		return about, err
	}
	return about, seal.WriteHead(made, head)
}

func exportAbout(root *os.Root) (About, error) {
	f, err := root.Open(aboutName)
	if errors.Is(err, fs.ErrNotExist) {
		return About{}, fmt.Errorf("%w: %s is missing", ErrForeign, aboutName)
	}
	if err != nil {
		return About{}, err
	}
	data, err := io.ReadAll(io.LimitReader(f, mostAbout))
	if err = errors.Join(err, f.Close()); err != nil {
		return About{}, err
	}
	about, err := parseAbout(data, exportForm)
	if err == nil {
		err = known(about)
	}
	return about, err
}

// copyAll hashes every file of an export but the list itself, and copies those that
// belong in a vault's folder.
func copyAll(ctx context.Context, root *os.Root, to *restoring, tell func(n int64)) (map[string]string, error) {
	sums := map[string]string{}
	err := fs.WalkDir(root.FS(), ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case ctx.Err() != nil:
			return ctx.Err()
		case name == "." || name == sumsName:
			return nil
		case d.IsDir():
			if strings.HasPrefix(name, filesIn) {
				return to.folder(name)
			}
			return nil
		case !d.Type().IsRegular():
			return fmt.Errorf("%q: %w: it is no ordinary file", name, ErrName)
		}
		if err := cleanName(name); err != nil {
			return err
		}
		if sums[name], err = copyOne(root, name, to); err != nil {
			return err
		}
		info, err := d.Info()
		if err == nil {
			tell(info.Size())
		}
		return err
	})
	return sums, err
}

// tellOf returns a function that is told of each file by its size, and tells progress
// how many bytes of the export are done.
func tellOf(root *os.Root, progress func(done, of int64)) (func(n int64), error) {
	if progress == nil {
		return func(int64) {}, nil
	}
	var done, of int64
	err := fs.WalkDir(root.FS(), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || name == sumsName {
			return err
		}
		info, err := d.Info()
		if err == nil {
			of += info.Size()
		}
		return err
	})
	return func(n int64) {
		done += n
		progress(done, of)
	}, err
}

func copyOne(root *os.Root, name string, to *restoring) (string, error) {
	f, err := root.Open(name)
	if err != nil {
		return "", err
	}
	info, err := f.Stat()
	if err != nil {
		return "", errors.Join(err, f.Close())
	}
	hash := sha256.New()
	from := io.TeeReader(f, hash)
	if under, rest := split(name); under == originalsIn {
		if len(path.Base(rest)) < 65 || strings.Contains(rest, "/") {
			err = fmt.Errorf("%q: %w: it is not named as evidence is", name, ErrName)
		} else {
			err = to.evidence(rest[:2]+"/"+rest, from, info.Size())
		}
	} else if under == schemesIn || under == filesIn {
		err = to.take(name, from, info.Size(), info.Mode().Perm()&0o700)
	} else if !slices.Contains([]string{aboutName, headName, logName, rowsName}, name) {
		err = fmt.Errorf("%q: %w: an export has no such file", name, ErrName)
	}
	if err == nil {
		_, err = io.Copy(hash, f)
	}
	return hex.EncodeToString(hash.Sum(nil)), errors.Join(err, f.Close())
}

// longestEvent bounds one line of the log.
const longestEvent = 64 << 20

// refill makes the database from the export's log.
func refill(ctx context.Context, root *os.Root, made string) (err error) {
	f, err := root.Open(logName)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	lines := bufio.NewScanner(f)
	lines.Buffer(make([]byte, 64<<10), longestEvent)
	number := 0
	return catalog.Refill(ctx, made, func() (catalog.Logged, error) {
		if !lines.Scan() {
			if err := lines.Err(); err != nil {
				return catalog.Logged{}, fmt.Errorf("%s, after line %d: %w", logName, number, err)
			}
			return catalog.Logged{}, io.EOF
		}
		number++
		e, err := parseLine(lines.Bytes())
		if err != nil {
			return e, fmt.Errorf("%s, line %d: %w: %w", logName, number, ErrChanged, err)
		}
		return e, nil
	})
}

func parseLine(text []byte) (out catalog.Logged, err error) {
	var l logLine
	if err := json.Unmarshal(text, &l); err != nil {
		return out, err
	}
	at, err := time.Parse(timeForm, l.At)
	if err != nil {
		return out, err
	}
	leaf, err := hex.DecodeString(l.Leaf)
	if err != nil || len(leaf) != len(out.Leaf) {
		return out, errors.New("its leaf is no SHA-256 in hex")
	}
	out.Event = catalog.Event{Number: l.Number, Act: l.Act, At: at, Kind: l.Kind, Body: slices.Clone(l.Body)}
	if string(l.Body) == "null" {
		out.Body = nil
	}
	copy(out.Leaf[:], leaf)
	return out, nil
}
