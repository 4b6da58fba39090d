package extract

import (
	"slices"
	"strings"

	"evidencevault/extract/paper"
)

// Words that the deeds are put together from, folded, in five languages. The last part of a
// compound decides, so a word of these may have anything before it in German and Dutch.
const (
	taughtThing = `(?:courses?|class(?:es)?|workshops?|seminars?|lectures?|talks?|lessons?|sessions?|modules?|tutorials?|training|webinars?|keynote|presentations?|addresse?s?|demonstrations?|masterclass(?:es)?|` +
		`\S*(?:kurs|seminar|lehrgang|vorlesung|vortrag|workshop|schulung|unterricht|lehrveranstaltung|fortbildung|referat|webinar|unterweisung|ubung|praktikum|lehreinheit)(?:e|es|s|en|n|er|sreihe)?|\S*(?:vortrage|lehrgange|stunden)|` +
		`cours|formations?|conferences?|ateliers?|seminaires?|exposes?|communications?|interventions?|stages?|travaux (?:diriges|pratiques)|enseignements?|` +
		`cursos?|talleres|taller|seminarios?|ponencias?|conferencias?|charlas?|clases?|asignaturas?|modulos?|sesion(?:es)?|comunicacion(?:es)?|temas?|` +
		`(?:gast|praktijk|theorie|proef|avond)les|\S*(?:cursus|cursussen|lessen|lezing|lezingen|voordracht|voordrachten|college|colleges|training|trainingen|scholing|scholingen|inleiding|presentatie|presentaties|themamiddag|praktijkdag))`
	textThing = `(?:articles?|papers?|manuscripts?|contributions?|submissions?|chapters?|case reports?|essays?|reviews?|piece|notes?|texts?|\S*(?:aufsatz|aufsatzes|beitrag|beitrags|artikel|artikels|manuskript|manuskripts|studie|kapitel|text)|` +
		`textes?|manuscrits?|etudes?|articulos?|trabajos?|manuscritos?|capitulos?|textos?|\S*(?:bijdrage|artikelen|stuk))`
	periodical = `(?:journal|review|magazine|proceedings|issue|volume|editors?|editorial|bulletin|transactions|publication|annals|quarterly|gazette|letters|issn|doi|zeitschrift|schriftleitung|revue|revista|tijdschrift)`
	memberBody = `\S*(?:association|society|institute|institution|guild|chamber|college|federation|union|fellowship|fraternity|academy|verband|verbandes|verein|vereins|kammer|gesellschaft|bund|bundes|innung|zunft|genossenschaft|vereinigung|fachverband|` +
		`ordre|syndicat|chambre|compagnie|amicale|cercle|asociacion|colegio|sociedad|gremio|federacion|academia|camara|vereniging|genootschap|bond|gilde|kring|beroepsvereniging|orde|register)`
	metBody = `\S*(?:committee|subcommittee|panel|board|council|commission|working group|working party|task force|task group|branch|section|chapter|steering group|assembly|` +
		`ausschuss|ausschusses|arbeitskreis|arbeitskreises|arbeitsgruppe|gremium|gremiums|beirat|beirats|vorstand|vorstands|kommission|fachgruppe|ortsgruppe|sektion|delegiertenversammlung|mitgliederversammlung|` +
		`comite|bureau|conseil|groupe de travail|assemblee generale|assemblee|comision|junta|consejo|grupo de trabajo|asamblea|commissie|werkgroep|bestuur|raad|vakgroep|stuurgroep|ledenvergadering|afdeling)`
	meetingThing = `(?:\S*(?:meeting|sitzung|versammlung|vergadering|bijeenkomst|treffen)|reunion|seance|sesion|session|junta)`
	examBody     = `(?:board of examiners|(?:examination|examining|assessment|marking) (?:board|panel|committee|team)|jury|jurys|\S*prufungs(?:ausschuss|ausschusses|kommission)|preisgericht|tribunal|jurado|comision (?:evaluadora|examinadora|calificadora)|\S*examencommissie|examenkamer|examination board)`
	examRole     = `\S*(?:examiner|assessor|invigilator|moderator|marker|verifier|adjudicator|juror|prufer|pruferin|beisitzer|beisitzerin|korrektor|korrektorin|gutachter|gutachterin|juror|jurorin|preisrichter|` +
		`examinateur|examinatrice|correcteur|correctrice|jure|juree|evaluateur|evaluatrice|surveillante?|examinador|examinadora|evaluador|evaluadora|corrector|correctora|sinodal|vocal|examinator|beoordelaar|jurylid|gecommitteerde|bijzitter|surveillant)s?`
	examined = `(?:candidates?|scripts?|exam papers|portfolios?|dissertations?|theses|thesis|essays|candidat\S*|copies?|epreuves?|memoires?|dossiers|kandidat\S*|pruflinge?\S*|prufung\S*|\S*arbeiten|klausuren|examenes|pruebas|aspirantes|trabajos|ejercicios|oposicion\S*|kandidaten|examens?|proeven|werkstukken|examenwerk)`
	// gap is a word that may stand between: no sentence ends in it, but days and titles have points
	gap = `(?: (?:\d+\.|[a-z]\.|(?:dr|mr|mrs|ms|prof|dipl|ing|nr|no|dhr|mevr|mme|mw|sr|sra|dra)\.|[^\s.]+(?:\.[^\s.]+)*))`
)

// A deed is a sentence that says what somebody did, by its verb and by what the verb acts on,
// whatever stands between. The words of other kinds that belong to it say nothing then: who
// examines speaks of an examination, who pays for a course of the course.
type deed struct {
	kind   paper.Kind
	weight int
	over   []paper.Kind // kinds whose words belong to the deed
	re     *pattern
}

var deeds = []deed{
	{paper.Instruction, 90, []paper.Kind{paper.Credential, paper.Employment, paper.Attendance, paper.Meeting, paper.Completion}, words(examines)},
	{paper.Publication, 90, []paper.Kind{paper.Instruction, paper.Attendance}, words(prints)},
	{paper.Meeting, 110, []paper.Kind{paper.Attendance, paper.NotEvidence}, words(meets)},
	{paper.Instruction, 70, []paper.Kind{paper.Attendance, paper.NotEvidence, paper.Employment}, words(teaches)},
	{paper.Receipt, 70, []paper.Kind{paper.Attendance, paper.Completion}, words(pays)},
	{paper.Employment, 80, []paper.Kind{paper.Attendance}, words(employs)},
	{paper.Instruction, 60, []paper.Kind{paper.Attendance}, words(supervises)},
	{paper.Membership, 80, nil, words(belongs)},
	{paper.Credential, 70, []paper.Kind{paper.Meeting}, words(passes)},
	{paper.Completion, 50, nil, words(finishes)},
	{paper.Attendance, 40, nil, words(attends)},
	{paper.NotEvidence, 70, []paper.Kind{paper.Attendance, paper.Credential, paper.Instruction}, words(announces)},
}

const (
	examines = `(?:moderation|verification|invigilation|marking|examining|assessing|assessor|examiner|examiner's) (?:visit|duties|duty|work|record|session|statement|activity|engagement)|als` + gap + `{0,2} ` + examRole + `` + gap + `{0,5} (?:herangezogen|hinzugezogen|beauftragt|eingeteilt|verpflichtet|ernannt|beigezogen)|(?:hat|haben)` + gap + `{0,10} (?:klausuren|prufungsarbeiten|abschlussarbeiten)` + gap + `{0,4} (?:durchgesehen|bewertet|begutachtet|benotet)` +
		`|(?:sat|sit|sits|serv(?:ed|es|ing)|act(?:ed|s|ing)|engaged|appointed|worked|participated|taken part|contributed|employed)` + gap + `{0,3} as` + gap + `{0,4} ` + examRole +
		`|(?:marked|assessed|examined|moderated|adjudicated|graded|invigilated)` + gap + `{0,4} ` + examined +
		`|(?:member of|sat on|sits on|served on|serves on)` + gap + `{0,4} ` + examBody +
		`|(?:als|zum|zur)` + gap + `{0,3} ` + examRole + gap + `{0,6} (?:tatig|mitgewirkt|eingesetzt|bestellt|berufen|fungiert\S*|teilgenommen|gewirkt|ingezet|opgetreden|gefungeerd|aangesteld|werkzaam)` +
		`|(?:war|ist|wirkte|fungierte|tatig)` + gap + `{0,8} als` + gap + `{0,2} ` + examRole +
		`|\S*(?:prufertatigkeit|prufereinsatz|pruferin?nentatigkeit|korrekturtatigkeit|jurytatigkeit|prufertatigkeiten|examinatorschap)` +
		`|(?:hat|haben|habe|und)` + gap + `{0,14} ` + examined + gap + `{0,5} (?:abgenommen|korrigiert)` +
		`|(?:gehort|gehorte|angehort|mitglied|beisitz\w+|vorsitz\w*)` + gap + `{0,4} ` + examBody + gap + `{0,4} (?:an|war|ist|hat|mitgewirkt|tatig)` +
		`|(?:war|ist|wirkte|als)` + gap + `{0,8} mitglied` + gap + `{0,3} ` + examBody +
		`|(?:fait partie|membre|siege|participe|preside|nommee?|designee?|officie)` + gap + `{0,6} (?:du|au|le|un|des|aux) ` + examBody +
		`|a (?:\S+ )?(?:corrige|evalue|interroge|surveille|examine|note)` + gap + `{0,3} ` + examined +
		`|(?:qualite|tant) (?:de |que |d'|qu')(?:\S+ )?` + examRole +
		`|(?:formo parte|formado parte|miembro|vocal|actuo|actuado|participo|participado|intervino|presidio|designad[oa]|nombrad[oa])` + gap + `{0,6} (?:el|del|un|al) ` + examBody +
		`|como (?:\S+ )?(?:miembro del tribunal|jurado|` + examRole + `)` +
		`|(?:corregido|corrigio|evaluo|evaluado|examino|califico)` + gap + `{0,3} ` + examined +
		`|als` + gap + `{0,4} ` + examRole + gap + `{0,4} (?:ingezet|opgetreden|gefungeerd|meegewerkt|aangesteld|werkzaam|betrokken)` +
		`|(?:lid van|zitting in|deel uit van|zitting gehad in|deel uitgemaakt van)` + gap + `{0,3} ` + examBody +
		`|(?:heeft|hebt)` + gap + `{0,14} ` + examined + gap + `{0,5} (?:afgenomen|beoordeeld|gecorrigeerd|nagekeken)`

	teaches = `(?:gave|led|ran|taught|delivered) (?:the|a|our|this) (?:\S+ )?(?:masterclass|workshop|webinar|lecture|seminar|tutorial|demonstration)|addressed (?:the|our|a|an|members|delegates)|(?:gave|read|presented|delivered) (?:the|a|an|his|her|their|your|this) (?:\S+ )?(?:paper|poster)|(?:speaker|lecturer|tutor|presenter)(?:'s)? (?:record|statement|form|note)|(?:thank\w*|dank\w*|bedankt|merci|remerci\w+|reconnaissance|gracias|agradec\w+)` + gap + `{0,8} (?:your|ihre[nmr]?|deine[nmr]?|eure[nmr]?|votre|vos|ton|ta|su|tu|vuestra|uw|je|jouw|jullie)` + gap + `{0,2} (?:talk|lecture|presentation|keynote|\S*vortrag|\S*vorlesung|referat|impulsreferat|conference|expose|intervention|communication|ponencia|charla|conferencia|lezing|voordracht|inleiding|gastles|gastcollege|presentatie)|(?:talk|lecture|workshop|course|conference|expose|cours|vortrag|kurs|seminar|ponencia|charla|curso|lezing|les|cursus),? (?:that|which|que|qu'|den|die|das|dat|the)?` + gap + `{0,4} (?:you gave|you delivered|he gave|she gave|avez donnee?|a donnee?|avez prononcee?|a prononcee?|avez animee?|nous a (?:donne|fait)e?|gehalten (?:hat|haben|hast)|gegeben (?:hat|haben)|impartio|dio|dicto|pronuncio|(?:hebt|heeft) (?:gegeven|gehouden|verzorgd)|(?:gegeven|gehouden|verzorgd) (?:hebt|heeft))|(?:tuvo|ha tenido|estuvo) a (?:su )?cargo|a (?:eu|pris en|assure la) charge` + gap + `{0,2} ` + taughtThing + `|\S*stunden (?:unterricht|lehre) (?:erteilt|gegeben)|uren lesgegeven` +
		`|(?:chaired|moderated) (?:a|the|our|an|two|this)` + gap + `{0,3} (?:session|panel|round table|discussion|debate)s?|presented` + gap + `{0,3} (?:poster|abstract|oral communication|case study|case report)|posterprasentation|posterpresentatie|a modere (?:une|la) table ronde|a presente (?:un|le|son|une)` + gap + `{0,2} (?:poster|affiche|communication)|presento (?:el|un|su|la|una)` + gap + `{0,2} (?:poster|cartel|comunicacion|ponencia)` +
		`|als praxisanleit\w+|en tant que maitre de stage|als (?:praktijkopleider|stagebegeleider|werkbegeleider)` +
		`|(?:thank\w*|grateful|gratitude|appreciat\w+|indebted|enjoyed|impressed)` + gap + `{0,8} (?:your|for (?:an?|such an?|giving|leading|delivering|presenting|his|her))` + gap + `{0,3} (?:talk|lecture|presentation|address|keynote|masterclass|tutorial|demonstration)s?` +
		`|(?:coming|came|travelled) to (?:teach|speak|lecture|talk|present|address|demonstrate)` +
		`|your (?:\S+ )?(?:talk|lecture|presentation|keynote|address)` + gap + `{0,10} (?:ran|was|were|drew|lasted|attracted|has been|received)` +
		`|(?:you|he|she|mr|mrs|ms|dr|prof|professor)\.?` + gap + `{0,4} (?:taught|led|ran|delivered|facilitated|gave|conducted|presented|co-?presented|tutored)(?: (?:a|an|the|our|his|her|two|three|four|five|six|\d+|this|both))` + gap + `{0,6} ` + taughtThing +
		`|(?:leitete|hielt|unterrichtete|referierte|gab|fuhrte|dozierte|gestaltete|ubernahm)` + gap + `{0,12} (?:den|die|das|einen|eine|ein|zwei|drei|unseren|unsere|unser|im|uber|zum|zur|mehrere)` + gap + `{0,3} ` + taughtThing +
		`|(?:hat|haben|habe)` + gap + `{0,20} ` + taughtThing + gap + `{0,16} (?:gehalten|geleitet|unterrichtet|gegeben|durchgefuhrt|moderiert|gestaltet|doziert|referiert)` +
		`|als` + gap + `{0,3} \S*(?:dozent|dozentin|referent|referentin|kursleiter|kursleiterin|lehrbeauftragte[rn]?|lehrgangsleiter|lehrgangsleiterin|vortragende[rn]?|trainer|trainerin)` + gap + `{0,6} (?:tatig|eingesetzt|mitgewirkt|gewirkt|aufgetreten)` +
		`|(?:bescheinigung|bestatigung|nachweis|dank)(?: \S+){0,3} (?:dozententatigkeit|lehrtatigkeit|referententatigkeit|vortragstatigkeit|lehrauftrag\w*|unterrichtstatigkeit|trainertatigkeit|ausbildertatigkeit)` +
		`|(?:a|avoir|avez|ayant|d'avoir)(?: bien)? (?:dispense|anime|donne|assure|encadre|enseigne|prononce|presente|co-?anime)` + gap + `{0,7} (?:l'|d')?` + taughtThing +
		`|(?:remerci\w+|merci)` + gap + `{0,10} (?:votre|sa|la|l'|une?) ?(?:intervention|conference|expose|communication|presentation|venue comme|participation en tant que (?:conferencier|orat)\w*)` +
		`|(?:impartio|dicto|expuso|diserto|presento|impartido|dictado|expuesto|pronuncio|imparte)` + gap + `{0,7} ` + taughtThing +
		`|como (?:\S+ )?(?:ponente|conferenciante|conferencista|docente|profesora?|formadora?|tallerista|disertante|instructora?|facilitadora?)` +
		`|(?:agradec\w+|gracias)` + gap + `{0,10} (?:ponencia|conferencia|charla|exposicion|magistral)` +
		`|(?:heeft|hebt|had)` + gap + `{0,16} ` + taughtThing + gap + `{0,16} (?:gegeven|verzorgd|gehouden|geleid|gedoceerd)` +
		`|(?:gaf|verzorgde|hield|doceerde|leidde)` + gap + `{0,12} (?:de|het|een|twee|drie|onze|over|op)` + gap + `{0,4} ` + taughtThing +
		`|(?:dank|bedankt|danken|dankbaar)` + gap + `{0,14} (?:vertellen|vertelde|verteld|spreken|sprak|gesproken|lezing|voordracht|inleiding|gastles|gastcollege|presentatie)`

	attends = `(?:proof|evidence|confirmation|record) that (?:you|he|she|they) (?:were|was|have|has|did|took|came)|(?:here|with us) (?:for|on|throughout|all|during|from)|spent (?:\S+ ){1,3}(?:days?|hours?|weeks?|mornings?|evenings?) with us|(?:hours|credits?|points?) (?:credited|awarded|earned)|signed on the day|acudio|concurrio|(?:ha )?acudido a|s'est forme|s'est formee|(?:heeft|hebt)` + gap + `{0,12} doorlopen|(?:hat|haben)` + gap + `{0,16} (?:mitgewirkt und|durchlaufen)` +
		`|(?:confirm|certify|attest|verify|state|acknowledge|vouch for)` + gap + `{0,4} (?:your|his|her|their|the) (?:presence|attendance|participation)` +
		`|(?:sessions?|parts?) (?:at|in|for) which you were present|you were (?:present|in attendance)|signed (?:in and out|off by)` +
		`|(?:bescheinigung|bestatigung|nachweis|beleg)` + gap + `{0,3} \S*(?:besuch|besuchs|besuches|teilnahme|anwesenheit)` +
		`|(?:war|waren)` + gap + `{0,10} (?:teilnehmer|teilnehmerin|zugegen|dabei)|besuchte[rsn]? \S*(?:kurs|lehrgang|seminar|schulung|veranstaltung|fortbildung)|(?:hat|haben)` + gap + `{0,20} (?:belegt|beigewohnt|mitgemacht)` +
		`|(?:etait|a ete|etiez|avez ete)(?: \S+)? presente?s?|(?:a|avez|avoir) (?:bien|effectivement|regulierement|integralement) (?:assiste|participe|suivi|pris part)|vous avez(?: \S+){0,2} (?:suivi|assiste|participe|pris part)` +
		`|(?:estuvo|ha estado) presente|(?:tomo|ha tomado) parte|concurrio|ha concurrido|ha cursado|curso y aprobo|su presencia en` +
		`|(?:heeft|hebt)` + gap + `{0,16} (?:meegemaakt|meegedaan|gevolgd|bijgewoond|deelgenomen|bezocht)|(?:was|waart|bent)` + gap + `{0,8} (?:aanwezig|erbij)`

	finishes = `mooc|asynchron\w*|asincronic[oa]|en differe|en diferido|(?:watched|viewed|watching|viewing) (?:the|a)` + gap + `{0,3} (?:recording|replay|recorded)|aufzeichnung` + gap + `{0,8} (?:angesehen|abgerufen|angeschaut)|(?:opname|terugkijk\w*)` + gap + `{0,8} (?:bekeken|teruggekeken)|visionne` +
		`|(?:progress\w*|bearbeitungsstand|lernfortschritt|fortschritt|voortgang|avancement|progreso|avance|completion|status|statut|estado|abschlussgrad):? ?(?:[^\s.]+ )?(?:100(?: ?%)?|completed?|abgeschlossen|terminee?|achevee?|completad[oa]|finalizad[oa]|voltooid|afgerond)` +
		`|100 ?% (?:completed?|bearbeitet|absolviert|abgeschlossen|realise|completado|voltooid|afgerond)|(?:all|alle|todos|todas|tous|toutes|every)` + gap + `{0,4} (?:units?|modules?|lessons?|chapters?|\S*lektionen|\S*module|kapitel|einsendeaufgaben|lecons|unidades|modulos|lecciones|lessen|modules|hoofdstukken)` +
		`|lern(?:portal|plattform|umgebung|managementsystem|stand\w*|erfolgskontrolle)|plateforme (?:d'apprentissage|de formation)|aula virtual|plataforma (?:virtual|de formacion)|leer(?:plein|platform|portaal)|learning hub|end-of-(?:module|course) (?:quiz|test)|einsendeaufgaben|lehrbriefe?|study (?:pack|guide|text)|reading (?:log|record)` +
		`|(?:read|gelesen|lu|leido|gelezen)` + gap + `{0,6} (?:at home|zu hause|chez (?:moi|lui|elle)|en casa|thuis)`

	supervises = `(?:supervised|mentored|trained|instructed|tutored|coached|betreute|begeleidde|angeleitet|betreut|encadre|tutorizo|superviso|opgeleid|begeleid)` + gap + `{0,5} (?:students?|trainees?|interns?|apprentices?|residents?|auszubildende\w*|studierende\w*|praktikant\w*|stagiaires?|etudiante?s?|apprentie?s?|estudiantes|alumn[oa]s|becari[oa]s|stagiairs?|leerlingen|studenten)`

	employs = `has been with (?:us|the|our)|(?:length|period|dates|years) of (?:employment|service)|member of (?:our|the) staff|beschaftigungsdauer|dienstzeit|en poste depuis|hoja de servicios|dienstbetrekking|praktizierte bei uns` +
		`|joined (?:us|the|our)` + gap + `{0,8} as (?:an? )|(?:left|leaves) (?:us|our employ\w*|the company|the practice|the firm)|left of (?:his|her|their) own accord|(?:his|her|their) (?:main |principal |day-to-day )?duties|(?:hire date|date of hire|date of joining|employment status|employment type|last working day|date of leaving)` +
		`|(?:works?|worked|working|employed)` + gap + `{0,4} (?:for|with|at|by) (?:us|our|this|the)` + gap + `{0,6} (?:as|since|from)|(?:has|have) (?:worked|been (?:employed|working|on our))` +
		`|(?:war|ist|wird|wurde)` + gap + `{0,16} als` + gap + `{0,6} (?:tatig|beschaftigt|angestellt|eingestellt)|(?:in|bei) (?:unserem|unserer|uns)` + gap + `{0,10} (?:tatig|beschaftigt|angestellt|arbeitet|arbeitete|gearbeitet)|arbeitet(?:e)?` + gap + `{0,8} als|seit` + gap + `{0,16} arbeitet|(?:zu|mit) unserer (?:stets )?(?:voll\w+ )?zufriedenheit` +
		`|(?:avoir|a|ont) (?:ete )?employee? (?:m\.|mme|mlle|monsieur|madame|comme|en|du|depuis|par|dans|au)|libre de tout engagement|(?:occupe|exerce|occupait|exercait|a occupe|a exerce)` + gap + `{0,5} (?:poste|emploi|fonctions?)|fait partie (?:de nos|de notre|du) (?:effectifs?|personnel)` +
		`|(?:labora|laboro|laborando|laborado|prest[oa] sus servicios|prestado sus servicios)|(?:en|ocupa|ocupando|desempen\w+)` + gap + `{0,3} (?:cargo|puesto) de|constancia laboral|certificacion laboral|constancia de trabajo|carta laboral` +
		`|(?:heeft|hebt)` + gap + `{0,20} gewerkt|werkt(?:e)?` + gap + `{0,10} als|bij ons` + gap + `{0,6} (?:werkzaam|gewerkt)|(?:in|uit) dienst (?:van|bij|getreden|sinds|als)`

	belongs = `(?:elected|elects|admitted|admits|received)` + gap + `{0,3} (?:as )?(?:an? |to )?(?:\S+ )?(?:fellow|member|associate|licentiate|fellowship|membership)|(?:als|zum|zur)` + gap + `{0,3} \S*mitglied (?:\S+ )?(?:aufgenommen|gewahlt|ernannt|gefuhrt|registriert)|(?:elue?|admise?|nommee?|recue?) (?:comme |en qualite de )?(?:membre|societaire)|(?:admitid|elegid|inscrit)[oa] como (?:soci|miembr|asociad)\w*|(?:benoemd|verkozen|toegelaten) (?:tot|als)` + gap + `{0,2} lid|als` + gap + `{0,2} lid` + gap + `{0,4} (?:geregistreerd|ingeschreven)|carte de (?:societaire|membre)|dues paid` +
		`|(?:belongs? to|has belonged to|is on the roll of|admitted (?:in)?to|elected (?:in)?to|remains in)` + gap + `{0,4} ` + memberBody + `|(?:a|an|our|paid-up|full|associate|honorary) member (?:of|in|since)|member in good standing|paid-up member|(?:has been|is|was) (?:an? )?(?:\S+ ){0,3}member` + gap + `{0,4} (?:since|until|for the year)` +
		`|` + memberBody + gap + `{0,8} (?:angehor\w*|als \S*mitglied)|gehor\w+` + gap + `{0,10} ` + memberBody + gap + `{0,10} an|mitglied` + gap + `{0,3} ` + memberBody + `|ist` + gap + `{0,10} (?:mitglied|verbandsmitglied|vereinsmitglied)` +
		`|(?:est|sont|etes|reste)(?: \S+){0,3} (?:membre|adherente?|affiliee?|cotisante?|societaire)|a jour de (?:sa|ses|votre|vos) cotisations?` +
		`|(?:es|figura como|consta como|se encuentra|esta)(?: \S+){0,3} (?:socio|socia|asociad[oa]|afiliad[oa]|colegiad[oa]|agremiad[oa]|miembro)` +
		`|(?:is|bent|was|staat)` + gap + `{0,8} (?:lid|aangesloten|ingeschreven) (?:van|bij|als lid|sinds)`

	prints = `(?:issue|number|heft|ausgabe|numero|nummer)` + gap + `{0,3} (?:with|containing|mit|avec|con|met|contenant)` + gap + `{0,2} (?:your|ihrem|ihre[rn]?|votre|su|uw)|(?:author's|voucher|complimentary) cop(?:y|ies)|belegexemplare?|bewijsexemplaar|revision por pares|` + textThing + `` + gap + `{0,20} se publicara` +
		`|(?:accepted|acceptance|accepts?|accepting)` + gap + `{0,14} ` + periodical + `|` + periodical + gap + `{0,24} (?:accepted|acceptance|accepts?)|(?:manuscript|article|paper) (?:no|number|id|ref\w*|title)|(?:date )?accepted(?: on)?:|doi:? ?10|issn` +
		`|` + textThing + gap + `{0,20} (?:(?:will|to|shall) (?:be )?(?:carried|printed|published|appear|run|included)|has appeared|appeared|appears|was published|accepted|wird|erscheint|erschien|erschienen|angenommen|abgedruckt|gedruckt|veroffentlicht|sortira|paraitra|est paru|a paru|publiee?|parait|saldra|aparecera|aparecio|se publicara|publicad[oa]|aceptad[oa]|opgenomen|geplaatst|gepubliceerd|verschijnt|verschenen|aanvaard|geaccepteerd)` + gap + `{0,8} (?:number|issue|volume|volumen|vol\.?|edition|journal|review|heft|ausgabe|band|nummer|numero|n°|tome|revue|revista|tijdschrift|zeitschrift|jaargang|jahrgang)` +
		`|` + textThing + gap + `{0,14} (?:number|issue|volume|heft|ausgabe|band|nummer|numero|n°)` + gap + `{1,5} (?:carried|printed|published|included|erscheinen|erscheint|gedruckt|abgedruckt|opgenomen|geplaatst|verschijnen|publiee?|paraitre|publicad[oa])` +
		`|(?:number|issue|volume|heft|ausgabe|band|nummer|numero|tome)` + gap + `{0,20} ` + textThing + gap + `{0,10} (?:erscheint|erschienen|veroffentlicht|gedruckt|abgedruckt|opgenomen|geplaatst|verschijnt|verschenen|published|appears|paraitra|publie|aparecera)` +
		`|(?:drucken|veroffentlichen|publizieren|publish|print|publions|publierons|publicaremos|plaatsen|publiceren)` + gap + `{0,8} (?:in|im|dans|en) (?:\S+ ){0,3}(?:number|issue|volume|heft|ausgabe|band|nummer|numero|n°)` +
		`|(?:gutachten|reviewers?|referees?|peer review|rapporteurs|relecteurs|revisores|evaluadores|beoordeling|beoordelaars|referenten)` + gap + `{0,12} ` + textThing + `|(?:your|ihr|ihre[nmrs]?|votre|su|uw) ` + textThing + gap + `{0,24} (?:accepted|angenommen|akzeptiert|acceptee?|retenue?|avis favorable|aceptad[oa]|aanvaard|geaccepteerd)`

	passes = `(?:was|were|has been|have been|is) (?:duly )?(?:awarded|conferred|granted|admitted to) (?:the|a) degree|(?:is|are|be|hereby) granted (?:the|a)` + gap + `{0,2} (?:licen[cs]e|certificate|title|right|authority)|met (?:all )?(?:the )?(?:examination |licensing )?requirements (?:by|for|of)` + gap + `{0,4} (?:examination|licen[cs]e|licensure|certification|designation|registration|title)|successful (?:at|in) the` + gap + `{0,3} exam\w*|aan de exameneisen` + gap + `{0,6} voldaan|kenntnisse` + gap + `{0,12} nachgewiesen|est autorisee? a exercer|habilitad[oa] para` +
		`|(?:has|have) (?:gained|obtained|achieved|been awarded|earned|received) (?:the|a|an|his|her)` + gap + `{0,4} (?:diploma|qualification|nvq|licen[cs]e|degree)|(?:grad|titel|bezeichnung|qualifikation|abschluss|diplom|befahigung|sachkunde|\S*schein|berechtigung|fachkunde)` + gap + `{0,8} (?:erworben|erlangt)|a (?:bien )?obtenu (?:le|son|la|l')? ?(?:\S+ ){0,2}(?:diplome|brevet|titre|cap|certificat|permis|qualification)|ha obtenido (?:el|la|su)` + gap + `{0,2} (?:titulo|certificacion|grado|calificacion|certificado)|heeft` + gap + `{0,12} (?:diploma|examen|vakdiploma)` + gap + `{0,8} behaald|erlaubnis zum fuhren|fuhren der berufsbezeichnung|approbationsurkunde|approbation als|befahigungsschein` +
		`|(?:result|outcome|overall result|decision|\S*ergebnis|resultat|mention|resultado|calificacion(?: final)?|resultaat|uitslag|conclusion)(?: final\w*)?:? (?:[^\s.]+ ){0,4}(?:pass(?:ed)?|bestanden|admise?|recue?|reussite?|reussi|apt[oa]|aprobad[oa]|aprueba|geslaagd|behaald|voldoende)` +
		`|(?:declares?|declare que|deklariert|verklaart|declara)` + gap + `{0,8} (?:admise?|recue?|titulaire|geslaagd|aprobad[oa]|apt[oa])|(?:admitted|admits|promoted|promotes)` + gap + `{0,10} (?:degree|grade|title)|(?:confers?|confiere|confere|conferiert|verleiht|verleent|otorga|decerne|expide)` + gap + `{0,14} (?:the degree|the title|el titulo|el grado|le grade|le titre|le diplome|den grad|den akademischen|die bezeichnung|den titel|de graad|de titel|het diploma)` +
		`|(?:supero|ha superado|superado)` + gap + `{0,26} las pruebas (?:de|para)\b` +
		`|(?:passed|bestanden|bestand|geslaagd|superado|supero|aprobado|aprobo|reussi|a reussi|slaagde)` + gap + `{0,6} (?:the|all|das|die|alle|voor|el|la|los|las|todas|todos|le|la|les|l'|toutes|het|de|alle)` + gap + `{0,3} \S*(?:exams?|examinations?|tests?|assessments?|prufung(?:en)?|examen(?:e[ns])?|proef|proeven|toets(?:en)?|pruebas?|epreuves?)`

	meets = `(?:present|in attendance|those present|anwesend|anwesende|teilnehmende|presents?|presentes|asistentes|aanwezig|aanwezigen):?[^a-z0-9].{2,200}(?:apologies|absent|not able to come|unable to attend|regrets|excused|entschuldigt|abwesend|verhindert|excuses?|absents?|ausentes|excusaron|no asisten|disculp\w+|afwezig|verhinderd)[^a-z0-9]|` + metBody + ` (?:next )?meets|` + meetingThing + `,? (?:that|which|die|que|dat) ` + gap + `{0,2} ?` + metBody + `` + gap + `{0,2} (?:held|celebro|abhielt|tenue|hield)|(?:acudio|concurrio|asistio) a` + gap + `{0,4} ` + meetingThing + `` + gap + `{0,6} ` + metBody + `|feuille de (?:presence|emargement)` + gap + `{0,8} (?:assemblee|reunion|comite|commission)|(?:assemblee generale|generalversammlung|mitgliederversammlung|algemene ledenvergadering|asamblea general)` + gap + `{0,10} (?:feuille|presence|emargement|anwesenheitsliste|presentielijst|lista)` +
		`|(?:apologies|apologies for absence|entschuldigt(?: fehlt\w*| abwesend)?|excuses?|ausentes|excusan|afwezig|verhinderd|met kennisgeving)[^a-z0-9].{0,200}(?:chair\w*|minutes|matters arising|top \d|protokoll|sitzung|seance|sesion|vergadering|voorzitter|verslag|meeting|proceedings|any other business|tagesordnung|ordre du jour|orden del dia)` +
		`|(?:matters arising|any other business|apologies for absence|top 1|tagesordnungspunkt|la seance est (?:ouverte|levee)|(?:levanta|levantar) la sesion|levantandose la sesion|sluit` + gap + `{0,5} vergadering|opent` + gap + `{0,5} vergadering|declared the meeting|meeting closed|closed the meeting|schloss? die sitzung|schliesst die sitzung|eroffnet die sitzung|siendo las \S+ horas)` +
		`|(?:when|that|which|as) (?:the|our|this) ` + metBody + ` (?:met|sat|convened)|(?:present|there|attended|took part|anwesend|teilgenommen|presente?|part|assiste|participe|asistio|participo|aanwezig|deelgenomen|bijgewoond)` + gap + `{0,6} ` + meetingThing + gap + `{0,6} ` + metBody +
		`|(?:present|there|attended|took part|anwesend|teilgenommen|presente?|part|assiste|participe|asistio|participo|aanwezig|deelgenomen|bijgewoond)` + gap + `{0,6} ` + metBody + gap + `{0,2} ` + meetingThing + `|` + meetingThing + gap + `{0,3} (?:of|des|der|du|de|del|van) ` + gap + `{0,4} ?` + metBody + gap + `{0,12} (?:teilgenommen|anwesend|present|aanwezig|deelgenomen|bijgewoond)`

	pays = `you paid|paid by (?:card|cash|cheque|bank transfer|direct debit)|please (?:remit|pay|settle)|(?:have|has been|was|been) (?:refunded|reimbursed|credited)|order total|amount charged|(?:reconnai\w+|declare|certifie|atteste)` + gap + `{0,10} recu|(?:la|une) somme de|voldaan|te voldoen|zu (?:zahlen|uberweisen|begleichen)|bitte (?:uberweisen|zahlen|begleichen)|(?:betrag|summe)` + gap + `{0,8} erhalten|a (?:regler|payer)|reste a payer|total a pagar|he recibido|recibi(?:mos)?(?: de)?|hemos recibido|la (?:cantidad|suma) de|teruggestort|zuruckerstattet|rembourse`

	announces = `nodigen (?:wij|we|ik) (?:u|je|jou|jullie)` + gap + `{0,3} uit|jetzt anmelden|anmeldung bis|(?:register|sign up|book|enrol) (?:now|by|before)|inscrivez-vous|inscriptions? (?:avant|jusqu'au)|inscribase|inscripciones hasta|(?:meld je|schrijf je|schrijft u)(?: \S+)? (?:nu |tijdig )?(?:aan|in)\b|(?:everyone|everybody|each participant|jede und jeder|alle teilnehmenden|chacun|cada asistente|iedere deelnemer)` + gap + `{0,2} (?:receives|gets|will receive|erhalt|erhalten|recevra|recoit|recibira|recibe|ontvangt|krijgt)|(?:laden|lade)(?: (?:wir|ich))?` + gap + `{0,12} (?:herzlich|ein)|(?:melde[tn]?|meldet)` + gap + `{0,3} bis (?:zum|spatestens)` + gap + `{0,6} an|(?:offer|offering)(?: you| of)? a place|vous proposer une place|(?:ofrecemos|ofrecerle) una plaza|bieden (?:u|je) een plaats|einen platz anbieten|please accept by|traiga|bring(?:en sie|t) bitte|` +
		`(?:plazas|places|platze|plaatsen|spaces): ?\d|\d+ (?:plazas|places|platze|plaatsen)|max(?:imum|imaal|imal)? \d+ (?:participants|teilnehm\w+|deelnemers|personnes|plazas|places)|(?:should|would) be (?:delighted|pleased|grateful|happy) if you|would you (?:be (?:willing|able)|like|consider)|do let (?:me|us) know|accuse de reception|(?:dossier|demande)` + gap + `{0,8} (?:nous est|bien parvenue?)|sera examine|wird gepruft werden|runs out|will (?:lapse|expire)|need to attend|matricula: ?\d` +
		`|(?:agree\w*|invit\w+|like|ask\w*|willing|accept\w*)(?: you)? to (?:speak|present|lecture|teach|give)|your (?:talk|lecture|session|presentation) (?:is|will be) (?:scheduled|on|at|in)|ihr vortrag (?:ist|findet|beginnt)|votre (?:intervention|conference|communication) (?:aura|est prevue|est programmee)|su (?:ponencia|charla) (?:sera|esta programada|tendra)|uw (?:lezing|voordracht) (?:is gepland|vindt|staat)` +
		`|admit card|(?:admission|hall|exam) ticket|zulassung zur` + gap + `{0,2} \S*prufung|zur` + gap + `{0,2} \S*prufung zugelassen|prufungszulassung|ladung zur|(?:convocation|admise?) (?:a|aux) (?:l'|se )?(?:examen|epreuves?|presenter)|convocad[oa] a|oproep voor|toegelaten tot het examen` +
		`|(?:renewal|expiry) (?:reminder|notice)|(?:is|are) due for renewal|(?:expires|will expire|runs out) (?:on|soon|in)|verlangern sie|lauft` + gap + `{0,5} ab|pensez a renouveler|expirera|caducara|renueve|verloopt (?:op|binnenkort)` +
		`|waiting list|places? (?:limited|available|are going)|(?:your|a|one) (?:place|seat|spot)(?: on \S+){0,3} (?:is|has been) (?:reserved|held|booked|confirmed|secured)|(?:thanks|thank you) for (?:signing up|booking|registering|enrolling|your (?:booking|registration|enrolment|application|reservation))|signed up for|please (?:arrive|bring|report|be seated)|we look forward to (?:seeing|welcoming|meeting)|offer (?:valid|open)|spaces are` +
		`|(?:vielen dank|danke|dank) fur (?:ihre|deine|die) (?:anmeldung|buchung|bestellung|reservierung|anfrage|bewerbung)|warteliste|angemeldet (?:fur|zu)|(?:angebot|preise?) (?:gultig|gilt|freibleibend)|unverbindlich\w*|findet` + gap + `{0,12} statt|bitte (?:bringen|finden|erscheinen) sie|platz (?:ist )?(?:fur sie )?reserviert|freie platze|platzzahl|melden sie sich` +
		`|(?:vous etes|etes|est) (?:attendue?|convoquee?|invitee?)|liste d'attente|(?:votre|la|une) (?:inscription|pre-?inscription|demande d'inscription) (?:est|a (?:bien )?ete) (?:enregistree|prise|confirmee|recue|retenue|validee)|(?:offre|proposition|devis) (?:valable|de formation)|places limitees|aura lieu|se tiendra|se deroulera|dates? a convenir|se munir|nombre de places` +
		`|lista de espera|(?:su|la) (?:solicitud|inscripcion|plaza|reserva|matricula) (?:ha sido|ha quedado|queda|esta) (?:registrada|confirmada|recibida|reservada)|(?:hemos (?:registrado|recibido)) su (?:solicitud|inscripcion|reserva)|(?:inscripcion|solicitud|reserva) (?:recibida|confirmada)|comenzara|se celebrara|tendra lugar|dara comienzo|plazas (?:limitadas|disponibles)|oferta valida` +
		`|(?:dank|bedankt) voor (?:uw|je) (?:inschrijving|aanmelding|boeking|reservering|bestelling)|wachtlijst|(?:je|u|jij) bent? (?:ingeschreven|aangemeld|geplaatst) (?:voor|op|bij)|(?:plaats|plek) (?:voor \S+ )?gereserveerd|(?:wordt|vindt)` + gap + `{0,10} (?:plaats|gehouden op)|offerte geldig|vrijblijvend\w*|meld (?:u|je) aan|na afloop (?:ontvang|krijg)\w*|beperkt aantal plaatsen|neem` + gap + `{0,4} mee`
)

// duesPaid is the money that a member owes for a period, by words that mean nothing else, and
// duesOften by words that are used of other money too, where the paper speaks of a member.
var (
	duesPaid  = words(`\S*(?:mitglieds|jahres|verbands|vereins|kammer|halbjahres)beitrag(?:s|es)?|\S*mitgliedsbeitrage|beitrags(?:rechnung|bescheid|bestatigung|quittung|jahr|zahlung|erhebung)|jahresbeitrage?|(?:annual|membership|member's|members') (?:dues|subscriptions?|fees?)|dues|subscription (?:year|renewal)|cotisations?(?: annuelle)?|appel de cotisation|cuotas? (?:anual(?:es)?|colegial(?:es)?|social(?:es)?|ordinarias?|de (?:socio|colegiad[oa]|colegiacion|afiliacion|asociad[oa]|membresia|miembro))|contributie(?:nota|factuur|bewijs|jaar|betaling)?|jaarcontributie|lidmaatschaps(?:geld|bijdrage|kosten)|(?:ordre|droit)s? d'adhesion`)
	duesOften = words(`subscriptions?|beitrage?s?|cuotas?|adhesion|lidmaatschap|retention fee|registration fee|jahresgebuhr`)
	ofMember  = words(`members?|membership|guild|grade|fellow|associate|\S*mitglied\S*|mitglied\S*|membre|adherente?|soci[oa]|colegiad[oa]|afiliad[oa]|asociad[oa]|lid|leden|lidnummer|ledennummer`)
	// partOfYear is a period that a word gives without days.
	partOfYear = words(`(?:19|20)\d\d|(?:19|20)\d\d ?[-/] ?\d\d(?:\d\d)?|semestre|trimestre|half[- ]year|quarter|halbjahr|quartal|kwartaal|halfjaar|jaargang`)
)

// weighDues weighs the dues of a member for a period against a bill. A course on the bill
// makes it one, whatever members pay for it.
func (w *scales) weighDues() {
	m := duesPaid.FindString(w.whole)
	if m == "" && ofMember.MatchString(w.whole) {
		m = duesOften.FindString(w.whole)
	}
	if m == "" || !w.money || len(w.periods()) == 0 && !w.forYear() && !partOfYear.MatchString(w.whole) {
		return
	}
	if billedThing.MatchString(w.whole) {
		w.form(paper.Membership, 30, "dues for a period were paid")
		return
	}
	w.hears(paper.Membership, 120, m, false)
	w.of[paper.Receipt].score = min(w.of[paper.Receipt].score-130, w.of[paper.Membership].score-40)
}

// billedThing is a course or another thing that is paid for once.
var billedThing = words(taughtThing[:len(taughtThing)-1] + `|congress|conference|congres|kongress|tagung|teilnahmegebuhr|course fee|books?|buch|livre|libro|boek|exam\w*|prufungs\S*)`)

// failed says that an examination was not passed.
var failed = words(`(?:not|n't|did not|not yet|regret)` + gap + `{0,8} (?:pass(?:ed)?|pass mark|achieved?|successful|satisf\w+|reached?)|unsuccessful|failed|fail|nicht bestanden|nicht ausreichend|ungenugend|durchgefallen|non admise?|ajournee?|refusee?|echec|echoue|n'avez pas (?:reussi|obtenu|valide)|n'a pas (?:reussi|obtenu|valide)|no (?:ha |se ha )?(?:superad[oa]|aprobad[oa]|apt[oa])|suspens[oa]|reprobad[oa]|desaprobad[oa]|niet geslaagd|niet behaald|gezakt|afgewezen|onvoldoende`)

// weighDeeds weighs what the sentences of a paper say that somebody did. Where one says that
// an examination was failed, and none that it was passed, the paper proves nothing. A deed whose
// words belong to one before it is none.
func (w *scales) weighDeeds() {
	var covered []paper.Kind
	for _, d := range deeds {
		if slices.Contains(covered, d.kind) || !w.mayTell(d.kind) {
			continue
		}
		m, head := d.re.FindString(w.flat), false
		if m == "" {
			m, head = d.re.FindString(w.head), true
		}
		if m == "" || d.kind == paper.Meeting && !head && !w.saysOutside(d.re) {
			continue
		}
		if d.kind == paper.Instruction && employedThere.MatchString(m) {
			continue // who tests machines "in unserem Betrieb" examines nobody
		}
		if d.kind == paper.Instruction && w.of[paper.Attendance].score >= 60 && !teachesOver.MatchString(m) {
			w.hears(d.kind, 40, m, head) // somebody else may have taught what was attended
			continue
		}
		w.hears(d.kind, d.weight, m, head)
		covered = append(covered, d.over...)
		for _, k := range d.over {
			w.add(k, -60, "")
		}
	}
	if m := failed.FindString(w.flat); m != "" && w.of[paper.Credential].score > 0 && !slices.ContainsFunc([]paper.Kind{paper.Instruction, paper.Meeting}, func(k paper.Kind) bool { return w.of[k].score > 0 }) && !passed(w.flat) {
		w.hears(paper.NotEvidence, 160, m, false)
		w.add(paper.Credential, -100, "")
		w.unpassed = true
	}
}

// employedThere says that somebody worked in the writer's own firm.
var employedThere = words(`(?:in|bei) (?:unserem|unserer) (?:\S*unternehmen|\S*betriebe?|hause?|firma|gesellschaft|werke?|\S*kanzlei|\S*praxis)|(?:in|with|at|by) our (?:company|firm|practice|works|plant)|(?:dans|chez) notre (?:entreprise|societe|cabinet|etablissement)|en (?:nuestra|esta) (?:empresa|compania|firma)|(?:in|bij) on(?:s|ze) (?:bedrijf|onderneming|kantoor|praktijk)`)

// saysOutside reports that words stand in the text outside the tables: who was there and what was
// read out in the rows of a list of sessions are those of no meeting.
func (w *scales) saysOutside(re *pattern) bool {
	if len(w.tables) == 0 {
		return true
	}
	var b strings.Builder
	for i, p := range w.passages {
		if !w.inTable(p.cells[0]) {
			b.WriteString(w.folded[i])
			b.WriteByte(' ')
		}
	}
	return re.MatchString(b.String())
}

// mayTell reports that a deed of a kind counts: money has to be there where it is paid, what
// was done is not announced, and a course has results too.
func (w *scales) mayTell(k paper.Kind) bool {
	switch k {
	case paper.Receipt:
		return w.money
	case paper.NotEvidence:
		return !w.did
	case paper.Credential:
		return examSays.MatchString(w.whole)
	case paper.Meeting:
		return ofMeeting.MatchString(w.whole)
	}
	return true
}

// teachesOver are words of teaching that are said to the one who taught, or of who examined.
var teachesOver = words(`your|you|ihre[nmr]?|deine[nmr]?|votre|vos|su|uw|je|as|als|como|comme|qualite|tant|thank\w*|dank\w*|merci|gracias`)

// ofMeeting are bodies that meet, and what is written of it.
var ofMeeting = words(metBody + `|(?:minutes|notes|record) of|protokoll\S*|niederschrift|\S*sitzung|compte rendu|proces-verbal|acta|notulen|verslag|meeting|vergadering|reunion|seance|group|gruppe|groupe|grupo|groep`)

// examSays are words that an examination, a degree or a licence is not without.
var examSays = words(`exam\w*|\S*prufung\S*|epreuves?|test|candidat\w*|kandidat\w*|jury|tribunal|toets|proef|proeve|pruebas?|degree|\S*grad|titulo|licen[cs]e|licensed|board|universi\w+|senate|diplome?|brevet|titre|approbation|befahigung\S*|sachkunde\S*|vakbekwaam\S*|qualifi\S+|berufsbezeichnung`)

// passed reports words of passing that no word of failing stands before.
func passed(text string) bool {
	rest := failed.ReplaceAllString(text, " ")
	return justPassed.MatchString(rest)
}

var justPassed = words(`passed|pass|bestanden|admise?|recue?|reussi|aprobad[oa]|apt[oa]|superad[oa]|geslaagd|behaald`)
