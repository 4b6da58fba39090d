package audit

import (
	"cmp"
	"crypto/sha256"
	"errors"
	"fmt"
	"slices"
	"strings"

	"evidencevault/extract/paper"
)

// ErrNoClaim says that a claim was asked for that the certification does not have.
var ErrNoClaim = errors.New("no such claim in this certification's cycle")

// Only returns the dossier with these claims, and with what proves them and nothing
// else. The figures stay those of the whole cycle. One that was left out as unproven
// before, as from the archive of a closed cycle, stays named so. The error wraps [ErrNoClaim].
func (d Dossier) Only(ids []string) (Dossier, error) {
	asked := Asked{Of: max(len(d.Claims), d.Asked.Of)}
	for _, id := range ids {
		if slices.Contains(d.Asked.LeftOut, id) {
			if !slices.Contains(asked.LeftOut, id) {
				asked.LeftOut = append(asked.LeftOut, id)
			}
			continue
		}
		if !slices.ContainsFunc(d.Claims, func(e Entry) bool { return e.ID == id }) {
			return Dossier{}, fmt.Errorf("claim %s: %w", id, ErrNoClaim)
		}
		if !slices.Contains(asked.Claims, id) {
			asked.Claims = append(asked.Claims, id)
		}
	}
	d.Asked = asked
	return d.keep(func(e Entry) bool { return slices.Contains(ids, e.ID) }), nil
}

// WithoutUnproven returns the dossier without the claims that have no proof. They are
// named in Asked.LeftOut.
func (d Dossier) WithoutUnproven() Dossier {
	d.Asked.LeftOut = slices.Clone(d.Asked.LeftOut)
	for _, e := range d.Claims {
		if !e.Proven {
			d.Asked.LeftOut = append(d.Asked.LeftOut, e.ID)
		}
	}
	return d.keep(func(e Entry) bool { return e.Proven })
}

// ErrField says that a field cannot be left out.
var ErrField = errors.New("cannot be left out")

// counts are the fields on which every figure rests.
var counts = []paper.Field{paper.FieldKind, paper.FieldTitle, paper.FieldStart, paper.FieldEnd, paper.FieldDuration, paper.FieldCredits, paper.FieldCategory}

// Without returns the dossier without what it says of these fields, which nobody asked
// for: their proofs, what would be asked about them, and originals that then prove
// nothing. "number" is the number that the body gave the holder. The originals stay as
// they came, whatever they show. The fields are named in Asked.Without. The error wraps
// [ErrField] for one on which the count rests, or that no claim shows.
func (d Dossier) Without(fields []string) (Dossier, error) {
	claims := slices.Clone(d.Claims)
	for _, f := range fields {
		if slices.Contains(counts, paper.Field(f)) {
			return Dossier{}, fmt.Errorf("%s: %w: the count rests on it", f, ErrField)
		}
		found := f == "number" && d.Number != ""
		for i, e := range claims {
			proofs := slices.DeleteFunc(slices.Clone(e.Proofs), func(p Proof) bool { return p.Field == f })
			found = found || len(proofs) < len(e.Proofs)
			claims[i].Proofs = proofs
			if f == string(paper.FieldProvider) {
				claims[i].Provider = ""
			}
		}
		if !found {
			return Dossier{}, fmt.Errorf("%s: %w: no claim shows it", f, ErrField)
		}
		if f == "number" {
			d.Number = ""
		}
	}
	d.Claims, d.Asked.Without = claims, append(slices.Clone(d.Asked.Without), fields...)
	d = d.keep(func(Entry) bool { return true })
	d.Exceptions = slices.DeleteFunc(d.Exceptions, func(x Exception) bool { return slices.Contains(fields, x.Field) })
	return d, nil
}

// keep leaves out the other claims, what is said of them, and the originals that then
// prove nothing.
func (d Dossier) keep(which func(Entry) bool) Dossier {
	copies, ids := map[string]bool{}, map[string]bool{}
	claims := []Entry{}
	for _, e := range d.Claims {
		if !which(e) {
			continue
		}
		claims = append(claims, e)
		ids[e.ID] = true
		for _, p := range e.Proofs {
			copies[p.Copy] = true
		}
	}
	d.Claims = claims
	d.Originals = slices.DeleteFunc(slices.Clone(d.Originals), func(o Original) bool { return !copies[o.Copy] })
	d.Exceptions = slices.DeleteFunc(slices.Clone(d.Exceptions), func(x Exception) bool { return x.Claim != "" && !ids[x.Claim] })
	return d
}

// String says in words what was asked.
func (a Asked) String() string {
	left := ""
	if n := len(a.LeftOut); n > 0 {
		left = fmt.Sprintf("; left out as unproven: %s", strings.Join(a.LeftOut, " "))
	}
	if len(a.Without) > 0 {
		left += fmt.Sprintf("; not shown, since not asked for: %s", strings.Join(a.Without, ", "))
	}
	if a.Letter != "" {
		left = ", asked for by the " + a.Letter + left
	}
	switch {
	case a.All && a.Of == 1:
		return "the only claim" + left
	case a.All:
		return fmt.Sprintf("all %d claims", a.Of) + left
	case a.Seed != "":
		return fmt.Sprintf("%d of %d claims, drawn with the seed %q: %s", len(a.Claims), a.Of, a.Seed, strings.Join(a.Claims, " ")) + left
	}
	return fmt.Sprintf("%d of %d claims: %s", len(a.Claims), a.Of, strings.Join(a.Claims, " ")) + left
}

// Draw draws n of the ids, so that anyone can draw the same again: the ids are put in
// the order of the SHA-256 of the seed, a line end and the id, and the first n are
// taken. They come back in the order in which they were given. All are taken when there
// are no more than n.
func Draw(ids []string, n int, seed string) []string {
	key := func(id string) string {
		sum := sha256.Sum256([]byte(seed + "\n" + id))
		return string(sum[:])
	}
	order := slices.Clone(ids)
	slices.SortFunc(order, func(a, b string) int { return cmp.Compare(key(a), key(b)) })
	order = order[:max(0, min(n, len(order)))]
	return slices.DeleteFunc(slices.Clone(ids), func(id string) bool { return !slices.Contains(order, id) })
}

// Sample returns the dossier with n of its claims, drawn with the seed as [Draw] does.
func (d Dossier) Sample(n int, seed string) (Dossier, error) {
	ids := make([]string, len(d.Claims))
	for i, e := range d.Claims {
		ids[i] = e.ID
	}
	drawn, err := d.Only(Draw(ids, n, seed))
	drawn.Asked.Seed = seed
	return drawn, err
}
