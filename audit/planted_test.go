package audit_test

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"evidencevault/audit"
	"evidencevault/catalog"
	"evidencevault/catalog/catalogtest"
	"evidencevault/catalog/seal"
	"evidencevault/transfer"
)

// planted is a vault of two claims that a test changes behind the program's back.
type planted struct {
	t     *testing.T
	dir   string
	early []byte   // its head of an earlier day
	files []string // of the store; the first two are the proofs of C1 and C2
}

// plantedBase makes the vault of which each case gets a copy.
func plantedBase(t *testing.T) planted {
	t.Helper()
	c := catalogtest.New(t)
	certification, cycle := catalogtest.Certification(t, c, "id = \"demo\"\n")
	p := planted{t: t, dir: c.Dir()}
	for n, text := range []string{"Rosalind Achterberg was there for 12 hours", "Rosalind Achterberg was there again", "Come to the fair"} {
		kept, paper := catalogtest.Take(t, c, fmt.Sprintf("paper %d.txt", n), text)
		p.files = append(p.files, filepath.Join("evidence", kept.SHA256[:2], kept.SHA256+kept.Ext))
		if n < 2 {
			catalogtest.Confirm(t, c, paper, certification, cycle, "course")
		}
		if n == 1 {
			var err error
			if p.early, err = seal.ReadHead(c.Dir()); err != nil {
				t.Fatal(err)
			}
		}
	}
	catalogtest.Act(t, c, &catalog.FactSet{Name: "joined", Value: "yes"})
	if err := c.Close(); err != nil { // everything is in catalog.db, no -wal is left
		t.Fatal(err)
	}
	return p
}

// copy is a vault of its own.
func (p planted) copy(t *testing.T) planted {
	t.Helper()
	to := filepath.Join(t.TempDir(), "vault")
	err := filepath.WalkDir(p.dir, func(at string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(p.dir, at)
		if err != nil {
			return err
		}
		info, err := d.Info()
		if err != nil {
			return err
		}
		if d.IsDir() {
			return os.MkdirAll(filepath.Join(to, rel), info.Mode().Perm())
		}
		data, err := os.ReadFile(at)
		return errors.Join(err, os.WriteFile(filepath.Join(to, rel), data, info.Mode().Perm()))
	})
	if err != nil {
		t.Fatal(err)
	}
	p.t, p.dir = t, to
	return p
}

func (p planted) at(name string) string { return filepath.Join(p.dir, name) }

func (p planted) must(errs ...error) {
	p.t.Helper()
	if err := errors.Join(errs...); err != nil {
		p.t.Fatal(err)
	}
}

// bit changes one bit of a file and keeps its mode and time.
func (p planted) bit(name string, offset int) {
	p.t.Helper()
	info, err := os.Stat(p.at(name))
	p.must(err)
	data, err := os.ReadFile(p.at(name))
	p.must(err)
	if offset < 0 {
		offset += len(data)
	}
	data[offset] ^= 1
	p.must(os.Chmod(p.at(name), 0o600), os.WriteFile(p.at(name), data, 0o600), os.Chmod(p.at(name), info.Mode().Perm()),
		os.Chtimes(p.at(name), info.ModTime(), info.ModTime()))
}

func (p planted) sql(text string) {
	p.t.Helper()
	if out, err := exec.Command("sqlite3", p.at("catalog.db"), text).CombinedOutput(); err != nil || len(out) > 0 {
		p.t.Fatalf("sqlite3 %q: %v: %s", text, err, out)
	}
}

func (p planted) writeFile(name, text string, mode os.FileMode) {
	p.must(os.MkdirAll(filepath.Dir(p.at(name)), 0o700), os.WriteFile(p.at(name), []byte(text), mode))
}

// Whatever is changed, lost or added behind the program's back is found, under the word
// for what it is, and the claims that hang on it are named.
func TestPlantedFaultsAreFound(t *testing.T) {
	type plant struct {
		name   string
		do     func(p planted)
		what   string // of one of the findings
		claims string // touched, of that finding
	}
	sql := func(text string) func(planted) { return func(p planted) { p.sql(text) } }
	all := []plant{
		{"first bit of an evidence", func(p planted) { p.bit(p.files[0], 0) }, catalog.WhatEvidence, "C1"},
		{"a bit in the middle", func(p planted) { p.bit(p.files[1], 20) }, catalog.WhatEvidence, "C2"},
		{"last bit", func(p planted) { p.bit(p.files[0], -1) }, catalog.WhatEvidence, "C1"},
		{"an evidence that no claim needs", func(p planted) { p.bit(p.files[2], 3) }, catalog.WhatEvidence, ""},
		{"evidence longer", func(p planted) {
			p.must(os.Chmod(p.at(p.files[0]), 0o600))
			f, err := os.OpenFile(p.at(p.files[0]), os.O_APPEND|os.O_WRONLY, 0)
			p.must(err)
			_, err = f.WriteString(" ")
			p.must(err, f.Close(), os.Chmod(p.at(p.files[0]), 0o400))
		}, catalog.WhatEvidence, "C1"},
		{"evidence emptied", func(p planted) {
			p.must(os.Chmod(p.at(p.files[0]), 0o600), os.Truncate(p.at(p.files[0]), 0), os.Chmod(p.at(p.files[0]), 0o400))
		}, catalog.WhatEvidence, "C1"},
		{"evidence removed", func(p planted) { p.must(os.Remove(p.at(p.files[1]))) }, catalog.WhatEvidence, "C2"},
		{"evidence renamed", func(p planted) { p.must(os.Rename(p.at(p.files[0]), p.at(p.files[0]+"x"))) }, catalog.WhatEvidence, "C1"},
		{"two swapped", func(p planted) {
			p.must(os.Rename(p.at(p.files[0]), p.at("x")), os.Rename(p.at(p.files[1]), p.at(p.files[0])), os.Rename(p.at("x"), p.at(p.files[1])))
		}, catalog.WhatEvidence, "C2"},
		{"a link to the right bytes", func(p planted) {
			p.must(os.Rename(p.at(p.files[0]), p.at("aside")), os.Symlink(p.at("aside"), p.at(p.files[0])))
		}, catalog.WhatEvidence, "C1"},
		{"a file too many", func(p planted) { p.writeFile("evidence/aa/stranger.pdf", "x", 0o400) }, catalog.WhatEvidence, ""},
		{"an evidence too many", func(p planted) {
			p.writeFile("evidence/2d/2d711642b726b04401627ca9fbac32f5c8530fb1903cc4db02258717921a4881.txt", "x", 0o400)
		}, catalog.WhatEvidence, ""},
		{"a folder too many", func(p planted) { p.must(os.Mkdir(p.at("evidence/zz"), 0o700)) }, catalog.WhatEvidence, ""},
		{"a copy that was stopped", func(p planted) { p.writeFile("evidence/.incoming-x", "half", 0o600) }, catalog.WhatEvidence, ""},
		{"evidence that others may read", func(p planted) { p.must(os.Chmod(p.at(p.files[0]), 0o444)) }, catalog.WhatEvidence, "C1"},
		{"the whole store gone", func(p planted) { p.must(os.RemoveAll(p.at("evidence"))) }, catalog.WhatEvidence, "C1"},
		{"scheme altered", func(p planted) { p.bit(p.scheme(), 3) }, catalog.WhatScheme, "C1 C2"},
		{"scheme removed", func(p planted) { p.must(os.Remove(p.at(p.scheme()))) }, catalog.WhatScheme, "C1 C2"},
		{"a scheme too many", func(p planted) { p.writeFile("schemes/mine.toml", "x", 0o400) }, catalog.WhatScheme, ""},
		{"minutes changed", sql("UPDATE activity_field SET value='920' WHERE field='duration_minutes' AND activity=(SELECT activity FROM claim WHERE number=1)"), catalog.WhatRow, "C1"},
		{"date changed", sql("UPDATE activity_field SET value='2031-05-06' WHERE field='start_date' AND activity=(SELECT activity FROM claim WHERE number=2)"), catalog.WhatRow, "C2"},
		{"category changed", sql("UPDATE claim SET category='teaching' WHERE number=2"), catalog.WhatRow, "C2"},
		{"claim removed", sql("DELETE FROM claim WHERE number=1"), catalog.WhatRow, "C1"},
		{"claim withdrawn", sql("UPDATE claim SET withdrawn=1 WHERE number=1"), catalog.WhatRow, "C1"},
		{"claim added", sql("INSERT INTO claim SELECT 'zz',3,activity,certification,cycle,category,event,made,0,'' FROM claim WHERE number=1"), catalog.WhatRow, "C3"},
		{"reading changed", sql("UPDATE reading SET body=replace(body,'720','920')"), catalog.WhatRow, "C1"},
		{"quote changed", sql("UPDATE proof SET quote='forty hours' WHERE field='duration_minutes'"), catalog.WhatRow, "C1"},
		{"proof moved to another evidence", sql("UPDATE proof SET evidence=(SELECT max(sha256) FROM evidence WHERE sha256<>proof.evidence)"), catalog.WhatRow, "C1"},
		{"proof removed", sql("DELETE FROM proof WHERE activity=(SELECT activity FROM claim WHERE number=2)"), catalog.WhatRow, "C2"},
		{"hash of an evidence changed with its proofs", sql("PRAGMA foreign_keys=off; UPDATE evidence SET size=size+1"), catalog.WhatRow, "C1"},
		{"name changed", sql("UPDATE evidence_name SET name=x'41'"), catalog.WhatRow, "C1"},
		{"paper set aside", sql("UPDATE paper SET state='set aside' WHERE number=1"), catalog.WhatRow, "C1"},
		{"fact changed", sql("UPDATE fact SET value='no'"), catalog.WhatRow, ""},
		{"cycle moved", sql("UPDATE cycle SET last='2039-12-31'"), catalog.WhatRow, ""},
		{"an event altered", sql("UPDATE event SET body=replace(body,'720','920') WHERE kind='reading made' AND number=(SELECT min(number) FROM event WHERE kind='reading made')"), catalog.WhatLog, "C1"},
		{"a claim's event altered", sql("UPDATE event SET body=replace(body,'course','teaching') WHERE kind='claim made' AND number=(SELECT max(number) FROM event WHERE kind='claim made')"), catalog.WhatLog, "C2"},
		{"an event removed", sql("DELETE FROM event WHERE kind='claim made' AND number=(SELECT max(number) FROM event WHERE kind='claim made')"), catalog.WhatLog, "C2"},
		{"the newest event removed with its leaf", func(p planted) {
			p.sql("DELETE FROM event WHERE number=(SELECT max(number) FROM event); DELETE FROM fact")
		}, catalog.WhatHead, ""},
		{"the log cut by half", sql("DELETE FROM event WHERE number>10"), catalog.WhatHead, ""},
		{"two events swapped", sql("UPDATE event SET number=1000 WHERE number=2; UPDATE event SET number=2 WHERE number=3; UPDATE event SET number=3, act=2 WHERE number=1000"), catalog.WhatLog, ""},
		{"an event put in", sql("INSERT INTO event VALUES ((SELECT max(number)+1 FROM event),(SELECT max(number)+1 FROM event),'2031-03-14T12:00:00.000Z','holder named','{\"name\":\"X\"}')"), catalog.WhatLog, ""},
		{"two events put in", sql("INSERT INTO event SELECT number+100,number+100,at,kind,body FROM event ORDER BY number DESC LIMIT 2"), catalog.WhatLog, ""},
		{"a leaf altered", sql("UPDATE tree SET hash=zeroblob(32) WHERE id=2"), catalog.WhatLog, ""},
		{"an event and its leaf blanked", sql("UPDATE event SET body=NULL WHERE kind='claim made' AND number=(SELECT min(number) FROM event WHERE kind='claim made')"), catalog.WhatRow, "C1"},
		{"a fact blanked with its row", sql("UPDATE event SET body=NULL WHERE kind='fact set'; DELETE FROM fact; DELETE FROM about WHERE event=(SELECT max(number) FROM event)"), catalog.WhatRow, ""},
		{"the log empty", sql("DELETE FROM event; DELETE FROM tree"), catalog.WhatHead, ""},
		{"head removed", func(p planted) { p.must(os.Remove(p.at("head"))) }, catalog.WhatHead, ""},
		{"head altered", func(p planted) { p.bit("head", -10) }, catalog.WhatHead, ""},
		{"head of an earlier day", func(p planted) { p.must(os.WriteFile(p.at("head"), p.early, 0o600)) }, catalog.WhatHead, ""},
		{"head of a stranger's key", func(p planted) {
			key, err := seal.NewKey(strings.SplitN(string(p.early), "\n", 2)[0])
			p.must(err)
			signed, err := seal.Sign(seal.Head{Origin: key.Name(), Size: 3}, key)
			p.must(err, os.WriteFile(p.at("head"), signed, 0o600))
		}, catalog.WhatHead, ""},
		{"key removed", func(p planted) { p.must(os.Remove(p.at("key"))) }, catalog.WhatKey, ""},
		{"key of a stranger", func(p planted) {
			key, err := seal.NewKey("stranger")
			p.must(err, os.Remove(p.at("key")), seal.WriteKey(p.dir, key))
		}, catalog.WhatKey, ""},
		{"key that others may read", func(p planted) { p.must(os.Chmod(p.at("key"), 0o644)) }, catalog.WhatKey, ""},
		{"vault that others may enter", func(p planted) { p.must(os.Chmod(p.dir, 0o755)) }, catalog.WhatFolder, ""},
	}
	base := plantedBase(t)
	if report, err := audit.VerifyAgainst(t.Context(), base.dir, nil, base.early); err != nil || len(report.Findings) > 0 {
		t.Fatalf("before anything is planted: %+v, %v", report, err)
	}
	for _, plant := range all {
		t.Run(plant.name, func(t *testing.T) {
			p := base.copy(t)
			plant.do(p)
			report, err := audit.VerifyAgainst(t.Context(), p.dir, nil, p.early)
			if err != nil {
				t.Fatal(err)
			}
			found := slices.ContainsFunc(report.Findings, func(f audit.Finding) bool {
				touched := true
				for _, c := range strings.Fields(plant.claims) {
					touched = touched && slices.Contains(f.Claims, c)
				}
				return f.What == plant.what && touched && f.Why != "" && f.Mend != ""
			})
			if !found {
				t.Errorf("found %+v, want %s touching %q", report.Findings, plant.what, plant.claims)
			}
		})
	}
	if len(all) < 50 {
		t.Errorf("only %d faults are planted", len(all))
	}
}

// scheme is the file of the vault's scheme.
func (p planted) scheme() string {
	found, err := filepath.Glob(p.at("schemes/*.toml"))
	if err != nil || len(found) != 1 {
		p.t.Fatal(found, err)
	}
	return filepath.Join("schemes", filepath.Base(found[0]))
}

// A whole vault that was set back is consistent in itself: only an earlier head that was
// kept elsewhere shows it.
func TestAVaultSetBackIsFoundAgainstAnotherHead(t *testing.T) {
	base := plantedBase(t)
	back := base.copy(t)
	c, err := catalog.Open(t.Context(), base.dir, catalogtest.Options())
	if err != nil {
		t.Fatal(err)
	}
	catalogtest.Act(t, c, &catalog.FactSet{Name: "left", Value: "no"})
	late, err := seal.ReadHead(base.dir)
	if err = errors.Join(err, c.Close()); err != nil {
		t.Fatal(err)
	}
	foreign := plantedBase(t)
	restored := filepath.Join(t.TempDir(), "restored")
	kept := filepath.Join(t.TempDir(), "vault.backup")
	c, err = catalog.Open(t.Context(), back.dir, catalogtest.Options())
	if err != nil {
		t.Fatal(err)
	}
	_, err = transfer.Backup(t.Context(), c, kept, transfer.Options{})
	if err := errors.Join(err, c.Close()); err != nil {
		t.Fatal(err)
	}
	if _, err := transfer.Restore(t.Context(), kept, restored, transfer.Secret{}, catalogtest.Options(), nil); err != nil {
		t.Fatal(err)
	}
	fresh, err := seal.ReadHead(restored)
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		name, dir string
		head      []byte
		want      string // of the finding; "" for none
	}{
		{"it went on", base.dir, base.early, ""},
		{"its own head", base.dir, late, ""},
		{"restored, against the backup's head", restored, base.early, ""},
		{"set back", back.dir, late, "the vault was set back to an earlier day"},
		{"set back to before its key was made", back.dir, fresh, "signed with a key of this vault that its log does not know"},
		{"the other copy went on with the old key", restored, late, "work went on with the old key"},
		{"another vault's", base.dir, foreign.early, "is of another vault (" + originOf(foreign.early) + "), so nothing was compared"},
		{"one letter of it changed", base.dir, bytes.Replace(late, []byte("\n"), []byte("\n0"), 1), "no whole signed head"},
		{"its root hash changed", base.dir, reversed(late), "was damaged or altered, and says nothing about this vault"},
		{"no head at all", base.dir, []byte("hello"), "no whole signed head, so nothing was compared"},
	} {
		report, err := audit.VerifyAgainst(t.Context(), test.dir, nil, test.head)
		if err != nil || len(report.Findings) != min(1, len(test.want)) || len(report.Findings) > 0 && !strings.Contains(report.Findings[0].String(), test.want) {
			t.Errorf("%s: %+v, %v, want %q", test.name, report.Findings, err, test.want)
		}
	}
}

func originOf(head []byte) string {
	name, _, _ := strings.Cut(string(head), "\n")
	return name
}

// reversed is a head whose root hash is another one.
func reversed(head []byte) []byte {
	lines := strings.Split(string(head), "\n")
	b := []byte(lines[2])
	slices.Reverse(b[:4])
	lines[2] = string(b)
	return []byte(strings.Join(lines, "\n"))
}
