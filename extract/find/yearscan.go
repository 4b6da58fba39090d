package find

import (
	"strings"
	"time"
)

// The years that a paper may name. Anything else of four figures is a time or a number.
const firstYear, lastYear = 1900, 2100

// mendedAt reads a month's name with one letter wrong, as a scan gives it ("Marcn");
// who asks must find a day and a year with it.
func (s *scan) mendedAt(i int) (time.Month, int) {
	k := s.at(i)
	if k.kind != word || len(k.s) < 5 || monthNames[k.s] > 0 {
		return 0, i
	}
	found := 0
	for name, n := range monthNames {
		if len(name) == len(k.s) && oneWrong(name, k.s) {
			if found > 0 && found != n {
				return 0, i
			}
			found = n
		}
	}
	if found == 0 {
		return 0, i
	}
	return time.Month(found), i + 1
}

// oneWrong reports whether a and b, of the same length, differ in one letter.
func oneWrong(a, b string) bool {
	n := 0
	for i := range len(a) {
		if a[i] != b[i] {
			n++
		}
	}
	return n == 1
}

// fullYear reports whether token i is a year of four figures.
func (s *scan) fullYear(i int) bool {
	k := s.at(i)
	return k.kind == digit && len(k.s) == 4 && k.n >= firstYear && k.n <= lastYear
}

// yearAfter reads the year behind a day and month that stand with sep between
// them. It returns 0 and i when there is none.
func (s *scan) yearAfter(i int, sep string) (year, next int, short bool) {
	j := i
	for n := 0; n < 2 && (s.is(j, ",") || s.is(j, ".")); n++ {
		j++
	}
	if (sep == "-" || sep == "/" || sep == ".") && (s.is(j, sep) || s.is(j, "-") || s.is(j, "/")) {
		j++
	} else {
		if s.is(j, "/") || s.is(j, "-") && !s.at(j).spaced && s.fullYear(j+1) && !s.at(j+1).spaced {
			j++
		}
		for n := 0; n < 5 && (s.oneOf(j, ofWords) || s.is(j, "'") && n > 0 || s.is(j, "annee") || s.is(j, "ano") || s.is(j, "year")); n++ {
			j++
		}
	}
	if s.fullYear(j) {
		if c := s.at(j + 1); (c.s == ":" || c.s == ".") && !c.spaced && s.at(j+2).kind == digit && !s.at(j+2).spaced && c.s == ":" {
			return 0, i, false
		}
		return s.at(j).n, j + 1, false
	}
	if s.is(j, "'") && len(s.at(j+1).s) == 2 && s.at(j+1).kind == digit && !s.at(j+1).spaced {
		return century(s.at(j + 1).n), j + 2, true
	}
	if k := s.at(j); k.kind == digit && len(k.s) == 2 && s.shortYear(j, sep) {
		return century(k.n), j + 1, true
	}
	if s.at(j).kind == word {
		if y, after := s.yearWords(j); after > j {
			return y, after, false
		}
	}
	return 0, i, false
}

// shortYear reports whether two figures at j can only be a year: joined by the
// same sign as day and month, or the last thing of its clause.
func (s *scan) shortYear(j int, sep string) bool {
	if sep != " " {
		return s.is(j-1, sep) && !s.at(j).spaced && !s.clockFollows(j)
	}
	n := s.at(j + 1)
	if s.is(j-1, ",") || s.is(j-1, "-") || s.is(j-1, "/") {
		return false
	}
	return n.kind == end || (n.s == "," || n.s == ";" || n.s == ")" || n.s == ".") && s.at(j+2).kind != digit
}

// century places two figures in 1970 to 2069.
func century(n int) int {
	if n >= 70 {
		return 1900 + n
	}
	return 2000 + n
}

// yearWords reads "tweeduizend achttien", "nineteen ninety nine".
func (s *scan) yearWords(i int) (int, int) {
	n, next := s.cardinalAt(i)
	if next > i && n >= firstYear && n <= lastYear {
		return n, next
	}
	if s.is(i, "nineteen") || s.is(i, "twenty") {
		head := cardinals[s.at(i).s]
		if m, after := s.cardinalAt(i + 1); after > i+1 && m >= 10 && m < 100 {
			return head*100 + m, after
		}
	}
	return 0, i
}

var romans = map[string]int{"I": 1, "II": 2, "III": 3, "IV": 4, "V": 5, "VI": 6, "VII": 7, "VIII": 8, "IX": 9, "X": 10, "XI": 11, "XII": 12}

// romanAt reads a month in Roman figures; only a year of four figures after it makes it one.
func (s *scan) romanAt(i int) (time.Month, int) {
	m := romans[s.at(i).raw]
	j := i + 1
	if s.is(j, ".") || s.is(j, "/") || s.is(j, "-") {
		j++
	}
	if m == 0 || !s.fullYear(j) {
		return 0, i
	}
	return time.Month(m), i + 1
}

const ordinalData = `
1 first premier premiere primero primer ersten erste eerste
2 second zweiten zweite tweede
3 third dritten dritte derde
4 fourth vierten vierde
5 fifth funften vijfde
6 sixth sechsten zesde
7 seventh siebten zevende
8 eighth achten achtste
9 ninth neunten negende
10 tenth zehnten tiende
11 eleventh
12 twelfth
13 thirteenth
14 fourteenth
15 fifteenth
16 sixteenth
17 seventeenth
18 eighteenth
19 nineteenth
20 twentieth
30 thirtieth
`

var ordinalWords = numbered(ordinalData)

// namedDay reads a day of the month in words, where a month and its year follow:
// "vingt-trois mars 2026", "diez de noviembre de dos mil veinticinco",
// "dreiundzwanzigsten März 2026".
func (s *scan) namedDay(i int) (int, int) {
	n, j := cardinals[s.at(i).s], i+1
	if n == 0 {
		n = ofOrdinal(s.at(i).s)
	}
	if s.is(i, "once") {
		n = 11 // in Spanish; in English no month with its year follows it
	}
	k := j
	if s.is(k, "-") || s.is(k, "et") || s.is(k, "y") {
		k++
	}
	if unit := cardinals[s.at(k).s]; n >= 20 && n%10 == 0 && s.at(k).kind == word && unit > 0 && unit < 10 {
		n, j = n+unit, k+1
	}
	if n < 2 || n > 31 {
		return 0, i
	}
	m := s.inFigures(n, i, j)
	for s.oneOf(m, ofWords) || s.oneOf(m, dayWords) || s.oneOf(m, monthWords) {
		m++
	}
	_, after := s.monthAt(m)
	if after == m {
		return 0, i
	}
	if year, _, short := s.yearAfter(after, " "); year == 0 || short {
		return 0, i
	}
	return n, j
}

// ofOrdinal returns the number of a German or Dutch ordinal in one word, 0 if w is none.
func ofOrdinal(w string) int {
	for _, end := range []string{"sten", "ster", "ste", "ten", "ter", "te", "de"} {
		if stem, ok := strings.CutSuffix(w, end); ok && cardinals[stem] > 0 {
			return cardinals[stem]
		}
	}
	return 0
}

// ordinalAt reads "first", "twenty-fourth", "premier".
func (s *scan) ordinalAt(i int) (int, int) {
	if n, ok := ordinalWords[s.at(i).s]; ok {
		return n, i + 1
	}
	tens := cardinals[s.at(i).s]
	if tens != 20 && tens != 30 {
		return 0, i
	}
	j := i + 1
	if s.is(j, "-") {
		j++
	}
	if n := ordinalWords[s.at(j).s]; n > 0 && n < 10 {
		return tens + n, j + 1
	}
	return 0, i
}
