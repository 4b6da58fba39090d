package main

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"evidencevault/extract/paper"
	"evidencevault/journal"
)

func (a *app) confirmCommand() *cobra.Command {
	var o journal.ConfirmOptions
	var set, categories []string
	var clear, yes bool
	c := &cobra.Command{
		Use:   "confirm [PAPER…]",
		Short: "confirm what was read: a paper becomes a claim, a receipt a cost",
		Long: `confirm makes claims of papers. It refuses while a question that matters is open;
on a terminal it asks these questions one after the other instead. --set gives or
corrects a value and --category the category; what a person set is marked so.

--clear lists the papers without a question and confirms them all; papers that
certainly prove nothing are set aside. It asks first on a terminal; elsewhere the
listing is printed and they are confirmed. undo takes back either.

With --certification A,B the same activity is claimed for both, as one act. Where a
scheme counts nothing of what is claimed elsewhere, that is said.

Reading can err: look at what was read before confirming it.`,
		Example: `  vaultctl confirm P3
  vaultctl confirm P3 --category course --set end_date=2026-04-03
  vaultctl confirm P4 --set credits="1.5 CEU; 3 points" --set total="518.40 GBP"
  vaultctl confirm P7 --row 2
  vaultctl confirm P8 --certification electrical,solar --category solar=seminar
  vaultctl confirm P9 --cost-of A7
  vaultctl confirm --clear`,
		Args: a.args(cobra.ArbitraryArgs),
		RunE: func(cmd *cobra.Command, ids []string) (err error) {
			o.Certification = a.certification
			if o.Category, o.Also, err = parseCategories(categories); err != nil {
				return err
			}
			if o.Set, err = parseSet(set); err != nil {
				return err
			}
			switch {
			case clear && (len(ids) > 0 || len(o.Set) > 0 || len(categories) > 0 || o.CostOf != "" || o.Row != 0 || len(o.SkipRows) > 0):
				return usagef("--clear: stands alone, without papers and values")
			case !clear && len(ids) == 0:
				return usagef("name the papers, as in P3 P5-P9, or use --clear")
			}
			return a.withJournal(cmd.Context(), func(j *journal.Journal) error {
				if clear {
					return a.confirmClear(cmd.Context(), j, yes)
				}
				return a.confirmPapers(cmd.Context(), j, ids, o)
			})
		},
	}
	f := c.Flags()
	f.StringArrayVar(&categories, "category", nil, "the category of the claim; CERTIFICATION=CATEGORY for a further certification")
	f.StringArrayVar(&set, "set", nil, "FIELD=VALUE: give or correct a value (again for each)")
	f.StringVar(&o.CostOf, "cost-of", "", "the activity or claim that a receipt paid for")
	f.IntVar(&o.Row, "row", 0, "take one row of a transcript")
	f.IntSliceVar(&o.SkipRows, "skip-row", nil, "leave out a row of a transcript")
	f.BoolVar(&clear, "clear", false, "confirm every paper without a question, after listing them")
	f.BoolVar(&yes, "yes", false, "with --clear: do not ask first")
	return c
}

// parseCategories parts the category of the claim from those for further
// certifications.
func parseCategories(list []string) (category string, also []journal.ClaimFor, err error) {
	for _, text := range list {
		name, of, further := strings.Cut(text, "=")
		switch {
		case further && name != "" && of != "":
			also = append(also, journal.ClaimFor{Certification: name, Category: of})
		case further || category != "":
			return "", nil, usagef("--category %q: want one category, and CERTIFICATION=CATEGORY for each further certification", text)
		default:
			category = text
		}
	}
	return category, also, nil
}

// parseSet splits FIELD=VALUE arguments; a field that is given twice is a mistake.
func parseSet(list []string) (map[string]string, error) {
	set := map[string]string{}
	for _, s := range list {
		field, value, ok := strings.Cut(s, "=")
		field = strings.TrimSpace(field)
		if !ok || field == "" {
			return nil, usagef("--set %q: want FIELD=VALUE", s)
		}
		if _, twice := set[field]; twice {
			return nil, usagef("--set %s: given twice", field)
		}
		set[field] = value
	}
	return set, nil
}

// confirmPapers confirms, and on a terminal asks what is open and tries again.
func (a *app) confirmPapers(ctx context.Context, j *journal.Journal, ids []string, o journal.ConfirmOptions) error {
	for {
		result, err := j.Confirm(ctx, ids, o)
		var open *journal.OpenError
		if errors.As(err, &open) && a.interactive() && !a.json && len(ids) == 1 {
			if err := a.answer(ctx, open, &o); err != nil {
				return err
			}
			continue
		}
		if err != nil {
			return err
		}
		return a.sayConfirmed(result)
	}
}

// answer asks the open questions and puts the answers into o.
func (a *app) answer(ctx context.Context, open *journal.OpenError, o *journal.ConfirmOptions) error {
	p := a.prompter()
	for _, q := range open.Questions {
		text := q.Text
		if open.For != "" {
			text = open.For + ": " + text
		}
		fmt.Fprintf(a.err, "\n%s\n", safe(text))
		for i, c := range q.Candidates {
			why := ""
			if c.Why != "" {
				why = "  (" + c.Why + ")"
			}
			fmt.Fprintf(a.err, "  %d  %s%s\n", i+1, safe(c.Text), safe(why))
		}
		got, err := p.askOne(ctx, string(q.Field), q)
		if err != nil {
			return err
		}
		if q.Field == paper.FieldCategory {
			setCategory(o, open.For, got)
			continue
		}
		if o.Set == nil {
			o.Set = map[string]string{}
		}
		o.Set[string(q.Field)] = got
	}
	return nil
}

// setCategory answers in which category a certification claims; "" is the first.
func setCategory(o *journal.ConfirmOptions, certification, category string) {
	if certification == "" {
		o.Category = category
		return
	}
	for i := range o.Also {
		if o.Also[i].Certification == certification {
			o.Also[i].Category = category
			return
		}
	}
	o.Also = append(o.Also, journal.ClaimFor{Certification: certification, Category: category})
}

// askOne asks until there is an answer that the field can have; a number chooses a
// candidate.
func (p *prompter) askOne(ctx context.Context, name string, q paper.Question) (string, error) {
	for {
		got, err := p.ask(ctx, name, "")
		if err != nil {
			return "", err
		}
		for i, c := range q.Candidates {
			if got == fmt.Sprint(i+1) {
				got = c.Text
			}
		}
		if got == "" {
			continue
		}
		value, err := paper.Canonical(q.Field, got)
		if err == nil {
			return value, nil
		}
		fmt.Fprintln(p.a.err, safe(err.Error()))
	}
}

func (a *app) sayConfirmed(r journal.ConfirmResult) error {
	for _, w := range r.Warnings {
		a.warn("%s", strings.TrimPrefix(strings.TrimSpace(w.Paper+" "+w.Claim)+": "+w.Text, ": "))
	}
	if a.json {
		return a.printJSON(r)
	}
	for _, c := range r.Claims {
		category := c.Category
		if c.Certification != r.Claims[0].Certification || len(c.Elsewhere) > 0 {
			category = c.Certification + ", " + category
		}
		a.printf("%s  %s, %s: %s awarded, %s counted  %s\n", c.ID, days(c.Start.String(), c.End.String()), category, c.Awarded, c.Counted, safe(c.Title))
	}
	for _, rc := range r.Receipts {
		what := rc.State
		if rc.CostOf != "" {
			what = "cost of " + rc.CostOf
		}
		a.printf("%s  %s, %s: %s  %s\n", rc.ID, rc.Date, rc.Total, what, safe(rc.Provider))
	}
	for _, id := range r.SetAside {
		a.printf("%s  set aside: proves nothing\n", id)
	}
	for _, id := range r.Waiting {
		a.printf("%s  still waits: it has rows that are not decided\n", id)
	}
	return nil
}

// confirmClear lists what is clear, asks on a terminal, and confirms it.
func (a *app) confirmClear(ctx context.Context, j *journal.Journal, yes bool) error {
	plan, err := j.ConfirmClear(ctx, a.certification)
	if err != nil {
		return err
	}
	if !a.json {
		a.printPlan(plan)
	}
	if len(plan.Confirm)+len(plan.Receipts)+len(plan.SetAside) == 0 {
		if a.json {
			return a.printJSON(journal.ConfirmResult{Claims: []journal.Claim{}, Receipts: []journal.Receipt{}, SetAside: []string{},
				Waiting: []string{}, Warnings: []journal.Warning{}})
		}
		return nil
	}
	if a.interactive() && !a.json && !yes {
		ok, err := a.prompter().yes(ctx, "Confirm these")
		if err != nil || !ok {
			return err
		}
	}
	result, err := j.DoClear(ctx, plan, a.certification)
	if err != nil {
		return err
	}
	return a.sayConfirmed(result)
}

func (a *app) printPlan(plan journal.ClearPlan) {
	parts := []struct {
		head string
		list []journal.WaitingPaper
	}{
		{"To be confirmed as claims", plan.Confirm}, {"To be kept as costs", plan.Receipts}, {"To be set aside, since they prove nothing", plan.SetAside},
	}
	for _, p := range parts {
		if len(p.list) > 0 {
			a.printf("%s (%d)\n\n", p.head, len(p.list))
			a.printPapers(p.list)
			a.printf("\n")
		}
	}
	if len(plan.Confirm)+len(plan.Receipts)+len(plan.SetAside) == 0 {
		a.printf("No paper is clear.")
		if len(plan.Left) > 0 {
			a.printf(" %d wait with a question or unread: vaultctl waiting", len(plan.Left))
		}
		a.printf("\n")
	}
}
