package extract

import (
	"strings"

	"evidencevault/extract/find"
)

// cues are words in running text that tell what a day is. The one nearest before
// the day counts; if there is none, the nearest after it.
var cues = []cue{
	{isOther,
		words(`(?:replac(?:es|ing)|supersed(?:es|ing)|ersetzt|remplace|sustituye(?: a)?|vervangt)\b[^.;]{0,70}? (?:dated|of|from|vom|du|del?|van|d\.d\.)|(?:was |were )?founded(?: on| in)?|gegrundet(?: am)?|fondee?s?(?: le)?|fundad[oa](?: el)?|opgericht(?: op)?|born(?: on| in)?|birth|dob|geboren(?: am)?|geb\.(?: am)?|geburtsdatum:?|nee?(?: le)?|naissance|nacid[oa](?: el)?(?: dia)?|nacimiento|geboren op|geboortedatum|valid(?: until| to| through| till| from| up to)?|expir\w+(?: on)?|renew\w*(?: by| on)?|gultig(?: (?:bis|von|vom|ab))?|gultigkeit|valable(?: (?:jusqu'au|du|des le|a partir du))?|valid[oa] (?:hasta|desde|del?)(?: el)?|caduca(?: el)?|vigente hasta|geldig(?: (?:tot|van|vanaf))?|vervalt(?: op)?|due(?: on| by)?|payable(?: by)?|pay by|zahlbar(?: bis)?|fallig(?: am)?|echeance|vence(?: el)?|vencimiento|register(?: by| before)|registration (?:closes|opens|by)(?: on)?|deadline|anmeldeschluss|anmeldung bis|booked(?: on)?|ordered(?: on)?|enrol\w*(?: on)?|registered(?: on)?|gebucht am|angemeldet(?: am)?|inscrite?(?: le)?|inscription du|matriculad[oa](?: el)?|ingeschreven(?: op)?|aangemeld(?: op)?|access (?:from|since)`),
		nil},
	{isOther,
		words(`druckdatum:?|print(?:ed)?(?: on)?|generated(?: on)?|exported(?: on)?|downloaded(?: on)?|as (?:of|at)|last (?:updated?|modified|changed)(?: on)?|updated(?: on)?|version(?: of)?|revision|rev\.?|edition|copyright|©|\(c\)|stand(?: der liste| vom| der \w+)?:?|gedruckt(?: am)?|erzeugt(?: am)?|ausdruck vom|exportiert am|imprimee?(?: le)?|editee?(?: le)?|generee?(?: le)?|mise? a jour(?: le)?|impres[oa](?: el)?|generad[oa](?: el)?|actualizad[oa](?: el| a)?|afgedrukt(?: op)?|geprint(?: op)?|gegenereerd(?: op)?|bijgewerkt(?: op)?|page (?:printed|opened)|received(?: it)?(?: on| by us on)?|submitted(?: on)?|eingegangen(?: am)?|eingereicht(?: am)?|recue?(?: le)?|soumise?(?: le)?|recibid[oa](?: el)?|enviad[oa](?: el)?|ontvangen(?: op)?|ingediend(?: op)?|recorded(?: on)?|(?:your|our|the) (?:letter|e-?mail|application|invoice|order)(?: \S+)?(?: of| dated| from)?|invoice(?: \S+){1,3} (?:of|dated)|(?:rechnung|facture|factura|factuur)(?: \S+){1,3} (?:vom|du|de|van)|ihr (?:schreiben|antrag|e-mail) vom|votre (?:lettre|courrier|demande) du|uw (?:brief|aanvraag) van|(?:act|law|decree|regulations?|rules|statutes?|by-?laws|\S*gesetz|\S*ordnung|satzung|richtlinie|loi|decret|reglement|arrete|ley|reglamento|real decreto|wet|regeling|besluit)(?: (?:de l'|d'|de la |des |de los |of the |van het |van de |der )\p{L}+)? (?:of|vom|du|del?|van)|insured until|jury reuni le|(?:unsere[rm]?|ihre[rm]?|der|zur|meine[rm]?) (?:rechnung|bestellung|buchung|anfrage)(?: \S+){0,2} (?:vom|am)|(?:next|previous|last|earlier) (?:session|meeting|exam\w*)(?: on| held on| of)?|letzte[rn]? (?:sitzung|versammlung)(?: am| vom)?|nachste sitzung(?: am)?`),
		nil},
	{isOther, // until when something holds, and what was tried before
		words(`(?:cycle|period|file|window|register)(?: \w+)? (?:closes|ends|expires)(?: on)?|(?:zyklus|periode|zeitraum|kursperiode) endet(?: am)?|(?:cycle|periode) (?:se termine|s'acheve)(?: le)?|(?:ciclo|periodo) (?:termina|finaliza|cierra)(?: el)?|(?:cyclus|periode) (?:eindigt|sluit)(?: op)?|runs? out(?: on)?|lauft (?:am|ab am)|verfallt(?: am)?|loopt af(?: op)?|verloopt(?: op)?|(?:earlier|previous|prior|failed|unsuccessful) (?:attempt|try|sitting)(?: on| of| was)?|(?:fruhere[rn]?|vorherige[rn]?|erfolglose[rn]?) (?:versuchs?|antritts?|prufung)(?: am| vom)?|(?:precedente|premiere) tentative(?: du| le)?|tentative (?:precedente|anterieure)(?: du| le)?|(?:intento|convocatoria) anterior(?: del?| el)?|(?:eerdere?|vorige) (?:poging|kans)(?: op| van)?`),
		nil},
	{isOther, // another meeting than the one the minutes are of, and days by which something is to be done
		words(`(?:acces|access|zugang|acceso|toegang) (?:maintenu |ouvert |possible |valable |garanti |available |open |offen |gewahrt |moglich |abiert[oa] |disponible |geldig )?(?:jusqu'?au|until|ends?(?: on)?|expires?(?: on)?|closes?(?: on)?|bis(?: zum)?|hasta(?: el)?|tot(?: en met)?)|the minutes (?:of|from)(?: the (?:meeting|session)(?: of| on| held on)?)?|(?:das protokoll|die niederschrift) (?:vom|der sitzung vom)|(?:le compte rendu|le proces-verbal) du|(?:el )?acta del?|de notulen van|(?:previous|last|preceding|next) (?:meeting|minutes|session)(?: (?:of|held|on|is|will be|held on|is on|will be held on))?|(?:approval|approved|adoption|adopted)(?: of)? the minutes.{0,60}?(?: of| on| dated)?|approbation du (?:compte rendu|proces-verbal|pv).{0,60}?(?: du| le)?|(?:compte rendu|proces-verbal|pv|reunion|seance) precedente?(?: du| le)?|prochaine (?:reunion|seance|rencontre)(?: aura lieu| se tiendra)?(?: le)?|(?:lectura y )?aprobacion del acta.{0,60}?(?: del?)?|(?:acta|sesion|reunion) anterior(?: del?)?|proxima (?:reunion|sesion)(?: (?:sera|tendra lugar))?(?: el)?|(?:vorige|volgende|eerstvolgende) (?:vergadering|bijeenkomst)(?: (?:van|op|is op|vindt plaats op))?|(?:goedkeuring|vaststelling)(?: van)?(?: het| de)? (?:notulen|verslag).{0,60}?(?: van| d\.d\.)?|(?:letzte[nr]?|vorige[nr]?|nachste[nr]?) (?:sitzung|treffen|versammlung)(?: (?:vom|am|ist am|findet am))?|genehmigung des protokolls.{0,60}?(?: vom| am)?|d'ici (?:le|au)|au plus tard le|avant le|antes del|a mas tardar el|uiterlijk(?: op| voor)?|spatestens(?: bis)?(?: zum| am)?|(?:no|not) later than`),
		nil},
	{isPaid,
		words(`paid(?: with thanks| in full)?(?: on| by \w+(?: on)?| by .{2,40} on)?|(?:by )?card (?:ending|no\.?) \S+ on|payment (?:received|date|made)(?: on)?|charged(?: on)?|bezahlt(?: am)?|beglichen(?: am)?|uberwiesen am|zahlung(?:seingang)?(?: am| vom)?|dankend erhalten(?: am)?|payee?(?: le| par \w+(?: bancaire)? le)?|reglee?(?: le)?|acquittee?(?: le)?|pagad[oa](?: el)?|abonad[oa](?: el)?|betaald(?: op)?|voldaan(?: op)?`),
		words(`bezahlt|beglichen|eingegangen|erhalten|uberwiesen|voldaan|betaald`)},
	{isIssue,
		words(`date du|datee du|date le|fechad[oa](?: el| a)?|datiert(?: vom| auf)?|gedateerd(?: op)?|uitgegeven(?: op)?|(?:card|record|list|sheet|kaart|lijst|register|karte|liste|carte|fiche|hoja|ficha) (?:closed|afgesloten|geschlossen|abgeschlossen|close|arretee?|cerrad[oa])(?: (?:on|op|am|le|el))?|(?:emitid[oa]|expedid[oa]|extendid[oa]|librad[oa]|issued|delivree?|etablie?|ausgestellt|afgegeven) (?:a (?:instancia|peticion|solicitud)|at the request|a la demande|sur demande|auf (?:wunsch|antrag)|op verzoek) (?:del?|of|du|de la|de l'|der|des|von|van) [^,.;0-9]{2,40}?,? (?:el|on|le|am|op)|(?:for|pour|fur|por|voor) (?:the|le|la|l'|den|die|das|el|de|het) ?[^,.;0-9]{2,40}, (?:on|le|am|den|el|op)|(?:given|done|made|dated|signed|gegeben|gegeven|gedaan|opgemaakt|geschehen|dado|dada|fait) (?:at|in|zu|te|en|a) [^,.;0-9]{2,40}?,?(?: (?:on|am|op|el|le|a|den))?(?: \p{L}+,)?|(?:certificate|slip|statement|document|letter|record|card|receipt|confirmation|report|transcript|list)? ?(?:date )?(?:issued|signed|stamped|dated|made out|prepared|verified|certified(?: (?:as )?(?:true|correct)(?: copy)?)?|confirmed|released|sent|handed (?:over|out)|drawn up|witnessed|written (?:out|up)|typed (?:out|up)|copied out|sealed|given under (?:\w+ ){1,3}(?:hand|seal)(?: of .{3,60}?)?(?: at [^,]{2,30},?)?(?: on| this)?|countersigned|attested)(?: off)?(?: and (?:signed|stamped|sealed|dated|issued))?(?: to \w+)?(?: (?:at|in) [^,]{2,30},?)?(?: this| the| on| by [^,]{3,60}?,?| by .{3,80},)*(?: on)?|date of (?:issue|signature|certificate|letter)|issue date|issued|(?:invoice|receipt|letter|certificate|record|statement) date|date issued|(?:record|card|log(?:book)?|sheet|list|register|file|book) closed(?: on)?|closed on|certified (?:as )?(?:an? )?(?:true |correct )+(?:copy|extract|record|statement)(?: (?:of|from) [^.]{3,60})?,?|certified for [^,]{3,50}|signed for [^,]{3,50}`),
		words(`dated|issued`)},
	{isIssue,
		words(`(?:fait|delivre|etabli)e? pour (?:valoir|servir) [^.]{4,60}?,? (?:a [^,]{2,30},? )?le|ausgestellt(?: am| in \w+ am)?|(?:aus|an)?gefertigt(?: am)?|aufgestellt(?::? [\w-]+,)?(?: am)?|ausgegeben(?: am)?|ausgehandigt(?: am)?|ubergeben(?: am)?|erstellt(?: am)?|unterzeichnet(?: am)?|unterschrieben(?: am)?|gezeichnet(?: am)?|gestempelt(?: am)?|bescheinigt(?: am)?|bestatigt(?: am)?|versandt(?: am)?|rechnungsdatum|ausstellungsdatum|ausstellungstag|datum der ausstellung|rechnung vom|fait(?: et signe)?(?: a [^,]{2,30},?)?(?: le)?|delivree?(?: a [^,]{2,30},?)?(?: le)?|emise?(?: le)?|etablie?(?: a [^,]{2,30},?)?(?: le)?|signee?(?: a [^,]{2,30},?)?(?: le)?|remise?(?: le)?|expedid[oa](?: en [^,]{2,30},?)?(?: a| el)?|emitid[oa](?: el)?|firmad[oa](?: digitalmente)?(?: en [^,]{2,30},?)?(?: a| el)?|(?:se |la presente se )?(?:expide|extiende|firmo|firma|suscribe)(?: en [^,]{2,30},?)?(?: a| el)?|dad[oa] en [^,]{2,30},?(?: a| el)?|extendid[oa](?: el)?|fecha de (?:emision|expedicion|factura)|(?:y para que (?:asi )?conste|lo que se certifica).{0,90}?(?: a| el)|uitgereikt(?: te [^,]{2,30},?)?(?: op)?|afgeleverd(?: te [^,]{2,30},?)?(?: op)?|afgegeven(?: te [^,]{2,30},?)?(?: op)?|opgemaakt(?: te [^,]{2,30},?)?(?: op)?|opgesteld(?: op)?|ondertekend(?: te [^,]{2,30},?)?(?: op)?|getekend(?: te [^,]{2,30},?)?(?: op)?|verstrekt(?: op)?|factuurdatum|datum (?:van )?(?:afgifte|uitgifte)|verzonden(?: op)?|bevestigd(?: op)?`),
		words(`ausgestellt|ausgefertigt|ausgegeben|ausgehandigt|unterzeichnet|uitgereikt|afgegeven|opgemaakt|ondertekend`)},
	{isAward, words(`(?:is |was |been )?(?:awarded|conferred|granted|bestowed)(?: on| to \w+ on)?|verliehen(?: (?:zu|in) [\w-]+)?(?: am)?|decernee?(?: le)?|otorgad[oa](?: el)?|concedid[oa](?: el)?|toegekend(?: op)?`),
		words(`verliehen|toegekend`)},
	{isExam, words(`(?:all (?:of them |three )?|both )?(?:taken|sat)(?: (?:here|together))? on|met goed gevolg|examination(?: was)?(?: passed| held| taken| sat)?(?: on)?|exam(?: passed| taken| sat)?(?: on)?|passed(?: the [^.]{3,80}?)?(?: on)?|examined(?: on)?|prufung(?: am| vom)?|gepruft(?: am)?|examen(?: du| del?| van| op)?|epreuves?(?: du)?|superad[oa](?: el)?|el dia|reussi(?: le)?|geslaagd(?: op)?|afgelegd(?: op)?|abgelegt(?: am)?|bestanden(?: am)?`),
		words(`die \w*prufung|(?:met goed gevolg )?(?:het )?(?:[a-z-]+ )?examen (?:heeft|hebt|is|werd) (?:afgelegd|gedaan)|the (?:[a-z]+ ){0,2}exam(?:ination)?|an? exam(?:ination)?|l'examen|el examen|het (?:[a-z-]+[ -])?examen|bestanden(?:e[nrms]?)?|abgelegt(?:e[nrms]?)?|geslaagd|afgelegde?`)},
	{isAccepted, words(`accepted(?: for publication)?(?: on)?|acceptance(?: on| date)?|acceptee?(?: pour publication)?(?: le)?|aceptad[oa](?: para su publicacion)?(?: el)?|angenommen(?: am)?|geaccepteerd(?: op)?|aanvaard(?: op)?|zur veroffentlichung(?: am)?`),
		words(`(?:zur veroffentlichung )?angenommen|geaccepteerd|aanvaard|accepted`)},
	{isPublished, words(`erscheinungs(?:tag|datum):?|(?:date of publication|publication date):?|published(?: on| in [^.]{3,60}? on)?|appeared(?: on| in)?|paru[e]?(?: le| dans [^.]{3,60}? le)?|publiee?(?: le)?|publicad[oa](?: el)?|erschienen(?: am)?|veroffentlicht(?: am)?|verschenen(?: op)?|gepubliceerd(?: op)?|geplaatst op|(?:which|that|die|das|dat|qui|que) (?:came out|appeared|erschien|verscheen|uitkwam|est parue?|a paru|aparecio|salio)(?: on| am| op| le| el)?`),
		words(`erschienen|erschien|veroffentlicht|verschenen|verscheen|uitkwam|uitgekomen|gepubliceerd|geplaatst`)},
	{isFinish, words(`complet(?:ed|ion)(?: it)?(?: on| date)?|finish(?:ed)?(?: on)?|achieved on|concluded on|abgeschlossen(?: am)?|beendet(?: am)?|absolviert(?: am)?|terminee?(?: le)?|achevee?(?: le)?|finalizad[oa](?: el)?|(?:concluyo|finalizo|termino|completo|culmino|concluiste|finalizaste|terminaste|completaste|acabaste)(?: el)?|acheva(?: le)?|completad[oa](?: el)?|terminad[oa](?: el)?|concluid[oa](?: el)?|afgerond(?: op)?|voltooid(?: op)?`),
		words(`(?:erfolgreich )?(?:abgeschlossen|beendet|absolviert)|(?:met goed gevolg )?(?:afgerond|voltooid)|(?:concluiste|finalizaste|terminaste|completaste|acabaste|superaste|has (?:completado|terminado|finalizado|superado)|completo usted|usted completo)|vous avez (?:termine|acheve|fini)|rondde(?:t|n)?(?: \S+){0,12}? af`)},
	{isStart, words(`since|starts?(?: on)?|start(?:et|t)? (?:op|am|le|el)|starting(?: on)?|beginning(?: on)?|begins?(?: on)?|began(?: on)?|begun(?: on)?|started(?: on)?|commenced(?: on)?|from|first (?:class|session|day|evening)(?: on| was)?|effective|with effect from|seit(?: dem)?|ab(?: dem)?|beginnt am|beginn(?: am)?|depuis(?: le)?|a (?:partir|compter) du|debute? le|debut(?: le)?|desde(?: el)?|a partir del?|(?:inicio|inicia|comienza|empieza|comenzo|empezo|iniciaste|comenzaste|empezaste|iniciado|comenzado|empezado)(?: el)?|(?:commence|entame|entrepris)e?(?: le)?|angefangen am|begonnen (?:am|op)|begon(?: op)?|sinds|vanaf|met ingang van|per|begint op|aanvang|joined(?: us)?(?: on)?|eingetreten am|entree? le|erste[rsn]? (?:termin|abend|tag|kurstag|vorlesung|sitzung)(?: am| war(?: am)?)?|premier(?:e seance| cours| jour|e session)(?: le)?|primera? (?:sesion|clase|dia)(?: el)?|eerste (?:les|avond|bijeenkomst|dag)(?: op)?`),
		words(`begonnen|gestartet|gestart|aangevangen|commencee?|empezo|comenzo`)},
	{isEnd, words(`until|till|up to|through|ended(?: on)?|ends?(?: on)?|last (?:class|session|day|evening)(?: on| was)?|left (?:us )?on|bis(?: zum)?|endet(?:e)? am|jusqu'au|prend fin le|hasta(?: el)?|tot(?: en met)?|t/m|eindigt op|ausgeschieden am|letzte[rsn]? (?:termin|abend|tag|kurstag|vorlesung|sitzung)(?: am| war(?: am)?)?|dernier(?:e seance| cours| jour|e session)(?: le)?|ultim[oa] (?:sesion|clase|dia)(?: el)?|laatste (?:les|avond|bijeenkomst|dag)(?: op)?`), nil},
	{isEvent, words(`on|con fecha(?: del?)?|en date du|held(?: at [^,.]{3,60}?)?,?(?: on)?|took place(?: on)?|attended(?: on)?|delivered(?: on)?|dates?|during|between|of|am|vom|an den tagen|durchgefuhrt|stattgefunden|termine?|tag|leistungszeitraum|zeitraum|les?|du|des|en date du|el|los(?: dias)?|del?|celebrad[oa](?:s)?(?: el| los dias)?|impartid[oa](?: el)?|realizad[oa](?: el)?|op|gehouden(?: op)?|van|data`),
		words(`teilgenommen|besucht|stattgefunden|durchgefuhrt|gehalten|deelgenomen|bijgewoond|gevolgd|gegeven|gehouden|bezocht`)},
}

var sentenceEnd = matching(`[.!?;]\s+[^\sa-z]|\s[·•|]\s|\t|\n|\)\s*$`)

// nextSentence is where another sentence begins with a capital behind a word.
var nextSentence = matching(`\p{Ll}{3,}([.!?])\s+\p{Lu}`)

// newborn is a noun that holds the word for being born.
var newborn = matching(`[a-z]-nee?s?\b`)

// cameThrough is a way somebody went, which ends nothing.
var cameThrough = matching(`\b(?:com(?:e|es|ing)|came|go(?:es|ing)?|went|gone|travel(?:s|led|ling)?|driv(?:e|es|ing)|drove|journey(?:ed|ing)?|walk(?:ed|ing)?|mov(?:e|ed|ing)|mak(?:e|ing) the (?:trip|journey)|made the (?:trip|journey)) (?:(?:all the way )?(?:up|over|down|out|through|across)(?: to)?|all the way to)\b`)

// cueOf returns the role that the running text gives a day: before and after are
// what stands on either side of it in its passage; near that the words stand close by, beside
// that they stand right before it.
func cueOf(before, after string) (r role, near, beside bool) {
	before = cameThrough.ReplaceAllString(newborn.ReplaceAllString(fold(tail(before, 140)), " "), " ")
	if i := lastMatch(sentenceEnd, before); i > 0 {
		if cut := before[max(0, i-1):]; !shortens(before[:i]) {
			before = cut
		}
	}
	best, bestEnd := noRole, -1
	for _, c := range allCues {
		if end := lastMatch(c.before, before+" "); end > bestEnd {
			best, bestEnd = c.role, end
		}
	}
	after = head(after, 110)
	if m := nextSentence.FindStringSubmatchIndex(after); m != nil {
		after = after[:m[2]]
	}
	after = fold(after)
	if d := find.Dates(after, nil); len(d) > 0 {
		first := strings.IndexByte(after[1:]+" ", ' ') + 1
		after = after[:max(0, min(first, len(after)), d[0].From-16)] // what stands right before the next day speaks of that one
	}
	if m := sentenceEnd.FindStringIndex(after); m != nil {
		after = after[:m[0]]
	}
	late, lateStart := noRole, len(after)+1
	for _, c := range allCues {
		if c.after == nil {
			continue
		}
		if m := c.after.FindStringIndex(" " + after + " "); m != nil && m[0] < lateStart {
			late, lateStart = c.role, m[0]
		}
	}
	beside = bestEnd >= len(before)-2
	switch {
	case best == noRole:
		return late, late != noRole, false
	case best == isEvent && late != noRole && late != isEvent:
		return late, true, false
	}
	return best, beside || len(before)-bestEnd < 45, beside
}

var shortened = words(`dr\.|mr\.|mrs\.|ms\.|prof\.|dipl\.|ing\.|nr\.|no\.|geb\.|st\.|e\. ?v\.|dhr\.|mevr\.|mme\.|[0-9]{1,2}\.`)

func shortens(text string) bool {
	i := strings.LastIndexByte(strings.TrimRight(text, " abcdefghijklmnopqrstuvwxyz"), ' ')
	return shortened.MatchString(text[i+1:])
}

// tail returns the last n bytes of text or a little less, from the begin of a rune.
func tail(text string, n int) string {
	if len(text) <= n {
		return text
	}
	return strings.ToValidUTF8(text[len(text)-n:], "")
}

// head returns the first n bytes of text or a little less.
func head(text string, n int) string {
	if len(text) <= n {
		return text
	}
	return strings.ToValidUTF8(text[:n], "")
}
