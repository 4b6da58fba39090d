package main

import (
	"testing"
	"time"
)

// A computer whose date jumped closes and deletes nothing without a question.
func TestDoubtDate(t *testing.T) {
	day := 24 * time.Hour
	tests := []struct {
		name, why string
		quiet     time.Duration
		doubt     bool
	}{
		{"an hour", "somebody works with the vault", time.Hour, false},
		{"half a year", "nothing was earned in the meantime", 180 * day, false},
		{"twenty years", "the clock jumped ahead", 20 * 365 * day, true},
		{"an hour back", "two computers' clocks differ a little", -time.Hour, false},
		{"a week back", "the clock went back", -7 * day, true},
	}
	for _, test := range tests {
		if got := doubtDate(test.quiet); (got != "") != test.doubt {
			t.Errorf("%s (%s): said %q", test.name, test.why, got)
		}
	}
}
