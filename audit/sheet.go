package audit

import (
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
}

// SheetClaim is what a workbook says of a claim besides what the rules read.
type SheetClaim struct {
	Title, Provider, Proof string
}

// SheetOf returns the workbook of a dossier: each claim with the place of its first proof.
func SheetOf(d Dossier) Sheet {
	s := Sheet{Title: d.Title, Holder: d.Holder, Statement: d.Statement, Claims: map[string]SheetClaim{}, Some: !d.Asked.All || len(d.Asked.LeftOut) > 0}
	for _, e := range d.Claims {
		c := SheetClaim{Title: e.Title, Provider: e.Provider}
		if len(e.Proofs) > 0 {
			c.Proof = fmt.Sprintf("%s, page %d", e.Proofs[0].File, e.Proofs[0].Page)
		}
		s.Claims[e.ID] = c
	}
	return s
}

// The sheets of a workbook, in order.
const (
	sheetStanding = "Standing"
	sheetClaims   = "Claims"
	sheetRules    = "Rules"
	sheetWay      = "Derivation"
)

// Write writes the workbook as Office Open XML. What a claim counts is its award less
// its cut; sums by category, caps, minimums, the total and what is missing are formulas,
// so that they follow when a cell is changed. Which claim a cap cuts is not worked out
// anew there: the sheet says so. A number with a finite decimal of up to 15 digits
// stands as such, any other as a formula like =31/3. Text is never a formula.
func (s Sheet) Write(w io.Writer) error {
	book := excelize.NewFile()
	defer book.Close()
	g := &grid{book: book}
	if err := g.begin(sheetStanding, sheetClaims, sheetRules, sheetWay); err != nil {
		return err
	}
	rows := s.claims(g)
	s.standing(g, rows)
	s.rules(g)
	s.way(g)
	if g.err != nil {
		return fmt.Errorf("workbook: %w", g.err)
	}
	return book.Write(w)
}

// claims fills the sheet of the claims and returns the number of its last row.
func (s Sheet) claims(g *grid) int {
	g.open(sheetClaims, 9, 16, 12, 12, 10, 12, 12, 12, 40, 28, 40, 24)
	g.head("claim", "category", "start", "end", "minutes", "awarded", "cut", "counted", "title", "provider", "proof", "tags")
	row := 2
	results := append(append([]credit.ClaimResult{}, s.Statement.Claims...), s.Statement.CarriedIn...)
	for _, r := range results {
		c, _ := s.Statement.Claim(r.ID)
		words, handed := s.Claims[r.ID]
		g.text(row, 1, r.ID)
		g.text(row, 2, r.Category)
		if handed || !s.Some {
			g.day(row, 3, c.Start)
			g.day(row, 4, c.End)
			g.text(row, 12, strings.Join(c.Tags, ", "))
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
		row++
	}
	return max(row-1, 2)
}

// standing fills the first sheet: target, total, categories, caps, minimums.
func (s Sheet) standing(g *grid, last int) {
	st := s.Statement
	g.open(sheetStanding, 30, 16, 16, 14, 14, 18)
	g.text(1, 1, strings.TrimSpace(s.Title+" "+s.Holder))
	g.text(2, 1, st.Summary())
	g.text(3, 1, "Change a claim's award on the sheet Claims and the sums follow. Which claim a cap cuts is not worked out anew here: ask vaultctl standing.")
	first := 10 // of the categories
	end := first + len(st.Categories)
	g.text(4, 1, "target")
	g.amount(4, 2, st.Target)
	g.text(5, 1, "counted")
	g.formula(5, 2, "SUM(C%d:C%d)", first, end)
	g.text(6, 1, "missing")
	g.formula(6, 2, "MAX(0,B4-B5)")
	g.text(7, 1, "day")
	g.day(7, 2, st.On)
	g.text(7, 3, "cycle ends")
	g.day(7, 4, st.Cycle.End)
	for i, name := range []string{"category", "awarded", "counted", "at most", "claims"} {
		g.title(first-1, i+1, name)
	}
	names := []string{}
	for _, c := range st.Categories {
		names = append(names, c.ID)
	}
	for i, name := range append(names, "all others") {
		row := first + i
		g.text(row, 1, name)
		if i == len(names) { // carried credit in a category that no rule names
			g.formula(row, 2, "SUM(Claims!F2:F%d)-SUM(B%d:B%d)", last, first-1, row-1)
			g.formula(row, 3, "SUM(Claims!H2:H%d)-SUMPRODUCT(%s)", last, sumOfCategories(names, last))
			continue
		}
		g.formula(row, 2, "SUMIF(Claims!B2:B%d,A%d,Claims!F2:F%d)", last, row, last)
		sum := fmt.Sprintf("SUMIF(Claims!B2:B%d,A%d,Claims!H2:H%d)", last, row, last)
		if most := st.Categories[i].Cap; most != nil {
			g.amount(row, 4, *most)
			sum = fmt.Sprintf("MIN(%s,D%d)", sum, row)
		}
		g.formula(row, 3, "%s", sum)
		g.formula(row, 5, "COUNTIF(Claims!B2:B%d,A%d)", last, row)
	}
	s.caps(g, s.minimums(g, end+2))
}

func sumOfCategories(names []string, last int) string {
	if len(names) == 0 {
		return "0"
	}
	return fmt.Sprintf("SUMIF(Claims!B2:B%d,A10:A%d,Claims!H2:H%d)", last, 9+len(names), last)
}

// minimums writes what each minimum has in the split that was chosen, window by window.
func (s Sheet) minimums(g *grid, row int) int {
	if len(s.Statement.Minimums) == 0 {
		return row
	}
	for i, name := range []string{"minimum", "asked", "there", "", "can count", "state"} {
		g.title(row, i+1, name)
	}
	row++
	for _, m := range s.Statement.Minimums {
		var cells []string
		windows := false
		for _, d := range s.Statement.OfMinimum(m.ID) {
			for _, p := range d.Parts {
				windows = windows || p.Window != ""
				if at := s.rowOf(p.Claim); at > 0 {
					cells = append(cells, fmt.Sprintf("Claims!H%d", at))
				}
			}
		}
		g.text(row, 1, m.ID)
		g.amount(row, 2, m.Want)
		if windows {
			g.text(row, 3, "see Derivation")
		} else {
			g.sum(row, 3, cells)
		}
		g.amount(row, 5, m.Have)
		if m.Met {
			g.text(row, 6, "met")
		} else {
			g.formula(row, 6, "B%d-E%d", row, row)
		}
		row++
	}
	return row + 1
}

// caps writes, for each cap over the whole cycle, what counts under it.
func (s Sheet) caps(g *grid, row int) {
	for i, name := range []string{"cap", "at most", "counted", "room", "looks at"} {
		g.title(row, i+1, name)
	}
	row++
	for _, k := range s.Statement.Rules().Caps {
		if len(k.Per) > 0 && (len(k.Per) > 1 || k.Per[0] != credit.PerCycle) || k.Share != credit.ShareNone || k.Largest {
			continue
		}
		var cells []string
		for _, r := range s.Statement.Claims {
			c, _ := s.Statement.Claim(r.ID)
			if c.Category = r.Category; k.Selection.Holds(c) {
				cells = append(cells, fmt.Sprintf("Claims!H%d", s.rowOf(r.ID)))
			}
		}
		g.text(row, 1, k.ID)
		g.amount(row, 2, k.Most)
		g.sum(row, 3, cells)
		g.formula(row, 4, "B%d-C%d", row, row)
		g.text(row, 5, k.Selection.Words())
		row++
	}
}

// rowOf is the row of a claim on the sheet of the claims; 0: it is not there.
func (s Sheet) rowOf(id string) int {
	for i, r := range s.Statement.Claims {
		if r.ID == id {
			return i + 2
		}
	}
	for i, r := range s.Statement.CarriedIn {
		if r.ID == id {
			return len(s.Statement.Claims) + i + 2
		}
	}
	return 0
}

// rules lists the rules with the place where each stands.
func (s Sheet) rules(g *grid) {
	g.open(sheetRules, 12, 24, 60, 20, 8, 60)
	g.head("kind", "rule", "says", "file", "line", "source")
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
		add("target", "target", s.Statement.Target.String(), r.Target.Origin)
	}
	for _, c := range r.Categories {
		add("category", c.ID, c.Title, c.Origin)
	}
	for _, k := range r.Caps {
		says := "at most " + k.Most.String() + " of " + k.Selection.Words()
		if len(k.Per) > 0 {
			says += " in each " + strings.Join(k.Per, ", ")
		}
		add("cap", k.ID, says, k.Origin)
	}
	for _, m := range r.Minimums {
		add("minimum", m.ID, "at least "+m.Least.String()+" of "+m.Selection.Words(), m.Origin)
	}
}

// way holds the derivation, line by line.
func (s Sheet) way(g *grid) {
	g.open(sheetWay, 160)
	lines := s.Statement.ExplainAll()
	if s.Some {
		lines = nil
		for _, r := range s.Statement.Claims {
			if _, handed := s.Claims[r.ID]; !handed {
				continue
			}
			for _, step := range s.Statement.OfClaim(r.ID) {
				lines = append(lines, r.ID+"  "+step.String())
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
