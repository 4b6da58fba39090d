// Package sieve tells in one pass over a text whether a regular expression could match
// anywhere in it. Most patterns match almost nowhere, and to find that out by the expression
// itself costs a hundred times as much.
package sieve

import (
	"math/bits"
	"strings"
)

// Sieve holds the strings of which one stands in everything that an expression matches.
// The zero value and nil know of none and let every text pass.
type Sieve struct {
	length  int // bytes by which a needle is looked up: 1 to 3
	shift   int // what a hash is shifted right by to be one of the marks
	marks   []uint64
	needles map[uint32][]string
}

// A needle sets the mark that its first bytes hash to. There are so many marks for each needle, so
// that hardly any other bytes hit one, and no more, so that those of many sieves stay near at hand.
const marksEach = 32

// New returns the sieve for a regular expression in the syntax of [regexp].
// Of an expression that needs no string, or that has an error, it lets every text pass.
func New(expr string) *Sieve {
	needles := needed(expr)
	if len(needles) == 0 {
		return nil
	}
	size := max(6, bits.Len(uint(marksEach*len(needles)))) // the marks are 2 to the power of it
	s := &Sieve{length: 3, shift: 32 - size, marks: make([]uint64, 1<<size/64), needles: make(map[uint32][]string, len(needles))}
	for _, n := range needles {
		s.length = min(s.length, len(n))
	}
	for _, n := range needles {
		var gram uint32
		for i := range s.length {
			gram = gram<<8 | uint32(n[i])
		}
		s.needles[gram] = append(s.needles[gram], n)
		at := s.slot(gram)
		s.marks[at/64] |= 1 << (at % 64)
	}
	return s
}

func (s *Sieve) slot(gram uint32) uint32 { return gram * 0x9E3779B1 >> s.shift }

// May reports whether the expression could match in a text. False is certain.
func (s *Sieve) May(text string) bool {
	if s == nil || s.length == 0 {
		return true
	}
	mask := uint32(1)<<(8*s.length) - 1
	var gram uint32
	for i := range len(text) {
		c := lower[text[i]]
		if c >= 0x80 && foldsToASCII(text[i:]) {
			return true
		}
		gram = gram<<8&mask | uint32(c)
		if i < s.length-1 {
			continue
		}
		if at := s.slot(gram); s.marks[at/64]&(1<<(at%64)) != 0 && s.begins(gram, text[i-s.length+1:]) {
			return true
		}
	}
	return false
}

// begins reports that a text begins with a needle of these first bytes.
func (s *Sieve) begins(gram uint32, text string) bool {
	for _, n := range s.needles[gram] {
		if hasPrefix(text, n) {
			return true
		}
	}
	return false
}

// hasPrefix is [strings.HasPrefix] of the text in small letters, as far as they are ASCII.
func hasPrefix(text, needle string) bool {
	if len(text) < len(needle) {
		return false
	}
	for i := range len(needle) {
		if lower[text[i]] != needle[i] {
			return false
		}
	}
	return true
}

// foldsToASCII reports that a text begins with one of the two letters outside ASCII that an
// expression without regard to case takes for one inside: the long s and the sign of kelvin.
func foldsToASCII(text string) bool {
	return strings.HasPrefix(text, "\u017f") || strings.HasPrefix(text, "\u212a")
}

var lower = func() (table [256]byte) {
	for i := range table {
		table[i] = byte(i)
		if 'A' <= i && i <= 'Z' {
			table[i] += 'a' - 'A'
		}
	}
	return table
}()
