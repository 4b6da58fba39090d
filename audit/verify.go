package audit

import (
	"context"
	"os"
	"path/filepath"
	"strings"

	"evidencevault/audit/bag"
	"evidencevault/catalog"
)

// Report is what verify found.
type Report struct {
	Evidence int       `json:"evidence"` // files that are known to the catalog
	Events   int       `json:"events"`   // entries of the log
	Notes    []string  `json:"notes"`    // what is in force here; no finding
	Findings []Finding `json:"findings"` // what is wrong
}

// Finding is one thing that is wrong, with the way out.
type Finding struct{ catalog.Finding }

// String prints "what where: why; mend (claims …)".
func (f Finding) String() string {
	s := f.What + " " + f.Where + ": " + f.Why
	if f.Mend != "" {
		s += "; " + f.Mend
	}
	if len(f.Claims) > 0 {
		s += " (touches " + strings.Join(f.Claims, " ") + ")"
	}
	return s
}

// Verify checks the vault in dir and changes nothing. notes are put into the report
// as they are. The error says that it could not be checked to the end.
func Verify(ctx context.Context, dir string, notes []string) (report Report, err error) {
	cat, err := catalog.Open(ctx, dir, catalog.Options{ReadOnly: true})
	if err != nil {
		return Report{}, err
	}
	defer func() {
		if e := cat.Close(); e != nil && err == nil {
			err = e
		}
	}()
	report = Report{Notes: notes, Findings: []Finding{}}
	if report.Notes == nil {
		report.Notes = []string{}
	}
	found, err := cat.Verify(ctx, catalog.VerifyOptions{})
	if err != nil {
		return Report{}, err
	}
	for _, f := range found {
		report.Findings = append(report.Findings, Finding{f})
	}
	archives, said, err := verifyArchives(ctx, cat)
	if err != nil {
		return Report{}, err
	}
	report.Findings, report.Notes = append(report.Findings, archives...), append(report.Notes, said...)
	all, err := cat.AllEvidence(ctx)
	if err != nil {
		return Report{}, err
	}
	report.Evidence = len(all)
	report.Events, err = cat.Length(ctx)
	return report, err
}

// VerifyPacket checks the packet in the folder dir, which needs no vault: see
// [bag.Check].
func VerifyPacket(dir string) (bag.Report, error) { return bag.Check(dir) }

// IsPacket reports whether the folder dir says that it is a packet.
func IsPacket(dir string) bool {
	info, err := os.Stat(filepath.Join(dir, "bagit.txt"))
	return err == nil && info.Mode().IsRegular()
}
