package page

import (
	"crypto"
	"crypto/ecdsa"
	"crypto/ed25519"
	"crypto/elliptic"
	"crypto/x509"
	"encoding/base64"
	"encoding/json"
	"encoding/pem"
	"fmt"
	"math/big"
	"strings"

	"github.com/go-jose/go-jose/v4"
)

// fileKey is a public key that stands in a badge's own file, and whose it is said to be.
// Anyone can put a key beside what he signed with it, so that it shows only that nothing
// was changed since.
type fileKey struct {
	key   any // what jose verifies with
	whose string
}

// unasked ends what is said of a key in the file.
const unasked = "that this key belongs to the issuer is not checked, and nothing outside was asked"

// keysOf returns the keys that may have signed: the one in the head of the token or that
// its key id is, else those that the payload gives for its issuer. Sources: RFC 7515,
// sections 4.1.3 and 4.1.4; Open Badges 2.0, section 4.4 (CryptographicKey); Controlled
// Identifiers 1.0, section 2.2 (verification methods).
func keysOf(head jose.Header, payload []byte) []fileKey {
	if key := head.JSONWebKey; key != nil && key.IsPublic() {
		return []fileKey{{key, "in its head" + thumbprint(key)}}
	}
	var whole any
	if json.Unmarshal(payload, &whole) != nil {
		return nil
	}
	o := object(whole)
	issuer := either(said(o["iss"]), issuerID(o["issuer"]))
	if key, ok := didKey(head.KeyID); ok {
		did, _, _ := strings.Cut(head.KeyID, "#")
		return []fileKey{{key, named(did, issuer)}}
	}
	if inner := object(o["vc"]); inner != nil {
		o = inner
	}
	class := object(o["badge"])
	var keys []fileKey
	for _, holder := range []any{object(o["verification"])["creator"], object(o["verify"])["creator"], o["issuer"], class["issuer"], object(class["issuer"])["publicKey"], object(o["issuer"])["publicKey"],
		object(o["issuer"])["verificationMethod"], object(o["issuer"])["assertionMethod"]} {
		for _, one := range listOf(holder) {
			if key, ok := methodKey(object(one)); ok && fits(said(object(one)["id"]), head.KeyID) {
				keys = append(keys, fileKey{key, owned(object(one))})
			}
		}
	}
	if key, ok := didKey(either(issuer, issuerID(o["issuer"]))); ok && len(keys) == 0 {
		keys = append(keys, fileKey{key, named(either(issuer, issuerID(o["issuer"])), issuer)})
	}
	return keys
}

func issuerID(v any) string {
	if s, ok := v.(string); ok {
		return s
	}
	return said(object(v)["id"])
}

// named says whose a key is that is an id itself.
func named(did, issuer string) string {
	if did == issuer {
		return "which is the issuer's id, " + plain(did, 80)
	}
	return plain(did, 80) + ", which is not the issuer's id"
}

// owned says whose a key is by what stands with it.
func owned(o map[string]any) string {
	whose := either(said(o["owner"]), said(o["controller"]), said(o["id"]))
	if whose == "" {
		return "which the file gives without a name"
	}
	return "which the file gives as the key of " + plain(whose, 80)
}

// thumbprint names a key that has no other name (RFC 7638).
func thumbprint(key *jose.JSONWebKey) string {
	sum, err := key.Thumbprint(crypto.SHA256)
	if err != nil {
		return ""
	}
	return " (thumbprint " + base64.RawURLEncoding.EncodeToString(sum) + ")"
}

// fits reports whether a key with this id may be the one that the token names.
func fits(id, kid string) bool {
	return kid == "" || id == "" || id == kid || strings.HasSuffix(id, "#"+strings.TrimPrefix(kid, "#"))
}

// methodKey reads the key of a verification method, or of a badge's CryptographicKey.
func methodKey(o map[string]any) (any, bool) {
	if text, _ := o["publicKeyPem"].(string); text != "" {
		block, _ := pem.Decode([]byte(text))
		if block == nil {
			return nil, false
		}
		key, err := x509.ParsePKIXPublicKey(block.Bytes)
		return key, err == nil
	}
	if jwk := object(o["publicKeyJwk"]); jwk != nil {
		text, err := json.Marshal(jwk)
		if err != nil {
			return nil, false
		}
		return jwkOf(text)
	}
	text, _ := o["publicKeyMultibase"].(string)
	return multikey(text)
}

func jwkOf(text []byte) (any, bool) {
	var key jose.JSONWebKey
	if err := key.UnmarshalJSON(text); err != nil || !key.IsPublic() || !key.Valid() {
		return nil, false
	}
	return &key, true
}

// didKey reads an id that is a key: did:key (W3C CCG, The did:key Method 0.9, section 3.1)
// and did:jwk (did:jwk Method, section 2).
func didKey(id string) (any, bool) {
	id, _, _ = strings.Cut(id, "#")
	if text, ok := strings.CutPrefix(id, "did:jwk:"); ok {
		return jwkOf(decodedPart(text))
	}
	if text, ok := strings.CutPrefix(id, "did:key:"); ok {
		return multikey(text)
	}
	return nil, false
}

// multikey reads a key in base58 with the code of its kind before it. Sources: Controlled
// Identifiers 1.0, section 2.2.3; the multicodec table for the codes, as varints.
func multikey(text string) (any, bool) {
	raw, ok := base58(text)
	if !ok || len(raw) < 3 {
		return nil, false
	}
	code, key := string(raw[:2]), raw[2:]
	for start, curve := range map[string]elliptic.Curve{"\x80\x24": elliptic.P256(), "\x81\x24": elliptic.P384(), "\x82\x24": elliptic.P521()} {
		if code != start {
			continue
		}
		return pointKey(curve, key)
	}
	switch {
	case code == "\xed\x01" && len(key) == ed25519.PublicKeySize:
		return ed25519.PublicKey(key), true
	case code == "\x85\x24":
		rsa, err := x509.ParsePKCS1PublicKey(key)
		return rsa, err == nil
	}
	return nil, false
}

// pointKey reads a point of a curve in compressed form.
func pointKey(curve elliptic.Curve, point []byte) (any, bool) {
	x, y := elliptic.UnmarshalCompressed(curve, point)
	if x == nil {
		return nil, false
	}
	size := (curve.Params().BitSize + 7) / 8
	full := append([]byte{4}, x.FillBytes(make([]byte, size))...)
	key, err := ecdsa.ParseUncompressedPublicKey(curve, append(full, y.FillBytes(make([]byte, size))...))
	return key, err == nil
}

const (
	alphabet58 = "123456789ABCDEFGHJKLMNPQRSTUVWXYZabcdefghijkmnopqrstuvwxyz"
	longest58  = 2000 // an RSA key of 8192 bits has some 1,400
)

// base58 decodes what follows the z of a multibase text (The Multibase Data Format,
// section 4); no nought stands before a key, so none is counted.
func base58(text string) ([]byte, bool) {
	text, ok := strings.CutPrefix(text, "z")
	if !ok || len(text) > longest58 {
		return nil, false
	}
	n := new(big.Int)
	for _, r := range text {
		at := strings.IndexRune(alphabet58, r)
		if at < 0 {
			return nil, false
		}
		n.Add(n.Mul(n, big.NewInt(58)), big.NewInt(int64(at)))
	}
	return n.Bytes(), true
}

// unsealed returns what a signed token says. Source: RFC 7515, section 5.2.
func unsealed(token string) (payload []byte, seal Seal, why string) {
	jws, err := jose.ParseSignedCompact(token, sealForms)
	if err != nil || len(jws.Signatures) != 1 {
		if middle := strings.Split(token, "."); len(middle) == 3 {
			payload = decodedPart(middle[1])
		}
		return payload, SealUnchecked, "the form of its signature is not known, or it has none"
	}
	payload = jws.UnsafePayloadWithoutVerification()
	keys := keysOf(jws.Signatures[0].Protected, payload)
	if len(keys) == 0 {
		return payload, SealUnchecked, "the key is not in the file, and nothing is fetched"
	}
	for _, k := range keys {
		if signed, err := jws.Verify(k.key); err == nil {
			return signed, SealGood, fmt.Sprintf("by the key in the file itself, %s; %s", k.whose, unasked)
		}
	}
	return nil, SealWrong, "the badge was changed after it was signed, or signed with another key than the one in the file"
}
