package transfer

import (
	"archive/tar"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"strings"
	"time"
)

// packer writes the tar archive of a backup and gathers the list of hashes.
type packer struct {
	tar  *tar.Writer
	made time.Time
	list strings.Builder
}

func (p *packer) add(name string, r io.Reader, size int64, mode fs.FileMode) error {
	if err := p.tar.WriteHeader(&tar.Header{Typeflag: tar.TypeReg, Name: name, Size: size, Mode: int64(mode), ModTime: p.made, Format: tar.FormatPAX}); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	hash := sha256.New()
	n, err := io.Copy(io.MultiWriter(p.tar, hash), io.LimitReader(r, size))
	if err == nil && n < size {
		err = errors.New("it grew shorter while it was copied; try again")
	}
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	p.list.WriteString(listLine(hex.EncodeToString(hash.Sum(nil)), name))
	return nil
}

func (p *packer) folder(name string) error {
	return p.tar.WriteHeader(&tar.Header{Typeflag: tar.TypeDir, Name: name + "/", Mode: 0o700, ModTime: p.made, Format: tar.FormatPAX})
}

// close writes the list of hashes and the archive's end.
func (p *packer) close() error {
	text := p.list.String()
	return errors.Join(p.add(listName, strings.NewReader(text), int64(len(text)), 0o600), p.tar.Close())
}

// listLine is one line as sha256sum writes and reads it: a name with a line end or a
// backslash is escaped, and the line then begins with a backslash (GNU coreutils
// manual, section "md5sum invocation").
func listLine(sum, name string) string {
	if !strings.ContainsAny(name, "\\\n\r") {
		return sum + "  " + name + "\n"
	}
	return "\\" + sum + "  " + strings.NewReplacer("\\", `\\`, "\n", `\n`, "\r", `\r`).Replace(name) + "\n"
}

// parseList reads what listLine wrote: hashes by name.
func parseList(text string) (map[string]string, error) {
	out := map[string]string{}
	for line := range strings.Lines(text) {
		line, ended := strings.CutSuffix(line, "\n")
		rest, escaped := strings.CutPrefix(line, "\\")
		sum, name, ok := strings.Cut(rest, "  ")
		if escaped {
			name = strings.NewReplacer(`\\`, "\\", `\n`, "\n", `\r`, "\r").Replace(name)
		}
		if !ended || !ok || len(sum) != 64 || name == "" || out[name] != "" {
			return nil, fmt.Errorf("the list of hashes: %w: line %.80q", ErrChanged, line)
		}
		out[name] = sum
	}
	return out, nil
}

// taker gets the files of a backup, in their order.
type taker interface {
	// about is called first. An error ends the reading.
	about(About) error
	// take gets one file; it must read r to its end.
	take(name string, r io.Reader, size int64, mode fs.FileMode) error
	folder(name string) error
}

// unpack reads the tar archive of a backup to its end and checks it against its list of
// hashes. Its error wraps [ErrForeign], [ErrNewer], [ErrCut], [ErrChanged] or [ErrName].
// What to has taken by then is only to be trusted when it returns nil.
func unpack(r io.Reader, to taker) (About, error) {
	var about About
	t := tar.NewReader(r)
	sums := map[string]string{}
	for first := true; ; first = false {
		h, err := t.Next()
		if err != nil {
			return about, brokenAt(err, first)
		}
		name := strings.TrimSuffix(h.Name, "/")
		if err := cleanName(name); err != nil {
			return about, err
		}
		if first {
			if about, err = readAbout(t, h, sums); err == nil {
				err = to.about(about)
			}
		} else if h.Typeflag == tar.TypeDir {
			err = to.folder(name)
		} else if h.Typeflag != tar.TypeReg {
			err = fmt.Errorf("%q: %w: it is no ordinary file", name, ErrName)
		} else if name == listName {
			return about, finish(t, sums)
		} else if sums[name] != "" {
			err = fmt.Errorf("%q: %w: it is there twice", name, ErrName)
		} else {
			err = takeOne(t, h, name, sums, to)
		}
		if err != nil {
			return about, err
		}
	}
}

func takeOne(t *tar.Reader, h *tar.Header, name string, sums map[string]string, to taker) error {
	hash := sha256.New()
	from := io.TeeReader(t, hash)
	if err := to.take(name, from, h.Size, fs.FileMode(h.Mode)&0o700); err != nil {
		if errors.Is(err, io.ErrUnexpectedEOF) {
			return brokenAt(err, false)
		}
		return err
	}
	if _, err := io.Copy(io.Discard, from); err != nil {
		return brokenAt(err, false)
	}
	sums[name] = hex.EncodeToString(hash.Sum(nil))
	return nil
}

// brokenAt says what an error of the archive means.
func brokenAt(err error, first bool) error {
	switch {
	case errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
		if first {
			return fmt.Errorf("%w: it is empty or shorter than any backup", ErrForeign)
		}
		return fmt.Errorf("%w: it ends before its list of hashes; take another backup", ErrCut)
	case errors.Is(err, tar.ErrHeader) && first:
		return fmt.Errorf("%w: it is no backup of a vault", ErrForeign)
	case errors.Is(err, tar.ErrHeader):
		return fmt.Errorf("%w: a header within it cannot be read; take another backup", ErrChanged)
	}
	return fmt.Errorf("read the backup: %w", err)
}

// mostAbout bounds about.json; the list of what is missing is the only long thing in it.
const mostAbout = 16 << 20

func readAbout(t *tar.Reader, h *tar.Header, sums map[string]string) (About, error) {
	if h.Name != aboutName || h.Typeflag != tar.TypeReg || h.Size > mostAbout {
		return About{}, fmt.Errorf("%w: it does not begin with %s", ErrForeign, aboutName)
	}
	data, err := io.ReadAll(t)
	if err != nil {
		return About{}, brokenAt(err, false)
	}
	sum := sha256.Sum256(data)
	sums[aboutName] = hex.EncodeToString(sum[:])
	return parseAbout(data, backupForm)
}

func parseAbout(data []byte, form string) (a About, err error) {
	if err := json.Unmarshal(data, &a); err != nil || a.Form != form {
		return a, fmt.Errorf("%w: %s does not say %q", ErrForeign, aboutName, form)
	}
	if a.Version > formVersion {
		return a, fmt.Errorf("%w: its form has version %d, this program knows up to %d; use the newer program", ErrNewer, a.Version, formVersion)
	}
	return a, nil
}

// finish compares the list at the end with what was read.
func finish(t *tar.Reader, sums map[string]string) error {
	text, err := io.ReadAll(t)
	if err != nil {
		return brokenAt(err, false)
	}
	want, err := parseList(string(text))
	if err != nil {
		return err
	}
	if err := sameSums(want, sums); err != nil {
		return err
	}
	if _, err := t.Next(); !errors.Is(err, io.EOF) {
		return fmt.Errorf("%w: something follows its list of hashes, or its end is missing", ErrChanged)
	}
	return nil
}

// sameSums compares a list of hashes with what was found.
func sameSums(want, got map[string]string) error {
	for name, sum := range want {
		switch got[name] {
		case sum:
		case "":
			return fmt.Errorf("%s: %w: it is listed and not there", name, ErrChanged)
		default:
			return fmt.Errorf("%s: %w: its hash is not the listed one", name, ErrChanged)
		}
	}
	for name := range got {
		if want[name] == "" {
			return fmt.Errorf("%s: %w: it is there and not listed", name, ErrChanged)
		}
	}
	return nil
}

// split takes a name of a backup apart: the folder it stands under, with a slash at the
// end, "" for the top, and the rest.
func split(name string) (under, rest string) {
	for _, u := range []string{schemesIn, evidenceIn, originalsIn, filesIn} {
		if rest, ok := strings.CutPrefix(name, u); ok {
			return u, rest
		}
	}
	return "", name
}

// isFolderOf reports whether a folder's name is one that a vault has anyway.
func isFolderOf(name string) bool {
	under, rest := split(name + "/")
	return under != "" && (rest == "" || under == evidenceIn && fs.ValidPath(path.Clean(rest)))
}
