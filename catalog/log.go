package catalog

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"evidencevault/catalog/seal"
)

// recent is how many of the newest events have their leaves made again at a start.
const recent = 10_000

// wayBack is what to do about a log that cannot be trusted.
const wayBack = "restore a backup; evidence in the store is not touched, and what the backup does not know can be taken in again from there"

// leaf returns the hash of the event's leaf. Its bytes are the canonical form (RFC 8785)
// of {"act", "at", "body", "kind", "number"}, put together from the bytes of the body as
// they are, so that no other bytes have the same leaf.
func (e Event) leaf() seal.Hash {
	text := make([]byte, 0, len(e.Body)+120)
	text = strconv.AppendInt(append(text, `{"act":`...), e.Act, 10)
	text = appendString(append(text, `,"at":`...), timeText(e.At))
	text = append(append(text, `,"body":`...), e.Body...)
	text = appendString(append(text, `,"kind":`...), e.Kind)
	text = strconv.AppendInt(append(text, `,"number":`...), e.Number, 10)
	return seal.Leaf(append(text, '}'))
}

// treeReader reads stored hashes of the tree.
func treeReader(ctx context.Context, q querier) seal.Reader {
	return func(indexes []int64) ([]seal.Hash, error) {
		out := make([]seal.Hash, len(indexes))
		for i, n := range indexes {
			var hash []byte
			err := q.QueryRowContext(ctx, `SELECT hash FROM tree WHERE id = ?`, n).Scan(&hash)
			if err != nil {
				return nil, notThere("hash of the tree", fmt.Sprint(n), err)
			}
			copy(out[i][:], hash)
		}
		return out, nil
	}
}

func storeHashes(ctx context.Context, q querier, from int64, hashes []seal.Hash) error {
	for i, h := range hashes {
		if _, err := q.ExecContext(ctx, `INSERT INTO tree (id, hash) VALUES (?, ?)`, from+int64(i), h[:]); err != nil {
			return sqlError(err)
		}
	}
	return nil
}

// size returns the number of the last event; 0 for an empty log.
func (c *Catalog) size(ctx context.Context, q querier) (n int64, err error) {
	err = q.QueryRowContext(ctx, `SELECT coalesce(max(number), 0) FROM event`).Scan(&n)
	return n, sqlError(err)
}

// compare judges the log while nobody writes, and returns how many events are not signed.
func (c *Catalog) compare(ctx context.Context) (tail int64, err error) {
	l, err := takeLock(ctx, filepath.Join(c.dir, writingFile), false, busyWait*time.Millisecond)
	if err != nil {
		return 0, err
	}
	defer func() { err = errors.Join(err, l.release()) }()
	err = c.Read(ctx, func(v *View) error {
		found, err := c.judge(ctx, v.q, true)
		tail = found.tail
		return err
	})
	return tail, err
}

// judged is what comparing log and head gave.
type judged struct {
	size int64     // number of the last event
	tail int64     // how many of the last events the head does not know yet: of one transaction and those that take it over, or none
	head seal.Head // zero when there is none yet
}

// judge compares the log with its signed head. With full it also looks for gaps and
// makes the leaves of the newest events again. An error that is a [*LogError] says
// what is wrong with the log. The caller holds the vault's lock.
func (c *Catalog) judge(ctx context.Context, q querier, full bool) (out judged, err error) {
	if out.size, err = c.size(ctx, q); err != nil {
		return out, err
	}
	if full {
		if err := gapless(ctx, q, out.size); err != nil {
			return out, err
		}
	}
	signed, err := seal.ReadHead(c.dir)
	switch {
	case err == nil:
		if out.head, err = c.checkHead(ctx, q, signed); err != nil {
			return out, err
		}
	case !errors.Is(err, seal.ErrNoHead):
		return out, err
	case out.size == 0:
		return out, nil
	}
	if out.head.Size > out.size {
		return out, &LogError{From: out.size + 1, Mend: wayBack,
			Why: fmt.Sprintf("it has %d events and the signed head says %d, so the newest are lost, as when %s-wal was removed", out.size, out.head.Size, dbFile)}
	}
	if full {
		if err := leaves(ctx, q, max(0, out.size-recent)+1); err != nil {
			return out, err
		}
	}
	if err := c.agree(ctx, q, out.head); err != nil {
		return out, err
	}
	out.tail = out.size - out.head.Size
	return out, oneAct(ctx, q, out)
}

// agree compares the tree's root with the head's.
func (c *Catalog) agree(ctx context.Context, q querier, head seal.Head) error {
	if head.Size == 0 {
		return nil
	}
	root, err := seal.Root(head.Size, treeReader(ctx, q))
	if errors.Is(err, ErrUnknown) {
		return &LogError{Why: "hashes of its tree are missing", Mend: wayBack}
	}
	if err == nil && root != head.Hash {
		err = &LogError{Why: fmt.Sprintf("the first %d events are not those that were signed", head.Size), Mend: wayBack}
	}
	return err
}

// oneAct checks that what is not signed is at most one transaction, and those by which
// earlier starts began to take it over: each of them may have been stopped before it
// signed, too.
func oneAct(ctx context.Context, q querier, found judged) error {
	if found.tail == 0 {
		return nil
	}
	var others int64
	err := q.QueryRowContext(ctx, `SELECT count(*) FROM event WHERE number > ? AND act <> ? AND kind <> ?`,
		found.head.Size, found.head.Size+1, (*HeadTakenOver)(nil).Kind()).Scan(&others)
	if err == nil && others > 0 {
		why := fmt.Sprintf("%d events of more than one transaction are not signed", found.tail)
		if found.head.Size == 0 {
			why = "the signed head is missing"
		}
		return &LogError{From: found.head.Size + 1, Why: why, Mend: "bring the file " + seal.HeadFile + " back, or " + wayBack}
	}
	return sqlError(err)
}

// gapless checks that no number is left out.
func gapless(ctx context.Context, q querier, size int64) error {
	var count int64
	if err := q.QueryRowContext(ctx, `SELECT count(*) FROM event`).Scan(&count); err != nil || count == size {
		return sqlError(err)
	}
	var missing int64
	err := q.QueryRowContext(ctx, `SELECT min(number) FROM (SELECT 1 AS number UNION ALL SELECT number + 1 FROM event)
		WHERE number NOT IN (SELECT number FROM event)`).Scan(&missing)
	if err != nil {
		return sqlError(err)
	}
	return &LogError{From: missing, Why: fmt.Sprintf("event %d was removed", missing), Mend: wayBack}
}

// leaves makes the leaves of the events from one on again and compares them with the
// tree. A blanked event is passed over.
func leaves(ctx context.Context, q querier, from int64) error {
	return eachBatch(ctx, q, from, func(events []Event, stored map[int64]seal.Hash) error {
		for _, e := range events {
			kept, ok := stored[seal.LeafIndex(e.Number-1)]
			if e.Body != nil && (!ok || kept != e.leaf()) {
				return altered(e)
			}
		}
		return nil
	})
}

func altered(e Event) error {
	return &LogError{From: e.Number, Why: fmt.Sprintf("event %d (%s) was altered, or put in another place", e.Number, e.Kind), Mend: wayBack}
}

// eachEvent calls fn for the events from a number on.
func eachEvent(ctx context.Context, q querier, from int64, fn func(Event) error) error {
	return eachBatch(ctx, q, from, func(events []Event, _ map[int64]seal.Hash) error {
		for _, e := range events {
			if err := fn(e); err != nil {
				return err
			}
		}
		return nil
	})
}

// batch is how many events are read at a time, so that a long log needs no memory.
const batch = 500

// eachBatch calls fn for the events from a number on, some hundred at a time, with the
// hashes of the tree that were stored for them.
func eachBatch(ctx context.Context, q querier, from int64, fn func([]Event, map[int64]seal.Hash) error) error {
	v := &View{q: q}
	for {
		found, err := list(ctx, v, scanEvent, `SELECT number, act, at, kind, body, 0 FROM event WHERE number >= ? ORDER BY number LIMIT ?`, from, batch)
		if err != nil || len(found) == 0 {
			return err
		}
		last := found[len(found)-1].Number
		stored := make(map[int64]seal.Hash, 2*len(found))
		_, err = list(ctx, v, func(r *sql.Rows) (none struct{}, err error) {
			var id int64
			var hash sql.RawBytes
			if err = r.Scan(&id, &hash); err == nil {
				stored[id] = seal.Hash(hash)
			}
			return none, err
		}, `SELECT id, hash FROM tree WHERE id >= ? AND id < ? AND length(hash) = 32`, seal.Stored(found[0].Number-1), seal.Stored(last))
		if err != nil {
			return err
		}
		if err := fn(found, stored); err != nil {
			return err
		}
		if from = last + 1; len(found) < batch {
			return nil
		}
	}
}

// signer is a public key with the event by which it came into force.
type signer struct {
	public string
	since  int64
}

// signers returns the keys of the log, the newest first.
func signers(ctx context.Context, q querier) ([]signer, error) {
	v := &View{q: q}
	events, err := list(ctx, v, scanEvent, eventQuery+` WHERE kind IN ('vault made', 'key renewed') ORDER BY number DESC`)
	if err != nil {
		return nil, err
	}
	var keys []signer
	for _, e := range events {
		body, err := e.Parse()
		if err != nil {
			return nil, &LogError{From: e.Number, Why: err.Error(), Mend: wayBack}
		}
		switch b := body.(type) {
		case *VaultMade:
			keys = append(keys, signer{b.Public, e.Number})
		case *KeyRenewed:
			keys = append(keys, signer{b.New, e.Number})
		}
	}
	if len(keys) == 0 {
		return nil, &LogError{From: 1, Why: "its first event is missing, which names the key", Mend: wayBack}
	}
	return keys, nil
}

// checkHead checks the head's signature by the key that was in force for it.
func (c *Catalog) checkHead(ctx context.Context, q querier, signed []byte) (seal.Head, error) {
	keys, err := signers(ctx, q)
	if err != nil {
		return seal.Head{}, err
	}
	until := int64(-1) // the event by which the next key came into force; -1: none did
	for _, k := range keys {
		head, err := seal.Check(signed, k.public)
		if err == nil && (until < 0 || head.Size < until) {
			return head, nil
		}
		until = k.since
	}
	return seal.Head{}, &LogError{Why: "the file " + seal.HeadFile + " is not signed with the vault's key", Mend: "bring the file back, or " + wayBack}
}

// key returns the private key that is in force. The error wraps [ErrKey] and says what
// is missing; with no event in the log it wraps [ErrLog].
func (c *Catalog) key(ctx context.Context, q querier) (*seal.Key, error) {
	keys, err := signers(ctx, q)
	if err != nil {
		return nil, err
	}
	key, err := seal.ReadKey(c.dir)
	if err != nil {
		return nil, fmt.Errorf("%w, so nothing is written: %w", ErrKey, err)
	}
	if key.Public() == keys[0].public {
		return key, nil
	}
	if fresh, ferr := seal.FinishReplace(c.dir, keys[0].public); ferr == nil {
		return fresh, nil // a renewal was stopped before its last step
	}
	return nil, fmt.Errorf("%w, so nothing is written: %s holds another key than the log names (%s); bring the right one back",
		ErrKey, filepath.Join(c.dir, seal.KeyFile), shortKey(keys[0].public))
}

// shortKey is the part of a public key that people compare.
func shortKey(public string) string {
	parts := strings.SplitN(public, "+", 3)
	if len(parts) < 3 {
		return public
	}
	return parts[0] + "+" + parts[1]
}
