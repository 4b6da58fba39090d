package main

import (
	"embed"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

//go:embed sources
var sources embed.FS

// programPapers returns the papers that installed programs make out of sources.
func programPapers() ([]paper, error) {
	dir, err := os.MkdirTemp("", "demo-papers-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	w := bench{dir: dir}
	papers := []paper{
		{"Teilnahmebescheinigung Bremsproben.pdf", w.office("teilnahme.fodt", "pdf")},
		{"employer letter.pdf", w.office("employer.fodt", "pdf")},
		{"Rechnung 2025-0342.pdf", w.office("rechnung.fodt", "pdf")},
		{"article accepted.pdf", w.office("article.fodt", "pdf")},
		{"Hraundorn confirmation.docx", w.office("conference.fodt", "docx")},
		{"guest lecture.pdf", w.repack(w.office("teaching.fodt", "pdf"))},
		{"foundations course.pdf", firstPart(w.office("foundations.fodt", "pdf"))},
		{"attestation_evacuation.pdf", w.browser(source("attestation_evacuation.html"))},
		{"Working group 2025-10-09.pdf", w.browser(source("minutes.html"))},
		{"kestrelmoor-71530.pdf", w.browser(online("Slack Rope: Detection and Response", "14 November 2024", "6", "0.6", "KM-71530"))},
		{"kestrelmoor-88214.pdf", w.browser(online("Reading Rope Discard Criteria", "5 February 2026", "9", "0.9", "KM-88214"))},
		{"guild dues 2026.pdf", w.draw("membership.svg", "pdf", 0)},
		{"visual inspection course.pdf", w.draw("visual_0304.svg", "pdf", 0)},
		{"MRT grade 2.pdf", w.postscript("credential.ps")},
	}
	fire := w.scan("fire_scan.svg", 1100, look{turn: 1.1, noise: 7, shade: 0.06, quality: 42, seed: 1})
	fixings := w.scan("fixings_scan.svg", 1100, look{turn: -0.7, noise: 6, shade: 0.04, quality: 38, seed: 2})
	rescue := w.scan("rescue_scan.svg", 1100, look{turn: 0.5, noise: 6, shade: 0.05, quality: 38, seed: 3})
	papers = append(papers,
		paper{"scan_0412.pdf", w.bind(fire)},
		paper{"scan_0398.pdf", w.bind(fixings, rescue)},
		paper{"IMG_20251212.jpg", w.scan("brake_photo.svg", 1300, look{turn: 1.6, noise: 9, shade: 0.22, desk: 60, quality: 45, seed: 4})})
	return papers, w.err
}

// bench runs programs in a folder of its own and keeps the first error;
// after one, every step returns nothing.
type bench struct {
	dir string
	err error
}

func source(name string) string {
	data, err := sources.ReadFile("sources/" + name)
	if err != nil {
		panic(err) // embedded with the program
	}
	return string(data)
}

func online(title, day, hours, ceu, number string) string {
	return strings.NewReplacer("@TITLE@", title, "@DAY@", day, "@HOURS@", hours, "@CEU@", ceu, "@NO@", number).
		Replace(source("online.html"))
}

// step writes text as a file, runs a program, and returns the file it made.
func (w *bench) step(in, text, out, program string, args ...string) []byte {
	if w.err != nil {
		return nil
	}
	if w.err = os.WriteFile(filepath.Join(w.dir, in), []byte(text), 0o600); w.err != nil {
		return nil
	}
	cmd := exec.Command(program, args...)
	cmd.Dir = w.dir
	if said, err := cmd.CombinedOutput(); err != nil {
		w.err = fmt.Errorf("running %s on %s: %w: %s", program, in, err, said)
		return nil
	}
	var made []byte
	made, w.err = os.ReadFile(filepath.Join(w.dir, out))
	return made
}

func (w *bench) office(name, to string) []byte {
	out := strings.TrimSuffix(name, ".fodt") + "." + to
	return w.step(name, source(name), out, "soffice", "-env:UserInstallation=file://"+w.dir+"/office", "--headless", "--convert-to", to, name)
}

func (w *bench) browser(page string) []byte {
	return w.step("page.html", page, "page.pdf", "chromium", "--headless", "--no-sandbox", "--disable-gpu", "--user-data-dir="+w.dir+"/browser",
		"--no-pdf-header-footer", "--print-to-pdf=page.pdf", "page.html")
}

// draw turns an SVG into a PDF, or into a PNG that is width pixels wide.
func (w *bench) draw(name, to string, width int) []byte {
	args := []string{"-f", to, "-o", "drawn", name}
	if width > 0 {
		args = append(args, "-w", fmt.Sprint(width), "--keep-aspect-ratio")
	}
	return w.step(name, source(name), "drawn", "rsvg-convert", args...)
}

func (w *bench) postscript(name string) []byte {
	return w.step(name, source(name), "made.pdf", "gs", "-q", "-dBATCH", "-dNOPAUSE", "-sDEVICE=pdfwrite", "-sOutputFile=made.pdf", name)
}

// repack stores a PDF's objects in compressed streams and sorts it for the web.
func (w *bench) repack(pdf []byte) []byte {
	return w.step("plain.pdf", string(pdf), "packed.pdf", "qpdf", "--object-streams=generate", "--linearize", "plain.pdf", "packed.pdf")
}

func (w *bench) scan(name string, width int, l look) []byte {
	page := w.draw(name, "png", width)
	if w.err != nil {
		return nil
	}
	var picture []byte
	picture, w.err = photograph(page, l)
	return picture
}

func (w *bench) bind(pictures ...[]byte) []byte {
	if w.err != nil {
		return nil
	}
	var pdf []byte
	pdf, w.err = bind(pictures...)
	return pdf
}

// firstPart cuts a file off before its end, as a broken download does.
func firstPart(data []byte) []byte { return data[:len(data)*3/5] }
