package journal

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"evidencevault/catalog"
)

// SetAside keeps papers but says that they prove nothing, and why. All are looked at
// first; each is one act, so that each can be undone by itself. It returns their short
// numbers, each once. The error is a [*StateError] when one is neither unread nor waiting.
func (j *Journal) SetAside(ctx context.Context, ids []string, why string) ([]string, error) {
	why = strings.Join(strings.Fields(why), " ")
	if why == "" {
		return nil, fmt.Errorf("%w: the reason is missing; give --why TEXT", ErrField)
	}
	var papers []named
	refs := []string{}
	err := j.cat.Read(ctx, func(v *catalog.View) (err error) {
		if papers, err = resolve(ctx, v, ids, catalog.LetterPaper); err != nil {
			return err
		}
		for _, n := range papers {
			p, err := j.undecided(ctx, v, n.id)
			if err != nil {
				return err
			}
			refs = append(refs, p.Ref())
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	for i, p := range papers {
		if err := j.setAside(ctx, p, why); err != nil {
			if i > 0 {
				err = fmt.Errorf("%w; set aside before that: %s", err, strings.Join(refs[:i], " "))
			}
			return refs[:i], err
		}
	}
	return refs, nil
}

func (j *Journal) setAside(ctx context.Context, n named, why string) error {
	return j.cat.Act(ctx, func(tx *catalog.Tx) error {
		if _, err := j.undecided(ctx, &tx.View, n.id); err != nil {
			return err
		}
		return record(ctx, tx, &catalog.PaperSetAside{Paper: n.id, Why: why})
	})
}

// undecided returns a paper of which nothing is decided, no row either.
func (j *Journal) undecided(ctx context.Context, v *catalog.View, id string) (plan, error) {
	p, err := j.toDecide(ctx, v, id)
	if err != nil {
		return plan{}, err
	}
	for _, state := range p.Rows {
		if state == catalog.Confirmed {
			return plan{}, &StateError{Paper: p.Ref(), State: "confirmed in part", Want: "confirm or leave out its other rows, or take back what was done with undo " + p.Ref()}
		}
	}
	return p, nil
}

// Cut retires a paper and makes new ones, unread, one for each page range, as in
// "1-2,3". The ranges cover each page of the paper once. It returns the new papers'
// UUIDs, which the caller hands to package intake to be read, and their short numbers.
// The error wraps [ErrPages] or [ErrNotWaiting].
func (j *Journal) Cut(ctx context.Context, id, ranges string) ([]NewPaper, error) {
	spans, err := parsePages(ranges)
	if err != nil {
		return nil, err
	}
	var into []NewPaper
	err = j.cat.Act(ctx, func(tx *catalog.Tx) error {
		into = nil
		n, err := resolveOne(ctx, &tx.View, id, catalog.LetterPaper)
		if err != nil {
			return err
		}
		p, err := j.undecided(ctx, &tx.View, n.id)
		if err != nil {
			return err
		}
		if err := covers1(p.Paper, spans); err != nil {
			return err
		}
		made := make([]catalog.NewPaper, len(spans))
		number, err := tx.Next(ctx, catalog.LetterPaper)
		if err != nil {
			return err
		}
		for i, s := range spans {
			made[i] = catalog.NewPaper{ID: catalog.NewID(), Number: number + i, From: s.Start, To: s.End, Part: p.Part}
			into = append(into, newPaper(made[i]))
		}
		return record(ctx, tx, &catalog.PaperCut{Paper: p.ID, Into: made})
	})
	return into, err
}

// NewPaper is a paper that a cut or a join made, unread.
type NewPaper struct {
	ID    string `json:"id"`   // P13
	UUID  string `json:"uuid"` // for package intake
	Pages [2]int `json:"pages"`
}

func newPaper(p catalog.NewPaper) NewPaper {
	return NewPaper{ID: catalog.Paper{Number: p.Number}.Ref(), UUID: p.ID, Pages: [2]int{p.From, p.To}}
}

// Join retires two papers that lie side by side in one evidence and makes one, unread,
// of their pages; the caller hands it to package intake to be read. The error wraps
// [ErrPages] or [ErrNotWaiting].
func (j *Journal) Join(ctx context.Context, first, second string) (NewPaper, error) {
	var into NewPaper
	err := j.cat.Act(ctx, func(tx *catalog.Tx) error {
		names, err := resolve(ctx, &tx.View, []string{first, second}, catalog.LetterPaper)
		if err != nil {
			return err
		}
		if len(names) != 2 {
			return fmt.Errorf("join %s %s: %w: it takes two different papers", first, second, ErrReference)
		}
		papers := make([]plan, 2)
		for i, n := range names {
			if papers[i], err = j.undecided(ctx, &tx.View, n.id); err != nil {
				return err
			}
		}
		if papers[1].From < papers[0].From {
			slices.Reverse(papers)
		}
		a, b := papers[0].Paper, papers[1].Paper
		switch {
		case a.SHA256 != b.SHA256 || a.Part != b.Part:
			return fmt.Errorf("join %s %s: %w: they are of different files; use attach to let a second file prove the same activity", a.Ref(), b.Ref(), ErrPages)
		case a.From == 0 || a.To+1 != b.From:
			return fmt.Errorf("join %s %s: %w: their pages %s and %s do not lie side by side", a.Ref(), b.Ref(), ErrPages, pagesText(a), pagesText(b))
		}
		number, err := tx.Next(ctx, catalog.LetterPaper)
		if err != nil {
			return err
		}
		made := catalog.NewPaper{ID: catalog.NewID(), Number: number, From: a.From, To: b.To, Part: a.Part}
		into = newPaper(made)
		return record(ctx, tx, &catalog.PapersJoined{Papers: []string{a.ID, b.ID}, Into: made})
	})
	return into, err
}

func pagesText(p catalog.Paper) string {
	if p.From == 0 {
		return "(not known yet)"
	}
	if p.From == p.To {
		return strconv.Itoa(p.From)
	}
	return fmt.Sprintf("%d-%d", p.From, p.To)
}

// pageSpan is a range of pages, both included.
type pageSpan struct{ Start, End int }

// parsePages reads "1-2,3". The error wraps [ErrPages].
func parsePages(text string) ([]pageSpan, error) {
	var list []pageSpan
	for part := range strings.SplitSeq(text, ",") {
		from, to, isRange := strings.Cut(strings.TrimSpace(part), "-")
		if !isRange {
			to = from
		}
		a, errA := strconv.ParseUint(from, 10, 24)
		b, errB := strconv.ParseUint(to, 10, 24)
		if errA != nil || errB != nil || a < 1 || b < a {
			return nil, fmt.Errorf("pages %q: %w: want ranges such as 1-2,3", text, ErrPages)
		}
		list = append(list, pageSpan{int(a), int(b)})
	}
	if len(list) < 2 {
		return nil, fmt.Errorf("pages %q: %w: want two ranges or more, such as 1-2,3", text, ErrPages)
	}
	return list, nil
}

// covers1 checks that spans hold each page of the paper once, and no other.
func covers1(p catalog.Paper, spans []pageSpan) error {
	if p.From == 0 {
		return fmt.Errorf("%s: %w: its pages are not known; read it first", p.Ref(), ErrPages)
	}
	slices.SortFunc(spans, func(a, b pageSpan) int { return a.Start - b.Start })
	next := p.From
	for _, s := range spans {
		if s.Start != next {
			return fmt.Errorf("%s: %w: page %d is in none of the ranges or in two; they must hold each of its pages %s once", p.Ref(), ErrPages, min(next, s.Start), pagesText(p))
		}
		next = s.End + 1
	}
	if next != p.To+1 {
		return fmt.Errorf("%s: %w: the ranges end at page %d, and it has pages %s", p.Ref(), ErrPages, next-1, pagesText(p))
	}
	return nil
}

// closingError says that a cycle's closing was begun, so that nothing in it can change.
func closingError(what string, cycle catalog.Cycle) error {
	return fmt.Errorf("%s: %w: the closing of %v to %v was begun; finish it with close --resume, or take it back with close --undo", what, ErrClosed, cycle.Start, cycle.End)
}

// openCycle refuses an act on claims of a closed cycle, or of one that is being closed.
func openCycle(ctx context.Context, v *catalog.View, claims ...catalog.Claim) error {
	if len(claims) == 0 {
		return nil
	}
	cycles, err := v.Cycles(ctx, "")
	if err != nil {
		return err
	}
	for _, c := range claims {
		for _, cycle := range cycles {
			if cycle.ID == c.Cycle && cycle.Closed {
				return fmt.Errorf("%s: %w: %v to %v; a closed cycle is corrected by a note, with close --note TEXT --cycle %v", c.Ref(), ErrClosed, cycle.Start, cycle.End, cycle.End)
			}
			if cycle.ID == c.Cycle && cycle.Closing {
				return closingError(c.Ref(), cycle)
			}
		}
	}
	return nil
}
