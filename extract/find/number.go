package find

import (
	"strings"

	"evidencevault/credit"
)

// Number words of the five languages, folded. German and Dutch compounds up to
// 99 are made from their parts.
const cardinalData = `
0 zero null nul
1 one a an ein eine einer einen einem eines un une uno una een
2 two zwei zwo zweier deux dos twee
3 three drei dreier trois tres drie
4 four vier quatre cuatro
5 five funf fuenf cinq cinco vijf
6 six sechs seis zes
7 seven sieben siete zeven
8 eight acht huit ocho
9 nine neun neuf nueve negen
10 ten zehn dix diez tien
11 eleven elf onze
12 twelve zwolf zwoelf douze doce twaalf
13 thirteen dreizehn treize trece dertien
14 fourteen vierzehn quatorze catorce veertien
15 fifteen funfzehn fuenfzehn quinze quince vijftien
16 sixteen sechzehn seize dieciseis zestien
17 seventeen siebzehn diecisiete zeventien
18 eighteen achtzehn dieciocho achttien
19 nineteen neunzehn diecinueve negentien
20 twenty zwanzig vingt veinte twintig vingts
21 veintiuno veintiun veintiuna
22 veintidos
23 veintitres
24 veinticuatro
25 veinticinco
26 veintiseis
27 veintisiete
28 veintiocho
29 veintinueve
30 thirty dreissig trente treinta dertig
40 forty fourty vierzig quarante cuarenta veertig
50 fifty funfzig fuenfzig cinquante cincuenta vijftig
60 sixty sechzig soixante sesenta zestig
70 seventy siebzig septante setenta zeventig
80 eighty achtzig ochenta tachtig octante huitante
90 ninety neunzig nonante noventa negentig
100 hundred hundert cent cents cien ciento honderd einhundert
200 zweihundert doscientos tweehonderd
300 dreihundert trescientos driehonderd
400 vierhundert cuatrocientos vierhonderd
500 funfhundert quinientos vijfhonderd
600 sechshundert seiscientos zeshonderd
700 siebenhundert setecientos zevenhonderd
800 achthundert ochocientos achthonderd
900 neunhundert novecientos negenhonderd
1000 thousand tausend mille mil duizend
2000 zweitausend tweeduizend
`

var cardinals = compounds(numbered(cardinalData))

func compounds(m map[string]int) map[string]int {
	german := []string{"ein", "zwei", "drei", "vier", "funf", "sechs", "sieben", "acht", "neun"}
	dutch := []string{"een", "twee", "drie", "vier", "vijf", "zes", "zeven", "acht", "negen"}
	tens := func(names string, ones []string, join string) {
		for k, ten := range strings.Fields(names) {
			for i, one := range ones {
				m[one+join+ten] = (k+2)*10 + i + 1
			}
		}
	}
	tens("zwanzig dreissig vierzig funfzig sechzig siebzig achtzig neunzig", german, "und")
	tens("twintig dertig veertig vijftig zestig zeventig tachtig negentig", dutch, "en")
	for s, n := range map[string]string{"zweitausend": "zwei", "tweeduizend": "twee"} {
		for w, v := range m {
			if v > 9 && v < 100 && len(w) > 3 && n != "" {
				m[s+w] = 2000 + v
			}
		}
	}
	return m
}

// cardinalAt reads a whole number in words and returns the token after it; the
// token i itself when there is none.
func (t *tokens) cardinalAt(i int) (int, int) {
	total, group, last := 0, 0, i
	for j := i; j < len(t.list) && j < i+12; {
		v, ok := cardinals[t.list[j].s]
		if !ok || t.list[j].kind != word || !fits(total, group, v) {
			break
		}
		switch {
		case v == 20 && group%100 == 4:
			group += 76 // quatre-vingt
		case v == 100:
			group = max(group, 1) * 100
		case v == 1000:
			total, group = total+max(group, 1)*1000, 0
		case v >= 2000:
			total += v
		default:
			group += v
		}
		last = j + 1
		j = last
		if t.is(j, "-") && !t.at(j).spaced || t.is(j, "and") || t.is(j, "et") || t.is(j, "y") || t.is(j, "und") {
			j++
		}
		if w, ok := cardinals[t.at(j).s]; ok && w == 1 && len(t.at(j).s) <= 2 {
			break // "one and a half"
		}
	}
	return total + group, last
}

// fits reports whether a word of value v may follow what has been read.
func fits(total, group, v int) bool {
	switch {
	case group == 0:
		return total == 0 || v < 1000
	case v == 1000:
		return total == 0 && group < 1000
	case v == 100:
		return group < 10
	case v == 20 && group%100 == 4:
		return true
	case v >= 10 && v < 20:
		return group%100 == 60 || group%100 == 80 || group%100 == 0
	case v < 10:
		return group%10 == 0 && group%100 != 10 || group%100 == 10 && v >= 7
	case v < 100:
		return group%100 == 0
	case v < 1000:
		return group < 10
	}
	return false
}

// quantity is a number that counts something.
type quantity struct {
	value credit.Amount
	text  string // the decimal as read, with a point; "" for words and fractions
	next  int    // the token after it
	words bool
}

var fractionSigns = map[string][2]int64{"½": {1, 2}, "¼": {1, 4}, "¾": {3, 4}, "⅓": {1, 3}, "⅔": {2, 3}, "⅛": {1, 8}, "⅜": {3, 8}, "⅝": {5, 8}, "⅞": {7, 8}, "⅕": {1, 5}, "⅖": {2, 5}, "⅗": {3, 5}, "⅘": {4, 5}, "⅙": {1, 6}, "⅚": {5, 6}}

// halves are words for a number and a half, or part of one, that stand alone.
var halves = map[string][2]int64{
	"anderthalb": {3, 2}, "eineinhalb": {3, 2}, "zweieinhalb": {5, 2}, "dreieinhalb": {7, 2}, "viereinhalb": {9, 2}, "funfeinhalb": {11, 2},
	"sechseinhalb": {13, 2}, "eindreiviertel": {7, 4}, "zweidreiviertel": {11, 4}, "dreidreiviertel": {15, 4}, "eineinviertel": {5, 4}, "zweieinviertel": {9, 4}, "dreieinviertel": {13, 4}, "siebeneinhalb": {15, 2}, "anderthalbe": {3, 2}, "eineinhalbe": {3, 2},
	"anderhalf": {3, 2}, "anderhalve": {3, 2}, "tweeenhalve": {5, 2}, "drieenhalve": {7, 2}, "vierenhalve": {9, 2}, "tweeenhalf": {5, 2}, "tweeeneenhalf": {5, 2}, "drieenhalf": {7, 2}, "vierenhalf": {9, 2}, "vijfenhalf": {11, 2},
	"half": {1, 2}, "halbe": {1, 2}, "halben": {1, 2}, "halber": {1, 2}, "halbes": {1, 2}, "halve": {1, 2}, "demi": {1, 2}, "demie": {1, 2}, "media": {1, 2}, "medio": {1, 2},
	"dreiviertel": {3, 4}, "driekwart": {3, 4}, "viertel": {1, 4},
}

// quantityAt reads figures ("7", "7.5", "7,5", "1½", "1 1/2", "3/4") or words
// ("two and a half", "anderthalb") at token i. It returns false when there are none.
func (t *tokens) quantityAt(i int) (quantity, bool) {
	k := t.at(i)
	if f, ok := fractionSigns[k.s]; ok {
		return quantity{value: credit.Fraction(f[0], f[1]), next: i + 1}, true
	}
	if k.kind == digit {
		return t.figuresAt(i)
	}
	if k.kind != word {
		return quantity{}, false
	}
	return t.wordsAt(i)
}

func (t *tokens) figuresAt(i int) (quantity, bool) {
	k := t.at(i)
	if len(k.s) > 12 {
		return quantity{}, false
	}
	q := quantity{text: k.s, next: i + 1}
	sep, frac := t.at(i+1), t.at(i+2)
	switch {
	case (sep.s == "." || sep.s == ",") && !sep.spaced && frac.kind == digit && !frac.spaced && len(frac.s) <= 6:
		q.text, q.next = k.s+"."+frac.s, i+3
		if more := t.at(i + 3); (more.s == "." || more.s == ",") && !more.spaced && t.at(i+4).kind == digit && !t.at(i+4).spaced {
			return quantity{}, false // 3.3.2026, 1.234,50
		}
	case sep.s == "/" && !sep.spaced && frac.kind == digit && !frac.spaced && frac.n > 1 && frac.n < 10 && k.n < frac.n:
		return quantity{value: credit.Fraction(int64(k.n), int64(frac.n)), next: i + 3}, true
	case k.n >= 0 && sep.kind == mark:
		if f, ok := fractionSigns[sep.s]; ok {
			return quantity{value: credit.Whole(int64(k.n)).Add(credit.Fraction(f[0], f[1])), next: i + 2}, true
		}
	case sep.kind == digit && sep.spaced && t.is(i+2, "/") && !t.at(i+2).spaced && t.at(i+3).kind == digit && t.at(i+3).n > 1 && t.at(i+3).n < 10 && sep.n < t.at(i+3).n && k.n >= 0:
		return quantity{value: credit.Whole(int64(k.n)).Add(credit.Fraction(int64(sep.n), int64(t.at(i+3).n))), next: i + 4}, true
	}
	v, err := credit.ParseAmount(q.text)
	if err != nil {
		return quantity{}, false
	}
	q.value = v
	if add, next := t.andHalf(q.next); next > q.next && q.next == i+1 {
		q.value, q.text, q.next = q.value.Add(add), "", next
	}
	return q, true
}

func (t *tokens) wordsAt(i int) (quantity, bool) {
	if f, ok := halves[t.at(i).s]; ok {
		return quantity{value: credit.Fraction(f[0], f[1]), next: t.skipHalf(i + 1), words: true}, true
	}
	if v, next, ok := t.quartersAt(i); ok {
		return quantity{value: v, next: next, words: true}, true
	}
	n, next := t.cardinalAt(i)
	if next == i {
		return quantity{}, false
	}
	q := quantity{value: credit.Whole(int64(n)), next: next, words: true}
	if n == 1 {
		j := next // "a half", "eine halbe", "une demi"
		if t.is(j, "-") {
			j++
		}
		if f, ok := halves[t.at(j).s]; ok {
			return quantity{value: credit.Fraction(f[0], f[1]), next: t.skipHalf(j + 1), words: true}, true
		}
	}
	if t.is(next, "point") || t.is(next, "komma") || t.is(next, "virgule") || t.is(next, "coma") {
		zeros, k := int64(1), next+1
		for k < next+4 && cardinals[t.at(k).s] == 0 && t.at(k).kind == word && (t.is(k, "zero") || t.is(k, "null") || t.is(k, "nul") || t.is(k, "cero")) {
			zeros, k = zeros*10, k+1
		}
		if d, after := t.cardinalAt(k); after > k && d < 10 {
			return quantity{value: q.value.Add(credit.Fraction(int64(d), 10*zeros)), next: after, words: true}, true
		}
	}
	if add, after := t.andHalf(next); after > next {
		q.value, q.next = q.value.Add(add), after
	}
	return q, true
}

// skipHalf passes over "of an" after a part of something.
func (t *tokens) skipHalf(i int) int {
	if t.is(i, "-") && !t.at(i).spaced {
		i++
	}
	if t.is(i, "of") || t.is(i, "de") {
		i++
		if t.is(i, "an") || t.is(i, "a") {
			i++
		}
		return i
	}
	if t.is(i, "an") || t.is(i, "a") { // half an hour
		return i + 1
	}
	return i
}

// quartersAt reads "three quarters of an", "a quarter of an", "tres cuartos de".
func (t *tokens) quartersAt(i int) (credit.Amount, int, bool) {
	n, j := t.cardinalAt(i)
	if j == i {
		n = 1
	}
	if t.is(j, "-") {
		j++
	}
	if s := t.at(j).s; t.at(j).kind == word && (s == "quarter" || s == "quarters" || s == "cuarto" || s == "cuartos" || s == "quart" || s == "quarts" || s == "viertel") && n < 4 {
		return credit.Fraction(int64(n), 4), t.skipHalf(j + 1), true
	}
	return credit.Amount{}, i, false
}

// andHalf reads "and a half", "et demie", "y media", "und eine halbe", "and three
// quarters of" after a number; it returns i when there is none.
func (t *tokens) andHalf(i int) (credit.Amount, int) {
	j := i
	if !t.oneOf(j, andWords) {
		return credit.Amount{}, i
	}
	j++
	if v, next, ok := t.quartersAt(j); ok {
		return v, next
	}
	if _, next := t.cardinalAt(j); next == j+1 && len(t.at(j).s) <= 5 {
		if cardinals[t.at(j).s] == 1 {
			j = next
		}
	}
	if v, next, ok := t.quartersAt(j); ok {
		return v, next
	}
	if f, ok := halves[t.at(j).s]; ok && f == [2]int64{1, 2} {
		return credit.Fraction(1, 2), j + 1
	}
	return credit.Amount{}, i
}
