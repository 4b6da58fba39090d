package page_test

import (
	"bytes"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"golang.org/x/image/bmp"

	"evidencevault/extract/page"
)

// A picture is a picture, in whatever form a telephone or a website saved it.
func TestFormsOfPictures(t *testing.T) {
	img := picture(t, 150)
	var asGIF, asBMP bytes.Buffer
	if err := gif.Encode(&asGIF, img, nil); err != nil {
		t.Fatal(err)
	}
	if err := bmp.Encode(&asBMP, img); err != nil {
		t.Fatal(err)
	}
	webp, err := os.ReadFile("testdata/own/member-card.webp")
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		kind, says string
		give       []byte
	}{
		{"gif", "Oakhurst", asGIF.Bytes()},
		{"bmp", "Oakhurst", asBMP.Bytes()},
		{"webp", "Caspian", webp},
	} {
		d := readBytes(t, reader(t), tt.give, page.Request{})
		if d.Type != tt.kind || !strings.Contains(strings.ToLower(text(d)), strings.ToLower(tt.says)) {
			t.Errorf("%s: type %q, trouble %q (%s), text %q: want %q in it", tt.kind, d.Type, d.Trouble, d.Reason, text(d), tt.says)
		}
		// Half of it is no picture, and must say so.
		if d := readBytes(t, reader(t), tt.give[:40], page.Request{}); d.Trouble != page.Unreadable || !strings.Contains(d.Reason, "damaged") {
			t.Errorf("%s, cut off: trouble %q (%s)", tt.kind, d.Trouble, d.Reason)
		}
	}
	huge := []byte("GIF89a\xff\xff\xff\xff\x00\x00\x00;") // 65,535 × 65,535 pixels in 14 bytes
	if d := readBytes(t, reader(t), huge, page.Request{}); d.Trouble != page.TooLarge {
		t.Errorf("a huge GIF: trouble %q (%s), want it too large", d.Trouble, d.Reason)
	}
}

// A photograph of a table without a paper on it says nothing, and no letters are read out of
// the grain of the wood.
func TestPhotographWithoutText(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 1200, 1600))
	rnd := rand.New(rand.NewPCG(5, 5))
	for y := range 1600 {
		for x := range 1200 {
			v := 90 + y/20 + int(20*math.Sin(float64(x)/37+float64(y)/300)) + rnd.IntN(14)
			img.SetRGBA(x, y, color.RGBA{uint8(v), uint8(v * 8 / 10), uint8(v * 6 / 10), 255})
		}
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: 70}); err != nil {
		t.Fatal(err)
	}
	if d := readBytes(t, reader(t), b.Bytes(), page.Request{}); d.Trouble != page.Unreadable || d.Reason == "" {
		t.Errorf("trouble %q (%s), text %q: want it unreadable", d.Trouble, d.Reason, text(d))
	}
}

// A program that anyone could have put there is not started, however it is confined.
func TestProgramInAnOpenFolder(t *testing.T) {
	if runtime.GOOS == "windows" {
		return // modes say nothing there; see openFolder
	}
	program := fake(t, "echo hello")
	dir := filepath.Dir(program)
	for _, mode := range []os.FileMode{0o777, 0o777 | os.ModeSticky} {
		if err := os.Chmod(dir, mode); err != nil {
			t.Fatal(err)
		}
		r := page.NewReader(page.Options{CacheDir: cache(t), Tesseract: program, PageTime: 1e9})
		d := read(t, r, "testdata/own/member-card.png", page.Request{})
		if d.Trouble != page.Unreadable || !strings.Contains(d.Reason, "anyone can write to "+dir) {
			t.Errorf("%v: trouble %q because %q: want the open folder named", mode, d.Trouble, d.Reason)
		}
		c, err := r.Confinement(t.Context())
		if err != nil || !strings.Contains(c.Lacking, dir) {
			t.Errorf("%v: the confinement says %q (%v): want the open folder named", mode, c.Lacking, err)
		}
		r.Close()
	}
}
