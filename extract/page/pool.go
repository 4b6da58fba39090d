package page

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"

	"evidencevault/internal/confine"
)

// take returns a warm child, or starts one; it waits while all are at work.
func (r *Reader) take(ctx context.Context) (*confine.Child, error) {
	if err := ctx.Err(); err != nil {
		return nil, err // with a free child as well
	}
	select {
	case r.slots <- struct{}{}:
	case <-ctx.Done():
		return nil, ctx.Err()
	}
	r.mu.Lock()
	if r.closed {
		r.mu.Unlock()
		<-r.slots
		return nil, ErrClosed
	}
	if n := len(r.idle); n > 0 {
		c := r.idle[n-1]
		r.idle = r.idle[:n-1]
		r.mu.Unlock()
		return c, nil
	}
	r.mu.Unlock()
	c, err := r.start(ctx)
	if err != nil {
		<-r.slots
		return nil, err
	}
	return c, nil
}

// give takes a child back, and ends it if it failed or has read enough.
func (r *Reader) give(c *confine.Child) {
	if c.Spent() {
		// It is gone in any case, and nothing it held is ours.
		_ = c.Close()
	} else {
		r.mu.Lock()
		r.idle = append(r.idle, c)
		r.mu.Unlock()
	}
	<-r.slots
}

// readsEach is how many answers a child gives before it is replaced, which costs as much as
// reading thirty papers.
const readsEach = 500

func (r *Reader) start(ctx context.Context) (*confine.Child, error) {
	cache, err := r.compile(ctx)
	if err != nil {
		return nil, err
	}
	spec := confine.Spec{Job: jobRead, Setup: setup{Cache: cache}, Limits: confine.Limits{CPU: r.o.Timeout, Answer: 48 << 20, Messages: readsEach}}
	c, err := confine.Start(ctx, spec)
	if err != nil && cache != "" && ctx.Err() == nil {
		// A cache that was damaged must cost time, not the reading.
		r.forget(cache)
		spec.Setup = setup{}
		c, err = confine.Start(ctx, spec)
	}
	if err != nil {
		return nil, err
	}
	in := c.InForce()
	r.mu.Lock()
	r.in = &in
	r.mu.Unlock()
	return c, nil
}

// compile sees to it that the cache holds the compiled engine, written by a child
// that never sees a document. "" means that there is no cache that can be trusted;
// then every child compiles for itself, which costs some seconds and nothing else.
func (r *Reader) compile(ctx context.Context) (string, error) {
	r.compiled.Lock()
	defer r.compiled.Unlock()
	dir := r.o.CacheDir
	if dir == "" {
		base, err := os.UserCacheDir()
		if err != nil {
			return "", nil
		}
		dir = filepath.Join(base, "evidence-vault", "reader")
	}
	if !ownFolder(dir) {
		return "", nil
	}
	stamp := filepath.Join(dir, engineName())
	if r.ready {
		return dir, nil
	}
	if _, err := os.Lstat(stamp); err != nil {
		c, err := confine.Start(ctx, confine.Spec{Job: jobRead, Setup: setup{Cache: dir}, Open: true})
		if err != nil {
			return "", err
		}
		if err := c.Close(); err != nil {
			return "", err
		}
		if err := os.WriteFile(stamp, nil, 0o600); err != nil {
			return "", nil
		}
	}
	r.ready = true
	return dir, nil
}

// forget empties the cache of the compiled engine, to be filled anew at the next start.
func (r *Reader) forget(dir string) {
	r.compiled.Lock()
	defer r.compiled.Unlock()
	r.ready = false
	old, err := filepath.Glob(filepath.Join(dir, "wazero-*"))
	if err != nil {
		return
	}
	for _, path := range append(old, filepath.Join(dir, engineName())) {
		// What stays is found damaged again, and costs time again.
		_ = os.RemoveAll(path)
	}
}

// ownFolder makes the folder, and says whether only this user can write to it.
func ownFolder(dir string) bool {
	if os.MkdirAll(dir, 0o700) != nil {
		return false
	}
	info, err := os.Lstat(dir)
	return err == nil && info.IsDir() && ownedByUs(info)
}

// engineName names the versions that the compiled code belongs to.
func engineName() string {
	name := "compiled"
	if info, ok := debug.ReadBuildInfo(); ok {
		for _, d := range info.Deps {
			if d.Path == "github.com/klippa-app/go-pdfium" || d.Path == "github.com/tetratelabs/wazero" {
				name += "-" + strings.TrimPrefix(d.Version, "v")
			}
		}
	}
	return name
}

// ask sends one order within the time for one document.
func (r *Reader) ask(ctx context.Context, c *confine.Child, o order, in io.Reader, a *reply) ([]byte, error) {
	if in == nil {
		in = bytes.NewReader(nil)
	} else if s, ok := in.(io.Seeker); ok {
		if _, err := s.Seek(0, io.SeekStart); err != nil {
			return nil, fmt.Errorf("read the document: %w", err)
		}
	}
	head, err := json.Marshal(o)
	if err != nil {
		return nil, fmt.Errorf("order the reader: %w", err)
	}
	timed, stop := context.WithTimeout(ctx, r.o.Timeout)
	defer stop()
	answer, blob, err := c.Ask(timed, head, in)
	if err != nil {
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		return nil, err
	}
	if err := json.Unmarshal(answer, a); err != nil {
		return nil, fmt.Errorf("%w: its answer is no answer", confine.ErrDied)
	}
	return blob, nil
}
