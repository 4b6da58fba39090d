package extract

import (
	"slices"
	"strings"

	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

// A letter of employment tells a career: what somebody came as, what they were made then,
// and what they are now. The post held last is the one that counts.

// madePost holds what somebody was promoted to, appointed or is now.
var madePost = matching(`(?i)(?:^|[\s,(])(?:` +
	`(?:promoted|advanced|upgraded|appointed|raised|moved up|stepped up|progressed)(?: (?:as|to))?(?: (?:the |our )?(?:post|position|role|rank|grade|office) of)? |` +
	`(?:has|have) (?:now |since |then )?(?:been|served as|acted as) (?:our|the) |(?:she|he|they) (?:is|was|became|remains|remained) (?:now |currently |then |latterly |finally )?(?:our|the) |(?:became|made) (?:our |the |an? )?|` +
	`promue?s? (?:au (?:poste|grade|rang) d(?:e |['’])|aux fonctions d(?:e |['’])|à la fonction d(?:e |['’]))?|nommée? (?:au poste d(?:e |['’])|aux fonctions d(?:e |['’]))?|devenue? |` +
	`(?:ascendid[oa]|promovid[oa]|promocionad[oa]|nombrad[oa]|designad[oa]|ascendió)(?: (?:al? (?:puesto|cargo|categoría) de|como|a))? |pasó a (?:ser|ocupar el (?:puesto|cargo) de|desempeñar (?:el (?:puesto|cargo)|las funciones) de) |` +
	`(?:puis|ensuite)(?: (?:comme|en qualité de|en tant que|de)| d['’]) ?|(?:then|later|afterwards|subsequently|latterly) as |(?:dann|danach|anschließend|später|zuletzt) als |(?:luego|después|posteriormente) (?:como|de) |(?:daarna|vervolgens|later|laatstelijk) als |` +
	`(?:bevorderd|benoemd|gepromoveerd|aangesteld)(?: tot| als) )(?:an? |une? |een |una |the |our |notre |nuestr[oa] )?(\p{L}.{3,80})`)

// givenPost holds the post that a German sentence gives somebody: the word for it stands before.
var (
	givenPost = matching(`(?:Stelle|Position|Funktion|Aufgaben?|Posten|Amt|Rolle|Tätigkeit) (?:als (?:eine[rs]? )?|der |des |eine[rs] )(\p{Lu}[^,.;]{3,70}?)(?: (?:übertragen|übernommen|übernahm|anvertraut|inne|bekleidet|bekleidete|versetzt|betraut|ausgeübt|ausübt|wahrgenommen)|[,.;(]|$)`)
	zumPost   = matching(`(?:^|\s)zu[mr] (\p{Lu}[^,.;]{3,70}?) (?:befördert|ernannt|bestellt|berufen|aufgestiegen|gemacht)`)
)

// nowPost holds what a sentence says that the present or the last post is, with that word.
var nowPost = matching(`(?i)(?:^|[\s,(])(?:` +
	`(?:current|present|latest|last|final|most recent) (?:job )?(?:position|post|role|title|function|appointment|rank|grade|occupation)(?: (?:with us|with the \p{L}+|here|there|at \p{Lu}[^,.;]{2,40}))? (?:is|was|has been)(?: that of)?(?: as)?|(?:currently|presently|now|latterly|most recently) (?:holds|held|occupies|fills) the (?:position|post|role|title|office|rank) of|` +
	`(?:derzeitige|jetzige|aktuelle|gegenwärtige|heutige|letzte) (?:position|stelle|funktion|tätigkeit|dienststellung|stellung)(?: (?:bei uns|im haus(?:e)?))? (?:ist|war|lautet|lautete)(?: die (?:de[rs]|eine[rs]))?(?: als)?|` +
	`(?:poste|emploi) (?:actuel|présent) (?:est|était)(?: celui d(?:e|['’]))?|(?:dernier (?:poste|emploi)|dernière fonction|fonction actuelle) (?:est|était|fut|a été)(?: celu?i?l?e? d(?:e|['’]))?|` +
	`(?:puesto|cargo) actual es(?: el de)?|último (?:puesto|cargo) (?:es|fue|ha sido|era)(?: el de)?|actualmente (?:ocupa|desempeña|ejerce) el (?:puesto|cargo) de|` +
	`(?:huidige|tegenwoordige|laatste) (?:functie|betrekking|positie) (?:is|was|luidt|luidde)(?: die van)?` +
	`):? ?(?:an? |eine? |une? |un |una |een |the |el |la |le )?(\p{L}.{3,80})`)

// wasPost holds what somebody was from a day on, or until one, behind a plain verb: "seit dem
// 1. Mai 2021 war sie Schichtleiterin". The day has to stand in the same sentence.
var wasPost = matching(`(?:^|[\s,(])(?:` +
	`(?:war|ist|blieb) (?:sie|er|(?:Frau|Herr) \p{Lu}[\p{L}-]+)(?: (?:dann|zuletzt|schließlich|zudem|bei uns|hier|dort|zugleich|bis (?:zuletzt|heute)))?|(?:Sie|sie|Er|er|(?:Frau|Herr) \p{Lu}[\p{L}-]+) (?:war|ist|blieb) (?:(?:zuletzt|schließlich|zugleich|seit|ab|vom)(?: [\p{Ll}\d][^\s,;]*| (?:Januar|Februar|März|April|Mai|Juni|Juli|August|September|Oktober|November|Dezember))*)|` +
	`(?:[Ss]he|[Hh]e|[Tt]hey|(?:Mr|Mrs|Ms|Miss|Dr)\.? \p{Lu}[\p{L}-]+) (?:was|is|has been|were|are|have been)(?: (?:now|then|latterly|finally|lastly|also))?` +
	`) (\p{Lu}\p{Ll}[^,.;]{2,70})|(?:^|[\s,(])(?:(?:[Ee]lle|[Ii]l|(?:Mme|Madame|M\.|Monsieur) \p{Lu}[\p{L}-]+) (?:est|était|fut|a été)|(?:[Dd]esde|[Aa] partir de|[Hh]asta)[^,.;]{4,40},? (?:es|fue|era|ha sido)|(?:was|is|bleef) (?:zij|hij|ze|mevrouw \p{Lu}[\p{L}-]+|de heer \p{Lu}[\p{L}-]+)|(?:[Zz]ij|[Hh]ij) (?:was|is) (?:sinds|vanaf|van|tot)(?: \d[^,.;]*? (?:19|20)\d\d))(?: (?:notre|nuestr[oa]|onze|la|le|l['’]|el|de|het|une?|una?|een))? (\p{L}\p{Ll}[^,.;]{2,70})`)

// statesOnly are words behind such a verb that are no post but a state: what was done with
// somebody, or where they were.
var statesOnly = matching(`^(?:\p{L}+(?:ées?|és?|ad[oa]s?|id[oa]s?)(?: |$)|in |op |bij |aan |met |voor |niet |altijd |steeds |werkzaam|ziek|te |en |au |à |dans |chez |sous |toujours |présente?|absente?|en |de |con |muy |siempre |responsible|always|very|an? )`)

// noPost is what somebody is to a firm whatever their post.
var noPost = matching(`^(?:employee|member of (?:the )?staff|member|colleague|employed|part|subject|first|only|best|responsib|in charge|permanent|valued|mitarbeiter(?:in)?\b|angestellte|salariee?\b|empleada?\b|medewerk\w+$|werknem)`)

// careerIn finds the posts that somebody was given in the course of time, in their order.
func (l *look) careerIn(i int, text string) []guess {
	var list []guess
	for _, span := range l.postsGiven(text) {
		rest := text[span.From:span.To]
		rest = rest[:positionEnd(rest)]
		rest = strings.TrimRight(andAtEnd.ReplaceAllString(trailSmall.ReplaceAllString(l.undated(rest)+" ", ""), ""), " ,.;:–-")
		if n := len(strings.Fields(rest)); n == 0 || n > 8 || len(rest) < 4 || noPost.MatchString(fold(rest)) || hasFigure(rest) || isPersonal(rest) && l.out.Values[paper.FieldAttendee].Text != "" && l.namesAttendee(rest) {
			continue
		}
		score := 84 + 2*min(len(list), 3)
		if !capitalised(rest) {
			score -= 4
		}
		list = append(list, guess{text: rest, at: l.passageAt(i).within(span.From, len(rest)), score: score, why: lastMade, sure: true})
	}
	return list
}

// positionEnd returns where a post ends that begins a text. An "and" within it ends none: "responsable des
// cours et des stages", "Meetings and Membership Officer".
func positionEnd(text string) int {
	for from := 0; ; {
		e := endOfPosition.FindStringIndex(text[from:])
		if e == nil {
			return len(text)
		}
		end := from + e[0]
		m := joinedPost.FindStringIndex(text[end:])
		if m == nil || officeWord.MatchString(fold(text[:end])) && startsUpper(strings.TrimSpace(text[end+4:])) {
			return end
		}
		from = end + m[1]
	}
}

// joinedPost goes on with a post behind an "and".
var joinedPost = matching(`^ et (?:des? |du |d['’]|de l)|^ y (?:del? |de l)|^ en van |^ and \p{Lu}\p{Ll}+ `)

// postsGiven returns the places in text that begin with a post, in their order.
func (l *look) postsGiven(text string) []find.Span {
	var list []find.Span
	for _, p := range []*pattern{madePost, nowPost, givenPost, zumPost, wasPost} {
		for from := 0; from < len(text); {
			m := p.FindStringSubmatchIndex(text[from:])
			if m == nil {
				break
			}
			a, b := group(m)
			a, b = from+a, from+b
			if p == givenPost && l.lang == find.German && strings.HasSuffix(text[from:a], "des ") {
				b = a + len(withoutGenitive(text[a:b]))
			}
			if p != wasPost || l.datedClause(text, from+m[0], b) && !statesOnly.MatchString(text[a:b]) {
				list = append(list, find.Span{From: a, To: b})
			}
			from = a
		}
	}
	slices.SortStableFunc(list, func(a, b find.Span) int { return a.From - b.From })
	return list
}

// datedClause reports a day in the sentence that holds a part of text.
func (l *look) datedClause(text string, from, to int) bool {
	begin, end := 0, len(text)
	for _, m := range endOfSentence.FindAllStringIndex(text, -1) {
		if m[0] < from {
			begin = m[1]
		} else if m[0] >= to-1 {
			end = min(end, m[1])
		}
	}
	return begin < end && len(find.Dates(text[begin:end], l.langs))+len(find.Ranges(text[begin:end], l.langs)) > 0
}

// endOfSentence is a full stop that no figure or single letter stands before.
var endOfSentence = matching(`\p{L}{2}[.;!?] +\p{Lu}`)

// lastOf joins the posts that a passage names behind "as" and those that it says somebody was
// made. One of the former that stands behind the latter, with a day between, came later.
func (l *look) lastOf(i int, as, made []guess) []guess {
	if len(made) == 0 {
		return as
	}
	end := 0
	for _, g := range made {
		end = max(end, g.at.span.To)
	}
	text := l.passages[i].text
	for k, g := range as {
		if g.at.span.To <= made[0].at.span.From {
			as[k].score = min(g.score, 70) // what somebody came as
		}
		if g.score >= 66 && g.at.span.From > end && len(find.Dates(text[end:g.at.span.From], l.langs)) > 0 {
			as[k].score = max(g.score, 92)
			return as
		}
	}
	return append(as, made...)
}

// withoutGenitive takes the "s" off the first word of a post: "des Gruppenleiters".
func withoutGenitive(post string) string {
	if first, _, more := strings.Cut(post, " "); !more && strings.HasSuffix(first, "ers") {
		return strings.TrimSuffix(post, "s")
	}
	return post
}

// lastMade tells why a post is put forward.
const lastMade = "the sentence says what the person was made"
