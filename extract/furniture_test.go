package extract_test

import (
	"strings"
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/paper"
)

// Lines that say nothing of what a paper proves, as they stand at the head and at the foot of papers.
var (
	atHead = []string{
		"COPY", "Duplicate", "Zweitschrift", "CONFIDENTIAL", "TTT", "T T", "12 Mill Lane, Harrow AB1 2CD", "Mühlweg 12, 40213 Harrau",
		"Building skills since 1954", "Safe lifting for everyone", "Page 1 of 1", "Our ref: TT/118", "No. 004471", "www.tannvale.example",
		"Tel. +44 20 7946 0000", "Form TR-12 rev. 3 (04/2024)", "Scanned 2026-06-12 09:14",
	}
	atFoot = []string{
		"Member of the Federation of Lifting Bodies", "© 2026. All rights reserved.", "Registered charity no. 1122334", "Form TR-12 rev. 3 (04/2024)",
		"Accredited by the Northern Accreditation Board until 31 December 2027", "Printed on 21 May 2026 09:14", "Page 1 of 1",
		"This document was produced electronically and is valid without signature.", "Please keep this document for your records.",
		"Amtsgericht Harrau HRB 1234, Geschäftsführer: P. Vossberg", "Our management system is certified to ISO 9001",
		"12 Mill Lane, Harrow AB1 2CD, Tel. +44 20 7946 0000, info@tannvale.example", "Verify this document at www.verify.example/118",
	}
)

// TestFurniture sets one such line at the head or the foot of papers of every kind: what is certain
// stays what it was, and nearly all of it stays certain.
func TestFurniture(t *testing.T) {
	certain, other, asked := 0, 0, 0
	read := func(lines []string) map[paper.Field]paper.Value {
		return extract.Understand(invented{lines: lines}.asPage(), extract.Hints{})[0].Values
	}
	for _, c := range papersByKind {
		lines := strings.Split(c.text, "\n")
		as := read(lines)
		for k, line := range append(atHead[:len(atHead):len(atHead)], atFoot...) {
			with := append(append([]string{}, lines...), line)
			if k < len(atHead) {
				with = append([]string{line}, lines...)
			}
			got := read(with)
			for f, v := range as {
				if !v.Certain {
					continue
				}
				switch g := got[f]; {
				case g.Certain && g.Text == v.Text:
					certain++
				case g.Certain:
					other++
					t.Logf("with %q %s is %q, else %q: %q", line, f, g.Text, v.Text, c.text)
				default:
					asked++
				}
			}
		}
	}
	t.Logf("%d certain as before, %d others, %d asked about", certain, other, asked)
	if certain < 5000 || 2000*other > certain || 50*asked > certain {
		t.Errorf("%d certain as before, %d others, %d asked about", certain, other, asked)
	}
}

// TestFurnitureIsNoPaper: a sheet with nothing else on it is read as it is, and what names a day, a body
// or credits is no furniture.
func TestFurnitureIsNoPaper(t *testing.T) {
	for text, want := range map[string]map[paper.Field]string{
		"COPY": {},
		"Tannvale Training Trust\nCertificate of attendance\nMona Arkell attended\nSafe Lifting\non 15 May 2026.\nAccredited by the Northern Accreditation Board for 6 CPD points": {paper.FieldCredits: "6 CPD points"},
		"Certificate of attendance\nMona Arkell attended\nSafe Lifting\non 15 May 2026.\n© 2026 Tannvale Training Trust. All rights reserved":                                      {paper.FieldProvider: "Tannvale Training Trust"},
		"Tannvale Lifting Society\nMembership certificate\nMona Arkell\nMember of the Tannvale Lifting Society\nValid 1 January 2026 to 31 December 2026":                          {paper.FieldKind: "membership", paper.FieldProvider: "Tannvale Lifting Society"},
		"North Riding\nTraining Trust\nCertificate of attendance\nMona Arkell attended\nSafe Lifting\non 15 May 2026.":                                                             {paper.FieldProvider: "North Riding Training Trust"},
	} {
		r := extract.Understand(pagesOf(text), extract.Hints{})[0]
		if r.Outcome == "" {
			t.Errorf("%q has no outcome", text)
		}
		for f, v := range want {
			if r.Values[f].Text != v {
				t.Errorf("%q: %s is %q, want %q", text, f, r.Values[f].Text, v)
			}
		}
	}
}
