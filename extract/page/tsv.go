package page

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
)

// tsvHead is the first line of the program's table. One of another form is not read:
// a value in the wrong column would be a made-up value.
const tsvHead = "level\tpage_num\tblock_num\tpar_num\tline_num\tword_num\tleft\ttop\twidth\theight\tconf\ttext"

// tsvWords reads the table that tesseract prints, with boxes on the page as it is
// displayed, before the quarter turns that were made to read it. left says that the
// program took a part of the page, larger than a rule, for a picture and left it out.
func tsvWords(out string, pic picture, p *Page, turn int) (ws []Word, left bool, err error) {
	lines := strings.Split(strings.ReplaceAll(out, "\r\n", "\n"), "\n")
	if len(lines) == 0 || lines[0] != tsvHead {
		return nil, false, fmt.Errorf("tesseract answered with a table of another form than is known: %q", plain(lines[0], 80))
	}
	for i, line := range lines[1:] {
		if line == "" {
			continue
		}
		cells := strings.Split(line, "\t")
		if len(cells) != 12 {
			return nil, false, fmt.Errorf("line %d of tesseract's table has %d cells: 12 were wanted", i+2, len(cells))
		}
		if cells[0] != "5" {
			continue
		}
		w, err := tsvWord(cells, pic, p, turn)
		if err != nil {
			return nil, false, fmt.Errorf("line %d of tesseract's table: %w", i+2, err)
		}
		if strings.TrimSpace(cells[11]) == "" {
			least := p.Width * pic.dpi / 8 / pic.width
			left = left || min(w.Box[2]-w.Box[0], w.Box[3]-w.Box[1]) > least
		}
		if w.Text != "" && (lettered(w.Text) || w.Confidence >= 40) {
			ws = append(ws, w)
		}
	}
	return ws, left, nil
}

func tsvWord(cells []string, pic picture, p *Page, turn int) (Word, error) {
	var n [4]int // left, top, width, height in pixels
	for i := range n {
		v, err := strconv.Atoi(cells[6+i])
		if err != nil || v < 0 || v > 100_000 {
			return Word{}, fmt.Errorf("no length: %q", plain(cells[6+i], 20))
		}
		n[i] = v
	}
	conf, err := strconv.ParseFloat(cells[10], 64)
	if err != nil || conf > 100 {
		return Word{}, fmt.Errorf("no confidence: %q", plain(cells[10], 20))
	}
	box := tilted([4]int{n[0], n[1], n[0] + n[2], n[1] + n[3]}, pic.width, pic.height, pic.tilt)
	box = upright(box, pic.width, pic.height, turn)
	w, h := pic.width, pic.height
	if turn%2 == 1 {
		w, h = h, w
	}
	for i := range box {
		if i%2 == 0 {
			box[i] = box[i] * p.Width / w
		} else {
			box[i] = box[i] * p.Height / h
		}
	}
	// The rules of a table are read as bars, alone or before a word.
	text := strings.Trim(plain(cells[11], 1000), "|‖¦")
	return Word{Text: text, Box: box, Size: sizeOf(cells[11], box, turn), Confidence: max(0, int(conf))}, nil
}

// sizeOf guesses the size of the font by the height of the ink: letters that rise and
// fall fill about nine tenths of it, letters that do neither about half.
func sizeOf(text string, box [4]int, turn int) int {
	high := box[3] - box[1]
	if turn%2 == 1 {
		high = box[2] - box[0]
	}
	rises, falls := strings.ContainsAny(text, "bdfhklt0123456789ßäöü") || strings.IndexFunc(text, unicode.IsUpper) >= 0, strings.ContainsAny(text, "gjpqy,;()/|")
	switch {
	case rises && falls:
		return high * 100 / 93
	case rises || falls:
		return high * 100 / 72
	}
	return high * 100 / 53
}

// upright turns a box on the turned picture, of the size given, back by its quarters.
func upright(b [4]int, width, height, turn int) [4]int {
	for range turn % 4 {
		// Before a clockwise turn the point (x, y) stood at (y, width − x).
		b = [4]int{b[1], width - b[2], b[3], width - b[0]}
		width, height = height, width
	}
	return b
}

func lettered(s string) bool {
	return strings.IndexFunc(s, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }) >= 0
}
