package journal_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/credit/scheme"
	"evidencevault/extract/paper"
	"evidencevault/journal"
)

func TestSetupMakesAVault(t *testing.T) {
	v := newVault(t)
	c, err := v.Certified(v.ctx, "", credit.Date{})
	if err != nil || c.Name != "demo" || c.Cycle.End.String() != "2028-12-31" || c.Scheme.Unit != "point" {
		t.Fatalf("%+v, %v", c, err)
	}
	drops, err := v.Catalog().Drops(v.ctx)
	if err != nil || len(drops) != 1 || !drops[0].Empty || drops[0].Dir != filepath.Join(v.Catalog().Dir(), "drop") {
		t.Fatalf("%+v, %v", drops, err)
	}
	st, err := v.Standing(v.ctx, credit.Date{}, "")
	if err != nil || len(st) != 1 || st[0].Target.String() != "40" || st[0].On.String() != "2026-06-01" {
		t.Fatalf("%+v, %v", st, err)
	}
	_, err = journal.Setup(v.ctx, v.dir, journal.SetupOptions{Holder: "Somebody Else", SchemeID: "demo", Start: credit.MustDate("2025-01-01")})
	if !errors.Is(err, journal.ErrVault) {
		t.Fatalf("a second set-up in the same folder: %v", err)
	}
}

func TestSetupFinishesOneThatWasStopped(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "vault")
	c, err := catalog.Create(t.Context(), dir, catalog.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Close(); err != nil {
		t.Fatal(err)
	}
	j, err := journal.Setup(t.Context(), dir, journal.SetupOptions{Holder: holder, SchemeID: "demo", Start: credit.MustDate("2025-01-01")})
	if err != nil {
		t.Fatal(err)
	}
	if st, err := j.Standing(t.Context(), credit.Date{}, ""); err != nil || len(st) != 1 {
		t.Errorf("%v, %v", st, err)
	}
	if err := j.Close(); err != nil {
		t.Fatal(err)
	}
}

func TestVaultWithoutItsKeyStillCounts(t *testing.T) {
	v := newVault(t)
	v.confirm(journal.ConfirmOptions{}, v.take("a.pdf", course("A", "2026-03-03")))
	p := v.take("b.pdf", course("B", "2026-03-04"))
	if err := os.Remove(filepath.Join(v.dir, "key")); err != nil {
		t.Fatal(err)
	}
	j, err := journal.Open(v.ctx, v.dir, journal.Options{Now: noon("2026-06-01")})
	if err != nil {
		t.Fatal(err)
	}
	defer func() {
		if err := j.Close(); err != nil {
			t.Error(err)
		}
	}()
	if st, err := j.Standing(v.ctx, credit.Date{}, ""); err != nil || st[0].Counted.String() != "1.75" {
		t.Errorf("standing: %v, %v", st, err)
	}
	if _, err := j.Confirm(v.ctx, []string{p}, journal.ConfirmOptions{}); !errors.Is(err, catalog.ErrKey) {
		t.Errorf("confirm without a key: %v", err)
	}
	if got := v.waits(); got != "P2 waiting" {
		t.Errorf("something was changed: %s", got)
	}
}

func TestSetupOfTheDropFolder(t *testing.T) {
	tests := []struct {
		name, why    string
		before       bool // the folder exists
		empty, keep  bool
		want, refuse bool
	}{
		{"made", "what setup made is emptied", false, false, false, true, false},
		{"found", "what was there is left as it is", true, false, false, false, false},
		{"made and kept", "chosen", false, false, true, false, false},
		{"found and emptied", "chosen", true, true, false, true, false},
		{"both", "a contradiction", true, true, true, false, true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			dir := t.TempDir()
			drop := filepath.Join(dir, "in")
			if tt.before {
				if err := os.Mkdir(drop, 0o700); err != nil {
					t.Fatal(err)
				}
			}
			j, err := journal.Setup(t.Context(), filepath.Join(dir, "vault"), journal.SetupOptions{Holder: holder, SchemeID: "demo",
				Start: credit.MustDate("2025-01-01"), Drop: drop, EmptyDrop: tt.empty, KeepDropped: tt.keep})
			if tt.refuse {
				if !errors.Is(err, journal.ErrVault) {
					t.Fatalf("%s: %v", tt.why, err)
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			drops, err := j.Catalog().Drops(t.Context())
			if err != nil || len(drops) != 1 || drops[0].Empty != tt.want || drops[0].Dir != drop {
				t.Errorf("%s: %+v, %v", tt.why, drops, err)
			}
			if err := j.Close(); err != nil {
				t.Fatal(err)
			}
		})
	}
}

func TestSetupRefusesBeforeItMakesAnything(t *testing.T) {
	start := credit.MustDate("2025-01-01")
	tests := []struct {
		name string
		give journal.SetupOptions
		want string
	}{
		{"no holder", journal.SetupOptions{SchemeID: "demo", Start: start}, "--holder"},
		{"no scheme", journal.SetupOptions{Holder: holder, Start: start}, "--scheme"},
		{"unknown scheme", journal.SetupOptions{Holder: holder, SchemeID: "nowhere", Start: start}, "scheme list"},
		{"no start", journal.SetupOptions{Holder: holder, SchemeID: "demo"}, "--start"},
		{"ends first", journal.SetupOptions{Holder: holder, SchemeID: "demo", Start: start, End: start.AddDays(-1)}, "ends before it begins"},
		{"bad scheme", journal.SetupOptions{Holder: holder, Scheme: journal.SchemeFile{Name: "own.toml", Data: []byte("scheme = 1\nid = \"own\"\nunit = \"point\"\nshine = 3\n")}, Start: start}, "own.toml:"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "vault")
			_, err := journal.Setup(t.Context(), dir, tt.give)
			if err == nil || !strings.Contains(err.Error(), tt.want) {
				t.Fatalf("got %v, want a message with %q", err, tt.want)
			}
			if bad := new(journal.SchemeError); errors.As(err, &bad) && len(bad.Problems) != 2 {
				t.Errorf("want both problems, got %v", bad.Problems)
			}
			if _, err := os.Stat(dir); !errors.Is(err, os.ErrNotExist) {
				t.Errorf("a folder was made: %v", err)
			}
		})
	}
}

// TestRulesComeFromTheVault opens a vault whose scheme is not the one that ships under
// the same id.
func TestRulesComeFromTheVault(t *testing.T) {
	shipped, err := scheme.Load("demo")
	if err != nil {
		t.Fatal(err)
	}
	own := strings.Replace(string(shipped.Data), `{ divide = "4" }`, `{ divide = "7" }`, 1)
	v := setUp(t, journal.SetupOptions{Scheme: journal.SchemeFile{Name: "/elsewhere/our rules.toml", Data: []byte(own)}, Certification: "inspector"})
	v.confirm(journal.ConfirmOptions{}, v.take("a.pdf", course("A", "2026-03-03")))
	if got := v.counted(); got != "1" {
		t.Fatalf("counted %s, want 7 h ÷ 7", got)
	}
	e, err := v.Explain(v.ctx, journal.ExplainFilter{IDs: []string{"C1"}})
	if err != nil || e[0].Steps[0].File != "our rules.toml" || e[0].Certification != "inspector" {
		t.Fatalf("%+v, %v", e, err)
	}
}

func TestTwoCertifications(t *testing.T) {
	v := newVault(t)
	shipped, err := scheme.Load("demo")
	if err != nil {
		t.Fatal(err)
	}
	other := strings.Replace(string(shipped.Data), `id = "demo"`, `id = "other"`, 1)
	c, err := v.CertificationAdd(v.ctx, journal.CertificationOptions{Scheme: journal.SchemeFile{Name: "other.toml", Data: []byte(other)}, Start: credit.MustDate("2026-01-01"), Number: "77"})
	if err != nil || c.Name != "other" || c.Cycle.Start.String() != "2026-01-01" || c.Facts["number"] != "77" {
		t.Fatalf("%+v, %v", c, err)
	}
	if _, err := v.CertificationAdd(v.ctx, journal.CertificationOptions{SchemeID: "demo", Start: credit.MustDate("2026-01-01")}); !errors.Is(err, journal.ErrCertification) {
		t.Fatalf("the name is taken: %v", err)
	}
	p := v.take("a.pdf", course("A", "2026-03-03"))
	if _, err := v.Confirm(v.ctx, []string{p}, journal.ConfirmOptions{}); !errors.Is(err, journal.ErrCertification) || !strings.Contains(err.Error(), "demo, other") {
		t.Fatalf("which one is meant is not guessed: %v", err)
	}
	v.confirm(journal.ConfirmOptions{Certification: "demo"}, p)
	r, err := v.AddClaimFor(v.ctx, "A1", "other", "")
	if err != nil || r.Claim.ID != "C2" || r.Claim.Activity != "A1" || r.Claim.Certification != "other" || r.Claim.Counted.String() != "1.75" || !r.Claim.Proven {
		t.Fatalf("%+v, %v", r, err)
	}
	if _, err := v.AddClaimFor(v.ctx, "C1", "other", ""); !errors.Is(err, journal.ErrNotWaiting) || !strings.Contains(err.Error(), "C2") {
		t.Fatalf("claimed twice: %v", err)
	}
	st, err := v.Standing(v.ctx, credit.Date{}, "")
	if err != nil || len(st) != 2 || st[0].Certification != "demo" || st[1].Counted.String() != "1.75" {
		t.Fatalf("%+v, %v", st, err)
	}
	if st, err = v.Standing(v.ctx, credit.Date{}, "other"); err != nil || len(st) != 1 {
		t.Fatalf("%+v, %v", st, err)
	}
	if list, err := v.Claims(v.ctx, journal.ClaimsFilter{Certification: "other"}); err != nil || len(list) != 1 || list[0].ID != "C2" {
		t.Fatalf("%+v, %v", list, err)
	}
	v.undo("C2")
	if list, err := v.Claims(v.ctx, journal.ClaimsFilter{}); err != nil || len(list) != 1 || list[0].ID != "C1" {
		t.Fatalf("the first claim stays: %+v, %v", list, err)
	}
}

func TestFormerName(t *testing.T) {
	v := newVault(t)
	p := v.take("a.pdf", with(course("A", "2026-03-03"), paper.FieldAttendee, "Mara Oldname"))
	if _, err := v.Confirm(v.ctx, []string{p}, journal.ConfirmOptions{}); !errors.Is(err, journal.ErrOpen) {
		t.Fatal(err)
	}
	if err := v.SetFact(v.ctx, journal.FormerName, "Mara Oldname", credit.Date{}); err != nil {
		t.Fatal(err)
	}
	v.confirm(journal.ConfirmOptions{}, p)
}

// TestFormerNameSettlesAQuestion has a reading that was made before the name was told.
func TestFormerNameSettlesAQuestion(t *testing.T) {
	v := newVault(t)
	p := v.take("a.pdf", asking(course("A", "2026-03-03"), paper.FieldAttendee, "Is Mara Oldname you?", "Mara Oldname", holder))
	if _, err := v.Confirm(v.ctx, []string{p}, journal.ConfirmOptions{}); !errors.Is(err, journal.ErrOpen) {
		t.Fatal(err)
	}
	if err := v.SetFact(v.ctx, journal.FormerName, "Mara Oldname", credit.Date{}); err != nil {
		t.Fatal(err)
	}
	r := v.confirm(journal.ConfirmOptions{}, p)
	if got := r.Claims[0].Fields["attendee"]; got != "Mara Oldname" {
		t.Fatalf("attendee %q, want what the paper says", got)
	}
}

func TestFactsHoldFromTheirDay(t *testing.T) {
	v := newVault(t)
	if err := v.SetFact(v.ctx, "part_time", "true", credit.MustDate("2026-07-01")); err != nil {
		t.Fatal(err)
	}
	if err := v.SetFact(v.ctx, "Part Time", "true", credit.Date{}); !errors.Is(err, journal.ErrField) {
		t.Fatalf("a name with a blank: %v", err)
	}
	for on, want := range map[string]bool{"2026-06-30": false, "2026-07-01": true} {
		c, err := v.Certified(v.ctx, "", credit.MustDate(on))
		if err != nil || c.Facts.Holds("part_time") != want {
			t.Errorf("on %s: %v, %v", on, c.Facts, err)
		}
	}
}
