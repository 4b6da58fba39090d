package find

import (
	"strings"

	"evidencevault/credit"
)

var multipliers = map[string]int64{"k": 1e3, "thousand": 1e3, "tausend": 1e3, "mille": 1e3, "mil": 1e3, "duizend": 1e3, "million": 1e6, "millions": 1e6, "millionen": 1e6, "mio": 1e6, "miljoen": 1e6, "millones": 1e6, "milliard": 1e9, "milliards": 1e9, "milliarden": 1e9, "billion": 1e9, "miljard": 1e9, "mrd": 1e9, "lakh": 1e5, "lakhs": 1e5, "crore": 1e7, "crores": 1e7}

var centWords = set("cent cents c centime centimes centimo centimos centavo centavos pence pennies p penny rappen sen sens ore")

// figures is a number of money as it stands.
type figures struct {
	value    string // decimal with a point
	next     int
	decimals bool
}

// sumAt reads figures with thousands marks and decimals at token i: "1,234.50",
// "1.234,50", "1'250.00", "1 260,00", "24,-".
func (s *scan) sumAt(i int) (figures, bool) {
	k := s.at(i)
	if k.kind != digit || len(k.s) > 15 {
		return figures{}, false
	}
	groups, seps, j := []string{k.s}, "", i+1
	for len(groups) < 7 {
		sep, g := s.at(j), s.at(j+1)
		if (sep.s == "." || sep.s == "," || sep.s == "'") && !sep.spaced && g.kind == digit && !g.spaced {
			groups, seps, j = append(groups, g.s), seps+sep.s, j+2
			continue
		}
		if sep.kind == digit && sep.spaced && len(sep.s) == 3 && len(groups[len(groups)-1]) <= 3 && strings.Trim(seps, " ") == "" && groups[0] != "0" && s.oneSpace(j) {
			groups, seps, j = append(groups, sep.s), seps+" ", j+1
			continue
		}
		break
	}
	f, ok := decimal(groups, seps)
	f.next = j
	if sep := s.at(j); ok && !f.decimals && (sep.s == "," || sep.s == ".") && !sep.spaced && s.is(j+1, "-") && !s.at(j+1).spaced {
		f.next, f.decimals = j+2, true // "24,-"
		if s.is(j+2, "-") {
			f.next++
		}
	}
	return f, ok
}

// oneSpace reports whether exactly one space stands before token i, so that the
// columns of a table are not run together.
func (s *scan) oneSpace(i int) bool {
	gap := s.text[s.at(i-1).To:s.at(i).From]
	return len([]rune(gap)) == 1 && gap != "\n" && gap != "\t"
}

// decimal settles which mark is the decimal one. Three figures behind a single mark are
// thousands, unless a nought stands before it.
func decimal(groups []string, seps string) (figures, bool) {
	n := len(groups)
	if n == 1 {
		return figures{value: groups[0]}, true
	}
	last := seps[len(seps)-1]
	point := last != '\'' && last != ' ' && strings.Count(seps, string(last)) == 1
	if point && n == 2 && len(groups[1]) == 3 && groups[0] != "0" && len(groups[0]) <= 3 {
		point = false
	}
	whole, frac := groups, ""
	if point {
		whole, frac = groups[:n-1], groups[n-1]
		if strings.ContainsRune(seps[:len(seps)-1], rune(last)) || len(frac) > 4 {
			return figures{}, false
		}
		seps = seps[:len(seps)-1]
	}
	for i, g := range whole[1:] {
		if len(g) != 3 && !(len(g) == 2 && i+2 < len(whole)) || seps[i] != seps[0] {
			return figures{}, false
		}
	}
	if len(whole) > 1 && len(whole[0]) > 3 {
		return figures{}, false
	}
	v := strings.TrimLeft(strings.Join(whole, ""), "0")
	if v == "" {
		v = "0"
	}
	if frac != "" {
		v += "." + frac
	}
	return figures{value: v, decimals: frac != ""}, true
}

// amountAt reads a sum of money at token i.
func (s *scan) amountAt(i int) (Amount, int, bool) {
	j, minus := i, false
	if s.is(j, "-") && (!s.at(j + 1).spaced) && (s.at(j).spaced || s.at(i-1).kind == mark) {
		j, minus = j+1, true
	}
	if a, next, ok := s.signFirst(i, j, minus); ok {
		return a, next, true
	}
	if !s.cleanBefore(j) {
		return Amount{}, i, false
	}
	f, ok := s.sumAt(j)
	if !ok {
		q, okq := s.quantityAt(j)
		if !okq || !q.words {
			return Amount{}, i, false
		}
		f = figures{value: q.value.String(), next: q.next}
	}
	f = s.multiply(f)
	k := f.next
	if s.is(k, "-") && !s.at(k).spaced && s.at(k+1).kind != word {
		k, minus = k+1, true // "150.00-"
	}
	c, next, ok := s.currencyAt(k)
	if !ok || s.otherWord(j, k) || s.belongsBehind(k, next, f) {
		return Amount{}, i, false
	}
	if more, after, ok := s.currencyAt(next); ok && c.family == "$" && more.code != "" && !s.at(next).spaced {
		c, next = more, after
	}
	if _, ok := multipliers[s.at(next).s]; ok && s.at(next).kind == word && f.next == k && !minus && len(s.at(next).s) > 2 {
		f.next = next // "75 USD million"
		f = s.multiply(f)
		return s.amount(f, c, minus, i, f.next), f.next, true
	}
	f, next = s.cents(f, next)
	return s.amount(f, c, minus, i, next), next, true
}

// belongsBehind reports whether the currency in tokens k to next stands before a
// sum of its own: "1 £480.00", "Jan 20 EUR 518.40".
func (s *scan) belongsBehind(k, next int, f figures) bool {
	n := s.at(next)
	if n.kind != digit || s.at(k).kind == word && currencyWords[s.at(k).s] != "" && s.at(k).s != "kr" && s.at(k).s != "rs" && !codes[s.at(k).s] {
		return false
	}
	g, ok := s.sumAt(next)
	return ok && (!n.spaced && s.at(k).spaced || g.decimals && !f.decimals || g.decimals && !n.spaced)
}

// otherWord reports whether the currency at token k is rather an everyday word
// behind a number without decimals: "2 mark", "3 real".
func (s *scan) otherWord(j, k int) bool {
	switch s.at(k).s {
	case "mark", "real", "won", "ft", "pond", "dm", "quid", "sterling":
		return s.at(k).raw == s.at(k).s && s.at(k).s != "sterling" && !s.at(j).spaced || s.is(k, "real") || s.is(k, "mark") && s.at(k).raw == "mark" || s.is(k, "ft") && s.at(k).raw != "Ft"
	}
	return false
}

// signFirst reads "$1,195", "EUR 518,40", "-£48.00", "£-48".
func (s *scan) signFirst(i, j int, minus bool) (Amount, int, bool) {
	if p := s.at(j - 1); s.at(j).kind == word && !s.at(j).spaced && (p.kind == digit || p.kind == word) {
		return Amount{}, i, false
	}
	c, k, ok := s.currencyAt(j)
	if !ok || s.at(j).kind == word && (c.code == "DEM" && s.at(j).raw != "DEM" || s.is(j, "real") || s.is(j, "won")) {
		return Amount{}, i, false
	}
	if s.is(k, "-") && s.at(k+1).kind == digit && !s.at(k+1).spaced {
		k, minus = k+1, true
	}
	if s.is(k, ":") && s.at(j).kind == mark || s.is(k, ".") && s.at(k).spaced {
		k++
	}
	f, ok := s.sumAt(k)
	if !ok {
		return Amount{}, i, false
	}
	f = s.multiply(f)
	next := f.next
	if s.is(next, "-") && !s.at(next).spaced && f.decimals && s.at(next+1).kind != digit && s.at(next+1).kind != word && !s.is(next+1, "$") && !s.is(next+1, "£") && !s.is(next+1, "€") {
		next, minus = next+1, true
	}
	if more, after, ok := s.currencyAt(next); ok && (c.family == "$" && (strings.HasSuffix(more.code, "D") || more.code == "MXN") || more.code == c.code && more.code != "") && s.at(after).kind != digit {
		c, next = more, after
	}
	if more, after, ok := s.currencyAt(next); ok && c.code != "" && more.code == "" && more.family == "$" {
		_, next = more, after
	}
	f, next = s.cents(f, next)
	return s.amount(f, c, minus, i, next), next, true
}

// multiply reads "k", "million" behind figures.
func (s *scan) multiply(f figures) figures {
	m, ok := multipliers[s.at(f.next).s]
	if !ok || s.at(f.next).kind != word {
		return f
	}
	v, err := credit.ParseAmount(f.value)
	if err != nil {
		return f
	}
	f.value = v.Mul(credit.Whole(m)).String()
	f.next++
	if (s.is(f.next, "de") || s.is(f.next, "d") || s.is(f.next, ".")) && !s.is(f.next, "d") {
		f.next++
	}
	return f
}

// cents reads "43 cents", "and five cents", and "50" of "5 euro 50".
func (s *scan) cents(f figures, i int) (figures, int) {
	if f.decimals || strings.Contains(f.value, ".") {
		return f, i
	}
	j := i
	if s.oneOf(j, andWords) || s.is(j, "con") || s.is(j, "mit") {
		j++
	}
	q, ok := s.quantityAt(j)
	if !ok || !q.value.Rat().IsInt() || q.value.Cmp(credit.Whole(100)) >= 0 || q.value.Sign() <= 0 {
		return f, i
	}
	v, err := credit.ParseAmount(f.value)
	if err != nil {
		return f, i
	}
	next := q.next
	if s.oneOf(next, centWords) {
		next++
	} else if !(s.at(i-1).kind == word && len(q.text) == 2 && j == i && (s.at(next).kind == end || s.is(next, ".") && s.at(next+1).kind == end)) {
		return f, i
	}
	f.value = v.Add(q.value.Div(credit.Whole(100))).String()
	f.decimals = true
	return f, next
}

var refundWords = set("refund refunded refunds erstattung erstattet ruckerstattung gutschrift remboursement rembourse avoir reembolso devolucion terugbetaling restitutie creditnota storno")

func (s *scan) amount(f figures, c currency, minus bool, i, next int) Amount {
	a := Amount{Value: f.value, Currency: c.code, Family: c.family, Sign: c.sign, Span: s.span(i, next)}
	a.Candidates = append(a.Candidates, families[c.family]...)
	p := s.at(i - 2)
	if s.is(i-1, "(") && s.is(next, ")") && p.kind != word {
		minus = true
	}
	a.Negative = minus
	if minus && strings.Trim(a.Value, "0.") != "" {
		a.Value = "-" + a.Value
	}
	for j := i - 1; j >= i-5 && j >= 0; j-- {
		if k := s.at(j); k.s == ";" || k.s == "." && s.at(j+1).spaced {
			break
		} else if k.kind == word && refundWords[k.s] {
			a.Refund = true
		}
	}
	return a
}

// Amounts finds sums of money that name their currency, in order and without
// overlap. A bare number is none; see [Figure].
func Amounts(text string, l Languages) []Amount {
	s := newScan(text, l)
	var found []Amount
	for i := 0; i < len(s.list); {
		a, next, ok := s.amountAt(i)
		if !ok || next <= i {
			i++
			continue
		}
		found = append(found, a)
		i = next
	}
	return found
}

// Figure reads a text that holds one sum without its currency, as the field of a
// column of prices does; false when it holds none or several.
func Figure(text string) (Amount, bool) {
	s := &scan{tokens: cut(text)}
	var got Amount
	n := 0
	for i := 0; i < len(s.list); i++ {
		if s.at(i).kind != digit {
			continue
		}
		f, ok := s.sumAt(i)
		if !ok {
			return Amount{}, false
		}
		from, minus := i, s.is(i-1, "-") && !s.at(i).spaced || s.is(i-1, "(") && s.is(f.next, ")")
		got = s.amount(f, currency{}, minus, from, f.next)
		n++
		i = f.next - 1
	}
	return got, n == 1
}
