package journal

import "time"

// A DateDoubt says why the computer's date may be wrong. The zero value says that nothing
// speaks against it.
type DateDoubt string

// The doubts.
const (
	DateBefore DateDoubt = "before" // it lies before the last entry of the log
	DateLong   DateDoubt = "long"   // it lies long after it
)

// longQuiet is after how long without an entry the computer's date is doubted: whoever
// collects credits writes something within a year.
const longQuiet = 400 * 24 * time.Hour

// DoubtDate judges the computer's date by how long ago the log was last written; negative
// if that is still to come. A day either way is a matter of time zones.
func DoubtDate(quiet time.Duration) DateDoubt {
	switch {
	case quiet < -24*time.Hour:
		return DateBefore
	case quiet > longQuiet:
		return DateLong
	}
	return ""
}
