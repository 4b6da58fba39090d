package extract

import "slices"

// A cue is what words in running text make of a day that they stand before, or behind.
type cue struct {
	role          role
	before, after *pattern
}

// viewed are words for a list or a page that was looked at, drawn from a register or let run: what
// it shows is older.
const viewed = `(?:report|list|query|export|page|statement|extract|transcript|record) (?:was )?(?:run|pulled|viewed|opened|shown)|queried|extracted|called up|looked up|run date|date run|query date|` +
	`(?:seite |liste |daten |auszug |bericht )?(?:abgerufen|aufgerufen|abgefragt|eingesehen|heruntergeladen)|abruf(?:datum|tag)?|abfrage(?:datum)?|datenstand|datenabzug|` +
	`(?:page |liste |releve |donnees )?(?:consultee?s?|affichee?s?|extraite?s?|telechargee?s?|interrogee?s?)|date (?:de consultation|d'extraction|de telechargement|de l'extraction)|` +
	`(?:pagina |lista |listado |datos )?(?:consultad[oa]s?|descargad[oa]s?|extraid[oa]s?)|pagina visualizada|fecha de (?:consulta|descarga|extraccion)|` +
	`(?:pagina |lijst |gegevens )?(?:opgevraagd|geraadpleegd|opgehaald|gedownload)|(?:pagina|lijst) bekeken|peildatum|opvraagdatum|raadpleegdatum`

// made are verbs for making a paper, certifying it or handing it over.
const made = `(?:aus|an)?gefertigt|written (?:out|up)|typed (?:out|up)|copied out|niedergeschrieben|aufgesetzt|redigee?s?|mise?s? au net|redactad[oa]s?|levantad[oa]s?|pasad[oa]s? a limpio|uitgeschreven|uitgewerkt|op schrift gesteld|issued|signed|certified|attested|confirmed|released|stamped|sealed|drawn up|made out|handed (?:over|out)(?: in person)?|closed|filled in|(?:form|slip|sheet|questionnaire|declaration|section) completed|completed truthfully|truthfully completed|` +
	`ausgestellt|(?:personlich )?ausgehandigt|(?:personlich )?ubergeben|ausgefertigt|unterzeichnet|unterschrieben|bescheinigt|bestatigt|beglaubigt|abgezeichnet|abgestempelt|(?:wahrheitsgemass |nach bestem wissen )?ausgefullt|abgeschlossen und unterschrieben|` +
	`delivree?s?|remise?s?(?: en mains? propres?)?|certifiee?s?(?: conforme| exacte?| sincere)?|etablie?s?|visee?s?|arretee?s?(?: et (?:signee?s?|certifiee?s?|closes?|clos))?|remplie?s?|signee?s?|tamponnee?s?|validee?s? et signee?s?|` +
	`expedid[oa]s?|entregad[oa]s?(?: en mano)?|certificad[oa]s?|firmad[oa]s?|sellad[oa]s?|extendid[oa]s?|cumplimentad[oa]s?|rellenad[oa]s?|compulsad[oa]s?|` +
	`afgegeven|overhandigd|uitgereikt|ondertekend|getekend|gewaarmerkt|afgestempeld|bekrachtigd|(?:naar waarheid )?ingevuld|opgemaakt en getekend`

// closedRecord is a record of one person, or the minutes, that was drawn up or closed.
const closedRecord = `(?:the |this )?(?:record|minutes|register|report|sheet|transcript|log|file) (?:was|were|is|are|has been|have been) (?:closed|drawn up|completed|sealed|signed off|signed)|` +
	`(?:le |ce |la |cette )?(?:proces-verbal|pv|registre|releve|dossier|feuille|fiche)(?: (?:individuelle?|d[eu]? [^.;,0-9]{2,30}?))?(?: (?:a ete|est|fut))? (?:clos|close|arretee?|cloturee?|dressee?)|` +
	`(?:el |la |est[ae] )?(?:presente )?(?:acta|expediente|registro|ficha|hoja)(?: individual)?(?: se (?:cerro|cierra|levanto|levanta|extendio|extiende)| (?:fue |ha sido |queda |quedo )?(?:cerrad|levantad|extendid)[oa])|se (?:levanto|levanta) (?:la |el )?(?:presente )?acta|` +
	`(?:het |dit |de |deze )?(?:proces-verbaal|verslag|register|dossier|staat|lijst)(?: (?:is|werd|wordt))? (?:gesloten|afgesloten|opgemaakt|vastgelegd)`

// agent is who made a paper, in a few words.
const agent = `[^ .;,0-9]{2,20}(?: [^ .;,0-9]{1,20}){0,4}?`

// asked stands in front of who wanted a paper.
const asked = `(?:at the request of|(?:up)?on request of|for|to|auf (?:wunsch|antrag|verlangen)|a la demande de|sur demande de|a (?:solicitud|peticion|instancias) del?|op verzoek van)`

// examGiven is an examination with the verb for its being held.
const examGiven = `(?:exam(?:ination)?|test|assessment|viva|\S*prufung|examen|epreuves?|prueba|toets)(?: [^ .;,:0-9]{2,16}){0,2}? (?:given|held|taken|sat|administered|abgehalten|abgelegt|durchgefuhrt|organisee?s?|tenue?s?|subie?s?|passee?s?|celebrad[oa]|rendid[oa]|realizad[oa]|afgelegd|gehouden|afgenomen)`

// dayCues come before [cues], which hold the plain words.
var dayCues = []cue{
	{isExam, words(`(?:a l'issue de|lors de|apres) l'(?:examen|epreuve)(?: du| des)?|(?:all|both|each|three|two) of them (?:taken|sat) on|(?:examination|exam|papers?|tests?|oral|rope test)[^.;]{0,40}(?:taken|sat)(?: together)? on`), words(`met goed gevolg (?:het )?(?:\S+ )?examen (?:heeft|hebt|is|werd) (?:afgelegd|gedaan)|met goed gevolg geexamineerd`)},
	{isOther, words(`(?:term|semester|trimester|season|school year|classes|trimestre|semestre|schuljahr) (?:starts?|begins?|ends?|beginnt|endet|commence|empieza|comienza|begint|eindigt)(?: on| am| le| el| op)?`), nil},
	{isIssue, words(`(?:certifi|reconnu)ee?s? (?:conformes?|exacte?s?) (?:aux?|a la|a l'|avec) ?[^.;,0-9]{3,40},? le|(?:certificad|cotejad)[oa]s? (?:conforme|con) [^.;,0-9]{3,40},? el`), nil},
	{isExam, words(examGiven + ` (?:at|in|zu|a|en|te) [^.;,0-9]{2,40}?,? (?:on(?: the)?|am|le|el(?: dia)?|op)`), nil},
	{isEvent, words(taughtThing + ` (?:given|held|taught|donnee?s?|tenue?s?|dad[oa]s?|impartid[oa]s?|gegeven|gehouden|gegeben|gehalten) (?:at|in|zu|a|en|te) [^.;,0-9]{2,40}?,? (?:on(?: the)?|am|le|el(?: dia)?|op)`), nil},
	{isOther, words(`(?:bookings?|registrations?|applications?|enrolments?|entries|waiting|guest|ticket)(?: (?:list|book|register|desk|period|sales?))? (?:was |were |is |are |has |have )?(?:been )?(?:closed?|opened?)(?: on)?|inscriptions? (?:sont |ont ete |etaient )?(?:closes?|cloturees?|ouvertes?)(?: (?:le|depuis le))?|(?:inscripcion(?:es)?|matricula)(?: se)? (?:cerro|cerraron|abrio|abrieron|cerrad[oa]s?)(?: el)?|(?:inschrijving(?:en)?|aanmelding(?:en)?) (?:is |zijn |werd |werden )?(?:sloot|sloten|gesloten|geopend)(?: op)?`), nil},
	{isOther, words(`(?:` + viewed + `)(?: (?:on|at|am|vom|le|el|op))?:?`), words(`abgerufen|aufgerufen|abgefragt|eingesehen|opgevraagd|geraadpleegd|opgehaald`)},
	{isOther, words(unpaper + `(?: (?:ist|is|was|est|esta|wurde|a ete|fue))? (?:datiert(?: vom| auf)?|dated|datee?s?(?: du)?|date du|fechad[oa](?: el| a)?|con fecha(?: de| del)?|dateert(?: van)?|gedateerd(?: op)?)`), nil},
	{isOther, words(`(?:matters|points|actions|items) (?:arising|open|outstanding|carried)(?: over)?(?: from| of)?(?: the meeting)?(?: (?:of|on|held on))?|(?:offene )?punkte (?:aus|von|vom)(?: der (?:letzten )?sitzung)?(?: vom)?|suites (?:de la (?:reunion|seance) )?du|(?:asuntos|puntos) pendientes(?: de la (?:reunion|sesion))?(?: del?)?|(?:actie|aandachts)punten (?:van|uit)(?: de (?:vergadering|bijeenkomst))?(?: van)?`), nil},
	{isOther, words(approvalOf + ` (?:vom|of|dated|du|del?|van|d\.d\.)`), nil},
	{isOther, words(`(?:rec'?d|recd|rcvd|exp)\.?(?: (?:on|date))?:?|date of receipt|no refunds? after|(?:withdrawals|cancellations) (?:up to|until|after)`), nil},
	{isOther, words(`(?:the |our |der |die |das |la |le |el )?(?:next|nachste[rsn]?|kommende[rsn]?|prochaine?|proxim[oa]) (?:[^ .;,:0-9]{2,24} ){1,3}?(?:is(?: on)?|on|will be(?: held)?(?: on)?|takes place on|ist(?: am)?|findet am|am|est(?: le)?|aura lieu le|se tiendra le|le|es(?: el)?|sera(?: el)?|tendra lugar el|el)|(?:eerst)?volgende [^ .;,:0-9]{2,30} (?:is(?: op)?|vindt plaats op|staat op|volgt op)`), nil},
	{isOther, words(handout + `(?: [^ .;,:0-9]{1,16}){0,3}? (?:` + given + `|is|was|were|are|has been|have been|ist|sind|wurden?|werden|est|sont|a ete|ont ete|fue(?:ron)?|se (?:entrego|envio)|zijn|werd(?:en)?)(?: [^ .;,:0-9]{1,16}){0,2}?(?: (?:on(?: the)?|am|le|el(?: dia)?|op))?`), words(`(?:an die teilnehmenden |an alle )?(?:ausgeteilt|verteilt|ausgeliefert|uitgedeeld|rondgestuurd)`)},
	{isPublished, words(`(?:das |dieses |unser )?(?:heft|die ausgabe|jahrgangsheft)(?: \S{1,12}){0,2} (?:wurde|ist|war|kam)(?: am)?|(?:the |this |our )?(?:issue|number|volume)(?: \S{1,12}){0,2} (?:was (?:released|issued|sent out|distributed|printed)|came out|went out)(?: on)?|(?:le |ce )?(?:numero|volume)(?: \S{1,12}){0,2} (?:est (?:sorti|diffuse)|a ete (?:diffuse|distribue|mis en vente))(?: le)?|(?:el |este )?(?:numero|volumen)(?: \S{1,12}){0,2} (?:salio|se distribuyo|vio la luz)(?: el)?|(?:het |dit )?nummer(?: \S{1,12}){0,2} (?:is|werd|kwam)(?: uit)?(?: op)?`), nil},
	{isAward, words(`(?:awarded|conferred|granted|verliehen|decernee?|otorgad[oa]|concedid[oa]|verleend|toegekend) (?:at|in|zu|a|en|te) [^.;,0-9]{2,40}?,? (?:on(?: the)?|am|le|el|op)`), nil},
	{isIssue, words(`this(?: the)?|(?:dad[oa]|expedid[oa]|firmad[oa]|extendid[oa]|hech[oa]) en [^.;,0-9]{2,40}, a los|date (?:and|&|/) ?tax point|tax point(?: date)?`), nil},
	{isIssue, words(`(?:` + made + `)(?: ` + asked + ` [^.;,0-9]{3,50}?,?)?(?: (?:by|durch|von|vom|par|por|door) ` + agent + `,?)?(?: (?:at|in|zu|a|en|te) [^.;,0-9]{2,40}?,?)? (?:on(?: the)?|am|le|el(?: dia)?|op)`), nil},
	{isIssue, words(`(?:se )?(?:expide|extiende|emite|otorga|firma)(?: (?:la|el|esta|este|presente|constancia|certificado|certificacion)){0,3}(?: ` + asked + ` [^.;,0-9]{3,50}?,?)?(?: en [^.;,0-9]{2,40}?,?)? (?:a(?: los)?|el)`), nil},
	{isIssue, words(`(?:` + closedRecord + `)(?: (?:at|in|a|en|te) [^.;,0-9]{2,40}?,?)?(?: on(?: the)?| le| el(?: dia)?| a los| op)`), nil},
	{isIssue, words(`(?:certified|attested|true|exact) (?:copy|extract)(?: [^.;,0-9]{3,60}?)?,? on|(?:beglaubigte )?(?:kopie|abschrift)(?: [^.;,0-9]{3,60}?)?,? (?:vom|am)|copie (?:certifiee|conforme)(?: [^.;,0-9]{3,60}?)?,? le|copia (?:certificada|compulsada|autentica)(?: [^.;,0-9]{3,60}?)?,? el|(?:gewaarmerkte? )?(?:kopie|afschrift)(?: [^.;,0-9]{3,60}?)?,? op`), nil},
}

// handout is what those who take part are given, and no paper about them; given are the verbs.
const (
	handout = `(?:programmes?|programs?|supports?(?: de cours)?|manuels?|materiels?|documentation|livrets?|badges?|reglement(?: interieur)?|convocations?|materials?|hand-?outs?|handbooks?|workbooks?|slides|name badges?|joining instructions|keys?|programm|unterlagen|kursunterlagen|skripte?n?|handbuch|handbucher|kursmaterial|schlussel|namensschilder|programas?|materiales|material didactico|manual(?:es)?|documentacion|acreditaciones|programma|lesmateriaal|cursusmateriaal|handboek(?:en)?|syllabus|naambadges?)`
	given   = `remise?s?|envoyee?s?|delivree?s?|transmise?s?|distribuee?s?|communiquee?s?|handed (?:over|out)|sent(?: out)?|issued|given out|released|distributed|posted|ausgehandigt|ubergeben|versandt|verschickt|ausgegeben|verteilt|ausgeteilt|entregad[oa]s?|enviad[oa]s?|distribuid[oa]s?|facilitad[oa]s?|overhandigd|verzonden|uitgereikt|verstrekt|uitgedeeld|toegestuurd`
)

// approvalOf is a number under which something was approved or laid down; its day is that of this.
const approvalOf = `(?:approval|accreditation|authori[sz]ation|licen[cs]e|permit|decree|regulation|zulassung|genehmigung|anerkennung|akkreditierung|bescheid|verordnung|erlass|agrement|habilitation|arrete|decret|autorisation|homologation|resolucion|homologacion|autorizacion|acreditacion|decreto|erkenning|vergunning|besluit|accreditatie)` +
	`(?: (?:der|des|of|de|du|del|van|by|durch|par|por|door) [^ .;,0-9]{2,24}){0,2}[ ,:]{1,3}(?:nr|no|n[o°º]|num|number|nummer|numero)\.? ?[^;,\n]{1,24}?`

// unpaper is what has a day of its own that is not that of the paper.
const unpaper = `(?:registration|enrol\w*|application|booking|order|contract|agreement|request|invitation|policy|nomination|(?:die |ihre? |der |seine? )?(?:anmeldung|bewerbung|einschreibung|bestellung|buchung|vertrag|arbeitsvertrag|antrag|einladung|zulassung)|` +
	`(?:l'|la |le |votre |son |sa )?(?:inscription|demande|candidature|commande|reservation|contrat|convention|convocation)|(?:la |el |su )?(?:inscripcion|solicitud|matricula|reserva|pedido|contrato|convenio|convocatoria)|` +
	`(?:de |het |uw |zijn |haar )?(?:inschrijving|aanmelding|aanvraag|bestelling|boeking|overeenkomst|contract|uitnodiging))`

// allCues are tried on the text around a day.
var allCues = slices.Concat(dayCues, cues)

// dayLabels are labels for days that are tried before all others.
var dayLabels = []labelRule{
	{isOther, whole(`inicio de (?:las )?actividades|date of (?:incorporation|registration of the company)|(?:gegrundet|fondee?|fundad[oa]|opgericht)(?: (?:am|le|el|op|en|in))?|(?:our |the )?(?:next|nachste[rsn]?|prochaine?|proxim[oa]|(?:eerst)?volgende) \S.{2,30}`)},
	{isOther, whole(`(?:(?:your|ihr|votre|su|uw) )?(?:application|request|enquiry|antrag|anfrage|demande|dossier|solicitud|peticion|aanvraag|verzoek|materials|unterlagen|(?:les )?documents|materiales|stukken) (?:(?:was |were )?(?:received|submitted|filed|eingegangen|eingereicht|gestellt|erhalten|recue?s?|deposee?s?|recibid[oa]s?|presentad[oa]s?|ontvangen|ingediend)(?: (?:on|am|le|el|op))?|vom|du|van)`)},
	{isIssue, whole(`(?:sent|verstuurd|verzonden|gesendet|abgesendet|envoyee?|enviado|date d'envoi|fecha de envio|sendedatum)(?: (?:on|am|le|el|op))?`)},
	{isOther, whole(`(?:\S+ ){0,2}(?:generated|exported|printed|downloaded|erzeugt|generiert|gedruckt|ausgedruckt|exportiert|generee?|imprimee?|exportee?|generad[oa]|impres[oa]|exportad[oa]|gegenereerd|afgedrukt|geexporteerd)(?: (?:on|at|am|le|el|op))?`)},
	{isOther, whole(`(?:` + viewed + `)(?: (?:on|at|am|le|el|op|date))?`)},
	{isExam, whole(`(?:(?:written|oral|practical|theory|paper|papers|examination|exam|test|viva)\S*(?:,| and| &)? ?){1,4}(?:sat|taken|held|examined)(?: on)?|(?:schriftliche?|mundliche?|praktische?|theoretische?)r?s? (?:prufung|teil|examen)(?: (?:am|vom|abgelegt am))?|epreuves?(?: (?:ecrites?|orales?|pratiques?|theoriques?))?(?: (?:du|le|passees? le|subies? le))?|(?:prueba|examen|ejercicio) (?:escrit[oa]|oral|practic[oa]|teoric[oa])(?: (?:el|rendid[oa] el))?|(?:schriftelijk|mondeling|praktijk|theorie)-?(?: ?(?:examen|deel|toets))?(?: (?:op|afgelegd op))?`)},
	{isStart, whole(`(?:in )?dienst (?:sedert|sinds|vanaf|per)|in dienst getreden(?: op)?|indiensttreding|datum indiensttreding|date d'(?:entree|embauche)(?: en (?:service|fonction|fonctions))?|entree en (?:service|fonction|fonctions)(?: le)?|en (?:poste|fonction|service) depuis(?: le)?|im (?:dienst|haus|betrieb|unternehmen) seit|beschaftigt seit|angestellt seit|dienst(?:antritt|eintritt|beginn)(?: am)?|beginn (?:der beschaftigung|des (?:arbeits|dienst)verhaltnisses)|fecha de (?:ingreso|incorporacion|alta)(?: en la empresa)?|(?:ingreso|incorporacion|alta) en la empresa|(?:en la empresa|en el cargo|contratad[oa]) desde|in (?:post|service|employment|our employ) since|employed (?:here|with us) since|appointed on|with (?:us|the company|the firm) since|date (?:appointed|joined|of (?:appointment|joining|entry|hire))|service (?:from|since|began)`)},
	{isEnd, whole(`date (?:left|of (?:leaving|departure|separation|termination))|left on|last (?:working day|day (?:worked|of work|of employment|of service))|leaving date|separation date|(?:letzter arbeitstag|dienst(?:ende|austritt)|ende (?:der beschaftigung|des (?:arbeits|dienst)verhaltnisses))|date de (?:sortie|depart|fin de contrat)|sortie le|dernier jour (?:travaille|de travail)|fecha de (?:cese|salida|egreso)|ultimo dia (?:trabajado|de trabajo)|laatste werkdag|einde dienstverband|datum uit dienst|uitdiensttreding`)},
	{isIssue, whole(`(?:completed|filled in|certified|signed|stamped|issued|done) (?:at|in) .{2,30}? on|(?:ausgefullt|bestatigt|ausgestellt|unterschrieben) (?:in|zu) .{2,30}? am|(?:date|fecha|datum|tag) (?:de |del |der |van )?(?:la )?(?:signature|firma|handtekening|unterschrift|visa|cachet|sello|stempel)(?: (?:et|und|en|y) .*)?|date (?:of )?(?:signed|stamped|and (?:stamp|signature|initials))|(?:date|datum|fecha) (?:et|und|en|y|and|/|&) (?:signature|unterschrift|handtekening|firma|stempel|cachet|visa|stamp|sello)`)},
}
