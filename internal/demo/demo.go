// Package demo holds the papers of the demo: what an invented ropeway inspector
// would drop into a folder over two years, with what a careful reader finds in each.
//
// Every person, organisation, place and number is invented. The papers are kept as
// files, so that neither the build nor the demo needs the programs that made them;
// the generator lies in make, and papers/SOURCE.md says which program made which.
package demo

import (
	"embed"
	"fmt"
	"io/fs"
	"os"
	"path"
	"slices"

	"evidencevault/credit"
)

// The demo's holder, and the number that the invented Vallmere Ropeway Inspection
// Council gave her certificate as Certified Ropeway Inspector.
const (
	Holder = "Mirela Tannhof"
	Number = "VR-2217"
)

// The first and the last day of the demo's cycle, as YYYY-MM-DD; see [Cycle].
const (
	CycleStart = "2024-07-01"
	CycleEnd   = "2028-06-30"
)

// Scheme is the id of the demo's scheme in package credit/scheme.
const Scheme = "demo"

// Cycle returns the first and the last day of the demo's cycle.
func Cycle() (start, end credit.Date) {
	return credit.MustDate(CycleStart), credit.MustDate(CycleEnd)
}

//go:embed papers
var papers embed.FS

const sourceNote = "SOURCE.md" // lies beside the papers and is none

// Paper is one file as it is dropped.
type Paper struct {
	Name string
	Data []byte
}

// Papers returns the demo's files, sorted by name. It includes one that is broken
// off, one that holds the same bytes as another, and one that a word processor left
// behind and that a watched folder passes over.
func Papers() []Paper {
	var list []Paper
	for _, e := range entries(papers, "papers") {
		if e.Name() != sourceNote {
			list = append(list, Paper{e.Name(), read(papers, path.Join("papers", e.Name()))})
		}
	}
	return list
}

// Write writes every paper into the folder dir, which must exist, readable by its
// owner alone. It replaces nothing: a file that is there already is an error, which
// wraps [fs.ErrExist], and the papers before it by name have been written.
func Write(dir string) error {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return fmt.Errorf("writing the demo's papers: %w; name a folder that exists", err)
	}
	defer root.Close()
	for _, p := range Papers() {
		if err := create(root, p); err != nil {
			return fmt.Errorf("writing the demo's papers into %s: %w; name an empty folder", dir, err)
		}
	}
	return nil
}

func create(root *os.Root, p Paper) error {
	f, err := root.OpenFile(p.Name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	if _, err := f.Write(p.Data); err != nil {
		f.Close() // the first error is the one to tell
		return err
	}
	return f.Close()
}

// entries and read panic: what is embedded is there.
func entries(files embed.FS, dir string) []fs.DirEntry {
	list, err := files.ReadDir(dir)
	if err != nil {
		panic(err)
	}
	return list
}

func read(files embed.FS, name string) []byte {
	data, err := files.ReadFile(name)
	if err != nil {
		panic(err)
	}
	return data
}

//go:embed possible.toml
var possible []byte

// Possible returns the file of what the holder could still do, for the plan.
func Possible() []byte { return slices.Clone(possible) }
