package catalog

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"runtime"
	"strings"
	"sync"

	"evidencevault/evidence"
)

// evidence reads every file of the store, and looks for what is missing or too much.
func (f *verifier) evidence(ctx context.Context) error {
	all, err := f.v.AllEvidence(ctx)
	if err != nil {
		return err
	}
	var of, done int64
	known := make(map[string]string, len(all)) // name in the store, by SHA-256
	for _, e := range all {
		of += e.Size
		known[e.SHA256] = e.SHA256 + e.Ext
	}
	wrong, err := f.c.checkAll(ctx, all, func(size int64) {
		if done += size; f.o.Progress != nil {
			f.o.Progress(done, of)
		}
	})
	if err != nil {
		return err
	}
	for i, e := range all {
		f.file(e, wrong[i])
	}
	return f.strangers(ctx, known)
}

// checkAll reads every file that should be there, several at once, since hashing and
// not the disk is what takes the time. It returns what is wrong with each; read is told
// each file's size, one call at a time.
func (c *Catalog) checkAll(ctx context.Context, all []Evidence, read func(size int64)) ([]error, error) {
	wrong := make([]error, len(all))
	next := make(chan int)
	var mu sync.Mutex
	var group sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		group.Go(func() {
			for i := range next {
				if all[i].Deleted == 0 {
					wrong[i] = c.store.Check(ctx, all[i].SHA256)
				}
				mu.Lock()
				read(all[i].Size)
				mu.Unlock()
			}
		})
	}
	for i := range all {
		if ctx.Err() != nil {
			break
		}
		next <- i
	}
	close(next)
	group.Wait()
	return wrong, ctx.Err()
}

// strangers looks for what lies in the store and should not.
func (f *verifier) strangers(ctx context.Context, known map[string]string) error {
	var unknown []evidence.Entry
	err := f.c.store.Walk(ctx, func(e evidence.Entry) error {
		if e.Wrong != "" {
			f.add(WhatEvidence, path.Join(storeFolder, e.Path), e.Wrong, "look at it, and take it out of the store if it is not yours", f.touch.ofEvidence(e.SHA256)...)
		} else if name := known[e.SHA256]; name == "" {
			unknown = append(unknown, e)
		} else if path.Base(e.Path) != name {
			f.add(WhatEvidence, path.Join(storeFolder, e.Path), "it was renamed: want "+name, "give it that name again", f.touch.ofEvidence(e.SHA256)...)
		}
		return nil
	})
	if err != nil {
		return err
	}
	for _, e := range unknown {
		switch _, err := f.c.Evidence(ctx, e.SHA256); { // it may have been taken in meanwhile
		case errors.Is(err, ErrUnknown):
			f.add(WhatEvidence, path.Join(storeFolder, e.Path), "no event says that it was taken in; a program was stopped, or the newest events are lost", "start vaultd, which takes it in")
		case err != nil:
			return err
		}
	}
	return nil
}

// file says what is wrong with one evidence, of which err was found.
func (f *verifier) file(e Evidence, err error) {
	where := path.Join(storeFolder, e.SHA256[:2], e.SHA256+e.Ext)
	switch {
	case e.Deleted > 0:
		if _, err := f.c.store.Path(e.SHA256); err == nil {
			f.add(WhatEvidence, where, fmt.Sprintf("it was deleted by event %d, and its file still lies there", e.Deleted),
				"open the vault once for writing, as vaultctl delete does; that removes it")
		}
	case err != nil:
		f.add(WhatEvidence, where, fmt.Sprintf("%s: %v", e.Names[0].Name, err), "its hash stays what it was; vaultctl restore --evidence brings the file back from a backup", f.touch.ofEvidence(e.SHA256)...)
	}
}

func (f *verifier) schemes(ctx context.Context) error {
	kept, err := f.v.Schemes(ctx)
	for _, s := range kept {
		if _, err := f.c.SchemeBytes(s.SHA256); err != nil {
			f.add(WhatScheme, path.Join(schemeFolder, s.SHA256+".toml"), fmt.Sprintf("scheme %s: %v", s.ID, err), "vaultctl restore --evidence brings the file back from a backup", f.touch.byScheme[s.SHA256]...)
		}
	}
	if err != nil {
		return err
	}
	return f.strangeSchemes(kept)
}

// strangeSchemes looks for what lies beside the schemes and should not. A file that was
// kept just now and is not in the log yet is told apart by its bytes: it bears their hash.
func (f *verifier) strangeSchemes(kept []Scheme) error {
	known := map[string]bool{}
	for _, s := range kept {
		known[s.SHA256+".toml"] = true
	}
	entries, err := os.ReadDir(filepath.Join(f.c.dir, schemeFolder))
	if errors.Is(err, fs.ErrNotExist) {
		return nil // the missing ones were found
	}
	for _, e := range entries {
		if known[e.Name()] {
			continue
		}
		sum, isScheme := strings.CutSuffix(e.Name(), ".toml")
		if _, err := f.c.SchemeBytes(sum); isScheme && err == nil {
			continue
		}
		f.add(WhatScheme, path.Join(schemeFolder, e.Name()), "it does not belong there", "look at it, and take it out if it is not yours")
	}
	return err
}
