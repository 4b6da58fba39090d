package seal

import (
	"fmt"

	"golang.org/x/mod/sumdb/tlog"
)

// Hash is a hash of the tree: of a leaf or of an inner node (RFC 6962, section 2.1).
type Hash = tlog.Hash

// Reader gives the stored hashes with the numbers asked for, in that order. It must
// give an error if one is missing.
type Reader = tlog.HashReaderFunc

// Leaf returns the hash of one event's canonical bytes: SHA-256 over 0x00 and the
// bytes (RFC 6962, section 2.1).
func Leaf(event []byte) Hash { return tlog.RecordHash(event) }

// Stored returns how many hashes are stored for a log of size events.
func Stored(size int64) int64 { return tlog.StoredHashCount(size) }

// LeafIndex returns the number of the stored hash of record n, counted from 0.
func LeafIndex(n int64) int64 { return tlog.StoredHashIndex(0, n) }

// Append returns the hashes to be stored when a leaf is added to a log of size events.
// Their numbers begin with Stored(size). The error is r's.
func Append(size int64, leaf Hash, r Reader) ([]Hash, error) {
	hashes, err := tlog.StoredHashesForRecordHash(size, leaf, r)
	if err != nil {
		return nil, fmt.Errorf("the tree of the log at event %d: %w", size+1, err)
	}
	return hashes, nil
}

// Root returns the root hash of the first size events (RFC 6962, section 2.1); of none
// it is the SHA-256 of nothing. The error is r's.
func Root(size int64, r Reader) (Hash, error) {
	root, err := tlog.TreeHash(size, r)
	if err != nil {
		return Hash{}, fmt.Errorf("the root of the first %d events: %w", size, err)
	}
	return root, nil
}

// Continues reports whether a log of size events, whose hashes r gives, begins with
// the events that an older head was signed over. The error is r's.
func Continues(older Head, size int64, r Reader) (bool, error) {
	if older.Size > size {
		return false, nil
	}
	root, err := Root(older.Size, r)
	return root == older.Hash, err
}

// Tree is a tree that is held in memory: only the hashes that the next leaf and the
// root need are kept. The zero Tree has no leaf.
type Tree struct {
	size  int64
	right map[int64]Hash // by number
}

// Add adds a leaf and returns the hashes that are stored for it.
func (t *Tree) Add(leaf Hash) ([]Hash, error) {
	hashes, err := Append(t.size, leaf, t.read)
	if err != nil {
		return nil, err
	}
	if t.right == nil {
		t.right = map[int64]Hash{}
	}
	for i, h := range hashes {
		t.right[Stored(t.size)+int64(i)] = h
	}
	t.size++
	t.prune()
	return hashes, nil
}

// Size returns the number of leaves.
func (t *Tree) Size() int64 { return t.size }

// Root returns the root hash.
func (t *Tree) Root() (Hash, error) { return Root(t.size, t.read) }

// prune keeps the roots of the whole subtrees that make up the tree.
func (t *Tree) prune() {
	keep := make(map[int64]Hash)
	var start int64
	for level := 62; level >= 0; level-- {
		if width := int64(1) << level; t.size&width != 0 {
			index := tlog.StoredHashIndex(level, start>>level)
			keep[index] = t.right[index]
			start += width
		}
	}
	t.right = keep
}

func (t *Tree) read(indexes []int64) ([]Hash, error) {
	out := make([]Hash, len(indexes))
	for i, n := range indexes {
		h, ok := t.right[n]
		if !ok {
			return nil, fmt.Errorf("hash %d is not kept", n)
		}
		out[i] = h
	}
	return out, nil
}
