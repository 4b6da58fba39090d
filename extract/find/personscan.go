package find

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// titles stand before a name; some of them have several parts (Dipl.-Ing., Dr. med.).
var titles = set("mr mrs ms miss mx dr prof professor doctor sir madam herr herrn frau hr fr mme mlle madame monsieur mademoiselle m sr sra srta senor senora don dona dhr mevr mevrouw mw heer dame ing dipl ir drs mag rev eng engr capt med rer nat phil habil h c pd univ doz dkfm arch lic bsc msc")

// addressTitles show that a person follows, even one word.
var addressTitles = set("mr mrs ms miss mx dr prof professor sir herr herrn frau mme mlle madame monsieur mademoiselle sr sra srta senor senora dhr mevr mevrouw heer")

// degrees stand behind a name, after a comma or without one.
var degrees = set("rn phd md mba msc bsc ma ba pe ceng meng beng fca aca cpa pmp esq dds dvm jd llm llb rgn rmn csp cih chst cmc ra aia mrics frics miet fiet ing bed med edd dphil rd pt ot lpn np aprn msn bsn dnp fnp psyd lcsw mph")

// particles belong to a surname and begin small.
var particles = set("von van de der den del della la le du di da dos das ter ten zu zum y i e el al bin ibn af av d l vom zur op t")

// noNames are words in capitals that papers print and that are no part of a name.
var noNames = set("certificate certificat zertifikat certificado certificaat attendance completion participation achievement teilnahme teilnahmebestatigung bescheinigung bestatigung nachweis attestation diploma diplom diplome " +
	"course kurs cours curso cursus seminar training schulung formation workshop webinar conference congress meeting sitzung session lecture module invoice rechnung facture factura receipt quittung recu beleg " +
	"date datum fecha issued issue ausgestellt total net vat mwst tva iva number no nr participant teilnehmer teilnehmerin programme program programm description amount reason item period qty unit day start end badge learner id continuing education pm am box position betrag status remarks valid until original printed member membership candidate registration this that the is to has have for with and on in at from by of we hereby certify certifies confirm " +
	"institute academy university society association council board college school department office centre center committee director registrar president chair secretary manager leitung leiter leiterin geschaftsfuhrer directeur director dozent referent trainer instructor tutor signed signature unterschrift " +
	"name title titel event venue location place ort lieu lugar hours stunden heures horas credits points duration dauer umfang time zeit page seite subject betreff regards sincerely dear yours best our your email phone tel fax street road avenue strasse rue calle mail dr. ltd gmbh limited " +
	"hat wurde ist der die das ein eine und am im mit fur uber an les des une est par pour dans avec sur del los las una por para con het een met voor op aan")

// piece is a word of a line with what hangs on it.
type piece struct {
	Span
	s     string // without the comma behind it
	comma bool   // a comma stands behind it
}

// pieces cuts text at white space; brackets, colons and the like stand alone.
func pieces(text string) []piece {
	var list []piece
	from := -1
	flush := func(to int) {
		if from >= 0 {
			p := piece{Span: Span{from, to}, s: text[from:to]}
			if strings.HasSuffix(p.s, ",") {
				p.s, p.comma = strings.TrimSuffix(p.s, ","), true
				p.To--
			}
			list = append(list, p)
		}
		from = -1
	}
	for i, r := range text {
		switch {
		case isSpace(r):
			flush(i)
		case strings.ContainsRune("()[]:;·|\"“”„«»/<>•", r):
			flush(i)
			list = append(list, piece{Span: Span{i, i + utf8.RuneLen(r)}, s: string(r)})
		default:
			if from < 0 {
				from = i
			}
		}
	}
	flush(len(text))
	return list
}

// bare folds a piece without points and hyphens at its edges.
func (p piece) bare() string { return strings.Trim(fold(p.s), ".-’'") }

// titled reports whether p is a title, also one of parts: "Dipl.-Ing.", "Dr.-Ing.".
func (p piece) titled() bool {
	switch p.s {
	case "D.", "Dª", "D.ª", "Dña.", "Sr.ª":
		return true
	}
	parts := strings.FieldsFunc(fold(p.s), func(r rune) bool { return r == '.' || r == '-' })
	for _, w := range parts {
		if !titles[w] {
			return false
		}
	}
	if len(parts) == 1 && len(parts[0]) <= 2 && !strings.HasSuffix(p.s, ".") {
		return p.s == "Mr" || p.s == "Ms" || p.s == "Dr" || p.s == "Mx" || p.s == "Sr" || p.s == "Hr" || p.s == "M" || p.s == "Mw"
	}
	return len(parts) > 0 && (unicode.IsUpper([]rune(p.s)[0]) || strings.Contains(p.s, "."))
}

// degree reports whether p is a degree or a title behind a name.
func (p piece) degree() bool {
	s := strings.NewReplacer(".", "", "-", "").Replace(p.s)
	if s == "" {
		return false
	}
	if degrees[fold(s)] && s != strings.ToLower(s) {
		return len(s) > 2 || s == strings.ToUpper(s)
	}
	return false
}

// nameWord reports whether p may be part of a name: capitals first, an initial, or
// all in capitals.
func (p piece) nameWord() bool {
	if p.s == "" || noNames[p.bare()] || creditNouns[p.bare()] || len(p.bare()) > 4 && unitWords[p.bare()] != "" || monthNames[p.bare()] > 0 && len(p.bare()) > 3 && p.bare() != "april" && p.bare() != "may" && p.bare() != "august" && p.bare() != "june" && p.bare() != "mai" && p.bare() != "abril" {
		return false
	}
	first, size := utf8.DecodeRuneInString(p.s)
	if !unicode.IsUpper(first) || len(p.s) > 1 && len(p.s) <= 3 && p.s == strings.ToUpper(p.s) && !strings.HasSuffix(p.s, ".") {
		return false
	}
	for i, r := range p.s[size:] {
		if !unicode.IsLetter(r) && r != '-' && r != '\'' && r != '’' && r != '‑' && !(r == '.' && (i == len(p.s[size:])-1 && utf8.RuneCountInString(p.s) <= 3 || i == 0)) {
			return false
		}
	}
	return utf8.RuneCountInString(strings.Trim(p.s, ".")) > 1 || strings.HasSuffix(p.s, ".")
}

// Persons finds what may be persons' names: after a title one word or more,
// without one two to four words in capitals that no document uses otherwise. A
// title of a course looks the same; the label beside it tells.
func Persons(text string) []Person {
	list := pieces(text)
	var found []Person
	for i := 0; i < len(list); {
		p, next, ok := personAt(text, list, i)
		if !ok {
			i++
			continue
		}
		found = append(found, p)
		i = next
	}
	return found
}

func personAt(text string, list []piece, i int) (Person, int, bool) {
	j, addressed := i, false
	for j < len(list) && j < i+6 && list[j].titled() {
		addressed = addressed || addressTitles[list[j].bare()]
		j++
	}
	start := j
	words := 0
	for ; j < len(list) && words < 5; j++ {
		if list[j].nameWord() && !(words > 0 && list[j].degree() && list[j].s == strings.ToUpper(list[j].s)) {
			words++
			if list[j].comma {
				j++
				break
			}
			continue
		}
		if particles[strings.TrimRight(list[j].s, "’'")] && j+1 < len(list) && (list[j+1].nameWord() || particles[list[j+1].s]) && (words > 0 || start > i) {
			continue
		}
		break
	}
	if words == 0 || start == i && ofBody(list[start:min(j+1, len(list))]) {
		return Person{}, i, false
	}
	if words == 1 && !addressed || words > 4 && start == i {
		return Person{}, i, false
	}
	last := j
	for j < len(list) && j < last+5 && list[j].degree() {
		j++
	}
	p := Person{Span: Span{list[i].From, list[j-1].To}, Titled: start > i || j > last, Last: words == 1}
	p.Name = strings.Trim(strings.Join(strings.Fields(text[list[start].From:list[last-1].To]), " "), ",")
	return p, j, true
}

// ofBody reports whether words, of which the last stands behind a name, hold a word
// for a body.
func ofBody(words []piece) bool {
	for n, p := range words {
		if n > 0 && words[n-1].comma {
			return false
		}
		if formOf(p) != "" || legalForm(p) {
			return true
		}
	}
	return false
}

// Bare returns a person's name without titles and degrees, first name first: "Dr. A.
// Vey, RN" gives "A. Vey", "Vey, Anna" gives "Anna Vey". A text that holds no name
// comes back with its white space single.
func Bare(name string) string {
	list := pieces(name)
	from, to := 0, len(list)
	for from < to && list[from].titled() {
		from++
	}
	for to > from+1 && (list[to-1].degree() || list[to-1].titled() && list[to-2].comma) {
		to--
	}
	if from == to {
		return strings.Join(strings.Fields(name), " ")
	}
	var words []string
	for n, p := range list[from:to] {
		if p.comma && n == 0 && to-from > 1 && to-from <= 3 && list[from+1].nameWord() {
			rest := Bare(name[list[from+1].From:list[to-1].To])
			return rest + " " + p.s
		}
		words = append(words, p.s)
	}
	return strings.Join(words, " ")
}
