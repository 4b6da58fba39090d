package audit

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"evidencevault/credit"
)

// leaf is the dossier on its way to paper.
type leaf struct {
	*press
	d        Dossier
	exhibits map[string]*exhibit // by the copy's name; nil: the originals lie beside this file
}

// WritePDF writes the index as a PDF in a language of [Languages]; "" is English. Its
// links lead to the copies beside it. Equal dossiers give equal bytes. The error wraps
// [ErrLanguage].
func (d Dossier) WritePDF(w io.Writer, language string) error {
	texts, err := wordsIn(language)
	if err != nil {
		return err
	}
	p, err := newPress(texts, texts.say("index")+": "+d.Title+", "+d.Holder, d.Holder, d.On)
	if err != nil {
		return err
	}
	l := leaf{press: p, d: d}
	l.front("index")
	l.claims()
	l.each()
	l.files()
	return p.Output(w)
}

// front prints the page that a stranger reads first.
func (l *leaf) front(kind string) {
	l.AddPage()
	l.SetFont("text", "", 10)
	l.lines(l.w.say(kind), 13, l.inner())
	l.heading(0, l.d.Title)
	l.facts()
	l.sum()
	l.open()
	l.check()
	l.truth()
}

func (l *leaf) facts() {
	d := l.d
	rows := [][2]string{{"holder", d.Holder}, {"number", d.Number}, {"body", d.Body}}
	if c := d.Statement.Cycle; !c.Start.IsZero() {
		rows = append(rows, [2]string{"cycle", l.w.span(c.Start, c.End)})
	}
	rows = append(rows, [2]string{"handed", l.asked()}, [2]string{"as of", l.w.day(d.On)},
		[2]string{"rules", l.w.say("rules text", d.Scheme.ID, d.Scheme.Version, d.Scheme.File, d.Scheme.SHA256)})
	for _, row := range rows {
		if row[1] == "" {
			continue
		}
		l.room(textSize * lineFactor)
		y := l.GetY()
		l.SetFont("text", "B", textSize)
		l.CellFormat(110, textSize*lineFactor, l.w.say(row[0]), "", 0, "L", false, 0, "")
		l.SetLeftMargin(pageMargin + 116)
		l.SetXY(pageMargin+116, y)
		l.SetFont("text", "", textSize)
		l.lines(l.shown(row[1]), textSize*lineFactor, l.inner()-116)
		l.SetLeftMargin(pageMargin)
		l.SetXY(pageMargin, l.GetY()+1.5)
	}
}

// asked says in words which claims are handed over.
func (l *leaf) asked() string {
	a, text := l.d.Asked, ""
	switch ids := strings.Join(a.Claims, " "); {
	case a.All && a.Of == 1:
		text = l.w.say("asked all one")
	case a.All:
		text = l.w.say("asked all", a.Of)
	case a.Seed != "":
		text = l.w.say("asked drawn", len(a.Claims), a.Of, a.Seed, ids)
	default:
		text = l.w.say("asked some", len(a.Claims), a.Of, ids)
	}
	if day, ok := strings.CutPrefix(a.Letter, "audit letter of "); ok {
		text += l.w.say("asked letter", day)
	}
	if len(a.LeftOut) > 0 {
		text += l.w.say("asked left", strings.Join(a.LeftOut, " "))
	}
	return text
}

func (l *leaf) sum() {
	l.heading(1, l.w.say("sum"))
	s := l.d.Statement
	text := l.w.say("sum free", s.Counted, credit.Units(s.Counted, s.Unit))
	if s.HasTarget {
		text = l.w.say("sum target", s.Counted, s.Target, credit.Units(s.Target, s.Unit))
		switch {
		case s.Meets:
			text += " " + l.w.say("sum met")
		case s.Missing.Sign() > 0:
			text += " " + l.w.say("sum missing", credit.Quantity(s.Missing, s.Unit))
		default:
			text += " " + l.w.say("sum minimum")
		}
	}
	l.paragraph(l.clean(text))
	lines, awarded := l.d.categoryLines()
	var rows [][]cell
	for _, c := range lines {
		rows = append(rows, []cell{{text: c.Title}, {text: strconv.Itoa(c.Claims)}, {text: c.Awarded.String()}, {text: c.Counted.String()}, {text: c.Cap}})
	}
	rows = append(rows, []cell{{text: l.w.say("together"), bold: true}, {text: strconv.Itoa(l.d.Asked.Of), bold: true}, {text: awarded.String(), bold: true},
		{text: s.Counted.String(), bold: true}, {}})
	l.table([]column{{head: l.w.say("category"), share: .48}, {head: l.w.say("claims"), share: .13, right: true}, {head: l.w.say("awarded"), share: .13, right: true},
		{head: l.w.say("counted"), share: .13, right: true}, {head: l.w.say("most"), share: .13, right: true}}, rows)
	if len(s.Minimums) == 0 {
		return
	}
	rows = nil
	for _, m := range s.Minimums {
		rows = append(rows, []cell{{text: m.ID}, {text: m.Want.String()}, {text: m.Have.String()}, {text: l.w.say(map[bool]string{true: "yes", false: "no"}[m.Met])}})
	}
	l.table([]column{{head: l.w.say("minimum"), share: .48}, {head: l.w.say("wanted"), share: .13, right: true}, {head: l.w.say("there"), share: .13, right: true},
		{head: l.w.say("met"), share: .13, right: true}}, rows)
}

// open lists what an auditor would ask about.
func (l *leaf) open() {
	l.heading(1, l.w.say("open"))
	if len(l.d.Exceptions) == 0 {
		l.paragraph(l.w.say("open none"))
	}
	for _, x := range l.d.Exceptions {
		text := x.Text
		if x.key != "" {
			text = l.w.say(x.key, l.translated(x)...)
		}
		if x.Claim != "" {
			text = x.Claim + ": " + text
		}
		l.item("–", l.shown(text))
	}
}

// translated are the values of an exception, names of fields among them.
func (l *leaf) translated(x Exception) []any {
	args := slices.Clone(x.args)
	for i, a := range args {
		names, ok := a.([]string)
		if !ok {
			continue
		}
		shown := make([]string, len(names))
		for k, name := range names {
			shown[k] = l.field(name)
		}
		args[i] = strings.Join(shown, ", ")
	}
	return args
}

// field is the name of a field in words; a log field has the name that the scheme gives.
func (l *leaf) field(name string) string {
	if text, ok := l.w.text["f "+name]; ok {
		return text
	}
	return strings.ReplaceAll(name, "_", " ")
}

func (l *leaf) check() {
	l.heading(1, l.w.say("check"))
	second := "check 2"
	if l.exhibits == nil {
		second = "check 2 index"
	}
	for i, key := range []string{"check 1", second, "check 3", "check 4"} {
		l.item(strconv.Itoa(i+1)+".", l.w.say(key))
	}
	l.SetY(l.GetY() + 3)
	l.paragraph(l.w.say("proves"))
}

func (l *leaf) truth() {
	l.room(110)
	l.heading(1, l.w.say("truth"))
	l.paragraph(l.w.say("truth text"))
	y := l.GetY() + 34
	l.SetLineWidth(0.5)
	half := l.inner() / 2
	for i, text := range []string{l.w.say("place and date"), l.w.say("signature", l.d.Holder)} {
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
		what := e.Title
		if what == "" {
			what = l.w.say("no title")
		}
		if e.Provider != "" {
			what += " · " + e.Provider
		}
		row := []cell{{text: e.ID, bold: true}, {text: l.w.span(e.Start, e.End)}, {text: e.CategoryTitle}, {text: what}, {text: e.Awarded.String()}, {text: e.Counted.String()}}
		rows = append(rows, append(row, l.firstProof(e)))
		for _, more := range firsts(e.Proofs)[min(1, len(firsts(e.Proofs))):] {
			rows = append(rows, []cell{{}, {}, {}, {}, {}, {}, l.proofCell(more)})
		}
	}
	l.table([]column{{head: l.w.say("claim"), share: .07}, {head: l.w.say("date"), share: .16}, {head: l.w.say("category"), share: .15}, {head: l.w.say("what"), share: .30},
		{head: l.w.say("awarded"), share: .09, right: true}, {head: l.w.say("counted"), share: .10, right: true}, {head: "  " + l.w.say("proof"), share: .13}}, rows)
}

func (l *leaf) firstProof(e Entry) cell {
	if len(e.Proofs) == 0 {
		return cell{text: l.w.say("none")}
	}
	return l.proofCell(firsts(e.Proofs)[0])
}

// proofCell names the exhibit or file and page of a proof, and leads there.
func (l *leaf) proofCell(p Proof) cell {
	x, ok := l.exhibits[p.Copy]
	if !ok {
		return cell{text: p.File + ", " + l.w.say("page", p.Page), target: p.Link}
	}
	return cell{text: l.w.say("exhibit", x.number) + ", " + l.w.say("page", p.Page), link: x.linkTo(l.press, p.Page)}
}

// each prints every claim with its rule, its arithmetic and its proofs.
func (l *leaf) each() {
	l.heading(0, l.w.say("each"))
	for _, e := range l.d.Claims {
		title := e.Title
		if title == "" {
			title = l.w.say("no title")
		}
		l.room(80)
		l.heading(1, e.ID+"  "+title)
		source := ""
		if e.Rule.Source != "" {
			source = " (" + e.Rule.Source + ")"
		}
		day := l.w.span(e.Start, e.End)
		if e.Provider != "" {
			day += ", " + e.Provider
		}
		text := l.w.say("each line", day, e.CategoryTitle, e.Awarded, e.Counted, e.Rule.File, e.Rule.Line, source)
		if e.Minutes != nil {
			text += " " + l.w.say("time", clockTime(e.Minutes))
		}
		l.paragraph(l.shown(text))
		for _, why := range e.Why {
			l.item("–", l.shown(why))
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
			quote.text = "“" + p.Quote + "”"
		}
		rows = append(rows, []cell{{text: l.field(p.Field)}, {text: p.Value}, l.proofCell(p), quote})
	}
	l.table([]column{{head: l.w.say("field"), share: .17}, {head: l.w.say("value"), share: .30}, {head: l.w.say("where"), share: .23}, {head: l.w.say("words there"), share: .30}}, rows)
}

// files prints the list of originals with their hashes, and the head of the log.
func (l *leaf) files() {
	l.heading(0, l.w.say("files"))
	var rows [][]cell
	for _, o := range l.d.Originals {
		first := cell{text: o.Copy, target: o.Copy}
		if x, ok := l.exhibits[o.Copy]; ok {
			first = cell{text: l.w.say("exhibit", x.number), link: x.linkTo(l.press, 1)}
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
