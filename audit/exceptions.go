package audit

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/paper"
	"evidencevault/journal"
)

// Kinds of exceptions, in the order in which they are told.
const (
	ExceptUnproven  = "unproven"  // no document of a kind that the category accepts
	ExceptOutside   = "outside"   // dated outside the cycle
	ExceptAnswered  = "answered"  // a question that the paper left open, and the holder answered
	ExceptOpen      = "open"      // one that nobody answered
	ExceptCorrected = "corrected" // the holder gave another value than the document shows
	ExceptAdded     = "added"     // the holder gave a value that the document does not show
	ExceptLanguage  = "language"  // a document in another language than the index
	ExceptCut       = "cut"       // awarded and not counted
)

// exceptKinds lists them in order.
var exceptKinds = []string{ExceptUnproven, ExceptOutside, ExceptAnswered, ExceptOpen, ExceptCorrected, ExceptAdded, ExceptLanguage, ExceptCut}

// Exception is something an auditor would ask about. Which of its parts are set depends on
// its kind.
type Exception struct {
	Claim    string        `json:"claim,omitempty"`
	Kind     string        `json:"kind,omitempty"`
	Text     string        `json:"text"`               // all of it, in English
	Field    string        `json:"field,omitempty"`    // that was asked about or set
	Value    string        `json:"value,omitempty"`    // as it is claimed
	Shown    string        `json:"shown,omitempty"`    // as the document shows it
	Question string        `json:"question,omitempty"` // as it was asked
	By       string        `json:"by,omitempty"`       // who answered or set it: the holder's name
	File     string        `json:"file,omitempty"`     // the document, as it came
	SHA256   string        `json:"sha256,omitempty"`   // of it
	Language string        `json:"language,omitempty"` // BCP 47
	Rule     string        `json:"rule,omitempty"`     // that cut it
	Amount   credit.Amount `json:"amount,omitzero"`    // that it cut
}

// excepting finds what an auditor would ask about the claims of one certification.
type excepting struct {
	holder string
	unit   string
	titles map[string]string       // of categories
	cuts   map[string][]credit.Cut // by claim
	list   []Exception
}

func (x *excepting) add(e Exception, format string, args ...any) {
	e.Text = fmt.Sprintf(format, args...)
	x.list = append(x.list, e)
}

// claim finds what concerns one claim.
func (x *excepting) claim(c journal.Ground) {
	if !c.Proven {
		x.add(Exception{Claim: c.ID, Kind: ExceptUnproven}, "no document of a kind that the category accepts proves it.")
	}
	if c.Outside {
		x.add(Exception{Claim: c.ID, Kind: ExceptOutside}, "its date lies outside the cycle, so it counts nothing.")
	}
	x.category(c)
	asked := x.questions(c)
	x.set(c, asked)
	for _, cut := range x.cuts[c.ID] {
		x.add(Exception{Claim: c.ID, Kind: ExceptCut, Rule: cut.Rule, Amount: cut.Amount}, "%s %s awarded and not counted: the rule %s allows no more.",
			cut.Amount, unitsWere(cut.Amount, x.unit), cut.Rule)
	}
}

// category tells that the holder chose the category of a document that did not settle it.
func (x *excepting) category(c journal.Ground) {
	question := c.CategoryQuestion()
	if question == "" || len(c.Papers) == 0 {
		return // what is claimed without a document is told as that
	}
	e := Exception{Claim: c.ID, Kind: ExceptAnswered, Field: string(paper.FieldCategory), Value: cmp.Or(x.titles[c.Category], c.Category), Question: question,
		By: x.holder, File: c.Papers[0].File, SHA256: c.Papers[0].SHA256}
	x.add(e, "%s left a question open: %s %s answered: %s.", e.File, question, x.holder, e.Value)
}

// questions tells what the papers left open, who answered it and how. It returns the
// fields that were asked about.
func (x *excepting) questions(c journal.Ground) (asked []paper.Field) {
	for _, p := range c.Papers {
		for _, q := range p.Questions {
			if q.Field == paper.FieldTotal || q.Field == paper.FieldCategory || p.Row > 0 && rowField(q.Field) {
				continue
			}
			e := Exception{Claim: c.ID, Kind: ExceptAnswered, Field: string(q.Field), Value: c.Fields[string(q.Field)], Question: q.Text, By: x.holder, File: p.File, SHA256: p.SHA256}
			if slices.ContainsFunc(x.list, func(o Exception) bool {
				return o.Claim == e.Claim && o.Field == e.Field && o.Question == e.Question && o.SHA256 == e.SHA256
			}) {
				continue
			}
			asked = append(asked, q.Field)
			if e.Value != "" && !slices.ContainsFunc(c.Proofs, func(p journal.Proof) bool { return p.Field == q.Field && p.By == paper.ByPerson }) {
				continue // another document settles it
			}
			if e.Value == "" {
				e.Kind, e.By = ExceptOpen, ""
				x.add(e, "%s left a question open, which nobody answered, so it has no %s: %s", p.File, fieldWords(q.Field), q.Text)
				continue
			}
			x.add(e, "%s left a question open: %s %s answered: %s.", p.File, q.Text, x.holder, e.Value)
		}
	}
	return asked
}

// rowField reports whether each row of a transcript has a value of its own for f, so that
// a question on the whole paper does not concern it.
func rowField(f paper.Field) bool {
	switch f {
	case paper.FieldTitle, paper.FieldStart, paper.FieldEnd, paper.FieldDuration, paper.FieldCredits:
		return true
	}
	return false
}

// set tells the values that the holder gave, unless they answer a question.
func (x *excepting) set(c journal.Ground, asked []paper.Field) {
	var done []paper.Field
	for _, p := range c.Proofs {
		if p.By != paper.ByPerson || slices.Contains(done, p.Field) || slices.Contains(asked, p.Field) {
			continue
		}
		done = append(done, p.Field)
		e := Exception{Claim: c.ID, Kind: ExceptAdded, Field: string(p.Field), Value: p.Value, By: x.holder, File: p.File, SHA256: p.SHA256}
		for _, g := range c.Papers {
			if shown := g.Values[p.Field]; g.SHA256 == p.SHA256 && shown.By != paper.ByPerson {
				e.Shown = cmp.Or(e.Shown, shown.Text)
			}
		}
		switch e.Shown {
		case "":
			x.add(e, "%s %s: set by the holder, not read in the document.", fieldWords(p.Field), p.Value)
		case p.Value:
			x.add(e, "%s %s: set by the holder, as the document shows it.", fieldWords(p.Field), p.Value)
		default:
			e.Kind = ExceptCorrected
			x.add(e, "%s %s: set by the holder; the document shows %s.", fieldWords(p.Field), p.Value, e.Shown)
		}
	}
}

// translations lists the documents in another language than the index. A scheme does not
// say which languages its body accepts, so that is the body's to say.
func (d Dossier) translations() []Exception {
	w, byCopy := d.words(), map[string]Original{}
	for _, o := range d.Originals {
		byCopy[o.Copy] = o
	}
	var list []Exception
	for _, e := range d.Claims {
		var done []string
		for _, p := range e.Proofs {
			o := byCopy[p.Copy]
			if slices.Contains(done, p.Copy) {
				continue
			}
			done = append(done, p.Copy)
			for _, l := range o.Languages {
				if baseLanguage(l) == baseLanguage(w.tag) {
					continue
				}
				list = append(list, Exception{Claim: e.ID, Kind: ExceptLanguage, File: p.File, SHA256: p.SHA256, Language: l,
					Text: writtenIn(p.File, l)})
			}
		}
	}
	return list
}

// undetermined is the language of a paper whose language could not be told (BCP 47).
const undetermined = "und"

func writtenIn(file, tag string) string {
	if tag == undetermined {
		return fmt.Sprintf("the language of %s could not be told; the body may ask for a translation.", file)
	}
	return fmt.Sprintf("%s is written in %s; the body may ask for a translation.", file, languageName(tag))
}

func baseLanguage(tag string) string {
	base, _, _ := strings.Cut(tag, "-")
	return strings.ToLower(base)
}

// exceptions are all of a dossier, those that depend on its language among them.
func (d Dossier) exceptions() []Exception {
	list := slices.DeleteFunc(slices.Clone(d.Exceptions), func(x Exception) bool { return x.Kind == ExceptLanguage })
	return append(list, d.translations()...)
}

// exception says one in the language of the dossier, without its claim.
func (d Dossier) exception(x Exception) string {
	w := d.words()
	switch x.Kind {
	case ExceptUnproven, ExceptOutside:
		return w.say("x " + x.Kind)
	case ExceptAnswered:
		return w.say("x answered", w.field(x.Field), x.File, w.sentence(x.Question), x.By, w.value(x.Field, x.Value))
	case ExceptOpen:
		return w.say("x open", w.field(x.Field), x.File, w.sentence(x.Question))
	case ExceptCorrected:
		return w.say("x corrected", w.field(x.Field), w.value(x.Field, x.Value), x.By, x.File, w.value(x.Field, x.Shown))
	case ExceptAdded:
		key := "x added"
		if x.Shown != "" {
			key = "x added as shown"
		}
		return w.say(key, w.field(x.Field), w.value(x.Field, x.Value), x.By, x.File)
	case ExceptLanguage:
		return w.say("languages", w.language(x.Language), x.File)
	case ExceptCut:
		return w.say("x cut", credit.Quantity(x.Amount, d.Statement.Unit), x.Rule)
	}
	return x.Text
}
