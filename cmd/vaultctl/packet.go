package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"evidencevault/audit"
	"evidencevault/credit"
	"evidencevault/extract/page"
	"evidencevault/journal"
)

// packetFlags are those of the verb packet.
type packetFlags struct {
	out, on, cycle, claims, seed, letter string
	sample                               int
	leaveOut, all, noPictures            bool
	language                             string
	without                              []string
}

func (a *app) packetCommand() *cobra.Command {
	var f packetFlags
	c := &cobra.Command{
		Use:   "packet -o DIR",
		Short: "pack what an auditor asks for, so that anyone can check it",
		Long: `packet writes a BagIt bag (RFC 8493): under data/ the index with the originals,
unaltered, the scheme file and how each figure came about; beside it lists of hashes that
sha256sum, sha512sum and any checker of bags can read, and a page that says how. A name
that ends in .zip makes one archive of it.

Where an audit letter is open, the claims that it asks for are packed; --letter L2 names
one of several. Else, or with --all, all claims of the cycle are packed, or those named
with --claims, or a sample: --sample 3 --seed WORDS draws three, and the same seed draws
the same three again. A claim without
proof stops it, unless --leave-out-unproven. The packet holds personal data: --without
place,number leaves out what is said of fields that nobody asked for, and the number that
the body gave you. The originals stay as they came.`,
		Example: "  vaultctl packet -o ~/packet\n  vaultctl packet -o ~/packet.zip --claims C1,C4-C6\n  vaultctl packet -o ~/packet --sample 3 --seed 'letter of 2 May'",
		Args:    a.args(cobra.NoArgs),
		RunE: func(cmd *cobra.Command, _ []string) error {
			if err := f.check("the folder or the .zip file"); err != nil {
				return err
			}
			return a.reading(cmd.Context(), func(j *journal.Journal) error { return a.packet(cmd, j, f) })
		},
	}
	f.add(c, "the folder, or the .zip file, to write")
	c.Flags().BoolVar(&f.noPictures, "no-pictures", false, "without pictures of the pages that prove something")
	return c
}

// add declares the flags that say what is handed over.
func (f *packetFlags) add(c *cobra.Command, what string) {
	cycleFlag(c, &f.cycle)
	c.Flags().StringVarP(&f.out, "output", "o", "", what)
	c.Flags().StringVar(&f.on, "on", "", "the day for which the figures hold, YYYY-MM-DD (else today)")
	c.Flags().StringVar(&f.claims, "claims", "", "only these, as in C1,C4-C6")
	c.Flags().StringVar(&f.letter, "letter", "", "what this audit letter asks for, as in L1 (else the open one)")
	c.Flags().BoolVar(&f.all, "all", false, "every claim, though an audit letter is open")
	c.Flags().IntVar(&f.sample, "sample", 0, "draw so many claims")
	c.Flags().StringVar(&f.seed, "seed", "", "words with which the sample is drawn")
	languageFlag(c, &f.language)
	withoutFlag(c, &f.without)
	c.Flags().BoolVar(&f.leaveOut, "leave-out-unproven", false, "pack the others where claims have no proof")
}

// withoutFlag declares which fields are left out of what is handed over.
func withoutFlag(c *cobra.Command, fields *[]string) {
	c.Flags().StringSliceVar(fields, "without", nil, "leave out what is said of these fields, as in provider,place,number")
}

// withoutFields leaves fields out of a dossier.
func withoutFields(d audit.Dossier, fields []string) (audit.Dossier, error) {
	if len(fields) == 0 {
		return d, nil
	}
	d, err := d.Without(fields)
	if err != nil {
		return d, fmt.Errorf("--without %w", err)
	}
	return d, nil
}

// check refuses flags that contradict each other.
func (f *packetFlags) check(what string) error {
	if f.out == "" {
		return usagef("-o: name %s to write", what)
	}
	if f.letter != "" && (f.claims != "" || f.sample > 0 || f.all) {
		return usagef("--letter: it says which claims are packed, so leave out --claims, --sample and --all")
	}
	if f.claims != "" && f.sample > 0 {
		return usagef("--claims and --sample: give one of the two")
	}
	if f.sample < 0 || f.sample > 0 && f.seed == "" {
		return usagef("--sample N --seed WORDS: a sample has at least one claim, and a seed with which it can be drawn again")
	}
	return nil
}

// lettered returns the audit letter that a packet answers: the one named, else the only
// open one of the certification; the zero letter if none is open.
func (a *app) lettered(cmd *cobra.Command, j *journal.Journal, f packetFlags) (journal.AuditLetter, error) {
	ref := f.letter
	if f.claims != "" || f.sample > 0 || f.all {
		return journal.AuditLetter{}, nil
	}
	list, err := j.Letters(cmd.Context())
	if err != nil {
		return journal.AuditLetter{}, err
	}
	var open []journal.AuditLetter
	for _, l := range list {
		if ref != "" && strings.EqualFold(l.ID, ref) {
			return l, nil
		}
		if l.State == journal.LetterOpen && (a.certification == "" || l.Certification == a.certification) {
			open = append(open, l)
		}
	}
	switch {
	case ref != "":
		return journal.AuditLetter{}, fmt.Errorf("%s: there is no such audit letter; see vaultctl letters", ref)
	case len(open) > 1:
		return journal.AuditLetter{}, fmt.Errorf("%s are open; name one with --letter, or give --all (vaultctl letters lists them)", count(len(open), "audit letter", "audit letters"))
	case len(open) == 1:
		return open[0], nil
	}
	return journal.AuditLetter{}, nil
}

func (a *app) packet(cmd *cobra.Command, j *journal.Journal, f packetFlags) error {
	d, closed, err := a.toHandOver(cmd, j, f)
	if err != nil {
		return err
	}
	if closed != nil && d.Asked.All && len(d.Asked.Without) == 0 && f.language == "en" {
		return a.archivedPacket(cmd, j, closed, f)
	}
	tell := a.progress("packing", "original files")
	o := audit.PacketOptions{Done: tell}
	if !f.noPictures {
		o.Pages = page.NewReader(page.Options{})
	}
	err = audit.WritePacket(cmd.Context(), j.Catalog().Store(), d, f.out, o)
	if o.Pages != nil {
		err = errors.Join(err, o.Pages.Close())
	}
	if errors.Is(err, audit.ErrUnproven) {
		return fmt.Errorf("nothing was written: %w (--leave-out-unproven)", err)
	}
	if err != nil {
		return err
	}
	if a.json {
		return a.printJSON(map[string]any{"packet": f.out, "asked": d.Asked, "claims": len(d.Claims), "originals": len(d.Originals), "exceptions": d.Exceptions})
	}
	a.printf("%s: %s, %s\n", safe(f.out), d.Asked, count(len(d.Originals), "original file", "original files"))
	if n := len(d.Exceptions); n > 0 {
		a.printf("%s that an auditor would ask about; the index lists them\n", count(n, "point", "points"))
	}
	return nil
}

// toHandOver gathers what the flags ask for, and the closed cycle that it is of; nil: the
// present one.
func (a *app) toHandOver(cmd *cobra.Command, j *journal.Journal, f packetFlags) (d audit.Dossier, closed *audit.Archive, err error) {
	day, err := a.parseOn(f.on)
	if err != nil {
		return d, nil, err
	}
	if err := a.notDropped(cmd, j, f.out); err != nil {
		return d, nil, err
	}
	l := journal.AuditLetter{}
	if f.cycle == "" {
		if l, err = a.lettered(cmd, j, f); err != nil {
			return d, nil, err
		}
	}
	if l.ID != "" {
		d, closed, err = audit.Lettered(cmd.Context(), j, l, day)
	} else {
		d, closed, err = a.cycleToHandOver(cmd, j, f, day)
	}
	if err != nil {
		return d, closed, err
	}
	if d, err = chosen(d, f); err != nil {
		return d, closed, err
	}
	if d, err = d.In(f.language); err != nil {
		return d, closed, usagef("--language %v", err)
	}
	return d, closed, nil
}

// cycleToHandOver gathers the whole cycle that the flags name.
func (a *app) cycleToHandOver(cmd *cobra.Command, j *journal.Journal, f packetFlags, day credit.Date) (audit.Dossier, *audit.Archive, error) {
	closed, err := a.closedCycle(cmd.Context(), j, f.cycle, f.on)
	if err != nil {
		return audit.Dossier{}, nil, err
	}
	if closed != nil {
		d, err := closed.Dossier()
		return d, closed, err
	}
	d, err := audit.Gather(cmd.Context(), j, a.certification, day)
	return d, nil, err
}

// chosen leaves in the dossier what was asked for.
func chosen(d audit.Dossier, f packetFlags) (audit.Dossier, error) {
	var err error
	switch {
	case f.claims != "":
		var refs []journal.Ref
		if refs, err = journal.ParseRefs(f.claims); err != nil {
			return d, usagef("--claims: %v", err)
		}
		ids := make([]string, len(refs))
		for i, r := range refs {
			ids[i] = r.String()
			if r.Kind != journal.ClaimRef {
				return d, usagef("--claims: %s is no claim; name claims, as in C1,C4-C6", r)
			}
		}
		d, err = d.Only(ids)
	case f.sample > 0:
		d, err = d.Sample(f.sample, f.seed)
	}
	if err != nil {
		return d, fmt.Errorf("%w; see vaultctl claims", err)
	}
	if f.leaveOut {
		d = d.WithoutUnproven()
	}
	if d, err = withoutFields(d, f.without); err != nil {
		return d, err
	}
	if len(d.Claims) == 0 {
		return d, fmt.Errorf("there is no %s to pack; see vaultctl claims", strings.TrimSpace("claim "+map[bool]string{true: "with a proof"}[f.leaveOut]))
	}
	return d, nil
}
