package web

import (
	"context"
	"net/http"
	"slices"
	"strings"

	"evidencevault/credit"
	"evidencevault/journal"
)

// asProposed is the choice of a further certification that leaves the category to what is
// proposed there.
const asProposed = "*"

// furtherPart is a certification for which the activity of a paper can be claimed too.
type furtherPart struct {
	ID, Title  string
	Categories []choice
	Chosen     string // a category, asProposed, or "" for not
}

// further lists the certifications other than the one that the form is about.
func (s *Server) further(ctx context.Context, p *paperPage, filled *filledForm) error {
	if len(p.Certifications) < 2 {
		return nil
	}
	list, err := s.o.Journal.AllCertified(ctx, credit.Date{})
	if err != nil {
		return err
	}
	for i, c := range list {
		about := slices.IndexFunc(p.Certifications, func(a journal.AboutCertification) bool { return a.ID == c.Name })
		if c.Name == p.Certification || about < 0 {
			continue
		}
		part := furtherPart{ID: c.Name, Title: list[i].Title}
		for _, k := range c.Scheme.Categories {
			part.Categories = append(part.Categories, choice{Value: k.ID, Label: orID(k)})
		}
		if filled != nil {
			part.Chosen = filled.further[c.Name]
		}
		p.Further = append(p.Further, part)
	}
	return nil
}

// readFurther takes what was chosen for each further certification: "for.NAME".
func (f *filledForm) readFurther(r *http.Request) {
	f.further = map[string]string{}
	for key := range r.PostForm {
		if name, ok := strings.CutPrefix(key, "for."); ok {
			f.further[name] = r.PostForm.Get(key)
		}
	}
}

// also are the further certifications for which the activity is claimed, in the order of
// their names.
func (f *filledForm) also() []journal.ClaimFor {
	var list []journal.ClaimFor
	for name, category := range f.further {
		switch category {
		case "":
		case asProposed:
			list = append(list, journal.ClaimFor{Certification: name})
		default:
			list = append(list, journal.ClaimFor{Certification: name, Category: category})
		}
	}
	slices.SortFunc(list, func(a, b journal.ClaimFor) int { return strings.Compare(a.Certification, b.Certification) })
	return list
}
