package catalog

import (
	"context"
	"errors"
	"time"

	"evidencevault/catalog/seal"
)

// RenewKey makes a new key, hands over to it in an event, and signs the head with
// both. An old key that is missing or not usable leaves a break, which stays in the
// log for ever.
func (c *Catalog) RenewKey(ctx context.Context) error { return c.renew(ctx, "") }

// Rekey gives a vault that came from a backup or an export, and so without its key, a
// new one, in an event that names the old public key and holds the head that came with
// the vault. That head, signed by the old key, ties what came before to the old key;
// that the new one is its heir only the person can say, see [Catalog.Restores]. The error
// wraps [ErrLog] when the log does not agree with its head.
func (c *Catalog) Rekey(ctx context.Context) error {
	c.mu.Lock()
	broken := c.broken
	c.mu.Unlock()
	if broken != nil {
		return broken
	}
	head, err := seal.ReadHead(c.dir)
	if err != nil {
		return err
	}
	return c.renew(ctx, string(head))
}

// renew puts another key in force. restored is the head that a restored vault came
// with, "" for a vault that goes on.
func (c *Catalog) renew(ctx context.Context, restored string) error {
	keys, err := signers(ctx, c.q)
	if err != nil {
		return err
	}
	old, err := c.key(ctx, c.q)
	if err != nil && !errors.Is(err, ErrKey) {
		return err
	}
	fresh, err := seal.NewKey(seal.KeyName(keys[0].public))
	if err != nil {
		return err
	}
	body := &KeyRenewed{Old: keys[0].public, New: fresh.Public()}
	if old != nil {
		if body.Handed, err = seal.HandOver(old, fresh.Public()); err != nil {
			return err
		}
	} else {
		body.Head = restored
	}
	if err := seal.Prepare(c.dir, fresh); err != nil {
		return err
	}
	err = c.act(ctx, old == nil, func(tx *Tx) error {
		tx.keys = []*seal.Key{fresh}
		_, err := tx.Record(ctx, body)
		return err
	})
	if err != nil {
		return err
	}
	_, err = seal.FinishReplace(c.dir, fresh.Public())
	return err
}

// continued reports whether a renewal without hand-over follows the very log whose head
// the old key signed.
func continued(ctx context.Context, q querier, event int64, b *KeyRenewed) bool {
	head, err := seal.Check([]byte(b.Head), b.Old)
	if err != nil || head.Size != event-1 {
		return false
	}
	root, err := seal.Root(head.Size, treeReader(ctx, q))
	return err == nil && root == head.Hash
}

// Restore is an event by which a vault went on, under a new key, from a backup or an
// export.
type Restore struct {
	Event    int64
	At       time.Time
	Old, New string // the parts of the public keys that people compare
}

// Restores lists the restores in the log. What a restore can not show is that whoever
// made it was the holder of the old key: a person who needs that compares with a head
// that the old key signed and that was kept elsewhere.
func (c *Catalog) Restores(ctx context.Context) ([]Restore, error) {
	events, err := list(ctx, &c.View, scanEvent, eventQuery+` WHERE kind = ? ORDER BY number`, (*KeyRenewed)(nil).Kind())
	if err != nil {
		return nil, err
	}
	var out []Restore
	for _, e := range events {
		body, err := e.Parse()
		if b, ok := body.(*KeyRenewed); err == nil && ok && b.Head != "" && continued(ctx, c.q, e.Number, b) {
			out = append(out, Restore{e.Number, e.At, shortKey(b.Old), shortKey(b.New)})
		}
	}
	return out, nil
}

// PublicKey returns the public form of the key in force, as package note prints it.
func (c *Catalog) PublicKey(ctx context.Context) (string, error) {
	keys, err := signers(ctx, c.q)
	if err != nil {
		return "", err
	}
	return keys[0].public, nil
}
