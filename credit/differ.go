package credit

import (
	"fmt"
	"slices"
	"strings"
)

// Differences are what two versions of the rules make of the same claims on the same
// day. The zero Differences is none.
type Differences struct {
	Target    Change           `json:"target"`
	Counted   Change           `json:"counted"`
	Missing   Change           `json:"missing"`
	Meets     Verdicts         `json:"meets"`
	Claims    []ClaimDiffers   `json:"claims"`
	Minimums  []MinimumDiffers `json:"minimums"`
	Deadlines []DeadlineMoved  `json:"deadlines"`

	unit     string
	untarget [2]bool // before and after there is no target
}

// SchemeChange says that a cycle does not run under the rules it began with, and what
// that makes of it.
type SchemeChange struct {
	Day         Date        `json:"day"`  // on which the version now in force was taken up
	From        string      `json:"from"` // version and file under which the cycle began
	To          string      `json:"to"`   // those in force
	Differences Differences `json:"differences"`
	Lines       []string    `json:"lines"` // the differences for people
}

// Verdicts are what a statement said and says: whether all that is asked is met.
type Verdicts struct {
	Before bool `json:"before"`
	After  bool `json:"after"`
}

// ClaimDiffers is a claim that earns or counts another amount, with the reasons.
type ClaimDiffers struct {
	ID      string   `json:"id"`
	Awarded Change   `json:"awarded"`
	Counted Change   `json:"counted"`
	Was     []string `json:"was"` // what the rules before say of it and those after do not, with file and line
	Now     []string `json:"now"` // what they say instead
}

// MinimumDiffers is a minimum that asks, has or is called otherwise. One that is there
// only before or only after wants nothing on the other side.
type MinimumDiffers struct {
	ID   string   `json:"id"`
	Want Change   `json:"want"`
	Have Change   `json:"have"`
	Met  Verdicts `json:"met"`
	only string   // "before" or "after"
}

// DeadlineMoved is a day that moved; null where there is none.
type DeadlineMoved struct {
	What   string `json:"what"`
	Before *Date  `json:"before"`
	After  *Date  `json:"after"`
}

// Differ compares two statements of the same claims on the same day, the first made
// under the rules as they were.
func Differ(before, after Statement) Differences {
	d := Differences{
		Target: Change{before.Target, after.Target}, Counted: Change{before.Counted, after.Counted}, Missing: Change{before.Missing, after.Missing},
		Meets: Verdicts{before.Meets, after.Meets}, Claims: []ClaimDiffers{}, Minimums: []MinimumDiffers{}, Deadlines: []DeadlineMoved{},
		unit: after.Unit, untarget: [2]bool{!before.HasTarget, !after.HasTarget},
	}
	then := make(map[string]ClaimResult, len(before.Claims))
	for _, r := range before.results() {
		then[r.ID] = r
	}
	said, says := before.reasons(), after.reasons()
	for _, r := range after.results() {
		was, there := then[r.ID]
		if was.Awarded.Equal(r.Awarded) && was.Counted.Equal(r.Counted) {
			continue
		}
		c := ClaimDiffers{ID: r.ID, Awarded: Change{was.Awarded, r.Awarded}, Counted: Change{was.Counted, r.Counted}, Was: []string{}, Now: []string{}}
		if !there {
			c.Was = append(c.Was, "not counted: its category was none of those rules")
		}
		for _, reason := range said[r.ID] {
			if !saysSo(says[r.ID], reason) {
				c.Was = append(c.Was, reason.String())
			}
		}
		for _, reason := range says[r.ID] {
			if !saysSo(said[r.ID], reason) {
				c.Now = append(c.Now, reason.String())
			}
		}
		d.Claims = append(d.Claims, c)
	}
	d.minimums(before.Minimums, after.Minimums)
	d.deadlines(before.Deadlines, after.Deadlines)
	return d
}

// reasons are the derivations of each claim.
func (s Statement) reasons() map[string][]Derivation {
	byClaim := map[string][]Derivation{}
	for _, d := range s.Derivations {
		if d.Claim != "" {
			d.Text = s.capText(d)
			byClaim[d.Claim] = append(byClaim[d.Claim], d)
		}
	}
	return byClaim
}

// saysSo reports whether the list says the same, wherever its rule stands.
func saysSo(list []Derivation, d Derivation) bool {
	return slices.ContainsFunc(list, func(e Derivation) bool {
		return e.Step == d.Step && e.Rule == d.Rule && e.Text == d.Text && e.Before.Equal(d.Before) && e.After.Equal(d.After)
	})
}

func (d *Differences) minimums(before, after []MinimumState) {
	find := func(list []MinimumState, id string) (MinimumState, bool) {
		i := slices.IndexFunc(list, func(m MinimumState) bool { return m.ID == id })
		if i < 0 {
			return MinimumState{Met: true}, false
		}
		return list[i], true
	}
	for _, now := range after {
		was, there := find(before, now.ID)
		if was.Want.Equal(now.Want) && was.Have.Equal(now.Have) && was.Met == now.Met && there {
			continue
		}
		m := MinimumDiffers{ID: now.ID, Want: Change{was.Want, now.Want}, Have: Change{was.Have, now.Have}, Met: Verdicts{was.Met, now.Met}}
		if !there {
			m.only = "after"
		}
		d.Minimums = append(d.Minimums, m)
	}
	for _, was := range before {
		if now, there := find(after, was.ID); !there {
			d.Minimums = append(d.Minimums, MinimumDiffers{ID: was.ID, Want: Change{was.Want, now.Want}, Have: Change{was.Have, now.Have},
				Met: Verdicts{was.Met, true}, only: "before"})
		}
	}
}

func (d *Differences) deadlines(before, after []Deadline) {
	find := func(list []Deadline, what string) *Date {
		for _, x := range list {
			if x.What == what {
				return &x.Date
			}
		}
		return nil
	}
	for _, now := range after {
		if was := find(before, now.What); was == nil || *was != now.Date {
			d.Deadlines = append(d.Deadlines, DeadlineMoved{now.What, was, &now.Date})
		}
	}
	for _, was := range before {
		if find(after, was.What) == nil {
			d.Deadlines = append(d.Deadlines, DeadlineMoved{was.What, &was.Date, nil})
		}
	}
}

// None reports whether nothing differs.
func (d Differences) None() bool {
	return d.Target.same() && d.untarget[0] == d.untarget[1] && d.Counted.same() && d.Missing.same() && d.Meets.Before == d.Meets.After &&
		len(d.Claims)+len(d.Minimums)+len(d.Deadlines) == 0
}

func (c Change) same() bool { return c.Before.Equal(c.After) }

// Lines says the differences for people, the whole first, then claim by claim with the
// reasons indented beneath.
func (d Differences) Lines() []string {
	if d.None() {
		return []string{"nothing that counts today differs"}
	}
	var lines []string
	add := func(format string, args ...any) { lines = append(lines, fmt.Sprintf(format, args...)) }
	switch {
	case d.untarget[0] && !d.untarget[1]:
		add("target: %v, and none before", d.Target.After)
	case d.untarget[1] && !d.untarget[0]:
		add("target: none, and %v before", d.Target.Before)
	case !d.Target.same():
		add("target: %v instead of %s", d.Target.After, Quantity(d.Target.Before, d.unit))
	}
	if d.Counted.same() {
		add("counted: %s as before", Quantity(d.Counted.After, d.unit))
	} else {
		add("counted: %v instead of %s", d.Counted.After, Quantity(d.Counted.Before, d.unit))
	}
	if !d.Missing.same() {
		add("missing: %v instead of %s", d.Missing.After, Quantity(d.Missing.Before, d.unit))
	}
	if d.Meets.Before != d.Meets.After {
		add("%s", map[bool]string{true: "all that is asked is met now", false: "not all that is asked is met any more"}[d.Meets.After])
	}
	for _, m := range d.Minimums {
		lines = append(lines, m.line())
	}
	for _, x := range d.Deadlines {
		lines = append(lines, x.line())
	}
	for _, c := range d.Claims {
		lines = append(lines, c.lines()...)
	}
	return lines
}

func (c ClaimDiffers) lines() []string {
	list := []string{fmt.Sprintf("%s: counts %v instead of %v", c.ID, c.Counted.After, c.Counted.Before)}
	if !c.Awarded.same() {
		list[0] += fmt.Sprintf(" (awarded %v instead of %v)", c.Awarded.After, c.Awarded.Before)
	}
	for _, text := range c.Was {
		list = append(list, "  was: "+text)
	}
	for _, text := range c.Now {
		list = append(list, "  now: "+text)
	}
	if len(c.Was)+len(c.Now) == 0 {
		list = append(list, "  its rules are the same; what counts was chosen anew for the whole")
	}
	return list
}

func (m MinimumDiffers) line() string {
	state := "met"
	if !m.Met.After {
		state = "not met"
	}
	switch {
	case m.only == "before":
		return fmt.Sprintf("minimum %s is not asked any more", m.ID)
	case m.only == "after":
		return fmt.Sprintf("minimum %s is new: %v of %v, %s", m.ID, m.Have.After, m.Want.After, state)
	case m.Want.same():
		return fmt.Sprintf("minimum %s: %v instead of %v of %v, %s", m.ID, m.Have.After, m.Have.Before, m.Want.After, state)
	case m.Have.same():
		return fmt.Sprintf("minimum %s: %v asked instead of %v, %s with %v", m.ID, m.Want.After, m.Want.Before, state, m.Have.After)
	}
	return fmt.Sprintf("minimum %s: %v of %v instead of %v of %v, %s", m.ID, m.Have.After, m.Want.After, m.Have.Before, m.Want.Before, state)
}

func (x DeadlineMoved) line() string {
	switch {
	case x.Before == nil:
		return fmt.Sprintf("deadline %s is new: %v", x.What, *x.After)
	case x.After == nil:
		return strings.TrimSpace(fmt.Sprintf("deadline %s of %v is gone", x.What, *x.Before))
	}
	return fmt.Sprintf("deadline %s: %v instead of %v", x.What, *x.After, *x.Before)
}
