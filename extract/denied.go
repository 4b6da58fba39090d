package extract

import "strings"

// What a paper says that it is not, or that somebody will get later, says nothing of what it
// proves: "ersetzt keinen Sachkundenachweis", "your certificate of attendance will follow".

// proofNoun is what papers that prove something are called, after the words by which they are
// denied or promised; it takes a word behind it along ("of attendance").
const proofNoun = `\S*(?:certificates?|confirmation|proof|evidence|transcript|licen[cs]e|qualification|receipt|invoice|bescheinigung(?:en)?|nachweise?s?|zeugnis(?:se)?|urkunden?|zertifikate?s?|quittung|rechnung|bestatigung(?:en)?|testate?|attestations?|certificats?|justificatifs?|recu|facture|diplomes?|certificad[oa]s?|constancias?|justificantes?|acreditacion|diplomas?|factura|recibo|bewijs|bewijzen|certificaat|certificaten|getuigschrift|verklaring|kwitantie|factuur)(?: (?:of|de|d'|van|uber|fur|over) ?(?:(?:die|the|la|de|het|l'|course|een|eine) ?)?\S+)?`

var (
	// deniesItself says of the paper itself that it is no proof.
	deniesItself = words(`(?:this|diese[rs]?|dies|ce|cet|cette|la presente?|le present|este|esta|el presente|deze|dit|it|er|sie|es) (?:[^\s.]+ ){0,4}(?:(?:is|are|does|do|was) not|is no|ist kein\w*|ist nicht|stellt kein\w*|gilt nicht|ersetzt kein\w*|n'est|ne (?:constitue|vaut|remplace|tient)|no (?:es|constituye|sustituye|acredita|vale)|is geen|is niet|vormt geen|geldt niet|vervangt geen) (?:[^\s.]+ ){0,4}` + proofNoun)
	// denials are what is not, so that the words in them count for nothing.
	denials = []*pattern{
		words(`(?:not|no|never|cannot|without|nor|neither|in lieu of|instead of|no substitute for)(?: [^\s.,;]+){0,4} ` + proofNoun),
		words(`(?:kein(?:e[nmrs]?)?|nicht|ohne|anstelle|ersetzt|statt)(?: [^\s.,;]+){0,3} ` + proofNoun),
		words(`kein(?:e[nmrs]?)? \S*(?:prufung|teilnahme|mitgliedschaft|qualifikation|befahigung|anspruch|beschaftigung\S*|arbeitsverhaltnis)\S*`),
		words(`(?:ne|n') ?(?:\S+ )?(?:constitue|vaut|remplace|tient|dispense|confere|equivaut|suppose|est)(?: (?:pas|point|nullement|en aucun cas))(?: [^\s.,;]+){0,6}`),
		words(`(?:sans|no (?:constituye|acredita|equivale|sustituye|supone|implica|tiene|es)|ningun\w*)(?: [^\s.,;]+){0,3} ` + proofNoun),
		words(`(?:geen|niet|zonder|vervangt)(?: [^\s.,;]+){0,3} ` + proofNoun),
	}
	// promises are what somebody is to get, or what it takes to get it.
	promises = []*pattern{
		words(proofNoun + `(?: [^\s.]+){0,5} (?:will (?:be|follow)|shall be|can be (?:downloaded|collected)|(?:is|are) (?:issued|sent|given|posted|awarded|handed out) (?:after|at the end|once|to (?:those|all|participants|delegates|everyone)|on completion))`),
		words(`(?:will|shall|you'll|to) (?:\S+ )?(?:receive|be given|get|issue|send|earn|gain|be sent|be awarded)(?: [^\s.]+){0,5} ` + proofNoun),
		words(proofNoun + `(?: [^\s.]+){0,4} (?:erhalten|erhalt|bekommen|bekommt|folgt|folgen|gibt es|wird (?:[^\s.]+ ){0,5}(?:ausgestellt|ausgehandigt|zugesandt|ubersandt|zugeschickt|uberreicht|ubergeben)|werden (?:[^\s.]+ ){0,5}(?:ausgestellt|ausgehandigt|zugesandt|ubersandt|zugeschickt|uberreicht|ubergeben))`),
		words(`(?:erhalten|erhalt|bekommen|bekommt) (?:sie|alle|die|jede\w*|du|ihr)(?: [^\s.]+){0,7} ` + proofNoun),
		words(proofNoun + `(?: [^\s.]+){0,4} (?:sera|seront) (?:\S+ )?(?:remise?s?|delivree?s?|envoyee?s?|adressee?s?|transmise?s?)|(?:vous recevrez|recevront|recevra|donnera lieu a|sera remise?|sera delivree?)(?: [^\s.]+){0,4} ` + proofNoun),
		words(`(?:entregara|enviara|expedira|emitira|remitira|otorgara|recibira|obtendra)[ns]?(?: [^\s.]+){0,4} ` + proofNoun + `|` + proofNoun + `(?: [^\s.]+){0,5} (?:entregara|enviara|expedira|emitira|remitira|otorgara)n?`),
		words(`(?:ontvangt|ontvang|krijgt|krijg|ontvangen|krijgen) (?:u|je|jij|alle|de|iedere|elke)?(?: [^\s.]+){0,6} ?` + proofNoun + `|` + proofNoun + `(?: [^\s.]+){0,4} (?:ontvangt|krijgt|volgt|(?:wordt|worden) (?:u |je )?(?:na afloop|toegezonden|nagezonden|toegestuurd|opgestuurd))`),
	}
)

// blankOut replaces what a pattern matches by as many strokes; line ends stay, and are
// blanks to the pattern.
func blankOut(text string, by ...*pattern) (string, int) {
	out, n := []byte(text), 0
	for _, p := range by {
		flat := strings.ReplaceAll(string(out), "\n", " ")
		for _, m := range p.FindAllStringIndex(flat, -1) {
			n++
			for k := m[0] + 1; k < m[1]-1; k++ {
				if out[k] != '\n' {
					out[k] = '~'
				}
			}
		}
	}
	return string(out), n
}
