package page_test

import (
	"bytes"
	"cmp"
	"compress/zlib"
	"fmt"
	"slices"
	"strings"
	"testing"

	"evidencevault/extract/page"
)

// lines draws lines of text, one beneath the other.
func lines(list ...string) string {
	var b strings.Builder
	b.WriteString("BT /F 14 Tf 60 740 Td ")
	for _, l := range list {
		fmt.Fprintf(&b, "(%s) Tj 0 -28 Td ", l)
	}
	return b.String() + "ET"
}

var certifies = []string{"Certificate of Attendance", "This is to certify that Ada Merrow attended", "the study day Looms and Dyes on 4 March 2026",
	"at the Weaving School of Northbrook", "Contact time: 6 hours"}

// claims makes a PDF of one page whose font claims of each letter that it is another.
func claims(other func(r rune) rune) []byte {
	var m strings.Builder
	m.WriteString("/CIDInit /ProcSet findresource begin 12 dict begin begincmap /CMapType 2 def 1 begincodespacerange <00> <ff> endcodespacerange\n95 beginbfchar\n")
	for r := rune(32); r < 127; r++ {
		fmt.Fprintf(&m, "<%02x> <%04x>\n", r, other(r))
	}
	m.WriteString("endbfchar endcmap end end")
	return pdf(catalog, "<</Type/Pages/Kids[5 0 R]/Count 1>>", "<</Type/Font/Subtype/Type1/BaseFont/Helvetica/ToUnicode 6 0 R>>",
		stream(lines(certifies...)), pageHead, stream(m.String()))
}

// What a person sees counts, not what the file says that it shows.
func TestLettersThatLie(t *testing.T) {
	shift := func(by rune) func(rune) rune {
		return func(r rune) rune {
			switch {
			case r >= 'a' && r <= 'z':
				return 'a' + (r-'a'+by)%26
			case r >= 'A' && r <= 'Z':
				return 'A' + (r-'A'+by)%26
			case r >= '0' && r <= '9':
				return '0' + (r-'0'+by)%10
			}
			return r
		}
	}
	for name, other := range map[string]func(rune) rune{
		"the next letter": shift(1), "seven letters on": shift(7), "letters for private use": func(r rune) rune {
			if r == ' ' {
				return r
			}
			return 0xe000 + r
		},
		"no letter at all": func(r rune) rune { return 0xfffd },
	} {
		d := readBytes(t, reader(t), claims(other), page.Request{})
		if len(d.Pages) != 1 || !d.Pages[0].Picture || !strings.Contains(text(d), "Attendance") || !strings.Contains(text(d), "2026") {
			t.Errorf("%s: trouble %q, text %q: want it read off the picture", name, d.Trouble, text(d))
		}
	}
	d := readBytes(t, reader(t), claims(func(r rune) rune { return r }), page.Request{})
	if d.Pages[0].Picture || !strings.Contains(text(d), "Ada Merrow") {
		t.Errorf("the truth: picture %v, text %q", d.Pages[0].Picture, text(d))
	}
}

// A scan may carry a text that nobody sees, by a poor reader; the picture counts.
func TestTextBehindAPicture(t *testing.T) {
	img := picture(t, 150)
	b := img.Bounds()
	var packed bytes.Buffer
	z := zlib.NewWriter(&packed)
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			r, _, _, _ := img.At(x, y).RGBA()
			z.Write([]byte{byte(r >> 8)}) // a buffer takes it all
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	xobject := fmt.Sprintf("<</Type/XObject/Subtype/Image/Width %d/Height %d/ColorSpace/DeviceGray/BitsPerComponent 8/Filter/FlateDecode/Length %d>>\nstream\n%s\nendstream",
		b.Dx(), b.Dy(), packed.Len(), packed.String())
	show, wrong := "q 595 0 0 842 0 0 cm /I Do Q ", lines("Oakhorst Tralning", "Certlficate for Brian Wrongname", "99 hours")
	for name, content := range map[string]string{
		"drawn invisibly":   show + "BT 3 Tr ET " + wrong,
		"under the picture": wrong + " " + show,
		"white on white":    show + "1 g " + wrong,
	} {
		d := readBytes(t, reader(t), pdf(catalog, "<</Type/Pages/Kids[5 0 R]/Count 1>>", font, stream(content),
			"<</Type/Page/Parent 2 0 R/MediaBox[0 0 595 842]/Resources<</Font<</F 3 0 R>>/XObject<</I 6 0 R>>>>/Contents 4 0 R>>", xobject), page.Request{})
		if !strings.Contains(text(d), "Oakhurst") || strings.Contains(text(d), "Wrongname") {
			t.Errorf("%s: it reads %q (%s): want what the picture shows", name, text(d), d.Reason)
		}
	}
}

// A page may be set sideways without saying so. Its words keep the boxes that are seen,
// and have others that follow each other to the right.
func TestTextThatRunsUpThePage(t *testing.T) {
	for name, matrix := range map[string]string{"up": "0 1 -1 0 300 100 Tm", "down": "0 -1 1 0 300 700 Tm", "upside down": "-1 0 0 -1 500 400 Tm"} {
		d := readBytes(t, reader(t), onePage("BT /F 12 Tf "+matrix+" (Certificate of attendance for Ada) Tj 0 -20 Td (Second line of it) Tj ET"), page.Request{NoOCR: true})
		ws := d.Pages[0].Words
		slices.SortFunc(ws, func(a, b page.Word) int { return cmp.Or(a.Laid[1]/1000-b.Laid[1]/1000, a.Laid[0]-b.Laid[0]) })
		if got := text(d); got != "Certificate of attendance for Ada Second line of it " {
			t.Errorf("%s: by their places the words read %q", name, got)
		}
		if b := ws[0].Box; b == ws[0].Laid || b[0] < 0 || b[2] > 59500 || b[1] < 0 || b[3] > 84200 {
			t.Errorf("%s: shown at %v, laid at %v", name, b, ws[0].Laid)
		}
	}
}
