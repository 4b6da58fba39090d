package audit_test

import (
	"archive/zip"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"image/color"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"evidencevault/audit"
	"evidencevault/audit/bag"
	"evidencevault/internal/demo"
	"evidencevault/journal"
)

func packed(t *testing.T, j *journal.Journal, d audit.Dossier, dir string) string {
	t.Helper()
	if err := audit.WritePacket(t.Context(), j.Catalog().Store(), d, dir, audit.PacketOptions{}); err != nil {
		t.Fatal(err)
	}
	return dir
}

// A packet is a bag that our judge and sha256sum find whole, with every original under
// the hash that the vault knows it by.
func TestPacketIsASoundBag(t *testing.T) {
	j := vault(t)
	d := gather(t, j).WithoutUnproven()
	dir := packed(t, j, d, filepath.Join(t.TempDir(), "packet"))
	r, err := bag.Check(dir)
	if err != nil || !r.Valid() || len(r.Notes) > 0 {
		t.Fatalf("%+v %v", r, err)
	}
	for _, list := range []string{"manifest-sha256.txt", "tagmanifest-sha256.txt", "data/SHA256SUMS"} {
		cmd := exec.Command("sha256sum", "--strict", "-c", filepath.Base(list))
		cmd.Dir = filepath.Join(dir, filepath.Dir(list))
		if out, err := cmd.CombinedOutput(); err != nil {
			t.Errorf("%s: %v\n%s", list, err, out)
		}
	}
	for _, o := range d.Originals {
		data, err := os.ReadFile(filepath.Join(dir, "data", o.Copy))
		if err != nil {
			t.Fatal(err)
		}
		if sum := sha256.Sum256(data); hex.EncodeToString(sum[:]) != o.SHA256 {
			t.Errorf("%s was changed", o.Copy)
		}
	}
}

// The same dossier gives the same bytes, as a folder and as an archive.
func TestPacketIsReproducible(t *testing.T) {
	j, work := vault(t), t.TempDir()
	d := gather(t, j).WithoutUnproven()
	one, two := packed(t, j, d, filepath.Join(work, "one")), packed(t, j, d, filepath.Join(work, "two"))
	if out, err := exec.Command("diff", "-r", one, two).CombinedOutput(); err != nil {
		t.Errorf("folders differ: %s", out)
	}
	read := func(dir string) []byte {
		data, err := os.ReadFile(packed(t, j, d, filepath.Join(work, dir, "packet.zip")))
		if err != nil {
			t.Fatal(err)
		}
		return data
	}
	first := read("a")
	if !bytes.Equal(first, read("b")) {
		t.Error("archives differ")
	}
	z, err := zip.NewReader(bytes.NewReader(first), int64(len(first)))
	if err != nil {
		t.Fatal(err)
	}
	into := filepath.Join(work, "unpacked")
	if err := os.CopyFS(into, z); err != nil {
		t.Fatal(err)
	}
	if r, err := bag.Check(filepath.Join(into, "packet")); err != nil || !r.Valid() {
		t.Errorf("unpacked: %+v %v", r, err)
	}
}

// A claim without proof stops the packet, and nothing is left of it.
func TestUnprovenClaimStopsThePacket(t *testing.T) {
	j, work := vault(t), t.TempDir()
	d := gather(t, j)
	err := audit.WritePacket(t.Context(), j.Catalog().Store(), d, filepath.Join(work, "packet"), audit.PacketOptions{})
	if !errors.Is(err, audit.ErrUnproven) {
		t.Fatalf("%v, want ErrUnproven", err)
	}
	if left, err := os.ReadDir(work); err != nil || len(left) > 0 {
		t.Errorf("left behind: %v %v", left, err)
	}
	rest := d.WithoutUnproven()
	if len(rest.Claims) != 3 || len(rest.Asked.LeftOut) != 1 || !strings.Contains(rest.Asked.String(), "left out as unproven: "+rest.Asked.LeftOut[0]) {
		t.Errorf("asked %v", rest.Asked)
	}
}

// Only what proves the chosen claims is packed, and nothing is said of the others.
func TestOnlyWhatWasAsked(t *testing.T) {
	j := vault(t)
	d := gather(t, j)
	first := d.Claims[0]
	one, err := d.Only([]string{first.ID})
	if err != nil {
		t.Fatal(err)
	}
	dir := packed(t, j, one, filepath.Join(t.TempDir(), "packet"))
	copies, err := os.ReadDir(filepath.Join(dir, "data", "originals"))
	if err != nil || len(copies) != 1 {
		t.Fatalf("originals %v, %v", copies, err)
	}
	html, err := os.ReadFile(filepath.Join(dir, "data", "index.html"))
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range d.Claims[1:] {
		if bytes.Contains(html, []byte(`id="`+e.ID+`"`)) {
			t.Errorf("the index shows %s, which was not asked for", e.ID)
		}
	}
	if !bytes.Contains(html, []byte("1 of 4 claims: "+first.ID)) {
		t.Error("the index does not say what was asked")
	}
	if _, err := d.Only([]string{"C99"}); !errors.Is(err, audit.ErrNoClaim) {
		t.Errorf("C99: %v", err)
	}
}

// Personal data that is not asked for can be left out of all that is written; what the
// count rests on cannot.
func TestWhatIsNotAskedForIsLeftOut(t *testing.T) {
	j := asked(t)
	d := dossier(t, j, "en").WithoutUnproven()
	less, err := d.Without([]string{"attendee", "provider", "number"})
	if err != nil {
		t.Fatal(err)
	}
	dir := packed(t, j, less, filepath.Join(t.TempDir(), "packet"))
	for _, name := range []string{"index.html", "index.csv", "index.json", "derivations.txt"} {
		text, err := os.ReadFile(filepath.Join(dir, "data", name))
		if err != nil {
			t.Fatal(err)
		}
		for _, personal := range []string{demo.Number, "Another House", d.Claims[0].Provider} { // a corrected provider too
			if bytes.Contains(text, []byte(personal)) {
				t.Errorf("%s shows %q", name, personal)
			}
		}
		if name == "index.json" && (bytes.Contains(text, []byte(`"field": "attendee"`)) || !bytes.Contains(text, []byte(`"without": [`))) {
			t.Error("index.json shows the attendee, or does not say what it lacks")
		}
	}
	if text := pdfText(t, filepath.Join(dir, "data", "index.pdf")); strings.Contains(text, demo.Number) || !strings.Contains(text, "not shown here, since not asked for: attendee, provider, Number") {
		t.Errorf("index.pdf: %.600s", text)
	}
	for _, field := range []string{"end_date", "kind", "category", "shoe_size"} {
		if _, err := d.Without([]string{field}); !errors.Is(err, audit.ErrField) {
			t.Errorf("%s: %v", field, err)
		}
	}
}

// What lies there is left alone, and a changed original stops the packet.
func TestPacketLeavesNothingHalfMade(t *testing.T) {
	j, work := vault(t), t.TempDir()
	d := gather(t, j).WithoutUnproven()
	mine := filepath.Join(work, "mine")
	if err := os.MkdirAll(filepath.Join(mine, "photos"), 0o700); err != nil {
		t.Fatal(err)
	}
	store := j.Catalog().Store()
	if err := audit.WritePacket(t.Context(), store, d, mine, audit.PacketOptions{}); !errors.Is(err, audit.ErrThere) {
		t.Errorf("%v, want ErrThere", err)
	}
	path, err := store.Path(d.Originals[0].SHA256)
	if err != nil {
		t.Fatal(err)
	}
	path = filepath.Join(j.Catalog().Dir(), "evidence", path)
	if err := os.Chmod(path, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte("other"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"packet", "packet.zip"} {
		if err := audit.WritePacket(t.Context(), store, d, filepath.Join(work, name), audit.PacketOptions{}); err == nil || !strings.Contains(err.Error(), d.Originals[0].Copy) {
			t.Errorf("%s: %v, want one that names %s", name, err, d.Originals[0].Copy)
		}
	}
	if left, err := os.ReadDir(work); err != nil || len(left) != 1 {
		t.Errorf("left behind: %v %v", left, err)
	}
}

// The draw is worked out anew by the shell's own sha256sum and sort.
func TestDrawAgreesWithTheShell(t *testing.T) {
	ids := []string{"C1", "C2", "C3", "C4", "C10", "C11", "C12", "C25"}
	script := `for i in C1 C2 C3 C4 C10 C11 C12 C25; do printf '%s %s\n' "$(printf 'letter of 2 May\n%s' $i | sha256sum | cut -d' ' -f1)" $i; done | sort | head -3 | cut -d' ' -f2`
	out, err := exec.Command("sh", "-c", script).Output()
	if err != nil {
		t.Fatal(err)
	}
	want := strings.Fields(string(out))
	got := audit.Draw(ids, 3, "letter of 2 May")
	slices.Sort(want)
	slices.Sort(got)
	if !slices.Equal(got, want) {
		t.Errorf("drawn %v, the shell draws %v", got, want)
	}
	if all := audit.Draw(ids, 99, "x"); !slices.Equal(all, ids) {
		t.Errorf("more than there are: %v", all)
	}
}

// Each page that proves something is there as a picture, with the places outlined on it;
// it is found whole by the bag's lists, and equal again.
func TestPacketPictures(t *testing.T) {
	j, work, r := vault(t), t.TempDir(), reader(t)
	d := gather(t, j).WithoutUnproven()
	var made [2]string
	for i := range made {
		made[i] = filepath.Join(work, string(rune('a'+i)))
		if err := audit.WritePacket(t.Context(), j.Catalog().Store(), d, made[i], audit.PacketOptions{Pages: r}); err != nil {
			t.Fatal(err)
		}
	}
	if out, err := exec.Command("diff", "-r", made[0], made[1]).CombinedOutput(); err != nil {
		t.Errorf("not the same again: %s", out)
	}
	if report, err := bag.Check(made[0]); err != nil || !report.Valid() {
		t.Errorf("%+v %v", report, err)
	}
	files, err := filepath.Glob(filepath.Join(made[0], "data", "pictures", "*-page-1.png"))
	if err != nil || len(files) != len(d.Originals) {
		t.Fatalf("pictures: %v %v, want one of each original", files, err)
	}
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		img, err := png.Decode(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		ink := 0
		for y := img.Bounds().Min.Y; y < img.Bounds().Max.Y; y++ {
			for x := img.Bounds().Min.X; x < img.Bounds().Max.X; x++ {
				if color.RGBAModel.Convert(img.At(x, y)) == (color.RGBA{R: 20, G: 60, B: 140, A: 255}) {
					ink++
				}
			}
		}
		if ink < 1000 {
			t.Errorf("%s: only %d pixels of an outline", name, ink)
		}
	}
}
