package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"evidencevault/credit"
	"evidencevault/journal"
)

// schemeArgument reads what a person names as a scheme: a file, or the id of one
// that ships.
func schemeArgument(name string) (file journal.SchemeFile, id string, err error) {
	if slices.Contains(schemeIDs(), name) {
		return journal.SchemeFile{}, name, nil
	}
	data, err := os.ReadFile(name)
	if err != nil {
		return journal.SchemeFile{}, "", fmt.Errorf("scheme %s: %w; name a file, or one that ships: %s", name, err, strings.Join(schemeIDs(), ", "))
	}
	return journal.SchemeFile{Name: filepath.Base(name), Data: data}, "", nil
}

// cycleDays reads the flags --start and --end; without an end it is the zero Date.
func cycleDays(start, end string) (first, last credit.Date, err error) {
	if first, err = credit.ParseDate(start); err != nil {
		return first, last, usagef("--start: %w", err)
	}
	if end == "" {
		return first, last, nil
	}
	if last, err = credit.ParseDate(end); err != nil {
		return first, last, usagef("--end: %w", err)
	}
	return first, last, nil
}

func (a *app) setupCommand() *cobra.Command {
	var o journal.SetupOptions
	var name, start, end string
	c := &cobra.Command{
		Use:   "setup",
		Short: "make a vault: holder, scheme, first day of the cycle, drop folder",
		Long: `setup makes a vault for one person and one certification, with a key of its own and
a drop folder. A drop folder that setup makes is emptied as files are taken in; one
that existed before is left as it is, unless --empty-drop is given. On a terminal it
asks for what is not given.

The certifying body's current rules decide: compare the scheme with them first
("vaultctl scheme check FILE"). The vault holds personal data; it is readable by you
alone, and its safety is that of your account and your backups.`,
		Example: `  vaultctl setup --holder "Mirela Tannhof" --scheme demo --start 2024-07-01 --number VR-2217
  vaultctl setup --vault ~/vault --holder "Mirela Tannhof" --scheme rules.toml --start 2024-07-01 --drop ~/Certificates`,
		Args: a.args(cobra.NoArgs),
		RunE: func(cmd *cobra.Command, _ []string) (err error) {
			if err := a.askSetup(cmd.Context(), &o, &name, &start); err != nil {
				return err
			}
			if o.Scheme, o.SchemeID, err = schemeArgument(name); err != nil {
				return err
			}
			a.noteBlanks(o.Scheme.Name, o.Scheme.Data)
			if o.Start, o.End, err = cycleDays(start, end); err != nil {
				return err
			}
			if o.EmptyDrop && o.KeepDropped {
				return usagef("--empty-drop and --keep-dropped: only one of the two")
			}
			o.Now = a.now
			dir, err := a.dir()
			if err != nil {
				return err
			}
			j, err := journal.Setup(cmd.Context(), dir, o)
			if err != nil {
				return err
			}
			defer closeInto(&err, j)
			return a.sayVault(cmd, j)
		},
	}
	f := c.Flags()
	f.StringVar(&o.Holder, "holder", "", "whose vault it is, as papers write the name")
	f.StringVar(&name, "scheme", "", "the rules: a scheme file, or the id of one that ships")
	f.StringVar(&start, "start", "", "first day of the cycle, YYYY-MM-DD")
	f.StringVar(&end, "end", "", "last day of the cycle, if the scheme's length does not tell")
	f.StringVar(&o.Number, "number", "", "the number that the body gave")
	f.StringVar(&o.Certification, "name", "", "a short name of the certification (else the scheme's id)")
	f.StringVar(&o.Drop, "drop", "", "the drop folder (else drop inside the vault)")
	f.BoolVar(&o.EmptyDrop, "empty-drop", false, "empty a drop folder that existed before, as files are taken in")
	f.BoolVar(&o.KeepDropped, "keep-dropped", false, "leave the dropped files where they are")
	return c
}

// wanted is a value that setup cannot do without.
type wanted struct {
	flag, text string
	into       *string
}

// askSetup asks for what setup needs and was not given; without a terminal it says
// which flags are missing.
func (a *app) askSetup(ctx context.Context, o *journal.SetupOptions, name, start *string) error {
	var missing []wanted
	for _, w := range []wanted{
		{"--holder", "Whose vault is it? The name as papers write it", &o.Holder},
		{"--scheme", "Which rules? A scheme file, or one that ships (" + strings.Join(schemeIDs(), ", ") + ")", name},
		{"--start", "First day of the cycle (YYYY-MM-DD)", start},
	} {
		if *w.into == "" {
			missing = append(missing, w)
		}
	}
	if len(missing) == 0 {
		return nil
	}
	if !a.interactive() {
		var flags []string
		for _, m := range missing {
			flags = append(flags, m.flag)
		}
		return usagef("%s: not given", strings.Join(flags, ", "))
	}
	p := a.prompter()
	for _, m := range missing {
		for *m.into == "" {
			got, err := p.ask(ctx, m.text, "")
			if err != nil {
				return err
			}
			*m.into = got
		}
	}
	return nil
}

func (a *app) sayVault(cmd *cobra.Command, j *journal.Journal) error {
	about, err := j.About(cmd.Context())
	if err != nil {
		return err
	}
	if a.json {
		return a.printJSON(about)
	}
	a.printf("vault       %s\n", safe(about.Dir))
	a.printf("holder      %s\n", safe(about.Holder))
	for _, c := range about.Certifications {
		a.printf("certificate %s\n", strings.TrimPrefix(fmt.Sprintf("%s, scheme %s, cycle %s to %s", safe(c.Title), safe(c.Scheme), c.Start, c.End), ", "))
	}
	for _, d := range about.Drops {
		way := "left as it is"
		if d.Empty {
			way = "emptied as files are taken in"
		}
		a.printf("drop folder %s (%s)\n", safe(d.Dir), way)
	}
	flag := ""
	if a.vault != "" {
		flag = " --vault " + quoted(a.vault)
	}
	a.printf("\nNext: start vaultd%s and drop a certificate into the folder, or vaultctl add%s FOLDER --dry-run\n", flag, flag)
	return nil
}

func (a *app) certificationCommand() *cobra.Command {
	var o journal.CertificationOptions
	var name, start, end string
	add := &cobra.Command{
		Use:     "add",
		Short:   "add a further certification of the same holder",
		Example: `  vaultctl certification add --id rescue --scheme rescue.toml --start 2025-01-01`,
		Args:    a.args(cobra.NoArgs),
		RunE: func(cmd *cobra.Command, _ []string) (err error) {
			if name == "" || start == "" {
				return usagef("--scheme and --start are needed")
			}
			if o.Scheme, o.SchemeID, err = schemeArgument(name); err != nil {
				return err
			}
			a.noteBlanks(o.Scheme.Name, o.Scheme.Data)
			if o.Start, o.End, err = cycleDays(start, end); err != nil {
				return err
			}
			return a.withJournal(cmd.Context(), func(j *journal.Journal) error {
				if _, err := j.CertificationAdd(cmd.Context(), o); err != nil {
					return err
				}
				return a.sayVault(cmd, j)
			})
		},
	}
	f := add.Flags()
	f.StringVar(&o.ID, "id", "", "a short name (else the scheme's id)")
	f.StringVar(&name, "scheme", "", "a scheme file, or the id of one that ships")
	f.StringVar(&start, "start", "", "first day of the cycle, YYYY-MM-DD")
	f.StringVar(&end, "end", "", "last day of the cycle, if the scheme's length does not tell")
	f.StringVar(&o.Number, "number", "", "the number that the body gave")
	return a.group("certification", "certifications of the holder", add)
}

func (a *app) factCommand() *cobra.Command {
	var from string
	set := &cobra.Command{
		Use:   "set NAME=VALUE",
		Short: "say what rules ask about the holder, or a former name",
		Example: `  vaultctl fact set admitted=2023-05-01
  vaultctl fact set former_name="Mirela Orsk"
  vaultctl fact set part_time=true --from 2025-01-01`,
		Args: a.args(cobra.ExactArgs(1)),
		RunE: func(cmd *cobra.Command, args []string) error {
			name, value, ok := strings.Cut(args[0], "=")
			if !ok || name == "" {
				return usagef("%q: want NAME=VALUE", args[0])
			}
			var day credit.Date
			if from != "" {
				var err error
				if day, err = credit.ParseDate(from); err != nil {
					return usagef("--from: %w", err)
				}
			}
			return a.withJournal(cmd.Context(), func(j *journal.Journal) error {
				if err := j.SetFact(cmd.Context(), name, value, day); err != nil {
					return err
				}
				return a.sayFact(cmd.Context(), j, name, value)
			})
		},
	}
	set.Flags().StringVar(&from, "from", "", "the day from which it holds, YYYY-MM-DD")
	return a.group("fact", "what rules ask about the holder", set)
}

// sayFact says what was set, and warns of a fact that no rule asks for, which is mostly
// a slip of the pen.
func (a *app) sayFact(ctx context.Context, j *journal.Journal, name, value string) error {
	asked, err := j.FactAsked(ctx, name)
	if err != nil {
		return err
	}
	if !asked {
		a.warn("%s: no scheme of this vault names this fact, so it changes nothing; is it spelled right?", name)
	}
	if a.json {
		return a.printJSON(map[string]any{"name": name, "value": value, "asked": asked})
	}
	if journal.IsFormerName(name) {
		a.printf("a paper may also be about %s\n", safe(value))
		return nil
	}
	a.printf("%s = %s\n", safe(name), safe(value))
	return nil
}

// group is a verb that only has verbs below it.
func (a *app) group(use, short string, below ...*cobra.Command) *cobra.Command {
	c := &cobra.Command{Use: use, Short: short, RunE: func(cmd *cobra.Command, _ []string) error {
		return usagef("say which: %s", names(below))
	}}
	c.Args = a.unknownVerb
	c.AddCommand(below...)
	return c
}

func names(list []*cobra.Command) string {
	var out []string
	for _, c := range list {
		out = append(out, c.CommandPath())
	}
	return strings.Join(out, ", ")
}
