package catalog

import (
	"context"
	"errors"
	"fmt"
	"path"
	"runtime"
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
