package web

import (
	"math/big"
	"net/http"
	"slices"

	"evidencevault/credit"
	"evidencevault/journal"
)

// standingPage is the standing of each certification on a day.
type standingPage struct {
	On    string // as typed
	Today credit.Date
	Certs []standingCert

	Choices []journal.AboutCertification // where there are several
	Chosen  string                       // one of them, or "" for all
}

type standingCert struct {
	Title, Number string
	credit.Statement
	Days, Length int // left, and of the whole cycle
	HasDays      bool
	Bars         []bar
	Line         *timeLine
	Cuts         []cutLine
	Plan         *journal.PlanReport // the ways to the rest; nil on another day than today
	PlanWrong    string
}

// bar is one category against its cap, in parts of 1000.
type bar struct {
	ID, Title         string
	Counted, Awarded  credit.Amount
	Cap               *credit.Amount
	Claims            int
	Width, Over, Most int64 // of counted, of what is awarded beyond it, of the cap; Most 0: no cap
}

// cutLine is a cut with the claim's title.
type cutLine struct {
	credit.Cut
	Title string
}

// timeLine is the cycle as a picture: what was counted by which day, against the pace
// that would have sufficed. Lengths are parts of a picture of 720 by 220.
type timeLine struct {
	Steps      string // points of the line of counted credit
	Today      int64  // x of the day
	TargetY    int64
	Years      []tick
	Pace       credit.Amount // that would be needed by the day, rounded down to a tenth
	Ahead      bool
	PaceLineTo string
}

type tick struct {
	X    int64
	Text string
}

// The picture's frame.
const (
	lineLeft, lineTop     = 10, 14
	lineWidth, lineHeight = 700, 170
)

func (s *Server) standing(w http.ResponseWriter, r *http.Request) {
	t := wordsFor(r)
	body := standingPage{On: r.URL.Query().Get("on"), Today: s.o.Journal.Today()}
	var on credit.Date
	if body.On != "" {
		var err error
		if on, err = credit.ParseDate(body.On); err != nil {
			s.show(w, r, http.StatusUnprocessableEntity, screenWrong, t.T("wrong.title"), t.T("standing.baddate", body.On))
			return
		}
	}
	about, err := s.o.Journal.About(r.Context())
	if err != nil {
		s.fail(w, r, err)
		return
	}
	if len(about.Certifications) > 1 {
		body.Choices, body.Chosen = about.Certifications, r.URL.Query().Get("certification")
	}
	list, err := s.o.Journal.Standing(r.Context(), on, body.Chosen)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	for _, st := range list {
		cert, err := s.o.Journal.Certified(r.Context(), st.Certification, on)
		if err != nil {
			s.fail(w, r, err)
			return
		}
		claims, err := s.o.Journal.Claims(r.Context(), journal.ClaimsFilter{Certification: st.Certification, On: st.On})
		if err != nil {
			s.fail(w, r, err)
			return
		}
		c := standingOf(cert, st, claims)
		if on.IsZero() {
			s.plan(r, &c)
		}
		body.Certs = append(body.Certs, c)
	}
	s.show(w, r, http.StatusOK, screenStanding, t.T("standing.title"), body)
}

// planSteps bounds the search for ways, so that the screen is there at once; the plan
// says where it is not proven.
const planSteps = 3000

// plan adds the ways to what is missing. A list of possible activities that is not in
// order is said and does not keep the rest from being shown.
func (s *Server) plan(r *http.Request, c *standingCert) {
	plan, err := s.o.Journal.Plan(r.Context(), journal.PlanOptions{Certification: c.Certification, Steps: planSteps, Stop: func() bool { return r.Context().Err() != nil }})
	if err != nil {
		c.PlanWrong = err.Error()
		return
	}
	if len(plan.Ways) > 0 {
		plan.Ways = plan.Ways[:min(len(plan.Ways), 3)]
		c.Plan = &plan
	}
}

func standingOf(cert journal.Certified, st credit.Statement, claims []journal.Claim) standingCert {
	c := standingCert{Title: cert.Title, Number: cert.Number, Statement: st}
	c.Days, c.HasDays = st.DaysLeft()
	titles, counts := map[string]string{}, map[string]int{}
	for _, k := range claims {
		titles[k.ID] = k.Title
		counts[k.Category]++
	}
	for _, cut := range st.Cuts {
		c.Cuts = append(c.Cuts, cutLine{cut, titles[cut.Claim]})
	}
	most := credit.Whole(1)
	for _, k := range st.Categories {
		most = most.Max(k.Awarded)
		if k.Cap != nil {
			most = most.Max(*k.Cap)
		}
	}
	for _, k := range st.Categories {
		b := bar{ID: k.ID, Title: k.ID, Counted: k.Counted, Awarded: k.Awarded, Cap: k.Cap, Claims: counts[k.ID]}
		if cat, ok := cert.Scheme.Category(k.ID); ok {
			b.Title = orID(cat)
		}
		b.Width = part(k.Counted, most, 1000)
		b.Over = part(k.Awarded, most, 1000) - b.Width
		if k.Cap != nil {
			b.Most = part(*k.Cap, most, 1000)
		}
		c.Bars = append(c.Bars, b)
	}
	c.Line = lineOf(st, claims)
	return c
}

// part is a share of whole, in whole units of the picture, rounded down.
func part(a, whole credit.Amount, units int64) int64 {
	if whole.Sign() <= 0 || a.Sign() <= 0 {
		return 0
	}
	r := a.Mul(credit.Whole(units)).Rat()
	r.Quo(r, whole.Rat())
	return new(big.Int).Quo(r.Num(), r.Denom()).Int64()
}

// lineOf draws the cycle; nil where there is no cycle or no target.
func lineOf(st credit.Statement, claims []journal.Claim) *timeLine {
	start, end := st.Cycle.Start, st.Cycle.End
	if start.IsZero() || end.IsZero() || !st.HasTarget || st.Target.Sign() <= 0 {
		return nil
	}
	days := int64(end.Sub(start)) + 1
	top := st.Target.Max(st.Counted)
	x := func(d credit.Date) int64 {
		return lineLeft + min(max(int64(d.Sub(start)), 0), days)*lineWidth/days
	}
	y := func(a credit.Amount) int64 { return lineTop + lineHeight - part(a, top, lineHeight) }
	l := &timeLine{Today: x(st.On), TargetY: y(st.Target)}
	claims = slices.Clone(claims)
	slices.SortStableFunc(claims, func(a, b journal.Claim) int { return a.End.Compare(b.End) })
	var sum credit.Amount
	points := pointsOf{}
	points.add(lineLeft, y(sum))
	for _, c := range claims {
		if c.Counted.Sign() <= 0 {
			continue
		}
		at := lineLeft + int64(0)
		if !c.End.IsZero() {
			at = min(x(c.End), l.Today)
		}
		points.add(at, y(sum))
		sum = sum.Add(c.Counted)
		points.add(at, y(sum))
	}
	points.add(l.Today, y(sum))
	l.Steps = points.text
	l.PaceLineTo = pointsOf{}.with(lineLeft, lineTop+lineHeight).with(lineLeft+lineWidth, l.TargetY).text
	gone := min(max(int64(st.On.Sub(start))+1, 0), days)
	pace := st.Target.Mul(credit.Whole(gone)).Rat()
	pace.Quo(pace, new(big.Rat).SetInt64(days))
	tenths := new(big.Int).Quo(new(big.Int).Mul(pace.Num(), big.NewInt(10)), pace.Denom())
	l.Pace = credit.FromRat(new(big.Rat).SetFrac(tenths, big.NewInt(10)))
	l.Ahead = st.Counted.Rat().Cmp(pace) >= 0
	year, _, _ := start.YMD()
	for d := credit.Day(year+1, 1, 1); !d.After(end); d = d.AddYears(1) {
		n, _, _ := d.YMD()
		l.Years = append(l.Years, tick{x(d), big.NewInt(int64(n)).String()})
	}
	return l
}

// pointsOf writes the points of a line of SVG.
type pointsOf struct{ text string }

func (p *pointsOf) add(x, y int64) { *p = p.with(x, y) }

func (p pointsOf) with(x, y int64) pointsOf {
	if p.text != "" {
		p.text += " "
	}
	p.text += big.NewInt(x).String() + "," + big.NewInt(y).String()
	return p
}
