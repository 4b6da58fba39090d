package transfer

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"unicode/utf8"

	"evidencevault/catalog"
	"evidencevault/internal/stop"
)

// Export writes the vault into the folder dir, which must be absent or empty, as files
// that any program can read: the log and the rows as JSON (docs/export.schema.json), the
// originals, the schemes, what else lies in the vault's folder, and SHA256SUMS. Others may
// go on working with the vault. The error wraps [ErrThere], [ErrMissing] or
// [catalog.ErrLog]; then nothing is left.
func Export(ctx context.Context, c *catalog.Catalog, dir string, o Options) (res Result, err error) {
	if dir, err = filepath.Abs(dir); err != nil {
		return res, err
	}
	if err := within(c.Dir(), dir); err != nil {
		return res, err
	}
	for again := true; again; {
		if again, res, err = exportOnce(ctx, c, dir, o); err != nil {
			return Result{}, err
		}
	}
	return res, nil
}

func exportOnce(ctx context.Context, c *catalog.Catalog, dir string, o Options) (again bool, res Result, err error) {
	fresh, err := begin(dir, "vault", true)
	if err != nil {
		return false, res, err
	}
	defer func() { err = errors.Join(err, fresh.discard()) }()
	root, err := os.OpenRoot(fresh.temp)
	if err != nil {
		return false, res, err
	}
	to := &summing{to: intoFolder{root}}
	res = Result{Missing: []string{}, Findings: []string{}}
	var closings []catalog.Closing
	err = c.Sealed(ctx, func(v *catalog.View, head []byte, size int64) error {
		if err := stop.At(stop.Snapped); err != nil {
			return err
		}
		res.Events = size
		var err error
		if closings, err = v.Closings(ctx, ""); err != nil {
			return err
		}
		if err := addText(c, v, ctx, head, to); err != nil {
			return err
		}
		if err := addSchemes(ctx, c, v, to); err != nil {
			return err
		}
		again, err = addEvidence(ctx, c, v, to, originalsIn, size, o, &res)
		return err
	})
	if err == nil && !again {
		again, err = to.finish(ctx, c, closings, &res)
	}
	if err = errors.Join(err, root.Close()); err != nil || again {
		return again, res, err
	}
	return false, res, fresh.place(true)
}

// summing writes into a folder and gathers the list of hashes.
type summing struct {
	to    intoFolder
	list  strings.Builder
	about About
}

func (s *summing) add(name string, r io.Reader, size int64, mode fs.FileMode) error {
	hash := sha256.New()
	if err := s.to.add(name, io.TeeReader(r, hash), size, mode); err != nil {
		return err
	}
	s.list.WriteString(listLine(hex.EncodeToString(hash.Sum(nil)), name))
	return nil
}

func (s *summing) folder(name string) error { return s.to.folder(name) }

func (s *summing) text(name string, data []byte) error {
	return s.add(name, bytes.NewReader(data), int64(len(data)), 0o600)
}

// finish writes what else lies in the vault, what the export says of itself, and the list.
func (s *summing) finish(ctx context.Context, c *catalog.Catalog, closings []catalog.Closing, res *Result) (again bool, err error) {
	if again, err := addFiles(ctx, c, closings, s); err != nil || again {
		return again, err
	}
	s.about.Made, s.about.Missing = stamp(c.Now()), res.Missing
	text, err := json.MarshalIndent(s.about, "", " ")
	if err != nil {
		return false, err
	}
	if err := s.text(aboutName, append(text, '\n')); err != nil {
		return false, err
	}
	list := s.list.String()
	return false, s.to.add(sumsName, strings.NewReader(list), int64(len(list)), 0o600)
}

// addText writes head, log and rows.
func addText(c *catalog.Catalog, v *catalog.View, ctx context.Context, head []byte, to *summing) error {
	schema, err := catalog.SchemaVersion()
	if err != nil {
		return err
	}
	to.about = About{Form: exportForm, Version: formVersion, Schema: schema, Vault: vaultName(head), Head: string(head)}
	if err := to.text(headName, head); err != nil {
		return err
	}
	if err := to.stream(logName, func(w io.Writer) error { return writeLog(ctx, v, w, &to.about.Events) }); err != nil {
		return err
	}
	return to.stream(rowsName, func(w io.Writer) error { return writeRows(ctx, v, w) })
}

// stream writes a file whose length is not known beforehand.
func (s *summing) stream(name string, fill func(io.Writer) error) error {
	to, err := s.to.root.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	hash := sha256.New()
	err = fill(io.MultiWriter(to, hash))
	if err = errors.Join(err, to.Sync(), to.Close()); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	s.list.WriteString(listLine(hex.EncodeToString(hash.Sum(nil)), name))
	return nil
}

// logLine is one event in the export's log.
type logLine struct {
	Number int64           `json:"number"`
	Act    int64           `json:"act"`
	At     string          `json:"at"`
	Kind   string          `json:"kind"`
	Body   json.RawMessage `json:"body"` // null once blanked
	Leaf   string          `json:"leaf"` // hash of its leaf in the tree (RFC 6962), hex
}

// timeForm is how the log writes times.
const timeForm = "2006-01-02T15:04:05.000Z"

func writeLog(ctx context.Context, v *catalog.View, w io.Writer, events *int64) error {
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	return v.EachLogged(ctx, func(e catalog.Logged) error {
		*events = e.Number
		return enc.Encode(logLine{e.Number, e.Act, e.At.UTC().Format(timeForm), e.Kind, e.Body, hex.EncodeToString(e.Leaf[:])})
	})
}

// writeRows writes every table as an array of objects, in the order of its key.
func writeRows(ctx context.Context, v *catalog.View, w io.Writer) error {
	last := ""
	err := v.EachRow(ctx, func(table string, row map[string]any) error {
		open := ",\n  "
		if table != last {
			if open = "{\n \"" + table + "\": [\n  "; last != "" {
				open = "\n ],\n \"" + table + "\": [\n  "
			}
			last = table
		}
		text, err := rowText(row)
		if err == nil {
			_, err = io.WriteString(w, open+text)
		}
		return err
	})
	if err == nil {
		end := "\n ]\n}\n"
		if last == "" {
			end = "{}\n"
		}
		_, err = io.WriteString(w, end)
	}
	return err
}

// rowText writes a row as an object. A value in bytes, as a file's name is, becomes a
// string where it is UTF-8, else {"bytes": "hex"}; text that is JSON stays text.
func rowText(row map[string]any) (string, error) {
	for column, value := range row {
		if b, ok := value.([]byte); ok {
			row[column] = map[string]string{"bytes": hex.EncodeToString(b)}
			if utf8.Valid(b) {
				row[column] = string(b)
			}
		}
	}
	var text strings.Builder
	enc := json.NewEncoder(&text)
	enc.SetEscapeHTML(false)
	err := enc.Encode(row)
	return strings.TrimSuffix(text.String(), "\n"), err
}
