package find

// smallWords are frequent words that only one of the five languages has, or has far more
// often than the others, folded.
var smallWords = map[Lang]map[string]bool{
	English: set("the and of to is for this that with has have been by from at on was will are be your you attended completed hours date certificate certify awarded issued following invoice course member thank received"),
	German:  set("der die das und ist fur mit von dem den des ein eine einer hat wurde nicht auf im zu zum zur uber stunden teilgenommen teilnahme bescheinigung rechnung datum betrag ausgestellt herr frau wir sie dass bis vom am durch wird bei"),
	French:  set("le la les des du et est pour dans une par avec sur au aux qui que ce cette nous vous heures attestation facture formation monsieur madame fait duree suivi participe date certifie reçu recu delivre a ete"),
	Spanish: set("el los las y es por para con una del que se su al como este esta ha sido horas curso certificado factura don dona duracion celebrado asistido expedido fecha importe total"),
	Dutch:   set("het een en van voor met is op dat deze aan bij naar heeft werd wordt uur uren cursus factuur bedrag datum deelgenomen deelname certificaat mevrouw heer te door niet ook zijn bijeenkomst"),
}

// shared are words of several languages, which count for none of them alone.
var shared = set("la a is de en die date total datum des se me te al am was on")

// Language guesses the language of a text by its small words and the letters that only
// one language writes; "" when fewer than two speak for one, or two languages draw.
func Language(text string) Lang {
	score := make(map[Lang]int)
	for _, t := range cut(text).list {
		if t.kind != word {
			continue
		}
		for lang, words := range smallWords {
			if !words[t.s] {
				continue
			}
			score[lang] += 2
			if shared[t.s] {
				score[lang]--
			}
		}
		for _, r := range t.raw {
			switch r {
			case 'ß':
				score[German] += 2
			case 'ñ', '¿', '¡':
				score[Spanish] += 2
			case 'œ', 'ê', 'ç', 'à', 'è':
				score[French]++
			}
		}
	}
	var best Lang
	top, second := 0, 0
	for _, lang := range []Lang{English, German, French, Spanish, Dutch} {
		switch n := score[lang]; {
		case n > top:
			best, second, top = lang, top, n
		case n > second:
			second = n
		}
	}
	if top < 3 || top == second {
		return ""
	}
	return best
}
