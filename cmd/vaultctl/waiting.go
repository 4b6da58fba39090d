package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"evidencevault/catalog"
	"evidencevault/extract/paper"
	"evidencevault/journal"
)

func (a *app) waitingCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "waiting",
		Short: "list the papers that are unread or wait to be confirmed",
		Long: `waiting lists every paper that nobody has decided about: those without a question
first (confirm --clear takes them all), then those with one, then those that could
not be read, each with the reason.`,
		Example: `  vaultctl waiting
  vaultctl waiting --json`,
		Args: a.args(cobra.NoArgs),
		RunE: func(cmd *cobra.Command, _ []string) error {
			return a.reading(cmd.Context(), func(j *journal.Journal) error {
				list, err := j.Waiting(cmd.Context())
				if err != nil {
					return err
				}
				if a.json {
					return a.printJSON(list)
				}
				a.printWaiting(list)
				return nil
			})
		},
	}
}

// printWaiting prints three groups: clear, with a question, unread.
func (a *app) printWaiting(list []journal.WaitingPaper) {
	var ready, open, unread []journal.WaitingPaper
	for _, p := range list {
		switch {
		case p.State == catalog.Unread:
			unread = append(unread, p)
		case p.Clear():
			ready = append(ready, p)
		default:
			open = append(open, p)
		}
	}
	if len(list) == 0 {
		a.printf("Nothing waits.\n")
		return
	}
	gap := ""
	if len(ready) > 0 {
		a.printf("Clear, nothing to ask (%d). Look through them, then: vaultctl confirm --clear\n\n", len(ready))
		a.printPapers(ready)
		gap = "\n"
	}
	if len(open) > 0 {
		a.printf("%sWith a question (%d). Answer with: vaultctl confirm P… --set FIELD=VALUE, or --category NAME\n", gap, len(open))
		for _, p := range open {
			a.printf("\n%s  %s\n", p.ID, safe(paperName(p)))
			if what := paperWords(p); what != "" {
				a.printf("    %s\n", safe(what))
			}
			for _, q := range p.Questions {
				a.printf("    ? %s: %s\n", q.Field, safe(oneLineLong(q.Text)))
			}
		}
		gap = "\n"
	}
	if len(unread) > 0 {
		a.printf("%sNot read (%d). Kept all the same.\n\n", gap, len(unread))
		for _, p := range unread {
			reason := p.Reason
			if reason == "" {
				reason = "not read yet"
			}
			a.printf("%s  %s\n    %s\n", p.ID, safe(paperName(p)), safe(oneLineLong(reason)))
		}
	}
}

func (a *app) printPapers(list []journal.WaitingPaper) {
	rows, when := make([][]string, len(list)), "date"
	if a.narrow() {
		when = "last day"
	}
	for i, p := range list {
		date := days(valueText(p, paper.FieldStart), valueText(p, paper.FieldEnd))
		if a.narrow() {
			date = valueText(p, paper.FieldEnd)
		}
		rows[i] = []string{p.ID, p.Kind, date, amountText(p),
			valueText(p, paper.FieldTitle), paperName(p)}
	}
	a.table([]column{{head: "paper"}, {head: "kind"}, {head: when}, {head: "how much", most: 40}, {head: "title", most: 44}, {head: "file", most: 40}}, rows)
}

// paperName says which paper it is by the name under which its file came.
func paperName(p journal.WaitingPaper) string {
	name := p.File
	if p.Part != "" {
		name += ", part " + p.Part
	}
	if p.Pages[0] > 1 || p.Pages[1] > p.Pages[0] {
		name += ", page " + pageRange(p.Pages)
	}
	return name
}

func pageRange(pages [2]int) string {
	if pages[0] == pages[1] {
		return fmt.Sprint(pages[0])
	}
	return fmt.Sprintf("%d–%d", pages[0], pages[1])
}

func valueText(p journal.WaitingPaper, f paper.Field) string {
	v, ok := p.Values[f]
	if !ok {
		return ""
	}
	return shown(v.Value)
}

// amountText is what the paper says of time, credits or money, the shortest way.
func amountText(p journal.WaitingPaper) string {
	var parts []string
	if m := valueText(p, paper.FieldDuration); m != "" {
		parts = append(parts, m+" min")
	}
	for _, f := range []paper.Field{paper.FieldCredits, paper.FieldTotal} {
		if t := valueText(p, f); t != "" {
			parts = append(parts, t)
		}
	}
	return strings.Join(parts, ", ")
}

// paperWords says in one line what was read.
func paperWords(p journal.WaitingPaper) string {
	var parts []string
	for _, t := range []string{p.Kind, valueText(p, paper.FieldTitle), valueText(p, paper.FieldProvider),
		days(valueText(p, paper.FieldStart), valueText(p, paper.FieldEnd)), amountText(p)} {
		if t != "" {
			parts = append(parts, t)
		}
	}
	return strings.Join(parts, " · ")
}

// days prints the first and last day the short way.
func days(start, end string) string {
	switch {
	case start == end || start == "":
		return end
	case end == "":
		return "from " + start
	}
	return start + " to " + end
}

// oneLineLong folds white space without cutting.
func oneLineLong(s string) string { return strings.Join(strings.Fields(s), " ") }
