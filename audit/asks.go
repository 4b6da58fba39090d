package audit

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"evidencevault/extract/paper"
	"evidencevault/journal"
)

// wording quotes what the body says that proves an activity of a category, with its
// source; "" when the scheme does not quote it.
func (r *rehearsing) wording(before, category string) string {
	c, _ := r.grounds.Certification.Scheme.Category(category)
	if c.Proof == "" {
		return ""
	}
	return fmt.Sprintf("%sthe body asks for “%s” (%s)", before, c.Proof, cmp.Or(c.Source, fmt.Sprintf("%s, line %d", c.File, c.Line)))
}

// otherCategory names the categories that take the claim's papers, as a command.
func (r *rehearsing) otherCategory(c journal.Ground) string {
	var names []string
	for _, p := range c.Papers {
		for _, k := range r.grounds.Certification.Scheme.Accepting(string(p.Kind)) {
			if !slices.Contains(names, k.ID) && k.ID != c.Category {
				names = append(names, k.ID)
			}
		}
	}
	if len(names) == 0 {
		return ""
	}
	return ", or claim it where this one is taken: vaultctl claim change " + c.ID + " --category " + strings.Join(names, " or ")
}

// asked judges what an audit asks for besides what the rules count by: providers,
// signatures, the time of keeping.
func (r *rehearsing) asked(c journal.Ground) {
	category, ok := r.grounds.Certification.Scheme.Category(c.Category)
	if !ok {
		return
	}
	r.provider(c, category.Providers)
	if category.Signed && len(c.Papers) > 0 {
		r.signature(c)
	}
	for _, p := range c.Papers {
		if !p.Deleted {
			continue
		}
		until := "as long as the body may ask for it"
		if day := r.grounds.KeepUntil(c); !day.IsZero() {
			until = "until " + longDay(day)
		}
		r.find(Weakness{Claim: c.ID, What: WeakKeeping, Weight: Grave, Why: fmt.Sprintf("%s was deleted, and must be kept %s", p.ID, until),
			Mend: "put it into the drop folder again, or get another copy of it"})
	}
}

// provider judges whether the body accepts the provider. A name that differs in a few
// letters may be the same one.
func (r *rehearsing) provider(c journal.Ground, accepted []string) {
	if len(accepted) == 0 {
		return
	}
	given := plainText(c.Provider)
	if given == "" {
		r.find(Weakness{Claim: c.ID, What: WeakProvider, Weight: Doubt, Why: "no provider is known, and the body accepts only some",
			Mend: "give it: vaultctl claim change " + c.ID + " --set provider='…'"})
		return
	}
	nearest, distance := "", -1
	for _, name := range accepted {
		if d := lettersApart(given, plainText(name)); distance < 0 || d < distance {
			nearest, distance = name, d
		}
	}
	w := Weakness{Claim: c.ID, What: WeakProvider, Weight: Grave, Why: fmt.Sprintf("%s is none of the providers that the body accepts for %s", c.Provider, c.Category),
		Mend: "withdraw it: vaultctl claim withdraw " + c.ID + ", or ask the body to accept this provider and name it in the scheme"}
	switch {
	case distance == 0:
		return
	case distance <= 2:
		w.Weight, w.Why = Doubt, fmt.Sprintf("is %s the %s that the body accepts? The names are %s apart", c.Provider, nearest, count(distance, "letter", "letters"))
		w.Mend = "give it as the body writes it: vaultctl claim change " + c.ID + " --set " + setting(paper.FieldProvider, []string{nearest})
	}
	r.find(w)
}

// signature asks the person, who alone can see it.
func (r *rehearsing) signature(c journal.Ground) {
	var names []string
	for _, p := range c.Papers {
		names = append(names, p.ID)
	}
	w := Weakness{Claim: c.ID, What: WeakSignature, Weight: Doubt, Why: "the body wants a signature on it; nobody has said whether there is one",
		Mend: fmt.Sprintf("look at %s, then say what you see: vaultctl claim change %s --set %s=yes, or =no", strings.Join(names, " "), c.ID, journal.FieldSignature)}
	switch c.Fields[string(journal.FieldSignature)] {
	case "yes":
		return
	case "no":
		w.Weight, w.Why = Grave, "the body wants a signature on it, and you saw none"
		w.Mend = "ask the provider for a signed copy, then: vaultctl attach " + c.ID + " P…, and vaultctl claim change " + c.ID + " --set " + string(journal.FieldSignature) + "=yes"
	}
	r.find(w)
}
