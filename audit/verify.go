package audit

import (
	"context"
	"errors"
	"fmt"
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
func Verify(ctx context.Context, dir string, notes []string) (Report, error) {
	return VerifyAgainst(ctx, dir, notes, nil)
}

// VerifyAgainst is [Verify], and also checks that the log continues a signed head of an
// earlier day; nil is none.
func VerifyAgainst(ctx context.Context, dir string, notes []string, against []byte) (report Report, err error) {
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
	if err := report.compare(ctx, cat, against); err != nil {
		return Report{}, err
	}
	if err := errors.Join(report.restores(ctx, cat), report.stamps(ctx, cat)); err != nil {
		return Report{}, err
	}
	all, err := cat.AllEvidence(ctx)
	if err != nil {
		return Report{}, err
	}
	for _, e := range all {
		if e.Deleted == 0 {
			report.Evidence++
		}
	}
	report.Events, err = cat.Length(ctx)
	return report, err
}

// compare judges whether the log continues an earlier head.
func (r *Report) compare(ctx context.Context, cat *catalog.Catalog, against []byte) error {
	if against == nil {
		return nil
	}
	err := cat.Against(ctx, against)
	var bad *catalog.LogError
	if !errors.As(err, &bad) {
		return err
	}
	r.Findings = append(r.Findings, Finding{catalog.Finding{What: catalog.WhatHead, Where: "the head it was compared with", Why: bad.Why, Mend: bad.Mend, Claims: []string{}}})
	return nil
}

// restores notes where the vault went on from a backup or an export.
func (r *Report) restores(ctx context.Context, cat *catalog.Catalog) error {
	all, err := cat.Restores(ctx)
	if errors.Is(err, catalog.ErrLog) || errors.Is(err, catalog.ErrDamaged) {
		return nil // found before
	}
	for _, e := range all {
		r.Notes = append(r.Notes, fmt.Sprintf("event %d: the vault was restored or imported on %s; the key %s took the place of %s, which signed all that came before",
			e.Event, e.At.Format("2006-01-02"), e.New, e.Old))
	}
	return err
}

// VerifyPacket checks the packet in the folder dir, which needs no vault: see
// [bag.Check].
func VerifyPacket(dir string) (bag.Report, error) { return bag.Check(dir) }

// IsPacket reports whether the folder dir says that it is a packet.
func IsPacket(dir string) bool {
	info, err := os.Stat(filepath.Join(dir, "bagit.txt"))
	return err == nil && info.Mode().IsRegular()
}
