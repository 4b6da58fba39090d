// Package catalog opens a vault: its log of events and the rows made from it. It is
// the only place with SQL.
//
// The log is the source. Every act is one or more events, each with a gapless number,
// a time in UTC, a kind and a body in canonical bytes (RFC 8785; only strings,
// integers, booleans, arrays and objects; what is absent is left out). Event, its leaf
// in the Merkle log and its rows are written in one transaction by [Catalog.Act]; rows
// are made by applying the event and in no other way, so that [Catalog.Verify] can make
// them again in an empty database and compare. After the commit the head of the log is
// signed and kept in the file head, outside the database.
//
// What a vault's folder holds:
//
//	catalog.db      events and rows; only the SQLite driver may open it, its -wal or its -shm
//	evidence/       the write-once store, package evidence
//	schemes/        the bytes of every scheme in use, named by SHA-256
//	head            the signed head of the log, package seal
//	key             the private key that signs it, 0600
//	writing         locked while somebody writes; never removed
//	daemon          locked while a daemon runs; never removed
//
// Opening a closed database file behind SQLite's back drops its locks; so no code here
// or elsewhere opens catalog.db, catalog.db-wal or catalog.db-shm.
package catalog
