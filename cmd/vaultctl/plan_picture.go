package main

import (
	"fmt"
	"math/big"
	"strings"

	"evidencevault/credit"
	"evidencevault/journal"
)

// Sizes of the pictures, in signs.
const (
	barLength  = 24
	gridHeight = 8
	gridWidth  = 48
)

// printCurve draws the ways between cost and time: a bar for each, with its figures,
// and their places in a field of cost over hours.
func (a *app) printCurve(r journal.PlanReport) {
	if len(r.Curve) < 2 {
		return
	}
	bars := barLength
	if w := a.width(); w > 0 && w < 90 {
		bars = 10
	}
	mostCost, mostHours := greatest(r.Curve)
	a.printf("\nCost and time\n")
	rows := make([][]string, len(r.Curve))
	for i, p := range r.Curve {
		rows[i] = []string{fmt.Sprintf("way %d", p.Way), p.Cost.String() + " " + r.Currency, bar(p.Cost, mostCost, bars), about(p.Hours) + " h", bar(p.Hours, mostHours, bars)}
	}
	a.table([]column{{head: "", number: true}, {head: "cost", number: true}, {head: ""}, {head: "time", number: true}, {head: ""}}, rows)
	if len(r.Curve) > 2 {
		a.printf("\n%s", field(r.Curve, r.Currency))
	}
}

func greatest(list []journal.PlanPoint) (cost, hours credit.Amount) {
	for _, p := range list {
		cost, hours = cost.Max(p.Cost), hours.Max(p.Hours)
	}
	return cost, hours
}

// part is n of most as a whole number of steps, the nearest one.
func part(n, most credit.Amount, steps int) int {
	if most.Sign() <= 0 {
		return 0
	}
	q := n.Div(most).Mul(credit.Whole(int64(steps))).Nearest(credit.Whole(1)).Rat()
	return int(new(big.Int).Quo(q.Num(), q.Denom()).Int64())
}

// bar is a row of blocks as long as n is of most; what is not nothing shows at least a
// thin line.
func bar(n, most credit.Amount, length int) string {
	k := part(n, most, length)
	if k == 0 && n.Sign() > 0 {
		return "▏"
	}
	return strings.Repeat("█", k)
}

// field draws each way by its number, or a dot from the tenth on, cost upwards and hours
// to the right, with the stairs between them: below them there is no way.
func field(list []journal.PlanPoint, currency string) string {
	cost, hours := greatest(list)
	lowCost, lowHours := cost, hours
	for _, p := range list {
		lowCost, lowHours = lowCost.Min(p.Cost), lowHours.Min(p.Hours)
	}
	grid := make([][]rune, gridHeight+1)
	for y := range grid {
		grid[y] = []rune(strings.Repeat(" ", gridWidth+1))
	}
	x := make([]int, len(list))
	y := make([]int, len(list))
	for i, p := range list {
		x[i] = part(p.Hours.Sub(lowHours), hours.Sub(lowHours), gridWidth)
		y[i] = gridHeight - part(p.Cost.Sub(lowCost), cost.Sub(lowCost), gridHeight)
	}
	for i := 1; i < len(list); i++ { // the cheaper way before: to the right and further down
		for k := x[i]; k <= x[i-1]; k++ {
			grid[y[i]][k] = '·'
		}
		for k := y[i]; k <= y[i-1]; k++ {
			grid[k][x[i-1]] = '·'
		}
	}
	for i := len(list) - 1; i >= 0; i-- {
		mark := 'o'
		if n := list[i].Way; n < 10 {
			mark = rune('0' + n)
		}
		grid[y[i]][x[i]] = mark
	}
	top, bottom := cost.String()+" "+currency, lowCost.String()
	margin := max(len(top), len(bottom))
	var b strings.Builder
	for k, row := range grid {
		label := ""
		switch k {
		case 0:
			label = top
		case gridHeight:
			label = bottom
		}
		fmt.Fprintf(&b, "%*s │%s\n", margin, label, strings.TrimRight(string(row), " "))
	}
	fmt.Fprintf(&b, "%*s └%s\n", margin, "", strings.Repeat("─", gridWidth+1))
	left, right := about(lowHours)+" h", about(hours)+" h"
	fmt.Fprintf(&b, "%*s  %s%*s\n", margin, "", left, gridWidth+1-len(left), right)
	return b.String()
}
