package audit

import (
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"slices"
	"strconv"
	"strings"

	"evidencevault/credit"
)

//go:embed template/index.html
var indexHTML string

//go:embed template/index.css
var indexCSS string

var indexTemplate = template.Must(template.New("index").Funcs(template.FuncMap{
	"style":  func() template.CSS { return template.CSS(indexCSS) }, // our own file, not text from outside
	"anchor": anchor,
}).Parse(indexHTML))

// indexPage is what the template shows. Everything in it is in the language of the page.
type indexPage struct {
	w                                     *wording
	Lang, Holder, Head                    string
	Front                                 front
	Claims                                []claimLine
	Originals                             []fileLine
	ClaimsCount, FilesCount               string
	Time, Awarded, Counted, None, NoProof string // said once for each claim
	Field, Value, Where, Words            string
}

// claimLine is one claim.
type claimLine struct {
	ID, Anchor, Day, Category, Title, Provider, Time string
	Awarded, Counted                                 string
	Line                                             string
	Why                                              []string
	Firsts, Proofs                                   []proofLine
	ProofsOf                                         string
}

// proofLine is one proof, or the first of a file and page. Cell is its place with a link
// and the name of the file, as the template "place" writes it: once for all proofs there.
type proofLine struct {
	Field, Value, Link, Where, File, Quote, ByHolder string
	Cell                                             template.HTML
}

// fileLine is one original.
type fileLine struct{ Exhibit, Copy, Names, Size, SHA256 string }

// Say returns a text of the page.
func (p indexPage) Say(key string) string { return p.w.say(key) }

// ID prints the number of a claim.
func (p indexPage) ID(id string) string { return p.w.claimID(id) }

// Last is the column that holds words, not figures.
func (t frontTable) Last() int { return len(t.Heads) - t.Words }

// WriteHTML writes the index as one HTML page in the dossier's language that needs no
// other file to be read. Links lead to the copies beside it.
func (d Dossier) WriteHTML(w io.Writer) error {
	texts := d.words()
	p := indexPage{w: texts, Lang: texts.tag, Holder: d.Holder, Head: d.Head, Front: d.frontOf("index"),
		ClaimsCount: texts.number("claims count", len(d.Claims)), FilesCount: texts.number("files count", len(d.Originals)),
		Time: texts.say("time head"), Awarded: texts.say("awarded"), Counted: texts.say("counted"), None: texts.say("none"), NoProof: texts.say("no proof"),
		Field: texts.say("field"), Value: texts.say("value"), Where: texts.say("where"), Words: texts.say("words there")}
	numbers := map[string]string{}
	for i, o := range d.Originals {
		exhibit := texts.say("exhibit", i+1)
		numbers[o.Copy] = exhibit
		p.Originals = append(p.Originals, fileLine{exhibit, o.Copy, strings.Join(o.Names, ", "), strconv.FormatInt(o.Size, 10), o.SHA256})
	}
	cells := map[proofLine]template.HTML{}
	for _, e := range d.Claims {
		c := d.claimLine(e, numbers)
		if err := placed(c.Proofs, cells); err != nil {
			return err
		}
		p.Claims = append(p.Claims, c)
	}
	return indexTemplate.ExecuteTemplate(w, "index", p)
}

// placed fills in the places of proofs; cells holds those that are written already.
func placed(proofs []proofLine, cells map[proofLine]template.HTML) error {
	for i, p := range proofs {
		at := proofLine{Link: p.Link, Where: p.Where, File: p.File}
		cell, ok := cells[at]
		if !ok {
			var b strings.Builder
			if err := indexTemplate.ExecuteTemplate(&b, "place", at); err != nil {
				return err
			}
			cell = template.HTML(b.String()) // the template has escaped what came from outside
			cells[at] = cell
		}
		proofs[i].Cell = cell
	}
	return nil
}

func (d Dossier) claimLine(e Entry, numbers map[string]string) claimLine {
	w := d.words()
	c := claimLine{ID: w.claimID(e.ID), Anchor: anchor(e.ID), Day: w.span(e.Start, e.End), Category: w.category(e), Title: w.title(e), Provider: e.Provider,
		Time: clockTime(e.Minutes), Awarded: e.Awarded.String(), Counted: e.Counted.String(), Line: w.eachLine(e)}
	for _, why := range e.Why {
		c.Why = append(c.Why, w.sentence(why))
	}
	for _, p := range e.Proofs {
		c.Proofs = append(c.Proofs, w.proofLine(p, numbers))
	}
	for i, p := range c.Proofs {
		if !slices.ContainsFunc(c.Proofs[:i], func(q proofLine) bool { return q.Link == p.Link }) {
			c.Firsts = append(c.Firsts, p)
		}
	}
	if len(c.Proofs) > 0 {
		c.ProofsOf = w.say("proofs of", c.ID)
	}
	return c
}

func (w *wording) proofLine(p Proof, numbers map[string]string) proofLine {
	l := proofLine{Field: w.field(p.Field), Value: w.value(p.Field, p.Value), Link: p.Link, Where: w.say("at page", numbers[p.Copy], p.Page), File: p.File}
	switch {
	case p.By == "person":
		l.ByHolder = w.say("by holder")
	case p.Quote != "":
		l.Quote = w.say("quoted", p.Quote)
	}
	return l
}

// anchor is the id of a claim's place on the page.
func anchor(id string) string { return strings.ReplaceAll(id, " ", "-") }

// claimID prints the number of a claim; of credit that was carried in, with its cycle.
func (w *wording) claimID(id string) string {
	if of, end, ok := strings.Cut(id, " of the cycle to "); ok {
		return w.say("carried id", of, w.value("", end))
	}
	return id
}

// title is the title of a claim in words.
func (w *wording) title(e Entry) string {
	if e.Title == "" {
		return w.say("no title")
	}
	return e.Title
}

// category is the category of a claim in words.
func (w *wording) category(e Entry) string {
	title := e.CategoryTitle
	if title == "" {
		title = w.say("no category")
	}
	if e.CarriedFrom.IsZero() {
		return title
	}
	return w.say("carried in", title, w.day(e.CarriedFrom))
}

// eachLine says of a claim when, with whom, what it comes to and by which rule.
func (w *wording) eachLine(e Entry) string {
	source, day := "", w.span(e.Start, e.End)
	if e.Rule.Source != "" {
		source = " (" + e.Rule.Source + ")"
	}
	if e.Provider != "" {
		day += ", " + e.Provider
	}
	text := w.say("each line", day, w.category(e), e.Awarded, e.Counted, e.Rule.File, e.Rule.Line, source)
	if e.Minutes != nil {
		text += " " + w.say("time", clockTime(e.Minutes))
	}
	return text
}

// longDay prints "5 March 2026".
func longDay(d credit.Date) string {
	if d.IsZero() {
		return ""
	}
	y, m, day := d.YMD()
	return fmt.Sprintf("%d %s %d", day, m, y)
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
