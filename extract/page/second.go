package page

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"runtime"
	"strings"
	"time"

	"github.com/ledongthuc/pdf"

	"evidencevault/internal/confine"
)

// The second opinion on one document may take secondTime and as much again as the first
// reading took so many times. It takes a few thousandths of a second where it ends at all.
const (
	secondTime = time.Second
	firstTimes = 4
)

// second asks another reader, made by other people, for the text of the pages. It can
// run away on a hostile file, so it has a child of its own, which is kept only as long as
// it answers whole and in time; where no limits hold it is not asked. That it fails says nothing.
func (r *Reader) second(ctx context.Context, in io.ReadSeeker, d *Document, q Request, first time.Duration) error {
	if runtime.GOOS != "linux" || len(d.Pages) == 0 {
		return nil
	}
	head, err := json.Marshal(order{Password: q.Password, From: d.Pages[0].Number, To: d.Pages[len(d.Pages)-1].Number})
	if err != nil {
		return fmt.Errorf("ask for a second opinion: %w", err)
	}
	timed, stop := context.WithTimeout(ctx, secondTime+firstTimes*first)
	defer stop()
	answer, fresh, err := r.askSecond(timed, in, head)
	if err != nil && !fresh && timed.Err() == nil {
		answer, _, err = r.askSecond(timed, in, head) // what it read before must cost no document its opinion
	}
	if errors.Is(err, errSource) {
		return err
	}
	if err != nil {
		return ctx.Err()
	}
	var texts map[int]string
	if json.Unmarshal(answer, &texts) != nil {
		return nil
	}
	for i := range d.Pages {
		d.Pages[i].Second = strings.ToValidUTF8(texts[d.Pages[i].Number], "�")
	}
	return nil
}

// errSource says that the document itself could not be read.
var errSource = errors.New("read the document")

// askSecond asks a child that waits, or a new one. fresh says that it had read nothing before.
func (r *Reader) askSecond(ctx context.Context, in io.ReadSeeker, head []byte) (answer []byte, fresh bool, err error) {
	if _, err := in.Seek(0, io.SeekStart); err != nil {
		return nil, true, fmt.Errorf("%w: %v", errSource, err)
	}
	c := r.takeSecond()
	if c == nil {
		if c, err = confine.Start(ctx, confine.Spec{Job: jobSecond, Limits: confine.Limits{CPU: 5 * time.Second, Memory: 512 << 20, Answer: 8 << 20, Messages: readsEach}}); err != nil {
			return nil, true, err
		}
	}
	answer, _, err = c.Ask(ctx, head, in)
	fresh = c.Fresh()
	r.giveSecond(c)
	return answer, fresh, err
}

// takeSecond returns a child that waits to be asked for another opinion; nil if none does.
func (r *Reader) takeSecond() *confine.Child {
	r.mu.Lock()
	defer r.mu.Unlock()
	n := len(r.others)
	if n == 0 {
		return nil
	}
	c := r.others[n-1]
	r.others = r.others[:n-1]
	return c
}

// giveSecond keeps a child for the next document, or ends it if it failed or has read enough.
func (r *Reader) giveSecond(c *confine.Child) {
	if c.Spent() {
		// It is gone in any case, and nothing it held is ours.
		_ = c.Close()
		return
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	r.others = append(r.others, c)
}

func prepareSecond([]byte) (confine.Handler, error) { return secondOpinion, nil }

// secondOpinion answers with the text of each page, by number.
func secondOpinion(head, body []byte) (answer, blob []byte, again bool) {
	texts := map[int]string{}
	var o order
	if json.Unmarshal(head, &o) == nil {
		again = readSecond(body, o, texts)
	}
	answer, err := json.Marshal(texts)
	if err != nil {
		answer = []byte("{}")
	}
	return answer, nil, again
}

// readSecond fills in what it can, and says whether the library came through: it panics on
// much that is damaged. What was read before that stays.
func readSecond(b []byte, o order, texts map[int]string) (sound bool) {
	defer func() { sound = recover() == nil }()
	tries := 0
	r, err := pdf.NewReaderEncrypted(bytes.NewReader(b), int64(len(b)), func() string {
		if tries++; tries > 1 {
			return ""
		}
		return o.Password
	})
	if err != nil {
		return true
	}
	w := &pageWalk{from: o.From, to: o.To, nodes: 5000, texts: texts}
	w.walk(r.Trailer().Key("Root").Key("Pages"), pdf.Value{}, 0)
	return true
}

// pageWalk goes through the tree of pages by itself, since the library's own walk does
// not end on trees that contain themselves.
type pageWalk struct {
	from, to, at int
	nodes        int // that may still be visited
	texts        map[int]string
}

func (w *pageWalk) walk(v, resources pdf.Value, depth int) {
	if w.nodes--; w.nodes < 0 || depth > 40 || w.at >= w.to {
		return
	}
	if own := v.Key("Resources"); own.Kind() == pdf.Dict {
		resources = own
	}
	kids := v.Key("Kids")
	if kids.Kind() != pdf.Array {
		if w.at++; w.at >= w.from {
			w.texts[w.at] = secondPage(v, resources)
		}
		return
	}
	for i := range kids.Len() {
		w.walk(kids.Index(i), resources, depth+1)
	}
}

// errEnough ends the reading of a page.
var errEnough = errors.New("enough")

func secondPage(v, resources pdf.Value) (text string) {
	s := &secondText{steps: 2_000_000}
	defer func() {
		_ = recover() // as errEnough, or because the page is damaged: what came before stays
		text = s.out.String()
	}()
	s.run(v.Key("Contents"), resources, 0)
	return
}

// secondText gathers the letters of a page in the order of its content. It sorts
// nothing: sorting is what puts digits in the wrong order.
type secondText struct {
	out         strings.Builder
	steps       int
	font        pdf.Font
	encoder     pdf.TextEncoding
	size, lead  float64
	line, point [2]float64 // begin of the line, and where the next letter goes
	scale       float64
	end         [2]float64 // where the last letter ended
	any         bool
}

func (s *secondText) run(content, resources pdf.Value, depth int) {
	if depth > 6 || content.Kind() == pdf.Null {
		return
	}
	fonts := map[string]pdf.Font{}
	pdf.Interpret(content, func(stk *pdf.Stack, op string) {
		if s.steps--; s.steps < 0 || s.out.Len() > 1<<20 {
			panic(errEnough)
		}
		args := make([]pdf.Value, min(stk.Len(), 16))
		for i := len(args) - 1; i >= 0; i-- {
			args[i] = stk.Pop()
		}
		for stk.Len() > 0 {
			stk.Pop()
		}
		switch {
		case op == "Tf" && len(args) == 2:
			name := args[0].Name()
			f, ok := fonts[name]
			if !ok {
				f = pdf.Font{V: resources.Key("Font").Key(name)}
				fonts[name] = f
			}
			s.font, s.encoder, s.size = f, f.Encoder(), args[1].Float64()
		case op == "Do" && len(args) == 1:
			x := resources.Key("XObject").Key(args[0].Name())
			if x.Key("Subtype").Name() == "Form" {
				own := x.Key("Resources")
				if own.Kind() != pdf.Dict {
					own = resources
				}
				s.run(x, own, depth+1)
			}
		default:
			s.operate(op, args)
		}
	})
}

// operate follows the text operators. Source: ISO 32000-1, section 9.4.
func (s *secondText) operate(op string, args []pdf.Value) {
	num := func(i int) float64 {
		if i < len(args) {
			return args[i].Float64()
		}
		return 0
	}
	switch op {
	case "BT":
		s.line, s.point, s.scale = [2]float64{}, [2]float64{}, 1
	case "TL":
		s.lead = num(0)
	case "Td", "TD":
		if op == "TD" {
			s.lead = -num(1)
		}
		s.move(num(0), num(1))
	case "Tm":
		s.scale = num(0)
		if s.scale <= 0 {
			s.scale = 1
		}
		s.line = [2]float64{num(4), num(5)}
		s.point = s.line
	case "T*":
		s.move(0, -s.lead)
	case "Tj":
		s.show(args)
	case "'", "\"":
		s.move(0, -s.lead)
		if len(args) > 0 {
			s.show(args[len(args)-1:])
		}
	case "TJ":
		if len(args) > 0 {
			s.showSpaced(args[0])
		}
	}
}

// showSpaced shows texts with numbers between them, by which the next one moves to the left.
func (s *secondText) showSpaced(list pdf.Value) {
	for i := range list.Len() {
		if x := list.Index(i); x.Kind() == pdf.String {
			s.show([]pdf.Value{x})
		} else {
			s.point[0] -= x.Float64() / 1000 * s.size * s.scale
		}
	}
}

func (s *secondText) move(x, y float64) {
	s.line = [2]float64{s.line[0] + x*s.scale, s.line[1] + y*s.scale}
	s.point = s.line
}

func (s *secondText) show(args []pdf.Value) {
	if len(args) == 0 || s.encoder == nil {
		return
	}
	raw := args[0].RawString()
	text := s.encoder.Decode(raw)
	em := s.size * s.scale
	if s.any {
		switch gap := s.point[0] - s.end[0]; {
		case s.point[1]-s.end[1] > em/2, s.end[1]-s.point[1] > em/2:
			s.out.WriteByte('\n')
		case gap > em/5, gap < -em:
			s.out.WriteByte(' ')
		}
	}
	s.out.WriteString(text)
	s.any = true
	s.point[0] += s.advance(raw, text) * em
	s.end = s.point
}

// advance returns how far a string moves on, in ems. Where the font does not tell the
// library its widths, half an em a letter is a fair guess.
func (s *secondText) advance(raw, text string) float64 {
	sum := 0.0
	for i := range len(raw) {
		sum += s.font.Width(int(raw[i])) / 1000
	}
	if sum == 0 {
		sum = float64(len([]rune(text))) / 2
	}
	return sum
}
