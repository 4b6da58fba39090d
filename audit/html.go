package audit

import (
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"slices"
	"strings"

	"evidencevault/credit"
)

//go:embed template/index.html
var indexHTML string

//go:embed template/index.css
var indexCSS string

var indexTemplate = template.Must(template.New("index").Funcs(template.FuncMap{
	"style":  func() template.CSS { return template.CSS(indexCSS) }, // our own file, not text from outside
	"day":    longDay,
	"span":   span,
	"time":   clockTime,
	"words":  func(field string) string { return strings.ReplaceAll(field, "_", " ") },
	"firsts": firsts,
	"units":  credit.Units,
	"two":    func() credit.Amount { return credit.Whole(2) },
}).Parse(indexHTML))

// categoryLine is one row of the totals.
type categoryLine struct {
	Title            string
	Claims           int
	Awarded, Counted credit.Amount
	Cap              string
}

// indexPage is what the template shows.
type indexPage struct {
	Dossier
	Categories   []categoryLine
	AwardedTotal credit.Amount
}

// WriteHTML writes the index as one HTML page that needs no other file to be read.
// Links lead to the copies beside it.
func (d Dossier) WriteHTML(w io.Writer) error {
	page := indexPage{Dossier: d}
	page.Categories, page.AwardedTotal = d.categoryLines()
	return indexTemplate.Execute(w, page)
}

// categoryLines are the totals of the categories that have claims, and what was awarded
// in all.
func (d Dossier) categoryLines() (list []categoryLine, awarded credit.Amount) {
	claims := map[string]int{}
	for _, c := range d.Statement.Claims {
		claims[c.Category]++
	}
	for _, c := range d.Statement.Categories {
		awarded = awarded.Add(c.Awarded)
		if claims[c.ID] == 0 {
			continue
		}
		line := categoryLine{Title: d.titles[c.ID], Claims: claims[c.ID], Awarded: c.Awarded, Counted: c.Counted, Cap: "–"}
		if c.Cap != nil {
			line.Cap = c.Cap.String()
		}
		list = append(list, line)
	}
	return list, awarded
}

// longDay prints "5 March 2026".
func longDay(d credit.Date) string {
	if d.IsZero() {
		return ""
	}
	y, m, day := d.YMD()
	return fmt.Sprintf("%d %s %d", day, m, y)
}

// span prints the days of an activity the short way: "10 to 11 September 2024".
func span(start, end credit.Date) string {
	switch {
	case start.IsZero() && end.IsZero():
		return "no date"
	case start.IsZero() || start == end:
		return longDay(end)
	case end.IsZero():
		return "since " + longDay(start)
	}
	y, m, day := start.YMD()
	ey, em, _ := end.YMD()
	switch {
	case y == ey && m == em:
		return fmt.Sprintf("%d to %s", day, longDay(end))
	case y == ey:
		return fmt.Sprintf("%d %s to %s", day, m, longDay(end))
	}
	return longDay(start) + " to " + longDay(end)
}

// clockTime prints 450 minutes as "7 h 30 min".
func clockTime(m *credit.Minutes) string {
	if m == nil {
		return "–"
	}
	h, rest := *m/60, *m%60
	switch {
	case h == 0:
		return fmt.Sprintf("%d min", rest)
	case rest == 0:
		return fmt.Sprintf("%d h", h)
	}
	return fmt.Sprintf("%d h %d min", h, rest)
}

// unitsWere is [credit.Units] with the verb that goes with a: point was, points were.
func unitsWere(a credit.Amount, unit string) string {
	verb := " were"
	if a.Equal(credit.Whole(1)) {
		verb = " was"
	}
	return strings.TrimSpace(credit.Units(a, unit) + verb)
}

// firsts returns the first proof of each file and page, in order.
func firsts(proofs []Proof) []Proof {
	var out []Proof
	for _, p := range proofs {
		if !slices.ContainsFunc(out, func(q Proof) bool { return q.Link == p.Link }) {
			out = append(out, p)
		}
	}
	return out
}
