package journal

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/credit/scheme"
)

// dropName is the drop folder of a vault for which none was named.
const dropName = "drop"

var shortName = regexp.MustCompile(`^[a-z0-9][a-z0-9_-]{0,39}$`)

// Setup makes a vault in dir: its folder, key and signed head, the holder, the
// scheme's bytes, the certification with its first cycle, and the drop folder. A drop
// folder that it makes is emptied as files are taken in, one that existed before is
// left as it is, unless chosen otherwise.
//
// Everything that was given is checked before anything is made. A set-up that was
// stopped is finished by the same call again. The error wraps [ErrVault] when dir holds
// a finished vault or something is missing, or an error of [catalog.Create].
func Setup(ctx context.Context, dir string, o SetupOptions) (*Journal, error) {
	if strings.TrimSpace(o.Holder) == "" {
		return nil, fmt.Errorf("%s: %w: the holder's name is missing; give --holder NAME", dir, ErrVault)
	}
	rules, file, err := readScheme(o.Scheme, o.SchemeID)
	if err != nil {
		return nil, err
	}
	cert, err := newCertification(rules, CertificationOptions{ID: o.Certification, Start: o.Start, End: o.End, Number: o.Number})
	if err != nil {
		return nil, err
	}
	if o.EmptyDrop && o.KeepDropped {
		return nil, fmt.Errorf("%s: %w: the drop folder cannot be both emptied and left as it is", dir, ErrVault)
	}
	cat, err := createOrFinish(ctx, dir, catalog.Options{Now: o.Now})
	if err != nil {
		return nil, err
	}
	j := Of(cat, Options{Now: o.Now})
	if err := j.fill(ctx, o, cert, rules, file); err != nil {
		return nil, errors.Join(err, j.Close())
	}
	return j, nil
}

// createOrFinish makes the vault, or opens one in which a set-up was stopped before it
// named a holder.
func createOrFinish(ctx context.Context, dir string, o catalog.Options) (*catalog.Catalog, error) {
	cat, err := catalog.Create(ctx, dir, o)
	if !errors.Is(err, catalog.ErrExists) {
		return cat, err
	}
	cat, openErr := catalog.Open(ctx, dir, o)
	if openErr != nil {
		return nil, openErr
	}
	holder, readErr := cat.Holder(ctx)
	if readErr == nil && holder.Name == "" {
		return cat, nil
	}
	return nil, errors.Join(fmt.Errorf("%s: %w: it holds a vault already; choose another folder with --vault DIR", dir, ErrVault), readErr, cat.Close())
}

func (j *Journal) fill(ctx context.Context, o SetupOptions, cert newCert, rules credit.Scheme, file SchemeFile) error {
	drop, made, err := makeDrop(j.cat.Dir(), o.Drop)
	if err != nil {
		return err
	}
	sum, err := j.cat.KeepScheme(file.Data)
	if err != nil {
		return err
	}
	return j.cat.Act(ctx, func(tx *catalog.Tx) error {
		bodies := []catalog.Body{&catalog.HolderNamed{Name: strings.Join(strings.Fields(o.Holder), " ")}}
		bodies = append(bodies, cert.bodies(sum, rules, file)...)
		bodies = append(bodies, &catalog.DropSet{Dir: drop, Empty: o.EmptyDrop || made && !o.KeepDropped})
		return record(ctx, tx, bodies...)
	})
}

// makeDrop returns the drop folder, absolute, and whether it was made here. One within
// the vault counts as made, so that a set-up that was stopped ends the same.
func makeDrop(vault, drop string) (string, bool, error) {
	if drop == "" {
		drop = filepath.Join(vault, dropName)
	}
	drop, err := filepath.Abs(drop)
	if err != nil {
		return "", false, fmt.Errorf("drop folder %s: %w", drop, err)
	}
	if drop == vault || strings.HasPrefix(vault+string(filepath.Separator), drop+string(filepath.Separator)) {
		return "", false, fmt.Errorf("drop folder %s: %w: the vault lies in it; choose a folder of its own with --drop DIR", drop, ErrVault)
	}
	info, err := os.Stat(drop)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if err := os.MkdirAll(drop, 0o700); err != nil {
			return "", false, fmt.Errorf("drop folder: %w", err)
		}
		return drop, true, nil
	case err != nil:
		return "", false, fmt.Errorf("drop folder: %w", err)
	case !info.IsDir():
		return "", false, fmt.Errorf("drop folder %s: %w: it is no folder; choose another with --drop DIR", drop, ErrVault)
	}
	return drop, filepath.Dir(drop) == vault, nil
}

// readScheme returns the rules and bytes of a scheme file, or of one that ships.
func readScheme(file SchemeFile, id string) (credit.Scheme, SchemeFile, error) {
	if len(file.Data) == 0 {
		if id == "" {
			return credit.Scheme{}, file, fmt.Errorf("scheme: %w: none given; give --scheme FILE, or the id of one that ships", ErrVault)
		}
		shipped, err := scheme.Load(id)
		if err != nil {
			return credit.Scheme{}, file, err
		}
		file = SchemeFile{Name: shipped.File, Data: shipped.Data}
	}
	file.Name = filepath.Base(file.Name)
	rules, problems := scheme.Parse(file.Name, file.Data)
	if len(problems) > 0 {
		return credit.Scheme{}, file, &SchemeError{Problems: problems}
	}
	return rules, file, nil
}

// A SchemeError lists everything that is wrong in a scheme file. It matches
// [ErrScheme].
type SchemeError struct {
	Problems []scheme.Problem
}

func (e *SchemeError) Error() string {
	more := ""
	if n := len(e.Problems) - 1; n > 0 {
		more = fmt.Sprintf("; and %d more, see scheme check", n)
	}
	return fmt.Sprintf("%s%s", e.Problems[0], more)
}

func (e *SchemeError) Unwrap() error { return ErrScheme }

// newCert is a certification that is about to be added, with its first cycle.
type newCert struct {
	added catalog.CertificationAdded
	cycle catalog.CycleOpened
}

func newCertification(rules credit.Scheme, o CertificationOptions) (newCert, error) {
	name := o.ID
	if name == "" {
		name = rules.ID
	}
	if !shortName.MatchString(name) {
		return newCert{}, fmt.Errorf("certification %q: %w: want a short name of small letters, digits, - and _", name, ErrCertification)
	}
	period, err := firstCycle(rules, o)
	if err != nil {
		return newCert{}, err
	}
	id := catalog.NewID()
	return newCert{
		catalog.CertificationAdded{ID: id, Name: name, Title: rules.Title, Scheme: rules.ID, Number: o.Number},
		catalog.CycleOpened{ID: catalog.NewID(), Certification: id, Start: period.Start, End: period.End},
	}, nil
}

func firstCycle(rules credit.Scheme, o CertificationOptions) (credit.Period, error) {
	if o.Start.IsZero() {
		return credit.Period{}, fmt.Errorf("cycle of %s: %w: its first day is missing; give --start YYYY-MM-DD", rules.ID, credit.ErrCycle)
	}
	period := credit.Period{Start: o.Start, End: o.End}
	if o.End.IsZero() {
		start := o.Start.String()
		got, err := rules.Cycle.For(credit.Facts{"start": start, "issued": start, "on": start, "number": o.Number, "closed": o.Start.AddDays(-1).String()})
		if err != nil {
			return credit.Period{}, fmt.Errorf("scheme %s: %w; give the last day with --end YYYY-MM-DD", rules.ID, err)
		}
		period.End = got.End
	}
	if period.End.Before(period.Start) {
		return credit.Period{}, fmt.Errorf("cycle %v to %v: %w: it ends before it begins", period.Start, period.End, credit.ErrCycle)
	}
	return period, nil
}

func (n newCert) bodies(sum string, rules credit.Scheme, file SchemeFile) []catalog.Body {
	n.cycle.Scheme = sum
	return []catalog.Body{
		&catalog.SchemeKept{SHA256: sum, ID: rules.ID, Version: rules.Version, File: file.Name}, &n.added, &n.cycle,
	}
}

// CertificationAdd adds a further certification with its first cycle, and returns it.
// The error wraps [ErrCertification] when the short name is taken.
func (j *Journal) CertificationAdd(ctx context.Context, o CertificationOptions) (Certified, error) {
	rules, file, err := readScheme(o.Scheme, o.SchemeID)
	if err != nil {
		return Certified{}, err
	}
	cert, err := newCertification(rules, o)
	if err != nil {
		return Certified{}, err
	}
	sum, err := j.cat.KeepScheme(file.Data)
	if err != nil {
		return Certified{}, err
	}
	err = j.cat.Act(ctx, func(tx *catalog.Tx) error {
		if _, err := tx.Certification(ctx, cert.added.Name); err == nil {
			return fmt.Errorf("certification %q: %w: the vault has one of this name; choose another", cert.added.Name, ErrCertification)
		} else if !errors.Is(err, catalog.ErrUnknown) {
			return err
		}
		return record(ctx, tx, cert.bodies(sum, rules, file)...)
	})
	if err != nil {
		return Certified{}, err
	}
	return j.Certified(ctx, cert.added.ID, credit.Date{})
}

// FormerName is the fact under which a name that the holder bore before is set.
const FormerName = "former_name"

// IsFormerName reports whether the fact of this name is a name that the holder bore
// before; a hyphen will do in it.
func IsFormerName(fact string) bool { return strings.ReplaceAll(fact, "-", "_") == FormerName }

// cycleFacts are the facts that a cycle's anchor reads without its scheme naming them.
var cycleFacts = []string{"issued", "start", "admitted", "birth_month", "base_year", "on", "number", "first_cycle"}

// FactAsked reports whether rules ask for a fact of this name: the text of a scheme
// that the vault keeps names it, or a cycle may begin by it.
func (j *Journal) FactAsked(ctx context.Context, name string) (bool, error) {
	if IsFormerName(name) || slices.Contains(cycleFacts, name) {
		return true, nil
	}
	kept, err := j.cat.Schemes(ctx)
	if err != nil {
		return false, err
	}
	word := regexp.MustCompile(`(^|[^a-z0-9_-])` + regexp.QuoteMeta(name) + `($|[^a-z0-9_-])`)
	for _, k := range kept {
		data, err := j.cat.SchemeBytes(k.SHA256)
		if err != nil {
			return false, err
		}
		if word.Match(data) {
			return true, nil
		}
	}
	return false, nil
}

// SetFact says what rules ask about the holder, from a day on; the zero Date is from
// ever. The name [FormerName] adds a name that papers may bear. The error wraps
// [ErrField] when the name is none.
func (j *Journal) SetFact(ctx context.Context, name, value string, from credit.Date) error {
	value = strings.Join(strings.Fields(value), " ")
	if IsFormerName(name) {
		if value == "" {
			return fmt.Errorf("%s: %w: the name is missing; write %s=NAME", name, ErrField, FormerName)
		}
		return j.cat.Act(ctx, func(tx *catalog.Tx) error {
			return record(ctx, tx, &catalog.HolderNamed{Name: value, Former: true})
		})
	}
	if !shortName.MatchString(name) {
		return fmt.Errorf("fact %q: %w: want a name of small letters, digits, - and _, as in part_time=true", name, ErrField)
	}
	return j.cat.Act(ctx, func(tx *catalog.Tx) error {
		return record(ctx, tx, &catalog.FactSet{Name: name, Value: value, From: from})
	})
}

// record appends events in one transaction, in order.
func record(ctx context.Context, tx *catalog.Tx, bodies ...catalog.Body) error {
	for _, body := range bodies {
		if _, err := tx.Record(ctx, body); err != nil {
			return err
		}
	}
	return nil
}
