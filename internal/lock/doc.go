// Package lock takes the kernel's lock on an open file or folder. The lock ends when the
// file is closed, and so with the process at the latest: nothing stale is ever left.
package lock
