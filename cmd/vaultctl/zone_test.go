package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// zonesAndLocales are places whose clocks and customs have led programs astray: a day
// ahead, a day behind, half hours, a day that never was, none, and a wrong name; letters
// that change case in another way, and another way to write numbers and days.
var zonesAndLocales = [][]string{
	{"TZ=Pacific/Kiritimati"}, {"TZ=Pacific/Pago_Pago"}, {"TZ=Europe/Berlin"}, {"TZ=America/St_Johns"}, {"TZ=Pacific/Apia"}, {"TZ=No/Where"}, {},
	{"LC_ALL=de_DE.UTF-8"}, {"LC_ALL=tr_TR.UTF-8"}, {"LC_ALL=C"}, {"LC_ALL=ar_EG"},
}

const zoneClaims = `{"cycle": {"start": "2011-12-30", "end": "2015-12-29"}, "on": "2011-12-31", "claims": [
 {"id": "a", "category": "course", "end_date": "2011-12-30", "duration_minutes": 840},
 {"id": "b", "category": "practice", "start_date": "2011-03-27", "end_date": "2012-10-28"}]}`

// TestSameBytesInEveryZone runs the built program once in each zone and locale.
func TestSameBytesInEveryZone(t *testing.T) {
	dir := t.TempDir()
	claims := filepath.Join(dir, "claims.json")
	if err := os.WriteFile(claims, []byte(zoneClaims), 0o600); err != nil {
		t.Fatal(err)
	}
	vault := filepath.Join(dir, "vault")
	run := func(env []string, args ...string) []byte {
		t.Helper()
		c := exec.CommandContext(t.Context(), filepath.Join(programs, "vaultctl"), args...)
		c.Env = append([]string{"HOME=" + dir, "PATH=" + os.Getenv("PATH"), "EVIDENCE_VAULT_DIR=" + vault}, env...)
		var errs bytes.Buffer
		c.Stderr = &errs
		out, err := c.Output()
		if err != nil {
			t.Fatalf("%v %v: %v: %s", env, args, err, errs.String())
		}
		return out
	}
	run(nil, "setup", "--holder", "Mirela Tannhof", "--scheme", "demo", "--start", "2011-12-30")
	run(nil, "claim", "add", "--category", "course", "--set", "title=Ropes", "--set", "end_date=2011-12-30", "--set", "duration_minutes=840")
	for _, args := range [][]string{
		{"calc", "--scheme", "demo", "--claims", claims, "--explain"},
		{"calc", "--scheme", "demo", "--claims", claims, "--explain", "--json"},
		{"standing", "--on", "2011-12-31"},
		{"standing", "--on", "2011-12-30", "--json"},
		{"explain", "C1", "--on", "2011-12-31"},
		{"explain", "--json", "--on", "2015-12-30"},
	} {
		want := run([]string{"TZ=UTC"}, args...)
		if len(want) < 100 {
			t.Errorf("%v says too little: %s", args, want)
		}
		for _, env := range zonesAndLocales {
			if got := run(env, args...); !bytes.Equal(got, want) {
				t.Errorf("%v differs under %v:\n%s\nwant\n%s", args, env, got, want)
			}
		}
	}
}
