package audit

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"unicode/utf8"

	"evidencevault/audit/bag"
	"evidencevault/evidence"
	"evidencevault/extract/page"
)

// ErrUnproven says that a claim without proof was asked for.
var ErrUnproven = errors.New("no document of a kind that the category accepts proves it")

// ErrThere says that something lies already where a packet is to be written.
var ErrThere = errors.New("there is something already; name another one")

// payload is the folder of a packet in which the index lies.
const payload = "data/"

// howToCheck is the file of a packet that says how it is checked.
const howToCheck = "HOW-TO-CHECK.txt"

// PacketOptions says how a packet is made. The zero value makes it without pictures.
type PacketOptions struct {
	Pages *page.Reader    // draws the pages that prove something; nil: without pictures
	Done  func(n, of int) // told how many of the originals are copied; nil: nobody
}

// WritePacket writes the dossier as a BagIt bag to the folder dir, or, where dir ends
// in .zip, as one archive with that folder in it: under data/ the index in all forms
// with the originals, the scheme file and the derivations; beside it the lists of
// hashes and a page that says how to check them. Equal dossiers give equal bytes.
//
// The error wraps [ErrUnproven] when one of the claims has no proof, see
// [Dossier.WithoutUnproven], and [ErrThere] when dir exists and is not an empty folder.
// A packet that cannot be made whole is not put in place.
//
// Source: RFC 8493 (BagIt 1.0).
func WritePacket(ctx context.Context, store *evidence.Store, d Dossier, dir string, o PacketOptions) error {
	for _, e := range d.Claims {
		if !e.Proven {
			return fmt.Errorf("claim %s (%s): %w; attach its proof, or leave out what is unproven", e.ID, e.Title, ErrUnproven)
		}
	}
	dir, err := filepath.Abs(dir)
	if err != nil {
		return err
	}
	if err := free(dir); err != nil {
		return err
	}
	write := func(root *os.Root) error { return writeBag(ctx, store, d, root, o) }
	if isArchive(dir) {
		return archive(dir, d.On, write)
	}
	return place(dir, false, write)
}

func isArchive(name string) bool { return strings.EqualFold(filepath.Ext(name), ".zip") }

// free refuses a place where something lies: a file, a link, a device, a pipe. An empty
// folder is removed, so that the packet can take its place.
func free(dir string) error {
	info, err := os.Lstat(dir)
	if err != nil || !info.IsDir() || isArchive(dir) {
		return vacant(dir)
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	if len(entries) > 0 {
		return fmt.Errorf("%s: %w", dir, ErrThere)
	}
	return os.Remove(dir)
}

// vacant refuses a name that anything has, a link that leads nowhere too: what is moved
// there would take its place.
func vacant(name string) error {
	_, err := os.Lstat(name)
	switch {
	case errors.Is(err, os.ErrNotExist):
		return nil
	case err == nil:
		return fmt.Errorf("%s: %w", name, ErrThere)
	}
	return err
}

// inPayload adds files below data/ of a bag.
type inPayload struct{ bag *bag.Writer }

// Add writes name below data/.
func (p inPayload) Add(name string, from io.Reader, mode os.FileMode) (string, error) {
	return p.bag.Add(payload+name, from, mode)
}

func writeBag(ctx context.Context, store *evidence.Store, d Dossier, root *os.Root, o PacketOptions) error {
	w, err := bag.NewWriter(root)
	if err != nil {
		return err
	}
	tell := func(n int) {
		if o.Done != nil {
			o.Done(n, len(d.Originals))
		}
	}
	to := inPayload{w}
	list, err := fill(ctx, store, d, to, tell)
	if err != nil {
		return err
	}
	if _, err := to.Add(sums, strings.NewReader(list), 0o600); err != nil {
		return err
	}
	if _, err := to.Add("derivations.txt", strings.NewReader(d.derivations()), 0o600); err != nil {
		return err
	}
	for _, r := range d.records {
		if _, err := to.Add(r.name, bytes.NewReader(r.data), 0o600); err != nil {
			return err
		}
	}
	if o.Pages != nil {
		if err := d.addPictures(ctx, store, to, o.Pages); err != nil {
			return err
		}
	}
	if _, err := w.Add(howToCheck, strings.NewReader(d.howToCheckText(o.Pages != nil)), 0o600); err != nil {
		return err
	}
	made := d.On
	if !d.made.IsZero() {
		made = d.made
	}
	return w.Close(
		bag.Label{Name: "Bagging-Date", Value: made.String()},
		bag.Label{Name: "External-Description", Value: oneLine(d.words().say("evidence for", d.Title, d.Holder, d.asked()))},
		bag.Label{Name: "External-Identifier", Value: oneLine(strings.TrimSpace(d.Certification + " " + d.Number))},
	)
}

// oneLine makes one line of s.
func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

// howToCheckText says how a packet is checked, in the dossier's language.
func (d Dossier) howToCheckText(pictures bool) string {
	w := d.words()
	var b strings.Builder
	b.WriteString(w.say("how title") + "\n\n")
	numbered := func(n int, text string) { fmt.Fprintf(&b, "%d. %s\n\n", n, indented(text)) }
	numbered(1, w.say("how 1"))
	b.WriteString("     sha256sum -c manifest-sha256.txt\n     sha512sum -c manifest-sha512.txt\n\n   " + indented(w.say("how 1 end")) + "\n\n")
	numbered(2, w.say("how 2"))
	if pictures {
		b.WriteString("   " + indented(w.say("how 2 pictures")) + "\n\n")
	}
	numbered(3, w.say("how 3"))
	b.WriteString(strings.Join(wrapped(w.say("how shows"), textWidth), "\n") + "\n")
	return b.String()
}

// textWidth is how many letters a line of a text file has at most.
const textWidth = 86

// indented wraps a text and puts three blanks before all lines but the first.
func indented(text string) string { return strings.Join(wrapped(text, textWidth-3), "\n   ") }

// wrapped breaks a text into lines of at most width letters, between words.
func wrapped(text string, width int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > width {
			lines, line = append(lines, line), ""
		}
		line = strings.TrimSpace(line + " " + word)
	}
	return append(lines, line)
}

// derivations is every figure of the claims with its arithmetic, in the dossier's language.
func (d Dossier) derivations() string {
	w := d.words()
	var b strings.Builder
	fmt.Fprintf(&b, "%s, %s\n%s\n", oneLine(d.Title), oneLine(d.Holder), strings.Join(wrapped(w.say("way title", w.day(d.On), oneLine(d.Scheme.File)), textWidth), "\n"))
	for _, lead := range d.lead() {
		b.WriteString(strings.Join(wrapped(lead, textWidth), "\n") + "\n")
	}
	for _, e := range d.Claims {
		fmt.Fprintf(&b, "\n%s  %s: %s\n", w.claimID(e.ID), oneLine(w.category(e)), oneLine(w.title(e)))
		for _, line := range e.Why {
			fmt.Fprintf(&b, "    %s\n", oneLine(w.sentence(line)))
		}
		fmt.Fprintf(&b, "    %s\n", w.say("way counted", e.Counted, e.Awarded))
	}
	return b.String()
}
