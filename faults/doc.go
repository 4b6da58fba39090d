// Package faults has no code of its own: its tests, built with the tag faultpoints,
// stop the programs where it hurts and look at what is left. Package check says what
// must be true afterwards.
package faults
