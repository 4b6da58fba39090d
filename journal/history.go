package journal

import (
	"cmp"
	"context"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"

	"evidencevault/catalog"
	"evidencevault/extract/paper"
)

// eventsAbout returns the events about any of ids, each once, in the order of the log.
func eventsAbout(ctx context.Context, v *catalog.View, ids ...string) ([]catalog.Event, error) {
	byNumber := map[int64]catalog.Event{}
	for _, id := range ids {
		events, err := v.History(ctx, id)
		if err != nil {
			return nil, err
		}
		for _, e := range events {
			byNumber[e.Number] = e
		}
	}
	return slices.SortedFunc(maps.Values(byNumber), func(a, b catalog.Event) int { return cmp.Compare(a.Number, b.Number) }), nil
}

// history returns what happened to ids, oldest first. The links from fields to places
// are left out: they belong to the act that made them.
func history(ctx context.Context, v *catalog.View, b *book, ids ...string) ([]HistoryItem, error) {
	events, err := eventsAbout(ctx, v, ids...)
	if err != nil {
		return nil, err
	}
	list := []HistoryItem{}
	for _, e := range events {
		if e.Kind == kindProofLinked {
			continue
		}
		text, err := b.tell(e)
		if err != nil {
			return nil, err
		}
		if e.Undone != 0 {
			text += fmt.Sprintf(" (taken back by event %d)", e.Undone)
		}
		list = append(list, HistoryItem{Event: e.Number, Time: e.At, Kind: e.Kind, Text: text})
	}
	return list, nil
}

// tell says in words what an event did.
func (b *book) tell(e catalog.Event) (string, error) {
	if e.Body == nil {
		return e.Kind + "; its words were blanked", nil
	}
	switch e.Kind {
	case kindEvidenceTaken:
		body, err := decode[catalog.EvidenceTaken](e)
		return fmt.Sprintf("taken in as %s", body.Name), err
	case kindReadingMade:
		body, err := decode[catalog.ReadingMade](e)
		return tellReading(body.Reading), err
	case kindPaperConfirmed:
		body, err := decode[catalog.PaperConfirmed](e)
		return rowText(body.Row) + "confirmed", err
	case kindRowsSkipped:
		body, err := decode[catalog.RowsSkipped](e)
		return fmt.Sprintf("rows left out: %s", strings.Trim(fmt.Sprint(body.Rows), "[]")), err
	case kindPaperSetAside:
		body, err := decode[catalog.PaperSetAside](e)
		return "set aside: " + body.Why, err
	case kindPaperCut:
		body, err := decode[catalog.PaperCut](e)
		return "cut into " + refsOf(body.Into...), err
	case kindPapersJoined:
		body, err := decode[catalog.PapersJoined](e)
		return "joined into " + refsOf(body.Into), err
	}
	return b.tellClaim(e)
}

func (b *book) tellClaim(e catalog.Event) (string, error) {
	switch e.Kind {
	case kindActivityMade:
		body, err := decode[catalog.ActivityMade](e)
		text := "made as " + catalog.Activity{Number: body.Number}.Ref()
		if body.Paper != "" {
			text += " from " + b.papers[body.Paper].Ref()
		}
		return strings.TrimSuffix(text+", "+strings.TrimSuffix(rowText(body.Row), ": "), ", "), err
	case kindActivityChanged:
		body, err := decode[catalog.ActivityChanged](e)
		return "changed: " + tellFields(body.Fields), err
	case kindClaimMade:
		body, err := decode[catalog.ClaimMade](e)
		return fmt.Sprintf("%s claimed in category %s", catalog.Claim{Number: body.Number}.Ref(), body.Category), err
	case kindClaimChanged:
		body, err := decode[catalog.ClaimChanged](e)
		if body.Category == "" {
			return "moved to another cycle", err
		}
		return "category changed to " + body.Category, err
	case kindClaimWithdrawn:
		body, err := decode[catalog.ClaimWithdrawn](e)
		return strings.TrimSuffix("claim withdrawn: "+body.Why, ": "), err
	case kindReceiptMade:
		body, err := decode[catalog.ReceiptMade](e)
		return "kept as receipt " + catalog.Receipt{Number: body.Number}.Ref(), err
	case kindReceiptTied:
		body, err := decode[catalog.ReceiptTied](e)
		if body.Activity == "" {
			return "no cost of an activity any more", err
		}
		return "cost of " + b.activities[body.Activity].Ref(), err
	case kindSchemeChanged:
		return "counted under another version of its scheme from now on", nil
	case kindLetterRecorded:
		body, err := decode[catalog.LetterRecorded](e)
		return fmt.Sprintf("audit letter %s of %s, to be answered by %s: %d claims", catalog.AuditLetter{Number: body.Number}.Ref(), body.Dated, body.Due, len(body.Claims)), err
	case kindLetterAnswered:
		body, err := decode[catalog.LetterAnswered](e)
		if body.On.IsZero() {
			return "audit letter open again", err
		}
		return strings.TrimSuffix(fmt.Sprintf("audit letter answered on %s: %s", body.On, body.Note), ": "), err
	case kindUndone:
		body, err := decode[catalog.Undone](e)
		return fmt.Sprintf("event %d taken back", body.Act), err
	}
	if text, told, err := tellCycle(e); told {
		return text, err
	}
	return e.Kind, nil
}

func tellReading(r paper.Reading) string {
	if r.Outcome == paper.OutcomeRead || r.Outcome == paper.OutcomeNotEvidence {
		return fmt.Sprintf("read as %s, with %d questions", r.Kind(), len(r.Questions))
	}
	return strings.TrimSuffix(fmt.Sprintf("not read: %s: %s", r.Outcome, r.Reason), ": ")
}

func tellFields(fields map[paper.Field]string) string {
	parts := make([]string, 0, len(fields))
	for _, f := range slices.Sorted(maps.Keys(fields)) {
		parts = append(parts, fmt.Sprintf("%s=%q", f, fields[f]))
	}
	return strings.Join(parts, ", ")
}

func refsOf(papers ...catalog.NewPaper) string {
	refs := make([]string, len(papers))
	for i, p := range papers {
		refs[i] = catalog.Paper{Number: p.Number}.Ref()
	}
	return strings.Join(refs, ", ")
}

// decode reads the body of an event as the type of its kind.
func decode[T any](e catalog.Event) (T, error) {
	var body T
	if err := json.Unmarshal(e.Body, &body); err != nil {
		return body, fmt.Errorf("event %d, %s: %w", e.Number, e.Kind, err)
	}
	return body, nil
}

// The kinds of event that are told and taken back here.
var (
	kindEvidenceTaken    = new(catalog.EvidenceTaken).Kind()
	kindReadingMade      = new(catalog.ReadingMade).Kind()
	kindPaperConfirmed   = new(catalog.PaperConfirmed).Kind()
	kindRowsSkipped      = new(catalog.RowsSkipped).Kind()
	kindPaperSetAside    = new(catalog.PaperSetAside).Kind()
	kindPaperCut         = new(catalog.PaperCut).Kind()
	kindPapersJoined     = new(catalog.PapersJoined).Kind()
	kindActivityMade     = new(catalog.ActivityMade).Kind()
	kindActivityChanged  = new(catalog.ActivityChanged).Kind()
	kindProofLinked      = new(catalog.ProofLinked).Kind()
	kindClaimMade        = new(catalog.ClaimMade).Kind()
	kindClaimChanged     = new(catalog.ClaimChanged).Kind()
	kindLetterRecorded   = new(catalog.LetterRecorded).Kind()
	kindLetterAnswered   = new(catalog.LetterAnswered).Kind()
	kindClaimWithdrawn   = new(catalog.ClaimWithdrawn).Kind()
	kindReceiptMade      = new(catalog.ReceiptMade).Kind()
	kindReceiptTied      = new(catalog.ReceiptTied).Kind()
	kindReceiptWithdrawn = new(catalog.ReceiptWithdrawn).Kind()
	kindSchemeChanged    = new(catalog.SchemeChanged).Kind()
	kindHabitForgotten   = new(catalog.HabitForgotten).Kind()
	kindUndone           = new(catalog.Undone).Kind()
)
