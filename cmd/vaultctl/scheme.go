package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"evidencevault/credit"
	"evidencevault/credit/scheme"
)

// errScheme says that a scheme file has problems; they were printed before.
var errScheme = errors.New("the scheme has problems")

// schemeIDs returns the ids of the schemes that ship.
func schemeIDs() []string {
	var ids []string
	for _, s := range scheme.List() {
		ids = append(ids, s.ID)
	}
	return ids
}

// loadScheme reads a scheme file, or one that ships by its id. All problems of a file
// are in the error, one after the other.
func loadScheme(name string) (credit.Scheme, error) {
	if shipped, err := scheme.Load(name); err == nil {
		return shipped.Scheme, nil
	}
	data, err := os.ReadFile(name)
	if err != nil {
		return credit.Scheme{}, fmt.Errorf("scheme %s: %w; name a file, or one that ships: %s", name, err, strings.Join(schemeIDs(), ", "))
	}
	s, problems := scheme.Parse(filepath.Base(name), data)
	if len(problems) > 0 {
		texts := make([]string, len(problems))
		for i, p := range problems {
			texts[i] = p.String()
		}
		return s, fmt.Errorf("%w: %s", errScheme, strings.Join(texts, "; "))
	}
	return s, nil
}

func (a *app) schemeCommand() *cobra.Command {
	check := &cobra.Command{
		Use:   "check FILE",
		Short: "say what is wrong in a scheme file, each with line and column",
		Long: `check reads a scheme file and prints every problem at once, with line and column and
a hint. It ends with 3 when there are any. Places that still hold a template's figure are
named too (with --json by the key "place"); they are no problem by themselves.`,
		Example: `  vaultctl scheme check rules.toml`,
		Args:    a.args(cobra.ExactArgs(1)),
		RunE: func(_ *cobra.Command, files []string) error {
			data, err := os.ReadFile(files[0])
			if err != nil {
				return err
			}
			s, problems := scheme.ParseAndCheck(files[0], data)
			if !a.json {
				a.noteBlanks(files[0], data)
			}
			a.see = len(problems) > 0
			if a.json {
				return a.printJSON(checked(files[0], data, problems))
			}
			for _, p := range problems {
				fmt.Fprintf(a.err, "vaultctl: scheme check: %s\n", safe(p.String()))
			}
			if len(problems) == 0 {
				a.printf("%s: no problem found: scheme %s, version %s, %s, %s, %s\n", safe(files[0]), safe(s.ID), safe(s.Version),
					count(len(s.Categories), "category", "categories"), count(len(s.Caps), "cap", "caps"), count(len(s.Minimums), "minimum", "minimums"))
				a.printf("Compare it with the body's current rule book all the same: the rules decide, not this file.\n")
			}
			return nil
		},
	}
	list := &cobra.Command{
		Use: "list", Short: "list the schemes and the shapes that ship", Example: "  vaultctl scheme list",
		Args: a.args(cobra.NoArgs),
		RunE: func(*cobra.Command, []string) error {
			type row struct {
				ID      string `json:"id"`
				Version string `json:"version"`
				Title   string `json:"title"`
				Body    string `json:"body"`
			}
			rows := []row{}
			var cells [][]string
			for _, s := range scheme.List() {
				rows = append(rows, row{s.ID, s.Version, s.Title, s.Body})
				cells = append(cells, []string{s.ID, s.Version, s.Title, s.Body})
			}
			if a.json {
				return a.printJSON(rows)
			}
			var shown [][]string
			for _, s := range scheme.Shapes() {
				shown = append(shown, []string{s.Name, s.Title})
			}
			a.table([]column{{head: "scheme"}, {head: "version"}, {head: "title", most: 48}, {head: "body", most: 48}}, cells)
			a.printf("\nShapes to begin your own from: vaultctl scheme new --from SHAPE\n\n")
			a.table([]column{{head: "shape"}, {head: "what it is for", most: 60}}, shown)
			a.printf("\nNo real body's rules ship: write your own from its current rule book.\n")
			return nil
		},
	}
	schema := &cobra.Command{
		Use: "schema", Short: "print the JSON Schema of a scheme file, for editors", Example: "  vaultctl scheme schema > scheme.schema.json",
		Args: a.args(cobra.NoArgs),
		RunE: func(*cobra.Command, []string) error { _, err := a.out.Write(scheme.Schema()); return err },
	}
	return a.group("scheme", "check scheme files, list those that ship, begin your own, change the version", check, list, a.schemeNewCommand(), a.schemeUseCommand(), schema)
}

func (a *app) calcCommand() *cobra.Command {
	var rules, claims string
	var way bool
	var steps int
	c := &cobra.Command{
		Use:     "calc --scheme FILE --claims FILE",
		Short:   "count claims of a file under a scheme; needs no vault",
		Example: `  vaultctl calc --scheme demo --claims claims.json --json`,
		Args:    a.args(cobra.NoArgs),
		RunE: func(cmd *cobra.Command, _ []string) error {
			if rules == "" || claims == "" {
				return usagef("--scheme and --claims are needed")
			}
			if steps < 1 {
				return usagef("--steps %d: want a number above 0", steps)
			}
			s, err := loadScheme(rules)
			if err != nil {
				return err
			}
			data, err := os.ReadFile(claims)
			if err != nil {
				return err
			}
			in, problems := scheme.ParseClaims(claims, data)
			if len(problems) == 0 {
				problems = scheme.UnknownCategories(claims, data, s)
			}
			if len(problems) > 0 {
				texts := make([]string, len(problems))
				for i, p := range problems {
					texts[i] = p.String()
				}
				return errors.New(strings.Join(texts, "; "))
			}
			in.Steps, in.Stop = steps, func() bool { return cmd.Context().Err() != nil }
			got, err := credit.Calculate(s, in)
			if err != nil {
				return err
			}
			if a.json {
				return a.printJSON([]credit.Calc{{Statement: got, Explained: way}})
			}
			a.printStatement(got)
			if way {
				a.printf("\n")
				for _, line := range got.ExplainAll() {
					a.say(line)
				}
			}
			return nil
		},
	}
	c.Flags().StringVar(&rules, "scheme", "", "a scheme file, or the id of one that ships")
	c.Flags().StringVar(&claims, "claims", "", "a claims file (JSON)")
	c.Flags().BoolVar(&way, "explain", false, "show how each figure came about")
	c.Flags().IntVar(&steps, "steps", credit.DefaultSteps, "search so long for the best choice of what counts; the default takes some 10 s")
	return c
}
