package web

import (
	"net/http"
	"slices"
	"strings"

	"evidencevault/journal"
)

// readyPage lists what confirming everything clear would do.
type readyPage struct {
	Confirm, Receipts, SetAside []workLine
	Left                        int
}

func (s *Server) ready(w http.ResponseWriter, r *http.Request) {
	plan, err := s.o.Journal.ConfirmClear(r.Context(), "")
	if err != nil {
		s.fail(w, r, err)
		return
	}
	body := readyPage{Left: len(plan.Left)}
	for _, l := range []struct {
		into *[]workLine
		from []journal.WaitingPaper
	}{{&body.Confirm, plan.Confirm}, {&body.Receipts, plan.Receipts}, {&body.SetAside, plan.SetAside}} {
		for _, p := range l.from {
			*l.into = append(*l.into, s.paperLine(p))
		}
	}
	s.show(w, r, http.StatusOK, screenReady, wordsFor(r).T("ready.title"), body)
}

// confirmReady confirms those that were listed, and no paper that came since.
func (s *Server) confirmReady(w http.ResponseWriter, r *http.Request) {
	plan, err := s.o.Journal.ConfirmClear(r.Context(), "")
	if err != nil {
		s.fail(w, r, err)
		return
	}
	listed := map[string]bool{}
	for _, id := range r.PostForm["paper"] {
		listed[id] = true
	}
	only := func(list []journal.WaitingPaper) []journal.WaitingPaper {
		var kept []journal.WaitingPaper
		for _, p := range list {
			if listed[p.ID] {
				kept = append(kept, p)
			}
		}
		return kept
	}
	plan.Confirm, plan.Receipts, plan.SetAside = only(plan.Confirm), only(plan.Receipts), only(plan.SetAside)
	done, err := s.o.Journal.DoClear(r.Context(), plan, "")
	if err != nil {
		s.fail(w, r, err)
		return
	}
	var did []string
	for _, p := range slices.Concat(plan.Confirm, plan.Receipts, plan.SetAside) {
		if !slices.ContainsFunc(done.Warnings, func(w journal.Warning) bool { return w.Paper == p.ID }) {
			did = append(did, p.ID)
		}
	}
	t := wordsFor(r)
	var parts []string
	for _, part := range []struct {
		key string
		n   int
	}{{"done.claims", len(done.Claims)}, {"done.receipts", len(done.Receipts)}, {"done.setaside", len(done.SetAside)}} {
		if part.n > 0 {
			parts = append(parts, t.N(part.key, part.n))
		}
	}
	text := strings.Join(parts, ", ") + "."
	if len(parts) == 0 {
		text = t.T("done.nothing")
	}
	for _, warning := range done.Warnings {
		text += " " + t.Say(warning.Text)
	}
	if len(done.Claims) > 0 {
		text += " " + s.stands(r, "")
	}
	s.then(w, r, "/", note{Text: text, Undo: strings.Join(did, " ")})
}
