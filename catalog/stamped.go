package catalog

import (
	"context"
	"time"

	"evidencevault/catalog/seal"
)

// HeadStamped says that a time-stamp authority confirmed when a head existed (RFC 3161).
// The token is kept here, so that it travels with the log.
type HeadStamped struct {
	Size      int64  `json:"size"`      // number of events that the head counts
	Head      string `json:"head"`      // the signed head, byte for byte what was stamped
	Token     []byte `json:"token"`     // DER, in base64
	Authority string `json:"authority"` // the address that was asked
}

// Kind returns "head stamped".
func (*HeadStamped) Kind() string { return "head stamped" }

// About returns no ids.
func (*HeadStamped) About() []string { return nil }

func (*HeadStamped) apply(*rows) error { return nil }

// Stamped is a time stamp in the log.
type Stamped struct {
	Event     int64     `json:"event"`
	Size      int64     `json:"size"` // events that it covers
	At        time.Time `json:"at"`   // what the authority says
	Signer    string    `json:"signer"`
	Authority string    `json:"authority"`
	Head      string    `json:"head"`
	Token     []byte    `json:"token"`
	Wrong     string    `json:"wrong,omitempty"` // why it proves nothing; "" when it does
}

// Stamps lists the time stamps in the log, each checked anew against its head and the
// log. Whose certificate signed is not judged.
func (c *Catalog) Stamps(ctx context.Context) ([]Stamped, error) {
	events, err := list(ctx, &c.View, scanEvent, eventQuery+` WHERE kind = ? ORDER BY number`, (*HeadStamped)(nil).Kind())
	if err != nil {
		return nil, err
	}
	out := []Stamped{}
	for _, e := range events {
		body, err := e.Parse()
		b, ok := body.(*HeadStamped)
		if err != nil || !ok {
			continue // verify finds it with the rows
		}
		s := Stamped{Event: e.Number, Size: b.Size, Authority: b.Authority, Head: b.Head, Token: b.Token}
		said, err := seal.CheckStamp(b.Token, []byte(b.Head), nil)
		if err == nil {
			err = c.Against(ctx, []byte(b.Head))
		}
		if err != nil {
			s.Wrong = err.Error()
		}
		s.At, s.Signer = said.Time, said.Signer
		out = append(out, s)
	}
	return out, nil
}

// Stamp has the present head confirmed by ask, which is given its bytes and returns the
// token and the name of whom it asked, and records it. The error is ask's or of
// [Catalog.Act].
func (c *Catalog) Stamp(ctx context.Context, ask func(head []byte) (token []byte, authority string, err error)) error {
	var head []byte
	var size int64
	err := c.Sealed(ctx, func(_ *View, h []byte, n int64) error {
		head, size = h, n
		return nil
	})
	if err != nil {
		return err
	}
	token, authority, err := ask(head)
	if err != nil {
		return err
	}
	return c.Act(ctx, func(tx *Tx) error {
		_, err := tx.Record(ctx, &HeadStamped{Size: size, Head: string(head), Token: token, Authority: authority})
		return err
	})
}
