package journal

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"evidencevault/catalog"
)

// named is a thing of the vault that a reference resolved to.
type named struct {
	letter catalog.Letter
	id     string // UUID
	text   string // as it was given
}

// resolve reads a list of references and finds what each names. Only kinds among
// letters are taken. The error wraps [ErrReference] or [ErrUnknown].
func resolve(ctx context.Context, v *catalog.View, refs []string, letters ...catalog.Letter) ([]named, error) {
	parsed, err := ParseRefs(refs...)
	if err != nil {
		return nil, err
	}
	var list []named
	for _, ref := range parsed {
		letter, id, err := v.Resolve(ctx, ref.String())
		if errors.Is(err, catalog.ErrUnknown) {
			return nil, fmt.Errorf("%s: %w; see what there is with %s", ref, catalog.ErrUnknown, listVerb(ref.Kind))
		}
		if err != nil {
			return nil, err
		}
		if !slices.Contains(letters, letter) {
			return nil, fmt.Errorf("%s: %w: it is %s, and this takes %s", ref, ErrReference, article(letter), wanted(letters))
		}
		if !slices.ContainsFunc(list, func(n named) bool { return n.id == id }) {
			list = append(list, named{letter, id, ref.String()})
		}
	}
	return list, nil
}

func resolveOne(ctx context.Context, v *catalog.View, ref string, letters ...catalog.Letter) (named, error) {
	list, err := resolve(ctx, v, []string{ref}, letters...)
	if err != nil {
		return named{}, err
	}
	if len(list) != 1 {
		return named{}, fmt.Errorf("%q: %w: want one, not %d", ref, ErrReference, len(list))
	}
	return list[0], nil
}

func listVerb(kind rune) string {
	switch kind {
	case ClaimRef, ActivityRef:
		return "claims"
	case ReceiptRef:
		return "receipts"
	case LetterRef:
		return "letters"
	}
	return "waiting"
}

func article(l catalog.Letter) string {
	name := kindName(rune(l[0]))
	if l == catalog.LetterActivity {
		return "an " + name
	}
	return "a " + name
}

func wanted(letters []catalog.Letter) string {
	text := article(letters[0])
	for _, l := range letters[1:] {
		text += " or " + article(l)
	}
	return text
}
