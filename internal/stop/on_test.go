//go:build faultpoints

package stop

import (
	"errors"
	"testing"
)

func TestParse(t *testing.T) {
	tests := []struct {
		name, why, give string
		want            wish
		bad             bool
	}{
		{"name alone", "a kill at the first time is what most tests want", "renamed", wish{"renamed", "kill", 1}, false},
		{"times", "every act passes the catalog's points", "committed:3", wish{"committed", "kill", 3}, false},
		{"both", "the order of the documentation", "read:2:error", wish{"read", "error", 2}, false},
		{"how alone", "the number may be left out", "opened:wait", wish{"opened", "wait", 1}, false},
		{"unknown name", "a test that stops nowhere must fail", "renamd", wish{}, true},
		{"unknown way", "it would pass for a kill", "read:1:explode", wish{}, true},
	}
	for _, test := range tests {
		got, err := parse(test.give)
		if got != test.want || (err != nil) != test.bad {
			t.Errorf("%s (%s): got %+v, %v, want %+v", test.name, test.why, got, err, test.want)
		}
	}
}

func TestAtFailsAtTheTimeAsked(t *testing.T) {
	t.Setenv("EVIDENCE_VAULT_STOP", "read:2:error")
	var got []bool
	for range 3 {
		got = append(got, errors.Is(At(Read), ErrStopped))
	}
	if got[0] || !got[1] || got[2] {
		t.Errorf("stopped at %v, want only the second time", got)
	}
	if err := At(Opened); err != nil {
		t.Errorf("another point: %v", err)
	}
}
