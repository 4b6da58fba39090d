package catalog

import (
	"context"
	"database/sql"
	"slices"
)

// touched says which claims hang on what, as the rows stand now.
type touched struct {
	byActivity, byPaper, byEvidence, byClaim map[string][]string // short numbers of claims
	byScheme                                 map[string][]string // by the SHA-256 of its bytes
	byEvent                                  map[int64][]string
	names                                    map[string]string // short number by UUID
}

// touchedBy reads which claims hang on what. Rows may be altered, so nothing here is proven.
func touchedBy(ctx context.Context, v *View) (*touched, error) {
	t := &touched{map[string][]string{}, map[string][]string{}, map[string][]string{}, map[string][]string{}, map[string][]string{}, map[int64][]string{}, map[string]string{}}
	err := run(
		func() error {
			_, err := list(ctx, v, func(r *sql.Rows) (none struct{}, err error) {
				var claim, activity string
				var number int
				err = r.Scan(&claim, &number, &activity)
				name := ref(LetterClaim, number)
				t.byActivity[activity] = append(t.byActivity[activity], name)
				t.byClaim[claim] = []string{name}
				return none, err
			}, `SELECT id, number, activity FROM claim ORDER BY number`)
			return err
		},
		func() error {
			_, err := list(ctx, v, func(r *sql.Rows) (none struct{}, err error) {
				var activity, paper, evidence string
				err = r.Scan(&activity, &paper, &evidence)
				t.byPaper[paper] = append(t.byPaper[paper], t.byActivity[activity]...)
				t.byEvidence[evidence] = append(t.byEvidence[evidence], t.byActivity[activity]...)
				return none, err
			}, `SELECT DISTINCT activity, paper, evidence FROM proof ORDER BY activity`)
			return err
		},
		func() error {
			for _, k := range tables {
				_, err := list(ctx, v, func(r *sql.Rows) (none struct{}, err error) {
					var id string
					var number int
					err = r.Scan(&id, &number)
					t.names[id] = ref(k.letter, number)
					return none, err
				}, `SELECT id, number FROM `+k.table)
				if err != nil {
					return err
				}
			}
			return nil
		},
		func() error {
			_, err := list(ctx, v, func(r *sql.Rows) (none struct{}, err error) {
				var claim, scheme string
				err = r.Scan(&claim, &scheme)
				t.byScheme[scheme] = append(t.byScheme[scheme], t.byClaim[claim]...)
				return none, err
			}, `SELECT claim.id, cycle.scheme FROM claim JOIN cycle ON cycle.id = claim.cycle ORDER BY claim.number`)
			return err
		},
		func() error {
			_, err := list(ctx, v, func(r *sql.Rows) (none struct{}, err error) {
				var id string
				var event int64
				err = r.Scan(&id, &event)
				for _, by := range []map[string][]string{t.byClaim, t.byActivity, t.byPaper, t.byEvidence} {
					t.byEvent[event] = append(t.byEvent[event], by[id]...)
				}
				return none, err
			}, `SELECT id, event FROM about`)
			return err
		},
	)
	return t, err
}

// ofEvidence returns the claims that have a proof in an evidence, each once.
func (t *touched) ofEvidence(sha256 string) []string { return each(t.byEvidence[sha256]) }

// ofEvent returns the claims that an event is about; none for event 0.
func (t *touched) ofEvent(number int64) []string {
	if t == nil {
		return nil
	}
	return each(t.byEvent[number])
}

func each(names []string) []string {
	out := slices.Clone(names)
	slices.Sort(out)
	return slices.Compact(out)
}

// claims returns the claims that hang on a row that differs.
func (t *touched) claims(d differs) []string {
	switch d.table.name {
	case "claim":
		return each([]string{"C" + d.table.value(d.row, "number")}) // also where the row is missing
	case "scheme":
		return each(t.byScheme[d.table.value(d.row, "sha256")])
	case "activity":
		return each(t.byActivity[d.table.value(d.row, "id")])
	case "activity_field", "proof":
		return each(t.byActivity[d.table.value(d.row, "activity")])
	case "paper":
		return each(t.byPaper[d.table.value(d.row, "id")])
	case "paper_row", "reading":
		return each(t.byPaper[d.table.value(d.row, "paper")])
	case "evidence", "evidence_name":
		return each(t.byEvidence[d.table.value(d.row, "sha256")])
	}
	return nil
}

// name says which row differs: by its key, and by the short number if it has one.
func (t *touched) name(d differs) string {
	text := d.table.text(d.row)
	for _, column := range []string{"id", "paper", "activity", "receipt"} {
		if short, ok := t.names[d.table.value(d.row, column)]; ok {
			return text + " (" + short + ")"
		}
	}
	return text
}
