package journal

import (
	"context"
	"errors"
	"fmt"

	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// Waiting returns every paper that is unread or waiting, those that prove nothing
// too, in the order of their numbers, with what is open about each. Categories are
// those of the first certification; see [Journal.WaitingFor].
func (j *Journal) Waiting(ctx context.Context) ([]WaitingPaper, error) {
	return j.WaitingFor(ctx, "")
}

// WaitingFor is [Journal.Waiting] with the categories of one certification.
func (j *Journal) WaitingFor(ctx context.Context, certification string) ([]WaitingPaper, error) {
	list := []WaitingPaper{}
	err := j.cat.Read(ctx, func(v *catalog.View) error {
		k, err := j.asker(ctx, v, certification)
		if err != nil {
			return err
		}
		papers, err := v.Papers(ctx, catalog.Unread, catalog.Waiting)
		if err != nil {
			return err
		}
		readings, err := v.Readings(ctx, catalog.Unread, catalog.Waiting)
		if err != nil {
			return err
		}
		evidence, err := v.EvidenceOf(ctx, catalog.Unread, catalog.Waiting)
		if err != nil {
			return err
		}
		for _, p := range papers {
			ev, ok := evidence[p.SHA256]
			if !ok {
				return fmt.Errorf("%s: evidence %s: %w", p.Ref(), p.SHA256, catalog.ErrUnknown)
			}
			list = append(list, seen{p, ev, readings[p.ID]}.shown(k))
		}
		return nil
	})
	return list, err
}

// asker returns what papers are asked against. Without a name that is the first of
// several certifications.
func (j *Journal) asker(ctx context.Context, v *catalog.View, certification string) (asker, error) {
	names, err := holderNames(ctx, v)
	if err != nil {
		return asker{}, err
	}
	all, err := j.allCertified(ctx, v, credit.Date{})
	if err != nil {
		return asker{}, err
	}
	var c Certified
	if certification == "" && len(all) > 0 {
		c = all[0]
	} else if c, err = j.certified(ctx, v, certification, credit.Date{}); err != nil {
		return asker{}, err
	}
	habits, err := j.habitsFor(ctx, v, c.Name)
	return asker{c.Scheme, names, habits}, err
}

// seen is a paper with its evidence and its newest reading.
type seen struct {
	catalog.Paper
	evidence catalog.Evidence
	reading  catalog.Reading // zero without one
}

func see(ctx context.Context, v *catalog.View, p catalog.Paper) (seen, error) {
	ev, err := v.Evidence(ctx, p.SHA256)
	if err != nil {
		return seen{}, fmt.Errorf("%s: %w", p.Ref(), err)
	}
	r, err := v.Reading(ctx, p.ID)
	if err != nil && !errors.Is(err, catalog.ErrUnknown) {
		return seen{}, fmt.Errorf("%s: %w", p.Ref(), err)
	}
	return seen{p, ev, r}, nil
}

// fileExact is file in the form from which the name's bytes can be had back.
func (s seen) fileExact() string {
	if len(s.evidence.Names) == 0 {
		return s.file()
	}
	return s.evidence.Names[0].Name.Exact()
}

// file is the first name that the evidence came under, as it may be shown.
func (s seen) file() string { return firstName(s.evidence) }

func firstName(ev catalog.Evidence) string {
	if len(ev.Names) == 0 {
		return ev.SHA256 + ev.Ext
	}
	return ev.Names[0].Name.String()
}

// before is the state that the paper had before it was decided.
func (s seen) before() string {
	if s.reading.Outcome == paper.OutcomeRead || s.reading.Outcome == paper.OutcomeNotEvidence {
		return catalog.Waiting
	}
	return catalog.Unread
}

// shown is a paper as it is shown, with its questions while it is not decided.
func (s seen) shown(k asker) WaitingPaper {
	w := WaitingPaper{
		ID: s.Ref(), File: s.file(), FileExact: s.fileExact(), Part: s.part(), SHA256: s.SHA256, Pages: [2]int{s.From, s.To}, State: s.State, Reason: s.Why,
		Rows: []WaitingRow{}, Values: map[paper.Field]paper.LineValue{}, Questions: []WaitingQuestion{},
	}
	if w.Reason == "" && (s.State == catalog.Unread || s.State == catalog.Waiting && s.reading.Outcome == paper.OutcomeNotEvidence) {
		w.Reason = s.reading.Reason
	}
	if s.State == catalog.Unread {
		return w
	}
	questions, values := k.ask(s.reading.Reading, s.reading.Values)
	w.Values = paper.LineValues(values)
	if s.State == catalog.Waiting {
		w.Questions = questions
	}
	w.Kind = values[paper.FieldKind].Text
	for i, row := range s.reading.Rows {
		w.Rows = append(w.Rows, waitingRow(i+1, row, s.Rows[i+1]))
	}
	return w
}

// part is the name of the attachment or archive member that the paper is.
func (s seen) part() string {
	if s.Part != "" {
		return s.Part
	}
	return s.reading.Part
}

func waitingRow(n int, row paper.Row, state string) WaitingRow {
	if state == "" {
		state = catalog.Waiting
	}
	credits := row.Credits
	if credits == nil {
		credits = []paper.Printed{}
	}
	return WaitingRow{Row: n, Title: row.Title, Start: row.Start, End: row.End, Duration: row.Duration, Credits: credits, State: state}
}
