package extract

import (
	"context"
	"io"

	"evidencevault/extract/paper"
)

// WithoutLeast has do run with no least score, so that all other signs decide what is
// certain, and returns the least scores.
func WithoutLeast(do func()) map[paper.Field]int {
	kept := leastScore
	leastScore = map[paper.Field]int{}
	defer func() { leastScore = kept }()
	do()
	return kept
}

// ReadBy is [Read] with pages from r, which need not be a reader.
func ReadBy(ctx context.Context, r opener, src io.Reader, h Hints) ([]Paper, error) {
	return read(ctx, r, src, h, nil, depth)
}

// Weigh, TopicGroup and Prefixed are what a reading does with learned weights.
var (
	Weigh       = weighTraits
	TopicGroup  = topicGroup
	PersonGroup = personGroup
	BodyGroup   = bodyGroup
	Prefixed    = prefixed
)
