package extracttest

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

// ErrNoProducer says that a program that writes PDFs is not installed.
var ErrNoProducer = errors.New("not installed")

// producers write a PDF anew, each in its own way: other fonts and encodings, other ways
// to place letters, other structure. The first leaves it as it is.
var producers = map[string][]string{
	"as drawn":    nil,
	"cairo":       {"pdftocairo", "-pdf", "FILE", "-"},
	"ghostscript": {"gs", "-q", "-dSAFER", "-dBATCH", "-dNOPAUSE", "-sDEVICE=pdfwrite", "-sOutputFile=-", "FILE"},
	"qpdf":        {"qpdf", "--object-streams=generate", "--linearize", "--coalesce-contents", "FILE", "-"},
}

// Producers lists the producers that [Reprint] knows, in order.
func Producers() []string {
	var names []string
	for name := range producers {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

// Reprint returns a drawn PDF as another program writes it; what it shows and its truth
// stay. The error wraps [ErrNoProducer] where that program is missing.
func Reprint(m Made, producer string) (Made, error) {
	args, known := producers[producer]
	if !known || m.Truth.Format != "pdf" {
		return Made{}, fmt.Errorf("reprint %s by %q: want a PDF and one of %s", m.Name, producer, strings.Join(Producers(), ", "))
	}
	if args == nil {
		return m, nil
	}
	program, err := exec.LookPath(args[0])
	if err != nil {
		return Made{}, fmt.Errorf("reprint %s: %s is %w", m.Name, args[0], ErrNoProducer)
	}
	dir, err := os.MkdirTemp("", "reprint")
	if err != nil {
		return Made{}, err
	}
	defer os.RemoveAll(dir) // a folder of our own; what is left of it harms nobody
	file := filepath.Join(dir, "drawn.pdf")
	if err := os.WriteFile(file, m.Data, 0o600); err != nil {
		return Made{}, err
	}
	args = slices.Clone(args)
	args[slices.Index(args, "FILE")] = file
	cmd := exec.Command(program, args[1:]...)
	var out, said bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &said
	if err := cmd.Run(); err != nil || !bytes.HasPrefix(out.Bytes(), []byte("%PDF-")) {
		return Made{}, fmt.Errorf("reprint %s: %s: %w: %s", m.Name, args[0], err, said.String())
	}
	m.Data = out.Bytes()
	return m, nil
}
