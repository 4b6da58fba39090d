package extract

import (
	"slices"
	"strings"
)

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
	l.asElsewhere(list)
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

// asElsewhere writes names as they stand in one piece elsewhere on the paper: with the line beneath that goes on
// with them, and without what stands behind a comma where a line of the head has no more than what is before it.
func (l *look) asElsewhere(list []guess) {
	for i := range list {
		g := &list[i]
		if short, rest, parted := strings.Cut(g.text, ", "); parted && len(strings.Fields(rest)) < 4 && len(strings.Fields(short)) > 1 && l.lineOfHead(short) {
			g.text, g.at = short, g.at.within(0, len(short))
			continue
		}
		if strings.Count(l.all, fold(g.text)) < 2 || len(strings.Fields(g.text)) < 2 {
			continue
		}
		if more := l.beneathInOne(g.at); more != "" {
			g.text += " " + more
		} else if first := l.aboveInOne(g.at); first != "" {
			g.text = first + " " + g.text
		}
	}
}

// beneathInOne returns the words of a line beneath a that stand right behind it elsewhere, where a ends its line.
func (l *look) beneathInOne(a at) string {
	if !l.endsPassage(a) {
		return ""
	}
	key := fold(strings.Trim(l.text(a), " .,"))
	for _, p := range l.passages[a.passage+1 : min(len(l.passages), a.passage+5)] {
		words := strings.Fields(p.text)
		for n := min(len(words), 4); n > 0; n-- {
			if more := strings.Trim(strings.Join(words[:n], " "), " .,"); goesOnName.MatchString(" "+more) && !hasFigure(more) && l.inOneLine(key+" "+fold(more)) {
				return more
			}
		}
	}
	return ""
}

// aboveInOne returns the line above a, which begins its own, that stands right before it elsewhere.
func (l *look) aboveInOne(a at) string {
	if a.passage == 0 || a.span.From > 0 {
		return ""
	}
	key := fold(strings.Trim(l.text(a), " .,"))
	for _, p := range l.passages[max(0, a.passage-4):a.passage] {
		first := strings.Trim(p.text, " .,")
		if n := len(strings.Fields(first)); n > 0 && n < 5 && capitalised(first) && !hasFigure(first) && !strings.ContainsAny(first, ",;:@·|") && !heading.MatchString(fold(first)) && l.inOneLine(fold(first)+" "+key) {
			return first
		}
	}
	return ""
}

// inOneLine reports that a line of the paper holds a folded text.
func (l *look) inOneLine(key string) bool {
	return slices.ContainsFunc(l.folded, func(line string) bool { return strings.Contains(line, key) })
}

// lineOfHead reports a text that is a line of its own among the first of the paper.
func (l *look) lineOfHead(text string) bool {
	return slices.ContainsFunc(l.passages[:min(6, len(l.passages))], func(p passage) bool { return strings.Trim(p.text, " .,*") == text })
}

// endsPassage reports that nothing stands behind a in its passage.
func (l *look) endsPassage(a at) bool {
	return strings.Trim(l.passages[a.passage].text[min(a.span.To, len(l.passages[a.passage].text)):], " .,") == ""
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
