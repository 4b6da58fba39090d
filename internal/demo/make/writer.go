package main

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"strings"
	"unicode/utf16"
)

// escape protects the signs that mean something inside a PDF string.
var escape = strings.NewReplacer(`\`, `\\`, `(`, `\(`, `)`, `\)`)

var receiptLines = []string{
	"HEXLOW WIND SCHOOL",
	"Anemometer House, Hexlow",
	"Telephone 01632 960 714",
	"",
	"RECEIPT             HW-5530",
	"Date                31 August 2026",
	"Received from       Mirela Tannhof",
	"",
	"------------------------------------------------",
	"Wind and Ropeways: Gust Limits in Practice",
	"Course on Thursday 24 September 2026",
	"1 place                                 £ 240.00",
	"VAT 20 %                                £  48.00",
	"------------------------------------------------",
	"TOTAL PAID                              £ 288.00",
	"",
	"Paid by card. Thank you.",
	"Your certificate follows after the course.",
}

// textPDF writes lines in Courier on a half-size page, as a till system would: a
// PDF of version 1.3 with a plain cross-reference table and no information about itself.
func textPDF(lines []string) []byte {
	var text strings.Builder
	text.WriteString("BT /F1 11 Tf 15 TL 45 545 Td\n")
	for _, line := range lines {
		fmt.Fprintf(&text, "(%s) Tj T*\n", escape.Replace(latin1(line)))
	}
	text.WriteString("ET\n")
	objects := []string{
		"<< /Type /Catalog /Pages 2 0 R >>",
		"<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
		"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 420 595] /Resources << /Font << /F1 4 0 R >> >> /Contents 5 0 R >>",
		"<< /Type /Font /Subtype /Type1 /BaseFont /Courier /Encoding /WinAnsiEncoding >>",
		fmt.Sprintf("<< /Length %d >>\nstream\n%sendstream", text.Len(), text.String()),
	}
	var b bytes.Buffer
	b.WriteString("%PDF-1.3\n")
	offsets := make([]int, len(objects))
	for i, o := range objects {
		offsets[i] = b.Len()
		fmt.Fprintf(&b, "%d 0 obj\n%s\nendobj\n", i+1, o)
	}
	table := b.Len()
	fmt.Fprintf(&b, "xref\n0 %d\n0000000000 65535 f \n", len(objects)+1)
	for _, at := range offsets {
		fmt.Fprintf(&b, "%010d 00000 n \n", at)
	}
	fmt.Fprintf(&b, "trailer\n<< /Size %d /Root 1 0 R >>\nstartxref\n%d\n%%%%EOF\n", len(objects)+1, table)
	return b.Bytes()
}

// lockFile returns what a word processor leaves beside an open file: the user's
// name with its length in front, once in one-byte and once in two-byte letters.
func lockFile(user string) []byte {
	data := make([]byte, 162)
	data[0], data[54] = byte(len(user)), byte(len(user))
	copy(data[1:], user)
	for i, u := range utf16.Encode([]rune(user)) {
		data[56+2*i], data[57+2*i] = byte(u), byte(u>>8)
	}
	return data
}

// message is an e-mail with a certificate attached.
func message() ([]byte, error) {
	certificate, err := tension()
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	b.WriteString(strings.ReplaceAll(`From: Course office <courses@ostlermoor.example>
To: Mirela Tannhof <mirela@tannhof.example>
Subject: Your certificate
Date: Fri, 18 Sep 2026 10:12:44 +0100
Message-ID: <20260918.101244.77@ostlermoor.example>
MIME-Version: 1.0
Content-Type: multipart/mixed; boundary="part-77-101244"

--part-77-101244
Content-Type: text/plain; charset=utf-8
Content-Transfer-Encoding: 8bit

Dear Mirela Tannhof,

thank you for being with us. Your certificate is attached; please keep it
with your records.

Kind regards
Course office, Ostlermoor Cableway Academy

--part-77-101244
Content-Type: application/pdf; name="certificate Tannhof.pdf"
Content-Disposition: attachment; filename="certificate Tannhof.pdf"
Content-Transfer-Encoding: base64

`, "\n", "\r\n"))
	for code := base64.StdEncoding.EncodeToString(certificate); len(code) > 0; {
		n := min(76, len(code))
		b.WriteString(code[:n] + "\r\n")
		code = code[n:]
	}
	b.WriteString("--part-77-101244--\r\n")
	return b.Bytes(), nil
}
