package watcher

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"time"
)

// Options says how folders are watched. The zero Options is ready to use.
type Options struct {
	Settle time.Duration // how long a file must stay unchanged to count as whole; 0 means 2 s
	Poll   time.Duration // how often everything is looked at again; 0 means 30 s
	All    bool          // take by-products too
	Except []string      // folders that are not entered, as the vault's own
	Notice func(Notice)  // is told what is worth saying; nil means nobody. It must not wait
}

func (o Options) settle() time.Duration {
	if o.Settle <= 0 {
		return 2 * time.Second
	}
	return o.Settle
}

func (o Options) poll() time.Duration {
	if o.Poll <= 0 {
		return 30 * time.Second
	}
	return o.Poll
}

func (o Options) say(n Notice) {
	if o.Notice != nil {
		o.Notice(n)
	}
}

// What says what a Notice or a Found is about.
type What string

// What there is to say about a name or a folder.
const (
	Ordinary      What = "ordinary"       // a file to be taken
	PassedOver    What = "passed over"    // a by-product, with the rule
	Unfinished    What = "unfinished"     // passed over, or open for writing, for more than a day
	NotOrdinary   What = "not ordinary"   // a link, pipe, socket or device
	Unreadable    What = "unreadable"     // it, or a folder, may not be read; tried again
	Waits         What = "waits"          // could not be taken; tried again
	Gone          What = "gone"           // seen, and gone before it was taken
	FolderMissing What = "folder missing" // a watched folder is not there; looked for again
	FolderBack    What = "folder back"    // it is there again, or another one in its place
	Polling       What = "polling"        // events are not to be relied on here
	Overflow      What = "overflow"       // events were lost; everything was looked at again
)

// Notice is something that the person may want to know. It is told once for each reason.
type Notice struct {
	What What
	Path string
	Text string // the reason, in words; "" where What says it all
}

// Found is one name that a folder holds. Folders themselves are left out.
type Found struct {
	File File
	What What   // Ordinary, PassedOver, NotOrdinary or Unreadable
	Text string // the reason where What is not Ordinary
}

// Scan lists what lies in dir and its folders now, in the order of names, settled or
// not. A folder that is not entered is one entry. The error is that of dir itself, or
// of ctx.
func Scan(ctx context.Context, dir string, o Options) ([]Found, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	if _, err := os.ReadDir(dir); err != nil {
		return nil, err
	}
	var list []Found
	err = walk(ctx, dir, dir, o, nil, func(f Found) { list = append(list, f) })
	return list, err
}

// walk calls found for every name at and below from, which is root or lies in it, and
// enter for every folder before it is read. Only ctx ends it early.
func walk(ctx context.Context, root, from string, o Options, enter func(string), found func(Found)) error {
	closed := o.closed()
	return filepath.WalkDir(from, func(path string, d fs.DirEntry, err error) error {
		if ctx.Err() != nil {
			return ctx.Err()
		}
		if err != nil {
			if !errors.Is(err, fs.ErrNotExist) {
				found(Found{File: below(root, path), What: Unreadable, Text: reason(err)})
			}
			return nil
		}
		if !d.IsDir() {
			if f, ok := look(root, path, o); ok {
				found(f)
			}
			return nil
		}
		if path != root {
			if info, err := d.Info(); err == nil && slices.ContainsFunc(closed, func(c fs.FileInfo) bool { return os.SameFile(c, info) }) {
				return fs.SkipDir
			}
			if f, ok := passed(root, path, o); ok {
				found(f)
				return fs.SkipDir
			}
		}
		if enter != nil {
			enter(path)
		}
		return nil
	})
}

// closed returns the folders of Options.Except that are there. They are told by what
// they are and not by their paths, which links can spell in more than one way.
func (o Options) closed() []fs.FileInfo {
	var list []fs.FileInfo
	for _, path := range o.Except {
		if info, err := os.Stat(path); err == nil {
			list = append(list, info)
		}
	}
	return list
}

// passed reports whether path is not to be touched because of its name.
func passed(root, path string, o Options) (Found, bool) {
	if rule, ok := ByProduct(filepath.Base(path)); ok && !o.All {
		return Found{File: below(root, path), What: PassedOver, Text: rule.String()}, true
	}
	return Found{}, false
}

// look returns what path names now; false if it is gone.
func look(root, path string, o Options) (Found, bool) {
	file := below(root, path)
	stamp, mode, err := lstamp(path)
	file.Stamp = stamp
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return Found{}, false
	case err != nil:
		return Found{File: file, What: Unreadable, Text: reason(err)}, true
	}
	if f, ok := passed(root, path, o); ok {
		f.File.Stamp = stamp
		return f, true
	}
	if !mode.IsRegular() {
		return Found{File: file, What: NotOrdinary, Text: "it is " + describe(mode)}, true
	}
	return Found{File: file, What: Ordinary}, true
}

func below(root, path string) File {
	name, err := filepath.Rel(root, path)
	if err != nil { // cannot be: path lies in root
		name = path
	}
	return File{Dir: root, Name: name}
}

// reason returns err without the operation and the path, which the notice has.
func reason(err error) string {
	if errors.Is(err, fs.ErrPermission) {
		return "no permission to read it"
	}
	var at *fs.PathError
	if errors.As(err, &at) {
		err = at.Err
	}
	return err.Error()
}
