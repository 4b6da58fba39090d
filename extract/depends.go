package extract

import (
	"slices"
	"strings"
	"unicode"
)

// A day in running text depends on a verb or on a noun: "attended on", "born on", "the
// decree of". Only what depends on a word for holding or attending is a day of the event.

// dependence is what kind of word a day depends on.
type dependence int

const (
	onNothing dependence = iota // no word of its clause is known to govern a day
	onEvent                     // attending, holding, a course
	onOther                     // being born, paying, a law
	onPost                      // being given a post within an employment
	onAccept                    // being accepted, as a text is
	onAward                     // being admitted or recognised
	onHire                      // being taken into service
	onUnknown                   // a word that is not known, or words of both kinds
)

// wordKind tells what a word of a clause is as far as days go.
type wordKind int

const (
	plainWord wordKind = iota
	eventVerb
	eventThing
	otherVerb
	otherThing
	postVerb
	acceptVerb
	awardVerb
	hireVerb
)

var wordKinds = []struct {
	kind wordKind
	fits *pattern
}{
	{eventVerb, whole(`held|attend(?:ed|ing|s)?|participat(?:ed|ing|es)|tookplace|presented|delivered|gave|given|giving|taught|teaching|led|ran|conducted|completed|completing|finished|spoke|speaking|lectured|chaired|visited|hosted|staged|organi[sz]ed|sat|passed|examined|assessed|present|trained|instructed|underwent|undertook|undertaken|employed|works|worked|working|served|serving|` +
		`teilgenommen\w*|teil|besucht\w*|stattgefunden\w*|statt|stattfand\w*|stattfindet|durchgefuhrt\w*|gehalten\w*|hielt\w*|abgehalten\w*|absolviert\w*|abgeschlossen\w*|beendet\w*|abgelegt\w*|bestanden\w*|gegeben\w*|geleitet\w*|referiert\w*|vorgetragen|gesprochen|sprach\w*|unterrichtet\w*|anwesend|mitgewirkt|veranstaltet\w*|gelehrt|geschult|unterwiesen|fortgebildet|beigewohnt|gelaufen|beschaftigt|angestellt|tatig|arbeitet|arbeitete|gearbeitet|` +
		`suivie?s?|assiste|participe|anime|donnee?s?|dispensee?s?|tenue?s?|deroulee?s?|prononcee?s?|enseignee?s?|intervenue?|effectuee?s?|realisee?s?|organisee?s?|termine|acheve|presente?s?|reussi|frequente|employee?|salariee?|travaille|` +
		`asistido|asistio|participado|participo|celebrad[oa]s?|celebro|impartid[oa]s?|impartio|realizad[oa]s?|realizo|cursado|dictado|pronuncio|desarrollad[oa]s?|superad[oa]|finalizad[oa]|concluid[oa]|completad[oa]|expuso|intervino|trabaja|trabajado|trabajo|presta|prestado|presto|` +
		`gevolgde?|bijgewoonde?|deelgenomen|gehouden|gegeven|verzorgde?|plaatsgevonden|plaatsgehad|plaats|deel|aanwezig|deelnam|bezochte?|afgeronde?|voltooide?|afgelegde?|behaalde?|geslaagd|woonde|volgde|gaf|sprak|georganiseerde?|werkzaam|werkt|gewerkt`)},
	{postVerb, whole(`appointed|promoted|regraded|became|transferred|ernannt|befordert|ubertragen|ubernommen|ubernahm|bestellt|nommee?|promue?|nombrad[oa]|ascendid[oa]|posesion|oblag|obliegt|leitet|exerce|desempena|position|post|function|funktion|stelle|fonctions?|poste|cargo|puesto|functie|benoemd|bevorderd|aangesteld|vervult|bekleedt`)},
	{hireVerb, whole(`hired|engaged|recruited|recrutee?|embauchee?|engagee?|contratad[oa]|ingreso|ingresado|eingestellt|aangenomen|aangeworven`)},
	{acceptVerb, whole(`accepted|angenommen|acceptee?s?|aceptad[oa]s?|geaccepteerde?|aanvaarde?`)},
	{awardVerb, whole(`graduated|qualified|diplomee?s?|brevetee?|diplomad[oa]|licenciad[oa]|colegiad[oa]|collegiad[oa]|approbiert|gediplomeerd|afgestudeerd|erhielten|erhielt|ontvingen|ontving|recibimos|recibieron|recu|recurent|admitted|elected|received|registered|accredited|recogni[sz]ed|licen[sc]ed|authori[sz]ed|approved|zugelassen\w*|anerkannt\w*|akkreditiert\w*|gewahlt|elue?s?|recue?s?|agreee?s?|accreditee?s?|inscrite?s?|elegid[oa]|acreditad[oa]s?|reconocid[oa]s?|recibio|inscrit[oa]s?|gekozen|geaccrediteerde?|erkende?|toegelaten|ingeschreven|ontvangen`)},
	{otherVerb, whole(`born|registering|registers|enrolled|enrolling|booked|booking|ordered|applied|requested|asked|submitted|revised|resubmitted|announced|advertised|postponed|cancelled|rescheduled|published|amended|adopted|ratified|enacted|inforce|expire[sd]?|expiring|valid|replace[sd]?|replacing|supersede[sd]?|paid|reached|debited|charged|invoiced|resigned|retired|agreed|notified|informed|invited|wrote|written|founded|established|incorporated|renewed|renewable|updated|married|proposed|nominated|decided|resolved|insured|introduced|discussed|abstracted|meets|reconvenes|inaugurad[oa]|inauguree?|opened|available|accessible|scheduled|planned|printed|downloaded|retrieved|` +
		`geboren\w*|geb|angemeldet\w*|gebucht\w*|beantragt\w*|erbeten|eingegangen\w*|eingereicht\w*|angekundigt\w*|vorgesehen\w*|geplant\w*|anberaumt\w*|verschoben\w*|verlegt\w*|abgesagt\w*|erlassen\w*|verabschiedet\w*|beschlossen\w*|geandert\w*|genehmigt\w*|gultig\w*|abgelaufen\w*|verlangert\w*|ersetzt\w*|bezahlt\w*|entrichtet\w*|uberwiesen\w*|beglichen\w*|uberarbeitet\w*|gekundigt|vereinbart\w*|eingeladen\w*|eingetragen\w*|gegrundet|bat|baten|schrieb\w*|abrufbar|verfugbar|gedruckt\w*|ausgedruckt\w*|abgerufen|fallig|kraft|bekanntgemacht|` +
		`nee?s?|enregistree?s?|reservee?s?|commandee?s?|demandee?s?|soumise?s?|reviseee?s?|annoncee?s?|prevue?s?|programmees?|planifiee?s?|reportee?s?|annulee?s?|publiee?s?|modifiee?s?|adoptee?s?|approuvee?s?|homologuee?s?|valables?|expire|remplacee?s?|reglee?s?|payee?s?|versee?s?|convenue?s?|invitee?s?|ecrite?|fondee?s?|creee?s?|renouvelee?s?|votee?s?|imprimee?s?|telechargee?s?|consultee?s?|vigueur|` +
		`nacid[oa]|matriculad[oa]s?|formaliz[oa]\w*|registrad[oa]s?|reservad[oa]s?|solicit(?:ad[oa]|o)|recibid[oa]s?|anunciad[oa]s?|previst[oa]s?|programad[oa]s?|aplazad[oa]s?|cancelad[oa]s?|publicad[oa]s?|modificad[oa]s?|homologad[oa]s?|vigente|vigor|vence|caduca|sustituye|pagad[oa]s?|abonad[oa]s?|invitad[oa]s?|fundad[oa]s?|convocad[oa]s?|creada|renovad[oa]s?|impres[oa]s?|descargad[oa]s?|consultad[oa]s?|` +
		`aangemeld|geboekte?|bestelde?|aangevraagde?|ingediende?|herziene?|aangekondigde?|geplande?|uitgestelde?|verplaatste?|geannuleerde?|gepubliceerde?|gewijzigde?|vastgestelde?|goedgekeurde?|geldig|vervalt|verloopt|vervangt|betaalde?|voldaan|uitgenodigde?|schreef|opgerichte?|verlengde?|besproken|afgedrukte?|geprinte?|gedownloade?|geraadpleegde?|werking`)},
	{eventThing, whole(`courses?|seminars?|workshops?|webinars?|conferences?|congress(?:es)?|symposium|lectures?|talks?|meetings?|sessions?|training|class(?:es)?|evenings?|afternoons?|mornings?|days?|lessons?|exercises?|briefings?|attendance|participation|presentation|forum|examinations?|exams?|tests?|assessment|module|` +
		`\w*(?:kurse?s?|seminars?|seminare|lehrgangs?|tagung|schulung|veranstaltung|sitzung|vortrags?|fortbildung|weiterbildung|unterweisung|termine?|treffens?|versammlung|abende?|teilnahme|prufung|kongress|unterricht|ubung)|anwesenheit|` +
		`formations?|stages?|journees?|seminaires?|ateliers?|reunions?|congres|colloque|cours|seances?|soirees?|rencontres?|examen|epreuves?|presence|` +
		`cursos?|taller(?:es)?|jornadas?|seminarios?|sesion(?:es)?|congreso|ponencias?|conferencias?|charlas?|clases?|formacion|asistencia|participacion|pruebas?|diplomado|` +
		`cursus|opleiding|\w*(?:dagen|middagen|avonden|avond|bijeenkomst|bijeenkomsten|vergadering|scholing|lezing|congres)|studiedag|sessies?|lessen|leergang|deelname|aanwezigheid`)},
	{otherThing, whole(`register|codes?|code|regelwerks?|arbeitsblatts?|merkblatts?|registration|enrol\w*|application|order|booking|reservation|letter|e-mail|email|message|invitation|contract|agreement|act|law|regulations?|rules|decree|standard|edition|version|directive|by-laws|bylaws|statutes?|decision|resolution|approval|accreditation|recognition|permit|licen[cs]e|invoice|payment|offer|quotation|consent|acceptance|reply|proposal|request|policy|access|insurance|deadline|expiry|validity|renewal|election|wahl|appointment|birth|minutes|notice|draft|amendment|guidelines?|notification|abstract|manuscript|submission|cover|budget|` +
		`\w*(?:gesetz|gesetzes|ordnung|verordnung|richtlinie|satzung|erlass|erlasses|bescheid|beschluss|vertrags?|vertrages|vereinbarung|schreibens?|antrags?|anmeldung|bestellung|buchung|einladung|zulassung|anerkennung|akkreditierung|genehmigung|zusage|absage|angebots?|rechnung|zahlung|eingang|fassung|gultigkeit|frist|protokolls?|geburt|auflage|bekanntmachung|mitteilung|nachricht|auftrags?|ernennung|kundigung|versicherung|anfrage|zustimmung|verfugung|stellungnahme)|brief|brief(?:s|es)|mail|norm|ausgabe|` +
		`loi|decret|arrete|reglement|ordonnance|directive|circulaire|norme|convention|collective|accord|contrat|avenant|lettre|courrier|courriel|demande|candidature|commande|reservation|inscription|devis|facture|paiement|virement|agrement|autorisation|homologation|deliberation|avis|reponse|proposition|validite|echeance|naissance|nomination|bulletin|statuts|` +
		`ley|decreto|orden|reglamento|resolucion|directiva|norma|convenio|contrato|acuerdo|carta|correo|mensaje|solicitud|matricula|inscripcion|reserva|pedido|presupuesto|factura|pago|transferencia|acreditacion|autorizacion|homologacion|registro|invitacion|respuesta|propuesta|validez|vencimiento|caducidad|nacimiento|nombramiento|estatutos|poliza|boletin|` +
		`\w*(?:wet|besluit|regeling|overeenkomst|aanvraag|inschrijving|aanmelding|bestelling|boeking|reservering|accreditatie|erkenning|vergunning|beschikking|uitnodiging)|richtlijn|bericht|offerte|factuur|betaling|toegang|antwoord|voorstel|geldigheid|geboorte|benoeming|versie|verslag|notulen|statuten|polis`)},
}

// joinedWords are phrases that count as one word of a clause.
var joinedWords = strings.NewReplacer("took place", "tookplace", "takes place", "tookplace", "taking place", "tookplace", "taken place", "tookplace", "took part", "tookplace", "taken part", "tookplace", "taking part", "tookplace", "in force", "inforce", "into force", "inforce",
	"eu lieu", "tookplace", "eut lieu", "tookplace", "pris part", "tookplace", "prit part", "tookplace", "tenu lieu", "tookplace", "tuvo lugar", "tookplace", "tenido lugar", "tookplace", "tomo parte", "tookplace", "with us", "attended", "among us", "attended", "in dienst", "employed", "in our employment", "employed", "in our employ", "employed", "signed in", "attended", "checked in", "attended",
	"class meets", "class tookplace", "course meets", "course tookplace", "workshop meets", "workshop tookplace", "seminar meets", "seminar tookplace")

// kindOfWord tells what a folded word is.
func kindOfWord(w string) wordKind {
	for _, k := range wordKinds {
		if k.fits.MatchString(w) {
			return k.kind
		}
	}
	return plainWord
}

// clauseWords parts a folded clause into its words; figures are none.
func clauseWords(clause string) []string {
	return strings.FieldsFunc(joinedWords.Replace(clause), func(r rune) bool { return !unicode.IsLetter(r) && r != '-' && r != '\'' })
}

var (
	// clauseBegins is where what a day depends on cannot stand further ahead.
	clauseBegins = matching(`[.!?;:]\s+|\s[-·•|]\s|\t|\n|\(|\)|\b(?:that|which|who|whose|dass|welche[rs]?|que|qui|quien|dat|nachdem|after|nadat|apres|tras)\s|,\s(?:who|der|die|das|den|dem|deren|dont|die|wat|hat|ist|war|wurde|heeft|is|werd|was|has|had|a|ha|fue)\s`)
	// clauseEnds is where it cannot stand further behind.
	clauseEnds = matching(`[.!?;]\s|[.!?;]$|\s[-·•|]\s|\t|\n|\(|\)|,\s|\b(?:that|which|who|und|and|et|y|en)\s`)
	// behindMark is a mark right behind a day.
	behindMark = matching(`^ ?[·•|–—] `)
	// genitive ends in front of a day that belongs to the noun ahead of it.
	genitive = matching(`(?:^|[\s,("])(?:of|of the|vom|von|du|de|del|dated|d\.d\.|dd\.?|van|en date du|de fecha|con fecha(?: de)?|gedateerd|datiert)\s*$`)
	// smallBefore are words between a verb or noun and its day.
	smallBefore = words(`on|the|am|den|an|der|im|in|vom|von|zum|seit|ab|bis|le|les|du|des|de|del|el|los|dia|dias|al|op|van|vanaf|sinds|of|from|for|since|as|until|till|between|this|day|dated|d|only|already|first|originally|bereits|erst|nur|fur|pour|para|voor|mon|monday|tuesday|wednesday|thursday|friday|saturday|sunday|montag|dienstag|mittwoch|donnerstag|freitag|samstag|sonntag|lundi|mardi|mercredi|jeudi|vendredi|samedi|dimanche|lunes|martes|miercoles|jueves|viernes|sabado|domingo|maandag|dinsdag|woensdag|donderdag|vrijdag|zaterdag|zondag`)
	// behindVerb are words that stand behind a verb, and not behind what says of a noun how it is.
	behindVerb = words(`the|an?|this|that|these|those|his|her|your|our|their|my|its|by|for|in|at|on|to|as|with|from|until|under|of|and|or|us|me|him|them|you|it|before|after|when|again|also|into|online|only|through|via`)
	// participles are shapes of verbs by which one can be told that is not known.
	participleBefore = matching(`^(?:\w{3,}ed|\w{3,}(?:ad|id)[oa]s?)$`)
	participleBehind = matching(`^(?:ge\w{3,}(?:t|en|d|ten|te|de)|\w{3,}iert(?:e[nrms]?)?|(?:ver|be|ent|er|zer|uber|unter|aus|ab|an|ein|auf|um|vor|zu)\w*(?:ge\w{3,})(?:t|en)|aan\w*ge\w+|in\w*ge\w+)$`)
)

// dependsOn tells what kind of word a day depends on, by what stands before and after it in
// its passage, up to other days.
func dependsOn(before, after string) dependence {
	before, after = " "+fold(tail(before, 170)), fold(head(after, 120))
	from := 0
	for _, m := range clauseBegins.FindAllStringIndex(before, -1) {
		if !shortens(before[:m[0]+1]) {
			from = m[1]
		}
	}
	enclosed := from > 0 && strings.HasSuffix(strings.TrimRight(before[:from], " "), "(")
	before = before[from:]
	adjoins := after != "" && !strings.HasPrefix(strings.TrimLeft(after, " "), ",")
	if m := clauseEnds.FindStringIndex(strings.TrimLeft(after, " ,")); m != nil {
		after = strings.TrimLeft(after, " ,")[:m[0]]
	}
	if behindMark.MatchString(after) {
		after = "" // "9 April · Convention Hall"
	}
	ahead, behind := clauseWords(before), clauseWords(after)
	return hangsOn(before, ahead, behind, adjoins, enclosed)
}

// hangsOn does the same with the words of the clause: adjoins says that those behind follow the
// day at once, enclosed that the clause stands in brackets.
func hangsOn(before string, ahead, behind []string, adjoins, enclosed bool) dependence {
	if genitive.MatchString(before) {
		if d := ofNoun(ahead); d != onNothing {
			return d
		}
		if n := len(ahead); n > 1 && n < 4 && enclosed {
			return onUnknown // "(Vorlage vom 3. Mai 2026)"
		}
	}
	for len(ahead) > 0 && smallBefore.MatchString(ahead[len(ahead)-1]) {
		ahead = ahead[:len(ahead)-1]
	}
	if len(ahead) > 0 {
		if d := governs(kindOfWord(ahead[len(ahead)-1])); d != onNothing {
			return d
		}
	}
	if adjoins && len(behind) > 0 {
		if d := governs(kindOfWord(behind[0])); d != onNothing {
			return d
		}
	}
	if d := nearestVerb(ahead, behind); d != onNothing {
		return d
	}
	if d := nearestThing(ahead, behind); d != onNothing {
		return d
	}
	if len(ahead) > 0 && participleBefore.MatchString(ahead[len(ahead)-1]) || adjoins && len(behind) > 0 && participleBehind.MatchString(behind[len(behind)-1]) {
		return onUnknown
	}
	return onNothing
}

// governs is what a verb makes of a day that stands right beside it.
func governs(k wordKind) dependence {
	switch k {
	case eventVerb:
		return onEvent
	case otherVerb:
		return onOther
	case postVerb:
		return onPost
	case acceptVerb:
		return onAccept
	case awardVerb:
		return onAward
	case hireVerb:
		return onHire
	}
	return onNothing
}

// ofNoun looks for the noun to which a day belongs by the word "of" between them; in the
// Romance languages an adjective may stand behind it.
func ofNoun(ahead []string) dependence {
	for k := 0; len(ahead) > 0 && k < 4; k++ {
		w := ahead[len(ahead)-1]
		ahead = ahead[:len(ahead)-1]
		switch kindOfWord(w) {
		case otherThing:
			return onOther
		case eventThing:
			return onEvent
		case eventVerb, otherVerb, postVerb, acceptVerb, awardVerb, hireVerb:
			return onNothing
		}
	}
	return onNothing
}

// nearestVerb takes the last verb before a day, or else the first behind it. Where a verb of
// each kind stands before it, which of them it belongs to is not known.
func nearestVerb(ahead, behind []string) dependence {
	found := onNothing
	for i, w := range slices.Backward(ahead) {
		d := governs(kindOfWord(w))
		if d == onNothing || d != onEvent && i+1 < len(ahead) && !behindVerb.MatchString(ahead[i+1]) && strings.HasSuffix(w, "ed") {
			continue // "the registered course", "an invited speaker"
		}
		if found == onNothing {
			found = d
		} else if (d == onEvent) != (found == onEvent) {
			return onUnknown
		}
	}
	if found != onNothing {
		return found
	}
	for _, w := range behind {
		d := governs(kindOfWord(w))
		if found == onNothing {
			found = d
		} else if d == onEvent && found != onEvent {
			return onUnknown // "das am 3. Mai vom Verband geplante Seminar besucht"
		}
	}
	return found
}

// nearestThing takes the last noun before a day that an event is called by, or else the noun
// with which the clause begins, or else the first behind the day.
func nearestThing(ahead, behind []string) dependence {
	for _, w := range slices.Backward(ahead) {
		if kindOfWord(w) == eventThing {
			return onEvent
		}
	}
	for _, w := range ahead[:min(3, len(ahead))] {
		if kindOfWord(w) == otherThing {
			return onOther
		}
	}
	for _, w := range behind {
		switch k := kindOfWord(w); {
		case k == eventThing:
			return onEvent
		case k == otherThing && len(ahead) == 0:
			return onOther
		case k == otherThing:
			return onNothing // what comes behind the verb is no subject
		}
	}
	return onNothing
}

// depend gives a day that no label explains the role that its sentence gives it. A word for
// being issued, paid, passed or the like holds where it stands right beside the day.
func (d *day) depend(before, after string, explained, beside bool) {
	open := slices.Contains([]role{noRole, isEvent, isStart, isEnd, isBare, isTime}, d.role)
	if d.role == isIssue && signedIn.MatchString(fold(tail(before, 30))) {
		d.role, d.sure = isEvent, true
	}
	if d.role == isIssue && beside && agreedOn.MatchString(fold(tail(before, 60))) {
		d.role, d.sure = isOther, true // "a contract signed on"
	}
	if explained || movedFrom.MatchString(fold(tail(before, 48))) || !open && beside {
		return
	}
	switch d.hangs = dependsOn(before, after); {
	case d.alone && strings.TrimSpace(before) != "" && len(strings.Fields(before)) < 4: // "Approved, Ann Vey, 3 March 2026"
	case d.hangs == onAccept:
		d.role, d.sure = isAccepted, true
	case d.hangs == onOther || d.hangs == onPost || d.hangs == onAward || d.hangs == onHire:
		d.role, d.sure = isOther, true
	case d.hangs == onEvent && (d.role == isIssue || d.role == isOther):
		d.role, d.sure = isEvent, true
	}
}

// signedIn ends in front of a day on which somebody came.
var signedIn = matching(`\bsigned[ -]in (?:on )?(?:the )?$`)

// agreedOn ends in front of the day of a contract and the like, which is not the paper.
var agreedOn = matching(`(?:\w*vertrag\w*|\w*vereinbarung|contracts?|agreement|convention|contrat|accord|avenant|contrato|convenio|acuerdo|\w*overeenkomst|permit|licen[cs]e|policy)(?: \w+){0,2} (?:signed|concluded|dated|issued|unterzeichnet|unterschrieben|geschlossen|signee?|conclue?|firmad[oa]|suscrit[oa]|getekend|ondertekend|gesloten)(?: (?:on|am|le|el|op))?(?: the)? ?$`)
