// Package extract turns pages into readings: what a paper proves, who, what,
// when, how long, how many credits, what it cost, with the place of each value.
//
// It works in layers that each can be tested alone: lines, cells and paragraphs out
// of words; labels with their values and tables; the finders of package find; the
// kind of paper; and a resolver that makes of each field a certain value, a value
// with a question, or nothing. It knows no provider, no layout and no file name, and
// never takes the order of day and month from a locale or from what is likely.
//
// Lengths are hundredths of a point, durations whole minutes, credits exact amounts.
package extract
