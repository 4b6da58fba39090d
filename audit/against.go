package audit

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"evidencevault/catalog/seal"
	"evidencevault/transfer"
)

// mostHead bounds a file that is read whole to find a head in it.
const mostHead = 256 << 20

// ErrNoHead says that there is no signed head where one was looked for.
var ErrNoHead = errors.New("there is no whole signed head in it; name a head, a backup, an export, an index or a packet")

// HeadIn returns the signed head that a file or folder holds: a head itself, a backup,
// or the folder of an export, an index or a packet. Who signed it is not judged here. How far
// a backup is read is told to progress; nil: nobody. The error wraps [ErrNoHead].
func HeadIn(ctx context.Context, at string, secret transfer.Secret, progress func(done, of int64)) ([]byte, error) {
	head, err := headIn(ctx, at, secret, progress)
	if err != nil {
		return nil, err
	}
	if _, _, err := seal.Look(head); err != nil {
		return nil, fmt.Errorf("%s: %w", at, ErrNoHead)
	}
	return head, nil
}

func headIn(ctx context.Context, at string, secret transfer.Secret, progress func(done, of int64)) ([]byte, error) {
	info, err := os.Stat(at)
	if err != nil {
		return nil, err
	}
	if info.IsDir() {
		for _, name := range []string{"index.json", "data/index.json", "about.json"} {
			if head, err := headOfJSON(filepath.Join(at, filepath.FromSlash(name))); err == nil {
				return head, nil
			} else if !errors.Is(err, os.ErrNotExist) {
				return nil, err
			}
		}
		return nil, fmt.Errorf("%s: %w", at, ErrNoHead)
	}
	if !info.Mode().IsRegular() { // a pipe would be waited for
		return nil, fmt.Errorf("%s: %w", at, ErrNoHead)
	}
	if transfer.IsBackup(at) {
		about, _, err := transfer.CheckBackup(ctx, at, secret, progress)
		return []byte(about.Head), err
	}
	if filepath.Ext(at) == ".json" {
		return headOfJSON(at)
	}
	if info.Size() > 64<<10 {
		return nil, fmt.Errorf("%s: %w", at, ErrNoHead)
	}
	return os.ReadFile(at)
}

// headOfJSON returns the member "head" of a JSON object in a file.
func headOfJSON(name string) (_ []byte, err error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	var has struct {
		Head string `json:"head"`
	}
	if err := json.NewDecoder(io.LimitReader(f, mostHead)).Decode(&has); err != nil || has.Head == "" {
		return nil, fmt.Errorf("%s: %w", name, ErrNoHead)
	}
	return []byte(has.Head), nil
}
