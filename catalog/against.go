package catalog

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"evidencevault/catalog/seal"
)

// Against checks that the log continues an older head, as a backup or a packet holds
// it: only so can be seen that a whole vault, head included, was set back. The error is
// nil if it does. Else it is a [*LogError] that says what is wrong, and with which of the
// two: a head that is damaged, or of another vault, says nothing about this one.
func (c *Catalog) Against(ctx context.Context, signed []byte) error {
	return c.Read(ctx, func(v *View) error {
		keys, err := signers(ctx, v.q)
		if err != nil {
			return err
		}
		size, err := c.size(ctx, v.q)
		if err != nil {
			return err
		}
		head, err := compared(signed, keys)
		if err != nil {
			return err
		}
		if head.Size > size {
			return &LogError{Mend: wayBack, Why: fmt.Sprintf("it has %d events, and the head that it was compared with was signed over %d: the vault was set back to an earlier day", size, head.Size)}
		}
		ok, err := seal.Continues(head, size, treeReader(ctx, v.q))
		if err == nil && !ok {
			err = &LogError{Mend: wayBack, Why: fmt.Sprintf("its first %d events are not those over which the head that it was compared with was signed: it has another history", head.Size)}
		}
		return err
	})
}

// compared returns the head that a log is compared with, if a key of the log signed it.
// The error says why it cannot be judged by.
func compared(signed []byte, keys []signer) (seal.Head, error) {
	loose, by, err := seal.Look(signed)
	if err != nil {
		return seal.Head{}, &LogError{Why: "what it was compared with is no whole signed head, so nothing was compared", Mend: anotherHead}
	}
	until := int64(-1) // the event by which the next key came into force; -1: none did
	for _, k := range keys {
		head, err := seal.Check(signed, k.public)
		if err == nil && (until < 0 || head.Size < until) {
			return head, nil
		}
		if err == nil {
			return head, &LogError{Mend: wayBack, Why: fmt.Sprintf(
				"the head that it was compared with is of %d events and signed with the key %s, which another had replaced by event %d: work went on with the old key, as in the vault that this one was restored from", head.Size, shortKey(k.public), until)}
		}
		if slices.Contains(by, shortKey(k.public)) {
			return loose, &LogError{Mend: anotherHead, Why: "the head that it was compared with names this vault's key " + shortKey(k.public) +
				", and the signature is not right: that head was damaged or altered, and says nothing about this vault"}
		}
		until = k.since
	}
	if loose.Origin == originOf(keys[0].public) {
		return loose, &LogError{Mend: wayBack, Why: fmt.Sprintf(
			"the head that it was compared with is of %d events and signed with a key of this vault that its log does not know (%s): the vault was set back to a day before that key was made, or that head is of a copy that was restored and went on",
			loose.Size, strings.Join(by, ", "))}
	}
	return loose, &LogError{Mend: anotherHead, Why: fmt.Sprintf("the head that it was compared with is of another vault (%s), so nothing was compared", loose.Origin)}
}

// anotherHead is what to do about a head that cannot be judged by.
const anotherHead = "compare with another copy: a backup, export, index or packet of this vault holds one"

// originOf is the name of a public key, which names the vault.
func originOf(public string) string {
	name, _, _ := strings.Cut(public, "+")
	return name
}
