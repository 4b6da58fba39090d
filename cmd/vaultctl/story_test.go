package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"evidencevault/internal/demo"
)

// programs is the folder with the built vaultctl and vaultd, which the stories run as
// a person would.
var programs string

// trouble is the folder of the files that must not hurt, from here.
var trouble, _ = filepath.Abs("../../extract/page/testdata/trouble") // without it the stories fail

// badges is the folder of the digital badges, from here.
var badges, _ = filepath.Abs("../../extract/page/testdata/badge") // without it the stories fail

func TestMain(m *testing.M) {
	os.Exit(func() int {
		dir, err := os.MkdirTemp("", "programs-")
		if err != nil {
			fmt.Fprintln(os.Stderr, err)
			return 1
		}
		defer os.RemoveAll(dir)
		build := exec.Command("go", "build", "-o", dir, "evidencevault/cmd/vaultctl", "evidencevault/cmd/vaultd")
		if out, err := build.CombinedOutput(); err != nil {
			fmt.Fprintf(os.Stderr, "go build: %v\n%s", err, out)
			return 1
		}
		programs = dir
		return m.Run()
	}())
}

// TestStories runs every story: what a person does with the programs, from start to
// end. A story has its own home folder and no vault. The engine that reads PDFs is compiled
// once for each version of it, which takes longer than most stories, so all share the cache
// of whoever runs them, as one person has one.
func TestStories(t *testing.T) {
	cache, err := os.UserCacheDir()
	if err != nil {
		cache = t.TempDir()
	}
	testscript.Run(t, testscript.Params{
		Dir: "testdata/story",
		Setup: func(e *testscript.Env) error {
			e.Setenv("PATH", programs+string(os.PathListSeparator)+os.Getenv("PATH"))
			e.Setenv("HOME", e.WorkDir)
			e.Setenv("XDG_DATA_HOME", filepath.Join(e.WorkDir, "data"))
			e.Setenv("XDG_CACHE_HOME", cache)
			e.Setenv("EVIDENCE_VAULT_DIR", filepath.Join(e.WorkDir, "vault"))
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"papers":    writePapers,
			"trouble":   writeTrouble,
			"authority": runAuthority,
			"badges":    writeBadges,
		},
		RequireExplicitExec: true,
	})
}

// writePapers is the story command "papers DIR NAME…": it writes papers of the demo
// into DIR; without a name all of them.
func writePapers(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) == 0 {
		ts.Fatalf("usage: papers DIR NAME…")
	}
	dir := ts.MkAbs(args[0])
	ts.Check(os.MkdirAll(dir, 0o700))
	left := map[string]bool{}
	for _, name := range args[1:] {
		left[name] = true
	}
	for _, p := range demo.Papers() {
		if len(args) == 1 || left[p.Name] {
			ts.Check(os.WriteFile(filepath.Join(dir, p.Name), p.Data, 0o600))
			delete(left, p.Name)
		}
	}
	for name := range left {
		ts.Fatalf("the demo has no paper %q", name)
	}
}

// writeTrouble is the story command "trouble DIR": it writes the files that must not
// hurt into DIR.
func writeTrouble(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: trouble DIR")
	}
	ts.Check(os.CopyFS(ts.MkAbs(args[0]), os.DirFS(trouble)))
}

// writeBadges is the story command "badges DIR NAME…": it writes the digital badges of
// those names into DIR.
func writeBadges(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: badges DIR NAME…")
	}
	for _, name := range args[1:] {
		data, err := os.ReadFile(filepath.Join(badges, name))
		ts.Check(err)
		ts.Check(os.WriteFile(filepath.Join(ts.MkAbs(args[0]), name), data, 0o600))
	}
}

// Every verb says what it does, with an example, and is named in a story: help that
// nobody reads and verbs that nobody runs are the first to break.
func TestEveryVerbHasHelpAndAStory(t *testing.T) {
	var stories strings.Builder
	files, err := filepath.Glob("testdata/story/*.txtar")
	if err != nil || len(files) < 8 {
		t.Fatalf("%d stories, %v", len(files), err)
	}
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		stories.Write(data)
	}
	a := &app{}
	for _, c := range a.verbs() {
		if c.Short == "" || (c.Example == "" && !c.HasSubCommands()) {
			t.Errorf("%s: no help or no example", c.Name())
		}
		if !strings.Contains(stories.String(), "vaultctl "+c.Name()) {
			t.Errorf("%s: in no story", c.Name())
		}
	}
}
