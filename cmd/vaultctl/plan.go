package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"evidencevault/credit"
	"evidencevault/journal"
)

// planFlags are what plan is asked with.
type planFlags struct {
	aim, on, week string
	all, letGo    bool
	keep          int
	journal.PlanOptions
}

func (a *app) planCommand() *cobra.Command {
	var f planFlags
	c := &cobra.Command{
		Use:   "plan",
		Short: "find what closes the gap at least cost and in least time",
		Long: `plan reads what could still be done from possible.toml in the vault's folder, or
from --activity, and finds the ways that close the gap to the target and every
minimum, under all caps, with the claims that are there: the cheapest, the shortest,
and every way between that no other beats in both. Where no activity is known it
takes the hourly rates of the scheme's categories. docs/plan.md describes the file.

Money is converted only at rates that the file gives. When the search ends with its
budget before all is proven, plan says so.`,
		Example: `  vaultctl plan
  vaultctl plan --for time --hours-per-week 3
  vaultctl plan --activity "title=Splicing day; category=course; hours=6; cost=120 EUR; dates=2027-03-04"
  vaultctl plan --keep 2`,
		Args: a.args(cobra.NoArgs),
		RunE: func(cmd *cobra.Command, _ []string) error { return a.plan(cmd, f) },
	}
	flags := c.Flags()
	flags.StringVar(&f.aim, "for", "cost", "what comes first: cost or time")
	flags.StringVar(&f.on, "on", "", "plan from this day, YYYY-MM-DD; today if none is given")
	flags.StringVar(&f.File, "possible", "", "file of possible activities (else possible.toml in the vault)")
	flags.StringArrayVar(&f.Activities, "activity", nil, `a further one: "title=…; category=…; hours=…; cost=120 EUR"; may be repeated`)
	flags.BoolVar(&f.ByHours, "by-hours", false, "take any number of hours in every category with an hourly rate as well, at no cost")
	flags.StringVar(&f.week, "hours-per-week", "", "hours a week that are to be had, for the last day to begin")
	flags.IntVar(&f.Steps, "steps", 0, fmt.Sprintf("steps of the search in all (%d, some 2 s, if none are given)", credit.PlanSteps))
	flags.BoolVar(&f.all, "all", false, "show every way with its activities")
	flags.IntVar(&f.keep, "keep", 0, "write the activities of this way into the file as settled on")
	flags.BoolVar(&f.letGo, "let-go", false, "take out again what was settled on")
	return c
}

// options checks the flags.
func (a *app) planOptions(cmd *cobra.Command, f planFlags) (journal.PlanOptions, error) {
	o := f.PlanOptions
	o.Certification, o.ByTime = a.certification, f.aim == "time"
	if f.aim != "cost" && f.aim != "time" {
		return o, usagef("--for %q: want cost or time", f.aim)
	}
	var err error
	if o.On, err = a.parseOn(f.on); err != nil {
		return o, err
	}
	if f.week != "" {
		if o.HoursPerWeek, err = credit.ParseAmount(f.week); err != nil || o.HoursPerWeek.Sign() <= 0 {
			return o, usagef("--hours-per-week %q: want a number above 0, such as 2.5", f.week)
		}
	}
	if o.Steps < 0 {
		return o, usagef("--steps %d: want a number above 0", o.Steps)
	}
	if f.keep != 0 && f.letGo || cmd.Flags().Changed("keep") && f.keep < 1 {
		return o, usagef("--keep wants the number of a way, and goes without --let-go")
	}
	o.Stop = func() bool { return cmd.Context().Err() != nil }
	return o, nil
}

func (a *app) plan(cmd *cobra.Command, f planFlags) error {
	o, err := a.planOptions(cmd, f)
	if err != nil {
		return err
	}
	return a.reading(cmd.Context(), func(j *journal.Journal) error {
		if f.keep > 0 || f.letGo {
			return a.settle(cmd, j, o, f)
		}
		r, err := j.Plan(cmd.Context(), o)
		if err == nil {
			err = cmd.Context().Err()
		}
		if err != nil {
			return err
		}
		if a.json {
			return a.printJSON(r)
		}
		a.printReport(r, o.ByTime, f.all)
		return nil
	})
}

// settle writes down or lets go what is settled on.
func (a *app) settle(cmd *cobra.Command, j *journal.Journal, o journal.PlanOptions, f planFlags) error {
	var titles []string
	var err error
	what := "settled on"
	if f.letGo {
		what = "let go"
		titles, err = j.LetGo(cmd.Context(), o)
	} else {
		titles, err = j.KeepWay(cmd.Context(), o, f.keep)
	}
	if err != nil {
		return err
	}
	return a.list(titles, what)
}

func (a *app) printReport(r journal.PlanReport, byTime, all bool) {
	a.printGap(r)
	switch r.State {
	case journal.PlanGap:
		a.printWays(r, byTime, all)
	case journal.PlanOpen:
		a.printf("\nWhat is known does not close the gap:\n")
		for _, why := range r.Why {
			a.printf("  %s\n", safe(why))
		}
		if len(r.Ways) > 0 {
			a.printf("\nThis comes closest:\n")
			a.printWay(r, r.Ways[0], "")
		}
	case journal.PlanMet:
		a.printSave(r)
	}
	a.printAgain(r)
	for _, c := range r.CostPerCredit {
		if c.PerCredit != nil {
			a.printf("\nSo far a %s has cost %s %s: %s %s paid for %s.\n", safe(r.Unit), about(*c.PerCredit), c.Currency, c.Paid, c.Currency, unitsOf(c.Credits, r.Unit))
		}
	}
	for _, d := range r.Done {
		a.printf("\nDone: %s, %s.\n", safe(d.Title), strings.Join(d.Claims, " "))
	}
	for _, n := range r.Notes {
		a.printf("\nNote: %s.\n", safe(n))
	}
}

// unitsOf prints an amount with its unit: 1 point, 2 points.
func unitsOf(n credit.Amount, unit string) string { return safe(credit.Quantity(n, unit)) }

// plural is the unit of several: points.
func plural(unit string) string {
	_, units, _ := strings.Cut(unitsOf(credit.Whole(2), unit), " ")
	return units
}

// about prints an amount to two places, for figures that are read and not added up.
func about(n credit.Amount) string {
	text := n.Rat().FloatString(2)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

// printGap says what is missing and how much time is left.
func (a *app) printGap(r journal.PlanReport) {
	a.printf("%s, on %s\n", safe(r.Certification), r.On)
	switch r.State {
	case journal.PlanNothing:
		a.printf("The scheme %s asks for nothing, so there is nothing to plan.\n", safe(r.Scheme))
		return
	case journal.PlanMet:
		a.printf("Target and minimums are met with what is there")
		if r.Missing.Sign() > 0 {
			a.printf(", or will be at the end of the cycle without doing more: %s are missing today", unitsOf(r.Missing, r.Unit))
		}
		a.printf(".\n")
		return
	case journal.PlanOver:
		a.printf("The last day to earn credit was %s. ", r.EarnBy)
	}
	if r.Target != nil && r.Missing.Sign() > 0 {
		a.printf("%s of %s missing", r.Missing, unitsOf(*r.Target, r.Unit))
		if !r.Missing.Equal(r.MissingAhead) {
			a.printf(" today; %s at the end of the cycle if nothing more is done", r.MissingAhead)
		}
	} else {
		a.printf("a minimum is missing")
	}
	for _, m := range r.Minimums {
		if !m.Met {
			a.printf("; minimum %s has %s of %s", safe(m.ID), m.Have, m.Want)
		}
	}
	a.printf(".\n")
	if p := r.Pace; p != nil {
		a.printf("Counting today there are %d days, to %s. Evenly spread that is %s a month, %s a week.\n", p.Days, r.EarnBy,
			about(p.CreditsPerMonth)+" "+plural(r.Unit), about(p.CreditsPerWeek))
	} else if r.EarnBy == nil {
		a.printf("The cycle has no end, so there is no last day.\n")
	}
}

// shownWays is how many ways are printed with their activities unless all are asked for.
const shownWays = 3

func (a *app) printWays(r journal.PlanReport, byTime, all bool) {
	if len(r.Ways) == 0 {
		return
	}
	switch {
	case len(r.Ways) == 1 && r.Proven:
		a.printf("\nOne way is the best in both cost and time; that is proven.\n")
	case r.Proven && len(r.Curve) > 0:
		a.printf("\n%d ways close the gap so that none beats another in both cost and time; that they are all is proven.\n", len(r.Ways))
	case r.Proven:
		a.printf("\n%d ways close the gap, each the best in one respect; that is proven.\n", len(r.Ways))
	default:
		a.printf("\n%d ways close the gap. The search ended with its budget, so there may be better ones; more --steps search on.\n", len(r.Ways))
	}
	for i, w := range r.Ways {
		name := ""
		switch {
		case len(r.Ways) == 1 || len(r.Curve) == 0:
		case i == 0 && byTime || i == len(r.Ways)-1 && !byTime:
			name = ", the shortest"
		case i == 0 || i == len(r.Ways)-1:
			name = ", the cheapest"
		}
		if all || i == 0 || i == len(r.Ways)-1 || len(r.Ways) <= shownWays {
			a.printWay(r, w, name)
		} else if i == 1 {
			a.printf("\nWays 2 to %d: see --all.\n", len(r.Ways)-1)
		}
	}
	a.printCurve(r)
	if r.LastDay != nil {
		a.printf("\nThe last day to begin: %s", r.LastDay)
		if r.Pace != nil && r.Pace.ToBeHad != nil {
			a.printf(", at %s h a week", r.Pace.ToBeHad)
		} else {
			a.printf(" (by the days of what is offered alone; --hours-per-week counts the work in)")
		}
		a.printf(".\n")
		if r.LastDay.Before(r.On) {
			a.printf("That day has passed: at this pace no way can be done in time.\n")
		}
	}
}

func (a *app) printWay(r journal.PlanReport, w journal.PlanWay, name string) {
	a.printf("\nWay %d%s: %s, %s h", w.Number, name, costText(w), about(w.Hours))
	if w.HoursPerMonth != nil {
		a.printf(" (%s a month, %s a week)", about(*w.HoursPerMonth), about(*w.HoursPerWeek))
	}
	if w.LastDay != nil && r.Pace != nil && r.Pace.ToBeHad != nil {
		a.printf(", begin by %s", w.LastDay)
	}
	if w.CostFrom != nil {
		a.printf("; none costs less than %s", about(*w.CostFrom))
	}
	if w.HoursFrom != nil {
		a.printf("; none takes less than %s h", about(*w.HoursFrom))
	}
	a.printf("\n")
	rows := make([][]string, len(w.Activities))
	for i, p := range w.Activities {
		times := ""
		if p.Times > 0 {
			times = fmt.Sprintf("%d ×", p.Times)
		}
		cost := ""
		if p.Cost != nil {
			cost = p.Cost.Amount.String() + " " + p.Cost.Currency
		}
		title := p.Title
		if p.Chosen {
			title += " (settled)"
		}
		rows[i] = []string{title, p.Category, times, whenText(p, r), p.Credits.String(), about(p.Hours), cost}
	}
	a.table([]column{{head: "  activity", most: 40}, {head: "category", most: 16}, {head: "", number: true}, {head: "when", most: 34},
		{head: plural(r.Unit), number: true}, {head: "hours", number: true}, {head: "cost", number: true}}, indent(rows))
}

// indent moves the first cell of each row in.
func indent(rows [][]string) [][]string {
	for _, row := range rows {
		row[0] = "  " + row[0]
	}
	return rows
}

func costText(w journal.PlanWay) string {
	if len(w.Cost) == 0 {
		return "no cost"
	}
	var parts []string
	for _, m := range w.Cost {
		parts = append(parts, m.Amount.String()+" "+m.Currency)
	}
	return strings.Join(parts, " + ")
}

// whenText prints the days of an activity, or the span in which it can be done.
func whenText(p journal.PlanActivity, r journal.PlanReport) string {
	var parts []string
	for _, s := range p.When {
		switch {
		case s.From == s.Until:
			parts = append(parts, s.From.String())
		case s.From.After(r.On) && (r.EarnBy == nil || s.Until.Before(*r.EarnBy)):
			parts = append(parts, s.From.String()+" to "+s.Until.String())
		case s.From.After(r.On):
			parts = append(parts, "from "+s.From.String())
		default:
			parts = append(parts, "by "+s.Until.String())
		}
	}
	text := strings.Join(parts, ", ")
	for _, d := range p.Or {
		text += " or " + d.String()
	}
	return text
}

func (a *app) printSave(r journal.PlanReport) {
	if len(r.HandIn) > 0 {
		a.printf("\nHand in now: %s\n", strings.Join(r.HandIn, " "))
	}
	if len(r.Save) == 0 {
		if r.SaveWhy != "" {
			a.printf("Nothing to keep back: %s.\n", safe(r.SaveWhy))
		}
		return
	}
	var parts []string
	var sum credit.Amount
	for _, s := range r.Save {
		parts = append(parts, fmt.Sprintf("%s (%s)", s.Claim, s.Credits))
		sum = sum.Add(s.Credits)
	}
	a.printf("Keep for the next cycle: %s, %s in all; %s.\n", strings.Join(parts, ", "), unitsOf(sum, r.Unit), safe(r.SaveWhy))
}

func (a *app) printAgain(r journal.PlanReport) {
	x := r.Again
	if x == nil || r.State == journal.PlanNothing || r.State == journal.PlanMet {
		return
	}
	title := x.Title
	if title == "" {
		title = "The re-examination"
	}
	a.printf("\nInstead: %s, %s %s", safe(title), x.Pays, x.Currency)
	if x.FeeMembers != nil {
		who, other, fee := "for others", "members", *x.FeeMembers
		if x.Member {
			who, other, fee = "for members", "others", x.Fee
		}
		a.printf(" %s (%s pay %s)", who, other, fee)
	}
	if x.Hours != nil {
		a.printf(", %s h", x.Hours)
	}
	if len(x.Instead) > 0 {
		a.printf("; the fact %s then stands instead of all that is asked", safe(strings.Join(x.Instead, " or ")))
	}
	if x.Source != "" {
		a.printf(" [%s]", safe(x.Source))
	}
	a.printf("\n")
}
