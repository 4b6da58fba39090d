package audit

import (
	"bytes"
	"encoding/gob"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"strconv"
	"sync"

	"codeberg.org/go-pdf/fpdf"
)

// shelf keeps the pictures of a binder's pages in files while it is made. The library
// that prints would hold all of them in memory, so it gets a picture of one dot for each,
// and the picture itself takes that one's place at the end, see [attacher].
type shelf struct {
	dir  string
	list []shelved // in the order in which they are printed
}

// shelved is one picture in a file.
type shelved struct {
	file          string
	width, height int
	grey          bool
}

// put keeps a picture that the child made, smaller, and returns the name under which it
// is printed.
func (s *shelf) put(raw []byte) (name string, err error) {
	img, err := png.Decode(bytes.NewReader(raw))
	if err != nil {
		return "", err
	}
	img = grey(img)
	_, isGrey := img.(*image.Gray)
	p := shelved{filepath.Join(s.dir, fmt.Sprintf("page-%06d.jpg", len(s.list)+1)), img.Bounds().Dx(), img.Bounds().Dy(), isGrey}
	var out bytes.Buffer
	if err := jpeg.Encode(&out, img, &jpeg.Options{Quality: 80}); err != nil {
		return "", err
	}
	if err := os.WriteFile(p.file, out.Bytes(), 0o600); err != nil {
		return "", err
	}
	s.list = append(s.list, p)
	return "page " + strconv.Itoa(len(s.list)), nil
}

// placeholder is a picture of one dot.
var placeholder = sync.OnceValue(func() []byte {
	var out bytes.Buffer
	if err := jpeg.Encode(&out, image.NewGray(image.Rect(0, 0, 1, 1)), nil); err != nil {
		panic(err) // a picture of one dot can be encoded
	}
	return out.Bytes()
})

// inOrder gives a picture a place of its own among the others. The library writes them
// by their width, and those of one width in no order, so that equal binders would have
// other bytes; its form for encoding/gob is the way to a width with a fraction, which is
// dropped where the width is written.
func inOrder(info *fpdf.ImageInfoType, n int) error {
	if info == nil {
		return nil // the document's own error says why
	}
	form, err := info.GobEncode()
	if err != nil {
		return err
	}
	var data, smask, palette []byte
	var number, bits int
	var width, height, scale, dpi float64
	var space, filter, parms string
	var clear []int
	fields := []any{&data, &smask, &number, &width, &height, &space, &palette, &bits, &filter, &parms, &clear, &scale, &dpi}
	from := gob.NewDecoder(bytes.NewReader(form))
	for _, f := range fields {
		if err := from.Decode(f); err != nil {
			return err
		}
	}
	width += float64(n) / 1e6
	var out bytes.Buffer
	to := gob.NewEncoder(&out)
	for _, f := range fields {
		if err := to.Encode(f); err != nil {
			return err
		}
	}
	return info.GobDecode(out.Bytes())
}

// grey returns the picture in grey if it has no colour.
func grey(img image.Image) image.Image {
	bounds := img.Bounds()
	out := image.NewGray(bounds)
	for y := bounds.Min.Y; y < bounds.Max.Y; y++ {
		for x := bounds.Min.X; x < bounds.Max.X; x++ {
			r, g, b, _ := img.At(x, y).RGBA()
			if r>>8 != g>>8 || g>>8 != b>>8 {
				return img
			}
			out.Pix[out.PixOffset(x, y)] = uint8(r >> 8)
		}
	}
	return out
}
