package audit_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"evidencevault/audit"
)

var (
	holes = regexp.MustCompile(`\{\w+!?\}`)
	verbs = regexp.MustCompile(`%[a-z]`)
	words = regexp.MustCompile(`[a-z]{2,}`)
)

// The count words how each figure came about in English. Every piece of a sentence that its
// source holds is known to every other language: whoever adds one finds out here.
func TestEveryDerivationIsKnownInEveryLanguage(t *testing.T) {
	for _, tag := range audit.Languages() {
		if tag == "en" {
			continue
		}
		var known strings.Builder
		for _, line := range audit.SayingsIn(tag) {
			english, _, _ := strings.Cut(line, " => ")
			known.WriteString(holes.ReplaceAllString(english, "\x00") + "\n")
		}
		pieces := 0
		for _, file := range []string{"alternative", "award", "calculate", "carry", "choose", "cuts", "earlier", "explain", "given", "limits", "minimums", "rolling"} {
			for _, text := range sentencesIn(t, filepath.Join("..", "credit", file+".go")) {
				for _, piece := range verbs.Split(text, -1) {
					piece = strings.Trim(piece, " ,;:()[]\"")
					if !words.MatchString(piece) {
						continue
					}
					pieces++
					if !strings.Contains(known.String(), piece) {
						t.Errorf("%s does not know %q of credit/%s.go", tag, piece, file)
					}
				}
			}
		}
		if pieces < 80 {
			t.Errorf("only %d pieces were looked at", pieces)
		}
	}
}

// notSaid are texts in the source of the count that no derivation shows.
var notSaid = regexp.MustCompile(`^(hours?|[a-z_]+:?|[a-z]+ [a-z]+_[a-z]+)$`)

// sentencesIn lists the texts of a source file that are not those of errors.
func sentencesIn(t *testing.T, name string) []string {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	file, err := parser.ParseFile(token.NewFileSet(), name, data, 0)
	if err != nil {
		t.Fatal(err)
	}
	var list []string
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.ImportSpec:
			return false
		case *ast.CallExpr:
			f, ok := n.Fun.(*ast.SelectorExpr)
			return !ok || f.Sel.Name != "Errorf" && f.Sel.Name != "New"
		case *ast.BasicLit:
			if n.Kind != token.STRING {
				return true
			}
			text, err := strconv.Unquote(n.Value)
			if err != nil {
				t.Fatal(err)
			}
			if !notSaid.MatchString(text) {
				list = append(list, text)
			}
		}
		return true
	})
	return list
}
