// Package journal is what a person does with a vault: set it up, look at what
// waits, confirm, set aside, undo, cut and join papers, claim, correct, attach,
// see the standing and its derivations, and keep track of receipts.
//
// The command line and the local page call the same functions here, so that they
// cannot come to differ. Each act is one transaction of the catalog; it is checked
// against what the catalog says inside that transaction, so that two programs
// cannot decide the same paper twice. Nothing here prints or logs: results are
// values whose JSON form is the machine interface.
//
// Days are [credit.Date], minutes whole numbers, amounts exact; a box is printed in
// points. Turning activities and claims into [credit.Input] happens in one place,
// the file input.go.
package journal
