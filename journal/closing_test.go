package journal_test

import (
	"errors"
	"fmt"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/journal"
)

// yearly is an invented scheme with cycles of a year.
const yearly = `scheme = 1
id = "%s"
version = "1"
title = "Yearly"
body = "Ostrand Board"
unit = "point"
target = "4"
[cycle]
years = 1
[category.course]
accepts = ["attendance"]
award = [{ from = "hours" }]
repeat = { by = "course", factors = ["1", "0"], within_years = 3 }
[carry_over]
most = "3"
[proof]
keep_years = %d
`

// moving is a vault whose clock a test moves.
type moving struct {
	*vault
	day credit.Date
}

func newMoving(t testing.TB) *moving {
	m := &moving{day: credit.MustDate("2031-06-01")}
	m.vault = setUp(t, journal.SetupOptions{Scheme: journal.SchemeFile{Name: "yearly.toml", Data: fmt.Appendf(nil, yearly, "yearly", 1)},
		Start: credit.MustDate("2031-01-01"), Now: func() time.Time { return m.day.Time().Add(12 * time.Hour) }})
	return m
}

func (m *moving) set(day string) { m.day = credit.MustDate(day) }

// close closes the present cycle of a certification without an archive.
func (m *moving) close(certification string) error {
	plan, err := m.ClosePlan(m.ctx, journal.CloseOptions{Certification: certification, Early: true})
	if err != nil {
		return err
	}
	begun, err := m.CloseBegin(m.ctx, plan)
	if err != nil {
		return err
	}
	return m.CloseFinish(m.ctx, plan, begun, journal.Sealed{Statement: plan.Statement, Claims: 0,
		Place: func() (string, error) { return strings.Repeat("a", 64), nil }})
}

func (m *moving) claim(certification, day string, hours int, course string) (string, error) {
	r, err := m.ClaimAdd(m.ctx, journal.ClaimOptions{Certification: certification, Category: "course", Set: map[string]string{
		"kind": "attendance", "title": "Course " + day, "end_date": day, "duration_minutes": fmt.Sprint(60 * hours), "course": course}})
	return r.Claim.ID, err
}

// A course done in an earlier cycle earns nothing when the rule looks back three years.
func TestEarlierCyclesAreSeenByRules(t *testing.T) {
	m := newMoving(t)
	claims := 0
	for _, test := range []struct{ year, why, want string }{
		{"2031", "the first time", "5"},
		{"2032", "a year later", "0"},
		{"2033", "nothing is claimed", ""},
		{"2034", "nothing is claimed", ""},
		{"2035", "three years after the last time", "5"},
	} {
		m.set(test.year + "-12-01")
		if test.want != "" {
			ref, err := m.claim("", test.year+"-05-01", 5, "knots")
			if err != nil {
				t.Fatal(err)
			}
			claims++
			st, err := m.Standing(m.ctx, credit.Date{}, "")
			if err != nil {
				t.Fatal(err)
			}
			if got, ok := st[0].Result(ref); !ok || got.Awarded.String() != test.want {
				t.Errorf("%s (%s): awarded %v, want %s", test.year, test.why, got.Awarded, test.want)
			}
		}
		if err := m.close(""); err != nil {
			t.Fatal(err)
		}
	}
	if list, err := m.Cycles(m.ctx, ""); err != nil || len(list) != 6 || list[3].CarryOut.Sign() != 0 {
		t.Errorf("%d cycles of %d claims, %v: want six, the empty ones carrying nothing over", len(list), claims, err)
	}
}

// A value that was handed in in a closed cycle does not change by way of another claim;
// what was empty may be filled.
func TestHandedInValuesStay(t *testing.T) {
	m := newMoving(t)
	if _, err := m.CertificationAdd(m.ctx, journal.CertificationOptions{ID: "other", Start: credit.MustDate("2031-01-01"),
		Scheme: journal.SchemeFile{Name: "other.toml", Data: fmt.Appendf(nil, yearly, "other", 4)}}); err != nil {
		t.Fatal(err)
	}
	if _, err := m.claim("yearly", "2031-05-01", 5, ""); err != nil {
		t.Fatal(err)
	}
	other, err := m.AddClaimFor(m.ctx, "A1", "other", "course")
	if err != nil {
		t.Fatal(err)
	}
	m.set("2032-01-05")
	if err := m.close("yearly"); err != nil {
		t.Fatal(err)
	}
	if _, err := m.ClaimChange(m.ctx, other.Claim.ID, map[string]string{"duration_minutes": "60"}, ""); !errors.Is(err, journal.ErrClosed) {
		t.Errorf("a value that was handed in: %v, want ErrClosed", err)
	}
	if _, err := m.ClaimChange(m.ctx, other.Claim.ID, map[string]string{"course": "knots"}, ""); err != nil {
		t.Errorf("a field that was empty: %v", err)
	}
}

// step is one thing that a person does in a history that is drawn.
type step struct {
	act, cert, later, before int
}

// histories is how many histories are drawn; HISTORIES asks for more.
func histories(t *testing.T) int {
	if text := os.Getenv("HISTORIES"); text != "" {
		n, err := strconv.Atoi(text)
		if err != nil {
			t.Fatal(err)
		}
		return n
	}
	return 12
}

// Whatever is claimed, closed, taken back, noted and deleted in whatever order: the log
// makes the same rows again, credit is carried once, and nothing that is needed goes.
func TestCyclesInAnyOrder(t *testing.T) {
	steps := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) step {
		return step{rapid.IntRange(0, 9).Draw(t, "act"), rapid.IntRange(0, 1).Draw(t, "certification"),
			rapid.IntRange(0, 400).Draw(t, "days later"), rapid.IntRange(0, 200).Draw(t, "days before")}
	}), 16, 30)
	done := map[string]int{}
	for seed := range histories(t) {
		m := newMoving(t)
		if _, err := m.CertificationAdd(m.ctx, journal.CertificationOptions{ID: "other", Start: credit.MustDate("2031-01-01"),
			Scheme: journal.SchemeFile{Name: "other.toml", Data: fmt.Appendf(nil, yearly, "other", 1+seed%3)}}); err != nil {
			t.Fatal(err)
		}
		for _, s := range steps.Example(seed) {
			what, err := m.do(s)
			if err == nil {
				done[what]++
			} else if !expected(err) {
				t.Fatalf("history %d, %s: %v", seed, what, err)
			}
		}
		if err := m.Catalog().Sweep(m.ctx); err != nil {
			t.Fatal(err)
		}
		found, err := m.Catalog().Verify(m.ctx, catalog.VerifyOptions{})
		if err != nil || len(found) > 0 {
			t.Fatalf("history %d: %v, %v", seed, found, err)
		}
		m.carriedOnce()
	}
	for _, what := range []string{"confirm", "close", "take back", "note", "delete"} {
		if done[what] == 0 {
			t.Errorf("%s was done in no history, so it was not tried", what)
		}
	}
	t.Log(done)
}

func (m *moving) do(s step) (what string, err error) {
	cert := []string{"yearly", "other"}[s.cert]
	m.day = m.day.AddDays(s.later)
	switch s.act {
	case 0, 1:
		day := m.day.AddDays(-s.before).String()
		ref := m.take("c.pdf", course("Course of "+day, day))
		_, err = m.Confirm(m.ctx, []string{ref}, journal.ConfirmOptions{Certification: cert, Category: "course"})
		return "confirm", err
	case 2, 3, 4, 5:
		return "close", m.close(cert)
	case 6:
		if s.before > 100 {
			_, err = m.NoteCycle(m.ctx, cert, "1", "a note")
			return "note", err
		}
		_, err = m.CloseUndo(m.ctx, cert, "")
		return "take back", err
	case 7:
		_, err = m.AddClaimFor(m.ctx, "A1", cert, "course")
		return "claim again", err
	}
	p, err := m.DeletePlan(m.ctx, journal.DeleteOptions{Certification: cert, Cycle: "1"})
	if err != nil {
		return "delete", err
	}
	m.nothingNeeded(p)
	if what = "delete"; len(p.Evidence) == 0 {
		what = "delete an archive"
	}
	return what, m.Delete(m.ctx, p, "")
}

func expected(err error) bool {
	return slices.ContainsFunc([]error{journal.ErrClosed, journal.ErrCycle, journal.ErrKept, journal.ErrNothing, journal.ErrNotWaiting, journal.ErrUnknown, journal.ErrReference},
		func(e error) bool { return errors.Is(err, e) })
}

// nothingNeeded checks the rules of keeping by a way of its own: the claims that stand,
// and the last days of their cycles.
func (m *moving) nothingNeeded(p journal.DeletePlan) {
	m.t.Helper()
	years := map[string]int{}
	certs, err := m.AllCertified(m.ctx, credit.Date{})
	if err != nil {
		m.t.Fatal(err)
	}
	for _, c := range certs {
		years[c.ID] = c.Scheme.Keeping.Years
	}
	cycles, err := m.Catalog().Cycles(m.ctx, "")
	if err != nil {
		m.t.Fatal(err)
	}
	carried, err := m.Catalog().Carried(m.ctx, "")
	if err != nil {
		m.t.Fatal(err)
	}
	claims, err := m.Catalog().Claims(m.ctx, catalog.ClaimFilter{})
	if err != nil {
		m.t.Fatal(err)
	}
	for _, e := range p.Evidence {
		for _, c := range claims {
			proofs, err := m.Catalog().Proofs(m.ctx, c.Activity)
			if err != nil {
				m.t.Fatal(err)
			}
			if !slices.ContainsFunc(proofs, func(p catalog.Proof) bool { return p.SHA256 == e.SHA256 }) {
				continue
			}
			for _, cycle := range cycles {
				uses := cycle.ID == c.Cycle || slices.ContainsFunc(carried, func(k catalog.Carried) bool { return k.Claim == c.ID && k.Cycle == cycle.ID })
				if uses && (!cycle.Closed || !m.day.After(cycle.End.AddYears(years[cycle.Certification]))) {
					m.t.Fatalf("%s would be deleted on %v, and %s needs it in the cycle to %v", e.File, m.day, c.Ref(), cycle.End)
				}
			}
		}
	}
}

// carriedOnce checks that what a closing says was carried is what the next cycle has.
func (m *moving) carriedOnce() {
	m.t.Helper()
	list, err := m.Cycles(m.ctx, "")
	if err != nil {
		m.t.Fatal(err)
	}
	for i, c := range list {
		if c.State != journal.CycleClosed || i+1 == len(list) || list[i+1].Certification != c.Certification {
			continue
		}
		var sum credit.Amount
		for _, in := range list[i+1].CarriedIn {
			sum = sum.Add(in.Amount)
		}
		if !sum.Equal(c.CarryOut) {
			m.t.Fatalf("cycle %d of %s carried %v over, and the next has %v", c.Number, c.Certification, c.CarryOut, sum)
		}
	}
}
