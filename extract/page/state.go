package page

import (
	"context"
	"runtime"
	"strings"
)

// Confinement says what protects this computer from the documents it reads, and what
// was found to read them with.
type Confinement struct {
	Lines     []string // what holds and what does not, a sentence each
	Tesseract string   // its version; "" not found
	Languages []string // that it can recognise, of those wanted
	Lacking   string   // why letters cannot be recognised, with the way out; "" if they can
	Second    bool     // a second opinion can be asked
}

// Confinement starts a child, if none is warm, and tells what holds for it.
func (r *Reader) Confinement(ctx context.Context) (Confinement, error) {
	c, err := r.take(ctx)
	if err != nil {
		return Confinement{}, err
	}
	in := c.InForce()
	r.give(c)
	out := Confinement{Lines: in.Lines(), Second: runtime.GOOS == "linux"}
	if !out.Second {
		out.Lines = append(out.Lines, "no second opinion on PDFs: it cannot be held within limits on this system")
	}
	l, err := r.ocr.look(ctx)
	if ctx.Err() != nil {
		return Confinement{}, ctx.Err()
	}
	if err != nil {
		out.Lacking = err.Error()
		out.Lines = append(out.Lines, out.Lacking)
		return out, nil
	}
	out.Tesseract, out.Languages = l.version, l.languages
	out.Lines = append(out.Lines, "letters in pictures are recognised by "+l.version+" ("+strings.Join(l.languages, ", ")+")")
	return out, nil
}
