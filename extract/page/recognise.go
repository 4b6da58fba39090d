package page

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"
	"unicode/utf8"

	"evidencevault/internal/confine"
)

// installOCR is the way out where letters cannot be recognised.
const installOCR = "install the program tesseract (on Debian: apt install tesseract-ocr tesseract-ocr-deu), then run \"vaultctl reread\""

// recogniser runs the program that recognises letters.
type recogniser struct {
	program string // as chosen; "" looks for it
	wanted  []string
	mu      sync.Mutex
	found   *letters
}

// letters is what was found of the program.
type letters struct {
	path      string
	version   string
	languages []string // wanted and installed
	turn      bool     // it can tell how a page is turned
}

// errNoLetters says that letters cannot be recognised here, and why.
var errNoLetters = errors.New("its letters cannot be recognised")

// look finds the program and its languages, once.
func (g *recogniser) look(ctx context.Context) (letters, error) {
	g.mu.Lock()
	defer g.mu.Unlock()
	if g.found != nil {
		return *g.found, nil
	}
	path, err := g.locate()
	if err != nil {
		return letters{}, err
	}
	l := letters{path: path}
	timed, stop := context.WithTimeout(ctx, 10*time.Second)
	defer stop()
	out, err := run(timed, path, 10*time.Second, nil, "--version")
	if err != nil {
		return letters{}, fmt.Errorf("%w: %s does not run: %v; %s", errNoLetters, path, err, installOCR)
	}
	first, _, _ := strings.Cut(string(out), "\n")
	l.version = plain(first, 80)
	out, err = run(timed, path, 10*time.Second, nil, "--list-langs")
	if err != nil {
		return letters{}, fmt.Errorf("%w: %s does not tell its languages: %v; %s", errNoLetters, path, err, installOCR)
	}
	installed := strings.Fields(string(out))
	for _, w := range g.wanted {
		if slices.Contains(installed, w) {
			l.languages = append(l.languages, w)
		}
	}
	l.turn = slices.Contains(installed, "osd")
	if len(l.languages) == 0 {
		return letters{}, fmt.Errorf("%w: tesseract has none of the languages %s; %s", errNoLetters, strings.Join(g.wanted, ", "), installOCR)
	}
	g.found = &l
	return l, nil
}

// locate returns the path of the program, if it may be started.
func (g *recogniser) locate() (string, error) {
	name := g.program
	if name == "" {
		name = "tesseract"
	}
	path, err := exec.LookPath(name)
	if err != nil {
		return "", fmt.Errorf("%w: tesseract is not installed; %s", errNoLetters, installOCR)
	}
	if path, err = filepath.Abs(path); err != nil {
		return "", fmt.Errorf("%w: %v", errNoLetters, err)
	}
	if open := openFolder(path); open != "" {
		return "", fmt.Errorf("%w: %s is not started, for anyone can write to %s; take that folder out of PATH or close it (chmod o-w)", errNoLetters, path, open)
	}
	return path, nil
}

// run runs the program in a child of its own, with in on its standard input.
func run(ctx context.Context, path string, limit time.Duration, in []byte, args ...string) ([]byte, error) {
	env := []string{"OMP_THREAD_LIMIT=1", "LC_ALL=C.UTF-8"}
	if prefix, ok := os.LookupEnv("TESSDATA_PREFIX"); ok {
		env = append(env, "TESSDATA_PREFIX="+prefix)
	}
	if runtime.GOOS == "windows" {
		env = append(env, "SystemRoot="+os.Getenv("SystemRoot"))
	}
	return confine.Run(ctx, confine.Command{
		Path: path, Args: args, Env: env, Input: bytes.NewReader(in),
		Reads:  []string{os.Getenv("TESSDATA_PREFIX")},
		Limits: confine.Limits{CPU: limit, Memory: 1 << 30, Descriptors: 64, Answer: 16 << 20},
	})
}

// recognise reads the letters of the pages listed off their pictures. Pages for which
// the time does not suffice are counted as unread.
func (r *Reader) recognise(ctx context.Context, c *confine.Child, d *Document, need []int) error {
	l, err := r.ocr.look(ctx)
	if ctx.Err() != nil {
		return ctx.Err()
	}
	if err != nil {
		withoutLetters(d, need, err)
		return nil
	}
	whole, stop := context.WithTimeoutCause(ctx, r.o.OCRTime, errLate)
	defer stop()
	for _, n := range need {
		i := slices.IndexFunc(d.Pages, func(p Page) bool { return p.Number == n })
		if i < 0 {
			continue
		}
		err := context.Cause(whole)
		if err == nil {
			err = r.recognisePage(whole, c, l, &d.Pages[i])
		}
		if ctx.Err() != nil {
			return ctx.Err()
		}
		if err != nil && whole.Err() != nil {
			err = errLate
		}
		if err != nil {
			d.Pages = slices.Delete(d.Pages, i, i+1)
			d.Unread++
			d.Reason = fmt.Sprintf("page %d is unread: %v", n, err)
		}
	}
	if len(d.Pages) == 0 && d.Unread > 0 {
		d.Trouble = Unreadable
		d.Unread = 0
	}
	return nil
}

// errLate says that the time for recognition was used up.
var errLate = errors.New("recognising its letters would take longer than allowed")

// withoutLetters says what the document lacks: all of it, or the pages listed.
func withoutLetters(d *Document, need []int, err error) {
	reason := plain(err.Error(), 400)
	kept := slices.DeleteFunc(slices.Clone(d.Pages), func(p Page) bool { return slices.Contains(need, p.Number) && !garbled(p.Words) })
	if len(kept) == 0 {
		*d = Document{Type: d.Type, Trouble: Unreadable, Reason: reason, Title: d.Title, Producer: d.Producer, Language: d.Language, Parts: d.Parts}
		return
	}
	d.Unread += len(d.Pages) - len(kept)
	d.Pages, d.Reason = kept, fmt.Sprintf("%d pages are pictures and unread: %s", len(need), reason)
}

// recognisePage reads one page, turned as reads best. Once it was read at all, what was
// read stays, though no time is left to read it better.
func (r *Reader) recognisePage(ctx context.Context, c *confine.Child, l letters, p *Page) error {
	best, err := r.reads(ctx, c, l, p, order{})
	if err != nil || best.pic.blank {
		return err
	}
	laid, lying := best.pic.turn, best.lying()
	for _, turn := range r.turns(ctx, l, best) {
		other, err := r.reads(ctx, c, l, p, order{Turn: (laid + turn) % 4, Turned: true})
		if err == nil && other.worth() > best.worth() {
			if best = other; best.good() && !lying {
				break
			}
		}
	}
	if tongue := tongueOf(best.words, l.languages); tongue != "" && len(l.languages) > 1 {
		l.languages = []string{tongue}
		if own, err := r.letters(ctx, l, best.pic, asPage); err == nil {
			best = spoken(best, own)
		}
	}
	if best.left || best.torn() || best.passed() {
		if block, err := r.letters(ctx, l, best.pic, asBlock); err == nil {
			best.words = withMissed(withWhole(best.words, block.words), block.words)
		}
	}
	best.words = withBoxes(rejoined(withoutFrame(best.words)), best.pic.marks.Boxes)
	if ctx.Err() != nil {
		best.hurried()
	}
	own, ruled := slices.Clone(p.Words), p.Rules
	best.lay(p)
	if unveiled(p.Words, best.words) {
		p.Words, p.Rules = own, ruled // and as it was laid, which is exact
		return nil
	}
	p.Words, p.Picture = together(p.Words, best.words), true
	return nil
}

// hurried leaves no word sure that there was no time to read again.
func (a attempt) hurried() {
	for i := range a.words {
		a.words[i].Confidence = min(a.words[i].Confidence, contradicted)
	}
}

// together joins what the file says with what was recognised. Where the file has
// letters that are seen, they are exact, and what was recognised there is left out;
// letters that are not seen come last.
func together(file, recognised []Word) []Word {
	var seen, hidden []Word
	for _, w := range file {
		if w.Hidden {
			hidden = append(hidden, w)
		} else {
			seen = append(seen, w)
		}
	}
	fresh := slices.DeleteFunc(slices.Clone(recognised), func(w Word) bool {
		return slices.ContainsFunc(seen, func(s Word) bool { return s.holdsMiddle(w) })
	})
	return append(append(fresh, seen...), hidden...)
}

// holdsMiddle says whether the middle of o lies in w's box.
func (w Word) holdsMiddle(o Word) bool {
	x, y := (o.Box[0]+o.Box[2])/2, (o.Box[1]+o.Box[3])/2
	return x >= w.Box[0] && x <= w.Box[2] && y >= w.Box[1] && y <= w.Box[3]
}

// turns lists the quarter turns to try on a page that read badly: the one that the
// program thinks right, or all.
func (r *Reader) turns(ctx context.Context, l letters, first attempt) []int {
	if first.lying() {
		return []int{3, 1} // whichever way it was laid down, its lines run across now
	}
	if first.good() {
		return nil
	}
	if l.turn {
		out, err := run(ctx, l.path, r.o.PageTime, first.pic.png, "stdin", "stdout", "--psm", "0", "-l", "osd", "--dpi", strconv.Itoa(first.pic.dpi))
		if err == nil {
			if turn, ok := osdTurn(string(out)); ok && turn == 0 {
				return nil
			} else if ok {
				return []int{turn}
			}
		}
	}
	if len(first.words) == 0 {
		return nil
	}
	return []int{2, 1, 3}
}

// osdTurn reads the clockwise quarter turns that set the page upright. ok is false
// where the program is not sure.
func osdTurn(out string) (turn int, ok bool) {
	for _, line := range strings.Split(out, "\n") {
		name, value, _ := strings.Cut(line, ":")
		value = strings.TrimSpace(value)
		switch name {
		case "Rotate":
			degrees, err := strconv.Atoi(value)
			if err != nil || degrees%90 != 0 {
				return 0, false
			}
			turn = degrees / 90 % 4
		case "Orientation confidence":
			sure, err := strconv.ParseFloat(value, 64)
			ok = err == nil && sure >= 1
		}
	}
	return turn, ok
}

// attempt is one reading of one picture.
type attempt struct {
	pic   picture
	words []Word // with boxes and sizes in dots, until [attempt.lay]
	left  bool   // a part was taken for a picture
	slant int    // by how much its lines still fall to the right, hundredths of a dot in 100 dots
}

// lay gives the words that were recognised their places on the page, and those that the
// file itself has on it theirs on the page as it is read.
func (a attempt) lay(p *Page) {
	l := layOf(a.pic, p, a.slant)
	for i := range a.words {
		w := &a.words[i]
		w.Laid, w.Box, w.Size = l.laid(floats(w.Box)), l.shown(w.Box), int(float64(w.Size)*l.point)
	}
	for i := range p.Words {
		p.Words[i].Laid = l.relaid(p.Words[i].Box)
	}
	p.Rules = nil
	for _, r := range a.pic.marks.Rules {
		p.Rules = append(p.Rules, l.laid(floats(r)))
	}
}

// worth counts the letters of words that were read with some confidence.
func (a attempt) worth() int {
	sum := 0
	for _, w := range a.words {
		if w.Confidence >= 60 && len(w.Text) > 1 && !w.upright() {
			sum += len(w.Text) * w.Confidence
		}
	}
	return sum
}

// upright reports a word of which the letters stand above each other: it runs up or down.
func (w Word) upright() bool {
	return utf8.RuneCountInString(w.Text) > 2 && w.Box[3]-w.Box[1] > 3*(w.Box[2]-w.Box[0])/2
}

// lying says that most of what was read runs up or down. The program reads such lines
// too, so that only their shape tells that the page lies on its side.
func (a attempt) lying() bool {
	lie, all := 0, 0
	for _, w := range a.words {
		if utf8.RuneCountInString(w.Text) > 2 {
			all++
			if w.upright() {
				lie++
			}
		}
	}
	return lie > 3 && 10*lie > 6*all
}

// good says that most of what was read was read with confidence.
func (a attempt) good() bool {
	sure, all := 0, 0
	for _, w := range a.words {
		all += len(w.Text)
		if w.Confidence >= 60 {
			sure += len(w.Text)
		}
	}
	return all >= 40 && sure*10 >= all*7
}

func (r *Reader) reads(ctx context.Context, c *confine.Child, l letters, p *Page, o order) (attempt, error) {
	o.Do, o.Held, o.Page = doPicture, true, p.Number
	pic, err := r.picture(ctx, c, o, nil)
	if err != nil {
		return attempt{}, err
	}
	if pic.blank || pic.width == 0 || pic.height == 0 {
		return attempt{pic: picture{blank: true}}, nil
	}
	if !pic.back.sane(pic.width, pic.height) {
		return attempt{}, errors.New("its picture makes no sense")
	}
	return r.letters(ctx, l, pic, asPage)
}

// The ways in which the program takes a page, and how sure it must be of a word that
// only the second way found.
const (
	asPage       = "3" // finds columns, tables and pictures by itself
	asBlock      = "6" // one block of text
	missedSure   = 70
	missedLetter = 90 // a single letter is soon read out of a speck
)

// letters recognises the words of one picture.
func (r *Reader) letters(ctx context.Context, l letters, pic picture, mode string) (attempt, error) {
	timed, stop := context.WithTimeout(ctx, r.o.PageTime)
	defer stop()
	out, err := run(timed, l.path, r.o.PageTime, pic.png, "stdin", "stdout", "--dpi", strconv.Itoa(pic.dpi), "--psm", mode, "-l", strings.Join(l.languages, "+"), "tsv")
	if err != nil {
		return attempt{}, fmt.Errorf("tesseract gave nothing: %w", err)
	}
	ws, left, err := tsvWords(string(out), pic)
	return attempt{pic: pic, words: ws, left: left, slant: slantOf(string(out), pic.width)}, err
}
