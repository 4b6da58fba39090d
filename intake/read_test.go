package intake_test

import (
	"errors"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"evidencevault/catalog"
	"evidencevault/internal/demo"
)

// message is an e-mail with files attached, each given as name and text.
func message(attached ...string) string {
	var b strings.Builder
	fmt.Fprint(&b, "From: office@vallmere.example\r\nTo: mirela@tannhof.example\r\nSubject: your papers\r\n",
		"Date: Fri, 14 Mar 2025 10:00:00 +0000\r\nMIME-Version: 1.0\r\nContent-Type: multipart/mixed; boundary=cut\r\n\r\n",
		"--cut\r\nContent-Type: text/plain\r\n\r\nPlease find the papers attached.\r\n")
	for i := 0; i < len(attached); i += 2 {
		kind := "text/plain"
		if strings.HasSuffix(attached[i], ".eml") {
			kind = "message/rfc822"
		}
		fmt.Fprintf(&b, "--cut\r\nContent-Type: %s; name=%q\r\nContent-Disposition: attachment; filename=%q\r\n\r\n%s\r\n",
			kind, attached[i], attached[i], attached[i+1])
	}
	return b.String() + "--cut--\r\n"
}

// Message and attachments are evidence, linked, and each is read.
func TestAttachmentsAreEvidenceOfTheirOwn(t *testing.T) {
	v := newVault(t, true)
	v.put("mail.eml", message("one.txt", certificate, "two.txt", strings.ReplaceAll(certificate, "12 March", "13 March")))
	r := v.once()
	if len(r.Taken) != 1 || len(r.Read) != 3 || r.Read[0].Attached != 2 {
		t.Fatalf("took %d, read %+v, want one file, three papers, two attached", len(r.Taken), r.Read)
	}
	all := v.evidence()
	mail := all[0]
	parts, err := v.c.Parts(t.Context(), mail.SHA256)
	if err != nil || len(parts) != 2 {
		t.Fatalf("parts of the message: %v, %v, want two", parts, err)
	}
	for i, want := range []string{"one.txt", "two.txt"} {
		n := all[i+1].Names[0]
		if n.Name != "mail.eml" || string(n.Part) != want || n.Parent != mail.SHA256 {
			t.Errorf("attachment %d has the name %+v, want mail.eml with the part %s", i, n, want)
		}
	}
	for _, p := range v.papers()[1:] {
		if p.State != catalog.Waiting {
			t.Errorf("attachment %s is %s, want waiting", p.Ref(), p.State)
		}
	}
	// The same attachment on its own is the same evidence.
	v.put("one.txt", strings.ReplaceAll(certificate, "\n", "\r\n"))
	v.put("mail again.eml", message("one.txt", certificate))
	v.once()
	v.sound()
}

// What is embedded in a PDF is evidence of its own, linked to it, and read.
func TestFilesWithinAPDFAreEvidenceOfTheirOwn(t *testing.T) {
	v := newVault(t, true)
	data, err := os.ReadFile("../extract/page/testdata/hard/attachments.pdf")
	if err != nil {
		t.Fatal(err)
	}
	v.put("report.pdf", string(data))
	r := v.once()
	if len(r.Taken) != 1 || len(r.Read) != 4 || r.Read[0].Attached != 3 {
		t.Fatalf("took %d, read %d, attached %d: want the PDF and three files within", len(r.Taken), len(r.Read), r.Read[0].Attached)
	}
	all := v.evidence()
	parts, err := v.c.Parts(t.Context(), all[0].SHA256)
	if err != nil || len(parts) != 3 || len(all) != 4 {
		t.Fatalf("%d parts, %d evidences, %v: want three within one", len(parts), len(all), err)
	}
	for _, e := range all[1:] {
		if n := e.Names[0]; n.Name != "report.pdf" || len(n.Part) == 0 || n.Parent != all[0].SHA256 {
			t.Errorf("a file within has the name %+v, want report.pdf and its own", n)
		}
	}
	v.sound()
}

// Containers within containers end (C7 and C10 have the bombs).
func TestMessageWithinMessageEnds(t *testing.T) {
	v := newVault(t, true)
	text := message("cert.txt", certificate)
	for range 10 {
		text = message("inner.eml", text)
	}
	v.put("outer.eml", text)
	v.once()
	if n := len(v.evidence()); n < 2 || n > 6 {
		t.Errorf("%d evidences, want the message and at most five within", n)
	}
	v.sound()
}

func TestRereadTakesThePlaceAndDoublesNothing(t *testing.T) {
	v := newVault(t, true)
	v.put("mail.eml", message("one.txt", certificate))
	v.once()
	papers, evidence := v.papers(), len(v.evidence())
	ids := []string{papers[0].ID, papers[1].ID}
	list, err := v.in.Reread(t.Context(), "", ids...)
	if err != nil || len(list) != 2 {
		t.Fatalf("reread %+v, %v, want both papers", list, err)
	}
	after := v.papers()
	if len(after) != 2 || len(v.evidence()) != evidence {
		t.Errorf("%d papers and %d evidences after reading anew, want 2 and %d", len(after), len(v.evidence()), evidence)
	}
	for i := range after {
		if after[i].Reading <= papers[i].Reading {
			t.Errorf("%s still has its old reading", after[i].Ref())
		}
	}
	if _, err := v.in.Reread(t.Context(), "", "no such paper"); !errors.Is(err, catalog.ErrUnknown) {
		t.Errorf("an unknown paper: %v, want ErrUnknown", err)
	}
	v.sound()
}

// The demo's papers go the whole way: a scan with two certificates, a picture, a
// message, a file that is broken off, one that comes twice, a by-product.
func TestTheDemosPapers(t *testing.T) {
	v := newVault(t, true)
	sums := map[string]bool{}
	dropped := 0
	for _, p := range demo.Papers() {
		v.put(p.Name, string(p.Data))
		dropped++
		sums[string(p.Data)] = true
	}
	r := v.once()
	if !slices.Equal(v.dropped(), []string{"~$raundorn confirmation.docx"}) || len(r.Taken) != dropped-1 || len(r.Left) != 0 {
		t.Errorf("took %d of %d, left %v, still there %q", len(r.Taken), dropped, r.Left, v.dropped())
	}
	names := map[string]int{}
	for _, read := range r.Read {
		if read.Problem != nil {
			t.Errorf("%s: %v", read.Name, read.Problem)
		}
		names[string(read.Name)]++
		t.Logf("%s %s%s: %s %s %s, %d open, pages %d-%d", read.Paper.Ref(), read.Name, read.Part, read.Outcome, read.Reason, read.Kind, read.Open, read.Paper.From, read.Paper.To)
	}
	if names["Your certificate.eml"] < 2 {
		t.Errorf("the message's attachment was not read")
	}
	two := 0
	for _, n := range names {
		if n > 1 {
			two++
		}
	}
	if two < 2 {
		t.Errorf("%d files gave several papers, want the message and the scan with two certificates", two)
	}
	unread, err := v.c.Papers(t.Context(), catalog.Unread)
	if err != nil || len(unread) == 0 || !r.ToSee() {
		t.Errorf("unread %v, %v, want the broken file said", unread, err)
	}
	for _, p := range unread {
		if p.Why == "" {
			t.Errorf("%s is unread without a reason", p.Ref())
		}
	}
	v.sound()
}
