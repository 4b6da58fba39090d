package extract_test

import (
	"cmp"
	"math/rand/v2"
	"os"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// A joinWay is a way to make a file of pages that were read by themselves.
type joinWay string

// The ways, with how many papers each file holds.
const (
	ofTwo      joinWay = "two papers"
	ofOne      joinWay = "two papers about one person"
	ofOneForm  joinWay = "two papers on one form"
	onTwo      joinWay = "one paper on two pages"
	withHead   joinWay = "one paper on two pages, each with its head"
	withBehind joinWay = "a paper and what proves nothing"
)

// joinFloors are the least shares of files that are parted rightly and the greatest of those
// that are asked about, in percent.
var joinFloors = map[joinWay]struct{ papers, right, asked int }{
	ofTwo: {2, 95, 12}, ofOne: {2, 95, 12}, ofOneForm: {2, 85, 35}, onTwo: {1, 90, 30}, withHead: {1, 90, 30}, withBehind: {1, 95, 30},
}

// joinWays gives the ways an order, in which a sample takes every second one for each paper.
var joinWays = []joinWay{ofTwo, ofOne, ofOneForm, onTwo, withHead, withBehind}

// TestJoined sets papers behind each other, those of one person and those on one form too, and
// parts others in two: each must be seen for what it is, or asked about. It takes every third
// paper of three sets and, of the files made of them, every second; with STRIDE every n-th paper
// of all sets and every file, and then mistakes are listed.
func TestJoined(t *testing.T) {
	sets, stride, listed := []string{"corpus", "third/shown", "trades"}, 3, os.Getenv("STRIDE") != ""
	if listed {
		sets, stride = append(slices.Clone(ablated), "third/shown", "fourth/shown", "fifth/shown", "sixth/shown", "trades", "abroad"), wholeNumber(t, "STRIDE", 1)
	}
	one, nothing := singles(t, sets, stride)
	sums := map[joinWay]*parted{}
	for way := range joinFloors {
		sums[way] = &parted{}
	}
	for i, a := range one {
		for k, way := range joinWays {
			if !listed && (i+k)%2 > 0 {
				continue
			}
			doc, names := way.file(a, one[(i+1)%len(one)], nothing[i%len(nothing)])
			if why := sums[way].add(extract.Understand(doc, extract.Hints{}), joinFloors[way].papers); why != "" && listed {
				t.Logf("%s: %v: %s", way, names, why)
			}
		}
	}
	for way, least := range joinFloors {
		s := sums[way]
		t.Logf("%-42s %d of %d parted rightly, %d asked about, %d wrong and not asked", way, s.right, s.n, s.asked, s.silent)
		if 100*s.right < least.right*s.n || 100*s.asked > least.asked*s.n || 100*s.silent > 5*s.n {
			t.Errorf("%s: %d of %d parted rightly, %d asked about, %d wrong and not asked; want %d %%, at most %d %% and 5 %%", way, s.right, s.n, s.asked, s.silent, least.right, least.asked)
		}
	}
}

// file makes a file of paper a, with the next paper or one that proves nothing, and names those
// it is made of.
func (w joinWay) file(a, next, nothing stripped) (doc page.Document, names []string) {
	names = []string{a.want.name}
	switch w {
	case ofTwo:
		return joined(a.doc, next.doc), append(names, next.want.name)
	case ofOne:
		return joined(renamed(a, "Corina Dunnrigg"), renamed(next, "Corina Dunnrigg")), append(names, next.want.name)
	case ofOneForm:
		return joined(a.doc, filledAnew(a)), names
	case withBehind:
		return joined(a.doc, nothing.doc), append(names, nothing.want.name)
	}
	return torn(a.doc.Pages[0], w == withHead), names
}

// singles reads the papers that are one page of a PDF, every stride-th of those that prove
// something, in any order, and all of those that prove nothing.
func singles(t *testing.T, sets []string, stride int) (one, nothing []stripped) {
	t.Helper()
	for i, s := range readStripped(t, sets) {
		switch {
		case path.Ext(s.want.name) != ".pdf" || len(s.doc.Pages) != 1 || len(s.doc.Pages[0].Words) < 20:
		case s.want.values[paper.FieldKind] == string(paper.NotEvidence):
			nothing = append(nothing, s)
		case i%stride == 0:
			one = append(one, s)
		}
	}
	r := rand.New(rand.NewPCG(5, 5))
	r.Shuffle(len(one), func(i, j int) { one[i], one[j] = one[j], one[i] })
	return one, nothing
}

// parted counts how files were parted.
type parted struct{ n, right, asked, silent int }

// add counts the papers of one file and says what is wrong with them; "" if nothing is.
func (p *parted) add(got []paper.Reading, want int) string {
	p.n++
	asked := ""
	for _, r := range got {
		if q, _ := r.Question(paper.FieldKind); strings.HasPrefix(q.Text, "Is this ") && strings.Contains(q.Text, " Page ") {
			asked = q.Text
		}
	}
	if asked != "" {
		p.asked++
	}
	switch {
	case len(got) == want:
		p.right++
	case asked == "":
		p.silent++
		return "wrong and not asked"
	}
	return asked
}

// joined sets the pages of b behind those of a.
func joined(a, b page.Document) page.Document {
	out := page.Document{Type: "pdf", Language: a.Language}
	for _, p := range append(slices.Clone(a.Pages), b.Pages...) {
		p.Number = len(out.Pages) + 1
		out.Pages = append(out.Pages, p)
	}
	return out
}

// reworded is a copy of a document with other words in the places of its own.
func reworded(doc page.Document, other func(word string) string) page.Document {
	doc.Pages = slices.Clone(doc.Pages)
	for i := range doc.Pages {
		words := slices.Clone(doc.Pages[i].Words)
		for j, w := range words {
			if bare := strings.Trim(w.Text, `,.:;"“”„()`); bare != "" {
				words[j].Text = strings.Replace(w.Text, bare, other(bare), 1)
			}
		}
		doc.Pages[i].Words, doc.Pages[i].Second = words, ""
	}
	return doc
}

// renamed is the paper as if it were about somebody else.
func renamed(s stripped, name string) page.Document {
	old, now := strings.Fields(s.want.values[paper.FieldAttendee]), strings.Fields(name)
	return reworded(s.doc, func(word string) string {
		k := slices.IndexFunc(old, func(part string) bool { return strings.EqualFold(part, word) })
		if k < 0 {
			return word
		}
		part := now[min(k, 1)]
		if k > 0 && k < len(old)-1 {
			part = now[0][:1] + "."
		}
		if strings.ToUpper(word) == word {
			return strings.ToUpper(part)
		}
		return part
	})
}

var dayDigits = regexp.MustCompile(`\b[0-3][0-9]\b`)

// filledAnew is the same form about another event of the same person: other days, and the
// words of the title in another order.
func filledAnew(s stripped) page.Document {
	title := strings.Fields(s.want.values[paper.FieldTitle])
	return reworded(s.doc, func(word string) string {
		if k := slices.Index(title, word); k >= 0 && len(word) > 3 {
			return title[(k+1)%len(title)]
		}
		return dayDigits.ReplaceAllStringFunc(word, func(d string) string {
			return map[byte]string{'0': "03", '1': "16", '2': "21", '3': "28"}[d[0]]
		})
	})
}

// torn moves what stands in the lower part of a page onto another, from the widest gap on.
// headed repeats its topmost line there.
func torn(p page.Page, headed bool) page.Document {
	const margin = 6000
	first, second := p, p
	first.Words, second.Words, first.Second, second.Second = nil, nil, "", ""
	at := widestGap(p)
	top := slices.MinFunc(p.Words, func(a, b page.Word) int { return cmp.Compare(a.Box[3], b.Box[3]) }).Box[3]
	for _, w := range p.Words {
		middle := (w.Box[1] + w.Box[3]) / 2
		if headed && middle <= top {
			second.Words = append(second.Words, w)
		}
		if w.Box[1] < at {
			first.Words = append(first.Words, w)
			continue
		}
		w.Box[1], w.Box[3] = w.Box[1]-at+margin, w.Box[3]-at+margin
		if w.Laid != [4]int{} {
			w.Laid[1], w.Laid[3] = w.Laid[1]-at+margin, w.Laid[3]-at+margin
		}
		second.Words = append(second.Words, w)
	}
	return joined(page.Document{Pages: []page.Page{first}}, page.Document{Pages: []page.Page{second}})
}

// widestGap returns where the line begins above which there is most room, from six to nine
// tenths of the words on.
func widestGap(p page.Page) int {
	tops := make([]int, len(p.Words))
	for i, w := range p.Words {
		tops[i] = w.Box[1]
	}
	slices.Sort(tops)
	at, gap := tops[len(tops)*6/10], 0
	for i := len(tops) * 6 / 10; i < len(tops)*9/10; i++ {
		if d := tops[i] - tops[i-1]; d > gap {
			at, gap = tops[i], d
		}
	}
	return at - 300
}
