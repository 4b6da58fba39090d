package page_test

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"evidencevault/extract/page"
)

func TestLettersInPictures(t *testing.T) {
	tests := []struct {
		file string
		says []string
	}{
		{"scan0007.pdf", []string{"Sepsis:", "Penhallow", "77120,"}},
		{"searchable-scan.pdf", []string{"Imogen", "Farrar-Lisle", "3.5"}},
		{"IMG_2041.jpg", []string{"Quarrington", "Ultrasonic", "2026-0587"}},
		{"member-card.png", []string{"Caspian", "Dunmore"}},
		{"photo_receipt.jpg", []string{"TOTAL", "97.97", "89.00", "7.47"}}, // the column of figures stands alone
	}
	for _, tt := range tests {
		d := read(t, reader(t), "testdata/own/"+tt.file, page.Request{})
		if d.Trouble != page.None || len(d.Pages) != 1 || !d.Pages[0].Picture {
			t.Errorf("%s: trouble %q (%s), pages %d", tt.file, d.Trouble, d.Reason, len(d.Pages))
			continue
		}
		for _, want := range tt.says {
			if !strings.Contains(text(d), want) {
				t.Errorf("%s: %q is not in %q", tt.file, want, text(d))
			}
		}
		within(t, tt.file, d.Pages[0])
	}
}

// within demands that every recognised word has a box on the page and a confidence.
func within(t *testing.T, name string, p page.Page) {
	t.Helper()
	for _, w := range p.Words {
		if w.Hidden {
			continue
		}
		if w.Box[0] < 0 || w.Box[1] < 0 || w.Box[2] > p.Width || w.Box[3] > p.Height || w.Box[0] >= w.Box[2] || w.Box[1] >= w.Box[3] || w.Confidence > 100 {
			t.Errorf("%s: word %q has box %v and confidence %d on a page of %d × %d", name, w.Text, w.Box, w.Confidence, p.Width, p.Height)
		}
	}
}

// A text behind a picture is what some program read there, with its faults: the
// picture counts, and the text stays, marked.
func TestTextBehindAPictureIsHidden(t *testing.T) {
	d := read(t, reader(t), "testdata/own/searchable-scan.pdf", page.Request{})
	hidden := 0
	for _, w := range d.Pages[0].Words {
		if w.Hidden {
			hidden++
		}
	}
	if hidden < 30 || strings.Contains(text(d), "‘AM") {
		t.Errorf("%d hidden words; what is seen: %q", hidden, text(d))
	}
}

// picture draws a page of ours, to be turned and wrapped.
func picture(t *testing.T, dpi int) image.Image {
	t.Helper()
	f, err := os.Open("testdata/own/Oakhurst_cert_final.pdf")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	b, err := reader(t).Picture(context.Background(), f, 1, dpi, "")
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(b))
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// turn turns a picture clockwise by a quarter.
func turn(img image.Image) image.Image {
	b := img.Bounds()
	out := image.NewGray(image.Rect(0, 0, b.Dy(), b.Dx()))
	for y := range b.Dy() {
		for x := range b.Dx() {
			out.Set(b.Dy()-1-y, x, color.GrayModel.Convert(img.At(x, y)))
		}
	}
	return out
}

// A sheet may lie any way on the glass. Boxes must be those of the picture as it is
// displayed, so that a mark drawn there sits on the word.
func TestTurnedPictures(t *testing.T) {
	img := picture(t, 150)
	straight := read(t, reader(t), "testdata/own/Oakhurst_cert_final.pdf", page.Request{NoOCR: true})
	want := wordBox(t, straight.Pages[0], "Oakhurst")
	pw, ph := straight.Pages[0].Width, straight.Pages[0].Height
	for quarter := 1; quarter <= 3; quarter++ {
		img = turn(img)
		want = [4]int{ph - want[3], want[0], ph - want[1], want[2]}
		pw, ph = ph, pw
		var b bytes.Buffer
		if err := png.Encode(&b, img); err != nil {
			t.Fatal(err)
		}
		d := readBytes(t, reader(t), b.Bytes(), page.Request{})
		if d.Trouble != page.None {
			t.Errorf("turned by %d quarters: %s", quarter, d.Reason)
			continue
		}
		p := d.Pages[0]
		got := wordBox(t, p, "Oakhurst")
		// The picture says nothing of its density, so a pixel counts as a point.
		for i := range got {
			got[i] = got[i] * pw / p.Width
		}
		if x, y := (got[0]+got[2])/2, (got[1]+got[3])/2; !inside(want, x, y) {
			t.Errorf("turned by %d quarters: box %v, want about %v", quarter, got, want)
		}
	}
}

// wordBox returns where a word stands first.
func wordBox(t *testing.T, p page.Page, word string) [4]int {
	t.Helper()
	for _, w := range p.Words {
		if strings.Contains(w.Text, word) && !w.Hidden {
			return w.Box
		}
	}
	t.Errorf("no word %q on the page", word)
	return [4]int{}
}

// A telephone writes the picture as its sensor lay and says how to turn it.
func TestExifTurnsAndDensityCounts(t *testing.T) {
	img := turn(turn(turn(picture(t, 150))))
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, nil); err != nil {
		t.Fatal(err)
	}
	d := readBytes(t, reader(t), withExif(b.Bytes(), 6, 150), page.Request{})
	p := d.Pages[0]
	if abs(p.Width-84200) > 200 || abs(p.Height-59500) > 200 {
		t.Errorf("size %d × %d hundredths of a point: want that of the sheet, 84200 × 59500", p.Width, p.Height)
	}
	straight := read(t, reader(t), "testdata/own/Oakhurst_cert_final.pdf", page.Request{NoOCR: true})
	got, want := wordBox(t, p, "Oakhurst"), wordBox(t, straight.Pages[0], "Oakhurst")
	if !inside(want, (got[0]+got[2])/2, (got[1]+got[3])/2) {
		t.Errorf("box %v, want about %v", got, want)
	}
}

// withExif puts a segment with orientation and density behind a JPEG's first mark.
func withExif(b []byte, orientation, dpi uint16) []byte {
	le := binary.LittleEndian
	x := []byte("Exif\x00\x00II*\x00\x08\x00\x00\x00\x03\x00")
	entry := func(tag, kind uint16, value uint32) {
		x = le.AppendUint32(le.AppendUint32(le.AppendUint16(le.AppendUint16(x, tag), kind), 1), value)
	}
	entry(0x0112, 3, uint32(orientation))
	entry(0x011a, 5, 50)
	entry(0x0128, 3, 2)
	x = append(x, 0, 0, 0, 0)
	x = le.AppendUint32(le.AppendUint32(x, uint32(dpi)), 1)
	seg := binary.BigEndian.AppendUint16([]byte{0xff, 0xe1}, uint16(len(x)+2))
	return append(append(append(b[:2:2], seg...), x...), b[2:]...)
}

func TestPicture(t *testing.T) {
	for _, tt := range []struct {
		file          string
		page, dpi     int
		width, height int // 0: there is none
	}{
		{"own/Oakhurst_cert_final.pdf", 1, 72, 842, 595},
		{"own/Oakhurst_cert_final.pdf", 2, 72, 0, 0},
		{"hard/rotate-inherited.pdf", 1, 36, 396, 306},
		{"own/member-card.png", 1, 72, 900, 559},
		{"own/guest-lecture.txt", 1, 72, 0, 0},
		{"own/two-pages.tiff", 1, 150, 900, 500},
		{"own/two-pages.tiff", 2, 150, 900, 500},
		{"own/two-pages.tiff", 3, 150, 0, 0},
	} {
		f, err := os.Open(filepath.Join("testdata", tt.file))
		if err != nil {
			t.Fatal(err)
		}
		drawn, err := reader(t).Draw(context.Background(), f, tt.page, tt.dpi, "")
		f.Close()
		if tt.width == 0 {
			if err == nil || !strings.Contains(err.Error(), "no picture") {
				t.Errorf("%s page %d: error %v: want that there is none", tt.file, tt.page, err)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s page %d: %v", tt.file, tt.page, err)
			continue
		}
		cfg, err := png.DecodeConfig(bytes.NewReader(drawn.PNG))
		if doc := read(t, reader(t), filepath.Join("testdata", tt.file), page.Request{NoOCR: true}); doc.Pages[tt.page-1].Width != drawn.Width || doc.Pages[tt.page-1].Height != drawn.Height {
			t.Errorf("%s page %d: drawn as %d × %d hundredths of a point, read as %d × %d", tt.file, tt.page, drawn.Width, drawn.Height, doc.Pages[tt.page-1].Width, doc.Pages[tt.page-1].Height)
		}
		if err != nil || abs(cfg.Width-tt.width) > 1 || abs(cfg.Height-tt.height) > 1 {
			t.Errorf("%s page %d: %d × %d pixels (%v): want %d × %d", tt.file, tt.page, cfg.Width, cfg.Height, err, tt.width, tt.height)
		}
	}
}

func TestPictureOfALockedPage(t *testing.T) {
	for password, want := range map[string]error{"": page.ErrLocked, "wrong": page.ErrLocked, "view": nil} {
		f, err := os.Open("testdata/hard/enc-aes-256-user-view.pdf")
		if err != nil {
			t.Fatal(err)
		}
		b, err := reader(t).Picture(context.Background(), f, 1, 72, password)
		f.Close()
		if !errors.Is(err, want) || (want == nil && len(b) == 0) {
			t.Errorf("password %q: %d bytes, error %v: want %v", password, len(b), err, want)
		}
	}
}

// fake writes a program that stands in for tesseract.
func fake(t *testing.T, script string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "tesseract")
	head := "#!/bin/sh\ncase \"$*\" in *--version*) echo tesseract 0; exit;; *--list-langs*) echo eng; exit;; esac\n"
	if err := os.WriteFile(path, []byte(head+script+"\n"), 0o700); err != nil {
		t.Fatal(err)
	}
	return path
}

// Whatever the program does, no value may be made up, and the person learns what to do.
func TestWhenLettersCannotBeRecognised(t *testing.T) {
	head := `printf 'level\tpage_num\tblock_num\tpar_num\tline_num\tword_num\tleft\ttop\twidth\theight\tconf\ttext\n'`
	tests := []struct{ name, program, reason string }{
		{"absent", filepath.Join(t.TempDir(), "none"), "install the program tesseract"},
		{"fails", fake(t, "echo broken >&2; exit 1"), "broken"},
		{"prints nonsense", fake(t, "echo hello"), "another form"},
		{"wrong columns", fake(t, head+`; printf '5\t1\t1\tx\n'`), "4 cells"},
		{"wrong numbers", fake(t, head+`; printf '5\t1\t1\t1\t1\t1\t-9\t1\t1\t1\t96\t40\n'`), "no length"},
		{"floods", fake(t, "yes"), "more than allowed"},
		{"hangs", fake(t, "while :; do :; done"), "longer than allowed"},
		{"prints nothing seen", fake(t, head), "no letters could be recognised"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := page.NewReader(page.Options{CacheDir: cache(t), Tesseract: tt.program, PageTime: 1e9})
			defer r.Close()
			d := read(t, r, "testdata/own/member-card.png", page.Request{})
			if d.Trouble != page.Unreadable || !strings.Contains(d.Reason, tt.reason) {
				t.Errorf("trouble %q because %q: want %q in it", d.Trouble, d.Reason, tt.reason)
			}
			for _, p := range d.Pages {
				if len(p.Words) > 0 {
					t.Errorf("words were made up: %v", p.Words)
				}
			}
		})
	}
}

// Every page of a TIFF is read, the second too, and the file ends where it says.
func TestPagesOfATIFF(t *testing.T) {
	d := read(t, reader(t), filepath.Join("testdata", "own", "two-pages.tiff"), page.Request{})
	if len(d.Pages) != 2 || d.Pages[0].Number != 1 || d.Pages[1].Number != 2 {
		t.Fatalf("pages %+v, %s %s", d.Pages, d.Trouble, d.Reason)
	}
	for i, want := range []string{"Attendance", "Second"} {
		var text []string
		for _, w := range d.Pages[i].Words {
			text = append(text, w.Text)
		}
		if !strings.Contains(strings.Join(text, " "), want) {
			t.Errorf("page %d reads %q, want %q in it", i+1, text, want)
		}
	}
}

// Letters are recognised in those of the wanted languages that are installed, and in no
// others; where none is, the person learns what to install.
func TestLanguagesByWhatIsInstalled(t *testing.T) {
	knows := func(list string) string {
		path := filepath.Join(t.TempDir(), "tesseract")
		script := "#!/bin/sh\ncase \"$*\" in *--version*) echo tesseract 0; exit;; *--list-langs*) printf '" + list + "'; exit;; esac\n" +
			`while [ $# -gt 0 ]; do if [ "$1" = -l ]; then said="$2"; fi; shift; done
printf 'level\tpage_num\tblock_num\tpar_num\tline_num\tword_num\tleft\ttop\twidth\theight\tconf\ttext\n'
printf '5\t1\t1\t1\t1\t1\t100\t100\t400\t30\t96\tRecognised:%s\n' "$said"
` + "\n"
		if err := os.WriteFile(path, []byte(script), 0o700); err != nil {
			t.Fatal(err)
		}
		return path
	}
	for _, tt := range []struct {
		installed string
		wanted    []string
		says      string
	}{
		{`List of available languages\neng\nfra\nita\nosd\n`, nil, "Recognised:eng+fra"},
		{`nld\nspa\ndeu\neng\n`, nil, "Recognised:eng+deu+spa+nld"},
		{`eng\ndeu\n`, []string{"deu"}, "Recognised:deu"},
		{`ita\nosd\n`, nil, ""},
	} {
		r := page.NewReader(page.Options{CacheDir: cache(t), Tesseract: knows(tt.installed), Languages: tt.wanted})
		d := read(t, r, "testdata/own/member-card.png", page.Request{})
		c, err := r.Confinement(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		switch said := "Recognised:" + strings.Join(c.Languages, "+"); {
		case tt.says == "" && (d.Trouble != page.Unreadable || !strings.Contains(d.Reason, "tesseract-ocr-deu") || !strings.Contains(c.Lacking, "none of the languages eng, deu")):
			t.Errorf("%q: trouble %q (%s), lacking %q: want what to install", tt.installed, d.Trouble, d.Reason, c.Lacking)
		case tt.says != "" && (!strings.Contains(text(d), tt.says) || said != tt.says):
			t.Errorf("%q: recognised in %q (%s), said to be %q: want %q", tt.installed, text(d), d.Reason, said, tt.says)
		}
		if err := r.Close(); err != nil {
			t.Error(err)
		}
	}
}
