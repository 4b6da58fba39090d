package journal

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"evidencevault/catalog"
	"evidencevault/credit"
)

// ErrVersion says that a scheme file cannot take the place of the one in force.
var ErrVersion = errors.New("not a version to change to")

// SchemeVersion names one version of a body's rules, whose bytes the vault keeps.
type SchemeVersion struct {
	Version string `json:"version"`
	File    string `json:"file"` // the name it came under
	SHA256  string `json:"sha256"`
}

// String prints "2026-2 (rules.toml)".
func (s SchemeVersion) String() string {
	version := s.Version
	if version == "" {
		version = "without a version"
	}
	return fmt.Sprintf("%s (%s)", version, s.File)
}

// VersionChange is what another version of the rules makes of a cycle.
type VersionChange struct {
	Certification string             `json:"certification"`
	Cycle         credit.Period      `json:"cycle"`
	From          SchemeVersion      `json:"from"`
	To            SchemeVersion      `json:"to"`
	Older         bool               `json:"older"` // the version is older than the one in force
	Moved         []string           `json:"moved"` // claims that go into another category, since the version does not have theirs
	Differences   credit.Differences `json:"differences"`
	Lines         []string           `json:"lines"` // the differences for people

	cycleID string
	moves   []catalog.ClaimChanged
}

// SchemeUse says which version a cycle shall run under.
type SchemeUse struct {
	File          SchemeFile
	Certification string            // "" means the only one
	Move          map[string]string // categories that the version does not have → where their claims go
}

// PreviewScheme says what changing the present cycle of a certification to another
// version of its scheme would do, on the day of the journal's clock; nothing is
// changed. The error wraps [ErrScheme], [ErrCategory] when claims would be left without
// a category, or [ErrVersion] when the file is another body's, is in force already, or
// has changed under a version that was kept before.
func (j *Journal) PreviewScheme(ctx context.Context, o SchemeUse) (VersionChange, error) {
	rules, file, err := readScheme(o.File, "")
	if err != nil {
		return VersionChange{}, err
	}
	o.File = file
	var change VersionChange
	err = j.cat.Read(ctx, func(v *catalog.View) error {
		change, err = j.versionChange(ctx, v, rules, o)
		return err
	})
	return change, err
}

// UseScheme lets the present cycle of a certification run under another version of its
// scheme from now on, and says what that changes. Earlier versions stay kept, and a
// closed cycle keeps its own. The errors are those of [Journal.PreviewScheme].
func (j *Journal) UseScheme(ctx context.Context, o SchemeUse) (VersionChange, error) {
	rules, file, err := readScheme(o.File, "")
	if err != nil {
		return VersionChange{}, err
	}
	o.File = file
	if _, err := j.PreviewScheme(ctx, o); err != nil {
		return VersionChange{}, err // before any bytes are kept
	}
	sum, err := j.cat.KeepScheme(file.Data)
	if err != nil {
		return VersionChange{}, err
	}
	var change VersionChange
	err = j.cat.Act(ctx, func(tx *catalog.Tx) error {
		if change, err = j.versionChange(ctx, &tx.View, rules, o); err != nil {
			return err
		}
		kept, err := tx.Schemes(ctx)
		if err != nil {
			return err
		}
		if !slices.ContainsFunc(kept, func(k catalog.Scheme) bool { return k.SHA256 == sum }) {
			if err := record(ctx, tx, &catalog.SchemeKept{SHA256: sum, ID: rules.ID, Version: rules.Version, File: file.Name}); err != nil {
				return err
			}
		}
		if err := record(ctx, tx, &catalog.SchemeChanged{Cycle: change.cycleID, Was: change.From.SHA256, Scheme: sum}); err != nil {
			return err
		}
		for _, move := range change.moves {
			if err := record(ctx, tx, &move); err != nil {
				return err
			}
		}
		return nil
	})
	return change, err
}

// versionChange checks that the rules may take the place of those in force, and works
// out both.
func (j *Journal) versionChange(ctx context.Context, v *catalog.View, rules credit.Scheme, o SchemeUse) (VersionChange, error) {
	file := o.File
	cert, err := j.certified(ctx, v, o.Certification, credit.Date{})
	if err != nil {
		return VersionChange{}, err
	}
	if cert.Cycle.Closed {
		return VersionChange{}, fmt.Errorf("%s: %w: the cycle to %v keeps the rules it was closed under", file.Name, ErrClosed, cert.Cycle.End)
	}
	if cert.Cycle.Closing {
		return VersionChange{}, closingError(file.Name, cert.Cycle)
	}
	from, err := j.keptVersion(ctx, v, cert.Cycle.Scheme)
	if err != nil {
		return VersionChange{}, err
	}
	to := SchemeVersion{Version: rules.Version, File: file.Name, SHA256: catalog.Digest(file.Data)}
	if err := j.mayFollow(ctx, v, cert, rules, from, to, file.Data); err != nil {
		return VersionChange{}, err
	}
	b, err := j.open(ctx, v, credit.Date{})
	if err != nil {
		return VersionChange{}, err
	}
	c := VersionChange{Certification: cert.Name, Cycle: credit.Period{Start: cert.Cycle.Start, End: cert.Cycle.End}, From: from, To: to,
		Older: CompareVersions(to.Version, from.Version) < 0, Moved: []string{}, cycleID: cert.Cycle.ID}
	in, err := c.move(b, rules, o.Move)
	if err != nil {
		return VersionChange{}, err
	}
	after, err := credit.Calculate(rules, in)
	if err != nil {
		return VersionChange{}, err
	}
	before := b.statements[cert.Cycle.ID]
	b.statements[cert.Cycle.ID] = after
	if err := b.letterDeadlines(ctx, v); err != nil { // what letters ask for stays, whatever the rules
		return VersionChange{}, err
	}
	c.Differences = credit.Differ(before, b.statements[cert.Cycle.ID])
	c.Lines = c.Differences.Lines()
	return c, nil
}

// move puts claims whose category the rules do not have where the person says, and
// returns what is to be calculated then.
func (c *VersionChange) move(b *book, rules credit.Scheme, to map[string]string) (credit.Input, error) {
	for old, fresh := range to {
		if err := knownCategory(rules, fresh); err != nil {
			return credit.Input{}, fmt.Errorf("move %s: %w", old, err)
		}
	}
	in := b.inputs[c.cycleID]
	in.Claims = slices.Clone(in.Claims)
	lost := map[string][]string{}
	for i, claim := range in.Claims {
		if _, ok := rules.Category(claim.Category); ok {
			continue
		}
		fresh, ok := to[claim.Category]
		if !ok {
			lost[claim.Category] = append(lost[claim.Category], claim.ID)
			continue
		}
		in.Claims[i].Category = fresh
		c.Moved = append(c.Moved, claim.ID)
		k := slices.IndexFunc(b.claims, func(row catalog.Claim) bool { return row.Ref() == claim.ID })
		c.moves = append(c.moves, catalog.ClaimChanged{ID: b.claims[k].ID, Category: fresh})
	}
	if len(lost) == 0 {
		return in, nil
	}
	var texts, flags []string
	for _, category := range slices.Sorted(maps.Keys(lost)) {
		texts = append(texts, fmt.Sprintf("%s of %s", category, strings.Join(lost[category], " ")))
		flags = append(flags, "--move "+category+"=CATEGORY")
	}
	return in, fmt.Errorf("%s: %w: it lacks the category %s; say where such claims go with %s (it has %s)", c.To.File, ErrCategory,
		strings.Join(texts, " and "), strings.Join(flags, " "), strings.Join(categoryIDs(rules), ", "))
}

func categoryIDs(rules credit.Scheme) []string {
	list := make([]string, len(rules.Categories))
	for i, c := range rules.Categories {
		list[i] = c.ID
	}
	return list
}

// mayFollow refuses a file of another scheme, the one in force, and one that was
// changed and kept its version.
func (j *Journal) mayFollow(ctx context.Context, v *catalog.View, cert Certified, rules credit.Scheme, from, to SchemeVersion, data []byte) error {
	if rules.ID != cert.Certification.Scheme {
		return fmt.Errorf("%s: %w: it is scheme %s, and %s runs under %s; a further certification is added with certification add",
			to.File, ErrVersion, rules.ID, cert.Name, cert.Certification.Scheme)
	}
	if from.SHA256 == to.SHA256 {
		return fmt.Errorf("%s: %w: these rules are in force already, as version %s", to.File, ErrVersion, from)
	}
	kept, err := v.Schemes(ctx)
	if err != nil {
		return err
	}
	for _, k := range kept {
		if k.ID != rules.ID || k.Version != rules.Version || k.SHA256 == to.SHA256 {
			continue
		}
		was, err := j.cat.SchemeBytes(k.SHA256)
		if err != nil {
			return err
		}
		return fmt.Errorf("%s: %w: it differs from %s, first in line %d, and still says version = %q; give it a version of its own",
			to.File, ErrVersion, k.File, firstDifference(was, data), rules.Version)
	}
	return nil
}

// firstDifference is the first line in which two files differ, counted from 1.
func firstDifference(a, b []byte) int {
	first, second := bytes.SplitAfter(a, []byte("\n")), bytes.SplitAfter(b, []byte("\n"))
	for i := range min(len(first), len(second)) {
		if !bytes.Equal(first[i], second[i]) {
			return i + 1
		}
	}
	return min(len(first), len(second)) + 1
}

func (j *Journal) keptVersion(ctx context.Context, v *catalog.View, sha256 string) (SchemeVersion, error) {
	kept, err := v.Schemes(ctx)
	if err != nil {
		return SchemeVersion{}, err
	}
	for _, k := range kept {
		if k.SHA256 == sha256 {
			return SchemeVersion{Version: k.Version, File: k.File, SHA256: sha256}, nil
		}
	}
	return SchemeVersion{}, fmt.Errorf("scheme %s: %w", sha256, ErrUnknown)
}

// CompareVersions orders version texts as people do: number by number, "2026-2" before
// "2026-10", and a version before the same with more behind it.
func CompareVersions(a, b string) int {
	for a != "" && b != "" {
		x, y := leading(a), leading(b)
		if c := compareParts(x, y); c != 0 {
			return c
		}
		a, b = a[len(x):], b[len(y):]
	}
	return cmp.Compare(len(a), len(b))
}

// leading returns the digits that a text begins with, or what stands before the first.
func leading(s string) string {
	digit := func(r rune) bool { return r >= '0' && r <= '9' }
	first := digit(rune(s[0]))
	if i := strings.IndexFunc(s, func(r rune) bool { return digit(r) != first }); i >= 0 {
		return s[:i]
	}
	return s
}

func compareParts(a, b string) int {
	x, y := strings.TrimLeft(a, "0"), strings.TrimLeft(b, "0")
	if a[0] >= '0' && a[0] <= '9' && b[0] >= '0' && b[0] <= '9' {
		return cmp.Or(cmp.Compare(len(x), len(y)), cmp.Compare(x, y), cmp.Compare(len(a), len(b)))
	}
	return cmp.Compare(a, b)
}

// changed returns what the change from the version under which a cycle began makes of
// it on the day of the book; nil if it runs under that version.
func (b *book) changed(ctx context.Context, j *Journal, v *catalog.View, cycle catalog.Cycle) (*credit.SchemeChange, error) {
	events, err := v.History(ctx, cycle.ID)
	if err != nil {
		return nil, err
	}
	var first, last *catalog.SchemeChanged
	var day credit.Date
	for _, e := range events {
		if e.Kind != kindSchemeChanged || e.Body == nil {
			continue
		}
		body, err := decode[catalog.SchemeChanged](e)
		if err != nil {
			return nil, err
		}
		if last = &body; first == nil {
			first = &body
		}
		day = credit.DateOf(e.At.In(b.now.Location()))
	}
	if first == nil || first.Was == last.Scheme {
		return nil, nil
	}
	rules, err := j.Scheme(ctx, v, first.Was)
	if err != nil {
		return nil, err
	}
	from, err := j.keptVersion(ctx, v, first.Was)
	if err != nil {
		return nil, err
	}
	to, err := j.keptVersion(ctx, v, last.Scheme)
	if err != nil {
		return nil, err
	}
	in := b.inputs[cycle.ID] // a claim of a category that is new is in no earlier count
	in.Claims = slices.DeleteFunc(slices.Clone(in.Claims), func(c credit.Claim) bool {
		_, ok := rules.Category(c.Category)
		return !ok
	})
	before, err := credit.Calculate(rules, in)
	if err != nil {
		return nil, err
	}
	change := &credit.SchemeChange{Day: day, From: from.String(), To: to.String(), Differences: credit.Differ(before, b.statements[cycle.ID])}
	change.Lines = change.Differences.Lines()
	return change, nil
}
