package intake

import (
	"context"

	"evidencevault/catalog"
	"evidencevault/evidence"
)

// recordAgain records that an evidence whose file was deleted came again. The error
// wraps [evidence.ErrMissing] when its file is not there: what was left of it after the
// deletion was removed meanwhile, and the next try puts it into the store.
func recordAgain(ctx context.Context, tx *catalog.Tx, kept evidence.Kept, name catalog.FileName, origin *catalog.Origin) error {
	if err := tx.InStore(kept.SHA256); err != nil {
		return err
	}
	number, err := tx.Next(ctx, catalog.LetterPaper)
	if err != nil {
		return err
	}
	_, err = tx.Record(ctx, &catalog.EvidenceReturned{SHA256: kept.SHA256, Name: name, Origin: origin, Paper: catalog.NewID(), Number: number})
	return err
}
