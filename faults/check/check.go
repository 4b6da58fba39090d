// Package check looks at a vault after a fault, with none of the vault's own code: a
// mistake there would hide itself. It lists folders with filepath.WalkDir, hashes with
// crypto/sha256, and asks the database through the sqlite3 program, opened for reading
// only.
package check

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
)

// Vault is what is looked at, and what must be true of it.
type Vault struct {
	Dir          string
	Drop         string   // its drop folder, which may lie in Dir
	Acknowledged []string // SHA-256 of every file that was said to be taken in
	Dropped      []string // SHA-256 of every file that was ever dropped
	Restarted    bool     // a program has started and ended in good order since the fault
	Twin         string   // a vault that took the same files undisturbed; "" for none
}

// Problems returns what is wrong, each with the number of the rule it breaks; nothing
// when all is well:
//
//	K1  every acknowledged evidence has its row and its file, whose hash is its name
//	K2  no row without a file; after a restart no file without a row, none temporary
//	K3  the database is sound
//	K4  every dropped file is in the store or in the drop folder, byte for byte
//	K5  papers and readings are those of the twin, after a restart
//	K7  folders are 0700, files 0600 or 0400
//
// The error says that it could not be looked at.
func (v Vault) Problems() ([]string, error) {
	stored, strange, err := v.store()
	if err != nil {
		return nil, err
	}
	dropped, err := hashes(v.Drop)
	if err != nil {
		return nil, err
	}
	rows, err := v.ask(`SELECT sha256 FROM evidence ORDER BY sha256`)
	if err != nil {
		return nil, err
	}
	var out []string
	say := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	for _, sum := range v.Acknowledged {
		if !slices.Contains(rows, sum) {
			say("K1: %s was acknowledged and has no row", sum)
		}
		if !stored[sum] {
			say("K1: %s was acknowledged and has no file", sum)
		}
	}
	for _, sum := range rows {
		if !stored[sum] {
			say("K2: the row %s has no file", sum)
		}
	}
	for _, sum := range v.Dropped {
		if !stored[sum] && !dropped[sum] {
			say("K4: %s was dropped, and is neither in the store nor in the drop folder", sum)
		}
	}
	for _, path := range strange {
		if temporary := strings.Contains(path, ".incoming-"); v.Restarted || !temporary {
			say("K2: %s does not belong in the store", path)
		}
	}
	if v.Restarted {
		for sum := range stored {
			if !slices.Contains(rows, sum) {
				say("K2: the file %s has no row", sum)
			}
		}
	}
	more, err := v.database()
	if err != nil {
		return nil, err
	}
	modes, err := v.modes()
	return append(append(out, more...), modes...), err
}

// store returns the hashes of the evidence that lies whole under its name, and what
// else lies there.
func (v Vault) store() (map[string]bool, []string, error) {
	whole, strange := map[string]bool{}, []string{}
	root := filepath.Join(v.Dir, "evidence")
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		sum, err := hash(path)
		if err != nil {
			return err
		}
		name, _, _ := strings.Cut(filepath.Base(path), ".")
		if name == sum && filepath.Base(filepath.Dir(path)) == sum[:2] {
			whole[sum] = true
		} else {
			strange = append(strange, path)
		}
		return nil
	})
	return whole, strange, err
}

func hashes(dir string) (map[string]bool, error) {
	all := map[string]bool{}
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || !d.Type().IsRegular() {
			return err
		}
		sum, err := hash(path)
		all[sum] = true
		return err
	})
	return all, err
}

func hash(path string) (string, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return "", err
	}
	return Sum(data), nil
}

// Sum returns the SHA-256 of data in lower-case hex.
func Sum(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

func (v Vault) database() ([]string, error) {
	var out []string
	for pragma, want := range map[string]string{"integrity_check": "ok", "foreign_key_check": ""} {
		got, err := v.ask("PRAGMA " + pragma)
		if err != nil {
			return nil, err
		}
		if text := strings.Join(got, "; "); text != want {
			out = append(out, fmt.Sprintf("K3: %s says %q", pragma, text))
		}
	}
	gaps, err := v.ask(`SELECT count(*) - max(number) FROM event`)
	if err != nil {
		return nil, err
	}
	if len(gaps) != 1 || gaps[0] != "0" {
		out = append(out, fmt.Sprintf("K3: the log has gaps: %v", gaps))
	}
	if v.Twin == "" || !v.Restarted {
		return out, nil
	}
	mine, err := v.papers()
	if err != nil {
		return nil, err
	}
	theirs, err := Vault{Dir: v.Twin}.papers()
	if err != nil {
		return nil, err
	}
	for _, line := range mine {
		if !slices.Contains(theirs, line) {
			out = append(out, "K5: only here, not in the twin: "+line)
		}
	}
	for _, line := range theirs {
		if !slices.Contains(mine, line) {
			out = append(out, "K5: only in the twin, not here: "+line)
		}
	}
	if len(mine) != len(theirs) {
		out = append(out, fmt.Sprintf("K5: %d papers, the twin has %d", len(mine), len(theirs)))
	}
	return out, nil
}

// papers lists every paper by its evidence and pages, with its names, its newest
// reading and the number of its readings, without numbers and times.
func (v Vault) papers() ([]string, error) {
	return v.ask(`SELECT p.sha256 || ' ' || p.first || '-' || p.last || ' ' || p.state || ' ' || p.why || ' ' || coalesce(r.body, 'no reading')
	|| ' readings ' || (SELECT count(*) FROM reading WHERE paper = p.id)
	|| ' names ' || (SELECT group_concat(readable || '<' || coalesce(parent, ''), '|') FROM (SELECT * FROM evidence_name WHERE sha256 = p.sha256 ORDER BY readable, parent))
	FROM paper p LEFT JOIN reading r ON r.event = p.reading ORDER BY 1`)
}

// Names lists the names under which evidence came, in their order.
func (v Vault) Names() ([]string, error) {
	return v.ask(`SELECT readable FROM evidence_name WHERE parent IS NULL OR parent = '' ORDER BY readable`)
}

// ask returns the first column of what the sqlite3 program answers.
func (v Vault) ask(query string) ([]string, error) {
	cmd := exec.Command("sqlite3", "-readonly", "-json", filepath.Join(v.Dir, "catalog.db"), query)
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	text, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("sqlite3 %q: %w: %s", query, err, stderr.String())
	}
	if len(bytes.TrimSpace(text)) == 0 {
		return nil, nil
	}
	var rows []map[string]any
	if err := json.Unmarshal(text, &rows); err != nil {
		return nil, fmt.Errorf("sqlite3 %q answered %.200q: %w", query, text, err)
	}
	var out []string
	for _, row := range rows {
		for _, value := range row {
			out = append(out, fmt.Sprint(value))
		}
	}
	return out, nil
}

func (v Vault) modes() ([]string, error) {
	var out []string
	if runtime.GOOS == "windows" { // it has no such modes
		return nil, nil
	}
	err := filepath.WalkDir(v.Dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if path == v.Drop {
			return fs.SkipDir
		}
		info, err := d.Info()
		if err != nil {
			return err
		}
		mode := info.Mode().Perm()
		if (d.IsDir() && mode != 0o700) || (!d.IsDir() && mode != 0o600 && mode != 0o400) {
			out = append(out, fmt.Sprintf("K7: %s has mode %04o", path, mode))
		}
		return nil
	})
	return out, err
}
