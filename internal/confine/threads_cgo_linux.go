//go:build linux && cgo

package confine

// processNamespace is left out of builds with C, as the race detector's: there
// Landlock is laid on each thread by a C library that looks its own threads up in
// /proc, finds those of another process under its number, and waits for ever.
const processNamespace = 0
