package journal

import (
	"context"
	"fmt"
	"strings"
	"sync"
	"time"

	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/credit/scheme"
)

// Journal is an open vault, as a person works with it. It may be used by several
// goroutines.
type Journal struct {
	cat *catalog.Catalog
	now func() time.Time

	mu      sync.Mutex
	schemes map[string]credit.Scheme // by SHA-256 of their bytes, which never change
}

// Open opens the vault in dir. The errors are those of [catalog.Open]; a vault that
// cannot be written to opens all the same, and each act then says why.
func Open(ctx context.Context, dir string, o Options) (*Journal, error) {
	cat, err := catalog.Open(ctx, dir, catalog.Options{Now: o.Now, ReadOnly: o.ReadOnly})
	if err != nil {
		return nil, err
	}
	return Of(cat, o), nil
}

// Of returns the journal of a vault that is open already, as the daemon and the page
// have it. Closing the journal closes the catalog.
func Of(cat *catalog.Catalog, o Options) *Journal {
	now := o.Now
	if now == nil {
		now = time.Now
	}
	return &Journal{cat: cat, now: now, schemes: map[string]credit.Scheme{}}
}

// Close gives everything back. A second call does nothing.
func (j *Journal) Close() error { return j.cat.Close() }

// Catalog returns the catalog beneath, for those who hand files to it or write an
// index.
func (j *Journal) Catalog() *catalog.Catalog { return j.cat }

// Today returns the local date of the journal's clock.
func (j *Journal) Today() credit.Date { return credit.DateOf(j.now()) }

// orToday returns on, or today if it is no day.
func (j *Journal) orToday(on credit.Date) credit.Date {
	if on.IsZero() {
		return j.Today()
	}
	return on
}

// Scheme returns the rules that a cycle runs under, read from the bytes kept in the
// vault, so that file and line can be quoted for ever.
func (j *Journal) Scheme(ctx context.Context, v *catalog.View, sha256 string) (credit.Scheme, error) {
	j.mu.Lock()
	defer j.mu.Unlock()
	if s, ok := j.schemes[sha256]; ok {
		return s, nil
	}
	data, err := j.cat.SchemeBytes(sha256)
	if err != nil {
		return credit.Scheme{}, err
	}
	kept, err := v.Schemes(ctx)
	if err != nil {
		return credit.Scheme{}, err
	}
	name := sha256 + ".toml"
	for _, k := range kept {
		if k.SHA256 == sha256 && k.File != "" {
			name = k.File
		}
	}
	s, problems := scheme.Parse(name, data)
	if len(problems) > 0 {
		return credit.Scheme{}, fmt.Errorf("scheme %s, kept as %s: %s", name, sha256, problems[0])
	}
	j.schemes[sha256] = s
	return s, nil
}

// Certified is one certification with its present cycle and the rules it runs under.
type Certified struct {
	catalog.Certification
	Cycle  catalog.Cycle
	Scheme credit.Scheme
	Facts  credit.Facts // on the day asked for
}

// Certified returns the certification of this short name or UUID on a day; "" is the
// only one that the vault has, the zero Date today. The error wraps
// [ErrCertification] or [ErrUnknown].
func (j *Journal) Certified(ctx context.Context, name string, on credit.Date) (Certified, error) {
	return j.certified(ctx, &j.cat.View, name, on)
}

func (j *Journal) certified(ctx context.Context, v *catalog.View, name string, on credit.Date) (Certified, error) {
	all, err := j.allCertified(ctx, v, on)
	if err != nil {
		return Certified{}, err
	}
	names := make([]string, len(all))
	for i, c := range all {
		if names[i] = c.Name; c.Name == name || c.ID == name {
			return c, nil
		}
	}
	switch {
	case name == "" && len(all) == 1:
		return all[0], nil
	case name == "" && len(all) > 1:
		return Certified{}, fmt.Errorf("%w: the vault has %s; choose one with --certification", ErrCertification, strings.Join(names, ", "))
	case len(all) == 0:
		return Certified{}, fmt.Errorf("%w: the vault has none; add one with certification add", ErrCertification)
	}
	return Certified{}, fmt.Errorf("certification %q: %w: want one of %s", name, ErrUnknown, strings.Join(names, ", "))
}

// AllCertified returns every certification on a day, in the order in which they were
// added; the zero Date is today.
func (j *Journal) AllCertified(ctx context.Context, on credit.Date) ([]Certified, error) {
	return j.allCertified(ctx, &j.cat.View, on)
}

func (j *Journal) allCertified(ctx context.Context, v *catalog.View, on credit.Date) ([]Certified, error) {
	certs, err := v.Certifications(ctx)
	if err != nil {
		return nil, err
	}
	facts, err := v.Facts(ctx)
	if err != nil {
		return nil, err
	}
	out := make([]Certified, 0, len(certs))
	for _, cert := range certs {
		cycles, err := v.Cycles(ctx, cert.ID)
		if err != nil {
			return nil, err
		}
		if len(cycles) == 0 {
			return nil, fmt.Errorf("certification %s: %w: it has no cycle", cert.Name, ErrCertification)
		}
		c := Certified{Certification: cert, Cycle: present(cycles)}
		if c.Scheme, err = j.Scheme(ctx, v, c.Cycle.Scheme); err != nil {
			return nil, err
		}
		c.Facts = factsOn(facts, j.orToday(on), cert, c.Cycle)
		out = append(out, c)
	}
	return out, nil
}

// present returns the earliest cycle that is still open, else the last one.
func present(cycles []catalog.Cycle) catalog.Cycle {
	for _, c := range cycles {
		if !c.Closed {
			return c
		}
	}
	return cycles[len(cycles)-1]
}

// factsOn returns what holds on a day: of each name the latest value that has begun.
// The certification's number and the cycle's ends are facts too, unless stated.
func factsOn(list []catalog.Fact, on credit.Date, cert catalog.Certification, cycle catalog.Cycle) credit.Facts {
	facts := credit.Facts{"start": cycle.Start.String(), "end": cycle.End.String()}
	if cert.Number != "" {
		facts["number"] = cert.Number
	}
	since := map[string]credit.Date{}
	for _, f := range list {
		if f.From.After(on) || f.From.Before(since[f.Name]) {
			continue
		}
		facts[f.Name], since[f.Name] = f.Value, f.From
	}
	return facts
}

// holderNames returns the holder's name, then former ones.
func holderNames(ctx context.Context, v *catalog.View) ([]string, error) {
	h, err := v.Holder(ctx)
	if err != nil {
		return nil, err
	}
	if h.Name == "" {
		return h.Former, nil
	}
	return append([]string{h.Name}, h.Former...), nil
}
