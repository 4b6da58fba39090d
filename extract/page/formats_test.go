package page_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"evidencevault/extract/page"
)

func TestFormatsWithoutPages(t *testing.T) {
	tests := []struct {
		file, kind string
		says       []string
	}{
		{"own/Arbeitszeugnis.docx", "docx", []string{"vom 1. April 2019 bis zum 30. Juni 2025", "Eulenfurt, 30. Juni 2025"}},
		{"own/module-certificate.html", "html", []string{"Torque Tools: Care and Calibration", "45–60 minutes", "0.1 CEU"}},
		{"own/calendar.ics", "ics", []string{"Summary: Monthly section meeting: Thread Gages in Real Life", "Start: 2026-10-08 18:00"}},
		{"own/guest-lecture.txt", "txt", []string{"Tuesday 28 April 2026"}},
		{"own/acceptance.eml", "eml", []string{"please find our decision attached."}},
		{"own/course-complete.eml", "eml", []string{"Study time 3 h 20 min", "You have completed “Root Causes, Honestly” on our learning pages."}},
		{"mail/ics-goical-example.ics", "ics", []string{"Summary: Networld+Interop Conference", "Organizer: jsmith@example.com"}},
		{"mail/ics-timeparsing.ics", "ics", []string{"Start: 2021-06-27\nEnd: 2021-06-27"}},
	}
	for _, tt := range tests {
		d := read(t, reader(t), "testdata/"+tt.file, page.Request{})
		if d.Type != tt.kind || d.Trouble != page.None || len(d.Pages) != 1 {
			t.Errorf("%s: type %q, trouble %q, %d pages", tt.file, d.Type, d.Trouble, len(d.Pages))
		}
		for _, want := range tt.says {
			if !strings.Contains(text(d), want) {
				t.Errorf("%s: %q is not in\n%s", tt.file, want, text(d))
			}
		}
	}
}

func TestMailHeadAndParts(t *testing.T) {
	d := read(t, reader(t), "testdata/own/acceptance.eml", page.Request{})
	want := &page.Mail{From: "Annals of Practical Gauging <editor@apg.example>", To: "e.quarrington@post.example", Subject: "Decision on APG-25-0331", Date: "2026-02-24T10:02:44Z"}
	if diff := cmp.Diff(want, d.Mail); diff != "" {
		t.Errorf("head (-want +got):\n%s", diff)
	}
	if len(d.Parts) != 1 || d.Parts[0].Name != "decision.pdf" || d.Parts[0].Type != "pdf" {
		t.Fatalf("parts %+v: want decision.pdf", d.Parts)
	}
	if in := readBytes(t, reader(t), d.Parts[0].Data, page.Request{}); !strings.Contains(text(in), "Quarrington") {
		t.Errorf("the attachment reads %q", text(in))
	}
}

// A part must be the sender's bytes: a converted text would be another evidence.
func TestAttachedTextKeepsItsBytes(t *testing.T) {
	raw := "Teilnahmebest\xe4tigung\r\n"
	msg := "From: a@b.example\r\nTo: c@d.example\r\nSubject: s\r\nMIME-Version: 1.0\r\nContent-Type: multipart/mixed; boundary=x\r\n\r\n" +
		"--x\r\nContent-Type: text/plain; charset=iso-8859-1\r\n\r\nGr\xfc\xdfe\r\n" +
		"--x\r\nContent-Type: text/plain; charset=iso-8859-1; name=\"../../b.txt\"\r\nContent-Disposition: attachment; filename=\"../../b.txt\"\r\n\r\n" + raw + "\r\n--x--\r\n"
	d := readBytes(t, reader(t), []byte(msg), page.Request{})
	if !strings.Contains(text(d), "Grüße") {
		t.Errorf("the body reads %q", text(d))
	}
	if len(d.Parts) != 1 || string(d.Parts[0].Data) != raw {
		t.Errorf("parts %+v: want the bytes %q", d.Parts, raw)
	}
}

func TestDocxTablesAndBoxes(t *testing.T) {
	d := readBytes(t, reader(t), docx(`<w:document xmlns:w="w"><w:body>
<w:p><w:r><w:t>Before</w:t><w:tab/><w:t>tab</w:t></w:r></w:p>
<w:tbl><w:tr><w:tc><w:p><w:r><w:t>Date</w:t></w:r></w:p></w:tc><w:tc><w:p><w:r><w:t>Two</w:t></w:r></w:p><w:p><w:r><w:t>lines</w:t></w:r></w:p></w:tc></w:tr></w:tbl>
<w:p><w:r><w:t>Split</w:t></w:r><w:r><w:t xml:space="preserve"> run </w:t></w:r><w:del><w:r><w:delText>gone</w:delText></w:r></w:del><w:r><w:t>&amp; kept</w:t></w:r></w:p>
<w:p><w:r><w:pict><w:txbxContent><w:p><w:r><w:t>In a box</w:t></w:r></w:p><w:p><w:r><w:t>of two lines</w:t></w:r></w:p></w:txbxContent></w:pict></w:r></w:p>
</w:body></w:document>`), page.Request{})
	want := []string{"Before\ttab", "Date\tTwo lines", "Split run & kept", "In a box", "of two lines"}
	if diff := cmp.Diff(want, d.Pages[0].Lines); diff != "" {
		t.Errorf("lines (-want +got):\n%s", diff)
	}
}

// A letterhead that a table sets side by side is read as it is seen; a file that ends within it loses nothing.
func TestDocxLetterhead(t *testing.T) {
	lines := func(texts ...string) string {
		out := ""
		for i, s := range texts {
			if i > 0 {
				out += "<w:br/>"
			}
			out += "<w:t>" + s + "</w:t>"
		}
		return "<w:tc><w:p><w:r>" + out + "</w:r></w:p></w:tc>"
	}
	head := `<w:document xmlns:w="w"><w:body><w:tbl><w:tr>` + lines("Opleidingshuis De Steiger", "Loswal 12", "9997 ZZ Kadewijk") + lines("KvK 00041700", "telefoon 0800 555 0993") + `</w:tr></w:tbl>`
	want := []string{"Opleidingshuis De Steiger\tKvK 00041700", "Loswal 12\ttelefoon 0800 555 0993", "9997 ZZ Kadewijk"}
	for _, body := range []string{head + "</w:body></w:document>", strings.TrimSuffix(head, "</w:tr></w:tbl>"), strings.TrimSuffix(head, "</w:p></w:tc></w:tr></w:tbl>")} {
		d := readBytes(t, reader(t), docx(body), page.Request{})
		if len(d.Pages) != 1 {
			t.Fatalf("%+v", d)
		}
		if diff := cmp.Diff(want, d.Pages[0].Lines); diff != "" {
			t.Errorf("lines (-want +got):\n%s", diff)
		}
	}
	form := `<w:document xmlns:w="w"><w:body><w:tbl><w:tr>` + lines("Course") + lines("Rigging around", "excavators") + "</w:tr><w:tr>" + lines("Length") + lines("6 hours") + `</w:tr></w:tbl></w:body></w:document>`
	if diff := cmp.Diff([]string{"Course\tRigging around excavators", "Length\t6 hours"}, readBytes(t, reader(t), docx(form), page.Request{}).Pages[0].Lines); diff != "" {
		t.Errorf("form (-want +got):\n%s", diff)
	}
}

// An entity that names a file must not bring that file into the reading.
func TestDocxOpensNothing(t *testing.T) {
	d := readBytes(t, reader(t), docx(`<!DOCTYPE d [<!ENTITY x SYSTEM "file:///etc/passwd">]><w:document><w:body><w:p><w:r><w:t>see &x; end</w:t></w:r></w:p></w:body></w:document>`), page.Request{})
	if strings.Contains(text(d), "root:") || (d.Trouble == page.None && !strings.Contains(text(d), "see")) {
		t.Errorf("it reads %q (%s)", text(d), d.Reason)
	}
}

func TestHTMLShowsWhatIsSeen(t *testing.T) {
	d := readBytes(t, reader(t), []byte(`<!doctype html><html lang="de-AT"><head><title>Name</title><style>p{}</style><script>var no = "<p>no</p>"</script></head>
<body><h1>Kurs<br>eins</h1><p>am <b>3.</b> M&auml;rz</p><p style="display: none">verborgen <b>auch</b></p>
<table><tr><th>Tag</th><td>zwei<br>Zeilen</td></tr><tr><td><p>eins</p></td><td></td><td>drei</td></tr></table>
<p><span>Ort, den 3. Mai</span> <span style="float: right">Leitung</span></p><noscript>nein</noscript><iframe src="http://a.example">nein</iframe><input value="Feld"><input type=hidden value=nein></body></html>`), page.Request{})
	if d.Language != "de-AT" || d.Title != "Name" {
		t.Errorf("language %q, title %q", d.Language, d.Title)
	}
	want := []string{"Kurs", "eins", "", "am 3. März", "", "Tag\tzwei Zeilen", "eins\t\tdrei", "", "Ort, den 3. Mai", "Leitung", "", "Feld"}
	if diff := cmp.Diff(want, d.Pages[0].Lines); diff != "" {
		t.Errorf("lines (-want +got):\n%s", diff)
	}
}

func TestTextInItsEncodings(t *testing.T) {
	tests := []struct{ name, give string }{
		{"UTF-8", "Prüfung – 5 €"},
		{"UTF-8 with its mark", "\xef\xbb\xbfPrüfung – 5 €"},
		{"UTF-16, little end first", "\xff\xfeP\x00r\x00\xfc\x00f\x00u\x00n\x00g\x00 \x00\x13\x20 \x00" + "5\x00 \x00\xac\x20"},
		{"UTF-16, big end first", "\xfe\xff\x00P\x00r\x00\xfc\x00f\x00u\x00n\x00g\x00 \x20\x13\x00 \x005\x00 \x20\xac"},
		{"Windows-1252", "Pr\xfcfung \x96 5 \x80"},
	}
	for _, tt := range tests {
		if d := readBytes(t, reader(t), []byte(tt.give), page.Request{}); text(d) != "Prüfung – 5 €" {
			t.Errorf("%s: type %q reads %q", tt.name, d.Type, text(d))
		}
	}
}

// Cells keep their columns where a cell has nothing, covers several columns or reaches
// down over several rows.
func TestCellsKeepTheirColumns(t *testing.T) {
	html := readBytes(t, reader(t), []byte(`<!doctype html><html><body><table>
<tr><th></th><th>Date</th><th>Hours</th></tr>
<tr><td rowspan=2>Part one</td><td>3 March 2026</td><td>2</td></tr>
<tr><td>4 March 2026</td><td>3</td></tr>
<tr><td colspan=2>Sum</td><td>5</td></tr></table></body></html>`), page.Request{})
	want := []string{"\tDate\tHours", "Part one\t3 March 2026\t2", "\t4 March 2026\t3", "Sum\t\t5"}
	if diff := cmp.Diff(want, html.Pages[0].Lines); diff != "" {
		t.Errorf("html (-want +got):\n%s", diff)
	}
	cell := func(props, s string) string {
		return `<w:tc>` + props + `<w:p><w:r><w:t>` + s + `</w:t></w:r></w:p></w:tc>`
	}
	word := readBytes(t, reader(t), docx(`<w:document xmlns:w="w"><w:body><w:tbl><w:tr>`+cell("", "")+cell("", "Date")+cell("", "Hours")+`</w:tr><w:tr>`+
		cell(`<w:tcPr><w:gridSpan w:val="2"/></w:tcPr>`, "Sum")+cell("", "5")+`</w:tr></w:tbl></w:body></w:document>`), page.Request{})
	if diff := cmp.Diff([]string{"\tDate\tHours", "Sum\t\t5"}, word.Pages[0].Lines); diff != "" {
		t.Errorf("docx (-want +got):\n%s", diff)
	}
}

// What is set in columns with spaces or tabs is a table; two spaces behind a sentence
// are none.
func TestTextInColumns(t *testing.T) {
	d := readBytes(t, reader(t), []byte(strings.Join([]string{
		"        C E R T I F I C A T E   O F   A T T E N D A N C E", "",
		"Name:        Ada Fenwright", "Date:        3 March 2026", "Hours:\t\t6", "",
		"Session            Date          Hours", "Gauges, part 1     3 March 2026    2.5", "Gauges, part 2                     3.5", "Sum                                6", "",
		"He came on time.  She did too.", "",
		"Room  12", "Hall  14",
	}, "\n")), page.Request{})
	want := []string{"CERTIFICATE OF ATTENDANCE", "",
		"Name:\tAda Fenwright", "Date:\t3 March 2026", "Hours:\t6", "",
		"Session\tDate\tHours", "Gauges, part 1\t3 March 2026\t2.5", "Gauges, part 2\t\t3.5", "Sum\t\t6", "",
		"He came on time. She did too.", "",
		"Room\t12", "Hall\t14"}
	if diff := cmp.Diff(want, d.Pages[0].Lines); diff != "" {
		t.Errorf("lines (-want +got):\n%s", diff)
	}
}

// The messages of others are read as their makers meant; see testdata/SOURCE.md. What is
// attached is told by its content, whatever name and type it was sent with.
func TestMessagesOfOthers(t *testing.T) {
	tests := []struct{ file, subject, date, says, parts, why string }{
		{"attachment-octet", "In One Ear", "", "A text section", "ATTACHMENT.EXE application/octet-stream", "a part of no known type stays one"},
		{"html-only-inline", "MIME test 1", "2012-10-13T15:33:07-07:00", "Test of HTML section", "favicon.png png", "HTML alone"},
		{"html-mime-bad-charset-inline", "MIME test 1", "2012-10-13T15:33:07-07:00", "Test of text section", "favicon.png png", "a character set that is none"},
		{"inlinemultipart", "Test", "", "Simple text.\n\n--\nText attachment.", "test.pdf pdf; test.txt txt", "text within text, and a document"},
		{"low-quality-bad-header-wrap", "Attachment", "2012-10-18T22:48:39-07:00", "A text section", "7DDA4_foo_9E5D72.zip html", "a head wrapped wrongly; the part is no ZIP"},
		{"low-quality-incorrect-charset", "plain text", "2012-10-18T22:48:39-07:00", "∮ E⋅da = Q", "", "it says ASCII and is UTF-8"},
		{"low-quality-malformed-base64-attach", "Attachment", "2012-10-18T22:48:39-07:00", "A text section", "some.doc html", "base64 with faults"},
		{"mime-alternative", "Multipart Mixed", "2012-10-19T12:22:49-07:00", "Section one", "", "one text in two forms is shown once"},
		{"mime-mixed-related", "Multipart Mixed", "2012-10-19T12:22:49-07:00", "html1", "", "mixed within related"},
		{"mime-signed", "Multipart Signed", "2012-10-19T12:22:49-07:00", "Section one\n\n--\nSection two", "signature.asc txt", "a signature is a file"},
		{"non-mime-html", "test Sun, 14 Oct 2012 16:09:01 -0700", "2012-10-14T16:09:01-07:00", "This is a test mailing", "", "HTML without parts"},
		{"parts-multibase64", "", "", "A text section", "test.html html", "base64 in several pieces"},
		{"parts-nestedmulti", "", "", "A text section", "attach.txt txt; attach2.txt txt", "parts within parts"},
		{"qp-utf8-header", "MIME UTF8 Test ¢ More Text", "2012-10-19T12:22:49-07:00", "Lorem ipsum dolor sit amet", "", "words of the head in UTF-8"},
		{"quoted-printable", "Quoted Printable", "2012-10-18T22:48:39-07:00", "Phasellus sit amet arcu", "", "lines that were broken for the way"},
	}
	for _, tt := range tests {
		d := read(t, reader(t), "testdata/mail/mail-"+tt.file+".eml", page.Request{})
		var parts []string
		for _, p := range d.Parts {
			parts = append(parts, p.Name+" "+p.Type)
			if len(p.Data) == 0 {
				t.Errorf("%s: %s is empty", tt.file, p.Name)
			}
		}
		if d.Type != "eml" || d.Trouble != page.None || d.Mail == nil || d.Mail.Subject != tt.subject || d.Mail.Date != tt.date || !strings.Contains(text(d), tt.says) || strings.Join(parts, "; ") != tt.parts {
			t.Errorf("%s (%s): type %q, trouble %q, head %+v, parts %q, text %q", tt.file, tt.why, d.Type, d.Trouble, d.Mail, parts, text(d))
		}
	}
}

// A text that was UTF-8 and was taken for something else is put right, where it can only
// be that; what has such letters by right keeps them.
func TestMangledTextIsPutRight(t *testing.T) {
	for give, want := range map[string]string{
		"PrÃ¼fung am 3. MÃ¤rz, FÃ¶rderung, GrÃ¶ÃŸe": "Prüfung am 3. März, Förderung, Größe",
		"dâ€™Ã©tude â€“ 90 â‚¬":                     "d’étude – 90 €",
		"NÃO, São João":                             "NÃO, São João",
		"Âge, Ärger, Århus":                         "Âge, Ärger, Århus",
		"Größe":                                     "Größe",
	} {
		if d := readBytes(t, reader(t), []byte(give), page.Request{}); text(d) != want {
			t.Errorf("%q reads %q, want %q", give, text(d), want)
		}
		if d := readBytes(t, reader(t), []byte("<!doctype html><meta charset=utf-8><p>"+give), page.Request{}); text(d) != want {
			t.Errorf("%q as HTML reads %q, want %q", give, text(d), want)
		}
	}
	d := readBytes(t, reader(t), pdf(catalog, "<</Type/Pages/Kids[5 0 R]/Count 1>>", "<</Type/Font/Subtype/Type1/BaseFont/Helvetica/Encoding/WinAnsiEncoding>>",
		stream("BT /F 12 Tf 50 700 Td (Pr\\303\\274fung und Test) Tj ET"), pageHead), page.Request{NoOCR: true})
	if got := text(d); !strings.Contains(got, "Prüfung und") {
		t.Errorf("a PDF reads %q, want Prüfung", got)
	}
}
