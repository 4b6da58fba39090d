package extract

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"slices"

	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// A Paper is one reading with where it came from.
type Paper struct {
	Reading paper.Reading
	Part    *page.Part // the file within the file that was read: evidence of its own; nil for the document itself
	Trace   *Trace     // how it came to be read, where [Hints] ask for it and its text was looked at
	Carrier bool       // a message or the like that only carries the parts; `read` passes over it
}

// depth is how far files within files are followed.
const depth = 5

// Read reads a document and returns its papers, never none. What src holds besides
// itself (documents attached to a message) comes as papers of its own, with Part
// set: the message first, then what is attached, the one that proves something last.
// A document that cannot be read is no error but a Paper whose reading says why; the
// error is that of ctx, or says that src or the reader failed.
func Read(ctx context.Context, r *page.Reader, src io.Reader, h Hints) ([]Paper, error) {
	return read(ctx, r, src, h, nil, depth)
}

// opener makes pages of a document: a [page.Reader], or in tests one that remembers.
type opener interface {
	Read(ctx context.Context, src io.Reader, q page.Request) (page.Document, error)
}

func read(ctx context.Context, r opener, src io.Reader, h Hints, part *page.Part, left int) ([]Paper, error) {
	doc, err := r.Read(ctx, src, page.Request{Password: h.Password, Second: true, From: h.Pages[0], To: h.Pages[1]})
	if err != nil {
		return nil, fmt.Errorf("reading the pages: %w", err)
	}
	var traces []Trace
	if h.Trace {
		h.trace = func(t Trace) { traces = append(traces, t) }
	}
	var out []Paper
	for i, reading := range Understand(doc, h) {
		if part != nil {
			reading.Part = part.Name
		}
		p := Paper{Reading: reading, Part: part}
		if i < len(traces) {
			p.Trace = &traces[i]
		}
		out = append(out, p)
	}
	attached, err := readParts(ctx, r, doc, h, left)
	if err != nil || len(attached) == 0 {
		return out, err
	}
	carry(out, doc, attached)
	return append(out, attached...), nil
}

// readParts reads the documents within a document.
func readParts(ctx context.Context, r opener, doc page.Document, h Hints, left int) ([]Paper, error) {
	if left == 0 {
		return nil, nil
	}
	var out []Paper
	within := Hints{Holder: h.Holder, FormerNames: h.FormerNames, Habits: h.Habits, Trace: h.Trace}
	for _, p := range doc.Parts {
		if p.Inline || !document(p.Type) || len(p.Data) == 0 {
			continue
		}
		papers, err := read(ctx, r, bytes.NewReader(p.Data), within, &p, left-1)
		if err != nil {
			return nil, err
		}
		out = append(out, papers...)
	}
	slices.SortStableFunc(out, func(a, b Paper) int { return proves(a.Reading) - proves(b.Reading) })
	return out, nil
}

// document reports a type that may be a paper.
func document(kind string) bool {
	switch kind {
	case "pdf", "jpeg", "png", "tiff", "gif", "bmp", "webp", "docx", "eml", "html", "txt", "ics", "zip", "application/json", "application/jwt":
		return true
	}
	return false
}

// proves orders readings: what proves something comes last, a certificate after a
// receipt, for it is what the message was sent for.
func proves(r paper.Reading) int {
	switch {
	case r.Outcome != paper.OutcomeRead:
		return 0
	case r.Kind() == paper.Receipt:
		return 1
	}
	return 2
}

// carry marks the message that only carries what is attached to it: it proves
// nothing itself.
func carry(message []Paper, doc page.Document, attached []Paper) {
	if doc.Type == "zip" {
		for i := range message {
			message[i].Carrier = message[i].Reading.Outcome == paper.OutcomeNotEvidence
		}
		return
	}
	if doc.Type != "eml" || !slices.ContainsFunc(attached, func(p Paper) bool { return p.Reading.Outcome == paper.OutcomeRead }) && len(message) > 0 && message[0].Reading.Outcome == paper.OutcomeRead {
		return
	}
	for i := range message {
		message[i].Carrier = true
		message[i].Reading = carrier(message[i].Reading)
	}
}
