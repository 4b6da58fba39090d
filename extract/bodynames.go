package extract

import "strings"

// namedInFull takes of the names of bodies those that stand for another: a part of a longer
// one where the text goes on as that does, one word of it that was named before, and who bears
// the body that the paper names at its head.
func (l *look) namedInFull(list []guess) []guess {
	for i := range list {
		g := &list[i]
		rest := l.passages[g.at.passage].text[min(g.at.span.To, len(l.passages[g.at.passage].text)):]
		for _, o := range list {
			more, begins := strings.CutPrefix(o.text, g.text)
			if begins && strings.HasPrefix(g.why, "the sentence") && goesOnName.MatchString(more) && strings.HasPrefix(rest, more) && !hasFigure(more) {
				g.text, g.at.span.To = o.text, g.at.span.To+len(more)
			}
		}
	}
	l.withArticle(list)
	for i := range list {
		g := &list[i]
		for _, o := range list {
			short := !strings.Contains(g.text, " ") && bodyWord.MatchString(fold(g.text)) && wordOf(g.text, o.text) && o.score >= 60
			bears := strings.HasPrefix(g.why, "it stands with the label") && l.bears(*g) && o.score >= 66 && bare(o.text) != bare(g.text) && l.isBody(o.text)
			if short {
				g.score, g.sure = min(g.score, 20), false
			} else if bears {
				g.score, g.sure = min(g.score, 40), false
			}
		}
	}
	return list
}

// withArticle writes the name of a body with the article with which it stands in a line of its own,
// where a sentence took that for a word before the name: "The Kiln Review".
func (l *look) withArticle(list []guess) {
	for i := range list {
		g := &list[i]
		for _, o := range list {
			article, rest, parted := strings.Cut(o.text, " ")
			if parted && rest == g.text && articleOfName.MatchString(article) && strings.Trim(l.passages[o.at.passage].text, " .,") == o.text {
				g.text, g.at = o.text, o.at
				break
			}
		}
	}
}

// articleOfName is the article with which a name may begin.
var articleOfName = matching(`^(?:The|Der|Die|Das|Le|La|Les|El|Los|Las|De|Het)$`)

// goesOnName is more of a name: further words with capitals, small ones before them.
var goesOnName = matching(`^(?: (?:of|for|and|the|in|on|für|und|der|des|die|de|del|la|las|los|le|les|du|et|y|en|van|voor|het|&)){0,3} \p{Lu}\p{Ll}{2,}(?: |$)`)

// wordOf reports that one is a word of a longer name.
func wordOf(one, name string) bool {
	return len(one) < len(name) && strings.Contains(" "+fold(name)+" ", " "+fold(one)+" ")
}

// bears reports a guess at a label for who bears the body that held it.
func (l *look) bears(g guess) bool {
	p, ok := l.labelOf(g.at.last())
	return ok && bearer.MatchString(p.label)
}

// streetOfBlock reports a line over the town that another line of the same block stands right
// above: the house or the street of the one at its head.
func (l *look) streetOfBlock(ci int) bool {
	c := &l.cells[ci]
	below := l.below(c.row, ci)
	if !l.boxed || c.row == 0 || below < 0 || !townOnly.MatchString(l.cells[below].text) {
		return false
	}
	height := c.box[3] - c.box[1]
	for k := range l.cells {
		o := &l.cells[k]
		if gap := c.box[1] - o.box[3]; o.page == c.page && k != ci && abs(o.box[0]-c.box[0]) <= height/2 && gap < height && gap > -height/2 && o.box[1] < c.box[1] && abs(o.size-c.size)*10 < c.size && !strings.HasSuffix(o.text, ":") {
			return true
		}
	}
	return false
}

var (
	// townOnly is a town with its code and nothing else.
	townOnly = matching(`^(?:\p{Lu}[\p{L}’'.-]+ ){1,3}\p{Lu}{1,2}\d{1,2}\p{Lu}? ?\d\p{Lu}{2}$|^(?:[A-Z]{1,2}-)?\d{4,5}(?: ?[A-Z]{2})? \p{Lu}[\p{L}’' -]+$|^\p{Lu}[\p{L}’' -]+,? [A-Z]{2} \d{5}$`)
	// courseCode is the number of a course, and no name.
	courseCode = matching(`^(?i:kurs|course|cours|curso|cursus|lehrgang|seminar|seminario|event|class|module?|modul|lot|batch|group|gruppe|groupe|grupo|groep|session|ref|file|dossier|az)\b\.?(?:[- ](?i:no|nr|n°|nº|id))?\.?:? ?\S{0,4}\d\S*$`)
)
