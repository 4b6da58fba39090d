// Package credit works out what confirmed activities earn under a scheme:
// awards, then caps, minimums and carry-over, and how each figure came about.
//
// It is pure: no file, clock or database. Equal arguments give equal results.
// Time is whole [Minutes], a day is a [Date] without zone, and credit is an
// exact [Amount]; no floating-point number appears.
package credit
