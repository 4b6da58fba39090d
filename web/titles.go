package web

import (
	"context"
	"sync"

	"evidencevault/credit"
)

// titles are the words for what has a short name in the vault: certifications, and the
// categories of their rules.
type titles struct{ certifications, categories map[string]string }

// titlesOf looks them up when the first is asked for. What cannot be looked up keeps its
// short name; what is wrong then is said by the screen itself.
func (s *Server) titlesOf(ctx context.Context) func() titles {
	return sync.OnceValue(func() titles {
		t := titles{map[string]string{}, map[string]string{}}
		list, err := s.o.Journal.AllCertified(ctx, credit.Date{})
		if err != nil {
			return t
		}
		for _, c := range list {
			t.certifications[c.Name] = c.Title
			for _, k := range c.Scheme.Categories {
				t.categories[c.Name+" "+k.ID] = orID(k)
			}
		}
		return t
	})
}

// Category is the title of a category of a certification's rules.
func (sc screen) Category(certification, id string) string {
	if t := sc.titles().categories[certification+" "+id]; t != "" {
		return t
	}
	return id
}

// Certified is the title of a certification.
func (sc screen) Certified(name string) string {
	if t := sc.titles().certifications[name]; t != "" {
		return t
	}
	return name
}
