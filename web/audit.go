package web

import (
	"cmp"
	"net/http"
	"regexp"
	"slices"

	"evidencevault/audit"
	"evidencevault/credit"
	"evidencevault/journal"
)

// auditPage is the rehearsal of each certification.
type auditPage struct{ Rehearsals []rehearsalPart }

type rehearsalPart struct {
	audit.Rehearsal
	Grave, Doubts []findingPart
	Letters       []journal.AuditLetter
	Sample, Seed  string // to be drawn; "" at first
}

// findingPart is a finding with the place on the page that mends it.
type findingPart struct {
	audit.Weakness
	To string // below the page's address
	By string // mend.NAME says what is done there

	More []findingPart // the same said of further claims
}

// gathered puts findings that say the same of several claims together, where the first
// of them stands.
func gathered(list []findingPart) []findingPart {
	var out []findingPart
	for _, f := range list {
		i := slices.IndexFunc(out, func(o findingPart) bool { return o.What == f.What && o.Why == f.Why && o.By == f.By })
		if i < 0 {
			out = append(out, f)
			continue
		}
		out[i].More = append(out[i].More, f)
		out[i].AtStake = out[i].AtStake.Add(f.AtStake)
	}
	for i, f := range out {
		all := append([]findingPart{f}, f.More...)
		all[0].More = nil
		slices.SortFunc(all, func(a, b findingPart) int {
			return cmp.Or(cmp.Compare(len(a.Claim), len(b.Claim)), cmp.Compare(a.Claim, b.Claim))
		})
		out[i], out[i].More = all[0], all[1:]
		out[i].AtStake = f.AtStake // of all of them
	}
	return out
}

// Claims is how many claims the finding is about.
func (f findingPart) Claims() int { return 1 + len(f.More) }

// askedField is the field that the way out of a finding names.
var askedField = regexp.MustCompile(`--set ([a-z_]+)=`)

// mending finds the place that mends a finding: a field of the claim, its withdrawal, a
// further proof, or the claim as it is.
func mending(f audit.Weakness) findingPart {
	p := findingPart{Weakness: f, To: "/claim/" + f.Claim, By: "look"}
	switch f.What {
	case audit.WeakUnproven, audit.WeakKind, audit.WeakPerson, audit.WeakShared:
		p.To, p.By = p.To+"?mend=proof#m-proof", "proof"
	case audit.WeakTwice, audit.WeakScan:
		p.To, p.By = p.To+"?mend=withdraw#m-withdraw", "withdraw"
	case audit.WeakOutside:
		p.To, p.By = p.To+"?mend=end_date#f-end_date", "field"
	case audit.WeakAbove, audit.WeakOther, audit.WeakLog, audit.WeakHoldsMore, audit.WeakSignature, audit.WeakProvider:
		p.By = "field"
		field := "category"
		if m := askedField.FindStringSubmatch(f.Mend); m != nil {
			field = m[1]
		}
		p.To += "?mend=" + field + "#f-" + field
	}
	return p
}

func (s *Server) audit(w http.ResponseWriter, r *http.Request) {
	about, err := s.o.Journal.About(r.Context())
	if err != nil {
		s.fail(w, r, err)
		return
	}
	letters, err := s.o.Journal.Letters(r.Context())
	if err != nil {
		s.fail(w, r, err)
		return
	}
	var body auditPage
	for _, name := range certifications(about) {
		found, err := audit.Rehearse(r.Context(), s.o.Journal, name, credit.Date{})
		if err != nil {
			s.fail(w, r, err)
			return
		}
		p := rehearsalPart{Rehearsal: found, Letters: lettersOf(letters, name)}
		for _, f := range found.Findings {
			if f.Weight == audit.Grave {
				p.Grave = append(p.Grave, mending(f))
			} else {
				p.Doubts = append(p.Doubts, mending(f))
			}
		}
		p.Grave, p.Doubts = gathered(p.Grave), gathered(p.Doubts)
		body.Rehearsals = append(body.Rehearsals, p)
	}
	s.show(w, r, http.StatusOK, screenAudit, wordsFor(r).T("audit.title"), body)
}
