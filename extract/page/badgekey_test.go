package page

import (
	"crypto/ecdsa"
	"crypto/ed25519"
	"crypto/rand"
	"crypto/rsa"
	"crypto/x509"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"encoding/pem"
	"fmt"
	"strings"
	"testing"

	"github.com/go-jose/go-jose/v4"
)

// vectors are ids that are keys, with the key in the form of RFC 7517. Those of did:key are
// test vectors of github.com/w3c-ccg/did-method-key at 1d340287a73f6ad5acc477f0900efec50df44a87
// (nist-curves.json), 801b0a91ce5af882c389ca399fa1fd1a75229c09 (ed25519-x25519.json, from
// its seed) and 398508d7e2eda1da132f69b6490b7f0c4c349561 (rsa.json), W3C Software and
// Document Licence; that of did:jwk is the example of the method's specification.
var vectors = []struct{ id, private, public string }{
	{"did:key:zDnaerx9CtbPJ1q36T5Ln5wYt3MQYeGRG5ehnPAmxcf5mDZpv",
		`{"kty":"EC","crv":"P-256","x":"igrFmi0whuihKnj9R3Om1SoMph72wUGeFaBbzG2vzns","y":"efsX5b10x8yjyrj4ny3pGfLcY7Xby1KzgqOdqnsrJIM","d":"gPh-VvVS8MbvKQ9LSVVmfnxnKjHn4Tqj0bmbpehRlpc"}`, ""},
	{"did:key:zDnaerDaTF5BXEavCrfRZEk316dpbLsfPDZ3WJ5hRTPFU2169",
		`{"kty":"EC","crv":"P-256","x":"fyNYMN0976ci7xqiSdag3buk-ZCwgXU4kz9XNkBlNUI","y":"hW2ojTNfH7Jbi8--CJUo3OCbH3y5n91g-IMA9MLMbTU","d":"YjRs6vNvw4sYrzVVY8ipkEpDAD9PFqw1sUnvPRMA-WI"}`, ""},
	{"did:key:z82Lm1MpAkeJcix9K8TMiLd5NMAhnwkjjCBeWHXyu3U4oT2MVJJKXkcVBgjGhnLBn2Kaau9",
		`{"kty":"EC","crv":"P-384","x":"lInTxl8fjLKp_UCrxI0WDklahi-7-_6JbtiHjiRvMvhedhKVdHBfi2HCY8t_QJyc","y":"y6N1IC-2mXxHreETBW7K3mBcw0qGr3CWHCs-yl09yCQRLcyfGv7XhqAngHOu51Zv","d":"hAyGZNj9031guBCdpAOaZkO-E5m-LKLYnMIq0-msrp8JLctseaOeNTHmP3uKVWwX"}`, ""},
	{"did:key:z2J9gaYxrKVpdoG9A4gRnmpnRCcxU6agDtFVVBVdn1JedouoZN7SzcyREXXzWgt3gGiwpoHq7K68X4m32D8HgzG8wv3sY5j7",
		`{"kty":"EC","crv":"P-521","x":"ASUHPMyichQ0QbHZ9ofNx_l4y7luncn5feKLo3OpJ2nSbZoC7mffolj5uy7s6KSKXFmnNWxGJ42IOrjZ47qqwqyS","y":"AW9ziIC4ZQQVSNmLlp59yYKrjRY0_VqO-GOIYQ9tYpPraBKUloEId6cI_vynCzlZWZtWpgOM3HPhYEgawQ703RjC","d":"AHwRaNaGs0jkj_pT6PK2aHep7dJK-yxyoL2bIfVRAceq1baxoiFDo3W14c8E2YZn1k5S53r4a11flhQdaB5guJ_X"}`, ""},
	{"did:key:z4MXj1wBzi9jUstyPMS4jQqB6KdJaiatPkAtVtGc6bQEQEEsKTic4G7Rou3iBf9vPmT5dbkm9qsZsuVNjq8HCuW1w24nhBFGkRE4cd2Uf2tfrB3N7h4mnyPp1BF3ZttHTYv3DLUPi1zMdkULiow3M1GfXkoC6DoxDUm1jmN6GBj22SjVsr6dxezRVQc7aj9TxE7JLbMH1wh5X3kA58H3DFW8rnYMakFGbca5CB2Jf6CnGQZmL7o5uJAdTwXfy2iiiyPxXEGerMhHwhjTA1mKYobyk2CpeEcmvynADfNZ5MBvcCS7m3XkFCMNUYBS9NQ3fze6vMSUPsNa6GVYmKx2x6JrdEjCk3qRMMmyjnjCMfR4pXbRMZa3i",
		"", `{"kty":"RSA","n":"sbX82NTV6IylxCh7MfV4hlyvaniCajuP97GyOqSvTmoEdBOflFvZ06kR_9D6ctt45Fk6hskfnag2GG69NALVH2o4RCR6tQiLRpKcMRtDYE_thEmfBvDzm_VVkOIYfxu-Ipuo9J_S5XDNDjczx2v-3oDh5-CIHkU46hvFeCvpUS-L8TJSbgX0kjVk_m4eIb9wh63rtmD6Uz_KBtCo5mmR4TEtcLZKYdqMp3wCjN-TlgHiz_4oVXWbHUefCEe8rFnX1iQnpDHU49_SaXQoud1jCaexFn25n-Aa8f8bc5Vm-5SeRwidHa6ErvEhTvf1dz6GoNPp2iRvm-wJ1gxwWJEYPQ","e":"AQAB"}`},
	{"did:jwk:eyJjcnYiOiJQLTI1NiIsImt0eSI6IkVDIiwieCI6ImFjYklRaXVNczNpOF91c3pFakoydHBUdFJNNEVVM3l6OTFQSDZDZEgyVjAiLCJ5IjoiX0tjeUxqOXZXTXB0bm1LdG00NkdxRHo4d2Y3NEk1TEtncmwyR3pIM25TRSJ9",
		"", `{"kty":"EC","crv":"P-256","x":"acbIQiuMs3i8_uszEjJ2tpTtRM4EU3yz91PH6CdH2V0","y":"_KcyLj9vWMptnmKtm46GqDz8wf74I5LKgrl2GzH3nSE"}`},
}

// seeds25519 are seeds and the ids of their public keys, from the same vectors.
var seeds25519 = map[string]string{
	"0000000000000000000000000000000000000000000000000000000000000000": "did:key:z6MkiTBz1ymuepAQ4HEHYSF1H8quG5GLVVQR3djdX3mDooWp",
	"0000000000000000000000000000000000000000000000000000000000000001": "did:key:z6MkjchhfUsD6mmvni8mCdXHw216Xrm9bQe2mBH1P5RDjVJG",
	"0000000000000000000000000000000000000000000000000000000000000004": "did:key:z6MkwW6aqMnjgrhJXFUko3NnZPGzVpkNzhYK7yEhnsibmLwL",
}

func jwk(t *testing.T, text string) *jose.JSONWebKey {
	t.Helper()
	var key jose.JSONWebKey
	if err := json.Unmarshal([]byte(text), &key); err != nil {
		t.Fatal(err)
	}
	return &key
}

func print256(t *testing.T, key any) string {
	t.Helper()
	one, ok := key.(*jose.JSONWebKey)
	if !ok {
		one = &jose.JSONWebKey{Key: key}
	}
	return thumbprint(one)
}

func TestKeysThatAreIDs(t *testing.T) {
	for _, v := range vectors {
		want := v.public
		if want == "" {
			want = v.private
		}
		key, ok := didKey(v.id + "#0")
		if !ok || print256(t, key) != print256(t, jwk(t, want).Public().Key) {
			t.Errorf("%s: %v, want %s", v.id, key, want)
		}
	}
	for seed, id := range seeds25519 {
		raw, err := hex.DecodeString(seed)
		if err != nil {
			t.Fatal(err)
		}
		if key, ok := didKey(id); !ok || !ed25519.PrivateKey(ed25519.NewKeyFromSeed(raw)).Public().(ed25519.PublicKey).Equal(key.(ed25519.PublicKey)) {
			t.Errorf("%s: %v, want the key of seed %s", id, key, seed)
		}
	}
	for _, id := range []string{"", "did:key:", "did:key:z", "did:key:z0OIl", "did:key:z6MkiTBz1ymuepAQ4HEHYSF1H8quG5GLVVQR3djdX3mDooW", "did:web:example.org", "did:jwk:e30", "did:key:z" + strings.Repeat("6", 3000),
		"did:jwk:" + base64.RawURLEncoding.EncodeToString([]byte(vectors[0].private))} {
		if key, ok := didKey(id); ok {
			t.Errorf("%.60q: %v, want no key", id, key)
		}
	}
}

// credential is a badge of an invented school, whose issuer member is as given.
func credential(issuer string) string {
	return fmt.Sprintf(`{"@context":["https://www.w3.org/ns/credentials/v2"],"type":["VerifiableCredential","OpenBadgeCredential"],"issuer":%s,"awardedDate":"2026-03-03",
"credentialSubject":{"type":["AchievementSubject"],"achievement":{"type":["Achievement"],"achievementType":"Course","name":"Rope Inspection"}}}`, issuer)
}

func signed(t *testing.T, alg jose.SignatureAlgorithm, key any, head map[jose.HeaderKey]any, payload string) string {
	t.Helper()
	s, err := jose.NewSigner(jose.SigningKey{Algorithm: alg, Key: key}, &jose.SignerOptions{ExtraHeaders: head})
	if err != nil {
		t.Fatal(err)
	}
	jws, err := s.Sign([]byte(payload))
	if err != nil {
		t.Fatal(err)
	}
	token, err := jws.CompactSerialize()
	if err != nil {
		t.Fatal(err)
	}
	return token
}

// A key that the file carries is used, wherever it stands there, and is called by whose it
// is said to be; with another key, or a changed payload, the signature is wrong.
func TestSignedByAKeyInTheFile(t *testing.T) {
	ec := jwk(t, vectors[0].private).Key.(*ecdsa.PrivateKey)
	ec521 := jwk(t, vectors[3].private).Key
	ed := ed25519.NewKeyFromSeed(make([]byte, 32))
	const edID = "did:key:z6MkiTBz1ymuepAQ4HEHYSF1H8quG5GLVVQR3djdX3mDooWp"
	rsaKey, err := rsa.GenerateKey(rand.Reader, 2048)
	if err != nil {
		t.Fatal(err)
	}
	der, err := x509.MarshalPKIXPublicKey(&rsaKey.PublicKey)
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(string(pem.EncodeToMemory(&pem.Block{Type: "PUBLIC KEY", Bytes: der})))
	if err != nil {
		t.Fatal(err)
	}
	public, err := json.Marshal(jose.JSONWebKey{Key: &ec.PublicKey})
	if err != nil {
		t.Fatal(err)
	}
	didJWK := "did:jwk:" + base64.RawURLEncoding.EncodeToString(public)
	kid := func(id string) map[jose.HeaderKey]any { return map[jose.HeaderKey]any{"kid": id} }
	school := `{"id":"https://school.example/1","name":"Fernlea School"%s}`
	owner := `{"id":"https://school.example/keys/1","type":"CryptographicKey","owner":"https://school.example/1","publicKeyPem":` + string(text) + `}`
	tests := []struct {
		name, token string
		seal        Seal
		why         string
	}{
		{"did:key as key id", signed(t, jose.EdDSA, ed, kid(edID+"#"+edID[8:]), credential(fmt.Sprintf(school, ""))), SealGood, edID + ", which is not the issuer's id"},
		{"did:key as issuer", signed(t, jose.EdDSA, ed, nil, credential(`"`+edID+`"`)), SealGood, "which is the issuer's id, " + edID},
		{"did:key as key id and issuer", signed(t, jose.EdDSA, ed, kid(edID+"#0"), credential(`{"id":"`+edID+`","name":"Fernlea School"}`)), SealGood, "which is the issuer's id"},
		{"did:jwk", signed(t, jose.ES256, ec, kid(didJWK+"#0"), credential(fmt.Sprintf(school, ""))), SealGood, "which is not the issuer's id"},
		{"P-521", signed(t, jose.ES512, ec521, kid(vectors[3].id), credential(fmt.Sprintf(school, ""))), SealGood, "which is not"},
		{"PEM of the issuer", signed(t, jose.RS256, rsaKey, kid("https://school.example/keys/1"), credential(fmt.Sprintf(school, `,"publicKey":`+owner))), SealGood, "as the key of https://school.example/1"},
		{"PEM of a signed badge", signed(t, jose.PS256, rsaKey, nil, `{"type":"Assertion","badge":{"name":"Rope Inspection","issuer":{"name":"Fernlea School"}},"verification":{"type":"SignedBadge","creator":`+owner+`}}`), SealGood, "as the key of https://school.example/1"},
		{"JWK of the issuer", signed(t, jose.ES256, ec, kid("#k1"), credential(fmt.Sprintf(school, `,"verificationMethod":[{"id":"https://school.example/1#k1","publicKeyJwk":`+string(public)+`}]`))), SealGood, "which the file gives as the key of https://school.example/1#k1"},
		{"multikey of the issuer", signed(t, jose.EdDSA, ed, nil, credential(fmt.Sprintf(school, `,"verificationMethod":[{"publicKeyMultibase":"`+edID[8:]+`"}]`))), SealGood, "without a name"},
		{"another key than the id", signed(t, jose.EdDSA, ed, kid(seeds25519["0000000000000000000000000000000000000000000000000000000000000001"]), credential(fmt.Sprintf(school, ""))), SealWrong, "another key"},
		{"another key than the issuer's", signed(t, jose.RS256, rsaKey, nil, credential(`"`+edID+`"`)), SealWrong, "another key"},
		{"a key under another id", signed(t, jose.RS256, rsaKey, kid("https://school.example/keys/2"), credential(fmt.Sprintf(school, `,"publicKey":`+owner))), SealUnchecked, "not in the file"},
		{"a key by address", signed(t, jose.RS256, rsaKey, kid("https://school.example/keys/1"), credential(fmt.Sprintf(school, `,"publicKey":"https://school.example/keys/1"`))), SealUnchecked, "not in the file"},
	}
	for _, tt := range tests {
		d := readBadge([]byte(tt.token), "application/jwt")
		if tt.seal == SealWrong {
			if d.Badge != nil || d.Trouble != Unreadable || !strings.Contains(d.Reason, tt.why) {
				t.Errorf("%s: %+v, want it refused: %s", tt.name, d, tt.why)
			}
			continue
		}
		if d.Badge == nil || d.Badge.Seal != tt.seal || !strings.Contains(d.Badge.Why, tt.why) || tt.seal == SealGood && !strings.HasSuffix(d.Badge.Why, unasked) {
			t.Errorf("%s: %+v %s, want %s: %s", tt.name, d.Badge, d.Reason, tt.seal, tt.why)
		}
		parts := strings.Split(tt.token, ".")
		parts[1] = base64.RawURLEncoding.EncodeToString([]byte(strings.Replace(string(decodedPart(parts[1])), "Rope", "Hope", 1)))
		if d := readBadge([]byte(strings.Join(parts, ".")), "application/jwt"); tt.seal == SealGood && (d.Badge != nil || d.Trouble != Unreadable) {
			t.Errorf("%s, changed: %+v, want it refused", tt.name, d)
		}
	}
}
