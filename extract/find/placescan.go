package find

import (
	"regexp"
	"slices"
	"strings"
)

// RE2 patterns run in time in proportion to the text.
var (
	numberText = regexp.MustCompile(`(?i)((?:\p{L}[\p{L}.-]{0,24} ?){0,3}\b(?:no|nr|n°|nº|number|nummer|numéro|número|núm|ref|reference|#)\.?|\b(?:registro|certificate|zertifikat|certificat|certificado|certificaat|invoice|receipt|rechnung|facture|statement|licence|license|member))\s{0,2}[:.#]?\s{0,3}([A-Z0-9]{1,12}(?:[-/._][A-Z0-9]{1,12}){0,5}|[A-Z]{1,4} [0-9]{3,10})`)

	intlPhone  = regexp.MustCompile(`(?:\+|\b00)(\d{1,3})[ ./()-]{0,2}\(?0?\)?[ ]?\d{1,5}(?:[ ./-]{0,2}\d{1,8}){1,5}`)
	northPhone = regexp.MustCompile(`(?:\b|\()([2-9]\d{2})\)?[-. ]{1,2}[2-9]\d{2}[-. ]\d{4}\b`)
	ukPhone    = regexp.MustCompile(`\b(?:0(?:20|23|24|28|29) \d{4} \d{4}|01\d{3} \d{6}|01\d{3} \d{3} \d{3}|01[1-9]1 \d{3} \d{4}|011\d \d{3} \d{4}|07\d{3} \d{6}|07\d{3} \d{3} \d{3}|03\d{2} \d{3} \d{4})\b`)
	frPhone    = regexp.MustCompile(`\b0[1-9](?:[ .]\d{2}){4}\b`)

	usAddress = regexp.MustCompile(`\b\p{Lu}[\p{L}.' -]{1,40},? (A[KLRZ]|C[AOT]|D[CE]|FL|GA|HI|I[ADLN]|K[SY]|LA|M[ADEINOST]|N[CDEHJMVY]|O[HKR]|P[AR]|RI|S[CD]|T[NX]|UT|V[AT]|W[AIVY]) {1,2}\d{5}(?:-\d{4})?\b`)
	ukPost    = regexp.MustCompile(`\b(?:GIR ?0AA|[A-PR-UWYZ](?:\d{1,2}|[A-HK-Y]\d|[A-HK-Y]\d\d|\d[A-HJKPSTUW]|[A-HK-Y]\d[ABEHMNPRV-Y]) \d[ABD-HJLNP-UW-Z]{2})\b`)
	iePost    = regexp.MustCompile(`\b[AC-FHKNPRTV-Y]\d[\dW] [0-9AC-FHKNPRTV-Y]{4}\b`)
	caPost    = regexp.MustCompile(`\b[ABCEGHJ-NPRSTVXY]\d[A-Z] \d[A-Z]\d\b`)
	nlPost    = regexp.MustCompile(`\b[1-9]\d{3} [A-Z]{2},? {1,2}\p{Lu}\p{L}+`)
	countries = regexp.MustCompile(`(?i)(?:^|[,\n•·|] {0,3}|\d {1,2})(united kingdom|u\.k\.|uk|great britain|england|scotland|wales|northern ireland|ireland|éire|united states(?: of america)?|u\.s\.a\.|usa|canada|deutschland|germany|france|españa|spain|nederland|the netherlands|belgique|belgië|schweiz|suisse|österreich|austria|australia|new zealand|aotearoa|danmark|denmark|sverige|sweden|norge|norway|singapore|hong kong|méxico|mexico)\b\.?(?:\s*(?:$|[,.;\n•·|)]))`)
)

var countryCodes = map[string]string{"united kingdom": "GB", "u.k.": "GB", "uk": "GB", "great britain": "GB", "england": "GB", "scotland": "GB", "wales": "GB", "northern ireland": "GB", "ireland": "IE", "éire": "IE",
	"united states": "US", "united states of america": "US", "u.s.a.": "US", "usa": "US", "canada": "CA", "deutschland": "DE", "germany": "DE", "france": "FR", "españa": "ES", "spain": "ES", "nederland": "NL", "the netherlands": "NL",
	"belgique": "BE", "belgië": "BE", "schweiz": "CH", "suisse": "CH", "österreich": "AT", "austria": "AT", "australia": "AU",
	"new zealand": "NZ", "aotearoa": "NZ", "danmark": "DK", "denmark": "DK", "sverige": "SE", "sweden": "SE", "norge": "NO", "norway": "NO", "singapore": "SG", "hong kong": "HK", "méxico": "MX", "mexico": "MX"}

// dialCodes are those of ITU-T E.164; 1 is settled by the area code.
var dialCodes = map[string]string{"44": "GB", "353": "IE", "49": "DE", "33": "FR", "34": "ES", "31": "NL", "32": "BE", "41": "CH", "43": "AT", "352": "LU", "61": "AU", "64": "NZ", "39": "IT", "351": "PT", "45": "DK", "46": "SE", "47": "NO", "358": "FI", "91": "IN"}

// area codes of the North American Numbering Plan outside the United States.
var (
	canadian  = set("204 226 236 249 250 257 263 289 306 343 354 365 367 368 382 403 416 418 428 431 437 438 450 468 474 506 514 519 548 579 581 584 587 604 613 639 647 672 683 705 709 742 753 778 780 782 807 819 825 867 873 879 902 905 942")
	caribbean = set("242 246 264 268 284 345 441 473 649 658 664 721 758 767 784 809 829 849 868 869 876")
)

// Numbers finds numbers of registration: what stands behind a word such as
// "No." and holds a figure.
func Numbers(text string) []Number {
	var found []Number
	for _, m := range numberText.FindAllStringSubmatchIndex(text, -1) {
		n := Number{Span: Span{m[4], m[5]}, Text: text[m[4]:m[5]], Label: strings.TrimSpace(text[m[2]:m[3]])}
		if strings.ContainsAny(n.Text, "0123456789") {
			found = append(found, n)
		}
	}
	return found
}

// Phones finds telephone numbers, in order and without overlap.
func Phones(text string) []Phone { return again(&keptPhones, text, nil, without(phones)) }

func phones(text string) []Phone {
	var found []Phone
	add := func(from, to int, country string) {
		s := Span{from, to}
		if !slices.ContainsFunc(found, func(p Phone) bool { return p.Overlaps(s) }) && len(found) < 64 {
			found = append(found, Phone{Span: s, Country: country})
		}
	}
	for _, m := range intlPhone.FindAllStringSubmatchIndex(text, -1) {
		if n := digitsIn(text[m[0]:m[1]]); n < 8 || n > 17 || text[m[2]] == '0' {
			continue
		}
		add(m[0], m[1], dialled(text[m[2]:m[3]], text[m[3]:m[1]]))
	}
	for _, m := range ukPhone.FindAllStringIndex(text, -1) {
		country := "GB"
		if strings.HasPrefix(text[m[0]:], "0151") || strings.HasPrefix(text[m[0]:], "0171") {
			country = "" // German mobile numbers begin so, too
		}
		add(m[0], m[1], country)
	}
	for _, m := range frPhone.FindAllStringIndex(text, -1) {
		add(m[0], m[1], "FR")
	}
	for _, m := range northPhone.FindAllStringSubmatchIndex(text, -1) {
		add(m[0], m[1], northern(text[m[2]:m[3]]))
	}
	slices.SortFunc(found, func(a, b Phone) int { return a.From - b.From })
	return found
}

func digitsIn(s string) int {
	n := 0
	for i := range len(s) {
		if figure(s[i]) {
			n++
		}
	}
	return n
}

// dialled gives the country of up to three figures behind the plus; the longest
// code that is known counts.
func dialled(code, rest string) string {
	if code[0] == '1' {
		area := strings.Map(func(r rune) rune {
			if r < '0' || r > '9' {
				return -1
			}
			return r
		}, code[1:]+rest)
		return northern(area[:min(3, len(area))])
	}
	for n := len(code); n > 1; n-- {
		if c, ok := dialCodes[code[:n]]; ok {
			return c
		}
	}
	return ""
}

func northern(area string) string {
	switch {
	case canadian[area]:
		return "CA"
	case caribbean[area] || len(area) < 3:
		return ""
	}
	return "US"
}

// Addresses finds what tells a postal address and its country: a postcode, a state
// with its ZIP code, or a country's name that stands by itself.
func Addresses(text string) []Address {
	var found []Address
	add := func(m []int, country string) {
		s := Span{m[0], m[1]}
		if !slices.ContainsFunc(found, func(a Address) bool { return a.Overlaps(s) }) && len(found) < 64 {
			found = append(found, Address{Span: s, Country: country})
		}
	}
	for _, m := range usAddress.FindAllStringSubmatchIndex(text, -1) {
		if zip := strings.TrimLeft(text[m[3]:m[1]], " "); text[m[2]:m[3]] == "ID" && !strings.HasPrefix(zip, "83") {
			continue // "Member ID 06539": the ZIP codes of Idaho begin with 83
		}
		add(m, "US")
	}
	for _, p := range []struct {
		re      *regexp.Regexp
		country string
	}{{ukPost, "GB"}, {iePost, "IE"}, {caPost, "CA"}, {nlPost, "NL"}} {
		for _, m := range p.re.FindAllStringIndex(text, -1) {
			add(m, p.country)
		}
	}
	for _, m := range countries.FindAllStringSubmatchIndex(text, -1) {
		add(m[2:4], countryCodes[strings.ToLower(text[m[2]:m[3]])])
	}
	slices.SortFunc(found, func(a, b Address) int { return a.From - b.From })
	return found
}
