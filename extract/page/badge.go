package page

import (
	"bytes"
	"encoding/json"
	"fmt"

	"github.com/go-jose/go-jose/v4"
)

// Badge is what a digital badge or credential states. What it does not state is "".
// Sources: Open Badges 2.0, section 4, and 3.0, section B.1 (1EdTech); Verifiable
// Credentials Data Model 2.0, section 4, and 1.1 (W3C).
type Badge struct {
	Title, Provider, Attendee string
	Type                      string // of the achievement: Course, Certification …
	Start, End, Issued        string // as written there
	Credits                   string // a number without a unit
	Text                      []string
	Seal                      Seal
	Why                       string // what the seal rests on, or why it was not checked
}

// Seal says what became of a badge's signature. The zero Seal is none of these.
type Seal string

// What a signature can be found to be.
const (
	SealGood      Seal = "good"        // by a key in the file itself; that it is the issuer's nobody has checked
	SealWrong     Seal = "wrong"       // the badge was changed after it was signed
	SealUnchecked Seal = "not checked" // Badge.Why says why
)

// sealForms are the forms of signature with a public key. Those with a shared secret,
// and "none", prove nothing. Source: RFC 7518, section 3.1; RFC 8037, section 3.1.
var sealForms = []jose.SignatureAlgorithm{jose.RS256, jose.RS384, jose.RS512, jose.PS256, jose.PS384, jose.PS512, jose.ES256, jose.ES384, jose.ES512, jose.EdDSA}

// readBadge reads data in JSON form, signed or not. Nothing is fetched: what the badge
// names only by an address stays open.
func readBadge(b []byte, kind string) Document {
	if len(b) > textBytes {
		return tooLarge("it is a badge of more than 8 MiB")
	}
	b = bytes.TrimSpace(bytes.TrimPrefix(b, []byte("\xef\xbb\xbf")))
	seal, why := SealUnchecked, ""
	if signedToken.Match(b) {
		kind = "application/jwt"
		b, seal, why = unsealed(string(b))
		if seal == SealWrong {
			return Document{Trouble: Unreadable, Reason: "its signature is wrong: " + why + "; ask the issuer for it again"}
		}
	}
	dec := json.NewDecoder(bytes.NewReader(b))
	dec.UseNumber()
	var whole any
	if err := dec.Decode(&whole); err != nil {
		return refuse(kind, b)
	}
	o := object(whole)
	if inner := object(o["vc"]); kind == "application/jwt" && inner != nil {
		o = inner // data model 1.1, section 6.3.1
	}
	switch {
	case isA(o, "VerifiablePresentation"):
		return Document{Trouble: Other, Reason: "it presents credentials of one person; save each credential by itself and drop it; the original is kept"}
	case !isA(o, "VerifiableCredential") && !isA(o, "Assertion") && (o["badge"] == nil || o["recipient"] == nil):
		return refuse(kind, b)
	}
	badge := stated(o)
	if badge.Title == "" && badge.Provider == "" {
		return Document{Trouble: Other, Reason: "it is a badge that names what it is for only by an address, and nothing is fetched; open the badge's page, " + wayOut}
	}
	if badge.Seal, badge.Why = seal, why; seal == SealUnchecked && why == "" {
		badge.Why = unsealedWhy(o)
	}
	return badge.document()
}

// unsealedWhy says why a badge that is no signed token was not checked.
func unsealedWhy(o map[string]any) string {
	if proofs := listOf(o["proof"]); len(proofs) > 0 {
		form := said(object(proofs[0])["cryptosuite"])
		if form == "" {
			form = said(object(proofs[0])["type"])
		}
		return fmt.Sprintf("its signature (%s) is over the canonical form of linked data, which is not worked out here", plain(form, 60))
	}
	if isA(o, "Assertion") || o["badge"] != nil {
		return "it is vouched for by its address only, and nothing is fetched"
	}
	return "it has none"
}

// stated takes out what a badge says, of whichever version.
func stated(o map[string]any) Badge {
	subject := object(first(o["credentialSubject"]))
	class := object(o["badge"])
	if class == nil {
		class = object(first(subject["achievement"]))
	}
	issuer := first(o["issuer"])
	if issuer == nil {
		issuer = class["issuer"]
	}
	b := Badge{
		Title: either(said(class["name"]), said(o["name"]), said(object(subject["degree"])["name"])), Provider: said(object(issuer)["name"]),
		Attendee: attendeeOf(subject), Type: said(first(class["achievementType"])),
		Start: said(subject["activityStartDate"]), End: said(subject["activityEndDate"]),
		Issued:  either(said(o["awardedDate"]), said(o["issuedOn"]), said(o["issued_on"]), said(o["issuanceDate"]), said(o["validFrom"])),
		Credits: said(subject["creditsEarned"]),
	}
	if b.Attendee == "" {
		b.Attendee = said(object(o["recipient"])["name"])
	}
	b.Text = append(b.Text, said(class["description"]), said(subject["narrative"]), said(o["narrative"]), said(object(class["criteria"])["narrative"]))
	for _, e := range listOf(o["evidence"]) {
		b.Text = append(b.Text, said(object(e)["narrative"]))
	}
	for label, key := range map[string]string{"Expires": "expires", "Valid until": "validUntil"} {
		if s := said(o[key]); s != "" {
			b.Text = append(b.Text, label+": "+s)
		}
	}
	return b
}

// attendeeOf returns the name of the person. An address or its hash is no name.
func attendeeOf(subject map[string]any) string {
	for _, id := range listOf(subject["identifier"]) {
		one := object(id)
		if said(one["identityType"]) == "name" && one["hashed"] == false {
			return said(one["identityHash"])
		}
	}
	return said(subject["name"])
}

// document shows a badge as lines.
func (b Badge) document() Document {
	lines := []string{"Digital badge"}
	for _, l := range b.Labelled() {
		lines = append(lines, l[0]+": "+l[1])
	}
	for _, text := range b.Text {
		if text != "" {
			lines = append(lines, text)
		}
	}
	d := textDocument(append(lines, "Signature: "+string(b.Seal)+": "+b.Why))
	d.Title, d.Badge = b.Title, &b
	return d
}

// Labelled returns the badge's values with the labels under which its lines show them.
func (b Badge) Labelled() [][2]string {
	var out [][2]string
	for _, l := range [][2]string{{"Title", b.Title}, {"Provider", b.Provider}, {"Attendee", b.Attendee}, {"Type", b.Type},
		{"Start", b.Start}, {"End", b.End}, {"Issued", b.Issued}, {"Credits", b.Credits}} {
		if l[1] != "" {
			out = append(out, l)
		}
	}
	return out
}

func object(v any) map[string]any {
	o, _ := v.(map[string]any) // what is no object has no members
	return o
}

func listOf(v any) []any {
	switch v := v.(type) {
	case nil:
		return nil
	case []any:
		return v
	}
	return []any{v}
}

// first returns the only one of a list; of several none is meant more than another.
func first(v any) any {
	if list := listOf(v); len(list) == 1 {
		return list[0]
	}
	return nil
}

// said returns v as text: a string, a number, or a string with its language.
func said(v any) string {
	switch v := v.(type) {
	case string:
		return plain(v, 2000)
	case json.Number:
		return plain(v.String(), 40)
	case map[string]any:
		s, _ := v["@value"].(string)
		return plain(s, 2000)
	case []any:
		if len(v) > 0 {
			return said(v[0])
		}
	}
	return ""
}

func either(texts ...string) string {
	for _, s := range texts {
		if s != "" {
			return s
		}
	}
	return ""
}

func isA(o map[string]any, kind string) bool {
	types := o["type"]
	if types == nil {
		types = o["@type"]
	}
	for _, t := range listOf(types) {
		if t == kind {
			return true
		}
	}
	return false
}
