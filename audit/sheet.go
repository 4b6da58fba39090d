package audit

import (
	"cmp"
	"fmt"
	"io"
	"strings"
	"unicode"

	"github.com/xuri/excelize/v2"

	"evidencevault/credit"
)

// Sheet is a standing as a workbook whose sums recompute.
type Sheet struct {
	Title     string // of the certificate
	Holder    string
	Statement credit.Statement
	Claims    map[string]SheetClaim // by id; a claim that is not here has no words of its own
	Some      bool                  // only the claims in Claims are handed over: of others stands what the sums need

	w    *wording       // nil: English
	lead string         // what is counted, in words; "": as the standing says it
	rows map[string]int // of each claim, see placed
}

// SheetClaim is what a workbook says of a claim besides what the rules read.
type SheetClaim struct {
	Title, Provider, Proof string
}

// SheetOf returns the workbook of a dossier, in its language: each claim with the place of
// its first proof.
func SheetOf(d Dossier) Sheet {
	s := Sheet{Title: d.Title, Holder: d.Holder, Statement: d.Statement, Claims: map[string]SheetClaim{}, Some: d.some(), w: d.words(), lead: strings.Join(d.lead(), " ")}
	for _, e := range d.Claims {
		c := SheetClaim{Title: e.Title, Provider: e.Provider}
		if len(e.Proofs) > 0 {
			c.Proof = s.w.say("at page", e.Proofs[0].File, e.Proofs[0].Page)
		}
		s.Claims[e.ID] = c
	}
	return s
}

// Write writes the workbook as Office Open XML. What a claim counts is its award less
// its cut; sums by category, caps, minimums, the total and what is missing are formulas,
// so that they follow when a cell is changed. Which claim a cap cuts is not worked out
// anew there: the sheet says so. A number with a finite decimal of up to 15 digits
// stands as such, any other as a formula like =31/3. Text is never a formula.
func (s Sheet) Write(w io.Writer) error {
	if s.w == nil {
		var err error
		if s.w, err = wordsIn(""); err != nil {
			return err
		}
	}
	book := excelize.NewFile()
	defer book.Close()
	g := &grid{book: book}
	if err := g.begin(s.say("sheet standing"), s.say("sheet claims"), s.say("sheet rules"), s.say("sheet way")); err != nil {
		return err
	}
	s.rows = s.placed()
	rows := s.claims(g)
	s.standing(g, rows)
	s.rules(g)
	s.way(g)
	if g.err != nil {
		return fmt.Errorf("workbook: %w", g.err)
	}
	return book.Write(w)
}

func (s Sheet) say(key string, args ...any) string { return s.w.say(key, args...) }

// heads are the headings of columns.
func (s Sheet) heads(keys ...string) []string {
	list := make([]string, len(keys))
	for i, key := range keys {
		if key != "" {
			list[i] = s.say("c " + key)
		}
	}
	return list
}

// column is a range of the sheet of the claims, from the first row to the last, as a
// formula on another sheet names it.
func (s Sheet) column(name string, last int) string {
	return fmt.Sprintf("%s!%s2:%s%d", s.quoted(), name, name, last)
}

// quoted is the name of the sheet of the claims in a formula.
func (s Sheet) quoted() string {
	return quotedSheet(s.say("sheet claims"))
}

// quotedSheet is the name of a sheet in a formula.
func quotedSheet(name string) string { return "'" + strings.ReplaceAll(name, "'", "''") + "'" }

// claims fills the sheet of the claims and returns the number of its last row.
func (s Sheet) claims(g *grid) int {
	g.open(s.say("sheet claims"), 9, 16, 12, 12, 10, 12, 12, 12, 40, 28, 40, 24, 12)
	heads := s.heads("claim", "category", "start", "end", "minutes", "awarded", "cut", "counted", "title", "provider", "proof", "tags")
	if s.Some {
		heads = append(heads, s.say("c handed"))
	}
	g.head(heads...)
	row := 2
	for _, list := range [][]credit.ClaimResult{s.Statement.Claims, s.Statement.CarriedIn} {
		for _, r := range list {
			s.claim(g, row, r)
			row++
		}
	}
	return max(row-1, 2)
}

func (s Sheet) claim(g *grid, row int, r credit.ClaimResult) {
	c, _ := s.Statement.Claim(r.ID)
	words, handed := s.Claims[r.ID]
	g.text(row, 1, s.w.claimID(r.ID))
	g.text(row, 2, r.Category)
	if handed || !s.Some {
		g.day(row, 3, c.Start)
		g.day(row, 4, c.End)
		if c.Minutes != nil {
			g.amount(row, 5, credit.Whole(int64(*c.Minutes)))
		}
	}
	g.amount(row, 6, r.Awarded)
	g.amount(row, 7, r.Awarded.Sub(r.Counted))
	g.formula(row, 8, "MAX(0,F%d-G%d)", row, row)
	g.text(row, 9, words.Title)
	g.text(row, 10, words.Provider)
	g.text(row, 11, words.Proof)
	if handed || !s.Some {
		g.text(row, 12, strings.Join(c.Tags, ", "))
	}
	if handed && s.Some {
		g.text(row, 13, s.say("yes"))
	}
}

// standing fills the first sheet: target, total, categories, caps, minimums.
func (s Sheet) standing(g *grid, last int) {
	st := s.Statement
	g.open(s.say("sheet standing"), 50, 16, 16, 14, 14, 26)
	g.text(1, 1, strings.TrimSpace(s.Title+" "+s.Holder))
	g.text(2, 1, cmp.Or(s.lead, st.Summary()))
	g.text(3, 1, s.say("sheet note", s.say("sheet claims")))
	first := 10 // of the categories
	end := first + len(st.Categories)
	g.text(4, 1, s.say("c target"))
	g.amount(4, 2, st.Target)
	g.text(5, 1, s.say("c counted"))
	if s.Some {
		g.text(5, 1, s.say("c counted whole", len(st.Claims)+len(st.CarriedIn)))
		g.text(8, 1, s.say("c counted here", len(s.Claims)))
		g.formula(8, 2, `SUMIF(%s,"%s",%s)`, s.column("M", last), s.say("yes"), s.column("H", last))
	}
	g.formula(5, 2, "SUM(C%d:C%d)", first, end)
	g.text(6, 1, s.say("c missing"))
	g.formula(6, 2, "MAX(0,B4-B5)")
	g.text(7, 1, s.say("c day"))
	g.day(7, 2, st.On)
	g.text(7, 3, s.say("c cycle ends"))
	g.day(7, 4, st.Cycle.End)
	heads := s.heads("category", "awarded", "counted", "most", "claims")
	if s.Some {
		heads = append(heads, s.say("c counted of these"))
	}
	for i, name := range heads {
		g.title(first-1, i+1, name)
	}
	for i := range st.Categories {
		s.categoryRow(g, first+i, i, last)
	}
	g.text(end, 1, s.say("c others")) // carried credit in a category that no rule names
	g.formula(end, 2, "SUM(%s)-SUM(B%d:B%d)", s.column("F", last), first-1, end-1)
	g.formula(end, 3, "SUM(%s)-SUMPRODUCT(%s)", s.column("H", last), s.sumOfCategories(last))
	s.caps(g, s.minimums(g, end+2))
}

// categoryRow writes what one category comes to.
func (s Sheet) categoryRow(g *grid, row, i, last int) {
	c := s.Statement.Categories[i]
	in := s.column("B", last)
	g.text(row, 1, c.ID)
	g.formula(row, 2, "SUMIF(%s,A%d,%s)", in, row, s.column("F", last))
	sum := fmt.Sprintf("SUMIF(%s,A%d,%s)", in, row, s.column("H", last))
	if c.Cap != nil {
		g.amount(row, 4, *c.Cap)
		sum = fmt.Sprintf("MIN(%s,D%d)", sum, row)
	}
	g.formula(row, 3, "%s", sum)
	g.formula(row, 5, "COUNTIF(%s,A%d)", in, row)
	if s.Some {
		g.formula(row, 6, `SUMIFS(%s,%s,A%d,%s,"%s")`, s.column("H", last), in, row, s.column("M", last), s.say("yes"))
	}
}

func (s Sheet) sumOfCategories(last int) string {
	if len(s.Statement.Categories) == 0 {
		return "0"
	}
	return fmt.Sprintf("SUMIF(%s,A10:A%d,%s)", s.column("B", last), 9+len(s.Statement.Categories), s.column("H", last))
}

// minimums writes what each minimum has in the split that was chosen, window by window.
func (s Sheet) minimums(g *grid, row int) int {
	if len(s.Statement.Minimums) == 0 {
		return row
	}
	for i, name := range s.heads("minimum", "asked", "there", "", "can", "state") {
		g.title(row, i+1, name)
	}
	row++
	for _, m := range s.Statement.Minimums {
		var rows []int
		windows := false
		for _, d := range s.Statement.OfMinimum(m.ID) {
			for _, p := range d.Parts {
				windows = windows || p.Window != ""
				if at := s.rows[p.Claim]; at > 0 {
					rows = append(rows, at)
				}
			}
		}
		g.text(row, 1, m.ID)
		g.amount(row, 2, m.Want)
		if windows {
			g.text(row, 3, s.say("c see", s.say("sheet way")))
		} else {
			g.sum(row, 3, s.quoted(), "H", rows)
		}
		g.amount(row, 5, m.Have)
		if m.Met {
			g.text(row, 6, s.say("c met"))
		} else {
			g.formula(row, 6, "B%d-E%d", row, row)
		}
		row++
	}
	return row + 1
}

// caps writes, for each cap over the whole cycle, what counts under it.
func (s Sheet) caps(g *grid, row int) {
	for i, name := range s.heads("cap", "most", "counted", "room", "looks") {
		g.title(row, i+1, name)
	}
	row++
	for _, k := range s.Statement.Rules().Caps {
		if len(k.Per) > 0 && (len(k.Per) > 1 || k.Per[0] != credit.PerCycle) || k.Share != credit.ShareNone || k.Largest {
			continue
		}
		var rows []int
		for _, r := range s.Statement.Claims {
			c, _ := s.Statement.Claim(r.ID)
			if c.Category = r.Category; k.Selection.Holds(c) {
				rows = append(rows, s.rows[r.ID])
			}
		}
		g.text(row, 1, k.ID)
		g.amount(row, 2, k.Most)
		g.sum(row, 3, s.quoted(), "H", rows)
		g.formula(row, 4, "B%d-C%d", row, row)
		g.text(row, 5, s.w.sentence(k.Selection.Words()))
		row++
	}
}

// placed is the row of each claim on the sheet of the claims.
func (s Sheet) placed() map[string]int {
	rows, row := make(map[string]int, len(s.Statement.Claims)), 2
	for _, list := range [][]credit.ClaimResult{s.Statement.Claims, s.Statement.CarriedIn} {
		for _, r := range list {
			rows[r.ID] = row
			row++
		}
	}
	return rows
}

// rules lists the rules with the place where each stands.
func (s Sheet) rules(g *grid) {
	g.open(s.say("sheet rules"), 12, 24, 60, 20, 8, 60)
	g.head(s.heads("kind", "rule", "says", "file", "line", "source")...)
	r, row := s.Statement.Rules(), 2
	add := func(kind, id, says string, o credit.Origin) {
		for i, text := range []string{kind, id, says, o.File} {
			g.text(row, i+1, text)
		}
		if o.Line > 0 {
			g.amount(row, 5, credit.Whole(int64(o.Line)))
		}
		g.text(row, 6, o.Source)
		row++
	}
	if r.Target.Set {
		add(s.say("c target"), s.say("c target"), s.Statement.Target.String(), r.Target.Origin)
	}
	for _, c := range r.Categories {
		add(s.say("c category"), c.ID, c.Title, c.Origin)
	}
	for _, k := range r.Caps {
		says := "at most " + k.Most.String() + " of " + k.Selection.Words()
		if len(k.Per) > 0 {
			says += " in each " + strings.Join(k.Per, ", ")
		}
		add(s.say("c cap"), k.ID, s.w.sentence(says), k.Origin)
	}
	for _, m := range r.Minimums {
		add(s.say("c minimum"), m.ID, s.w.sentence("at least "+m.Least.String()+" of "+m.Selection.Words()), m.Origin)
	}
}

// way holds the derivation, line by line.
func (s Sheet) way(g *grid) {
	g.open(s.say("sheet way"), 160)
	var lines []string
	if !s.Some {
		for _, line := range s.Statement.ExplainAll() {
			lines = append(lines, s.w.sentence(line))
		}
	} else {
		for _, r := range s.Statement.Claims {
			if _, handed := s.Claims[r.ID]; !handed {
				continue
			}
			for _, step := range s.Statement.OfClaim(r.ID) {
				lines = append(lines, s.w.claimID(r.ID)+"  "+s.w.sentence(step.String()))
			}
		}
	}
	for i, line := range lines {
		g.text(i+1, 1, line)
	}
}

// plain takes out of a text what a workbook cannot hold.
func plain(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) && r != '\n' && r != '\t' || r == '\uFFFE' || r == '\uFFFF' {
			return unicode.ReplacementChar
		}
		return r
	}, text)
}
