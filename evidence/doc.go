// Package evidence is the write-once store: each file as it came, named by its
// SHA-256 (FIPS 180-4), never changed and never overwritten.
//
// A store is a folder of mode 0700 with one folder for each first byte of a hash:
// ab/abcdef….pdf, mode 0400. The extension follows the content and is only for
// people; the name up to the point decides. A file has its name only once all its
// bytes are on the disk and were read back: [Store.Put] copies to a temporary file
// while hashing, syncs it, reads it back and compares, renames it, and syncs the
// folder. A stop at any line leaves at most a temporary file, which [Store.Clean] removes.
//
// It knows nothing of catalogs: which evidence belongs to what, and under which names
// it came, stands there. Sizes are in bytes.
package evidence
