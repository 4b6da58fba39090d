package scheme_test

import (
	"encoding/json"
	"testing"

	"evidencevault/credit"
	"evidencevault/credit/scheme"
)

func TestSmoke(t *testing.T) {
	s, err := scheme.Load("demo")
	if err != nil {
		t.Fatal(err)
	}
	in, bad := scheme.ParseClaims("c.json", []byte(`{"cycle":{"start":"2024-03-01","end":"2028-02-29"},"on":"2026-11-25","claims":[
	{"id":"C1","category":"course","end_date":"2025-01-01","duration_minutes":6000},
	{"id":"C2","category":"online","end_date":"2025-01-01","duration_minutes":3600},
	{"id":"C3","category":"study","end_date":"2025-02-01","duration_minutes":1800},
	{"id":"C4","category":"practice","start_date":"2019-01-01","end_date":"2029-01-01"},
	{"id":"C5","category":"practice","end_date":"2020-01-01"},
	{"id":"C6","category":"meeting","end_date":"2025-01-01"}]}`))
	if len(bad) > 0 {
		t.Fatal(bad)
	}
	st, err := credit.Calculate(s.Scheme, in)
	if err != nil {
		t.Fatal(err)
	}
	b, _ := json.MarshalIndent(credit.Calc{Statement: st}, "", " ")
	t.Log(string(b))
	for _, l := range st.ExplainAll() {
		t.Log(l)
	}
}
