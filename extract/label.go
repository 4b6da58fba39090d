package extract

import (
	"slices"
	"strings"

	"evidencevault/internal/memo"
)

// A role is what a label says of the value that stands with it.
type role string

const (
	noRole       role = ""
	isNumber     role = "number" // of registration
	isTitle      role = "title"
	isProvider   role = "provider"
	isPerson     role = "person"
	isSigner     role = "signer" // teacher, examiner, who signs: not the one the paper is about
	isEvent      role = "event"
	isStart      role = "start"
	isEnd        role = "end"
	isFinish     role = "finish"
	isExam       role = "exam"
	isAccepted   role = "accepted"
	isPublished  role = "published"
	isIssue      role = "issue"
	isAward      role = "award"
	isBare       role = "date" // "Date:" and no more
	isPaid       role = "paid"
	isOther      role = "other" // a day that is none of the fields
	isTime       role = "time"
	isBreak      role = "break"
	isCame       role = "came" // the hour at which somebody came
	isWent       role = "went" // and went
	isDuration   role = "duration"
	isAttended   role = "attended"
	isScheduled  role = "scheduled"
	isLeftOut    role = "left out" // preparation, travel
	isCredits    role = "credits"
	isGrandTotal role = "total"
	isPartSum    role = "part sum"
	isGrade      role = "grade"
	isPosition   role = "position"
	isPlace      role = "place"
	isDelivery   role = "delivery"
	isResult     role = "result"
	isPresent    role = "present"
)

// labels are tried in order on the folded label; the first that fits names its role.
var labels = []labelRule{
	{isOther, whole(`(?:your |ihre? |votre |su |uw )?(?:original |first |urspr\S+ )?(?:date of birth|birth ?date|birthday|born(?: on)?|dob|d\.o\.b\.?|geboren(?: am)?|geburts(?:datum|tag)|geb\.?(?: am)?|nee?(?: le)?|date de naissance|nacid[oa](?: el)?|fecha de nacimiento|geboren op|geboortedatum)`)},
	{isOther, whole(`(?:date |datum |fecha |date d')?(?:printed|printing date|(?:window|period|range|dates) (?:shown|displayed|selected)|angezeigter zeitraum|anzeigezeitraum|periode affichee|periodo mostrado|getoonde periode|print(?:ed)? (?:on|date)|generated(?: on)?|exported(?: on)?|as (?:of|at)|stand(?: der \S+| vom)?|last (?:updated?|change|modified)|updated(?: on)?|version|revision|rev\.?|gedruckt(?: am)?|druckdatum|ausgedruckt(?: am)?|erzeugt(?: am)?|imprime(?:e)?(?: le)?|d'impression|genere(?:e)?(?: le)?|mis(?:e)? a jour(?: le)?|impreso(?: el)?|de impresion|generado(?: el)?|actualizad[oa](?: el)?|afgedrukt(?: op)?|geprint(?: op)?|afdrukdatum|printdatum|gegenereerd(?: op)?|bijgewerkt(?: op)?|situation au|etat au|retrieved|downloaded|accessed)`)},
	{isOther, whole(`(?:original (?:invoice|receipt)|ursprungliche rechnung|urspr\S+|facture d'origine|factura original|oorspronkelijke factuur|due(?: date| by| on)?|payable (?:by|until)|pay(?:ment)? (?:due|by|until)(?: date)?|zahlbar(?: bis)?|fallig(?: am|keit\S*)?|zahlungsziel|echeance|date d'echeance|a (?:payer|regler) avant(?: le)?|vencimiento|fecha de vencimiento|vervaldatum|te betalen (?:voor|voor het)|betaaltermijn|uiterste betaaldatum|register by|deadline|anmeldeschluss|order date|booked(?: on)?|booking date|bestelldatum|buchungsdatum|date de (?:commande|reservation|inscription)|fecha de (?:inscripcion|matricula|pedido)|besteldatum|inschrijfdatum|enrol\w*(?: on| date)?|registered(?: on)?|registration date|anmeldung|angemeldet am|inscrit le|access (?:from|given|granted).*|zugang ab|received(?: on)?|date received|submitted(?: on)?|date submitted|submission date|eingegangen(?: am)?|eingang|eingereicht(?: am)?|recue? le|soumise? le|recibido(?: el)?|enviado(?: el)?|ontvangen(?: op)?|ingediend(?: op)?|recorded(?: on)?|re-?certif\w+ (?:due|by).*|next .*)`)},
	{isOther, whole(`(?:valid(?:ity)?(?: date)?(?: until| to| through| till| up to| from)?|expir\w*(?: date| on)?|expiration date|renewal(?: date| due)?|gultig(?: bis| ab)?|gultigkeit\S*|ablauf\S*|valable(?: jusqu'au| jusqu'a| du)?|validite|date d'expiration|valid[oa](?: hasta)?|validez|caduca(?: el)?|caducidad|fecha de caducidad|geldig(?: tot(?: en met)?| t/m)?|geldigheid|vervalt op)`)},
	{isAward, whole(`(?:date )?(?:award(?:ed)?(?: on| date)?|date of award|conferred(?: on)?|granted(?: on)?|verliehen(?: am)?|verleihung\S*|decerne(?:e)?(?: le)?|date d'obtention|obtenue?(?: le)?|otorgado(?: el)?|concedido(?: el)?|fecha de (?:obtencion|concesion)|toegekend(?: op)?|behaald(?: op)?|datum behaald)`)},
	{isIssue, whole(`(?:the |this )?(?:\S+ )?(?:date (?:of|d')(?: the| this)? ?(?:issue|issuance|signing|signature|letter|certificate|certification|statement|record|invoice|receipt|confirmation|document)|date issued|issued?(?: on| date)?|issuing date|dated|signed(?: on| and stamped| and dated)?|date signed|stamped(?: on)?|made out(?: on)?|prepared(?: on)?|confirmed(?: on)?|certified(?: on)?|released(?: on)?|sent(?: on)?|handed (?:over|out)(?: on)?|(?:invoice|receipt|letter|certificate|record|statement|document|confirmation|credit note|bill) (?:date|dated|closed|issued)|record closed(?: on)?|closed(?: on)?)`)},
	{isIssue, whole(`(?:ausgestellt(?: am)?|ausstellung(?:s ?datum|stag)?|datum der (?:ausstellung|rechnung|bescheinigung)|ausgefertigt(?: am)?|ausgehandigt(?: am)?|ubergeben(?: am)?|ausgegeben(?: am)?|erstellt(?: am)?|erstellungsdatum|unterzeichnet(?: am)?|unterschrieben(?: am)?|gestempelt(?: am)?|bescheinigt(?: am)?|bestatigt(?: am)?|gezeichnet(?: am)?|\w*(?:rechnungs|beleg|quittungs|brief|schreibens|zertifikats|gutschrifts)datum|rechnung vom|datum der unterschrift|versandt(?: am)?)`)},
	{isIssue, whole(`(?:(?:date )?(?:d'emission|de delivrance|d'etablissement|de (?:la )?(?:facture|signature|lettre|remise))|facture du|(?:document )?(?:delivre|emis|etabli|signe|remis|fait|certifie|confirme|prepare|envoye|tamponne)e?(?: le| a)?|date (?:d'emission|de delivrance|d'etablissement|de (?:la )?facture|de signature|de remise)|(?:fecha )?(?:de )?(?:emision|expedicion|factura|firma|emitido|expedid[oa]|firmado|extendid[oa]|entregado|certificado|confirmado)(?: el)?|fecha (?:de|del) (?:emision|expedicion|factura|firma|certificado|documento|la factura|recibo|entrega))`)},
	{isIssue, whole(`(?:uitgereikt(?: op)?|afgegeven(?: op)?|datum (?:van )?(?:afgifte|uitgifte|uitreiking|ondertekening|factuur)|afgiftedatum|uitgiftedatum|opgemaakt(?: op)?|opgesteld(?: op)?|ondertekend(?: op)?|getekend(?: op)?|factuurdatum|verstrekt(?: op)?|uitgegeven(?: op)?|bevestigd(?: op)?|verzonden(?: op)?|overhandigd(?: op)?)`)},
	{isPaid, whole(`(?:date (?:of payment|paid)|paid on|payment (?:date|received)|transaction date|bezahlt am|zahlungsdatum|zahlungseingang|zahltag|payee? le|reglee? le|date de paiement|fecha de pago|pagado el|betaald op|betaaldatum)`)},
	{isExam, whole(`(?:(?:date (?:of|de l')(?: the)? ?)?(?:final |closing |written |oral |online |end |course )?(?:exam(?:ination|en)?|test|assessment)(?: date| passed(?: on)?| on| taken(?: on)?)?|date of (?:the )?(?:exam|examination)|passed on|(?:abschluss|schluss)?prufung(?:s ?datum|stag)?(?: am)?|(?:final )?quiz passed(?: on)?|datum der prufung|(?:abschluss|schluss)?(?:prufung|test|klausur) (?:bestanden|abgelegt) am|(?:examen|test|epreuve|controle|questionnaire)(?: final| de fin)? (?:reussie?|passee?)(?: le)?|(?:examen|test|prueba|cuestionario)(?: final)? (?:aprobad[oa]|superad[oa])(?: el)?|(?:eind)?(?:examen|toets) (?:behaald|geslaagd|afgelegd|gehaald)(?: op)?|date (?:de l'examen|d'examen|de l'epreuve)|fecha (?:del|de) examen|examen(?:datum)?|datum (?:van het )?examen|passed(?: on)?)`)},
	{isFinish, whole(`(?:(?:date )?(?:complet(?:ed|ion)(?: on| date)?|date of completion|date complet\w+|finish(?:ed)?(?: on| date)?|date finished|achieved(?: on)?|abgeschlossen(?: am)?|abschluss(?: ?datum| am)?|beendet(?: am)?|fertig(?:gestellt)?(?: am)?|datum des abschlusses|absolviert(?: am)?|termine(?:e)?(?: le)?|acheve(?:e)?(?: le)?|d'achevement|de fin de formation|date d'achevement|reussie? le|finalizad[oa](?: el)?|completad[oa](?: el)?|terminad[oa](?: el)?|superad[oa](?: el)?|fecha de (?:finalizacion|terminacion|conclusion)|afgerond(?: op)?|voltooid(?: op)?|datum (?:van )?(?:afronding|voltooiing)|afrondingsdatum))`)},
	{isAccepted, whole(`(?:(?:date (?:of )?)?accept(?:ed|ance)(?: on| date)?|angenommen(?: am)?|acceptee?(?: le)?|date d'acceptation|aceptad[oa](?: el)?|fecha de aceptacion|geaccepteerd(?: op)?|aanvaard(?: op)?)`)},
	{isPublished, whole(`(?:(?:date (?:of )?)?publi(?:shed|cation)(?: on| date)?|erschienen(?: am)?|erscheinungsdatum|veroffentlicht(?: am)?|parue?(?: le)?|publiee?(?: le)?|date de (?:publication|parution)|publicad[oa](?: el)?|fecha de publicacion|verschenen(?: op)?|gepubliceerd(?: op)?|publicatiedatum)`)},
	{isBreak, whole(`(?:\d+ )?(?:breaks?|lunch(?: break)?|pausen?|mittagspause|pauses?|dejeuner|pausas?|descansos?|pauzes?|lunchpauze|schorsing|onderbreking|unterbrechung(?:en)?|suspension|interruption|adjournment|recess|recesos?|(?:unpaid )?meal breaks?|mittag(?:essen)?)`)},
	{isTime, whole(`(?:time|times|hours of attendance|uhrzeit|zeit|zeiten|kurszeiten|schedule|horaires?|heure|horario|hora|tijd|tijden|tijdstip|from - to|start - end|programme time)`)},
	{isScheduled, whole(`(?:scheduled|planned|full|nominal) (?:length|hours|duration|time)|geplante? (?:dauer|stunden|umfang)|sollstunden|duree prevue|heures prevues|duracion prevista|horas previstas|geplande (?:duur|uren)`)},
	{isAttended, whole(`(?:(?:contact |total )?(?:hours?|time|minutes|length|hrs) (?:of attendance|attended|present|credited)|(?:attended|attendance|actual)(?: hours?| time)?|attendance time|(?:besuchte?|anwesende?|tatsachliche|teilgenommene) (?:stunden|zeit|dauer)|anwesenheit(?:szeit|sdauer)?|istzeit|iststunden|heures? (?:suivies?|effectuees?|de presence|realisees?)|duree (?:suivie|effective|de presence)|horas? (?:asistidas?|cursadas?|realizadas?|de asistencia)|asistencia|(?:gevolgde|bijgewoonde|aanwezige) (?:uren|tijd)|aanwezig(?:heid)?|uren aanwezig|aanwezigheidstijd)`)},
	{isLeftOut, whole(`(?:prep\w*|travel|private study|self-study|vor(?:-|bereitung)\S*|anreise|selbststudium|preparation|trajet|preparacion|viaje|voorbereiding|reistijd|zelfstudie)(?: time| hours?)?`)},
	{isLeftOut, whole(`(?:hours|time|minutes|stunden|zeit|minuten|heures|temps|minutes|horas|tiempo|minutos|uren|tijd)(?: (?:of|for|spent|spent on|on|fur|zur|der|de|d'|en|para|aan|voor|van))? ?(?:the |die |la |el |de )?(?:prep\w*|travel\w*|mark(?:ing)?|grading|correcting|vor\S*bereitung|nachbereitung|korrektur\w*|anfahrt|anreise|fahrt|correction\w*|corriger|trajet|deplacement|preparer|correccion|corregir|viaje|desplazamiento|voorbereid\w*|nakijk\w*|nagekeken|reis|reizen)|(?:marking|grading|correction)(?: time| hours?)?|(?:vorbereitungs|nachbereitungs|korrektur|fahrt?|reise|anreise)-?(?:zeit|stunden|dauer)|(?:voorbereidings|nakijk|correctie|reis)(?:uren|tijd)|correccion|nakijkwerk|korrekturen|korrektur`)},
	{isCredits, whole(`(?:total |number of |no\. of |anzahl |nombre de |numero de |aantal )?(?:(?:\S+ ){0,2}(?:ceus?|cpds?|pdhs?|pdus?|cpes?|cmes?|cnes?|ects|credits?|credit (?:hours|points)|points?|credit units?|units?|kreditpunkte?|\S*punkte?|creditos?|puntos?|\S*punten|pe-punten|studiepunten)(?: (?:earned|awarded|credits?|points?|hours?|hrs\.?|value|units?))?|(?:ce|cpe|cpd|cme|cne|pdh?) (?:hours?|hrs\.?)(?: (?:earned|awarded|granted|claimed|credited|approved))?|(?:credits?|points?|creditos?|puntos?|punten) de (?:formation|formacion|capacitacion|perfectionnement|developpement|desarrollo)(?: \S+)?|cpd time|continuing education(?: (?:units?|credits?|hours?))?|professional development (?:hours?|units?)|unites? de formation continue|accreditation)`)},
	{isDuration, whole(`(?:total |net |overall |stated |estimated |listed |notional |average |approx\.? )?(?:(?:course |programme |program |training |study |seat |contact |learning |running |instruction(?:al)? |tuition |teaching |lecture |session |event )?(?:duration|length|hours?|hrs\.?|time|minutes)(?: of (?:instruction|training|study|tuition|attendance|course|teaching))?|contact time|extent|workload|hours total|total(?: number of)? hours|total (?:training|contact|learning|course|study|teaching) (?:time|hours?)|time spent|(?:average |estimated )?time to complete)`)},
	{isDuration, whole(`(?:gesamt|kurs|lern|schulungs|netto|unterrichts|seminar|bearbeitungs|vortrags|gesamte? )?-?(?:dauer|umfang|zeit|stunden|lernzeit|zeitumfang|stundenzahl|stundenumfang|unterrichtsstunden|unterrichtseinheiten|zeitaufwand)|anzahl (?:der )?(?:stunden|unterrichtseinheiten|ue)|(?:dauer|umfang)(?: (?:der|des|in) \S+)?|zeitlicher umfang|ue|duree(?: (?:totale|globale|de la formation|du cours|estimee|de l'action))?|volume horaire|nombre d'heures|heures(?: de formation)?|temps (?:de formation|d'etude|estime)|duracion(?: (?:total|del curso|estimada))?|horas(?: lectivas| totales| de formacion)?|numero de horas|carga (?:horaria|lectiva)|total (?:de )?(?:horas|heures)|(?:totale |geschatte |netto )?(?:duur|tijdsduur|cursusduur|studielast|studietijd|contacttijd|lestijd|contacturen|lesuren|uren|omvang)|aantal uren|totaal (?:aantal )?uren`)},
	{isGrandTotal, whole(`(?:grand |invoice |refund |amount |sum |order )?total(?: (?:paid|due|amount|refund(?:ed)?|incl\S*.*|usd|eur|gbp|to pay|a pagar|general|factura|ttc|te betalen|incl\. btw|con iva))?|total (?:price|amount|fee)|(?:total )?amount (?:paid|due|received|refunded)|amount|(?:sum )?paid|fee(?: paid)?|refund(?:ed)?(?: total| amount)?|gesamt(?:betrag|summe|preis)?(?: brutto| inkl\S*.*)?|(?:rechnungs|brutto|end|zahl|gutschrifts|erstattungs)?(?:betrag|summe)(?: \(?brutto\)?)?|summe|zu zahlen|total (?:ttc|a payer|toutes taxes)|montant(?: total)?(?: ttc| paye| regle)?|net a payer|somme|cotisation(?: reglee| payee)?|importe(?: total| pagado)?|cuota(?: pagada| anual)?|totaal(?: ?bedrag)?(?: incl\S*.*| te betalen)?|(?:factuur|eind)?bedrag(?: incl\S*.*)?|contributie|(?:mitglieds)?beitrag(?: bezahlt)?|bezahlt|betaald|pagado`)},
	{isPartSum, whole(`(?:sub-?total|net(?:to)?(?: amount| total)?|zwischensumme.*|nettobetrag|netto.*|sous-total.*|total ht|montant ht|base imponible|subtotaal|totaal excl\S*.*|vat(?:[ .(@]TAXTAIL)?|tax(?:es)?(?: (?:\S*\d\S*.*|amount|total|due|included))?|sales tax.*|ust.*|mwst.*|mehrwertsteuer.*|umsatzsteuer.*|tva.*|iva.*|btw.*|discount.*|rabatt.*|remise.*|descuento.*|korting.*|balance(?: due)?|restbetrag|solde|saldo|change|deposit|anzahlung|acompte|anticipo|aanbetaling|cash|card|visa.*|unit(?: price)?|price|einzelpreis|prix unitaire|precio|prijs|qty|quantity|menge|anzahl|quantite|cantidad|aantal)`)},
	{isNumber, whole(`(?:\S+ ){0,3}(?:no\.?|nos\.)(?: ?[#:].*| \S*\d\S*)?|(?:\S+ ){0,3}(?:number|nr|nummer|num|n°|nº|code|id|ref|reference|registro|kennung|aktenzeichen|zeichen|dossier|referencia|kenmerk|matricule|badge|accreditation no|iban|bic|siret|rfc|nif|cif|dni)\.?(?: .*)?|\S*(?:nummer|-nr\.?|kennzeichen)|.*n°.*|#|(?:tel|telephone|phone|telefon|telefono|telefoon|fax|e-?mail|mail|web|website|www|http|https|url|ust-idnr|vat no|verification|verify.*)\.?(?: .*)?`)},
	{isResult, whole(`(?:result|score|grade|mark|ergebnis|note|resultat|resultado|nota|calificacion|resultaat|cijfer|status|beoordeling)(?: .*)?`)},
	{isSigner, whole(`(?:for|on behalf of|fur|pour|por|voor|namens) (?:the |die |den |das |la |le |l'|el |de |het )?(?:personalstelle|personalabteilung|schulleitung|leitung|vorstand|verein|bureau|association|company|firm|school|centre|center|board|committee|management|direction|direccion|junta|bestuur|stichting|institut\w*|akademie|academy|college|university|employer|arbeitgeber)|(?:\S+ ){0,2}(?:instructor|trainer|tutor|teacher|lecturer|facilitator|speaker|presenter|signatory|signed by|director|examiner|assessor|president|secretary|chair(?:man|woman|person)?|referent(?:in)?|dozent(?:in)?|kursleit\w+|leitung|prufer(?:in)?|formateur|formatrice|intervenante?|animateur|directeur|directrice|ponente|docente|profesora?|instructora?|directora?|opleider|spreker|cursusleider|examinator|contact|ansprechpartner(?:in)?|editor|witness(?:ed by)?)(?:\(s\)|s)?`)},
	{isStart, whole(`(?:(?:course |event |date |date de )?(?:start(?:s|ed|ing)?|begin(?:s|ning)?|commence[sd]?)(?: ?date| on| am)?|from|since|first (?:class|session|day|evening|meeting|lesson|lecture)|kurs ?beginn|beginndatum|startdatum|ab|von|vom|seit|erster (?:termin|tag|abend)|debut|date de debut|du|depuis|premiere (?:seance|session)|inicio|fecha de (?:inicio|comienzo)|desde|primera (?:clase|sesion)|aanvang|begindatum|vanaf|van|sinds|eerste (?:les|avond|dag|bijeenkomst)|effective(?: from| date)?|joined(?: on)?|member since|eintritt(?:sdatum)?|date d'(?:entree|adhesion)|fecha de alta|in dienst(?: sinds)?)`)},
	{isEnd, whole(`(?:(?:course |event |date )?(?:end(?:s|ed|ing)?)(?: ?date| on| am)?|to|until|till|through|last (?:class|session|day|evening|meeting|lesson|lecture)|kurs ?ende|enddatum|bis|bis zum|letzter (?:termin|tag|abend)|ende|fin|date de fin|au|jusqu'au|derniere (?:seance|session)|fecha (?:de )?fin(?:al)?|hasta|ultima (?:clase|sesion)|einde|einddatum|tot|t/m|tot en met|laatste (?:les|avond|dag|bijeenkomst)|austritt(?:sdatum)?|fecha de baja|uit dienst)`)},
	{isEvent, whole(`(?:dates?|days?) (?:of|held|attended)(?: .*)?|(?:course|event|seminar|training|workshop|session|class|meeting|lecture|conference|webinar|service|teaching|membership|activity|study day|attendance) (?:dates?|day|period)|dates|held(?: on)?|took place(?: on)?|attended(?: on)?|when|period(?: covered| of membership)?|day|delivered(?: on)?|given(?: on)?|presented(?: on)?`)},
	{isEvent, whole(`(?:was )?present on|anwesend am|presente? les?|(?:a )?assiste les?|asistio el|aanwezig op|bijgewoond op|gevolgd op|besucht am|teilgenommen am`)},
	{isEvent, whole(`(?:kurs|seminar|schulungs|veranstaltungs|lehrgangs|sitzungs|teilnahme|vortrags|mitglieds)(?:datum|termine?|tage?|zeitraum)|zeitraum|leistungs(?:zeitraum|datum)|termine?|tage?|durchgefuhrt(?: am)?|datum der (?:veranstaltung|schulung|teilnahme|sitzung)|veranstaltung am|dates? (?:de (?:la )?(?:formation|session|seance|reunion|cours)|du (?:cours|stage|seminaire))|jours?|periode(?: d'adhesion)?|periodo|fechas|fechas? (?:del? |de la )(?:curso|sesion|evento|imparticion|celebracion|reunion|realizacion|taller|seminario|jornada)|dias?|celebrado(?: el)?|realizado(?: el)?|cursus(?:datum|data|dag)|datum (?:cursus|bijeenkomst|training|van de \S+)|data|gehouden(?: op)?|trainingsdatum|lesdatum|lesdata|dag|dagen`)},
	{isBare, whole(`date|datum|fecha|le|den|dated?|tag der`)},
	{isGrade, whole(`(?:soort lid(?:maatschap)?|lidsoort|art der mitgliedschaft|type d'adhesion|(?:grade|type|category|class|level|status|grado|tipo|categoria|categorie|type|soort|art|kategorie)(?: (?:of|der|de|del|van) (?:the )?(?:member(?:ship)?|mitgliedschaft|membre|adhesion|socio|lidmaatschap|lid))?|member(?:ship)? (?:grade|type|class|category|level)|mitgliedsart|mitgliedschaft(?:sart)?|lidmaatschap(?:svorm)?|qualite)`)},
	{isPosition, whole(`(?:verwendet als|tatig als|eingesetzt als|angestellt als|employe comme|en qualite de|werkzaam als|contratad[oa] como|position|job title|role|post|occupation|employed as|funktion|stelle|position als|tatigkeit(?: als)?|beschaftigt als|fonction|poste|emploi|puesto|cargo|functie|functietitel)(?: held)?`)},
	{isPlace, whole(`(?:exam(?:ination)? (?:venue|centre|center|site|place|location)|test (?:site|centre|center|location)|(?:prufungs|examen)(?:ort|plaats|locatie)|lieu d'examen|centre d'examen|lugar del? examen|place|venue|location|held at|room|ort|veranstaltungsort|raum|lieu|lugar|sede|plaats|locatie|address|anschrift|adresse|direccion|adres)`)},
	{isDelivery, whole(`(?:delivery|format|mode|method|type of (?:course|training)|form|lernform|modalite|modalidad|vorm|lesvorm|kursform|veranstaltungsform)`)},
	{isProvider, whole(`(?:(?:course |training )?(?:provider|organi[sz]er|organi[sz]ed by|provided by|delivered by|run by|held by|hosted by|host|presented by|sponsor|issued by|issuer|issuing (?:body|organi[sz]ation)|issuing|training (?:body|organi[sz]ation)|institution|school|employer|publisher|journal|supplier|vendor|seller|merchant|payee|paid to)|veranstalter(?:in)?|anbieter(?:in)?|trager|bildungstrager|durchgefuhrt von|aussteller|ausstellende stelle|herausgeber|zeitschrift|arbeitgeber(?:in)?|verein|rechnungssteller|verkaufer|organisme(?: de formation)?|organisateur|organise par|delivre par|employeur|revue|emetteur|emis par|entidad(?: organizadora)?|organizador(?:a)?|organiza|organizado por|impartido por|centro(?: de formacion)?|empresa|emisor|expedido por|revista|organisator|aanbieder|opleidingsinstituut|instituut|georganiseerd door|verzorgd door|werkgever|tijdschrift|uitgever|afgegeven door)`)},
	{isPerson, whole(`(?:(?:full |print(?:ed)? )?names?|participants?|attendees?|delegates?|learner|student|candidate|trainee|member|holder|licen[sc]ee|applicant|employee|staff(?: member)?|presenter name|author(?:\(s\)|s)?|customer|client|bill(?:ed)? to|addressed to|attn\.?|billed|invoice to|sold to|payer|received from|to|for|issued to|awarded to|presented to|registrant|nurse|recipient|certificate holder|graduate|patient|user|account|account holder|name of (?:the )?(?:participant|attendee|delegate|learner|student|candidate|member|holder|employee|trainee|recipient)|(?:participant|attendee|delegate|learner|student|candidate|member|employee|trainee|holder|recipient|customer)(?:'?s)? name|name and surname|first and last name|record (?:of|for)|certified for|sheet for|cardholder|surname|this certifies that)`)},
	{isPerson, whole(`(?:(?:vor- und nach|vor- und zu|nach|voll(?:er )?)?name(?: (?:der|des|vorname).*)?|vorname(?:,? | und )(?:nach)?name|name, vorname|teilnehmer(?:in|/in|/-in|\*in|:in|\(in\))?|teilnehmende(?:r)?|mitglied|kunde|kundin|rechnungsempfanger(?:in)?|empfanger(?:in)?|mitarbeiter(?:in)?|kandidat(?:in)?|prufling|absolvent(?:in)?|studierende(?:r)?|inhaber(?:in)?|verfasser(?:in)?|autor(?:in)?|blatt fur|an|fur|herrn?|frau|nom(?: et prenom|,? prenom.*| du (?:participant|stagiaire|membre|client|candidat).*)?|prenom et nom|nom complet|participante?|stagiaire|apprenante?|beneficiaire|adherente?|membre|titulaire|client|cliente|candidate?|salariee?|auteur|destinataire|facture a|nombre(?: y apellidos| completo| del? (?:la )?(?:participante|asistente|alumn\S*|titular|soci[oa]|miembro|candidat[oa]|trabajador\S*|colegiad\S*|persona|cliente|interesad[oa]|profesional|estudiante|ponente|autor\S*).*)?|apellidos? y nombres?|nombres? y apellidos?|alumn[oa]|colegiad[oa]|adressee? a|a l'attention de|dirigid[oa] a|gericht aan|geadresseerde|empfanger|participante|asistente|socio|socia|titular|cliente|candidat[oa]|trabajador(?:a)?|empleado|autor(?:a)?|naam(?: (?:deelnemer|cursist|lid|kandidaat|van de .*))?|volledige naam|deelnemer|deelneemster|cursist|lid|klant|kandidaat|werknemer|medewerker|auteur|ten name van|t\.n\.v\.?|factuur aan|aan|voor)`)},
	{isTitle, whole(`(?:e-?learning|online-? ?(?:cursus|kurs|module?|training|course|seminar|webinar)|(?:self-paced|live|distance|evening|short|training|refresher|safety) (?:course|webinar|module|seminar|workshop)|(?:title|name|subject|topic|theme|committee|working group)(?: of (?:the )?(?:course|seminar|event|session|training|workshop|lecture|talk|programme|program|article|paper|module|activity|presentation|webinar|conference|qualification|examination|meeting))?|(?:course|seminar|event|training|workshop|session|lecture|talk|programme|program|module|class|activity|study day|webinar|conference|lesson|presentation|meeting|series|article|paper|manuscript|qualification|certification|examination|learning activity|training course|course taken|unit|exercise|lecture given)s?(?: (?:title|name|attended|completed|subject|topic))?|item|description|reason|for|in respect of|re|regarding)`)},
	{isTitle, whole(`(?:leergang|encuentro|masterclass|ausschuss|arbeitskreis|arbeitsgruppe|gremium|comite|commission|groupe de travail|comision|grupo de trabajo|commissie|werkgroep|titel(?: (?:der|des) .*)?|thema(?: (?:der|des) .*)?|bezeichnung|kurs(?:titel|name|bezeichnung)?|lehrgang(?:stitel|sbezeichnung)?|seminar(?:titel|thema)?|schulung(?:stitel|sthema)?|veranstaltung(?:stitel)?|fortbildung(?:sthema)?|weiterbildung|vortrag(?:sthema)?|sitzung|modul|leistung|position|grund|gegenstand|beitrag|qualifikation|abschluss|inhalt|workshop|tagung|ubung|unterweisung|intitule(?: (?:de|du) .*)?|titre(?: (?:de|du) .*)?|formation(?: suivie)?|cours|stage|seance|seminaire|atelier|module|conference|objet|theme|designation|libelle|motif|sujet|reunion|curso|titulo(?: (?:de|del) .*)?|denominacion(?: .*)?|nombre del (?:curso|taller|seminario|evento)|accion formativa|taller|seminario|jornada|sesion|ponencia|concepto|motivo|descripcion|tema|asunto|actividad|cursus(?:titel|naam)?|titel (?:van de )?\S*|opleiding|training|onderwerp|omschrijving|reden|les|bijeenkomst|lezing|studiedag|scholing|nascholing)`)},
	{isPresent, whole(`present|anwesend|scanned|attended\?|present\?|signature|unterschrift|emargement|firma|handtekening|aanwezig|presente|sign(?:ed)? in`)},
}

var allLabels = slices.Concat(dayLabels, synonyms, labels, furtherLabels)

// seatsAtEnd is how many of it were bought, or for how many.
var seatsAtEnd = matching(`(?i)(?:,| –| -| ×| x|:)? (?:\d{1,2}|one|two|eine?|un|une|una|een) ?[x×]? ?(?:seats?|places?|persons?|people|participants?|delegates?|tickets?|registrations?|plätze?|platz|personen|teilnehmer|personnes?|inscriptions?|plazas?|personas?|inscripciones|inscripción|plaatsen|plaats|deelnemers?|personen)$`)

func whole(list string) *pattern { return matching(`^(?:` + list + `)$`) }

// neverBare are words that are a label only with a colon behind them: how a course is
// held, or its title.
var neverBare = matching(`^(?:congress|kongress|congres|congreso|forum|symposium|simposio|summer school|clinic|study tour|sommerschule|journees|jornadas|congresso|e-?learning|online-? ?(?:cursus|kurs|module?|training|course|seminar|webinar)|(?:self-paced|live|distance|evening|short) (?:course|webinar|module|seminar|workshop))$`)

// roleOf returns the role that a label gives its value; noRole for other text. The same text
// is asked about many times while a paper is read.
func roleOf(label string) role { return roles.Of(label, findRole) }

var roles memo.Memo[string, role]

// dayOfBill is a label for the day of a bill or paper behind its name and number.
var dayOfBill = matching(`^(?:invoice|receipt|credit note|certificate|statement|rechnung|quittung|beleg|gutschrift|bescheinigung|facture|recu|avoir|attestation|factura|recibo|certificado|factuur|kwitantie|bewijs)\b[^:]{0,30}\b(?:no|nr|n\.?[o°º]|num(?:ber|mer|ero)?)\b[^:]*\d\S*[ ,·|-]+(?:date|datum|dated|du|fecha|dia)$`)

func findRole(label string) role {
	text := strings.Trim(fold(label), " :.-*\"/")
	if m := enumerator.FindStringIndex(text); m != nil {
		text = text[m[1]:] // "3. Job title" on a form
	}
	if text == "" || len(text) > 60 {
		return noRole
	}
	if dayOfBill.MatchString(text) {
		return isIssue // "Factura n.º 26/0019   Fecha" where the gap was lost
	}
	if taxTopic.MatchString(text) && !taxSum.MatchString(text) {
		return noRole // what a course is about
	}
	if m := boxNumber.FindString(text); m != "" {
		if r := roleOf(text[len(m):]); slices.Contains([]role{isIssue, isExam, isOther, isStart, isEnd, isFinish, isPerson, isProvider}, r) {
			return r // "7 Issue date" on a card
		}
	}
	tries := []string{text, withoutBrackets(text), withoutWhom(text), withoutArticle(text), withoutUnit(text)}
	for i, try := range tries {
		if slices.Contains(tries[:i], try) {
			continue
		}
		for _, l := range allLabels {
			if l.fits.MatchString(try) {
				return l.role
			}
		}
	}
	if m := ofThat.FindStringIndex(text); m != nil && roleOf(text[m[1]:]) == isLeftOut {
		return isLeftOut // "of which private study"
	}
	if m := aboutWhom.FindStringIndex(text); m != nil && m[1] < len(text) {
		if r := roleOf(text[m[1]:]); r == isPerson || r == isProvider {
			return r // "Details of employer"
		}
	}
	for part := range strings.SplitSeq(text, "/") {
		if part = strings.TrimSpace(part); part != text && part != "" {
			if r := roleOf(part); r != noRole {
				return r
			}
		}
	}
	return noRole
}

var (
	// taxTopic is a tax with where or for whom it is of interest, as courses are called.
	taxTopic = matching(`^(?:the |die |la |l'|el |de )?(?:vat|sales tax|umsatzsteuer|mehrwertsteuer|mwst|tva|iva|btw|income tax|einkommensteuer) (?:im|in|bei|fur|und|for|and|dans|chez|pour|et|en|y|para|voor|bij|within|across|innerhalb)(?: (?:the|der|die|den|dem|la|les|le|el|los|las|de|het|une?|an?|small|kleine[rn]?))? \p{L}{4,}`)
	// taxSum is such a line of a bill.
	taxSum = matching(`\d|\b(?:hohe|total\w*|betrag|amount|invoice|rechnung|fees?|prices?|gebuhr\w*|kurs\w*|course|factura|facture|duty|duties|abgaben|taxes|steuern|sum|summe|bill|service|postage|versand\w*)\b`)
)

// enumerator numbers the boxes of a form.
var enumerator = matching(`^(?:[a-z]|\d{1,2})[.)] `)

// boxNumber is the number of a box without a mark behind it.
var boxNumber = matching(`^\d{1,2} `)

// whom ends a label that says of whom it speaks: "hours attended by the participant".
var whom = matching(` (?:by|of|for|durch|von|des|der|par|du|de la|por|del|door|van) (?:the |den |die |le |la |el |de |het |this )?(?:participant|attendee|delegate|learner|student|candidate|trainee|member|holder|teilnehmer(?:in|s)?|kandidat(?:in|en)?|stagiaire|participante?|alumn[oa]|asistente|deelnemer|cursist|kandidaat)$`)

// withoutWhom returns a label without whom it speaks of, where more than a word is left.
func withoutWhom(text string) string {
	if m := whom.FindStringIndex(text); m != nil && strings.Contains(text[:m[0]], " ") {
		return text[:m[0]]
	}
	return text
}

// withoutUnit returns a label without the unit in which it asks for a time: "breaks, in minutes",
// "study time, hours".
func withoutUnit(text string) string {
	return inUnit.ReplaceAllString(withoutBrackets(text), "")
}

// ofThat begins a label for a part of what the label before it asks for.
var ofThat = matching(`^(?:dont|davon|of which|thereof|including|incl\.|de (?:los|las) cuales|waarvan) `)

// inUnit is such a unit at the end of a label.
var inUnit = matching(`(?:,? (?:in|en) |, )(?:whole |full |clock |vollen |ganzen )?(?:hours?|hrs\.?|minutes?|mins?\.?|h|stunden|std\.?|zeitstunden|minuten|heures?|horas?|minutos?|uren|uur)$`)

// withoutArticle returns a label that ends with a verb's "by" without the article of what
// stands beneath it: "Held by the".
func withoutArticle(text string) string {
	if m := byArticle.FindStringIndex(text); m != nil {
		return text[:strings.LastIndexByte(text, ' ')]
	}
	return text
}

var byArticle = matching(`\p{L} (?:by|von|durch|par|por|door) (?:the|der|dem|die|das|l[ae]s?|el|los|het|de)$`)

func withoutBrackets(text string) string {
	if i := strings.IndexByte(text, '('); i > 0 {
		return strings.TrimSpace(text[:i])
	}
	return text
}
