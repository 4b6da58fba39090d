package journal

import (
	"slices"

	"evidencevault/credit"
)

// States of a plan.
const (
	PlanGap     = "gap"     // something is missing
	PlanOpen    = "open"    // something is missing, and nothing that is known closes the gap
	PlanMet     = "met"     // all that is asked is met
	PlanOver    = "over"    // the last day to earn credit has passed, and something is missing
	PlanNothing = "nothing" // the scheme asks for nothing
)

// PlanReport is a plan as `plan --json` prints it. Hours, credits and money are exact.
type PlanReport struct {
	Certification string                `json:"certification"`
	Scheme        string                `json:"scheme"`
	Unit          string                `json:"unit"`
	On            credit.Date           `json:"on"`
	EarnBy        *credit.Date          `json:"earn_by"` // null: the cycle has no end
	State         string                `json:"state"`
	Target        *credit.Amount        `json:"target"`
	Counted       credit.Amount         `json:"counted"`
	Missing       credit.Amount         `json:"missing"`       // to the target
	MissingAhead  credit.Amount         `json:"missing_ahead"` // at the end of the cycle, if nothing more is done
	Minimums      []credit.MinimumState `json:"minimums"`
	File          string                `json:"possible_file"` // "" if there is none
	Currency      string                `json:"currency"`      // in which costs are compared; "" where they cannot be
	Ways          []PlanWay             `json:"ways"`
	Curve         []PlanPoint           `json:"curve"` // from the cheapest to the shortest
	Proven        bool                  `json:"proven"`
	Why           []string              `json:"why"` // why the gap cannot be closed
	Pace          *PlanPace             `json:"pace"`
	LastDay       *credit.Date          `json:"last_day"` // on which one of the ways can still be begun
	Again         *PlanAgain            `json:"reexamination"`
	CostPerCredit []CreditCost          `json:"cost_per_credit"`
	HandIn        []string              `json:"hand_in"`
	Save          []credit.Saved        `json:"save"`
	SaveWhy       string                `json:"save_why"`
	Done          []PlanDone            `json:"done"`
	Notes         []string              `json:"notes"`
}

// PlanWay is one way to close the gap.
type PlanWay struct {
	Number        int            `json:"number"` // for plan --keep
	Activities    []PlanActivity `json:"activities"`
	Credits       credit.Amount  `json:"credits"`
	Hours         credit.Amount  `json:"hours"`
	Cost          []credit.Money `json:"cost"`
	Compared      *credit.Amount `json:"compared"` // the costs in the plan's currency
	Meets         bool           `json:"meets"`
	Proven        bool           `json:"proven"`
	CostFrom      *credit.Amount `json:"cost_from,omitempty"`  // where not proven: none costs less
	HoursFrom     *credit.Amount `json:"hours_from,omitempty"` // where not proven: none takes less time
	HoursPerWeek  *credit.Amount `json:"hours_per_week"`
	HoursPerMonth *credit.Amount `json:"hours_per_month"`
	LastDay       *credit.Date   `json:"last_day"`
}

// PlanActivity is one activity of a way. A rate has no number of times.
type PlanActivity struct {
	Title    string        `json:"title"`
	Category string        `json:"category"`
	Provider string        `json:"provider,omitempty"`
	Times    int64         `json:"times"`
	When     []PlanSpan    `json:"when"`
	Or       []credit.Date `json:"or"` // other days on which it is offered
	Awarded  credit.Amount `json:"awarded"`
	Credits  credit.Amount `json:"credits"` // counted
	Hours    credit.Amount `json:"hours"`
	Cost     *credit.Money `json:"cost"`
	Chosen   bool          `json:"chosen"`

	possible int
}

// PlanSpan is a day, or days on any of which an activity can be done.
type PlanSpan struct {
	From  credit.Date `json:"from"`
	Until credit.Date `json:"until"`
}

// PlanPoint is one way as a point of the curve between cost and time.
type PlanPoint struct {
	Way   int           `json:"way"`
	Cost  credit.Amount `json:"cost"`
	Hours credit.Amount `json:"hours"`
}

// PlanPace is what the missing credits, and the first way, ask for evenly spread.
type PlanPace struct {
	Days            int            `json:"days"`
	Weeks           credit.Amount  `json:"weeks"`
	Months          credit.Amount  `json:"months"`
	CreditsPerWeek  credit.Amount  `json:"credits_per_week"`
	CreditsPerMonth credit.Amount  `json:"credits_per_month"`
	HoursPerWeek    *credit.Amount `json:"hours_per_week"`
	HoursPerMonth   *credit.Amount `json:"hours_per_month"`
	ToBeHad         *credit.Amount `json:"hours_per_week_to_be_had"`
}

// PlanAgain is what a re-examination costs instead.
type PlanAgain struct {
	Title      string         `json:"title"`
	Member     bool           `json:"member"`
	Fee        credit.Amount  `json:"fee"`
	FeeMembers *credit.Amount `json:"fee_members"`
	Pays       credit.Amount  `json:"pays"` // this holder
	Currency   string         `json:"currency"`
	Hours      *credit.Amount `json:"hours"`
	Source     string         `json:"source"`
	Instead    []string       `json:"instead"` // facts of the scheme that stand instead of all that is asked
}

// CreditCost is what receipts say that credits have cost, in one currency.
type CreditCost struct {
	Currency  string         `json:"currency"`
	Paid      credit.Amount  `json:"paid"` // less what was paid back
	Credits   credit.Amount  `json:"credits"`
	PerCredit *credit.Amount `json:"per_credit"` // null where none counted
}

// PlanDone is a possible activity that has become claims.
type PlanDone struct {
	Title  string   `json:"title"`
	Claims []string `json:"claims"`
}

func newPlanReport(name string, s credit.Scheme, on credit.Date, list []credit.Possible, budget credit.Budget, plan credit.Plan, byTime bool) PlanReport {
	now := plan.Now
	r := PlanReport{
		Certification: name, Scheme: now.Scheme, Unit: now.Unit, On: on, EarnBy: dayOrNull(plan.Last), State: stateOf(plan),
		Counted: now.Counted, Missing: now.Missing, MissingAhead: plan.Ahead.Missing, Minimums: listed(now.Minimums), Currency: plan.Currency,
		Ways: []PlanWay{}, Curve: []PlanPoint{}, Proven: plan.Proven, Why: listed(plan.Why), CostPerCredit: []CreditCost{},
		HandIn: listed(plan.HandIn), Save: listed(plan.Save), SaveWhy: plan.SaveWhy, Done: []PlanDone{}, Notes: listed(plan.Notes),
	}
	if now.HasTarget {
		r.Target = &now.Target
	}
	pace := credit.PaceFrom(on, plan.Last)
	for i, w := range plan.Ways {
		r.Ways = append(r.Ways, planWay(i+1, w, pace))
		if w.LastDay.After(orZero(r.LastDay)) {
			r.LastDay = dayOrNull(w.LastDay)
		}
	}
	r.curve(byTime)
	r.pace(pace, budget)
	r.again(s, budget.Again)
	for _, p := range list {
		if len(p.Done) > 0 {
			r.Done = append(r.Done, PlanDone{p.Title, p.Done})
		}
	}
	return r
}

func stateOf(p credit.Plan) string {
	switch {
	case p.Nothing:
		return PlanNothing
	case p.Over:
		if !p.Ahead.Meets {
			return PlanOver
		}
	case p.Open:
		return PlanOpen
	case !p.Ahead.Meets:
		return PlanGap
	}
	return PlanMet
}

func planWay(number int, w credit.Way, pace credit.Pace) PlanWay {
	out := PlanWay{Number: number, Activities: []PlanActivity{}, Credits: w.Credits, Hours: w.Hours, Cost: listed(w.Costs), Compared: w.Compared,
		Meets: w.Meets, Proven: w.Proven, CostFrom: w.CostFrom, HoursFrom: w.HoursFrom, LastDay: dayOrNull(w.LastDay)}
	if pace.Days > 0 {
		out.HoursPerWeek, out.HoursPerMonth = new(pace.PerWeek(w.Hours)), new(pace.PerMonth(w.Hours))
	}
	for _, a := range w.Activities {
		shown := PlanActivity{Title: a.Title, Category: a.Category, Provider: a.Provider, Times: a.Times, When: []PlanSpan{}, Or: listed(a.Or), Awarded: a.Awarded,
			Credits: a.Counted, Hours: a.Hours, Chosen: a.Chosen, possible: a.Possible}
		if a.Cost.Amount.Sign() > 0 {
			shown.Cost = new(a.Cost)
		}
		for _, p := range a.When {
			shown.When = append(shown.When, PlanSpan{p.Start, p.End})
		}
		out.Activities = append(out.Activities, shown)
	}
	return out
}

func (r *PlanReport) curve(byTime bool) {
	if r.Currency == "" || r.State != PlanGap {
		return
	}
	for _, w := range r.Ways {
		if w.Compared != nil {
			r.Curve = append(r.Curve, PlanPoint{w.Number, *w.Compared, w.Hours})
		}
	}
	if byTime {
		slices.Reverse(r.Curve)
	}
}

func (r *PlanReport) pace(p credit.Pace, budget credit.Budget) {
	if p.Days == 0 || r.State != PlanGap && r.State != PlanOpen {
		return
	}
	r.Pace = &PlanPace{Days: p.Days, Weeks: p.Weeks, Months: p.Months, CreditsPerWeek: p.PerWeek(r.Missing), CreditsPerMonth: p.PerMonth(r.Missing)}
	if len(r.Ways) > 0 {
		r.Pace.HoursPerWeek, r.Pace.HoursPerMonth = r.Ways[0].HoursPerWeek, r.Ways[0].HoursPerMonth
	}
	if budget.HoursPerWeek.Sign() > 0 {
		r.Pace.ToBeHad = &budget.HoursPerWeek
	}
}

func (r *PlanReport) again(s credit.Scheme, a *credit.Again) {
	if a == nil {
		return
	}
	r.Again = &PlanAgain{Title: a.Title, Member: a.Member, Fee: a.Fee, FeeMembers: a.MemberFee, Pays: a.Pays(), Currency: a.Currency, Hours: a.Hours,
		Source: a.Source, Instead: listed(s.Instead.Facts)}
}

func orZero(d *credit.Date) credit.Date {
	if d == nil {
		return credit.Date{}
	}
	return *d
}
