package credit_test

import (
	"bytes"
	"encoding/json"
	"testing"

	"pgregory.net/rapid"

	"evidencevault/credit"
)

// A statement that was printed and read back prints the same again.
func TestRecordedStatementPrintsTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawScheme(t)
		in := credit.Input{Certification: "x", Cycle: cycle, On: cycle.End.AddDays(-rapid.IntRange(0, 400).Draw(t, "before"))}
		for i := range rapid.IntRange(0, 5).Draw(t, "claims") {
			in.Claims = append(in.Claims, drawClaim(t, "C"+string(rune('1'+i))))
		}
		st, err := credit.Calculate(s, in)
		if err != nil {
			t.Fatal(err)
		}
		printed, err := json.Marshal(credit.Calc{Statement: st, Explained: true})
		if err != nil {
			t.Fatal(err)
		}
		back, err := credit.ParseRecorded(printed)
		if err != nil {
			t.Fatal(err)
		}
		plain, err := json.Marshal(st)
		if err != nil {
			t.Fatal(err)
		}
		again, err := json.Marshal(back.Statement)
		if err != nil || !bytes.Equal(plain, again) {
			t.Fatalf("%v\n%s\nwas\n%s", err, again, plain)
		}
		if len(back.Lines) == 0 || len(back.Derivations) != len(st.Derivations) {
			t.Fatalf("%d lines, %d derivations of %d", len(back.Lines), len(back.Derivations), len(st.Derivations))
		}
	})
}
