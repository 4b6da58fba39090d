package journal

import (
	"context"

	"evidencevault/catalog"
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
