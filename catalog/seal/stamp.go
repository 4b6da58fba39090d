package seal

import (
	"bytes"
	"crypto"
	"crypto/rand"
	"crypto/sha256"
	"crypto/x509"
	"errors"
	"fmt"
	"math/big"
	"slices"
	"time"

	"github.com/digitorus/pkcs7"
	"github.com/digitorus/timestamp"
)

// ErrStamp says that an answer is no time stamp of what was asked for.
var ErrStamp = errors.New("not a time stamp of this head")

// Stamp is what a time-stamp authority says: that these bytes existed at this time.
type Stamp struct {
	Time   time.Time // UTC
	Signer string    // the name in the certificate that signed
	Token  []byte    // the token, DER (RFC 3161, section 2.4.2)
}

// StampRequest makes a request for a time stamp of data: its SHA-256, a nonce, and the
// wish for the certificates (RFC 3161, section 2.4.1).
func StampRequest(data []byte) (request []byte, nonce *big.Int, err error) {
	nonce, err = rand.Int(rand.Reader, new(big.Int).Lsh(big.NewInt(1), 63))
	if err == nil {
		request, err = timestamp.CreateRequest(bytes.NewReader(data), &timestamp.RequestOptions{Hash: crypto.SHA256, Certificates: true, Nonce: nonce})
	}
	if err != nil {
		return nil, nil, fmt.Errorf("make a request for a time stamp: %w", err)
	}
	return request, nonce, nil
}

// ReadStamp reads an authority's answer to [StampRequest] and checks it as [CheckStamp]
// does, and that it bears the nonce. The error wraps [ErrStamp].
func ReadStamp(answer, data []byte, nonce *big.Int, roots *x509.CertPool) (Stamp, error) {
	said, err := timestamp.ParseResponse(answer)
	if err != nil {
		return Stamp{}, fmt.Errorf("%w: the answer cannot be read, or refuses: %v", ErrStamp, err)
	}
	if said.Nonce == nil || said.Nonce.Cmp(nonce) != 0 {
		return Stamp{}, fmt.Errorf("%w: it has another nonce than the request, so it may be an old answer", ErrStamp)
	}
	return CheckStamp(said.RawToken, data, roots)
}

// CheckStamp checks that a token is a time stamp of data: its hash, the signature, and
// that the certificate which signed is one for time stamps and no other use (RFC 3161,
// sections 2.3 and 2.4.2). Whose certificate it is, is only judged when roots are given;
// then it must lead to one of them at the time of the stamp. The error wraps [ErrStamp].
func CheckStamp(token, data []byte, roots *x509.CertPool) (Stamp, error) {
	said, err := timestamp.Parse(token)
	if err != nil {
		return Stamp{}, fmt.Errorf("%w: it cannot be read, or its signature is wrong: %v", ErrStamp, err)
	}
	if want := sha256.Sum256(data); said.HashAlgorithm != crypto.SHA256 || !bytes.Equal(said.HashedMessage, want[:]) {
		return Stamp{}, fmt.Errorf("%w: it has another hash", ErrStamp)
	}
	p, err := pkcs7.Parse(token)
	if err != nil {
		return Stamp{}, fmt.Errorf("%w: %v", ErrStamp, err)
	}
	by := p.GetOnlySigner()
	if by == nil {
		return Stamp{}, fmt.Errorf("%w: it does not hold the one certificate that signed it", ErrStamp)
	}
	if !slices.Equal(by.ExtKeyUsage, []x509.ExtKeyUsage{x509.ExtKeyUsageTimeStamping}) || len(by.UnknownExtKeyUsage) > 0 {
		return Stamp{}, fmt.Errorf("%w: the certificate of %q is not one for time stamps alone", ErrStamp, by.Subject.String())
	}
	if said.Time.Before(by.NotBefore) || said.Time.After(by.NotAfter) {
		return Stamp{}, fmt.Errorf("%w: the certificate of %q was not valid at %s", ErrStamp, by.Subject.String(), said.Time.UTC().Format(time.RFC3339))
	}
	if roots != nil {
		if err := leads(by, p.Certificates, roots, said.Time); err != nil {
			return Stamp{}, err
		}
	}
	return Stamp{Time: said.Time.UTC(), Signer: by.Subject.String(), Token: token}, nil
}

// leads checks that a certificate leads to a root.
func leads(by *x509.Certificate, others []*x509.Certificate, roots *x509.CertPool, at time.Time) error {
	between := x509.NewCertPool()
	for _, c := range others {
		between.AddCert(c)
	}
	_, err := by.Verify(x509.VerifyOptions{Roots: roots, Intermediates: between, CurrentTime: at,
		KeyUsages: []x509.ExtKeyUsage{x509.ExtKeyUsageTimeStamping}})
	if err != nil {
		return fmt.Errorf("%w: the certificate of %q does not lead to the one that was given: %v", ErrStamp, by.Subject.String(), err)
	}
	return nil
}
