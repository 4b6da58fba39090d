package credit

import "slices"

// Origin says where a rule stands: in which scheme file, on which line, and what
// the body's own book calls the place. The zero Origin is a rule made in code.
type Origin struct {
	File   string `json:"file,omitempty"`
	Line   int    `json:"line,omitempty"` // counted from 1
	Source string `json:"source,omitempty"`
}

// Scheme is a certifying body's rules. The zero Scheme has no category and asks
// nothing. A Scheme is not changed once it was read, so it may be shared.
type Scheme struct {
	Origin
	ID      string
	Version string
	Title   string // of the certificate
	Body    string
	Unit    string // what one credit is called

	Target     Target
	Cycle      CycleRule
	Categories []Category // in the order of the file
	Caps       []Cap
	Minimums   []Minimum // in the order in which the scheme ranks them
	Exclusive  []Exclusive
	Instead    Instead
	CarryOver  CarryOver
	Keeping    Keeping
	Deadlines  []DeadlineRule
}

// Target is what a cycle asks in all: a figure, or a formula on the holder's facts.
// The zero Target asks nothing.
type Target struct {
	Origin
	Set     bool
	Amount  Amount
	Formula *Award // read with the facts in place of a claim; nil means Amount
}

// Category is one line of the body's table: what it accepts and what it earns.
type Category struct {
	Origin
	ID      string
	Title   string
	Accepts []string // kinds of paper that prove it
	Asks    []Condition
	Award   Award
	Stated  []Conversion // the document's own figure wins, by unit
	Repeat  Repeat
	Life    int        // months for which credit counts from the day of the claim; 0: as long as the cycle
	Log     []LogField // what the body's journal form asks besides
	Choose  bool       // never proposed from the paper's kind alone
	Or      []string   // categories in which a claim of this one may count instead, whichever serves best

	// What an audit asks for; none of it changes a figure.
	Proof     string   // what proves an activity, in the body's own words; "" if the scheme does not quote them
	Signed    bool     // the paper must bear a signature
	Providers []string // whose activities the body accepts; none: anybody's
}

// Condition must hold, or the claim earns nothing. One of Tag and Field is set.
type Condition struct {
	Origin
	Tag     string
	Field   string
	AtLeast Amount // for Field
}

// Conversion turns a figure that the document prints in Unit into credit: × Times.
type Conversion struct {
	Origin
	Unit  string
	Times Amount
}

// LogField names one log field that a category asks for; any of Names will do.
type LogField struct {
	Origin
	Names []string
}

// Repeat says what claims with the same value of By earn: the first is multiplied by
// Factors[0], the next by Factors[1], and so on; the last factor goes on for ever. A
// claim with the tag Anew begins the series again. The zero Repeat changes nothing.
type Repeat struct {
	Origin
	By      string
	Factors []Amount
	Anew    string
	Across  bool // claims of earlier cycles count in the series too
	Within  int  // only claims of so many years before count in the series, across cycles; 0: all of it
}

// Selection names claims. An empty Selection names all of them; what is listed must
// all hold.
type Selection struct {
	Categories []string // one of these
	Tags       []string // all of these
	NotTags    []string // none of these
	Providers  []string // one of these
	From       Date     // dated on this day or later; zero: no bound
	Until      Date     // dated on this day or earlier; zero: no bound
}

// Empty reports whether the selection names every claim.
func (s Selection) Empty() bool {
	return len(s.Categories)+len(s.Tags)+len(s.NotTags)+len(s.Providers) == 0 && s.From.IsZero() && s.Until.IsZero()
}

// Begun bounds the first day of the cycles in which a rule is in force: a cycle keeps
// the rules under which it began. The zero Begun bounds nothing.
type Begun struct {
	From  Date // zero: no bound
	Until Date // zero: no bound
}

// Holds reports whether the rule is in force in a cycle that begins on start. A cycle
// whose beginning is not known, which is zero, is under every rule.
func (b Begun) Holds(start Date) bool {
	return start.IsZero() || !start.Before(b.From) && (b.Until.IsZero() || !start.After(b.Until))
}

// Cap is the most that a selection may count.
type Cap struct {
	Origin
	ID        string
	Selection Selection
	Most      Amount
	Share     ShareOf  // if set, Most is a share of this
	Per       []string // windows and log fields, see [Windows]; empty means cycle
	If        string   // a fact that must stand, else there is no cap
	Begun     Begun    // only in cycles begun then
	Largest   bool     // only the largest award of each group counts; Most is not read
	// Only so many claims of each group count, those that serve best; Most is not read. A
	// claim without the log fields that Per names is in no group. 0: as many as there are.
	MostClaims int
	Whole      bool // a claim counts with all that it was awarded or not at all
}

// counts reports whether the cap bounds how many claims count, not how much.
func (c Cap) counts() bool { return c.Largest || c.MostClaims > 0 }

// ShareOf says of what a cap or minimum is a share.
type ShareOf string

// The wholes of which a share can be taken.
const (
	ShareNone    ShareOf = ""
	ShareTarget  ShareOf = "target"
	ShareCounted ShareOf = "counted"
)

// Minimum is the least that a selection must count. Exactly one of Least, Distinct,
// Fact and AnyOf asks something.
type Minimum struct {
	Origin
	ID        string
	Selection Selection
	Least     Amount
	Per       string    // "" or cycle, year, cycle_year, rolling:N, cycle_rolling:N: each of them must reach Least
	If        string    // a fact that must stand, else nothing is asked
	Begun     Begun     // only in cycles begun then
	Windows   []string  // of Per, only these: "2024" for a year, "year 1" for a cycle_year, "2024 to 2026" for rolling:3; empty: all of the cycle
	Part      Selection // this part serves with at most PartMost; used if HasPart
	PartMost  Amount
	HasPart   bool
	Carried   bool       // credit carried in serves it too
	Distinct  int        // at least so many categories with an award
	Fact      string     // this fact must stand
	AnyOf     [][]string // ids of minimums: one list fully met is enough
}

// Exclusive names minimums that may not share a credit.
type Exclusive struct {
	Origin
	Minimums []string
}

// Instead lists facts of which each stands instead of everything that is asked.
type Instead struct {
	Origin
	Facts []string
}

// CarryOver is what may pass into the next cycle. The zero CarryOver passes nothing.
type CarryOver struct {
	Origin
	Set         bool   // the scheme speaks of carry-over at all
	Most        Amount // used if HasMost
	HasMost     bool
	Selection   Selection // only credit of these claims
	Over        Amount    // what is above this passes; used if HasOver, else the target
	HasOver     bool
	FromAwarded bool // what caps cut may pass too
	EarnedFrom  Date // only what was earned from this day on
	LastMonths  int  // only what was earned in so many last months of the cycle
	Whole       bool // whole activities only
	Part        Selection
	PartMost    Amount // of Part at most so much; used if HasPart
	HasPart     bool
	IfMet       bool // only when all is met
	IfOver      Amount
	HasIfOver   bool
	NoneIfUsed  bool   // nothing passes when credit carried in was needed
	NotFirst    bool   // nothing passes out of the first cycle (fact first_cycle)
	Fill        bool   // credit carried in only fills up to the target
	Into        string // the category that it becomes; "" means none
}

// DeadlineRule says how a day by which something must be done hangs on another day:
// From, then so many days, then months later, then the end of that year, then years.
type DeadlineRule struct {
	Origin
	What    string
	From    string // "cycle_start", "cycle_end", or a fact that holds a day
	Days    int
	Months  int
	YearEnd bool
	Years   int
}

// On returns the day, and the zero Date if From is not known.
func (r DeadlineRule) On(cycle Period, facts Facts) Date {
	var d Date
	switch r.From {
	case "cycle_start":
		d = cycle.Start
	case "cycle_end":
		d = cycle.End
	default:
		d, _ = ParseDate(facts[r.From]) // a fact that is no day is as good as none
	}
	if d.IsZero() {
		return d
	}
	d = d.AddDays(r.Days).AddMonths(r.Months)
	if r.YearEnd {
		y, _, _ := d.YMD()
		d = Day(y, 12, 31)
	}
	return d.AddYears(r.Years)
}

// Keeping says how long proof must be kept and how soon an audit must be answered.
// A zero figure means that the scheme does not say.
type Keeping struct {
	Origin
	Years      int // and Months, from From on
	Months     int
	From       KeepFrom
	AnswerDays int
}

// KeepFrom is the day from which proof must be kept.
type KeepFrom string

// The days. The zero KeepFrom is the end of the cycle.
const (
	KeepFromCycleEnd   KeepFrom = "cycle_end"
	KeepFromCompletion KeepFrom = "completion" // the day of the claim
	KeepFromYearEnd    KeepFrom = "year_end"   // 31 December of the claim's year
)

// KeepFroms lists the days from which proof can have to be kept.
func KeepFroms() []KeepFrom { return []KeepFrom{KeepFromCycleEnd, KeepFromCompletion, KeepFromYearEnd} }

// Until is the day until which the proof of a claim of this day must be kept, in a cycle
// with this end; zero if the scheme does not say, or the day it hangs on is not known.
func (k Keeping) Until(claim, cycleEnd Date) Date {
	from := cycleEnd
	switch k.From {
	case KeepFromCompletion:
		from = claim
	case KeepFromYearEnd:
		if from = claim; !from.IsZero() {
			y, _, _ := claim.YMD()
			from = Day(y, 12, 31)
		}
	}
	if from.IsZero() || k.Years+k.Months == 0 {
		return Date{}
	}
	return from.AddMonths(12*k.Years + k.Months)
}

// Category returns the category id, and false if the scheme has none of that name.
func (s Scheme) Category(id string) (Category, bool) {
	for _, c := range s.Categories {
		if c.ID == id {
			return c, true
		}
	}
	return Category{}, false
}

// Accepting returns the categories that accept a paper of this kind for a claim with
// these tags, in the scheme's order. When there is exactly one it may be proposed;
// when there are several the person is asked. Categories that the scheme marks to be
// chosen are left out unless no other accepts the kind.
func (s Scheme) Accepting(kind string, tags ...string) []Category {
	var open, chosen []Category
	for _, c := range s.Categories {
		switch {
		case !slices.Contains(c.Accepts, kind) || !c.tagsHold(tags):
		case c.Choose:
			chosen = append(chosen, c)
		default:
			open = append(open, c)
		}
	}
	if len(open) == 0 {
		return chosen
	}
	return open
}

// CapOf returns the cap over the category id alone and the whole cycle, which begins on
// start: the lowest of several, and false if there is none.
func (s Scheme) CapOf(id string, facts Facts, start Date) (Amount, bool) {
	var most Amount
	found := false
	for _, c := range s.Caps {
		sel := c.Selection
		if c.counts() || c.Share == ShareCounted || !c.perCycle() || !facts.Holds(c.If) || !c.Begun.Holds(start) ||
			!slices.Equal(sel.Categories, []string{id}) || !(Selection{Tags: sel.Tags, NotTags: sel.NotTags, Providers: sel.Providers, From: sel.From, Until: sel.Until}).Empty() {
			continue
		}
		m := c.Most
		if c.Share == ShareTarget {
			target, _ := s.Target.For(facts)
			m = m.Mul(target)
		}
		if !found || m.Cmp(most) < 0 {
			most, found = m, true
		}
	}
	return most, found
}

func (c Cap) perCycle() bool {
	return len(c.Per) == 0 || slices.Equal(c.Per, []string{PerCycle})
}

func (c Category) tagsHold(tags []string) bool {
	for _, a := range c.Asks {
		if a.Tag != "" && !slices.Contains(tags, a.Tag) {
			return false
		}
	}
	return true
}

// Holds reports whether the claim c belongs to the selection.
func (s Selection) Holds(c Claim) bool {
	if len(s.Categories) > 0 && !slices.Contains(s.Categories, c.Category) {
		return false
	}
	if len(s.Providers) > 0 && !slices.Contains(s.Providers, c.Provider) {
		return false
	}
	if d := c.Date(); !s.From.IsZero() && d.Before(s.From) || !s.Until.IsZero() && (d.IsZero() || d.After(s.Until)) {
		return false
	}
	for _, t := range s.Tags {
		if !slices.Contains(c.Tags, t) {
			return false
		}
	}
	for _, t := range s.NotTags {
		if slices.Contains(c.Tags, t) {
			return false
		}
	}
	return true
}

// For returns the target under these facts, with the working in words.
func (t Target) For(facts Facts) (Amount, string) {
	if !t.Set || t.Formula == nil {
		return t.Amount, t.Amount.String()
	}
	w := t.Formula.run(facts.measures())
	return w.amount, w.String()
}
