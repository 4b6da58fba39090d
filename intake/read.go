package intake

import (
	"bytes"
	"context"
	"fmt"
	"slices"

	"evidencevault/catalog"
	"evidencevault/evidence"
	"evidencevault/extract"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
	"evidencevault/internal/stop"
)

// Read says how reading one paper ended.
type Read struct {
	Paper    catalog.Paper // as it is now
	Name     catalog.FileName
	Part     catalog.FileName // of the message or archive Name; "" for a dropped file
	Outcome  paper.Outcome
	Reason   string // why nothing could be got out of it, in words
	Kind     paper.Kind
	Open     int   // questions
	Problem  error // it could not be tried: it stays pending, and is tried again later
	Attached int   // evidence that came out of it
}

// Unread reports whether the paper is still unread.
func (r Read) Unread() bool { return r.Problem != nil || r.Paper.State == catalog.Unread }

// ReadPending reads every paper that was not read yet, in the order of their numbers,
// and what comes out of them; Options.Read is told of each. The error is ctx's or the catalog's: what a document
// does not give is no error but a reading that says so.
func (in *Intake) ReadPending(ctx context.Context) ([]Read, error) {
	var all []Read
	tried := map[string]bool{} // a paper that cannot be tried now is tried once
	for {
		papers, err := in.c.Papers(ctx, catalog.Unread)
		if err != nil {
			return all, err
		}
		papers = slices.DeleteFunc(papers, func(p catalog.Paper) bool { return p.Reading != 0 || tried[p.ID] })
		if len(papers) == 0 {
			return all, nil
		}
		for _, p := range papers {
			tried[p.ID] = true
			list, err := in.read(ctx, p, "")
			all = append(all, list...)
			if err != nil {
				return all, err
			}
		}
	}
}

// Reread reads the papers with these ids anew, whatever came of it before, and what
// comes out of them for the first time. password opens an encrypted document, and is
// used and forgotten; "" for none. A paper that was decided keeps its state. The error is
// that of an unknown id, ctx's or the catalog's.
func (in *Intake) Reread(ctx context.Context, password string, ids ...string) ([]Read, error) {
	var all []Read
	for _, id := range ids {
		p, err := in.c.Paper(ctx, id)
		if err != nil {
			return all, err
		}
		list, err := in.read(ctx, p, password)
		all = append(all, list...)
		if err != nil {
			return all, err
		}
	}
	more, err := in.ReadPending(ctx)
	return append(all, more...), err
}

// read reads one paper and commits what was found in one act: the reading, further
// papers of the same evidence with theirs, and the evidence that came out of it.
func (in *Intake) read(ctx context.Context, p catalog.Paper, password string) ([]Read, error) {
	ev, err := in.c.Evidence(ctx, p.SHA256)
	if err != nil {
		return nil, err
	}
	holder, err := in.c.Holder(ctx)
	if err != nil {
		return nil, err
	}
	doc, err := in.document(ctx, p, password)
	if err != nil {
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		r := Read{Paper: p, Name: ev.Names[0].Name, Part: ev.Names[0].Part, Problem: err}
		in.hasRead(r)
		return []Read{r}, nil
	}
	hints := extract.Hints{Holder: holder.Name, FormerNames: holder.Former, Pages: [2]int{p.From, p.To}}
	if in.o.Habits != nil {
		if hints.Habits, err = in.o.Habits(ctx); err != nil {
			return nil, err
		}
	}
	readings := extract.Understand(doc, hints)
	if p.From > 0 {
		readings = readings[:1] // a person or an earlier reading said which pages it has
	}
	if err := stop.At(stop.Read); err != nil {
		return nil, err
	}
	parts, err := in.keepParts(ctx, ev, doc)
	if err != nil {
		return nil, err
	}
	list, err := in.commit(ctx, p, ev, readings, parts)
	if err != nil {
		return nil, err
	}
	for _, r := range list {
		in.hasRead(r)
	}
	return list, stop.At(stop.ReadingCommitted)
}

// document has the evidence of a paper turned into pages.
func (in *Intake) document(ctx context.Context, p catalog.Paper, password string) (page.Document, error) {
	file, err := in.c.Store().Open(p.SHA256)
	if err != nil {
		return page.Document{}, err
	}
	defer file.Close()
	return in.pages.Read(ctx, file, page.Request{Password: password, Second: true, From: p.From, To: p.To})
}

// part is an evidence that came out of another one.
type part struct {
	kept evidence.Kept
	name catalog.FileName
}

// deepest is how many containers may lie within one another; what is deeper stays in
// the innermost of them, which is kept.
const deepest = 4

// keepParts puts the attachments of a message, the files of an archive and the
// documents within a PDF into the store. Pictures that belong to the text are left.
func (in *Intake) keepParts(ctx context.Context, ev catalog.Evidence, doc page.Document) ([]part, error) {
	if len(doc.Parts) == 0 {
		return nil, nil
	}
	depth, err := in.depth(ctx, ev)
	if err != nil || depth >= deepest {
		return nil, err
	}
	var list []part
	for _, p := range doc.Parts {
		if p.Inline || len(p.Data) == 0 || (doc.Type == "pdf" && !speaks(p)) {
			continue
		}
		kept, err := in.c.Store().Put(ctx, bytes.NewReader(p.Data), int64(len(p.Data)))
		if err != nil {
			return nil, fmt.Errorf("%s, attachment %q: %w", ev.Names[0].Name, p.Name, err)
		}
		list = append(list, part{kept, catalog.FileName(p.Name)})
	}
	return list, nil
}

// speaks reports whether a file within a PDF is a document for people, which is taken
// out; the rest, such as the figures of an invoice for a machine, says nothing to a person.
func speaks(p page.Part) bool {
	switch p.Type {
	case "pdf", "jpeg", "png", "tiff", "gif", "bmp", "webp", "docx", "eml", "html", "ics", "zip":
		return true
	case "txt":
		return !bytes.HasPrefix(bytes.TrimSpace(bytes.TrimPrefix(p.Data, []byte("\xef\xbb\xbf"))), []byte("<"))
	}
	return false
}

// depth counts the containers around an evidence.
func (in *Intake) depth(ctx context.Context, ev catalog.Evidence) (int, error) {
	for n := 0; ; n++ {
		parent := ev.Names[0].Parent
		if parent == "" || n >= deepest {
			return n, nil
		}
		var err error
		if ev, err = in.c.Evidence(ctx, parent); err != nil {
			return n, err
		}
	}
}

// commit writes readings and parts, unless another program has read the paper or a
// person has retired it meanwhile.
func (in *Intake) commit(ctx context.Context, p catalog.Paper, ev catalog.Evidence, readings []paper.Reading, parts []part) ([]Read, error) {
	var list []Read
	err := in.c.Act(ctx, func(tx *catalog.Tx) error {
		list = nil
		now, err := tx.Paper(ctx, p.ID)
		if err != nil || now.Reading != p.Reading || now.State == catalog.Retired {
			return err
		}
		attached := 0
		for _, part := range parts {
			origin := &catalog.Origin{Parent: p.SHA256, Part: part.name}
			isNew, _, err := recordIn(ctx, tx, part.kept, ev.Names[0].Name, origin)
			if err != nil {
				return err
			}
			if isNew {
				attached++
			}
		}
		for i, r := range readings {
			id, err := paperFor(ctx, tx, p, i, r)
			if err != nil {
				return err
			}
			if _, err := tx.Record(ctx, &catalog.ReadingMade{Paper: id, Reading: r}); err != nil {
				return err
			}
			read := Read{Name: ev.Names[0].Name, Part: ev.Names[0].Part, Outcome: r.Outcome, Reason: r.Reason, Kind: r.Kind(), Open: len(r.Questions)}
			if i == 0 {
				read.Attached = attached
			}
			if read.Paper, err = tx.Paper(ctx, id); err != nil {
				return err
			}
			list = append(list, read)
		}
		return nil
	})
	return list, err
}

// paperFor returns the paper of the i-th reading: p itself, or a new one of the same evidence.
func paperFor(ctx context.Context, tx *catalog.Tx, p catalog.Paper, i int, r paper.Reading) (string, error) {
	if i == 0 {
		return p.ID, nil
	}
	number, err := tx.Next(ctx, catalog.LetterPaper)
	if err != nil {
		return "", err
	}
	made := catalog.NewPaper{ID: catalog.NewID(), Number: number, From: r.From, To: r.To, Part: r.Part}
	_, err = tx.Record(ctx, &catalog.PaperMade{SHA256: p.SHA256, NewPaper: made})
	return made.ID, err
}
