package extract

import (
	"context"
	"io"
)

// ReadBy is [Read] with pages from r, which need not be a reader.
func ReadBy(ctx context.Context, r opener, src io.Reader, h Hints) ([]Paper, error) {
	return read(ctx, r, src, h, nil, depth)
}
