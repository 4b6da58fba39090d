package page_test

import (
	"bytes"
	"context"
	"fmt"
	"testing"

	"evidencevault/extract/page"
)

func readBytes(t testing.TB, r *page.Reader, b []byte, q page.Request) page.Document {
	t.Helper()
	d, err := r.Read(context.Background(), bytes.NewReader(b), q)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// pdf writes objects, numbered from 1, as a PDF whose first is the catalog.
func pdf(objects ...string) []byte {
	var b bytes.Buffer
	var at []int
	b.WriteString("%PDF-1.4\n")
	for i, o := range objects {
		at = append(at, b.Len())
		fmt.Fprintf(&b, "%d 0 obj\n%s\nendobj\n", i+1, o)
	}
	xref := b.Len()
	fmt.Fprintf(&b, "xref\n0 %d\n0000000000 65535 f \n", len(objects)+1)
	for _, n := range at {
		fmt.Fprintf(&b, "%010d 00000 n \n", n)
	}
	fmt.Fprintf(&b, "trailer\n<</Size %d/Root 1 0 R>>\nstartxref\n%d\n%%%%EOF\n", len(objects)+1, xref)
	return b.Bytes()
}

const (
	catalog  = "<</Type/Catalog/Pages 2 0 R>>"
	font     = "<</Type/Font/Subtype/Type1/BaseFont/Helvetica>>"
	pageHead = "<</Type/Page/Parent 2 0 R/MediaBox[0 0 595 842]/Resources<</Font<</F 3 0 R>>>>/Contents 4 0 R>>"
)

func stream(content string) string {
	return fmt.Sprintf("<</Length %d>>\nstream\n%s\nendstream", len(content), content)
}

// onePage makes a PDF of one page with that content; /F is Helvetica.
func onePage(content string) []byte {
	return pdf(catalog, "<</Type/Pages/Kids[5 0 R]/Count 1>>", font, stream(content), pageHead)
}

// manyPages makes a PDF whose page object occurs n times under names of its own.
func manyPages(n int) []byte {
	kids := ""
	objects := []string{catalog, "", font, stream("BT /F 12 Tf 50 700 Td (again) Tj ET")}
	for i := range n {
		kids += fmt.Sprintf("%d 0 R ", 5+i)
		objects = append(objects, pageHead)
	}
	objects[1] = fmt.Sprintf("<</Type/Pages/Kids[%s]/Count %d>>", kids, n)
	return pdf(objects...)
}
