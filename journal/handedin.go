package journal

import (
	"context"
	"fmt"

	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// notHandedIn refuses to change a value of an activity that another claim has put
// forward in a closed cycle: what was handed in there stays. A field that was empty may
// be filled. The error wraps [ErrClosed].
func notHandedIn(ctx context.Context, v *catalog.View, c catalog.Claim, a catalog.Activity, changed map[paper.Field]string) error {
	touches := false
	for f := range changed {
		touches = touches || a.Fields[f] != ""
	}
	if !touches {
		return nil
	}
	others, err := v.Claims(ctx, catalog.ClaimFilter{Activity: c.Activity})
	if err != nil {
		return err
	}
	return openCycle(ctx, v, others...)
}

// inClosedCycle adds to why an activity counts nothing that its day lies in a closed
// cycle, where that is so.
func inClosedCycle(ctx context.Context, v *catalog.View, cert Certified, day credit.Date, why string) (string, error) {
	cycles, err := v.Cycles(ctx, cert.ID)
	if err != nil {
		return why, err
	}
	for i, c := range cycles {
		if c.Closed && !day.IsZero() && (credit.Period{Start: c.Start, End: c.End}).Holds(day) {
			why += fmt.Sprintf("; its day lies in cycle %d, which is closed: note it there with close --note TEXT --cycle %d", i+1, i+1)
		}
	}
	return why, nil
}
