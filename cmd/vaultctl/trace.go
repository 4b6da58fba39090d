package main

import (
	"fmt"
	"strings"

	"evidencevault/extract"
	"evidencevault/extract/paper"
)

// printTrace prints how a paper came to be read: its pages, the text in reading order,
// labels, what was found, and for each field the candidates and the decision.
func (a *app) printTrace(t *extract.Trace) {
	for _, p := range t.Pages {
		a.printTracedPage(p)
	}
	a.printf("  text, in reading order\n")
	for _, p := range t.Text {
		size := ""
		if p.Size > 0 {
			size = fmt.Sprintf("%d.%d pt", p.Size/100, p.Size/10%10)
		}
		a.printf("    %8s  %s\n", size, safe(oneLine(p.Text)))
	}
	if len(t.Labels) > 0 {
		a.printf("  labels\n")
	}
	for _, p := range t.Labels {
		a.printf("    %s → %s  (%s; %s)\n", safe(cut(p.Label, 40)), safe(oneLine(p.Value)), otherwise(p.Role, "role not known"), p.How)
	}
	if len(t.Found) > 0 {
		a.printf("  found\n")
	}
	for _, f := range t.Found {
		as := f.Role
		if f.Label != "" {
			as += " by the label " + f.Label
		}
		a.printf("    %-8s %s  %s%s\n", f.What, safe(strings.Join(f.Meanings, " or ")), safe(otherwise(strings.TrimSpace(as), "nothing says which")), safe(standsAt(f.Place)))
	}
	for _, f := range t.Fields {
		a.printField(f)
	}
	a.printf("\n")
}

func (a *app) printTracedPage(p extract.TracedPage) {
	how := fmt.Sprintf("%d words of the file's text", p.Words)
	switch {
	case p.Recognised:
		how = fmt.Sprintf("%d words recognised in the picture with %d of 100", p.Words, p.Confidence)
	case p.Size == [2]int{}:
		how = "lines of text, without places"
	}
	if p.Hidden > 0 {
		how += fmt.Sprintf(", %d of them cannot be seen", p.Hidden)
	}
	size := ""
	if p.Size != [2]int{} {
		size = fmt.Sprintf(", %d × %d points", p.Size[0]/100, p.Size[1]/100)
	}
	a.printf("  page %d%s: %s; second opinion: %s\n", p.Number, size, how, p.Second)
}

// printField prints one field: the decision, what keeps it open, and the candidates.
func (a *app) printField(f extract.TracedField) {
	decision := "open"
	switch {
	case f.Value != "" && f.Certain:
		decision = f.Value + ", certain"
	case f.Value != "":
		decision = f.Value + ", asked about"
	case f.Question == "":
		decision = "nothing"
	}
	score := ""
	switch {
	case f.Value == "":
	case f.Least > 0:
		score = fmt.Sprintf(" (score %d; certain from %d)", f.Score, f.Least)
	default:
		score = fmt.Sprintf(" (score %d; its checks decide)", f.Score)
	}
	a.printf("  %s: %s%s\n", f.Field, safe(oneLine(decision)), score)
	for _, d := range f.Doubts {
		a.printf("    doubt: %s\n", safe(d))
	}
	const most = 8
	for i, c := range f.Candidates {
		if i == most {
			a.printf("    … and %d lighter ones\n", len(f.Candidates)-most)
			break
		}
		trusted := ""
		if !c.Trusted {
			trusted = ", not trusted by itself"
		}
		a.printf("    %4d  %s  %s%s%s\n", c.Weight, safe(oneLine(c.Value)), safe(c.Why), trusted, safe(standsAt(c.Place)))
	}
}

func standsAt(p paper.Place) string {
	if p.Page == 0 || p.Quote == "" {
		return ""
	}
	return fmt.Sprintf("   page %d: “%s”", p.Page, oneLine(p.Quote))
}

func otherwise(text, instead string) string {
	if text == "" {
		return instead
	}
	return text
}
