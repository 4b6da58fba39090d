// Package seal keeps the Merkle tree over the log (RFC 6962, by
// golang.org/x/mod/sumdb/tlog) and the signed head of it (golang.org/x/mod/sumdb/note,
// Ed25519).
//
// The head says how many events the log has and what their root hash is. Signed and
// kept outside the database it shows that events were lost, changed, reordered or
// added without the key. It does not show that a whole vault, head included, was set
// back to an earlier day: only an older head kept elsewhere does, see [Continues].
//
// It is pure but for the key file and the head file. Record n of the tree is event
// n+1 of the log. Stored hashes are numbered as tlog numbers them.
package seal
