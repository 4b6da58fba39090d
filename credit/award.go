package credit

import (
	"fmt"
	"slices"
	"strings"
)

// Award says how an activity becomes credit: a figure to begin with, then steps in the
// order in which the file writes them, on exact numbers. Nothing is rounded that no
// step rounds. Exactly one of From, Flat, Sum and Case gives the figure; an Award with
// none of them begins with 0.
type Award struct {
	Line  int    // of the scheme file
	From  string // a measure of the claim, see [Claim.Measure]
	Flat  *Amount
	Sum   []Award
	Case  string // a field whose text picks one of Of
	Of    []Case
	Steps []Step
}

// Case is one of several awards. Is lists the texts for which it holds; From and Until
// are the first and the last day of a text that is a day. A Case with none of them holds
// for every text, so it stands last.
type Case struct {
	Is          []string
	From, Until Date // zero: no bound
	Then        Award
}

// Always reports whether the case holds for every text.
func (c Case) Always() bool { return len(c.Is) == 0 && c.From.IsZero() && c.Until.IsZero() }

func (c Case) holds(text string) bool {
	if c.From.IsZero() && c.Until.IsZero() {
		return len(c.Is) == 0 || slices.Contains(c.Is, text)
	}
	d, err := ParseDate(text)
	return err == nil && !d.IsZero() && (c.From.IsZero() || !d.Before(c.From)) && (c.Until.IsZero() || !d.After(c.Until))
}

// Op is what a step does to the figure.
type Op string

// The steps.
const (
	OpMinus       Op = "minus"         // exclude: the figure less By, at least 0
	OpPlus        Op = "plus"          // the figure and By
	OpDivide      Op = "divide"        // the figure per By
	OpTimes       Op = "times"         // the figure times By
	OpDown        Op = "down"          // to the multiple of By at or below
	OpUp          Op = "up"            // to the multiple of By at or above
	OpNearest     Op = "nearest"       // to the nearest multiple of By; halves go up
	OpNoneBelow   Op = "none_below"    // a figure below By is 0
	OpAtLeast     Op = "at_least"      // the larger of the figure and By
	OpAtMost      Op = "at_most"       // the smaller of the figure and By
	OpAtMostTimes Op = "at_most_times" // the smaller of the figure and By times the measure Of
	OpBands       Op = "bands"         // the amount of the last row whose From is reached
)

// Ops returns every step, in the order in which the manual lists them.
func Ops() []Op {
	return []Op{OpMinus, OpPlus, OpDivide, OpTimes, OpDown, OpUp, OpNearest, OpNoneBelow, OpAtLeast, OpAtMost, OpAtMostTimes, OpBands}
}

// Step is one step of an award.
type Step struct {
	Line int
	Op   Op
	By   Operand
	Of   string // measure, of OpAtMostTimes
	Rows []Band // of OpBands, rising
}

// Operand is a number, or the number in a measure of the claim if Field is set. A
// field that the claim does not have counts 0 when it is added or taken off, and 1 as
// a factor; as a bound it bounds nothing.
type Operand struct {
	Field  string
	Amount Amount
}

// Band is one row of a table: from From on, Amount.
type Band struct {
	From, Amount Amount
}

// measures are the numbers and texts that an award may read.
type measures struct {
	number func(name string) (Amount, bool)
	text   func(name string) string
	words  func(name string, n Amount) string // the number n of name, as a reader finds it
}

// working is a figure with the way to it in words.
type working struct {
	amount  Amount
	words   []string
	missing []string // measures that were wanted and not there
}

func (w working) String() string {
	text := strings.Join(w.words, ", ")
	if len(w.missing) > 0 {
		text += " (not known: " + strings.Join(w.missing, ", ") + ")"
	}
	return text
}

func (w *working) step(format string, args ...any) {
	w.words = append(w.words, fmt.Sprintf(format, args...)+" = "+fractionText(w.amount))
}

// fractionText prints a as a reader with a pencil would write it: 7.2 (36/5).
func fractionText(a Amount) string {
	s := a.String()
	if strings.Contains(s, ".") {
		return s + " (" + a.value().RatString() + ")"
	}
	return s
}

func (a Award) run(m measures) working {
	var w working
	switch {
	case a.Flat != nil:
		w.amount = *a.Flat
		w.words = []string{"a fixed " + fractionText(w.amount)}
	case len(a.Sum) > 0:
		var parts []string
		for _, part := range a.Sum {
			p := part.run(m)
			w.amount = w.amount.Add(p.amount)
			parts = append(parts, p.String())
		}
		w.words = []string{"sum of [" + strings.Join(parts, "] and [") + "] = " + fractionText(w.amount)}
	case a.Case != "":
		w = a.pick(m)
	default:
		n, ok := m.number(a.From)
		w.amount = n
		if ok {
			w.words = []string{m.words(a.From, n)}
		} else {
			w.words, w.missing = []string{a.From + " 0"}, []string{a.From}
		}
	}
	for _, s := range a.Steps {
		s.apply(&w, m)
	}
	return w
}

func (a Award) pick(m measures) working {
	text := m.text(a.Case)
	for _, c := range a.Of {
		if c.holds(text) {
			w := c.Then.run(m)
			w.words = append([]string{fmt.Sprintf("%s is %q", a.Case, text)}, w.words...)
			return w
		}
	}
	w := working{words: []string{fmt.Sprintf("%s is %q, for which the table has nothing: 0", a.Case, text)}}
	if text == "" {
		w.missing = []string{a.Case}
	}
	return w
}

func (s Step) apply(w *working, m measures) {
	by, name, ok := s.By.value(m)
	switch s.Op {
	case OpMinus:
		w.amount = Amount{}.Max(w.amount.Sub(by))
		w.step("− %s", name)
	case OpPlus:
		w.amount = w.amount.Add(by)
		w.step("+ %s", name)
	case OpDivide:
		if !ok {
			by = Whole(1)
		}
		if by.Sign() <= 0 {
			w.amount = Amount{}
			w.words = append(w.words, "÷ "+name+" is not possible: 0")
			return
		}
		w.amount = w.amount.Div(by)
		w.step("÷ %s", name)
	case OpTimes:
		if ok {
			w.amount = w.amount.Mul(by)
		}
		w.step("× %s", name)
	case OpDown:
		w.amount = w.amount.Down(by)
		w.step("down to a multiple of %s", name)
	case OpUp:
		w.amount = w.amount.Up(by)
		w.step("up to a multiple of %s", name)
	case OpNearest:
		w.amount = w.amount.Nearest(by)
		w.step("to the nearest multiple of %s", name)
	default:
		s.bound(w, m, by, name, ok)
	}
}

// bound does the steps that hold the figure between others. Without its number such a
// step leaves the figure as it is.
func (s Step) bound(w *working, m measures, by Amount, name string, ok bool) {
	switch {
	case s.Op == OpBands:
		w.amount = band(s.Rows, w.amount)
		w.step("by the table")
	case !ok:
		w.words = append(w.words, string(s.Op)+" "+name+" bounds nothing")
	case s.Op == OpNoneBelow:
		if w.amount.Cmp(by) < 0 {
			w.amount = Amount{}
		}
		w.step("nothing below %s", name)
	case s.Op == OpAtLeast:
		w.amount = w.amount.Max(by)
		w.step("at least %s", name)
	case s.Op == OpAtMost:
		w.amount = w.amount.Min(by)
		w.step("at most %s", name)
	case s.Op == OpAtMostTimes:
		of, known := m.number(s.Of)
		if !known {
			w.missing = append(w.missing, s.Of)
		}
		w.amount = w.amount.Min(of.Mul(by))
		w.step("at most %s × %s %s", name, s.Of, fractionText(of))
	}
}

func band(rows []Band, a Amount) Amount {
	var got Amount
	for _, r := range rows {
		if r.From.AtMost(a) {
			got = r.Amount
		}
	}
	return got
}

func (o Operand) value(m measures) (Amount, string, bool) {
	if o.Field == "" {
		return o.Amount, fractionText(o.Amount), true
	}
	n, ok := m.number(o.Field)
	if !ok {
		return Amount{}, o.Field + " (not given)", false
	}
	return n, o.Field + " " + fractionText(n), true
}

// reads calls f with every measure and field that a reads; must tells whether nothing
// stands in for it when it is missing.
func (a Award) reads(f func(name string, must bool)) {
	switch {
	case a.Flat != nil:
	case len(a.Sum) > 0:
		for _, p := range a.Sum {
			p.reads(f)
		}
	case a.Case != "":
		f(a.Case, true)
		for _, c := range a.Of {
			c.Then.reads(f)
		}
	case a.From != "":
		f(a.From, true)
	}
	for _, s := range a.Steps {
		if s.By.Field != "" {
			f(s.By.Field, false)
		}
		if s.Of != "" {
			f(s.Of, true)
		}
	}
}

// spans reports whether the award of this claim is worked out from its days.
func (c Category) spans(claim Claim) bool {
	if _, _, ok := c.stated(claim); ok {
		return false
	}
	spans := false
	c.Award.reads(func(name string, _ bool) {
		if _, given := claim.field(name); IsSpan(name) && !given {
			spans = true
		}
	})
	return spans
}

// award returns what the claim earns before repeats and caps, and how.
func (c Category) award(claim Claim, in Period) Derivation {
	d := Derivation{Step: StepAward, Claim: claim.ID, Category: c.ID, Rule: c.ID, Origin: c.Origin}
	for _, a := range c.Asks {
		if why := a.fails(claim, in); why != "" {
			d.Text, d.Origin = why, a.Origin.or(c.Origin)
			return d
		}
	}
	if got, words, ok := c.stated(claim); ok {
		d.Text, d.After = words, got
		return d
	}
	w := c.Award.run(claim.measures(in))
	d.Text, d.After = w.String(), w.amount
	if c.Award.Line > 0 {
		d.Line = c.Award.Line
	}
	return d
}

func (o Origin) or(p Origin) Origin {
	if o.Line == 0 {
		return p
	}
	if o.Source == "" {
		o.Source = p.Source
	}
	return o
}

func (a Condition) fails(claim Claim, in Period) string {
	if a.Tag != "" {
		if slices.Contains(claim.Tags, a.Tag) {
			return ""
		}
		return fmt.Sprintf("earns nothing without the tag %q", a.Tag)
	}
	n, ok := claim.Measure(a.Field, in)
	switch {
	case !ok:
		return fmt.Sprintf("earns nothing while %s is not known (at least %s is asked)", a.Field, fractionText(a.AtLeast))
	case n.Cmp(a.AtLeast) < 0:
		return fmt.Sprintf("earns nothing: %s %s is below %s", a.Field, fractionText(n), fractionText(a.AtLeast))
	}
	return ""
}

// repeated multiplies what a claim earns by the factor of its turn in the series.
func (c Category) repeated(claim Claim, earned Amount, seen series, d *Derivation) Amount {
	name := claim.text(c.Repeat.By)
	if len(c.Repeat.Factors) == 0 || name == "" {
		return earned
	}
	key := c.ID + "\x00" + name
	if c.Repeat.Anew != "" && slices.Contains(claim.Tags, c.Repeat.Anew) {
		seen[key] = nil
	}
	n := seen.turns(key, claim.Date(), c.Repeat.Within)
	seen[key] = append(seen[key], claim.Date())
	f := c.Repeat.Factors[min(n, len(c.Repeat.Factors)-1)]
	got := earned.Mul(f)
	if !f.Equal(Whole(1)) {
		d.Text += fmt.Sprintf(", × %s as number %d of %s %q%s (line %d) = %s", fractionText(f), n+1, c.Repeat.By, name, c.Repeat.reach(), c.Repeat.Line, fractionText(got))
	}
	return got
}
