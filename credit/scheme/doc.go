// Package scheme reads a certifying body's rules from one text file into the rules of
// package credit, and the claims file of a calculation without a vault.
//
// A file is TOML, read strictly: a key that is not known is a problem, and so is a
// contradiction. All problems of a file are found at once, each with its line and
// column. No number ever becomes a floating-point number: an amount is taken from the
// characters of the file. The language is described in docs/scheme.md.
//
// The schemes that ship with the program are embedded.
package scheme
