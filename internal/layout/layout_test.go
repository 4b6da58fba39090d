package layout_test

import (
	"encoding/json"
	"errors"
	"io"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

const module = "evidencevault"

// rooms is the policy: each package, and which of our own packages it may import.
// Arrows point one way. Widening a row is a decision with a commit of its own,
// never the repair of a build. Test files are free.
var rooms = map[string][]string{
	"credit":             {},
	"credit/scheme":      {"credit"},
	"evidence":           {"internal/lock"},
	"watcher":            {},
	"extract/paper":      {"credit"},
	"extract/page":       {"internal/confine"},
	"extract/find":       {"credit", "extract/paper", "internal/memo"},
	"extract":            {"credit", "extract/find", "extract/page", "extract/paper", "internal/memo", "internal/sieve"},
	"catalog/seal":       {},
	"catalog":            {"catalog/seal", "credit", "evidence", "extract/paper", "internal/lock"},
	"intake":             {"catalog", "evidence", "extract", "extract/page", "extract/paper", "watcher"},
	"journal":            {"catalog", "credit", "credit/scheme", "evidence", "extract/paper"},
	"audit/bag":          {},
	"audit":              {"audit/bag", "catalog", "catalog/seal", "credit", "credit/scheme", "evidence", "extract/page", "extract/paper", "internal/lock", "journal", "transfer"},
	"transfer":           {"catalog", "catalog/seal", "credit", "evidence", "extract/paper", "internal/lock"},
	"web":                {"audit", "catalog", "credit", "credit/scheme", "evidence", "extract/page", "extract/paper", "intake", "journal"},
	"internal/confine":   {},
	"internal/heap":      {},
	"internal/stop":      {},
	"internal/lock":      {},
	"internal/memo":      {},
	"internal/sieve":     {},
	"internal/demo":      {"credit"},
	"internal/demo/make": {"internal/demo"},
	"internal/layout":    {},
	"cmd/vaultctl":       {"*"},
	"cmd/vaultd":         {"*"},
}

// anyone lists the packages that every room may import.
var anyone = []string{"internal/stop"}

// testHelpers end in "test": only tests import them, and they may import what
// their parent may, and their parent.
func testHelper(pkg string) bool { return strings.HasSuffix(pkg, "test") }

// onlyIn names outside packages and the only own ones that may import them.
var onlyIn = map[string][]string{
	"database/sql":                    {"catalog"},
	"modernc.org/sqlite":              {"catalog"},
	"github.com/fsnotify/fsnotify":    {"watcher"},
	"filippo.io/age":                  {"transfer"},
	"github.com/digitorus/pkcs7":      {"catalog/seal"},
	"github.com/digitorus/timestamp":  {"catalog/seal"},
	"github.com/klippa-app/go-pdfium": {"extract/page"},
	"github.com/ledongthuc/pdf":       {"extract/page"},
	"github.com/rs/zerolog":           {"cmd/vaultctl", "cmd/vaultd"},
	"github.com/spf13/cobra":          {"cmd/vaultctl", "cmd/vaultd"},
	"math/rand":                       {"internal/demo/make"}, // seeded: the same papers every time
}

type listed struct {
	ImportPath string
	Imports    []string
}

func list(t *testing.T) []listed {
	t.Helper()
	out, err := exec.Command("go", "list", "-json=ImportPath,Imports", module+"/...").Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	var all []listed
	for dec := json.NewDecoder(strings.NewReader(string(out))); ; {
		var l listed
		if err := dec.Decode(&l); errors.Is(err, io.EOF) {
			return all
		} else if err != nil {
			t.Fatal(err)
		}
		all = append(all, l)
	}
}

func TestImportsFollowTheTableOfRooms(t *testing.T) {
	all := list(t)
	seen := map[string]bool{}
	for _, l := range all {
		pkg := strings.TrimPrefix(l.ImportPath, module+"/")
		seen[pkg] = true
		if testHelper(pkg) || strings.HasPrefix(pkg, "faults") {
			continue
		}
		may, known := rooms[pkg]
		if !known {
			t.Errorf("package %s is not in the table of rooms", pkg)
			continue
		}
		for _, imp := range l.Imports {
			own, ours := strings.CutPrefix(imp, module+"/")
			if !ours {
				checkDoor(t, pkg, imp)
				continue
			}
			if testHelper(own) || strings.HasPrefix(own, "faults") {
				t.Errorf("%s imports %s, which only tests may", pkg, own)
				continue
			}
			if !slices.Contains(may, "*") && !slices.Contains(may, own) && !slices.Contains(anyone, own) {
				t.Errorf("%s imports %s: no such edge in the table", pkg, own)
			}
		}
	}
	for pkg := range rooms {
		if !seen[pkg] {
			t.Errorf("the table has %s, but there is no such package", pkg)
		}
	}
	if len(all) < 15 {
		t.Fatalf("only %d packages listed: the test does not see the module", len(all))
	}
}

func checkDoor(t *testing.T, pkg, imp string) {
	t.Helper()
	for outside, may := range onlyIn {
		if (imp == outside || strings.HasPrefix(imp, outside+"/")) && !slices.Contains(may, pkg) {
			t.Errorf("%s imports %s, which only %v may", pkg, imp, may)
		}
	}
}

// The table itself must have no circle, or "one way" would be an empty word.
func TestTableOfRoomsHasNoCircle(t *testing.T) {
	const open, done = 1, 2
	state := map[string]int{}
	var walk func(string, []string)
	walk = func(pkg string, path []string) {
		if state[pkg] == open {
			t.Fatalf("circle: %s", strings.Join(append(path, pkg), " → "))
		}
		if state[pkg] == done {
			return
		}
		state[pkg] = open
		for _, next := range rooms[pkg] {
			walk(next, append(path, pkg))
		}
		state[pkg] = done
	}
	for pkg := range rooms {
		walk(pkg, nil)
	}
}
