package sieve

import (
	"regexp/syntax"
	"slices"
	"strings"
	"unicode/utf8"
)

// Bounds of what is kept of an expression.
const (
	mostCrossed  = 256  // strings that two parts in a row make together
	mostUnited   = 4096 // strings of all alternatives
	mostOfAClass = 16   // letters of a class
)

// known is what is known of the strings that a part of an expression matches, in small
// letters as far as they are ASCII.
type known struct {
	exact  []string // all of them; nil when they are too many
	needed []string // each holds one of these; nil when that cannot be said
}

var empty = known{exact: []string{""}}

// needed returns strings of which one stands in everything that an expression matches, none
// of them empty; none when there are no such strings.
func needed(expr string) []string {
	re, err := syntax.Parse(expr, syntax.Perl)
	if err != nil {
		return nil
	}
	k := of(re.Simplify())
	return shortest(better(k.exact, k.needed))
}

func of(re *syntax.Regexp) known {
	switch re.Op {
	case syntax.OpEmptyMatch, syntax.OpBeginLine, syntax.OpEndLine, syntax.OpBeginText, syntax.OpEndText,
		syntax.OpWordBoundary, syntax.OpNoWordBoundary:
		return empty
	case syntax.OpLiteral:
		return ofLiteral(re)
	case syntax.OpCharClass:
		return ofClass(re.Rune)
	case syntax.OpCapture:
		return of(re.Sub[0])
	case syntax.OpQuest:
		if k := of(re.Sub[0]); k.exact != nil {
			return known{exact: append([]string{""}, k.exact...)}
		}
	case syntax.OpPlus:
		k := of(re.Sub[0])
		return known{needed: better(k.exact, k.needed)}
	case syntax.OpConcat:
		return ofRow(re.Sub)
	case syntax.OpAlternate:
		return ofAlternatives(re.Sub)
	}
	return known{}
}

// ofLiteral knows a literal. A letter outside ASCII has other cases, which are not sought, and
// what is no UTF-8 in the text matches the replacement character: both end the string.
func ofLiteral(re *syntax.Regexp) known {
	var parts []string
	var part []byte
	broken := false
	for _, r := range re.Rune {
		if r == utf8.RuneError || r >= utf8.RuneSelf && re.Flags&syntax.FoldCase != 0 {
			parts, part, broken = append(parts, string(part)), nil, true
			continue
		}
		part = utf8.AppendRune(part, lowered(r))
	}
	parts = append(parts, string(part))
	if !broken {
		return known{exact: parts}
	}
	longest := slices.MaxFunc(parts, func(a, b string) int { return len(a) - len(b) })
	return known{needed: better([]string{longest}, nil)}
}

func lowered(r rune) rune {
	if 'A' <= r && r <= 'Z' {
		return r + 'a' - 'A'
	}
	return r
}

func ofClass(pairs []rune) known {
	var exact []string
	for i := 0; i+1 < len(pairs); i += 2 {
		if pairs[i+1]-pairs[i] >= mostOfAClass || len(exact) > 2*mostOfAClass {
			return known{}
		}
		for r := pairs[i]; r <= pairs[i+1]; r++ {
			if r == utf8.RuneError {
				return known{}
			}
			exact = append(exact, string(lowered(r)))
		}
	}
	slices.Sort(exact)
	if exact = slices.Compact(exact); len(exact) == 0 || len(exact) > mostOfAClass {
		return known{}
	}
	return known{exact: exact}
}

// ofRow knows parts that stand one after another.
func ofRow(parts []*syntax.Regexp) known {
	var best []string
	run, whole := empty.exact, true
	for _, p := range parts {
		k := of(p)
		if k.exact != nil && len(run)*len(k.exact) <= mostCrossed {
			run = crossed(run, k.exact)
			continue
		}
		whole = false
		best = better(best, run)
		if run = k.exact; run == nil {
			best = better(best, k.needed)
			run = empty.exact
		}
	}
	if whole {
		return known{exact: run}
	}
	return known{needed: better(best, run)}
}

func crossed(heads, tails []string) []string {
	both := make([]string, 0, len(heads)*len(tails))
	for _, h := range heads {
		for _, t := range tails {
			both = append(both, h+t)
		}
	}
	slices.Sort(both)
	return slices.Compact(both)
}

func ofAlternatives(parts []*syntax.Regexp) known {
	var exact, some []string
	whole, told := true, true
	for _, p := range parts {
		k := of(p)
		exact = append(exact, k.exact...)
		whole = whole && k.exact != nil && len(exact) <= mostUnited
		one := better(k.exact, k.needed)
		some = append(some, one...)
		told = told && one != nil && len(some) <= mostUnited
		if !whole && !told {
			return known{}
		}
	}
	if whole {
		return known{exact: exact}
	}
	return known{needed: some}
}

// better returns of two sets the one that tells more: the one whose shortest string is longer,
// or the smaller one. A set with an empty string tells nothing and is never returned.
func better(a, b []string) []string {
	la, lb := leastOf(a), leastOf(b)
	switch {
	case la == 0 && lb == 0:
		return nil
	case la > lb || la == lb && len(a) <= len(b):
		return a
	}
	return b
}

// leastOf returns the length of the shortest string in bytes; 0 when there is none.
func leastOf(set []string) int {
	if len(set) == 0 {
		return 0
	}
	return len(slices.MinFunc(set, func(a, b string) int { return len(a) - len(b) }))
}

// shortest leaves out the strings that begin with another of the set.
func shortest(set []string) []string {
	set = slices.Clone(set)
	slices.Sort(set)
	var kept []string
	for _, s := range set {
		if len(kept) == 0 || !strings.HasPrefix(s, kept[len(kept)-1]) {
			kept = append(kept, s)
		}
	}
	return kept
}
