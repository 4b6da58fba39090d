package find

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// bodyForms are words that show a body's name; German and Dutch ones also end a
// compound.
var bodyForms = set("institute institut instituut instituto academy akademie academie academia university universitat universite universidad universiteit college school schule hochschule ecole escuela society gesellschaft societe sociedad " +
	"verband verein verbund kammer association asociacion vereniging associatie council board federation federacion centre center zentrum centro centrum foundation stiftung stichting fundacion fondation trust guild gilde chamber chambre camara " +
	"bureau agency agentur authority amt ministry ministerium limited ltd llc inc plc llp corp corporation company gmbh ag kg ohg mbh ggmbh sarl sas sasu bv nv sl hospital klinikum journal press verlag review proceedings magazine union league alliance consortium partnership registry network club committee " +
	"trainings training services consulting partners group gruppe groupe prufkreis arbeitskreis colegio ordre orden cercle circle polytechnic faculty department bund kolleg lyceum bildungswerk seminars")

var bodyEndings = []string{"akademie", "verband", "institut", "kammer", "verein", "schule", "zentrum", "kreis", "gesellschaft", "werk", "bund", "academie", "vereniging", "instituut", "centrum", "kolleg", "verlag", "stelle"}

// bodyJoins may stand inside a body's name in small letters.
var bodyJoins = set("of the for and & fur und der des die das de du la le les et y e van voor en in zu zur im am d l del los las para pour a an - – von à au aux & on")

// Organisations finds what may be bodies' names: runs of words in capitals, with the
// small words that join them, that hold a word for a body.
func Organisations(text string) []Organisation {
	return again(&keptBodies, text, nil, without(organisations))
}

func organisations(text string) []Organisation {
	list := pieces(text)
	var found []Organisation
	for i := 0; i < len(list); {
		next, form := bodyAt(list, i)
		if form == "" {
			i = max(next, i+1)
			continue
		}
		o := Organisation{Span: Span{list[i].From, list[next-1].To}, Form: form}
		o.Name = strings.Join(strings.Fields(o.Of(text)), " ")
		found = append(found, o)
		i = next
	}
	return found
}

// bodyAt returns the end of the run of capitals at i, and its form word if any.
func bodyAt(list []piece, i int) (int, string) {
	if !bodyWord(list[i]) {
		return i, ""
	}
	form, j, last := "", i, i
	for ; j < len(list) && j < i+14; j++ {
		p := list[j]
		if bodyWord(p) {
			last = j + 1
			if f := formOf(p); f != "" {
				form = f
			}
			if p.comma && !(j+1 < len(list) && legalForm(list[j+1])) {
				break
			}
			continue
		}
		if !bodyJoins[strings.Trim(fold(p.s), "’'")] && !strings.HasPrefix(fold(p.s), "d'") && !strings.HasPrefix(fold(p.s), "d’") && !strings.HasPrefix(fold(p.s), "l’") && !strings.HasPrefix(fold(p.s), "l'") {
			break
		}
	}
	if form == "" && last-i < 1 {
		last = i + 1
	}
	if form != "" && last-i == 1 && fold(list[i].s) == form {
		return last, "" // the word alone names nothing
	}
	return last, form
}

func bodyWord(p piece) bool {
	first, _ := utf8.DecodeRuneInString(p.s)
	return unicode.IsUpper(first) || legalForm(p) || strings.HasPrefix(p.s, "d’") && len(p.s) > 4 || strings.HasPrefix(p.s, "d'") && len(p.s) > 3 || strings.HasPrefix(p.s, "l’") && len(p.s) > 4
}

// legalForm reports whether p is a form of company or club: "GmbH", "e.V.", "B.V.".
func legalForm(p piece) bool {
	switch strings.ReplaceAll(fold(p.s), ".", "") {
	case "ev", "eg", "gmbh", "ggmbh", "mbh", "ag", "kg", "ltd", "llc", "inc", "plc", "llp", "sarl", "sas", "sa", "sl", "bv", "nv", "co", "v":
		return p.s != "sa" && p.s != "co" && p.s != "ag" && p.s != "inc"
	case "e":
		return p.s == "e."
	}
	return false
}

func formOf(p piece) string {
	w := fold(strings.Trim(p.s, ".,-"))
	w = strings.TrimPrefix(strings.TrimPrefix(w, "d’"), "l’")
	if bodyForms[w] {
		return w
	}
	if legalForm(p) && p.s != "e." {
		if f := strings.ReplaceAll(w, ".", ""); f != "v" {
			return f
		}
		return "ev" // the second half of "e. V."
	}
	for _, part := range strings.Split(w, "-") {
		if bodyForms[part] && len(part) > 3 {
			return part
		}
		for _, e := range bodyEndings {
			if strings.HasSuffix(part, e) && len(part) > len(e)+2 {
				return e
			}
		}
	}
	return ""
}
