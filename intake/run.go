package intake

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"

	"evidencevault/catalog"
	"evidencevault/watcher"
)

// Report is what one run over files came to.
type Report struct {
	Recovered Recovered
	Taken     []Taken
	Left      []watcher.Left // files that were not taken in, with the reason
	Read      []Read
}

// ToSee reports whether there is something for the person to see: files left
// untaken, or papers left unread.
func (r Report) ToSee() bool {
	for _, read := range r.Read {
		if read.Unread() {
			return true
		}
	}
	return len(r.Left) > 0
}

// Once takes in what lies in the drop folders now, reads it and whatever else is
// pending, and ends. The daemon, the demo and the commands use the same function. The
// error is ctx's, the catalog's, or that of a drop folder that is not there.
func (in *Intake) Once(ctx context.Context) (Report, error) {
	var report Report
	var err error
	if err = in.c.Trouble(); err != nil {
		return report, err
	}
	if report.Recovered.Temporary, err = in.c.Store().Clean(); err != nil {
		return report, err
	}
	drops, err := in.c.Drops(ctx)
	if err != nil {
		return report, err
	}
	for _, d := range drops {
		left, err := watcher.Once(ctx, []string{d.Dir}, in.watching(), in.taker(after(d), &report.Taken))
		report.Left = append(report.Left, left...)
		if err != nil {
			return report, fmt.Errorf("drop folder: %w", err)
		}
	}
	return report, in.readAll(ctx, &report)
}

// Add takes in the files at paths and in the folders at paths, as a drop folder would,
// leaves them where they are, reads them and whatever else is pending, and ends. A
// path that is not there is an error before anything is taken. When ctx ends, the file
// under way is taken in to its end, and the error is a [*StoppedError].
func (in *Intake) Add(ctx context.Context, paths ...string) (Report, error) {
	var report Report
	if err := in.c.Trouble(); err != nil {
		return report, err
	}
	var err error
	if report.Recovered.Temporary, err = in.c.Store().Clean(); err != nil {
		return report, err
	}
	found, err := in.find(ctx, paths)
	if err != nil {
		return report, err
	}
	var files []watcher.File
	for _, f := range found {
		switch f.What {
		case watcher.Ordinary:
			files = append(files, f.File)
		case watcher.PassedOver:
			in.notice(watcher.Notice{What: f.What, Path: f.File.Path(), Text: f.Text})
		default:
			report.Left = append(report.Left, watcher.Left{File: f.File, Err: errors.New(f.Text)})
		}
	}
	left, err := watcher.Each(ctx, files, in.watching(), in.taker(LeaveFile, &report.Taken))
	report.Left = append(report.Left, left...)
	if err != nil {
		return report, in.stopped(ctx, err, len(files)-len(report.Taken)-len(left))
	}
	return report, in.stopped(ctx, in.readAll(ctx, &report), 0)
}

// readAll reads what is pending, and what a stop had left in the store.
func (in *Intake) readAll(ctx context.Context, report *Report) (err error) {
	if report.Read, err = in.ReadPending(ctx); err != nil {
		return err
	}
	report.Recovered.Adopted, err = in.adopt(ctx)
	if err != nil || len(report.Recovered.Adopted) == 0 {
		return err
	}
	more, err := in.ReadPending(ctx)
	report.Read = append(report.Read, more...)
	return err
}

// A StoppedError says what was left undone when a run was asked to end; all else is kept.
// It wraps the error of the context.
type StoppedError struct {
	Files  int // not taken in yet; the same call goes on with them
	Papers int // taken in and not read yet; the next run of any kind reads them
	Err    error
}

func (e *StoppedError) Error() string {
	return fmt.Sprintf("stopped with %d files not taken in and %d papers not read: %v", e.Files, e.Papers, e.Err)
}

func (e *StoppedError) Unwrap() error { return e.Err }

// stopped makes a StoppedError of an error that is ctx's; any other is returned as it is.
func (in *Intake) stopped(ctx context.Context, err error, files int) error {
	if err == nil || ctx.Err() == nil || !errors.Is(err, ctx.Err()) {
		return err
	}
	papers, perr := in.c.Papers(context.WithoutCancel(ctx), catalog.Unread)
	if perr != nil {
		return errors.Join(err, perr)
	}
	papers = slices.DeleteFunc(papers, func(p catalog.Paper) bool { return p.Reading != 0 })
	return &StoppedError{Files: files, Papers: len(papers), Err: err}
}

// find lists what lies at paths. A path that is named itself is never a by-product,
// and a link that is named is followed, as everywhere on a command line.
func (in *Intake) find(ctx context.Context, paths []string) ([]watcher.Found, error) {
	var all []watcher.Found
	for _, path := range paths {
		real, err := filepath.EvalSymlinks(path)
		if err == nil {
			real, err = filepath.Abs(real)
		}
		if err == nil {
			err = in.outside(ctx, real)
		}
		if err != nil {
			return nil, err
		}
		info, err := os.Stat(real)
		if err != nil {
			return nil, err
		}
		if info.IsDir() {
			list, err := watcher.Scan(ctx, real, in.watching())
			if err != nil {
				return nil, err
			}
			all = append(all, list...)
			continue
		}
		f, err := watcher.At(real)
		if err != nil {
			return nil, err
		}
		all = append(all, watcher.Found{File: f, What: watcher.Ordinary})
	}
	return all, nil
}

// ErrOwn says that a path lies in the vault itself, whose files are no evidence.
var ErrOwn = errors.New("this belongs to the vault itself")

// outside refuses a path within the vault, but for its drop folders. The catalog's
// files must not even be opened: closing them again would give SQLite's locks away.
func (in *Intake) outside(ctx context.Context, path string) error {
	vault, err := filepath.EvalSymlinks(in.c.Dir())
	if err != nil {
		return err
	}
	drops, err := in.c.Drops(ctx)
	if err != nil {
		return err
	}
	for _, d := range drops {
		if dir, err := filepath.EvalSymlinks(d.Dir); err == nil && within(dir, path) && dir != vault {
			return nil
		}
	}
	if within(vault, path) {
		return fmt.Errorf("%s: %w: name the files or folders that you want to add", path, ErrOwn)
	}
	return nil
}

func within(dir, path string) bool {
	rel, err := filepath.Rel(dir, path)
	return err == nil && rel != ".." && !strings.HasPrefix(rel, ".."+string(filepath.Separator))
}

// Planned is what [Intake.Add] would do with one file.
type Planned struct {
	watcher.Found
	SHA256 string          // of an ordinary file; "" for one of more than 1 GiB, which is not compared
	Known  bool            // the vault has this content
	Papers []catalog.Paper // what became of it, if Known
}

// Plan lists what Add would do with paths, and changes nothing.
func (in *Intake) Plan(ctx context.Context, paths ...string) ([]Planned, error) {
	found, err := in.find(ctx, paths)
	if err != nil {
		return nil, err
	}
	list := make([]Planned, 0, len(found))
	for _, f := range found {
		p := Planned{Found: f}
		if f.What == watcher.Ordinary {
			if err := in.plan(ctx, &p); err != nil {
				return nil, err
			}
		}
		list = append(list, p)
	}
	return list, nil
}

func (in *Intake) plan(ctx context.Context, p *Planned) error {
	if p.File.Stamp.Size > digestFirst {
		return nil
	}
	sum, err := digestOf(ctx, p.File)
	if err != nil {
		if ctx.Err() != nil {
			return ctx.Err()
		}
		p.What, p.Text = watcher.Unreadable, err.Error()
		return nil
	}
	p.SHA256 = sum
	_, err = in.c.Evidence(ctx, sum)
	if errors.Is(err, catalog.ErrUnknown) {
		return nil
	}
	if err != nil {
		return err
	}
	p.Known = true
	p.Papers, err = in.c.PapersOf(ctx, sum)
	return err
}

// ErrNoDrop says that a vault has no drop folder, so that there is nothing to watch.
var ErrNoDrop = errors.New("the vault has no drop folder; take files in with vaultctl add")

// Run watches the drop folders, takes in what comes and reads it, until ctx ends; then
// it returns nil after what was under way has ended. The error is [ErrNoDrop], or that the
// vault cannot be written to.
func (in *Intake) Run(ctx context.Context) error {
	if err := in.c.Trouble(); err != nil {
		return err
	}
	if _, err := in.c.Store().Clean(); err != nil {
		return err
	}
	drops, err := in.c.Drops(ctx)
	if err != nil {
		return err
	}
	if len(drops) == 0 {
		return ErrNoDrop
	}
	var workers sync.WaitGroup
	defer workers.Wait()
	wake := make(chan struct{}, 1)
	workers.Go(func() { in.keepReading(ctx, wake) })
	dirs := make([]string, len(drops))
	byDir := map[string]After{}
	for i, d := range drops {
		dirs[i], byDir[d.Dir] = d.Dir, after(d)
	}
	return watcher.Watch(ctx, dirs, in.watching(), func(ctx context.Context, f watcher.File) error {
		_, err := in.Take(context.WithoutCancel(ctx), f, byDir[f.Dir])
		if err == nil {
			select {
			case wake <- struct{}{}:
			default: // it is awake
			}
		}
		return err
	})
}

// keepReading reads what is pending when it is woken, and now and then: papers are also
// made by other programs. After the first time it adopts what a stop left.
func (in *Intake) keepReading(ctx context.Context, wake <-chan struct{}) {
	often := in.o.Poll
	if often <= 0 {
		often = 30 * time.Second
	}
	tick := time.NewTicker(often)
	defer tick.Stop()
	adopted := false
	for {
		_, err := in.ReadPending(ctx)
		if err == nil && !adopted {
			_, err = in.adopt(ctx)
			if adopted = err == nil; adopted {
				continue // read what was adopted
			}
		}
		if err != nil && ctx.Err() == nil {
			in.hasRead(Read{Problem: err})
		}
		select {
		case <-ctx.Done():
			return
		case <-wake:
		case <-tick.C:
		}
	}
}

func after(d catalog.Drop) After {
	if d.Empty {
		return RemoveFile
	}
	return LeaveFile
}

// taker returns the function that takes files for a run that ends. A file that was begun
// is taken in to its end when ctx ends: else it might lie in the store without a row.
func (in *Intake) taker(after After, into *[]Taken) func(context.Context, watcher.File) error {
	return func(ctx context.Context, f watcher.File) error {
		taken, err := in.Take(context.WithoutCancel(ctx), f, after)
		if err == nil {
			*into = append(*into, taken)
		}
		return err
	}
}
