package extract

import (
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
	`(?:bevorderd|benoemd|gepromoveerd|aangesteld)(?: tot| als) )(?:an? |une? |een |una |the |our |notre |nuestr[oa] )?(\p{L}.{3,80})`)

// givenPost holds the post that a German sentence gives somebody: the word for it stands before.
var (
	givenPost = matching(`(?:Stelle|Position|Funktion|Aufgaben?|Posten|Amt|Rolle|Tätigkeit) (?:als (?:eine[rs]? )?|der |des |eine[rs] )(\p{Lu}[^,.;]{3,70}?)(?: (?:übertragen|übernommen|übernahm|anvertraut|inne|bekleidet|bekleidete|versetzt|betraut|ausgeübt|ausübt|wahrgenommen)|[,.;(]|$)`)
	zumPost   = matching(`(?:^|\s)zu[mr] (\p{Lu}[^,.;]{3,70}?) (?:befördert|ernannt|bestellt|berufen|aufgestiegen|gemacht)`)
)

// noPost is what somebody is to a firm whatever their post.
var noPost = matching(`^(?:employee|member of (?:the )?staff|member|colleague|employed|part|subject|first|only|best|responsib|in charge|permanent|valued|mitarbeiter(?:in)?\b|angestellte|salariee?\b|empleada?\b|medewerk\w+$|werknem)`)

// careerIn finds the posts that somebody was given in the course of time.
func (l *look) careerIn(i int, text string) []guess {
	var list []guess
	add := func(from, to int) {
		rest := text[from:to]
		if e := endOfPosition.FindStringIndex(rest); e != nil {
			rest = rest[:e[0]]
		}
		rest = strings.TrimRight(andAtEnd.ReplaceAllString(trailSmall.ReplaceAllString(l.undated(rest)+" ", ""), ""), " ,.;:–-")
		if n := len(strings.Fields(rest)); n == 0 || n > 8 || len(rest) < 4 || noPost.MatchString(fold(rest)) || hasFigure(rest) || isPersonal(rest) && l.out.Values[paper.FieldAttendee].Text != "" && l.namesAttendee(rest) {
			return
		}
		score := 84 + 2*min(len(list), 3)
		if !capitalised(rest) {
			score -= 4
		}
		list = append(list, guess{text: rest, at: l.passageAt(i).within(from, len(rest)), score: score, why: lastMade, sure: true})
	}
	for _, p := range []*pattern{madePost, givenPost, zumPost} {
		for from := 0; from < len(text); {
			m := p.FindStringSubmatchIndex(text[from:])
			if m == nil {
				break
			}
			end := from + m[3]
			if p == givenPost && l.lang == find.German && strings.HasSuffix(text[from:from+m[2]], "des ") {
				end = from + m[2] + len(withoutGenitive(text[from+m[2]:end]))
			}
			add(from+m[2], end)
			from += m[2]
		}
	}
	return list
}

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
