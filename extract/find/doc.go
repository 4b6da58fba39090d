// Package find looks through a text (a line, or lines joined to a block) for
// dates, ranges of dates, clock times, lengths of time, credits, money, names,
// numbers and addresses.
//
// A finder says what a place in the text may mean, never which meaning is
// right: "03/04/2026" has two readings, "$ 20" several currencies, "10 UE" three
// lengths. Who asks decides with the rest of the document.
//
// It is pure: no file, clock, locale or log. Every [Span] is in bytes of the
// text as given, candidates come in order and do not overlap, and the work grows
// with the length of the text. Languages: English, German, French, Spanish,
// Dutch; Italian and Portuguese where the caller names them.
package find
