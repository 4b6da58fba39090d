// Package layout has no code of its own: its test holds the table of rooms, which
// says what each package may import, and fails on an edge or a package that the
// table does not know.
package layout
