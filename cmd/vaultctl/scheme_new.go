package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"evidencevault/credit/scheme"
)

func (a *app) schemeNewCommand() *cobra.Command {
	var from, out string
	var set []string
	c := &cobra.Command{
		Use:   "new --from SHAPE [-o FILE]",
		Short: "begin a scheme file of your own from a template",
		Long: `new writes a scheme file of one of the shapes that vaultctl scheme list names, with a
question for each figure that your body's rule book gives. On a terminal the questions are
asked one after the other; an empty answer leaves the template's figure and its question,
to be filled in later. Elsewhere --set NAME=VALUE answers them.

The figures of a template are nobody's rules: what your body's current rule book says
decides.`,
		Example: "  vaultctl scheme new --from points -o rules.toml\n  vaultctl scheme new --from annual --set target=40 --set body='My Board'",
		Args:    a.args(cobra.NoArgs),
		RunE: func(cmd *cobra.Command, _ []string) error {
			if from == "" {
				return usagef("--from: name a shape: %s", strings.Join(shapeNames(), ", "))
			}
			shape, err := scheme.ShapeOf(from)
			if err != nil {
				return err
			}
			answers := map[string]string{}
			for _, s := range set {
				name, value, ok := strings.Cut(s, "=")
				if !ok {
					return usagef("--set %s: want NAME=VALUE", s)
				}
				answers[strings.TrimSpace(name)] = strings.TrimSpace(value)
			}
			return a.schemeNew(cmd.Context(), shape, answers, out)
		},
	}
	c.Flags().StringVar(&from, "from", "", "the shape: "+strings.Join(shapeNames(), ", "))
	c.Flags().StringVarP(&out, "output", "o", "", "the file to write (else it is printed)")
	c.Flags().StringArrayVar(&set, "set", nil, "NAME=VALUE: answer a question (again for each)")
	return c
}

func shapeNames() []string {
	var names []string
	for _, s := range scheme.Shapes() {
		names = append(names, s.Name)
	}
	return names
}

func (a *app) schemeNew(ctx context.Context, shape scheme.Shape, answers map[string]string, out string) error {
	if _, err := os.Lstat(out); out != "" && err == nil {
		return fmt.Errorf("%s: it is there already, and is left as it is; name another file", out)
	}
	if a.interactive() && len(answers) == 0 && out != "" {
		p := a.prompter()
		for _, b := range scheme.Blanks(shape.Data) {
			answer, err := p.ask(ctx, b.Question, b.Value)
			if err != nil {
				return err
			}
			if answer != b.Value {
				answers[b.Name] = answer
			}
		}
	}
	data, err := scheme.FillIn(shape.Data, answers)
	if err != nil {
		return err
	}
	if out == "" {
		_, err := a.out.Write(data)
		return err
	}
	if problems := scheme.Check(out, data); len(problems) > 0 { // an answer that makes no sense is said now
		texts := make([]string, len(problems))
		for i, p := range problems {
			texts[i] = p.String()
		}
		return fmt.Errorf("%s was not written: %s", out, strings.Join(texts, "; "))
	}
	f, err := os.OpenFile(out, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	if _, err = f.Write(data); errors.Join(err, f.Close()) != nil {
		return fmt.Errorf("%s: %w", out, err)
	}
	open := len(scheme.Blanks(data))
	a.printf("%s: %s, %s\n", safe(out), shape.Title, count(open, "question is open", "questions are open"))
	a.printf("Next: go through it with your body's rule book, then vaultctl scheme check %s\n", quoted(out))
	return nil
}

// noteBlanks says on standard error that a scheme still holds a template's figures.
func (a *app) noteBlanks(file string, data []byte) {
	blanks := scheme.Blanks(data)
	if len(blanks) == 0 {
		return
	}
	names := make([]string, len(blanks))
	for i, b := range blanks {
		names[i] = fmt.Sprintf("%s (line %d)", b.Name, b.Line)
	}
	fmt.Fprintf(a.err, "vaultctl: %s: %s a template's figure, which is nobody's rule: %s\n", safe(file),
		count(len(blanks), "place still holds", "places still hold"), strings.Join(names, ", "))
}

// finding is a problem of a scheme file, or a place that still holds a template's figure.
type finding struct {
	scheme.Problem
	Place string `json:"place,omitempty"` // the name of the place
}

// checked lists the problems, then the places that are still to be filled in.
func checked(file string, data []byte, problems []scheme.Problem) []finding {
	list := []finding{}
	for _, p := range problems {
		list = append(list, finding{Problem: p})
	}
	for _, b := range scheme.Blanks(data) {
		list = append(list, finding{Place: b.Name, Problem: scheme.Problem{
			File: file, Line: b.Line, Column: 1, Text: fmt.Sprintf("%s still holds a template's figure, %q, which is nobody's rule", b.Name, b.Value), Hint: b.Question,
		}})
	}
	return list
}
