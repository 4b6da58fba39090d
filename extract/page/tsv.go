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

// tsvWords reads the table that tesseract prints, with boxes and sizes in dots of the
// picture. left says that the program took a part of the page, larger than a rule, for a
// picture and left it out.
func tsvWords(out string, pic picture) (ws []Word, left bool, err error) {
	lines := strings.Split(strings.ReplaceAll(out, "\r\n", "\n"), "\n")
	if len(lines) == 0 || lines[0] != tsvHead {
		return nil, false, fmt.Errorf("tesseract answered with a table of another form than is known: %q", plain(lines[0], 80))
	}
	at, within := 0, ""
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
		w, err := tsvWord(cells)
		if err != nil {
			return nil, false, fmt.Errorf("line %d of tesseract's table: %w", i+2, err)
		}
		if strings.TrimSpace(cells[11]) == "" {
			left = left || min(w.Box[2]-w.Box[0], w.Box[3]-w.Box[1]) > pic.dpi/8
		}
		if key := strings.Join(cells[1:5], " "); key != within {
			at, within = at+1, key
		}
		w.line = at
		if w.Text != "" && (lettered(w.Text) || w.Confidence >= 40) {
			ws = append(ws, w)
		}
	}
	withinLines(ws)
	return ws, left, nil
}

func tsvWord(cells []string) (Word, error) {
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
	box := [4]int{n[0], n[1], n[0] + n[2], n[1] + n[3]}
	// The rules of a table are read as bars, alone or before a word.
	text := strings.Trim(plain(cells[11], 1000), "|‖¦")
	return Word{Text: text, Box: box, Size: sizeOf(cells[11], n[3]), Confidence: max(0, int(conf))}, nil
}

// sizeOf guesses the size of the font by the height of the ink: letters that rise and
// fall fill about nine tenths of it, letters that do neither about half.
func sizeOf(text string, high int) int {
	rises, falls := strings.ContainsAny(text, "bdfhklt0123456789ßäöü") || strings.IndexFunc(text, unicode.IsUpper) >= 0, strings.ContainsAny(text, "gjpqy,;()/|")
	switch {
	case rises && falls:
		return high * 100 / 93
	case rises || falls:
		return high * 100 / 72
	}
	return high * 100 / 53
}

func lettered(s string) bool {
	return strings.IndexFunc(s, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }) >= 0
}
