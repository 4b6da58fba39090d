package audit_test

import (
	"math/big"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"evidencevault/audit"
	"evidencevault/journal"
)

func rehearse(t *testing.T, j *journal.Journal) audit.Rehearsal {
	t.Helper()
	r, err := audit.Rehearse(t.Context(), j, "", on)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// of returns what is found about one claim, but for log fields, which the demo's
// papers leave out.
func of(r audit.Rehearsal, claim string) []string {
	var list []string
	for _, w := range r.Findings {
		if w.Claim == claim && w.What != audit.WeakLog {
			list = append(list, w.What+" "+w.Weight)
		}
	}
	slices.Sort(list)
	return list
}

// claimOf returns the claim whose title has this word.
func claimOf(t *testing.T, j *journal.Journal, word string) journal.Claim {
	t.Helper()
	claims, err := j.Claims(t.Context(), journal.ClaimsFilter{On: on})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range claims {
		if strings.Contains(c.Title, word) {
			return c
		}
	}
	t.Fatalf("no claim has %q in its title", word)
	return journal.Claim{}
}

// Each fault that is planted is found, with its weight, and nothing else is.
func TestRehearsalFindsWhatIsWrong(t *testing.T) {
	change := func(set map[string]string) func(*testing.T, *journal.Journal) string {
		return func(t *testing.T, j *journal.Journal) string {
			c := claimOf(t, j, "Splicing")
			category := set["category"]
			delete(set, "category")
			if _, err := j.ClaimChange(t.Context(), c.ID, set, category); err != nil {
				t.Fatal(err)
			}
			return c.ID
		}
	}
	tests := []struct {
		fault string
		plant func(*testing.T, *journal.Journal) string // returns the claim
		want  []string
	}{
		{"nothing", func(t *testing.T, j *journal.Journal) string { return claimOf(t, j, "Splicing").ID }, nil},
		{"a claim without a document", func(t *testing.T, j *journal.Journal) string { return claimOf(t, j, "HYPERLINK").ID }, []string{"unproven grave"}},
		{"more time than the paper shows", change(map[string]string{"duration_minutes": "900"}), []string{"above-proof grave"}},
		{"less time than the paper shows", change(map[string]string{"duration_minutes": "600"}), nil},
		{"another day", change(map[string]string{"end_date": "2024-09-12"}), []string{"other-than-read grave"}},
		{"a day outside the cycle", change(map[string]string{"start_date": "2023-09-10", "end_date": "2023-09-11"}),
			[]string{"other-than-read grave", "other-than-read grave", "outside-cycle grave"}},
		{"another title", change(map[string]string{"title": "Rope splicing"}), []string{"other-than-read doubt"}},
		{"another category", change(map[string]string{"category": "teaching"}), []string{"wrong-kind grave"}},
		{"too many hours in a day", func(t *testing.T, j *journal.Journal) string {
			for range 2 {
				_, err := j.ClaimAdd(t.Context(), journal.ClaimOptions{Category: "course", Set: map[string]string{
					"title": "Night course", "provider": "A", "kind": "attendance", "end_date": "2026-03-03", "duration_minutes": "780"}})
				if err != nil {
					t.Fatal(err)
				}
			}
			claims, err := j.Claims(t.Context(), journal.ClaimsFilter{On: on})
			if err != nil {
				t.Fatal(err)
			}
			return claims[len(claims)-1].ID
		}, []string{"claimed-twice grave", "long-day grave", "unproven grave"}},
		{"a proof altered in the store", func(t *testing.T, j *journal.Journal) string {
			c := claimOf(t, j, "Splicing")
			path, err := j.Catalog().Store().Path(c.Proofs[0].SHA256)
			if err != nil {
				t.Fatal(err)
			}
			path = filepath.Join(j.Catalog().Dir(), "evidence", path)
			if err := os.Chmod(path, 0o600); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(path, []byte("%PDF-1.4"), 0o600); err != nil {
				t.Fatal(err)
			}
			return c.ID
		}, []string{"evidence grave"}},
	}
	for _, tt := range tests {
		t.Run(tt.fault, func(t *testing.T) {
			j := vault(t)
			claim := tt.plant(t, j)
			r := rehearse(t, j)
			if got := of(r, claim); !slices.Equal(got, tt.want) {
				t.Errorf("%s: found %q, want %q", claim, got, tt.want)
			}
			for _, c := range []string{"C1", "C2", "C3"} {
				if got := of(r, c); c != claim && len(got) > 0 {
					t.Errorf("%s, where nothing was planted: %q", c, got)
				}
			}
			weak := slices.ContainsFunc(tt.want, func(s string) bool { return strings.HasSuffix(s, "grave") })
			if slices.Contains(r.Weak, claim) != weak {
				t.Errorf("weak claims %v, want %s in it: %v", r.Weak, claim, weak)
			}
		})
	}
}

// A holder who has another name than the papers is told how far apart they are.
func TestRehearsalOfAnotherName(t *testing.T) {
	for holder, weight := range map[string]string{"Mirela Tanhof": audit.Doubt, "Jorun Askeland": audit.Grave} {
		j := vaultOf(t, holder)
		for _, p := range []string{"P1", "P2", "P3"} {
			if _, err := j.Confirm(t.Context(), []string{p}, journal.ConfirmOptions{Set: map[string]string{"attendee": "Mirela Tannhof"}}); err != nil {
				t.Log(err) // the message of an e-mail is no paper that can be confirmed
			}
		}
		r := rehearse(t, j)
		n := 0
		for _, w := range r.Findings {
			if w.What == audit.WeakName {
				n++
				if w.Weight != weight || !strings.Contains(w.Why, "Mirela Tannhof") {
					t.Errorf("%s: %+v", holder, w)
				}
			}
		}
		if n == 0 {
			t.Errorf("%s: no finding about the name", holder)
		}
	}
}

// What would be left without the weak claims is what the rules give for the others.
func TestIfWeakClaimsFall(t *testing.T) {
	j := vault(t)
	r := rehearse(t, j)
	if len(r.Weak) != 1 {
		t.Fatalf("weak: %v, want one", r.Weak)
	}
	if _, err := j.ClaimWithdraw(t.Context(), r.Weak[0], "no certificate"); err != nil {
		t.Fatal(err)
	}
	if after := rehearse(t, j); after.Now != r.IfWeakFall && !after.Now.Counted.Equal(r.IfWeakFall.Counted) {
		t.Errorf("without it %+v, foretold %+v", after.Now, r.IfWeakFall)
	}
	if r.IfWeakFall.Counted.Equal(r.Now.Counted) {
		t.Error("the weak claim counts nothing, so the test shows nothing")
	}
}

// The chance is worked out anew by drawing every sample there is.
func TestChanceCountsEverySample(t *testing.T) {
	for n := 1; n <= 9; n++ {
		for w := 0; w <= n; w++ {
			for k := 0; k <= n; k++ {
				hit, all := int64(0), int64(0)
				for set := range 1 << n {
					size, weak := 0, false
					for i := range n {
						if set>>i&1 == 1 {
							size++
							weak = weak || i < w
						}
					}
					if size == k {
						all++
						if weak {
							hit++
						}
					}
				}
				if got := audit.Chance(n, w, k); got.Cmp(big.NewRat(hit, all)) != 0 {
					t.Errorf("Chance(%d, %d, %d) = %v, want %d/%d", n, w, k, got, hit, all)
				}
			}
		}
	}
}

// The same figures by another language's exact numbers, for sizes that cannot be
// drawn one by one.
func TestChanceAgreesWithNode(t *testing.T) {
	script := `const C = (n, k) => { if (k > n) return 0n; let c = 1n; for (let i = 0n; i < k; i++) c = c * (n - i) / (i + 1n); return c };
const gcd = (a, b) => b ? gcd(b, a % b) : a;
for (const [n, w, k] of [[200n, 7n, 20n], [52n, 4n, 5n], [1000n, 13n, 50n], [60n, 60n, 1n]]) {
  const all = C(n, k), hit = all - C(n - w, k), g = gcd(hit, all);
  console.log(hit / g + (all / g === 1n ? "" : "/" + all / g)) }`
	out, err := exec.Command("node", "-e", script).Output()
	if err != nil {
		t.Fatal(err)
	}
	want := strings.Fields(string(out))
	for i, c := range [][3]int{{200, 7, 20}, {52, 4, 5}, {1000, 13, 50}, {60, 60, 1}} {
		if got := audit.Chance(c[0], c[1], c[2]).RatString(); got != want[i] {
			t.Errorf("Chance%v = %s, want %s", c, got, want[i])
		}
	}
}
