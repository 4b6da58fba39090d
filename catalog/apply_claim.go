package catalog

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"

	"evidencevault/extract/paper"
)

func (b *ActivityMade) apply(r *rows) error {
	err := run(
		func() error {
			return r.exec(`INSERT INTO activity (id, number, paper, row, event, made, withdrawn, why) VALUES (?, ?, ?, ?, ?, ?, 0, '')`,
				b.ID, b.Number, orNull(b.Paper), b.Row, r.event, r.at)
		},
		func() error { return r.count(LetterActivity, b.Number) },
	)
	if err != nil {
		return err
	}
	return r.fields(b.ID, b.Fields, b.By, paper.ByProgram)
}

func (b *ActivityChanged) apply(r *rows) error {
	if err := r.there("activity", b.ID); err != nil {
		return err
	}
	return r.fields(b.ID, b.Fields, b.By, paper.ByPerson)
}

func (r *rows) fields(activity string, fields, by map[paper.Field]string, usual string) error {
	for _, f := range slices.Sorted(maps.Keys(fields)) {
		value, who := fields[f], by[f]
		if who == "" {
			who = usual
		}
		var err error
		if value == "" {
			err = r.exec(`DELETE FROM activity_field WHERE activity = ? AND field = ?`, activity, string(f))
		} else {
			err = r.exec(`INSERT INTO activity_field (activity, field, value, by) VALUES (?, ?, ?, ?)
				ON CONFLICT (activity, field) DO UPDATE SET value = excluded.value, by = excluded.by`,
				activity, string(f), value, who)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// there checks that a table has a row with this id. The error wraps [ErrUnknown].
func (r *rows) there(table, id string) error {
	var one int
	err := r.tx.QueryRowContext(r.ctx, `SELECT 1 FROM `+table+` WHERE id = ?`, id).Scan(&one)
	return notThere(table, id, err)
}

func (b *ProofLinked) apply(r *rows) error {
	if b.Replace {
		if err := r.exec(`DELETE FROM proof WHERE activity = ? AND field = ?`, b.Activity, string(b.Field)); err != nil {
			return err
		}
	}
	var reading, box, quote any
	_, gone := r.blanked[b.Reading] // the evidence was deleted since, and its words with it
	if b.Reading > 0 && !gone {
		reading = b.Reading
	}
	if b.By == paper.ByProgram && b.Reading > 0 && !gone {
		place, err := r.place(b)
		if err != nil {
			return err
		}
		if !place.Box.IsZero() {
			box = fmt.Sprintf("[%d,%d,%d,%d]", place.Box[0], place.Box[1], place.Box[2], place.Box[3])
		}
		quote = orNull(place.Quote)
	}
	return r.exec(`INSERT INTO proof (event, activity, field, evidence, paper, reading, row, value, by, page, box, quote)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`, r.event, b.Activity, string(b.Field), b.Evidence, b.Paper, reading,
		b.Row, b.Value, b.By, max(1, b.Page), box, quote)
}

// place looks up where the reading shows the value.
func (r *rows) place(b *ProofLinked) (paper.Place, error) {
	var text string
	err := r.tx.QueryRowContext(r.ctx, `SELECT body FROM reading WHERE event = ? AND paper = ?`, b.Reading, b.Paper).Scan(&text)
	if err != nil {
		return paper.Place{}, notThere("reading", fmt.Sprint(b.Reading), err)
	}
	var reading paper.Reading
	if err := json.Unmarshal([]byte(text), &reading); err != nil {
		return paper.Place{}, fmt.Errorf("%w: reading %d: %v", ErrBody, b.Reading, err)
	}
	if b.Row > 0 {
		if b.Row > len(reading.Rows) {
			return paper.Place{}, fmt.Errorf("row %d of reading %d: %w: it has %d", b.Row, b.Reading, ErrUnknown, len(reading.Rows))
		}
		return reading.Rows[b.Row-1].Place, nil
	}
	v := reading.Values[b.Field]
	if v.Text == b.Value {
		return v.Place, nil
	}
	for _, c := range v.Candidates {
		if c.Text == b.Value && c.Place != (paper.Place{}) {
			return c.Place, nil
		}
	}
	return v.Place, nil
}

// withdraw says of an activity, claim, receipt or letter whether it is withdrawn.
func (r *rows) withdraw(table string, w Withdrawal) error {
	return r.change(table, w.ID, `UPDATE `+table+` SET withdrawn = ?, why = ? WHERE id = ?`, w.Withdrawn, w.Why, w.ID)
}

func (b *ActivityWithdrawn) apply(r *rows) error {
	return r.withdraw("activity", Withdrawal{b.ID, true, b.Why})
}

func (b *ClaimMade) apply(r *rows) error {
	err := r.exec(`INSERT INTO claim (id, number, activity, certification, cycle, category, event, made, withdrawn, why)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?, 0, '')`, b.ID, b.Number, b.Activity, b.Certification, b.Cycle, b.Category, r.event, r.at)
	if err != nil {
		return err
	}
	return r.count(LetterClaim, b.Number)
}

func (b *ClaimChanged) apply(r *rows) error {
	return r.change("claim", b.ID, `UPDATE claim SET cycle = coalesce(?, cycle), category = coalesce(?, category) WHERE id = ?`,
		orNull(b.Cycle), orNull(b.Category), b.ID)
}

func (b *ClaimWithdrawn) apply(r *rows) error {
	return r.withdraw("claim", Withdrawal{b.ID, true, b.Why})
}

func (b *ReceiptMade) apply(r *rows) error {
	return run(
		func() error {
			return r.exec(`INSERT INTO receipt (id, number, paper, activity, event, made, withdrawn, why) VALUES (?, ?, ?, ?, ?, ?, 0, '')`,
				b.ID, b.Number, b.Paper, orNull(b.Activity), r.event, r.at)
		},
		func() error { return r.count(LetterReceipt, b.Number) },
		func() error { return r.receiptFields(b.ID, b.Fields) },
	)
}

func (r *rows) receiptFields(id string, fields map[paper.Field]string) error {
	for _, f := range slices.Sorted(maps.Keys(fields)) {
		var err error
		if fields[f] == "" {
			err = r.exec(`DELETE FROM receipt_field WHERE receipt = ? AND field = ?`, id, string(f))
		} else {
			err = r.exec(`INSERT INTO receipt_field (receipt, field, value) VALUES (?, ?, ?)
				ON CONFLICT (receipt, field) DO UPDATE SET value = excluded.value`, id, string(f), fields[f])
		}
		if err != nil {
			return err
		}
	}
	return nil
}

func (b *ReceiptChanged) apply(r *rows) error {
	if err := r.there("receipt", b.ID); err != nil {
		return err
	}
	return r.receiptFields(b.ID, b.Fields)
}

func (b *ReceiptTied) apply(r *rows) error {
	return r.change("receipt", b.ID, `UPDATE receipt SET activity = ? WHERE id = ?`, orNull(b.Activity), b.ID)
}

func (b *ReceiptWithdrawn) apply(r *rows) error {
	return r.withdraw("receipt", Withdrawal{b.ID, true, b.Why})
}

func (b *Undone) apply(r *rows) error {
	err := r.exec(`INSERT INTO undone (act, event) VALUES (?, ?)`, b.Act, r.event)
	if err != nil {
		return err
	}
	for _, p := range b.Papers {
		if err := r.state(p.ID, p.State, p.Why); err != nil {
			return err
		}
		if p.State != Retired {
			if err := r.exec(`DELETE FROM paper_into WHERE paper = ?`, p.ID); err != nil {
				return err
			}
		}
	}
	for _, row := range b.Rows {
		if err := r.rowState(row.Paper, row.Row, row.State); err != nil {
			return err
		}
	}
	for _, list := range []struct {
		table string
		of    []Withdrawal
	}{{"activity", b.Activities}, {"claim", b.Claims}, {"receipt", b.Receipts}, {"letter", b.Letters}} {
		for _, w := range list.of {
			if err := r.withdraw(list.table, w); err != nil {
				return err
			}
		}
	}
	return nil
}

// orNull returns nil for "", so that a column without a value is null.
func orNull(text string) any {
	if text == "" {
		return nil
	}
	return text
}
