package main

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"evidencevault/audit"
	"evidencevault/credit"
	"evidencevault/journal"
)

func (a *app) rehearseCommand() *cobra.Command {
	var on string
	c := &cobra.Command{
		Use:   "rehearse",
		Short: "audit yourself, as strictly as a stranger would, while there is time to mend",
		Long: `rehearse looks at every claim as an auditor would who distrusts it: is there a proof, of
the right kind, for this holder, for this much time, on this day, only once. A claim with
a grave finding is taken to fall; a doubt is what you will be asked about. It says what
the standing would be without the weak claims, and how likely a drawn sample hits one.

What only eyes can judge, such as a signature or a stamp, is not guessed. Where the
scheme wants a signature you are asked for it once, and the answer is kept:
vaultctl claim change C3 --set signature=yes. Findings end with 3.`,
		Example: "  vaultctl rehearse\n  vaultctl rehearse --json",
		Args:    a.args(cobra.NoArgs),
		RunE: func(cmd *cobra.Command, _ []string) error {
			day, err := a.parseOn(on)
			if err != nil {
				return err
			}
			return a.reading(cmd.Context(), func(j *journal.Journal) error {
				r, err := audit.Rehearse(cmd.Context(), j, a.certification, day)
				if err != nil {
					return err
				}
				a.see = len(r.Findings) > 0
				if a.json {
					return a.printJSON(r)
				}
				a.printRehearsal(r)
				return nil
			})
		},
	}
	c.Flags().StringVar(&on, "on", "", "the day for which the figures hold, YYYY-MM-DD (else today)")
	return c
}

func (a *app) printRehearsal(r audit.Rehearsal) {
	if r.Claims == 0 {
		a.printf("There is no claim yet, so there is nothing to rehearse.\n")
		return
	}
	a.printWeaknesses("Grave: an auditor would strike", audit.Grave, r)
	a.printWeaknesses("Doubt: an auditor would ask", audit.Doubt, r)
	if len(r.Findings) == 0 {
		a.printf("%s: nothing found that an auditor would object to. Look at the papers themselves for signatures and stamps.\n", count(r.Claims, "claim", "claims"))
		return
	}
	a.printf("Now %s counted, %s missing.", r.Now.Counted, r.Now.Missing)
	if len(r.Weak) == 0 {
		a.printf(" No claim is weak enough to fall.\n")
		return
	}
	weak := slices.Clone(r.Weak)
	slices.SortFunc(weak, byNumber)
	a.printf(" Without %s: %s counted, %s missing.\n", strings.Join(weak, " "), r.IfWeakFall.Counted, r.IfWeakFall.Missing)
	a.printf("A sample hits a weak claim with this chance (with one mended):")
	for i, o := range r.Odds {
		if i > 0 {
			a.printf(",")
		}
		a.printf(" %d of %d claims %s (%s)", o.Sample, r.Claims, o.Percent, o.OneFewer)
	}
	a.printf("\n")
	a.printMends(r)
}

// printMends says what each mend leaves, the one that saves most first.
func (a *app) printMends(r audit.Rehearsal) {
	var rows [][]string
	for _, m := range r.Mends {
		rows = append(rows, []string{m.Claim, m.AtStake.String(), count(m.Left, "weak claim", "weak claims"), m.Counted.String(), m.Percent})
	}
	a.printf("\nMended one after the other, with what is then left\n")
	a.table([]column{{head: "mend"}, {head: "at stake", number: true}, {head: "left"}, {head: "counted without those", number: true},
		{head: fmt.Sprintf("hit by %d of %d", r.Mends[0].Sample, r.Claims), number: true}}, rows)
}

// printWeaknesses prints what is of one weight, with the claims to which the same
// applies together.
func (a *app) printWeaknesses(head, weight string, r audit.Rehearsal) {
	type group struct {
		why, mend string
		claims    []string
		stake     credit.Amount
	}
	var groups []*group
	at := map[string]*group{}
	for _, w := range r.Findings {
		if w.Weight != weight {
			continue
		}
		mend := strings.ReplaceAll(w.Mend, " "+w.Claim, " C…")
		g := at[w.Why+mend]
		if g == nil {
			g = &group{why: w.Why, mend: w.Mend}
			at[w.Why+mend] = g
			groups = append(groups, g)
		} else {
			g.mend = mend
		}
		if !slices.Contains(g.claims, w.Claim) { // of the same claim two days may be asked about
			g.claims = append(g.claims, w.Claim)
			g.stake = g.stake.Add(w.AtStake)
		}
	}
	if len(groups) == 0 {
		return
	}
	a.printf("%s\n", head)
	for _, g := range groups {
		stake := ""
		if g.stake.Sign() > 0 {
			stake = " (" + g.stake.String() + " at stake)"
		}
		slices.SortFunc(g.claims, byNumber)
		a.printf("  %s: %s%s\n      mend: %s\n", strings.Join(g.claims, " "), safe(g.why), stake, safe(g.mend))
	}
	a.printf("\n")
}

// byNumber puts C9 before C10.
func byNumber(a, b string) int { return cmp.Or(cmp.Compare(len(a), len(b)), cmp.Compare(a, b)) }
