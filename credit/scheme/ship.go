package scheme

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"strings"

	"evidencevault/credit"
)

// ErrUnknown says that no scheme of this id ships with the program.
var ErrUnknown = errors.New("no scheme of this name ships with the program")

//go:embed shipped/*.toml
var shipped embed.FS

// Shipped is a scheme that ships with the program.
type Shipped struct {
	ID   string
	File string // name of the file
	Data []byte
	credit.Scheme
}

// List returns the schemes that ship, in the order of their ids.
func List() []Shipped {
	names, err := fs.Glob(shipped, "shipped/*.toml")
	if err != nil {
		panic(err) // the pattern is fixed
	}
	var list []Shipped
	for _, name := range names {
		id := strings.TrimSuffix(strings.TrimPrefix(name, "shipped/"), ".toml")
		s, err := Load(id)
		if err != nil {
			panic(err) // a test reads every file that ships
		}
		list = append(list, s)
	}
	return list
}

// Load returns the scheme id that ships. The error wraps [ErrUnknown].
func Load(id string) (Shipped, error) {
	if strings.ContainsAny(id, "/\\") {
		return Shipped{}, fmt.Errorf("scheme %q: %w: see vaultctl scheme list", id, ErrUnknown)
	}
	file := id + ".toml"
	data, err := shipped.ReadFile("shipped/" + file)
	if err != nil {
		return Shipped{}, fmt.Errorf("scheme %q: %w: see vaultctl scheme list", id, ErrUnknown)
	}
	s, bad := Parse(file, data)
	if len(bad) > 0 {
		return Shipped{}, fmt.Errorf("scheme %q: %v", id, bad[0])
	}
	return Shipped{ID: id, File: file, Data: data, Scheme: s}, nil
}
