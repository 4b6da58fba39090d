package web

import (
	"context"
	"net/http"
	"slices"
	"strings"

	"evidencevault/journal"
)

// tie finds the receipt that was made of a paper, the activities that it may be the cost
// of (those that the journal proposes first), and the letter that asks for the
// certificate that it lacks.
func (s *Server) tie(ctx context.Context, p *paperPage) error {
	if p.PaperDetail.Receipt == "" {
		return nil
	}
	list, err := s.o.Journal.Receipts(ctx)
	if err != nil {
		return err
	}
	i := slices.IndexFunc(list, func(r journal.Receipt) bool { return r.ID == p.PaperDetail.Receipt })
	if i < 0 {
		return nil // it was taken back in the meantime
	}
	p.Tie = &list[i]
	p.CostOf = p.Tie.CostOf
	if p.Tie.State != journal.ReceiptOpen {
		return nil
	}
	for k, m := range slices.Backward(p.Tie.Proposal) {
		at := slices.IndexFunc(p.Activities, func(c choice) bool { return c.Value == m.Activity })
		if at < 0 {
			continue
		}
		c := p.Activities[at]
		c.Why = strings.Join(m.Why, ", ")
		p.Activities = slices.Insert(slices.Delete(p.Activities, at, at+1), 0, c)
		if k == 0 {
			p.CostOf = c.Value
		}
	}
	p.Letter, err = s.o.Journal.Letter(ctx, p.Tie.ID)
	return err
}

// tieReceipt makes a receipt the cost of an activity, or of none.
func (s *Server) tieReceipt(w http.ResponseWriter, r *http.Request) {
	id := r.PathValue("id")
	done, err := s.o.Journal.Tie(r.Context(), id, r.PostForm.Get("cost_of"))
	if err != nil {
		s.fail(w, r, err)
		return
	}
	t := wordsFor(r)
	text := t.T("done.tied", done.ID, done.CostOf)
	if done.CostOf == "" {
		text = t.T("done.untied", done.ID)
	}
	s.then(w, r, "/paper/"+done.Paper, note{Text: text, Undo: done.ID})
}
