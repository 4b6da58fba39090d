package web

import (
	"context"
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"evidencevault/catalog"
	"evidencevault/journal"
)

// partPages is how many pages of a paper are shown at once.
const partPages = 40

// pagesPart is a part of a long paper's pages that one can go to.
type pagesPart struct {
	From, To int
	Shown    bool
}

// pages lists the pages that are shown: those from the part in which page at is.
func (p *paperPage) pages(at int) {
	from, to := max(1, p.Pages[0]), max(1, p.Pages[1])
	at = min(max(at, from), to)
	for first := from; first <= to; first += partPages {
		last := min(first+partPages-1, to)
		shown := at >= first && at <= last
		if to-from >= partPages {
			p.Parts = append(p.Parts, pagesPart{From: first, To: last, Shown: shown})
		}
		for n := first; shown && n <= last; n++ {
			p.PageList = append(p.PageList, pagePart{Number: n})
		}
	}
	p.PageCount = to - from + 1
}

// cutPage is all pages of a paper, small, to be cut or joined by looking.
type cutPage struct {
	ID, Name string
	State    string
	List     []pagePart
	Beside   []besidePart
	Wrong    string
}

// besidePart is a paper of the same file whose pages come right before or after.
type besidePart struct {
	ID       string
	From, To int
	Before   bool
}

// cutting shows the pages with a box at each that says "a new paper begins here".
func (s *Server) cutting(w http.ResponseWriter, r *http.Request) {
	s.showCutting(w, r, http.StatusOK, "")
}

func (s *Server) showCutting(w http.ResponseWriter, r *http.Request, status int, wrong string) {
	body, err := s.cutBody(r.Context(), r.PathValue("id"))
	if err != nil {
		s.fail(w, r, err)
		return
	}
	begins := r.Form["begin"]
	for i := range body.List {
		body.List[i].Begins = slices.Contains(begins, strconv.Itoa(body.List[i].Number))
	}
	s.showWrong(w, r, status, screenCut, body.ID+" "+wordsFor(r).T("cut.title"), wrong, body)
}

func (s *Server) cutBody(ctx context.Context, ref string) (cutPage, error) {
	d, err := s.o.Journal.Show(ctx, ref)
	if err != nil {
		return cutPage{}, err
	}
	if d.Paper == nil {
		return cutPage{}, fmt.Errorf("%s: %w: it is no paper", ref, journal.ErrReference)
	}
	p := d.Paper
	if p.State != catalog.Waiting && p.State != catalog.Unread {
		return cutPage{}, &journal.StateError{Paper: p.ID, State: p.State, Now: p.Claims, Want: "take that back first with undo " + p.ID}
	}
	body := cutPage{ID: p.ID, Name: nameOf(p.WaitingPaper), State: p.State}
	for n := max(1, p.Pages[0]); n <= max(1, p.Pages[1]); n++ {
		body.List = append(body.List, pagePart{Number: n, First: n == max(1, p.Pages[0])})
	}
	waiting, err := s.waiting(ctx, "")
	if err != nil {
		return body, err
	}
	for _, other := range waiting {
		if other.SHA256 != p.SHA256 || other.Part != p.Part || other.Pages[0] == 0 || p.Pages[0] == 0 {
			continue
		}
		if before := other.Pages[1]+1 == p.Pages[0]; before || other.Pages[0] == p.Pages[1]+1 {
			body.Beside = append(body.Beside, besidePart{other.ID, other.Pages[0], other.Pages[1], before})
		}
	}
	return body, nil
}

// ranges are the page ranges of papers that begin at these pages, as in "1-2,3".
func ranges(from, to int, begins []string) string {
	starts := []int{from}
	for _, text := range begins {
		if n, err := strconv.Atoi(text); err == nil && n > from && n <= to {
			starts = append(starts, n)
		}
	}
	slices.Sort(starts)
	starts = slices.Compact(starts)
	var list []string
	for i, first := range starts {
		last := to
		if i+1 < len(starts) {
			last = starts[i+1] - 1
		}
		if first == last {
			list = append(list, strconv.Itoa(first))
		} else {
			list = append(list, fmt.Sprintf("%d-%d", first, last))
		}
	}
	return strings.Join(list, ",")
}

// cut makes a paper of each run of pages. The pages at which a paper begins were ticked,
// or the ranges were typed.
func (s *Server) cut(w http.ResponseWriter, r *http.Request) {
	id, typed := r.PathValue("id"), strings.TrimSpace(r.PostForm.Get("pages"))
	if typed == "" {
		body, err := s.cutBody(r.Context(), id)
		if err != nil {
			s.fail(w, r, err)
			return
		}
		if len(r.PostForm["begin"]) == 0 {
			s.showCutting(w, r, http.StatusUnprocessableEntity, wordsFor(r).T("cut.nothing"))
			return
		}
		typed = ranges(body.List[0].Number, body.List[len(body.List)-1].Number, r.PostForm["begin"])
	}
	made, err := s.o.Journal.Cut(r.Context(), id, typed)
	if err != nil {
		s.showCutting(w, r, statusOf(err), s.say(r, err))
		return
	}
	s.readNew(r)
	s.then(w, r, "/paper/"+made[0].ID, note{Text: wordsFor(r).T("done.cut", id, len(made), made[0].ID, made[len(made)-1].ID), Undo: made[0].ID})
}

// join makes one paper of this one and one that lies beside it.
func (s *Server) join(w http.ResponseWriter, r *http.Request) {
	id, with := r.PathValue("id"), r.PostForm.Get("with")
	made, err := s.o.Journal.Join(r.Context(), id, with)
	if err != nil {
		s.showCutting(w, r, statusOf(err), s.say(r, err))
		return
	}
	s.readNew(r)
	s.then(w, r, "/paper/"+made.ID, note{Text: wordsFor(r).T("done.joined", id, with, made.ID), Undo: made.ID})
}

// readNew has papers read that were cut or joined. What cannot be read stays unread,
// and its own screen says why.
func (s *Server) readNew(r *http.Request) {
	if _, err := s.o.Intake.ReadPending(r.Context()); err != nil {
		s.failed(r, err)
	}
}
