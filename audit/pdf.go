package audit

import (
	"fmt"
	"io"
	"strconv"
	"strings"
)

// leaf is the dossier on its way to paper.
type leaf struct {
	*press
	d        Dossier
	exhibits map[string]*exhibit // by the copy's name; nil: the originals lie beside this file
	numbers  map[string]int      // of the exhibits, by the copy's name
}

// WritePDF writes the index as a PDF in a language of [Languages]; "" is the dossier's
// own. Its links lead to the copies beside it. Equal dossiers give equal bytes. The error
// wraps [ErrLanguage].
func (d Dossier) WritePDF(w io.Writer, language string) error {
	if language != "" {
		var err error
		if d, err = d.In(language); err != nil {
			return err
		}
	}
	l, err := d.newLeaf("index")
	if err != nil {
		return err
	}
	l.front("index")
	l.claims()
	l.each()
	l.files()
	return l.Output(w)
}

// newLeaf begins the printed form of "index" or "binder".
func (d Dossier) newLeaf(kind string) (leaf, error) {
	texts := d.words()
	p, err := newPress(texts, texts.say(kind)+": "+d.Title+", "+d.Holder, d.Holder, d.On)
	l := leaf{press: p, d: d, numbers: map[string]int{}}
	for i, o := range d.Originals {
		l.numbers[o.Copy] = i + 1
	}
	return l, err
}

// front prints the page that a stranger reads first.
func (l *leaf) front(kind string) {
	f := l.d.frontOf(kind)
	l.AddPage()
	l.SetFont("text", "", 10)
	l.lines(f.Kind, 13, l.inner())
	l.heading(0, f.Title)
	l.facts(f.Facts)
	l.heading(1, f.Sum)
	for _, lead := range f.Lead {
		l.paragraph(l.clean(lead))
	}
	for _, t := range f.Tables {
		l.figures(t)
	}
	l.heading(1, f.Open)
	for _, p := range f.Points {
		for i, x := range p.Items {
			text := l.clean(x.Text) // a list of files, of which none is left out
			if x.Claim != "" {
				text = l.shown(l.w.claimID(x.Claim) + ": " + x.Text)
			}
			if i == 0 {
				l.room(4*textSize*lineFactor + l.itemHeight(text)) // a heading goes with what it heads
				l.heading(2, p.Heading)
			}
			l.item("–", text)
		}
	}
	if f.OpenNone != "" {
		l.paragraph(l.clean(f.OpenNone))
	}
	l.heading(1, f.Check)
	for i, step := range f.Steps {
		l.item(strconv.Itoa(i+1)+".", step)
	}
	l.SetY(l.GetY() + 3)
	for _, text := range f.Proves {
		l.paragraph(text)
	}
	l.truth(f)
}

func (l *leaf) facts(rows []fact) {
	const indent = 116
	for _, row := range rows {
		text := l.shown(row.Text)
		if row.Code != "" {
			text += ", SHA-256 " + row.Code
		}
		l.room(textSize * lineFactor)
		y := l.GetY()
		l.SetFont("text", "B", textSize)
		l.CellFormat(indent-6, textSize*lineFactor, l.fitted(l.clean(row.Name), indent-8), "", 0, "L", false, 0, "")
		l.SetLeftMargin(pageMargin + indent)
		l.SetXY(pageMargin+indent, y)
		l.SetFont("text", "", textSize)
		l.lines(text, textSize*lineFactor, l.inner()-indent)
		l.SetLeftMargin(pageMargin)
		l.SetXY(pageMargin, l.GetY()+1.5)
	}
}

// figures prints a table of totals.
func (l *leaf) figures(t frontTable) {
	l.SetFont("text", "", 8.5)
	l.lines(l.clean(t.Caption), 12, l.inner())
	l.SetY(l.GetY() + 2)
	share := 0.13
	if len(t.Heads) > 5 {
		share = 0.108
	}
	columns := make([]column, len(t.Heads))
	for i, head := range t.Heads {
		columns[i] = column{head: head, share: share, right: i < t.Last()}
	}
	columns[0] = column{head: t.Heads[0], share: 1 - share*float64(len(t.Heads)-1)}
	for i := t.Last(); i < len(columns); i++ {
		columns[i].head = "  " + columns[i].head
	}
	var rows [][]cell
	add := func(texts []string, bold bool) {
		row := make([]cell, len(texts))
		for i, text := range texts {
			if i >= t.Last() && text != "" {
				text = "  " + text
			}
			row[i] = cell{text: text, bold: bold}
		}
		rows = append(rows, row)
	}
	for _, r := range t.Rows {
		add(r, false)
	}
	if len(t.Foot) > 0 {
		add(t.Foot, true)
	}
	l.table(columns, rows)
}

func (l *leaf) truth(f front) {
	l.room(110)
	l.heading(1, f.Truth)
	l.paragraph(f.TruthText)
	y := l.GetY() + 34
	l.SetLineWidth(0.5)
	half := l.inner() / 2
	for i, text := range []string{f.Place, f.Signature} {
		x := pageMargin + float64(i)*half
		l.Line(x, y, x+half-16, y)
		l.SetXY(x, y+2)
		l.SetFont("text", "", 8)
		l.CellFormat(half-16, 10, l.fitted(l.clean(text), half-16), "", 0, "L", false, 0, "")
	}
	l.SetXY(pageMargin, y+16)
}

// claims prints the table of all claims.
func (l *leaf) claims() {
	l.AddPage()
	l.heading(0, l.w.say("claims"))
	var rows [][]cell
	for _, e := range l.d.Claims {
		what := l.w.title(e)
		if e.Provider != "" {
			what += " · " + e.Provider
		}
		row := []cell{{text: l.w.claimID(e.ID), bold: true}, {text: l.w.span(e.Start, e.End)}, {text: l.w.category(e)}, {text: what}, {text: e.Awarded.String()}, {text: e.Counted.String()}}
		rows = append(rows, append(row, l.firstProof(e)))
		for _, more := range firsts(e.Proofs)[min(1, len(e.Proofs)):] {
			rows = append(rows, []cell{{}, {}, {}, {}, {}, {}, l.proofCell(more)})
		}
	}
	l.table([]column{{head: l.w.say("claim"), share: .09}, {head: l.w.say("date"), share: .15}, {head: l.w.say("category"), share: .14}, {head: l.w.say("what"), share: .27},
		{head: l.w.say("awarded"), share: .10, right: true}, {head: l.w.say("counted"), share: .115, right: true}, {head: "  " + l.w.say("proof"), share: .135}}, rows)
}

func (l *leaf) firstProof(e Entry) cell {
	if len(e.Proofs) == 0 {
		return cell{text: l.w.say("none")}
	}
	return l.proofCell(firsts(e.Proofs)[0])
}

// proofCell names the exhibit and page of a proof, and leads there: in a binder to the
// page, else to the file.
func (l *leaf) proofCell(p Proof) cell {
	c := cell{text: l.w.say("at page", l.w.say("exhibit", l.numbers[p.Copy]), p.Page), target: p.Link}
	if x, ok := l.exhibits[p.Copy]; ok {
		c.target, c.link = "", x.linkTo(l.press, p.Page)
	}
	return c
}

// each prints every claim with its rule, its arithmetic and its proofs.
func (l *leaf) each() {
	l.heading(0, l.w.say("each"))
	for _, e := range l.d.Claims {
		l.room(80)
		l.heading(1, l.w.claimID(e.ID)+"  "+l.w.title(e))
		l.paragraph(l.shown(l.w.eachLine(e)))
		for _, why := range e.Why {
			l.item("–", l.shown(l.w.sentence(why)))
		}
		l.proofs(e)
	}
}

func (l *leaf) proofs(e Entry) {
	if len(e.Proofs) == 0 {
		l.paragraph(l.w.say("no proof"))
		return
	}
	l.SetY(l.GetY() + 4)
	var rows [][]cell
	for _, p := range e.Proofs {
		quote := cell{text: p.Quote}
		if p.By == "person" {
			quote.text = l.w.say("by holder")
		} else if p.Quote != "" {
			quote.text = l.w.say("quoted", p.Quote)
		}
		rows = append(rows, []cell{{text: l.w.field(p.Field)}, {text: l.w.value(p.Field, p.Value)}, l.proofCell(p), quote})
	}
	l.table([]column{{head: l.w.say("field"), share: .17}, {head: l.w.say("value"), share: .30}, {head: l.w.say("where"), share: .23}, {head: l.w.say("words there"), share: .30}}, rows)
}

// files prints the list of originals with their hashes, and the head of the log.
func (l *leaf) files() {
	l.heading(0, l.w.say("files"))
	var rows [][]cell
	for _, o := range l.d.Originals {
		exhibit := l.w.say("exhibit", l.numbers[o.Copy])
		first := cell{text: exhibit + ": " + o.Copy, target: o.Copy}
		if x, ok := l.exhibits[o.Copy]; ok {
			first = cell{text: exhibit, link: x.linkTo(l.press, 1)}
		}
		rows = append(rows, []cell{first, {text: strings.Join(o.Names, ", ")}, {text: fmt.Sprint(o.Size)}, {text: o.SHA256, mono: true}})
	}
	l.table([]column{{head: l.w.say("file"), share: .26}, {head: l.w.say("came as"), share: .28}, {head: l.w.say("bytes"), share: .11, right: true}, {head: "  SHA-256", share: .35}}, rows)
	l.paragraph(l.w.say("head") + ":")
	l.SetFont("mono", "", 7.5)
	for line := range strings.Lines(l.d.Head) {
		l.lines(l.clean(strings.TrimRight(line, "\n")), 10, l.inner())
	}
}
