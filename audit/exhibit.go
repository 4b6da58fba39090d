package audit

import (
	"slices"

	"evidencevault/extract/paper"
)

// exhibit is one original in a binder.
type exhibit struct {
	Original
	number  int      // counted from 1
	claims  []string // that it proves
	marks   []mark
	links   map[int]int // by page of the original
	pages   int         // that the original has
	printed []int       // pages that are in the binder
	first   int         // page of the binder on which it begins
}

// mark is a place that proves something.
type mark struct {
	page   int
	box    paper.Points // of the page as displayed
	labels []string
}

// exhibitsOf numbers the originals of a dossier in their order.
func (d Dossier) exhibitsOf() ([]*exhibit, map[string]*exhibit) {
	list, byCopy := make([]*exhibit, len(d.Originals)), map[string]*exhibit{}
	for i, o := range d.Originals {
		list[i] = &exhibit{Original: o, number: i + 1, links: map[int]int{}}
		byCopy[o.Copy] = list[i]
	}
	for _, e := range d.Claims {
		for _, p := range e.Proofs {
			x := byCopy[p.Copy]
			if !slices.Contains(x.claims, e.ID) {
				x.claims = append(x.claims, e.ID)
			}
			if p.Box != nil {
				x.mark(p, e.ID)
			}
		}
	}
	return list, byCopy
}

func (x *exhibit) mark(p Proof, claim string) {
	label := claim + " " + p.Field
	for i := range x.marks {
		if m := &x.marks[i]; m.page == p.Page && m.box == *p.Box {
			m.labels = append(m.labels, label)
			return
		}
	}
	x.marks = append(x.marks, mark{page: p.Page, box: *p.Box, labels: []string{label}})
}

// linkTo returns the link to a page of the exhibit, which is set when that is printed.
func (x *exhibit) linkTo(p *press, page int) int {
	if x.links[page] == 0 {
		x.links[page] = p.AddLink()
	}
	return x.links[page]
}
