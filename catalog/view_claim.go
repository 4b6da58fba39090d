package catalog

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"

	"evidencevault/extract/paper"
)

const activityQuery = `SELECT id, number, paper, row, made, withdrawn, why FROM activity`

func scanActivity(r *sql.Rows) (a Activity, err error) {
	var from sql.NullString
	err = r.Scan(&a.ID, &a.Number, &from, &a.Row, (*timeValue)(&a.Made), &a.Withdrawn, &a.Why)
	a.Paper, a.Fields, a.By = from.String, map[paper.Field]string{}, map[paper.Field]string{}
	return a, err
}

// activities runs a query for activities and adds their fields.
func (v *View) activities(ctx context.Context, where string, args ...any) ([]Activity, error) {
	found, err := list(ctx, v, scanActivity, activityQuery+` `+where+` ORDER BY number`, args...)
	if err != nil || len(found) == 0 {
		return found, err
	}
	at := make(map[string]int, len(found))
	for i, a := range found {
		at[a.ID] = i
	}
	only, with := ``, []any{}
	if len(found) == 1 {
		only, with = ` WHERE activity = ?`, []any{found[0].ID}
	}
	_, err = list(ctx, v, func(r *sql.Rows) (none struct{}, err error) {
		var id, field, value, by string
		err = r.Scan(&id, &field, &value, &by)
		if i, ok := at[id]; ok {
			found[i].Fields[paper.Field(field)], found[i].By[paper.Field(field)] = value, by
		}
		return none, err
	}, `SELECT activity, field, value, by FROM activity_field`+only, with...)
	return found, err
}

// Activities returns every activity; withdrawn ones too.
func (v *View) Activities(ctx context.Context) ([]Activity, error) { return v.activities(ctx, ``) }

// Activity returns one by its UUID.
func (v *View) Activity(ctx context.Context, id string) (Activity, error) {
	found, err := v.activities(ctx, `WHERE id = ?`, id)
	return one("activity", id, found, err)
}

// ActivitiesOf returns the activities that were confirmed from a paper; withdrawn ones too.
func (v *View) ActivitiesOf(ctx context.Context, paper string) ([]Activity, error) {
	return v.activities(ctx, `WHERE paper = ?`, paper)
}

const claimQuery = `SELECT id, number, activity, certification, cycle, category, event, made, withdrawn, why FROM claim`

func scanClaim(r *sql.Rows) (c Claim, err error) {
	return c, r.Scan(&c.ID, &c.Number, &c.Activity, &c.Certification, &c.Cycle, &c.Category, &c.Event, (*timeValue)(&c.Made), &c.Withdrawn, &c.Why)
}

// ClaimFilter narrows a list of claims. The zero ClaimFilter is every claim that is not withdrawn.
type ClaimFilter struct {
	Certification string // UUID; "" for any
	Cycle         string // UUID; "" for any
	Activity      string // UUID; "" for any
	Withdrawn     bool   // withdrawn ones too
}

// Claims returns the claims that fit f.
func (v *View) Claims(ctx context.Context, f ClaimFilter) ([]Claim, error) {
	where, args := ` WHERE (? OR NOT withdrawn)`, []any{f.Withdrawn}
	for _, w := range []struct{ column, value string }{
		{"certification", f.Certification}, {"cycle", f.Cycle}, {"activity", f.Activity},
	} {
		if w.value != "" {
			where += ` AND ` + w.column + ` = ?`
			args = append(args, w.value)
		}
	}
	return list(ctx, v, scanClaim, claimQuery+where+` ORDER BY number`, args...)
}

// Claim returns one by its UUID.
func (v *View) Claim(ctx context.Context, id string) (Claim, error) {
	found, err := list(ctx, v, scanClaim, claimQuery+` WHERE id = ?`, id)
	return one("claim", id, found, err)
}

// Proofs returns the proofs of an activity in the order of the log; "" for those of every activity.
func (v *View) Proofs(ctx context.Context, activity string) ([]Proof, error) {
	where, args := ``, []any{}
	if activity != "" {
		where, args = ` WHERE activity = ?`, []any{activity}
	}
	return list(ctx, v, scanProof, `SELECT event, activity, field, evidence, paper, coalesce(reading, 0), row, value, by, page, box, quote
		FROM proof`+where+` ORDER BY event`, args...)
}

func scanProof(r *sql.Rows) (p Proof, err error) {
	var field string
	var box, quote sql.NullString
	if err := r.Scan(&p.Event, &p.Activity, &field, &p.SHA256, &p.Paper, &p.Reading, &p.Row, &p.Value, &p.By, &p.Place.Page, &box, &quote); err != nil {
		return p, err
	}
	p.Field, p.Place.Quote = paper.Field(field), quote.String
	if box.Valid {
		if err := json.Unmarshal([]byte(box.String), &p.Place.Box); err != nil {
			return p, fmt.Errorf("proof %d: box %.60q: %w", p.Event, box.String, err)
		}
	}
	return p, nil
}

const receiptQuery = `SELECT id, number, paper, activity, made, withdrawn, why FROM receipt`

func scanReceipt(r *sql.Rows) (c Receipt, err error) {
	var activity sql.NullString
	err = r.Scan(&c.ID, &c.Number, &c.Paper, &activity, (*timeValue)(&c.Made), &c.Withdrawn, &c.Why)
	c.Activity, c.Fields = activity.String, map[paper.Field]string{}
	return c, err
}

func (v *View) receipts(ctx context.Context, where string, args ...any) ([]Receipt, error) {
	found, err := list(ctx, v, scanReceipt, receiptQuery+` `+where+` ORDER BY number`, args...)
	if err != nil || len(found) == 0 {
		return found, err
	}
	at := make(map[string]int, len(found))
	for i, r := range found {
		at[r.ID] = i
	}
	_, err = list(ctx, v, func(r *sql.Rows) (none struct{}, err error) {
		var id, field, value string
		err = r.Scan(&id, &field, &value)
		if i, ok := at[id]; ok {
			found[i].Fields[paper.Field(field)] = value
		}
		return none, err
	}, `SELECT receipt, field, value FROM receipt_field WHERE ? IN ('', receipt)`, onlyID(found))
	return found, err
}

// onlyID returns the id of the only receipt, or "" for several.
func onlyID(list []Receipt) string {
	if len(list) == 1 {
		return list[0].ID
	}
	return ""
}

// Receipts returns every receipt; withdrawn ones too.
func (v *View) Receipts(ctx context.Context) ([]Receipt, error) { return v.receipts(ctx, ``) }

// Receipt returns one by its UUID.
func (v *View) Receipt(ctx context.Context, id string) (Receipt, error) {
	found, err := v.receipts(ctx, `WHERE id = ?`, id)
	return one("receipt", id, found, err)
}

// ReceiptsOf returns the receipts of a paper; withdrawn ones too.
func (v *View) ReceiptsOf(ctx context.Context, paper string) ([]Receipt, error) {
	return v.receipts(ctx, `WHERE paper = ?`, paper)
}
