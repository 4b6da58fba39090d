package extract

import (
	"slices"
	"strings"
)

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
		words(proofNoun + `(?:,? [^\s.]+){0,4} (?:suppose|necessite|requiert|exige|requires?|requiere|vereist|setzt|erfordert|needs)(?: [^\s.]+){0,8}`),
		words(`(?:geen|niet|zonder|vervangt)(?: [^\s.,;]+){0,3} ` + proofNoun),
	}
	// undone are deeds that were not done, and conditions of them: "did not attend", "those who
	// have passed", "sobald Sie teilgenommen haben".
	undone = []*pattern{
		words(`(?:not|n't|never|cannot|unable to|failed to|could not)(?: [^\s.,;]+){0,2} (?:attend(?:ed)?|complete(?:d)?|participated?|taken? part|present|pass(?:ed)?|joined?|finish(?:ed)?|appear(?:ed)?)|no-show`),
		words(`(?:nicht|nie)(?: [^\s.,;]+){0,2} (?:teilgenommen|besucht|abgeschlossen|erschienen|anwesend|teilnehmen|angetreten|beendet)|ferngeblieben`),
		words(`(?:n'a|n'ont|n'avez|n'etait|n'est|ne s'est|n'etiez)(?: \S+)? (?:pas|point|jamais)(?: [^\s.,;]+){0,2} (?:assiste|participe|suivi|presentee?s?|termine|acheve|venue?)`),
		words(`no (?:ha |pudo |se |han )?(?:asisti\w*|participad?\w*|presento|presentado|compareci\w*|finalizad?\w*|completad?\w*)`),
		words(`niet(?: [^\s.,;]+){0,2} (?:aanwezig|verschenen|deelgenomen|bijgewoond|afgerond|gevolgd|voltooid)`),
		words(`(?:those|anyone|everyone|participants|delegates|all|candidates|students|attendees) who(?: [^\s.,;]+){0,5} (?:attend(?:ed)?|complete(?:d)?|participated?|taken part|pass(?:ed)?)|(?:if|once|after|until|unless|before|when) you(?: [^\s.,;]+){0,4} (?:attend(?:ed)?|complete(?:d)?|participated?|taken part|pass(?:ed)?|paid)|(?:you )?must (?:have )?(?:be |been )?(?:attend(?:ed)?|complete(?:d)?|pass(?:ed)?|present)`),
		words(`(?:wer|sobald sie|wenn sie|nachdem sie|falls sie|sofern sie|alle,? die|teilnehm\w+,? die)(?: [^\s.;]+){0,8} (?:teilgenommen|besucht|bestanden|abgeschlossen|absolviert|anwesend)`),
		words(`(?:si vous|ceux qui|celles qui|apres avoir|toute personne|les participants|les stagiaires|des que vous|lorsque vous)(?: [^\s.;]+){0,4} (?:suivi|participe|assiste|reussi|termine|acheve|valide)`),
		words(`(?:quienes|si ha|si usted|una vez|los (?:asistentes|alumnos|participantes) que|a los que|cuando haya)(?: [^\s.;]+){0,4} (?:asist\w+|superad\w+|superen|aprob\w+|finaliz\w+|complet\w+|particip\w+)`),
		words(`(?:wie|als u|als je|zodra u|zodra je|nadat u|nadat je|deelnemers die|indien u)(?: [^\s.;]+){0,8} (?:deelgenomen|gevolgd|afgerond|behaald|geslaagd|bijgewoond|aanwezig|voltooid)`),
	}
	// promises are what somebody is to get, or what it takes to get it.
	promises = []*pattern{
		words(proofNoun + `(?: [^\s.]+){0,5} (?:will (?:be|follow)|shall be|can be (?:downloaded|collected)|(?:is|are) (?:issued|sent|given|posted|awarded|handed out) (?:after|at the end|once|to (?:those|all|participants|delegates|everyone)|on completion))`),
		words(`(?:will|shall|you'll|to) (?:\S+ )?(?:receive|be given|get|issue|send|earn|gain|be sent|be awarded)(?: [^\s.]+){0,5} ` + proofNoun),
		words(proofNoun + `(?: [^\s.]+){0,4} (?:erhalten|erhalt|bekommen|bekommt|folgt|folgen|gibt es|wird (?:[^\s.]+ ){0,5}(?:ausgestellt|ausgehandigt|zugesandt|ubersandt|zugeschickt|uberreicht|ubergeben)|werden (?:[^\s.]+ ){0,5}(?:ausgestellt|ausgehandigt|zugesandt|ubersandt|zugeschickt|uberreicht|ubergeben))`),
		words(`(?:jede\w*(?: (?:und|oder) jede\w*)?|alle(?: \p{L}+)?|wer(?: [^\s.]+){1,8})(?: [^\s.]+){0,3} (?:erhalten|erhalt|bekommen|bekommt)(?: [^\s.]+){0,6} ` + proofNoun),
		words(`(?:erhalten|erhalt|bekommen|bekommt) (?:sie|alle|die|jede\w*|du|ihr)(?: [^\s.]+){0,7} ` + proofNoun),
		words(proofNoun + `(?: [^\s.]+){0,4} (?:sera|seront) (?:\S+ )?(?:remise?s?|delivree?s?|envoyee?s?|adressee?s?|transmise?s?)|(?:vous recevrez|recevront|recevra|donnera lieu a|sera remise?|sera delivree?)(?: [^\s.]+){0,4} ` + proofNoun),
		words(`\S*(?:rechnung|bescheinigung|zertifikat|bestatigung)(?: [^\s.]+){0,3} (?:geht|gehen|kommt|kommen|schicken|senden|erfolgt)(?: [^\s.]+){0,5}`),
		words(`se entregan? (?:\S+ ){0,2}` + proofNoun + `|(?:on|nous) (?:delivre|delivrons|remet|remettons) (?:\S+ ){0,2}` + proofNoun + `|` + proofNoun + `(?: [^\s.]+){0,3} (?:is|are) (?:given|issued|handed) to (?:everyone|all|those|each)`),
		words(`(?:entregara|enviara|expedira|emitira|remitira|otorgara|recibira|obtendra)[ns]?(?: [^\s.]+){0,4} ` + proofNoun + `|` + proofNoun + `(?: [^\s.]+){0,5} (?:entregara|enviara|expedira|emitira|remitira|otorgara)n?`),
		words(`(?:ontvangt|ontvang|krijgt|krijg|ontvangen|krijgen) (?:u|je|jij|alle|de|iedere|elke)?(?: [^\s.]+){0,6} ?` + proofNoun + `|` + proofNoun + `(?: [^\s.]+){0,4} (?:ontvangt|krijgt|volgt|(?:wordt|worden) (?:u |je )?(?:na afloop|toegezonden|nagezonden|toegestuurd|opgestuurd))`),
	}
)

var (
	// notYet is what is still to come, or to be done for it.
	notYet = slices.Concat(promises, undone)
	// forForms is what a form asks of the one who fills it in: "to be completed in block capitals",
	// "à compléter par l'employeur". A title that it asks for is no title that somebody holds.
	forForms = []*pattern{
		words(`(?:to|must|should|please)(?: be)?(?: fully| duly| first)? complete(?:d)? (?:(?:in|with|using) (?:block|capital|black|blue|ink|full|duplicate|triplicate|bold)|by(?: the)? (?:\w+ )?(?:employer|employee|organi[sz]er|provider|participant|delegate|applicant|trainer|tutor|staff|office|member|attendee|student|supervisor|manager|department|holder|facilitator|instructor|speaker|line)|and (?:return|sign|hand|sen[dt])\w*|before|after|at the end|(?:all|both|the|this|one|a) (?:\w+ )?(?:sections?|parts?|forms?|box(?:es)?|fields?|slips?|cards?))`),
		words(`a (?:completer|remplir)(?: obligatoirement| lisiblement| integralement)? (?:en (?:lettres|majuscules|capitales|noir|double)|par l\S* ?\S*|et a (?:retourner|signer|remettre|renvoyer))|a (?:cumplimentar|completar|rellenar)(?: \S+)? (?:en (?:letra|mayusculas)|con (?:letra|mayusculas)|por \S+|y (?:devolver|firmar|entregar))|(?:in|door) te vullen|in te vullen door|volledig (?:invullen|in te vullen)|vollstandig (?:ausfullen|auszufullen)`),
		words(`(?:proof|evidence|record|confirmation|recognition) of your contribution`),
		words(`title of (?:the |this |your )?(?:study day|talk|lecture|paper|presentation|session|course|event|seminar|workshop|training|activity|module|programme|webinar|conference|meeting|article|poster)`),
	}
	// taughtToThem is what others taught the person, or where something was taught.
	taughtToThem = []*pattern{
		words(`(?:(?:who|that|which|was|were|been|hours|days|lessons) )?taught(?: to)? (?:you|him|her|them|us)|(?:die|der|das) (?:sie|ihn|ihr) unterrichte\w*|(?:vous|lui) a (?:enseigne|forme)|(?:le|les) (?:impartio|enseno)|(?:curso|taller|modulo|formacion|jornada|seminario|intensivo|sesion(?:es)?)[^.;]{0,60}? impartid[oa]s? en`),
	}
	// against are words that take what others say back.
	against = slices.Concat(promises, denials, undone, forForms, taughtToThem)
)

// blankOut replaces what a pattern matches by as many strokes; line ends stay, and are
// blanks to the pattern.
func blankOut(text string, by ...*pattern) string {
	out := []byte(text)
	for _, p := range by {
		flat := strings.ReplaceAll(string(out), "\n", " ")
		for _, m := range p.FindAllStringIndex(flat, -1) {
			for k := m[0] + 1; k < m[1]-1; k++ {
				if out[k] != '\n' {
					out[k] = '~'
				}
			}
		}
	}
	return string(out)
}
