package extract

import "slices"

var (
	// needed are words for what credits are measured against: a limit, a minimum, an aim.
	needed = words(`up to|maximum(?: of)?|max\.?|at most|as many as|out of|of a possible|capped at|required?|requires?|requirements?|minimum|at least|annual target|target|goal|quota|needs?|needed|short of \S+|carry-?over|carries over|` +
		`bis zu|maximal|hochstens|erforderlich\w*|benotigt\w*|gefordert\w*|mindest\w*|mindestens|pflicht|ziel|soll|sollwert|jahressoll|jahresziel|es fehlen|fehlen|fehlend\w*|` +
		`jusqu'a|au plus|au maximum|requis\w*|exig\w+|minimal\w*|minima|objectif|seuil|il (?:vous )?manque|restent? a|` +
		`hasta|como maximo|maximo|minimo|requerid[oa]s?|exigid[oa]s?|exige\w*|objetivo|meta|faltan?|` +
		`maximaal|hoogstens|tot(?: maximaal)?|minimaal|ten minste|vereist\w*|verplicht\w*|norm|doel|jaardoel|streefgetal|nodig|ontbreken`)
	// earlier are words for another period than the one the paper is about.
	earlier = words(`previous|prior|last (?:year|cycle|period)|preceding|carried (?:over|forward)|brought forward|vorjahr\w*|vorperiode|vorherig\w*|vorig\w*|letzte[nsr]? (?:jahr|zeitraum|periode)\w*|ubertrag\w*|precedente?s?|l'an dernier|reporte\w*|anterior(?:es)?|pasado|arrastrad\w*|vorig jaar|afgelopen (?:jaar|periode)|meegenomen|overgedragen`)
	// gained are words for what the person has by this paper.
	gained = words(`earned|awarded|granted|credited|gained|received|obtained|carries|earns?|worth|total|completed|reported|erworben\w*|angerechnet|anerkannt|vergeben|erhalt\w*|gutgeschrieben|insgesamt|gesamt|obtenus?|attribu\w*|valides?|acquis|donne droit a|obtenid[oa]s?|otorga\w*|acredita\w*|conced\w*|behaald\w*|toegekend\w*|verdiend\w*|goed voor|totaal`)
	// neededBehind begins behind credits that are asked for.
	neededBehind = matching(`^[,)]? ?(?:are |is |were |was |sind |werden |wird |sont |est |son |es |zijn |worden |is )?(?:still )?(?:required|needed|necessary|short|missing|outstanding|per (?:year|annum|cycle)|a year|each year|every|` +
		`erforderlich|notig|notwendig|benotigt|gefordert|vorgeschrieben|pro (?:jahr|zeitraum)|im jahr|jahrlich|fehlen|requis|exige|necessaires?|demandes?|par an|par periode|manqu|` +
		`requerid|exigid|necesari|al ano|por ano|anuales|faltan|vereist|nodig|verplicht|per (?:jaar|periode)|ontbreken|te behalen)`)
	// offered are words that praise another event.
	offered = words(`recommended(?: next| for you| courses?)?|(?:we|you may) (?:recommend|suggest)|suggested(?: next)?|what(?:'s| to do) next|continue with|` +
		`empfohlen\w* fur (?:sie|dich)|unsere empfehlung\w*|wir empfehlen|als nachstes|passend dazu|nous vous (?:recommandons|conseillons|proposons|suggerons)|recommandee?s? pour vous|a suivre|pour aller plus loin|` +
		`le (?:recomendamos|sugerimos|proponemos)|recomendad[oa]s? para usted|a continuacion le|aanbevolen voor (?:u|jou)|wij raden|wij bevelen|onze aanrader\w*|(?:also|most) popular|das konnte (?:sie|dich|euch) (?:auch )?interessieren|vous aimerez aussi|(?:cela|ceci) pourrait vous interesser|(?:tambien )?(?:te|le) puede interesar|misschien ook (?:iets|interessant)\w*|\d+ ?% (?:off|rabatt|korting|de (?:remise|reduction|descuento))|our next|next (?:course|event|webinar|seminar)|coming up|upcoming|also available|you (?:may|might) also|other courses|save (?:the date|\d+)|sign up|book now|register now|new(?: course)?:|` +
		`nachste[rsn]? (?:kurs|seminar|termin|veranstaltung|webinar)\w*|unser nachste\w*|ebenfalls (?:im angebot|buchbar)|jetzt (?:buchen|anmelden)|weitere (?:kurse|seminare)|` +
		`prochaine?s? (?:cours|seance|formation|stage|webinaire|journee|rendez-vous|soiree)|a venir|inscrivez-vous|decouvrez|egalement propose\w*|` +
		`proxim[oa]s? (?:curso|jornada|taller|seminario|webinar|sesion)|inscribase|apuntese|descubra|tambien le (?:puede|ofrecemos)|` +
		`volgende (?:cursus|training|webinar|bijeenkomst|avond)|ons(?:ze)? volgende|schrijf (?:je|u) (?:nu )?in|ook interessant|binnenkort`)
)

// notEarned reports credits that the paper names and the person has not by it: a limit, what
// is asked for or still missing, those of another period, or of another event that it praises.
// Of two words before them the nearer one decides.
func (l *look) notEarned(c creditHit) bool {
	before, after := l.around(c.at)
	near := tail(before, 60) + " "
	if p, ok := l.labelOf(c.at); ok && len(near) < 24 {
		near = p.label + " " + near
	}
	has := lastMatch(gained, near)
	if lastMatch(needed, near) > has || lastMatch(earlier, near) > has {
		return true
	}
	if dueWord.MatchString(before) || has < 0 && dueBehind.MatchString(after) {
		return true
	}
	if neededBehind.MatchString(head(after, 40)) && has < 0 {
		return true
	}
	if priceBehind.MatchString(l.passages[c.at.passage].text[c.at.span.To:]) {
		return true // what another event brings and costs
	}
	if long := fold(tail(l.passages[c.at.passage].text[:c.at.span.From], 200)); offered.MatchString(long[max(0, lastMatch(sentenceEnd, long)):] + " ") {
		return true
	}
	return offered.MatchString(before+" ") || offered.MatchString(" "+head(after, 40)+" ")
}

// priceBehind is the price of what brings the credits that stand before it in a bracket.
var priceBehind = matching(`^(?:,|;| [-–·|/])\s?(?:(?:only|nur|seulement|solo|slechts|for|für|pour|por|voor)\s)?(?:[$€£]\s?\d|\d{1,4}(?:[.,]\d\d)?\s?[€£$])`)

// earnedHits are the credits in the text that may be what the paper gives.
func (l *look) earnedHits(examined bool) []creditHit {
	return slices.DeleteFunc(slices.Clone(l.credits), func(c creditHit) bool {
		return l.inSeries(c.at) || examined && barePoints.MatchString(fold(c.unit)) || l.notEarned(c) || l.asResult(c.at) || c.value.Sign() == 0
	})
}

// hitsOfRows are the credits of a list of which no row was read as giving any, one in the text of each.
func (l *look) hitsOfRows() []creditHit {
	if slices.ContainsFunc(l.series, func(r line) bool { return len(r.credits) > 0 }) {
		return nil
	}
	return slices.DeleteFunc(slices.Clone(l.credits), func(c creditHit) bool {
		return !l.inSeries(c.at) || l.notEarned(c) || l.asResult(c.at) || c.value.Sign() == 0
	})
}
