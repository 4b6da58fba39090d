// Package heap lets a short piece of work use more memory, so that it is sooner done.
package heap

import (
	"os"
	"runtime/debug"
)

// Most is the memory, in bytes, up to which [Grow] lets the heap grow.
const Most = 1 << 30

// percent is how much the heap may grow between two collections.
const percent = 400

// Grow lets the heap grow to five times what is in use before it is collected, as long as all
// memory stays under [Most]; beyond it the collector works as hard as ever. It returns what
// sets the collector back. Who set GOGC or GOMEMLIMIT is obeyed: nothing is changed then.
// It is for a command that makes one thing and ends, not for a service.
func Grow() (back func()) {
	if os.Getenv("GOGC") != "" || os.Getenv("GOMEMLIMIT") != "" {
		return func() {}
	}
	had, limit := debug.SetGCPercent(percent), debug.SetMemoryLimit(Most)
	return func() {
		debug.SetGCPercent(had)
		debug.SetMemoryLimit(limit)
	}
}
