package watcher

import (
	"context"
	"maps"
	"slices"
	"time"
)

// Left is a file that [Once] did not hand on, or that could not be taken.
type Left struct {
	File File
	Err  error
}

// Once hands every file that lies in dirs now to take, one after another in the
// order of their names, when it has settled, and returns those that were left: not
// taken, not readable, or still being written after five times the settling time. What comes
// later is not waited for. The error is ctx's, or that of a folder that cannot be read.
func Once(ctx context.Context, dirs []string, o Options, take func(context.Context, File) error) ([]Left, error) {
	t := newTracker(o)
	var left []Left
	for _, dir := range dirs {
		list, err := Scan(ctx, dir, o)
		if err != nil {
			return nil, err
		}
		for _, f := range list {
			t.see(f, time.Now())
			if f.What == Unreadable || f.What == NotOrdinary {
				left = append(left, Left{f.File, &notTaken{f.Text}})
			}
		}
	}
	more, err := t.drain(ctx, take)
	return append(left, more...), err
}

// Each does for the files given what [Once] does for folders; somebody named them, so
// that by-products are taken too. Files that are being written are left after five
// times the settling time.
func Each(ctx context.Context, files []File, o Options, take func(context.Context, File) error) ([]Left, error) {
	o.All = true
	t := newTracker(o)
	for _, f := range files {
		t.see(Found{File: f, What: Ordinary}, time.Now())
	}
	return t.drain(ctx, take)
}

// drain hands on what is pending until nothing is, or nothing more will settle.
func (t *tracker) drain(ctx context.Context, take func(context.Context, File) error) ([]Left, error) {
	var left []Left
	end := time.Now().Add((patience + 1) * t.o.settle())
	tick := time.NewTicker(t.tick())
	defer tick.Stop()
	for len(t.pending) > 0 {
		now := time.Now()
		for _, f := range sorted(t.due(now)) {
			began := time.Now()
			err := take(ctx, f)
			end = end.Add(time.Since(began)) // meanwhile nobody looked whether the others had settled
			if err != nil {
				left = append(left, Left{f, err})
			}
			delete(t.pending, f.Path())
			if ctx.Err() != nil {
				return left, ctx.Err()
			}
		}
		for _, path := range slices.Sorted(maps.Keys(t.pending)) {
			e := t.pending[path]
			if e.tries > 0 { // cannot be read, and was told so
				left = append(left, Left{e.file, &notTaken{e.said}})
				delete(t.pending, path)
			} else if now.After(end) { // and it had not settled when it was looked at then
				left = append(left, Left{e.file, ErrBusy})
				delete(t.pending, path)
			}
		}
		if len(t.pending) == 0 {
			break
		}
		select {
		case <-ctx.Done():
			return left, ctx.Err()
		case <-tick.C:
		}
	}
	return left, nil
}

// tick is how often pending files are looked through.
func (t *tracker) tick() time.Duration { return max(t.o.settle()/4, time.Millisecond) }

func sorted(files []File) []File {
	slices.SortFunc(files, func(a, b File) int {
		switch {
		case a.Path() < b.Path():
			return -1
		case a.Path() > b.Path():
			return 1
		}
		return 0
	})
	return files
}

// notTaken is a reason that was found while looking.
type notTaken struct{ text string }

func (e *notTaken) Error() string { return e.text }
