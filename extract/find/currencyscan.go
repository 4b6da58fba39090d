package find

import "strings"

// families are signs and words that several currencies share, the likeliest first
// (ISO 4217, list one).
var families = map[string][]string{
	"$":  {"USD", "CAD", "AUD", "NZD", "HKD", "SGD", "MXN"},
	"kr": {"SEK", "NOK", "DKK", "ISK"},
	"¥":  {"JPY", "CNY"},
	"Rs": {"INR", "PKR", "LKR", "NPR"},
}

// codes are those of ISO 4217, without those that are words in capitals (ALL, TOP, CUP),
// and a few that the euro has replaced.
var codes = set("afn amd ang aoa awg azn bbd bdt bif bmd bnd bsd btn bwp byn bzd cdf crc cuc djf dop dzd ern etb fjd fkp gip gmd gnf gtq gyd hnl htg iqd " +
	"irr jmd kgs khr kmf kpw kyd lak lbp lrd lsl lyd mdl mga mkd mmk mnt mro mru mur mvr mwk mzn nad nio pab pgk pyg rwf sbd scr sdg sle sll " +
	"srd stn syp szl tjs tmt ttd tzs ugx uzs vef ves vuv wst xaf xcd xcg xof xpf yer zmw zwg " +
	"eur usd gbp chf cad aud nzd hkd sgd mxn sek nok dkk isk jpy cny inr pkr lkr npr pln czk huf ron bgn rsd try rub uah ils zar brl ars clp cop uyu krw twd thb myr idr php vnd aed sar kwd qar bhd omr jod egp ngn kes ghs mad tnd kzt gel dem frf esp itl nlg ats bef iep pte fim lux hrk")

// codeWords are codes that are read in small letters, too.
var codeWords = set("eur usd gbp chf cad aud nzd hkd sgd mxn sek nok dkk jpy")

// dollars are the letters that may stand before a dollar sign.
var dollars = map[string]string{"us": "USD", "u": "USD", "usd": "USD", "c": "CAD", "ca": "CAD", "can": "CAD", "cad": "CAD", "a": "AUD", "au": "AUD", "aud": "AUD", "nz": "NZD", "nzd": "NZD",
	"hk": "HKD", "hkd": "HKD", "s": "SGD", "sgd": "SGD", "r": "BRL", "mex": "MXN", "mx": "MXN", "mxn": "MXN", "nt": "TWD", "twd": "TWD"}

// currencyData names currencies and families by folded words.
const currencyData = `
EUR euro euros € eurs
$ dollar dollars dolar dolares $ bucks
GBP £ pound pounds pfund sterling sterlings livres livre libra libras pond quid
kr kr crown crowns krone kronen kroner kronor krona couronne couronnes corona coronas kroon
¥ ¥
Rs rs rupee rupees rupie rupien roupies rupias roepie
JPY yen yens yenes
CNY yuan yuans rmb renminbi
CHF franken frankens sfr schweizerfranken
PLN zloty zlotys zl zł złoty
CZK kc kč kčs
HUF forint ft
RON lei leu
RUB rubel rubles ruble rublos roubles roebel ₽
ILS shekel shekels schekel ₪ sjekel
MYR ringgit ringgits
KRW won wons wones ₩
THB baht bahts ฿
TRY ₺
BRL reais real
INR ₨ ₹
GEL ₾ lari
CRC ₡
AED dirham dirhams
SAR riyal riyals
DEM mark dm
ESP pta ptas pesetas
`

var currencyWords = replacements(currencyData)

// nations before dollars, crowns, pounds and francs tell which.
var nations = map[string]string{"us": "US", "american": "US", "amerikanische": "US", "amerikanischer": "US", "canadian": "CA", "kanadische": "CA", "kanadischer": "CA", "canadese": "CA", "canadiens": "CA", "canadienses": "CA",
	"australian": "AU", "australische": "AU", "australiens": "AU", "australianos": "AU", "swedish": "SE", "schwedische": "SE", "schwedischer": "SE", "schwedischen": "SE", "zweedse": "SE", "suedoises": "SE", "suecas": "SE",
	"danish": "DK", "danische": "DK", "danischen": "DK", "deense": "DK", "danoises": "DK", "danesas": "DK", "norwegian": "NO", "norwegische": "NO", "norwegischen": "NO", "norwegischer": "NO", "danischer": "DK", "noorse": "NO", "norvegiennes": "NO", "noruegas": "NO",
	"swiss": "CH", "schweizer": "CH", "suisses": "CH", "suizos": "CH", "zwitserse": "CH", "hongkong": "HK", "singapore": "SG", "mexican": "MX", "british": "GB", "britische": "GB", "britse": "GB", "indian": "IN", "indische": "IN",
	"japanische": "JP", "japanese": "JP", "japonais": "JP", "japoneses": "JP", "estadounidenses": "US", "americains": "US", "malaysian": "MY", "egyptian": "EG", "agyptische": "EG"}

var nationCodes = map[string]string{"US$": "USD", "CA$": "CAD", "AU$": "AUD", "HK$": "HKD", "SG$": "SGD", "MX$": "MXN", "SEkr": "SEK", "DKkr": "DKK", "NOkr": "NOK", "GBGBP": "GBP", "EGGBP": "EGP", "INRs": "INR", "JPJPY": "JPY", "MYMYR": "MYR"}

// currency is a code, or a family of them.
type currency struct {
	code, family string
	sign         string
}

// currencyAt reads a sign, code or word of a currency at token i.
func (s *scan) currencyAt(i int) (currency, int, bool) {
	k := s.at(i)
	if k.kind == end || k.kind == digit {
		return currency{}, i, false
	}
	if k.kind == word {
		if c, next, ok := s.codeAt(i); ok {
			return c, next, true
		}
		if c, next, ok := s.nationAt(i); ok {
			return c, next, true
		}
	}
	if c, next, ok, francs := s.francsAt(i); francs {
		return c, next, ok
	}
	if (k.s == "francs" || k.s == "franken" || k.s == "francos") && nations[s.at(i+1).s] == "CH" {
		return s.give("CHF", i, i+2)
	}
	what, ok := currencyWords[k.s]
	if !ok {
		what, ok = currencyWords[strings.ToLower(k.raw)]
	}
	if !ok {
		return currency{}, i, false
	}
	next := i + 1
	if s.is(next, "sterling") || s.is(next, "esterlinas") {
		return s.give("GBP", i, next+1)
	}
	if n, ok := nations[s.at(next).s]; ok && k.kind == word {
		if code, ok := nationCodes[n+what]; ok {
			return s.give(code, i, next+1)
		}
	}
	if (k.s == "kr" || k.s == "rs" || k.s == "sfr") && s.is(next, ".") && !s.at(next).spaced {
		next++
	}
	return s.give(what, i, next)
}

// francsAt reads "Fr." or "Fr", which is a day of the week unless the sum behind it is one;
// francs reports that one of them stands there.
func (s *scan) francsAt(i int) (c currency, next int, ok, francs bool) {
	k := s.at(i)
	switch {
	case k.raw == "Fr" && s.is(i+1, "."):
		if f, found := s.sumAt(i + 2); found && (f.decimals && f.next != i+5 || len(s.at(i+2).s) > 2) {
			c, next, ok = s.give("CHF", i, i+2)
			return c, next, ok, true
		}
		return currency{}, i, false, true
	case (k.raw == "Fr" || k.raw == "SFr") && s.at(i+1).kind == digit && s.at(i+1).spaced: // "Fr 240.–"
		if f, found := s.sumAt(i + 1); found && (f.decimals || s.is(f.next, ".") && s.at(f.next+1).kind == mark) {
			c, next, ok = s.give("CHF", i, i+1)
			return c, next, ok, true
		}
		return currency{}, i, false, true
	}
	return currency{}, i, false, false
}

// give makes a currency of a code or family that stands in tokens i to next.
func (s *scan) give(what string, i, next int) (currency, int, bool) {
	c := currency{sign: s.span(i, next).Of(s.text)}
	if _, ok := families[what]; ok {
		c.family = what
	} else {
		c.code = what
	}
	return c, next, true
}

// codeAt reads "US$", "u.s. $", "CAD", "usd$".
func (s *scan) codeAt(i int) (currency, int, bool) {
	k, j := s.at(i), i+1
	if k.s == "u" && s.is(j, ".") && s.is(j+1, "s") {
		j += 2
		if s.is(j, ".") {
			j++
		}
	}
	if code, ok := dollars[k.s]; ok && s.is(j, "$") && (!s.at(j).spaced || k.s == "us" || k.s == "u") {
		return s.give(code, i, j+1)
	}
	if !codes[k.s] || k.raw != strings.ToUpper(k.raw) && !codeWords[k.s] {
		return currency{}, i, false
	}
	next := i + 1
	if s.is(next, "$") && (!s.at(next).spaced || strings.HasSuffix(k.s, "d") && s.at(next+1).kind == digit && !s.at(next+1).spaced) {
		next++
	}
	return s.give(strings.ToUpper(k.s), i, next)
}

// nationAt reads "Canadian dollars", "schwedische Kronen", "Schweizer Franken".
func (s *scan) nationAt(i int) (currency, int, bool) {
	n, ok := nations[s.at(i).s]
	if !ok {
		return currency{}, i, false
	}
	if what, ok := nationCodes[n+currencyWords[s.at(i+1).s]]; ok {
		return s.give(what, i, i+2)
	}
	if n == "CH" && (s.is(i+1, "francs") || s.is(i+1, "franken") || s.is(i+1, "frankens") || s.is(i+1, "francos") || s.is(i+1, "frank")) {
		return s.give("CHF", i, i+2)
	}
	return currency{}, i, false
}
