// Package paper has the nouns of which a reading is made: what kind of paper it
// is, which fields it fills, with which values, how sure, and where in the
// document each stands.
//
// It is pure: no file, no clock, no PDF engine, so that the catalog can speak of a
// reading without linking one. Coordinates are whole hundredths of a point of the
// page as displayed, origin at the top left.
package paper
