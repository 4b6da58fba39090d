package extract

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

// A sign speaks for a kind of paper.
type sign struct {
	kind   paper.Kind
	weight int // in a heading it counts double
	re     *regexp.Regexp
	inHead bool // counts in a heading only
}

// signs are words that speak for a kind, each counted once.
var signs = []sign{
	{paper.Attendance, 40, words(`(?:certificate|record|proof|confirmation|statement|evidence|letter|verification) of (?:attendance|participation)|attendance (?:certificate|record|statement|confirmation|slip|letter|verification)|(?:session )?attendance statement|certificate of (?:course )?attendance|participation certificate|teilnahme(?:bestatigung|bescheinigung|zertifikat|nachweis|urkunde)|bescheinigung uber die teilnahme|anwesenheitsbescheinigung|(?:attestation|certificat|justificatif) (?:de|d') ?(?:presence|participation|assiduite|suivi)|(?:certificado|justificante|constancia|diploma) de (?:asistencia|participacion)|(?:bewijs|certificaat|verklaring) van (?:deelname|aanwezigheid|deelneming)|deelnamebewijs|deelnamecertificaat|aanwezigheidsverklaring|presentieverklaring`), false},
	{paper.Attendance, 30, words(`(?:has |have |having |was |were )?(?:attended|participated|took part|taken part|taking part|present at|in attendance at|attending|participating|joined (?:our|the|us))|was present|you (?:joined|came|were with us)|teilgenommen|besucht(?:e)?|nahm (?:am|an|vom)|war anwesend|a (?:suivi|participe|assiste)|ayant (?:suivi|participe|assiste)|a ete presente?|etait presente?|(?:ha )?(?:asistio|asistido|participado|participo)|estuvo presente|(?:heeft )?(?:deelgenomen|bijgewoond|bezocht)|nam deel|aanwezig (?:was|geweest)|woonde`), false},
	{paper.Attendance, 12, words(`(?:one|two|three|four|five|half)-day|study day|seminar|workshop|webinar|conference|congress|symposium|residential|held at|in person|live|on-?site|schulung|lehrgang|fachtagung|fachsitzung|seminar|tagung|kongress|prasenz|praktikum|journee|stage|seminaire|atelier|congres|colloque|jornadas?|taller|congreso|presencial|studiedag|werkplaatsdag|workshop|congres|symposium|participant|teilnehmer(?:in)?|deelnemer|asistente|attendee|delegate`), false},
	{paper.Completion, 32, words(`(?:certificate|statement|confirmation|record|proof|notice|evidence) of (?:\w+ )?(?:completion|achievement|study)|completion (?:certificate|statement|record|notice)|course completion|abschluss(?:bescheinigung|zertifikat|bestatigung|nachweis)|kursabschluss|(?:attestation|certificat) (?:de fin|d'achevement|de reussite)(?: de formation| de cours)?|certificado de (?:finalizacion|aprovechamiento|superacion|realizacion)|(?:bewijs|certificaat|verklaring) van (?:afronding|voltooiing)|afrondingscertificaat`), false},
	{paper.Completion, 28, words(`(?:has |have )?(?:successfully |satisfactorily )?(?:completed|finished|worked through)|completed (?:on|the)|date (?:completed|finished)|you (?:completed|finished|did it)|(?:erfolgreich )?(?:abgeschlossen|absolviert|beendet|bearbeitet)|a (?:termine|acheve|complete|valide|reussi)|(?:ha )?(?:completado|finalizado|superado|terminado|concluido)(?: con (?:exito|aprovechamiento))?|(?:met goed gevolg |succesvol )?(?:afgerond|voltooid|doorlopen)`), false},
	{paper.Completion, 45, words(`self-?paced|distance (?:learning|course|education)|e-?learning|online (?:course|module|learning|training|programme|class(?:es)?|lessons?)|on-?demand|home[- ]study|self-?study|correspondence course|at (?:your|his|her|their) own pace|web-?based|recorded (?:webinar|lecture|session)|learning (?:pages|platform|portal|management)|seat time|time to complete|online-?(?:kurs|schulung|modul|lehrgang|seminar|lernmodul|training)|fern(?:kurs|lehrgang|studium|unterricht)|selbst(?:studium|lernkurs|lerneinheit|gesteuert\w*)|im eigenen tempo|web-?basiert\w*|formation (?:a distance|en ligne)|cours (?:en ligne|a distance)|a distance|en ligne|a son rythme|en autoformation|autoformation|module e-learning|curso (?:en linea|online|a distancia|virtual)|a distancia|en linea|modalidad:? (?:virtual|online)|a su (?:propio )?ritmo|autoestudio|online ?-?(?:cursus|module|training|leergang)|afstandsonderwijs|zelfstudie|thuisstudie|op afstand|in eigen tempo|leeromgeving|e-?module|lernzeit`), false},
	{paper.Transcript, 60, words(`transcripts?|training (?:history|record|log|summary)|(?:course|learning|education|cpd|ce|pdh|activity|credit|attendance|study) (?:history|log|transcript|summary|ledger|statement of record|account)|record of (?:continuing education|learning|cpd|training|courses|study days)|(?:courses|study days|events|activities|modules|sessions|seminars) (?:attended|completed|taken)|continuing education record|(?:fortbildungs|weiterbildungs|schulungs|kurs|bildungs|seminar)(?:ubersicht|konto|historie|verlauf|nachweisheft|liste|pass|protokoll|auszug)|kontoauszug|ubersicht (?:der|uber die) (?:besuchten |absolvierten )?(?:fortbildungen|kurse|schulungen|veranstaltungen|lehrgange)|(?:besuchte|absolvierte) (?:kurse|fortbildungen|schulungen|veranstaltungen|lehrgange)|releve (?:de|des) (?:formations?|cours|notes|activites|heures)|historique (?:de|des) (?:formations?|cours)|(?:formations|cours) suivie?s|liste des formations|historial (?:de|formativo|academico).*|expediente (?:academico|formativo|de formacion)|relacion de cursos|cursos (?:realizados|asistidos)|overzicht (?:van )?(?:gevolgde |van )?(?:cursussen|opleidingen|nascholing\w*|scholing\w*|trainingen|bijscholing\w*)|(?:scholings|opleidings|nascholings|cursus|bijscholings)(?:overzicht|historie|lijst|dossier)|gevolgde (?:cursussen|opleidingen|scholing\w*|trainingen)`), false},
	{paper.Instruction, 60, words(`(?:gave|has given|for giving|delivered|presented|has presented|for presenting|has delivered|for delivering|held) (?:the |a |an |his |her |our |your |two |three )?(?:invited |guest |opening |plenary )?(?:lectures?|talk|paper|presentation|course|workshop|seminar|class|session|keynote|address|tutorial|training)|thank you for (?:presenting|speaking|teaching|lecturing|giving)|(?:has |have )?(?:taught|lectured|instructed|tutored)|taught by (?:him|her)|served as (?:an? )?(?:instructor|trainer|tutor|lecturer|speaker|examiner|faculty|presenter)|acted as (?:an? )?(?:instructor|trainer|tutor|lecturer|speaker|examiner|assessor|presenter)|(?:as|was) (?:an? |our |the )?(?:guest |invited |keynote )?(?:speaker|lecturer|instructor|trainer|tutor|examiner|presenter|faculty member)(?: at| on| for)?|certificate of (?:instruction|teaching|presentation)|teaching (?:confirmation|certificate|record|statement|assignment)|(?:speaker|instructor|presenter|lecturer)(?:'s)? (?:certificate|letter|confirmation)`), false},
	{paper.Instruction, 60, words(`lehr(?:tatigkeit|auftrag)|vortrags?(?:bestatigung|bescheinigung)|dozent(?:en|in)?tatigkeit|referententatigkeit|(?:hat|haben) .{0,160}(?:gehalten|unterrichtet|geleitet|doziert|referiert|vorgetragen)|als (?:dozent|referent|ausbilder|prufer|lehrbeauftragte[rn]?|kursleiter|trainer|vortragende[rn]?)(?:in)?|hielt .{0,60}(?:vortrag|vorlesung|seminar|referat)|unterrichtete|a (?:anime|donne|dispense|enseigne|presente|prononce|assure)(?: (?:la|une|le|un|les|l'|cette|deux))? ?.{0,30}(?:formation|cours|conference|atelier|seminaire|communication|expose|enseignement|stage|module|intervention)?|en (?:tant que|qualite de|qualite d') ?(?:formateur|formatrice|intervenante?|conferenciere?|enseignante?|examinateur|examinatrice|oratrice?|orateur)|attestation d'(?:intervention|enseignement)|vacations? d'enseignement|(?:ha )?(?:impartido|impartio|dictado|dicto|pronunciado|pronuncio)|como (?:ponente|docente|profesora?|conferenciante|formadora?|examinadora?|instructora?|tutora?)|certificado de (?:docencia|ponente)|participo como ponente|(?:heeft|hebt) .{0,140}(?:gegeven|verzorgd|gehouden|gedoceerd)|(?:gaf|verzorgde|hield) .{0,40}(?:lezing|les|cursus|gastcollege|gastles|training|workshop)|als (?:docent(?:e)?|spreker|spreekster|trainer|examinator|gastdocent|inleider|lesgever)|docentverklaring|gastcollege|gastles`), false},
	{paper.Employment, 60, words(`arbeits(?:zeugnis|bescheinigung|verhaltnis|vertrag|bestatigung)|dienstzeugnis|zwischenzeugnis|(?:bei uns |in unserem .{0,40})?(?:beschaftigt|angestellt|tatig)|beschaftigungs(?:nachweis|bescheinigung|bestatigung|verhaltnis)|(?:has been |was |is |been )?(?:employed|in (?:our|the) employ|in our employment)|employment (?:verification|confirmation|certificate|letter|record|reference|statement)|(?:verification|confirmation|certificate|letter|proof|statement) of (?:employment|service)|worked (?:for|with) (?:us|this)|on our (?:staff|payroll)|certificat de travail|attestation (?:d'emploi|de travail|employeur|d'employeur)|est employee?|a ete employee?|a travaille|est salariee?|a ete salariee?|fait partie de (?:nos|notre)|contrat (?:de travail|a duree)|certificado (?:de trabajo|laboral|de empresa|de servicios|de empleo)|vida laboral|(?:ha )?(?:trabajado|trabaja|presta servicios|prestado servicios|presto servicios)|empleada? (?:en|de|por|como)|contrato (?:indefinido|de trabajo)|relacion laboral|werkgevers(?:verklaring|getuigschrift)|getuigschrift|arbeidsovereenkomst|in dienst (?:is|was|geweest|bij|van|sinds|als)?|dienstverband|werkzaam (?:is|was|geweest|als)?|in (?:vaste )?dienst`), false},
	{paper.Membership, 60, words(`(?:membership|member(?:'s)?) (?:card|certificate|confirmation|statement|receipt|renewal|dues|fees?|subscription|year|period|status|record|letter|number|no)|(?:certificate|confirmation|proof|letter|statement) of (?:good standing|membership)|membership|(?:is|as|was|been|remains) (?:a |an )?(?:full |paid-up |active |associate |ordinary |professional |corporate |senior |student |chartered |current )*(?:member|fellow)(?: of| in| since)?|(?:professional |annual |full )?member(?:ship)? dues|annual (?:dues|subscription)|mitglieds(?:bescheinigung|ausweis|karte|beitrag|bestatigung|urkunde|nachweis|rechnung|jahr)|mitgliedschaft(?:sbestatigung|sbescheinigung)?|ist .{0,60}mitglied|(?:ordentliches|aktives|forderndes|ausserordentliches) mitglied|(?:attestation|carte|certificat|bulletin) (?:d'|de )(?:adhesion|adherente?|membre)|cotisation|est (?:bien )?(?:membre|adherente?)|adhesion|carte d'adherent|(?:carne|certificado|tarjeta|justificante) de (?:socio|socia|miembro|colegiad[oa]|afiliacion|colegiacion)|cuota (?:de socio|anual|de colegiado)|es (?:socio|socia|miembro)|(?:figura|consta) (?:inscrit[oa] )?como (?:socio|socia|miembro|colegiad[oa])|lidmaatschap(?:sbewijs|skaart|sverklaring|sgeld|sjaar)?|bewijs van lidmaatschap|lidkaart|ledenpas|contributie(?:nota|factuur|bewijs)?|is .{0,40}lid van|(?:gewoon|buitengewoon|aspirant|actief)[ -]?lid|grade: .{0,20}(?:member|fellow)`), false},
	{paper.Meeting, 55, words(`(?:section|committee|board|council|chapter|branch|working[- ]group|group|panel|task[- ]force|general|annual general|local|regional|commission|standards|subcommittee|technical|monthly|quarterly) meeting|meeting date|date of (?:the )?meeting|sitzungsdatum|datum der sitzung|date de la reunion|fecha de la reunion|vergaderdatum|datum vergadering|meeting (?:of the|attendance|minutes|notes|record|sign-?in)|(?:minutes|record) of (?:the |a )?(?:\w+ ){0,3}meeting|attended the (?:\w+ ){0,4}meeting|sitzung(?:sprotokoll|steilnahme|sbescheinigung)?|protokoll|(?:mitglieder|haupt|jahreshaupt|general|sektions|bezirks|fach)versammlung|arbeitskreis(?:sitzung|treffen)?|ausschuss(?:sitzung)?|arbeitsgruppe(?:nsitzung|ntreffen)?|fachgruppe(?:nsitzung|ntreffen)?|gremi(?:um|ensitzung)|ortsgruppe(?:ntreffen)?|beirat(?:ssitzung)?|(?:la |une )?reunion (?:de|du|d'|des|mensuelle|annuelle|pleniere|technique|ordinaire)|compte rendu|proces-verbal|assemblee (?:generale|ordinaire)|groupe de travail|(?:la |una )?reunion(?: \w+)? (?:del?|mensual|ordinaria|anual|tecnica|extraordinaria)|acta de (?:la )?(?:reunion|sesion|asamblea)|asamblea (?:general|ordinaria)|grupo de trabajo|(?:leden|commissie|bestuurs|sectie|werkgroep|afdelings|jaar|kring|regio)vergadering|vergadering(?: van)?|werkgroep(?:bijeenkomst|overleg)?|notulen|commissie(?:bijeenkomst|overleg)?|kring(?:bijeenkomst|avond)|sectiebijeenkomst|anwesenheitsliste|attendance sheet|sign-?in sheet|presentielijst|lista de asistencia|feuille (?:de presence|d'emargement)`), false},
	{paper.Publication, 60, words(`accept(?:ed|ance)(?: of your)?(?: for publication)?(?: in| by)?|your (?:article|manuscript|paper|contribution|submission|chapter)|(?:article|manuscript|paper|contribution|chapter)(?: .{0,140})? (?:has been |was |is |have been )?(?:accepted|published|appeared)|published (?:in|on|by)|(?:confirmation|proof) of publication|published:|publication (?:confirmation|certificate|notice|of your)|(?:author|acceptance|editorial) (?:letter|notice|certificate|decision)|for publication|reviewers|peer[- ]review|(?:beitrag|artikel|aufsatz|manuskript|fachartikel)(?: .{0,140})?(?:angenommen|veroffentlicht|erschienen|abgedruckt)|zur veroffentlichung|veroffentlichungs(?:bestatigung|nachweis)|redaktion|(?:article|manuscrit|contribution)(?: .{0,140})?(?:accepte|publie|paru|retenu|paraitra)e?|comite de lecture|pour publication|redact(?:eur|rice) en chef|(?:articulo|manuscrito|trabajo|comunicacion)(?: .{0,140})?(?:aceptad[oa]|publicad[oa])|para su publicacion|comite (?:editorial|de redaccion)|(?:artikel|manuscript|bijdrage)(?: .{0,140})?(?:geaccepteerd|aanvaard|gepubliceerd|geplaatst|verschenen)|voor publicatie|ter publicatie|redactie`), false},
	{paper.Credential, 55, words(`(?:has |having |have )?passed the (?:\w+ ){0,4}(?:exam\w*|test|assessment)|exam(?:ination)? (?:passed|result|certificate)|(?:written|final|practical|certification|licensing|board|qualifying) exam(?:ination)?|(?:found|deemed|declared|assessed as) competent|examined and|(?:is|are) (?:hereby )?(?:certified|qualified|licensed|registered|chartered) (?:as|to)|has (?:been )?(?:earned|awarded|conferred|attained|obtained|qualified|met (?:all )?the requirements)(?: .{0,30}(?:degree|diploma|title|designation|credential|certification|qualification|level))?|(?:bachelor|master|doctor|diploma|degree) of|diploma in|certificate of (?:competence|competency|qualification|proficiency)|(?:bachelor|master)(?:'s)? degree|(?:the )?(?:designation|credential|title) of|(?:die )?prufung(?: .{0,100})? (?:bestanden|abgelegt|abgeschlossen)|prufungs(?:zeugnis|bescheinigung|ergebnis|nachweis|urkunde)|(?:hat|ist) .{0,80}(?:bestanden|gepruft)|befahigungs(?:nachweis|zeugnis)|sachkundenachweis|(?:meister|gesellen|diplom|bachelor|master|personal)(?:brief|urkunde|zeugnis|zertifikat)|akademische[rn]? grad|berechtigt|verleih(?:t|en|ung)|diplome(?: de| d'| delivre)?|(?:a|ayant) (?:reussi|passe avec succes|subi avec succes|satisfait)(?: .{0,30}(?:examen|epreuves?|test))?|(?:l'|d'|a l'|les )?(?:examen|epreuves?)(?: .{0,60})? (?:reussi|passe)|habilitation|titre (?:de|d')|certificat (?:de qualification|d'aptitude|de competence)|(?:ha |haber )?(?:superado|aprobado)(?: con exito)? (?:el|las|la) (?:examen|prueba|pruebas|evaluacion)|(?:diploma|titulo) (?:de|en|oficial|otorgado)?|acreditacion profesional|grado en|(?:het |de |voor het )?(?:examen|toets|proeve)(?: .{0,80})? (?:behaald|geslaagd|afgelegd)|(?:is )?geslaagd(?: voor)?|diploma(?: van)?|vakbekwaam(?:heid)?(?:sbewijs)?|persoonscertificaat|examenuitslag`), false},
	{paper.Receipt, 60, words(`(?:tax |pro ?forma |sales |original )?invoice|(?:payment |official |till |sales |fee )?receipt|receipt (?:no|number|date|for)|credit note|refund(?:ed)?|payment (?:received|confirmation|advice)|received (?:from|with thanks|your payment|the sum)|amount (?:due|paid|received)|paid with thanks|balance due|(?:sub)?total (?:usd|eur|gbp|due|paid)|subtotal|sales tax|rechnung|quittung|zahlungs(?:bestatigung|beleg|eingang)|gutschrift|kassen(?:bon|beleg|zettel)|beleg|betrag (?:dankend )?erhalten|rechnungs(?:betrag|nummer|nr|datum)|gesamtbetrag|zahlbar|erstattung|ruckerstattung|stornorechnung|facture|recu(?: de| n| du| pour)?|avoir n|note d'honoraires|montant (?:ttc|total|paye|regle)|quittance|remboursement|acquittee?|net a payer|factura|recibo|recibi|ticket|abono|importe|devolucion|justificante de pago|comprobante de pago|factuur|kwitantie|(?:betalings|kas|aankoop)bewijs|kassabon|creditnota|creditfactuur|bonnetje|totaalbedrag|te betalen|betaling ontvangen|terugbetaling|betaalbevestiging`), false},
	{paper.NotEvidence, 70, words(`save the date|terms (?:and|&) conditions|terms of (?:use|service|business)|general (?:terms|conditions)|privacy (?:policy|notice)|newsletter|(?:you are |is )?(?:cordially )?invited to|call for papers|register (?:by|now|today|here|at|before)|registration (?:form|is open|opens|closes|confirmed|confirmation)|sign up|book (?:your|now|a) ?(?:place|seat)?|places are limited|booking (?:confirmation|confirmed|reference|form)|your (?:booking|registration|place|seat|reservation|enrol\w+) (?:is|has been|was|for)|we (?:look forward to|have reserved|will send|confirm your (?:booking|registration|place))|you (?:are|have been) (?:now |already |successfully )?(?:registered|booked|enrolled)|(?:is|as) a reminder|reminder|you will learn|will be (?:given|held|awarded)|joining instructions|please (?:bring|arrive|join|note that the course)|dial-in|join the meeting|out of office`), false},
	{paper.NotEvidence, 70, words(`allgemeine (?:geschafts)?bedingungen|agb|teilnahmebedingungen|datenschutz(?:erklarung|hinweise)|anmelde(?:bestatigung|formular|schluss)|anmeldung (?:bis|unter|erbeten|eingegangen)|buchungsbestatigung|reservierung(?:sbestatigung)?|erinnerung|wir laden (?:sie )?(?:\w+ )?ein|melden sie sich|wir freuen uns auf|sie sind angemeldet|ihre (?:anmeldung|buchung)|conditions generales|convocation|confirmation d'inscription|bulletin d'inscription|inscri(?:vez-vous|ption avant|ptions? (?:jusqu'au|ouvertes?))|rappel|votre (?:inscription|reservation)|nous vous invitons|nous avons le plaisir de vous convier|condiciones generales|convocatoria|confirmacion de (?:inscripcion|reserva|matricula)|inscribase|inscripciones? (?:hasta|abiertas?)|plazas limitadas|recordatorio|su (?:inscripcion|reserva)|le invitamos|algemene voorwaarden|(?:bevestiging (?:van )?(?:uw )?)(?:inschrijving|boeking|aanmelding)|inschrijfbevestiging|meld u aan|aanmelden (?:voor|kan|via)|schrijf (?:u|je) in|herinnering|uw (?:inschrijving|boeking|aanmelding)|wij nodigen u`), false},
	{paper.NotEvidence, 50, words(`agenda|(?:course |event |conference |provisional |final |seminar |draft )?program(?:me)?(?: overview)?|timetable|flyer|brochure|prospectus|leaflet|invitation|application form|order form|feedback form|evaluation form|price list|quotation|estimate|handout|course notes|tagesordnung|einladung|programm(?:heft|ablauf|ubersicht)?|ablaufplan|stundenplan|merkblatt|prospekt|faltblatt|angebot|kostenvoranschlag|preisliste|ordre du jour|programme|depliant|devis|tarifs|orden del dia|invitacion|programa|folleto|presupuesto|uitnodiging|dagindeling|programma|offerte|folder|prijslijst|teilnehmerunterlagen`), true},
}

// broad are signs that may run over a line break.
var broad = []sign{
	{paper.Attendance, 30, words(`(?:war|waren|ist) .{0,140} anwesend|anwesend (?:war|ist|gewesen)|sat through|sat in on|nahm .{0,140} teil|hat .{0,160} (?:besucht|teilgenommen|beigewohnt)|(?:was|were) (?:there|with us) (?:for|at|on)|a (?:pris part|ete des notres)|tomo parte|nam .{0,140} deel|was aanwezig|woonde .{0,140} bij`), false},
	{paper.Attendance, 26, words(`(?:participated|taking part|took part|attended|participo|asistio|a participe|a assiste|a suivi|teilgenommen|deelgenomen|bijgewoond)`), false},
	{paper.Attendance, 34, words(`(?:thank\w*|dank\w*|gracias|merci|remercie\w*|bedankt) .{0,50}(?:teilnahme|participation|participating|attend\w*|asistencia|asistir|participar|deelname|komst|presence|kommen)|(?:your|ihre|votre|su|uw) (?:participation|attendance|teilnahme|anwesenheit|presence|asistencia|participacion|deelname|aanwezigheid) (?:in|at|an|bei|a|au|aux|al|en|aan|bij)|you were with us|acreditacion de asistencia|attestation de presence|bescheinigt die (?:anwesenheit|teilnahme)`), false},
	{paper.Employment, 60, words(`works (?:for|with|at) .{3,80} as|worked (?:for|with|at) .{3,80} as|(?:letter|statement|certificate) of (?:reference|service)|arbeitgeber(?:bescheinigung|bestatigung)|in unserem hause?|arbeitet(?:e)? (?:seit|als|bei|in)|als .{3,60} arbeitet|attestation d'activite|attestation (?:de l'|d')employeur|employee? (?:comme|en qualite|depuis)|travaille (?:pour|chez|comme)|certificado de (?:actividad|servicios prestados)|empleada? como|trabaja (?:para|en|como)|werkt (?:als|bij|sinds)|werkgeversbevestiging|staff (?:confirmation|certificate)|in service since`), false},
	{paper.Publication, 60, words(`(?:ha|han|a|ont|hat|haben|heeft|have|has) (?:aceptado|accepte|angenommen|geaccepteerd|aanvaard|accepted) .{0,12}(?:manuscrit\w*|manuskript\w*|manuscript\w*|articulo|article|artikel|beitrag)|(?:carta|lettre|letter|notice) (?:de |d'|of )(?:aceptacion|acceptation|acceptance)|annahme ihres (?:beitrags|artikels|manuskripts)|acceptance of your \w+|(?:acceptatie|aanvaarding) van uw \w+`), false},
	{paper.Instruction, 45, words(`(?:for|pour|d'|fur|por|voor) ?(?:having )?(?:giving|avoir donne|avoir anime|avoir assure|impartir|haber impartido|dictar|het geven|das halten)|confirmation de votre (?:conference|intervention|expose)|(?:bestatigung|bescheinigung) ihres vortrags|confirmacion de (?:su )?(?:ponencia|conferencia|docencia)`), false},
	{paper.Credential, 60, words(`passed (?:on|the) .{0,40}exam\w*|brevet|examinee? le|bestehen der prufung|prufung .{0,120}bestanden|bestanden am|(?:passing|pass) date|exam(?:ination)? passed|reussite (?:a|de) l'examen|fecha de superacion|geslaagd op`), false},
	{paper.Completion, 30, words(`(?:for|on|upon) (?:the )?(?:successful )?complet(?:ing|ion)|fur den (?:erfolgreichen )?abschluss|pour avoir (?:termine|acheve|mene)|mene a (?:terme|bien)|por (?:haber )?(?:completado|finalizado|superado|concluido)|voor het (?:voltooien|afronden)|afgerond|voltooid|(?:fernkurs|fernlehrgang|onlinekurs)\w* .{0,120}(?:abgeschlossen|absolviert)`), false},
	{paper.Completion, 40, words(`(?:fern|online-?|web-?|selbstlern)(?:kurs(?:es)?|lehrgang(?:s|es)?|seminars?|schulung|modul[s]?)|(?:thuis|afstands|internet)(?:studie|cursus|opleiding|training)|(?:cours|formation) par correspondance|curso por correspondencia|schriftelijke cursus|correspondence (?:course|study)|lernnachweis|(?:study|learning) (?:record|time)|temps d'(?:etude|apprentissage)|tiempo de estudio|estudio en casa|studietijd|studielast|lernzeit`), false},
	{paper.Instruction, 60, words(`dank fur (?:ihren|deinen|den|ihre) (?:vortrag|beitrag als|lehre|mitwirkung als)|(?:confirmation|statement|certificate|record|proof) of (?:teaching|presentation|lectur\w+|speaking|(?:a |your |the )?(?:talk|lecture|presentation))|to our (?:speaker|lecturer|presenter|tutor|instructor)s?|certificate of appreciation|(?:bescheinigung|bestatigung|nachweis) (?:uber|fur|ihre[rs]?|der|einer)? ?(?:einen|ihren|den|die|eine|einer)? ?(?:vortrag\w*|lehr\w*|dozent\w*|referent\w*|unterricht\w*)|(?:agradecimiento|gracias) (?:a|por) (?:nuestr[oa]s?|su|la|una)? ?(?:ponent\w*|ponencia|docen\w*|conferenci\w*)|(?:remerciements?|merci) (?:a|pour|de) (?:notre|votre|nos|une?|la)? ?(?:conferenc\w*|interven\w*|orat\w*|format\w*)|(?:dank|bedankt|bedankje) (?:aan|voor) (?:onze|uw|de|een)? ?(?:spreker\w*|spreekster|lezing|voordracht|bijdrage|docent\w*)|(?:bevestiging|verklaring|bewijs) (?:van )?(?:uw |een |de )?(?:lezing|voordracht|docentschap|lesgeven)|(?:certificado|constancia|justificante) de (?:docencia|ponencia|imparticion)|attestation (?:d'|de |d' )(?:intervention|enseignement|conference|animation)`), false},
	{paper.Credential, 60, words(`passed the exam\w*|received .{0,40}the (?:diploma|degree|title|qualification)|conferred (?:up)?on .{0,80}the (?:degree|diploma|title)|(?:professional|vocational) (?:qualification|accreditation)|acreditacion profesional|certificate of qualification|vakbekwaamheids\w+|sachkunde\w*|qualifikationsnachweis|(?:a|ha) (?:passe avec succes|obtenu|superado|aprobado) (?:l'|el |la )?(?:examen|epreuve|prueba)\w*|slaagde voor|(?:bestand|legte) .{0,80}(?:prufung|ab)|exam(?:ination)? (?:in|passed|date|taken)|fecha del examen|examen (?:afgelegd|behaald)|prufungs(?:tag|datum)`), false},
	{paper.Publication, 40, words(`is the author of|author's confirmation|proof of publication|accepted the (?:manuscript|article|paper)|the editors of|nachweis der veroffentlichung|autorenbestatigung|preuve de publication|justificante de publicacion|bewijs van publicatie`), false},
	{paper.Meeting, 50, words(`(?:sign-?in|attendance) (?:sheet|list|register)|anwesenheitsliste|teilnehmerliste|feuille de presence|liste de presence|hoja de (?:firmas|asistencia)|lista de (?:asistencia|firmas)|presentielijst|aanwezigheidslijst`), false},
	{paper.Transcript, 60, words(`(?:cpd|ce|training|learning|course|education) (?:record|summary|account)|recapitulatif des? (?:formations?|cours)|liste der besuchten \w+|summary of (?:courses|learning|training)`), true},
	{paper.Receipt, 60, words(`paid|bezahlt|pagado|betaald|paye|regle|sales slip|amount payable|zahlungsbeleg|justificatif de paiement|ticket de caisse|kassenzettel`), true},
	{paper.Membership, 60, words(`(?:attestation|carte|certificat) d'adhesion|mitgliedsbescheinigung|lidmaatschaps(?:kaart|bewijs|verklaring)|certificado de (?:socio|afiliacion|colegiacion)|carne de socio`), true},
}

// tallied is a kind with what speaks for it.
type tallied struct {
	kind    paper.Kind
	score   int
	because string
	title   bool   // a heading says it
	said    string // the words that say it, folded
}

// say keeps the words that speak for a kind: those of a heading before others.
func (t *tallied) say(words string, head bool) {
	if t.said == "" || head && !t.title {
		t.said = strings.Trim(words, " .,:;()\n\t\"")
	}
}

// shown returns where the words stand that show the kind; else the first line.
func (l *look) shown(t tallied) at {
	for i, p := range l.passages {
		if k := strings.Index(l.folded[i], t.said); k < 0 || t.said == "" {
			continue
		}
		n := len(strings.Fields(t.said))
		var starts []int
		for k := range p.text {
			if k == 0 || p.text[k-1] == ' ' {
				starts = append(starts, k)
			}
		}
		for k := 0; k+n <= len(starts); k++ {
			to := len(p.text)
			if k+n < len(starts) {
				to = starts[k+n] - 1
			}
			if strings.Contains(fold(p.text[starts[k]:to]), t.said) {
				return l.passageAt(i).within(starts[k], to-starts[k])
			}
		}
		return l.passageAt(i)
	}
	for i := range l.passages { // a sign of a form: its heading
		if provesHead.MatchString(l.folded[i]) && len(l.folded[i]) < 80 {
			return l.passageAt(i)
		}
	}
	return l.passageAt(0)
}

// decideKind finds the kind, how sure it is, and the runners-up.
func (l *look) decideKind() []tallied {
	score := map[paper.Kind]*tallied{}
	for _, k := range paper.Kinds() {
		score[k] = &tallied{kind: k}
	}
	add := func(k paper.Kind, n int, why string) {
		t := score[k]
		t.score += n
		if why != "" && (t.because == "" || n > 50) {
			t.because = why
		}
	}
	head := l.headings()
	for _, sg := range signs {
		if m := sg.re.FindString(head); m != "" && (sg.re != distance || sg.re.MatchString(l.after0())) {
			score[sg.kind].say(m, true)
			add(sg.kind, 2*sg.weight, fmt.Sprintf("the heading says %q", strings.Trim(m, " .,:;()\n\t\"")))
			score[sg.kind].title = true
		} else if m := sg.re.FindString(l.after0()); m != "" && !sg.inHead {
			score[sg.kind].say(m, false)
			add(sg.kind, sg.weight, fmt.Sprintf("the text says %q", strings.Trim(m, " .,:;()\n\t\"")))
		}
	}
	flat := strings.ReplaceAll(l.after0(), "\n", " ")
	for _, sg := range broad {
		if sg.kind == paper.Transcript && len(l.series) < 2 {
			continue
		}
		if m := sg.re.FindString(head); m != "" {
			n := sg.weight
			score[sg.kind].say(m, true)
			if !score[sg.kind].title {
				n *= 2
			}
			add(sg.kind, n, fmt.Sprintf("the heading says %q", strings.Trim(m, " .,:;()\n\t\"")))
			score[sg.kind].title = true
		} else if m := sg.re.FindString(flat); m != "" && !sg.inHead && score[sg.kind].score < max(sg.weight, 31) {
			score[sg.kind].say(m, false)
			add(sg.kind, sg.weight, fmt.Sprintf("the text says %q", strings.Trim(m, " .,:;()\n\t\"")))
		}
	}
	l.weighKinds(score, add)
	list := make([]tallied, 0, len(score))
	for _, t := range score {
		list = append(list, *t)
	}
	slices.SortFunc(list, func(a, b tallied) int {
		if a.score != b.score {
			return b.score - a.score
		}
		return strings.Compare(string(a.kind), string(b.kind))
	})
	return list
}

// after0 is the folded text without its first line, which names who made the paper.
func (l *look) after0() string {
	if len(l.folded) < 2 || !l.isBody(l.passages[0].text) && strings.Contains(l.passages[0].text, ".") {
		return l.all
	}
	return strings.Join(l.folded[1:], "\n")
}

var (
	didIt       = words(`(?:has|have|having|who|you|he|she|and|was|were) (?:\w+ ){0,2}(?:attended|participated|taken part|completed|finished|present|passed|taught|lectured|joined|gave|presented)|attended the|certify that|certifies that|is to certify|hereby certif\w+|awarded to|presented to|teilgenommen|hiermit (?:wird )?(?:bestatig\w+|bescheinig\w+)|(?:bescheinigen|bestatigen) wir|wir (?:bescheinigen|bestatigen)|(?:wird|werden) (?:hiermit )?(?:bescheinigt|bestatigt)|nous (?:soussignes? )?(?:attestons|certifions)|je soussigne|(?:atteste|certifie) que|a suivi|(?:se )?certifica(?:mos)? que|hace constar|asistio|hierbij verklaren|verklaart (?:hierbij )?dat|verklaren (?:wij )?dat|hiermee (?:wordt )?verklaar\w*|heeft deelgenomen|wordt verklaard|in recognition of|issued to|delivre a|otorgado a|uitgereikt aan|verliehen an|attended:|proof of|record of|certificate of|we confirm`)
	examWords   = words(`exam\w*|prufung\w*|examens?|epreuves?|passed|bestanden|degree|grad|grade|diplome de|titulo|qualifi\w*|examinado|geslaagd|behaald|reussi|aprobado|conferred|verliehen|decerne\w*|level|niveau|nivel|stufe|competen\w*`)
	teachWords  = words(`tutor|lecturer|speaker|presenter|instructor|trainer|teacher|given by|taught by|presented by|delivered by|referent(?:in)?|dozent(?:in)?|vortragende[rn]?|kursleit\w+|ausbilder(?:in)?|formateur|formatrice|intervenante?|conferencier(?:e)?|orateur|oratrice|ponente|docente|conferenciante|profesora?|spreker|spreekster|docent|inleider|opleider`)
	tillWords   = words(`card|cash|visa|mastercard|change|tendered|register|karte|ec-?karte|bar|ruckgeld|carte bancaire|cb|especes|efectivo|tarjeta|pin|kas|pinbetaling|thank you|vielen dank|merci|gracias|bedankt`)
	rulesWords  = words(`terms (?:and|&) conditions|terms of (?:use|service|business)|general (?:terms|conditions)|privacy (?:policy|notice)|allgemeine (?:geschafts)?bedingungen|teilnahmebedingungen|datenschutz\S*|conditions generales|condiciones generales|algemene voorwaarden`)
	provesHead  = words(`certificate|statement of (?:\w+ )?(?:completion|attendance|participation|achievement)|attendance (?:slip|record|certificate)|bescheinigung|bestatigung|\S*(?:bescheinigung|nachweis)|attestation|certificat|certificado|zertifikat|bewijs van|verklaring|diploma|diplome|urkunde|constancia|justificante|transcript|proof of attendance`)
	duesWords   = words(`dues|membership|cotisation|mitgliedsbeitrag|cuota (?:de socio|anual|de colegiado)|contributie|subscription|adhesion|lidmaatschap\w*|beitragsjahr|mitgliedschaft`)
	paysWords   = words(`paid|payment|received|receipt|invoice|bezahlt|rechnung|quittung|reglee?|payee?|recu|facture|pagad[oa]|recibo|factura|betaald|factuur|kwitantie|beitrag|amount|total`)
	distance    = signs[5].re
	liveWords   = words(`webinar|live webinar|classroom|in person|held at|venue|prasenz|presencial|en presentiel|op locatie|room|raum|salle|sala|zaal`)
	courseWords = words(`course|seminar|workshop|training|webinar|conference|congress|study day|lehrgang|schulung|kurs|tagung|formation|stage|seminaire|curso|taller|jornada|cursus|opleiding|studiedag`)
)

// weighKinds adds what the layout and the combination of signs tell.
func (l *look) weighKinds(score map[paper.Kind]*tallied, add func(paper.Kind, int, string)) {
	did := didIt.MatchString(l.all)
	money := len(l.sums) > 0
	if l.doc.Type == "ics" {
		add(paper.NotEvidence, 500, "a calendar entry announces, it does not prove")
	}
	if did {
		add(paper.NotEvidence, -60, "")
	} else if provesHead.MatchString(l.headings()) {
		add(paper.NotEvidence, -40, "")
	} else if score[paper.NotEvidence].score > 0 && score[paper.Receipt].score < 60 {
		add(paper.NotEvidence, 40, "")
	}
	if duesWords.MatchString(l.all) && (money || score[paper.Membership].score > 0) && paysWords.MatchString(l.all) && (len(l.periods()) > 0 || l.forYear()) {
		add(paper.Membership, 110, "dues for a period were paid")
	}
	if !money {
		add(paper.Receipt, -70, "")
	} else if len(l.sums) > 1 && tillWords.MatchString(l.all) && totalWord.MatchString(l.all) && !did {
		add(paper.Receipt, 70, "it adds up what was bought")
	}
	if rulesWords.MatchString(l.headings()) {
		add(paper.NotEvidence, 90, "its heading says that it holds general terms")
	}
	if provesHead.MatchString(l.headings()) && len(l.withRole(isPerson)) > 0 && score[paper.NotEvidence].score <= 0 {
		add(paper.Attendance, 20, "it is headed as a proof and names a person")
	}
	if len(l.series) >= 2 && l.differentThings() {
		add(paper.Transcript, 60, "it lists several courses, each with its own day")
	} else {
		add(paper.Transcript, -40, "")
	}
	if did && len(l.withRole(isPerson)) > 0 || len(l.withRole(isPerson)) > 0 && len(l.withRole(isTitle)) > 0 && len(l.days) > 0 && !money {
		add(paper.Attendance, 22, "it names a person and an event")
	}
	if did := score[paper.Attendance].score >= 26 || score[paper.Completion].score >= 28; did && score[paper.Credential].title && !examWords.MatchString(l.all) {
		add(paper.Credential, -80, "") // a "diploma" for having been there
	}
	if holds := l.withRole(isSigner); len(holds) > 0 && len(l.withRole(isPerson)) == 0 && slices.ContainsFunc(holds, func(p pair) bool { return teachWords.MatchString(p.label) }) && score[paper.Attendance].score < 26 && !l.certifies() {
		add(paper.Instruction, 60, "it names a speaker and no participant")
	}
	live := len(l.clocks) > 0 || liveWords.MatchString(l.all)
	if distance.MatchString(l.after0()) {
		if !live {
			add(paper.Attendance, -30, "")
		}
	} else if live || l.spansDays() {
		add(paper.Completion, -20, "")
		if score[paper.Completion].score > 0 {
			add(paper.Attendance, 30, "it was held at given times")
		}
	}
	if score[paper.Completion].score > 0 && score[paper.Credential].score > 0 && !score[paper.Credential].title && courseWords.MatchString(l.all) {
		add(paper.Credential, -25, "")
	}
	if score[paper.Meeting].score > 0 && !score[paper.Meeting].title && courseWords.MatchString(l.all) {
		add(paper.Meeting, -40, "")
	}
	if slices.ContainsFunc(l.passages, func(p passage) bool { return meetingIn.MatchString(p.text) }) && score[paper.Meeting].score > 0 {
		add(paper.Meeting, 60, "")
	}
	if score[paper.Meeting].score > 40 && !courseWords.MatchString(l.all) {
		add(paper.Meeting, 50, "")
	}
}

// periods returns spans of days that are long enough for a membership.
func (l *look) periods() []day {
	var out []day
	for _, d := range l.days {
		if s := d.spans[0]; !d.single && s.End.Sub(s.Start) > 80 || d.single && d.lack >= 3 {
			out = append(out, d)
		}
	}
	return out
}

// spansDays reports an event of two to ten days.
func (l *look) spansDays() bool {
	return slices.ContainsFunc(l.days, func(d day) bool {
		n := d.spans[0].End.Sub(d.spans[0].Start)
		return !d.single && n > 0 && n < 10
	})
}

// headings returns the folded lines that stand out: near the top, large, or in capitals.
func (l *look) headings() string {
	size := l.bodySize()
	var b strings.Builder
	seen := 0
	for i := range l.cells {
		c := &l.cells[i]
		if len(c.text) > 70 || c.page > 1 && c.page != l.pages[0].Number {
			continue
		}
		if c.text != strings.ToUpper(c.text) && l.hasPair(i) || l.aside(c.passage) || len(find.Clocks(c.text, l.langs)) > 0 {
			continue
		}
		seen++
		top := seen <= 5
		if l.boxed {
			top = c.size*10 >= size*12 || seen <= 4 || c.bold && seen < 8
		}
		if (top || allCaps(c.text)) && !strings.Contains(c.text, ": ") {
			b.WriteString(fold(c.text))
			b.WriteString(" ")
			if len(c.text) > 24 {
				b.WriteString("\n ")
			}
		}
	}
	if l.doc.Mail != nil {
		b.WriteString("\n" + fold(l.doc.Mail.Subject))
	}
	return b.String()
}

// bodySize is the size of most of the letters.
func (s *sheet) bodySize() int {
	count := map[int]int{}
	for _, c := range s.cells {
		count[c.size] += len(c.text)
	}
	best := 0
	for size, n := range count {
		if n > count[best] || n == count[best] && size < best {
			best = size
		}
	}
	return best
}

// kindByForm finds the kind of a paper that is headed as a proof, or laid out as one,
// but in words that no sign knows, by what its labels speak of.
func (l *look) kindByForm(top tallied) (tallied, bool) {
	person, day := len(l.withRole(isPerson)) > 0 || l.certifies(), slices.ContainsFunc(l.days, func(d day) bool { return d.lack == find.Whole && d.role != isOther })
	if !person || !day || len(l.sums) > 0 || l.doc.Type == "ics" || !provesHead.MatchString(l.headings()) && !l.certifies() && len(l.withRole(isTitle)) == 0 {
		return tallied{}, false
	}
	t := tallied{kind: paper.Attendance, score: 31, because: "it names a person and a day, as a proof does"}
	switch {
	case len(l.withRole(isPosition)) > 0:
		t.kind = paper.Employment
	case len(l.withRole(isGrade)) > 0:
		t.kind = paper.Membership
	case len(l.withRole(isExam)) > 0:
		t.kind = paper.Credential
	case top.kind != paper.NotEvidence && top.score > 0:
		t.kind = top.kind
	}
	return t, true
}
