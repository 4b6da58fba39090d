package journal

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// ErrReference says that a text is no reference, or one of the wrong kind.
var ErrReference = errors.New("not a reference")

// Kinds of things that a reference can name, by the letter people see.
const (
	PaperRef    = 'P'
	ActivityRef = 'A'
	ClaimRef    = 'C'
	ReceiptRef  = 'R'
	LetterRef   = 'L'
)

// A Ref names a paper, an activity, a claim, a receipt or an audit letter: by its letter and running
// number as people see it, or by the UUID it has inside. The zero Ref names nothing.
type Ref struct {
	Kind   rune   // PaperRef, ActivityRef, ClaimRef, ReceiptRef or LetterRef; 0 with an ID
	Number int    // counted from 1; 0 with an ID
	ID     string // the UUID, lower case; "" with a Number
}

// String prints "P12", or the UUID.
func (r Ref) String() string {
	if r.ID != "" {
		return r.ID
	}
	return string(r.Kind) + strconv.Itoa(r.Number)
}

// mostInRange bounds one range, so that P1-P999999999 is a slip and no list.
const mostInRange = 100_000

var (
	shortRef = regexp.MustCompile(`^([PpAaCcRrLl])([1-9][0-9]{0,8})$`)
	rangeRef = regexp.MustCompile(`^([PpAaCcRrLl])([1-9][0-9]{0,8})-([PpAaCcRrLl]?)([1-9][0-9]{0,8})$`)
	longRef  = regexp.MustCompile(`^[0-9a-fA-F]{8}(-[0-9a-fA-F]{4}){3}-[0-9a-fA-F]{12}$`)
)

// ParseRef reads one reference: P12, A7, C9, R3, or a UUID. The error wraps
// [ErrReference].
func ParseRef(text string) (Ref, error) {
	if m := shortRef.FindStringSubmatch(text); m != nil {
		n, err := strconv.Atoi(m[2])
		if err != nil {
			return Ref{}, fmt.Errorf("%q: %w: %v", text, ErrReference, err)
		}
		return Ref{Kind: kindOf(m[1]), Number: n}, nil
	}
	if longRef.MatchString(text) {
		return Ref{ID: strings.ToLower(text)}, nil
	}
	return Ref{}, fmt.Errorf("%q: %w: want P12 (a paper), A7 (an activity), C9 (a claim), R3 (a receipt), L2 (an audit letter), or a UUID", text, ErrReference)
}

// ParseRefs reads a list of references as given on a command line: single ones,
// ranges ("P5-P9" or "P5-9") and several in one text, parted by blanks or commas.
// Each is returned once, in the order of its first mention. The error wraps
// [ErrReference].
func ParseRefs(texts ...string) ([]Ref, error) {
	var list []Ref
	seen := map[Ref]bool{}
	for _, text := range texts {
		for word := range strings.FieldsFuncSeq(text, func(r rune) bool { return r == ',' || r == ' ' || r == '\t' || r == '\n' }) {
			refs, err := parseRange(word)
			if err != nil {
				return nil, err
			}
			for _, ref := range refs {
				if !seen[ref] {
					seen[ref] = true
					list = append(list, ref)
				}
			}
		}
	}
	if len(list) == 0 {
		return nil, fmt.Errorf("%w: none given: want P12, a list such as P3 P5-P9, or a UUID", ErrReference)
	}
	return list, nil
}

func parseRange(word string) ([]Ref, error) {
	m := rangeRef.FindStringSubmatch(word)
	if m == nil {
		ref, err := ParseRef(word)
		return []Ref{ref}, err
	}
	if m[3] != "" && kindOf(m[1]) != kindOf(m[3]) {
		return nil, fmt.Errorf("%q: %w: a range names one kind, as in P5-P9", word, ErrReference)
	}
	from, err := strconv.Atoi(m[2])
	if err != nil {
		return nil, fmt.Errorf("%q: %w: %v", word, ErrReference, err)
	}
	to, err := strconv.Atoi(m[4])
	if err != nil {
		return nil, fmt.Errorf("%q: %w: %v", word, ErrReference, err)
	}
	if to < from {
		return nil, fmt.Errorf("%q: %w: the range runs backwards; write %s%d-%s%d", word, ErrReference, strings.ToUpper(m[1]), to, strings.ToUpper(m[1]), from)
	}
	if to-from >= mostInRange {
		return nil, fmt.Errorf("%q: %w: a range of more than %d", word, ErrReference, mostInRange)
	}
	refs := make([]Ref, 0, to-from+1)
	for n := from; n <= to; n++ {
		refs = append(refs, Ref{Kind: kindOf(m[1]), Number: n})
	}
	return refs, nil
}

func kindOf(letter string) rune { return rune(strings.ToUpper(letter)[0]) }

func kindName(kind rune) string {
	switch kind {
	case PaperRef:
		return "paper"
	case ActivityRef:
		return "activity"
	case ClaimRef:
		return "claim"
	case ReceiptRef:
		return "receipt"
	case LetterRef:
		return "letter"
	}
	return "thing"
}
