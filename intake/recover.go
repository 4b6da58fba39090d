package intake

import (
	"context"
	"errors"
	"os"
	"path"

	"evidencevault/catalog"
	"evidencevault/evidence"
	"evidencevault/watcher"
)

// Recovered says what a program that was stopped had left.
type Recovered struct {
	Temporary int     // unfinished copies that were removed
	Adopted   []Taken // evidence that was in the store without a row, and has one now
}

// adopt gives a row to every evidence that a stop left in the store without one. It
// runs after what is pending was read, for an attachment is recorded by reading its
// message, and leaves what still lies in a drop folder: both come with their names.
func (in *Intake) adopt(ctx context.Context) ([]Taken, error) {
	orphans, err := in.orphans(ctx)
	if err != nil || len(orphans) == 0 {
		return nil, err
	}
	if err := in.stillDropped(ctx, orphans); err != nil {
		return nil, err
	}
	var adopted []Taken
	for sum, size := range orphans {
		kept, err := in.describe(ctx, sum, size)
		if err != nil {
			return adopted, err
		}
		taken, err := in.adoptOne(ctx, kept)
		if err != nil {
			return adopted, err
		}
		if taken.New {
			adopted = append(adopted, taken)
			in.took(taken)
		}
	}
	return adopted, nil
}

// adoptOne records an evidence under a name made of its hash, unless another program
// has recorded it meanwhile.
func (in *Intake) adoptOne(ctx context.Context, kept evidence.Kept) (Taken, error) {
	taken := Taken{SHA256: kept.SHA256}
	err := in.c.Act(ctx, func(tx *catalog.Tx) error {
		_, err := tx.Evidence(ctx, kept.SHA256)
		if !errors.Is(err, catalog.ErrUnknown) {
			return err
		}
		taken.New, _, err = recordIn(ctx, tx, kept, catalog.FileName(kept.SHA256[:12]+kept.Ext), nil)
		if err != nil {
			return err
		}
		taken.Papers, err = tx.PapersOf(ctx, kept.SHA256)
		return err
	})
	return taken, err
}

// orphans returns the evidence in the store that has no row, with its size.
func (in *Intake) orphans(ctx context.Context) (map[string]int64, error) {
	orphans := map[string]int64{}
	err := in.c.Store().Walk(ctx, func(e evidence.Entry) error {
		if e.SHA256 != "" && e.Wrong == "" {
			orphans[e.SHA256] = e.Size
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	known, err := in.c.AllEvidence(ctx)
	for _, ev := range known {
		delete(orphans, ev.SHA256)
	}
	return orphans, err
}

// stillDropped takes out of orphans what lies in a drop folder.
func (in *Intake) stillDropped(ctx context.Context, orphans map[string]int64) error {
	sizes := map[int64]bool{}
	for _, size := range orphans {
		sizes[size] = true
	}
	drops, err := in.c.Drops(ctx)
	if err != nil {
		return err
	}
	for _, d := range drops {
		found, err := watcher.Scan(ctx, d.Dir, watcher.Options{Except: []string{in.c.Dir()}})
		if errors.Is(err, os.ErrNotExist) {
			continue
		}
		if err != nil {
			return err
		}
		for _, f := range found {
			if f.What != watcher.Ordinary || !sizes[f.File.Stamp.Size] {
				continue
			}
			if sum, err := digestOf(ctx, f.File); err == nil { // else it cannot be taken in either
				delete(orphans, sum)
			}
		}
	}
	return nil
}

func digestOf(ctx context.Context, f watcher.File) (string, error) {
	file, _, err := f.Open()
	if err != nil {
		return "", err
	}
	defer file.Close()
	return digest(ctx, file)
}

// describe returns what the store would have said of an evidence that lies in it,
// after checking that it is whole.
func (in *Intake) describe(ctx context.Context, sum string, size int64) (evidence.Kept, error) {
	file, err := in.c.Store().Open(sum)
	if err != nil {
		return evidence.Kept{}, err
	}
	defer file.Close()
	kept, err := in.c.Store().Put(ctx, file, size) // the same bytes again: nothing is written that stays
	if err != nil {
		return evidence.Kept{}, err
	}
	where, err := in.c.Store().Path(kept.SHA256)
	if err == nil && kept.Ext == "" {
		kept.Ext = path.Ext(where)
	}
	return kept, err
}
