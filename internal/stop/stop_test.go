//go:build !faultpoints

package stop_test

import (
	"testing"

	"evidencevault/internal/stop"
)

// Whatever the environment says, the product must not stop.
func TestProductIgnoresTheEnvironment(t *testing.T) {
	for _, name := range stop.Points {
		t.Setenv("EVIDENCE_VAULT_STOP", name)
		if err := stop.At(name); err != nil {
			t.Errorf("At(%q): %v, want nil without the tag", name, err)
		}
	}
}
