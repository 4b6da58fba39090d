package credit

import (
	"fmt"
	"slices"
)

// planGroup is claims and offers that lie in the same rows and serve the same needs.
type planGroup struct {
	upper   Amount // of the confirmed claims
	offers  []int
	rows    []int
	windows []service
	bound   bool // a row or a need bears on it, so that not all of it may count
	single  bool // one entry, of which it matters whether it counts at all
	entry   int  // of a single one
}

// gather makes the rows and needs of claims and offers together, and their groups.
func (p *planner) gather() {
	rows, of := p.capRows()
	p.rows = rows
	p.needs = p.calculation.needs()
	windows := make([][]service, len(p.entries))
	for n, need := range p.needs {
		for w, window := range need.windows {
			for k, i := range window.members {
				windows[i] = append(windows[i], service{n, w, window.part[k]})
			}
		}
	}
	at := map[string]int{}
	for i, e := range p.entries {
		if e.limit.Sign() <= 0 {
			continue
		}
		single := e.alternative > 0 || len(of[i]) > 0 && e.whole
		for _, r := range of[i] {
			single = single || rows[r].cap.MostClaims > 0
		}
		key := fmt.Sprint(of[i], windows[i])
		g, ok := at[key]
		if !ok || single {
			if g = len(p.groups); !single {
				at[key] = g
			}
			p.groups = append(p.groups, planGroup{rows: of[i], windows: windows[i], bound: len(of[i]) > 0 || single, single: single, entry: i})
			for _, w := range windows[i] {
				p.groups[g].bound = p.groups[g].bound || w.part || p.exclusive(w.need)
			}
		}
		if i < p.confirmed {
			p.groups[g].upper = p.groups[g].upper.Add(e.limit)
			continue
		}
		p.offers[i-p.confirmed].group = g
		p.groups[g].offers = append(p.groups[g].offers, i-p.confirmed)
	}
}

func (p *planner) exclusive(need int) bool {
	return slices.ContainsFunc(p.scheme.Exclusive, func(x Exclusive) bool { return slices.Contains(x.Minimums, p.needs[need].ID) })
}

// capRows makes a row of each cap and window, and says for each entry in which it lies.
func (p *planner) capRows() ([]capRow, [][]int) {
	var all []capRow
	of := make([][]int, len(p.entries))
	for _, k := range p.inForce() {
		if k.Largest || slices.Equal(k.Per, []string{PerClaim}) {
			continue
		}
		at := map[string]int{}
		for i, e := range p.entries {
			anyDay := i >= p.confirmed && len(p.offers[i-p.confirmed].days) == 0
			if e.limit.Sign() <= 0 || !k.Selection.Holds(e.Claim) || anyDay && slices.Equal(k.Per, []string{PerDay}) {
				continue
			}
			for _, g := range p.calculation.groups(k, e) {
				n, ok := at[g]
				if !ok {
					n = len(all)
					at[g] = n
					all = append(all, capRow{cap: k, label: g, most: p.most(k), counted: k.Share == ShareCounted})
				}
				all[n].members = append(all[n].members, i)
				of[i] = append(of[i], n)
			}
		}
	}
	return all, of
}
