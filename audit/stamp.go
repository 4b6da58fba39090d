package audit

import (
	"bytes"
	"context"
	"crypto/x509"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"time"

	"evidencevault/catalog"
	"evidencevault/catalog/seal"
)

// Authority is a time-stamp authority that speaks HTTP (RFC 3161, section 3.4).
type Authority struct {
	Address string         // http or https
	Roots   *x509.CertPool // to which its certificate must lead; nil: whose it is is not judged
	Wait    time.Duration  // the longest that an answer may take; 0 means 30 s
}

// longestAnswer bounds an answer; a token with its certificates has some 5 KB.
const longestAnswer = 256 << 10

// Stamp has the vault's present head confirmed by an authority and keeps the token in
// the log. Only the hash of the head leaves the computer. The error wraps
// [seal.ErrStamp] for an answer that is none; then nothing is recorded.
func Stamp(ctx context.Context, c *catalog.Catalog, by Authority) (out seal.Stamp, err error) {
	err = c.Stamp(ctx, func(head []byte) ([]byte, string, error) {
		out, err = by.ask(ctx, head)
		if err != nil {
			err = fmt.Errorf("%s: %w; nothing was recorded", by.Address, err)
		}
		return out.Token, by.Address, err
	})
	return out, err
}

func (a Authority) ask(ctx context.Context, head []byte) (seal.Stamp, error) {
	at, err := url.Parse(a.Address)
	if err != nil || at.Scheme != "http" && at.Scheme != "https" || at.Host == "" || at.User != nil {
		return seal.Stamp{}, errors.New("it is no address of an authority; want http://… or https://…")
	}
	wait := a.Wait
	if wait == 0 {
		wait = 30 * time.Second
	}
	ctx, cancel := context.WithTimeout(ctx, wait)
	defer cancel()
	request, nonce, err := seal.StampRequest(head)
	if err != nil {
		return seal.Stamp{}, err
	}
	answer, err := a.post(ctx, request)
	if errors.Is(err, context.DeadlineExceeded) {
		return seal.Stamp{}, fmt.Errorf("no answer within %v; try again, or another authority", wait)
	}
	if err != nil {
		return seal.Stamp{}, err
	}
	return seal.ReadStamp(answer, head, nonce, a.Roots)
}

func (a Authority) post(ctx context.Context, request []byte) (_ []byte, err error) {
	req, err := http.NewRequestWithContext(ctx, http.MethodPost, a.Address, bytes.NewReader(request))
	if err != nil {
		return nil, err
	}
	req.Header.Set("Content-Type", "application/timestamp-query")
	client := http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	res, err := client.Do(req)
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, res.Body.Close()) }()
	if res.StatusCode != http.StatusOK {
		return nil, fmt.Errorf("it answers %q, want 200 and a time stamp", res.Status)
	}
	answer, err := io.ReadAll(io.LimitReader(res.Body, longestAnswer+1))
	if err == nil && len(answer) > longestAnswer {
		err = fmt.Errorf("%w: the answer has more than %d bytes", seal.ErrStamp, longestAnswer)
	}
	return answer, err
}

// WriteStamps writes every time stamp of the log into the folder dir, for other programs:
// head-N.txt, the signed head that event N stamped, and head-N.tst, the token, which
// openssl ts -verify -token_in reads. What lies there is left alone, with [ErrThere].
func WriteStamps(ctx context.Context, c *catalog.Catalog, dir string) ([]catalog.Stamped, error) {
	all, err := c.Stamps(ctx)
	if err != nil {
		return nil, err
	}
	if dir, err = filepath.Abs(dir); err != nil {
		return nil, err
	}
	if err := free(dir); err != nil {
		return nil, err
	}
	return all, place(dir, false, func(root *os.Root) error {
		for _, s := range all {
			name := fmt.Sprintf("head-%d", s.Event)
			if err := errors.Join(root.WriteFile(name+".txt", []byte(s.Head), 0o600), root.WriteFile(name+".tst", s.Token, 0o600)); err != nil {
				return err
			}
		}
		return nil
	})
}

// ReadRoots reads certificates in PEM from a file.
func ReadRoots(name string) (*x509.CertPool, error) {
	data, err := os.ReadFile(filepath.Clean(name))
	if err != nil {
		return nil, err
	}
	pool := x509.NewCertPool()
	if !pool.AppendCertsFromPEM(data) {
		return nil, fmt.Errorf("%s: it holds no certificate in PEM", name)
	}
	return pool, nil
}

// stamps notes what authorities confirmed, and finds what is wrong with a token.
func (r *Report) stamps(ctx context.Context, cat *catalog.Catalog) error {
	all, err := cat.Stamps(ctx)
	if errors.Is(err, catalog.ErrLog) || errors.Is(err, catalog.ErrDamaged) {
		return nil // found before
	}
	for _, s := range all {
		where := fmt.Sprintf("event %d", s.Event)
		if s.Wrong != "" {
			r.Findings = append(r.Findings, Finding{catalog.Finding{What: catalog.WhatHead, Where: where, Why: "its time stamp proves nothing: " + s.Wrong, Mend: "have the head stamped again", Claims: []string{}}})
			continue
		}
		r.Notes = append(r.Notes, fmt.Sprintf("%s: the log of %d events existed at %s, says %s; whose certificate that is, openssl ts -verify judges",
			where, s.Size, s.At.Format(time.RFC3339), s.Signer))
	}
	return err
}
