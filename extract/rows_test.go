package extract

import "testing"

func TestOrdinalsThatWereMisread(t *testing.T) {
	for give, want := range map[string]string{
		"Sth": "5th", "lst": "1st", "2Ist,": "21st,", "Ist": "Ist", "2lst": "21st", "Znd": "2nd", "3Oth": "30th", "5th": "5th",
		"South": "South", "list": "list", "Ind": "Ind", "Smith": "Smith",
	} {
		if got := counted(give); got != want {
			t.Errorf("%q became %q, want %q", give, got, want)
		}
	}
}
