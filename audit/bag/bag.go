// Package bag writes and judges BagIt bags: a folder with a payload under data/,
// lists of its files with their hashes, and tag files that say what it is.
//
// Check reads any bag of the versions 0.93 to 1.0; a [Writer] writes version 1.0.
// Nothing is fetched over a network, and no path leads out of the bag's folder.
// Lengths are bytes. Source: RFC 8493 (2018) and, for what older versions allow,
// the drafts before it.
package bag

import (
	"fmt"
	"io/fs"
	"os"
	"path"
	"slices"
	"strings"
)

// Report is what [Check] found in a bag. The zero Report is that of a sound bag.
type Report struct {
	Version  string    `json:"version"`  // as bagit.txt says; "" when it says nothing usable
	Files    int       `json:"files"`    // of the payload
	Bytes    int64     `json:"bytes"`    // of the payload
	Findings []Finding `json:"findings"` // what makes the bag not valid
	Notes    []Finding `json:"notes"`    // what is odd and leaves it valid
}

// Valid reports whether the bag is complete and every hash is right.
func (r Report) Valid() bool { return len(r.Findings) == 0 }

// Finding is one thing that is wrong with a bag.
type Finding struct {
	File string `json:"file"` // within the bag
	Line int    `json:"line,omitempty"`
	Why  string `json:"why"`
}

// String prints "file:line: why".
func (f Finding) String() string {
	if f.Line > 0 {
		return fmt.Sprintf("%s:%d: %s", f.File, f.Line, f.Why)
	}
	return f.File + ": " + f.Why
}

// Limits of what is read into memory from a foreign bag.
const (
	maxTagFile = 64 << 20 // bytes of one tag file
	maxFiles   = 1 << 20  // of a bag
)

// checker is one run of [Check].
type checker struct {
	root    *os.Root
	version version
	decode  func([]byte) (string, error)
	files   map[string]fs.FileInfo // every regular file, by its path with slashes
	sums    map[string]map[string]string
	gone    int            // payload files that are listed, not there, and no loss
	stood   map[string]int // by file: lists that have it under a name in other case
	report  Report
}

// Check judges the bag in dir: whether it is complete and every hash is right. The
// error says that it could not be judged to the end, as when a file cannot be read.
func Check(dir string) (Report, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return Report{}, fmt.Errorf("checking the bag %s: %w", dir, err)
	}
	defer func() { _ = root.Close() }() // nothing was written
	c := checker{root: root, files: map[string]fs.FileInfo{}, sums: map[string]map[string]string{}, stood: map[string]int{}}
	if err := c.walk(); err != nil {
		return c.report, fmt.Errorf("checking the bag %s: %w", dir, err)
	}
	if err := c.declaration(); err != nil {
		return c.report, fmt.Errorf("checking the bag %s: %w", dir, err)
	}
	if err := c.lists(); err != nil {
		return c.report, fmt.Errorf("checking the bag %s: %w", dir, err)
	}
	return c.report, nil
}

func (c *checker) found(file string, line int, format string, args ...any) {
	c.report.Findings = append(c.report.Findings, Finding{file, line, fmt.Sprintf(format, args...)})
}

func (c *checker) note(file string, line int, format string, args ...any) {
	c.report.Notes = append(c.report.Notes, Finding{file, line, fmt.Sprintf(format, args...)})
}

// walk lists the files. Only folders and regular files belong in a bag: a link or a
// device could lead out of it.
func (c *checker) walk() error {
	err := fs.WalkDir(c.root.FS(), ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir():
			return nil
		case !d.Type().IsRegular():
			c.found(name, 0, "is no regular file")
			return nil
		case len(c.files) >= maxFiles:
			return fmt.Errorf("more than %d files", maxFiles)
		}
		info, err := d.Info()
		if err != nil {
			return err
		}
		c.files[name] = info
		if strings.HasPrefix(name, "data/") {
			c.report.Files++
			c.report.Bytes += info.Size()
			if leftBehind(name) {
				c.note(name, 0, "is a file that a system leaves behind")
			}
		}
		return nil
	})
	if err != nil {
		return err
	}
	if info, err := c.root.Stat("data"); err != nil || !info.IsDir() {
		c.found("data", 0, "the folder of the payload is missing")
	}
	return nil
}

// leftBehind reports whether a file is one that a system makes and removes on its own
// when a folder is looked at or copied.
func leftBehind(name string) bool {
	b := path.Base(name)
	return b == ".DS_Store" || b == "Thumbs.db" || b == "desktop.ini"
}

// version is the two numbers of BagIt-Version.
type version struct{ major, minor int }

func (v version) atLeast(major, minor int) bool {
	return v.major > major || v.major == major && v.minor >= minor
}

// names returns the bag's files in order.
func (c *checker) names() []string {
	list := make([]string, 0, len(c.files))
	for n := range c.files {
		list = append(list, n)
	}
	slices.Sort(list)
	return list
}
