package bag

import (
	"crypto/md5"
	"crypto/sha1"
	"crypto/sha256"
	"crypto/sha512"
	"encoding/hex"
	"fmt"
	"hash"
	"io"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"golang.org/x/text/unicode/norm"
)

// hashes are the algorithms whose manifests can be checked, by their names in file
// names. Source: RFC 8493, section 2.4.
var hashes = map[string]func() hash.Hash{
	"md5": md5.New, "sha1": sha1.New, "sha224": sha256.New224, "sha256": sha256.New,
	"sha384": sha512.New384, "sha512": sha512.New,
}

var manifestName = regexp.MustCompile(`^(tag)?manifest-([a-z0-9]+)\.txt$`)
var manifestLine = regexp.MustCompile(`^([0-9A-Fa-f]+)[ \t]+(\*?)(.+)$`)

// lists reads the manifests, the list of what is to be fetched and bag-info.txt, and
// compares them with the files that are there.
func (c *checker) lists() error {
	var payload, tag []string
	for _, name := range c.names() {
		if m := manifestName.FindStringSubmatch(name); m == nil {
			continue
		} else if m[1] == "" {
			payload = append(payload, name)
		} else {
			tag = append(tag, name)
		}
	}
	if len(payload) == 0 {
		c.found("manifest-sha256.txt", 0, "is missing: a bag needs at least one list of its payload")
	}
	listed := map[string]int{} // payload file → in how many manifests
	checked := 0
	for _, name := range slices.Concat(payload, tag) {
		known, err := c.manifest(name, listed)
		if err != nil {
			return err
		}
		if known && slices.Contains(payload, name) {
			checked++
		}
	}
	if len(payload) > 0 && checked == 0 {
		c.found(payload[0], 0, "no list of the payload uses a hash that is known here")
	}
	for _, name := range c.names() {
		switch n := listed[name] + c.stood[name]; {
		case !strings.HasPrefix(name, "data/"):
		case n == 0:
			c.found(name, 0, "stands in no list of the payload")
		case n < len(payload) && c.version.atLeast(1, 0):
			c.found(name, 0, "stands in %d of %d lists of the payload; version 1.0 wants it in each", n, len(payload))
		}
	}
	if err := c.fetch(listed); err != nil {
		return err
	}
	return c.info()
}

// manifest checks one list of hashes. It reports whether its algorithm is known.
func (c *checker) manifest(name string, listed map[string]int) (bool, error) {
	m := manifestName.FindStringSubmatch(name)
	isTag, algorithm := m[1] != "", m[2]
	make, known := hashes[algorithm]
	if !known {
		c.note(name, 0, "the hash %s is not known here, so this list is not checked", algorithm)
	}
	lines, err := c.text(name)
	if err != nil {
		return false, err
	}
	seen, alike := map[string]string{}, map[string]string{}
	for i, line := range lines {
		if strings.TrimSpace(line) == "" {
			continue
		}
		at := i + 1
		m := manifestLine.FindStringSubmatch(line)
		if m == nil {
			c.found(name, at, "wanted a hash, blanks and a path, found %q", line)
			continue
		}
		if m[2] != "" {
			c.note(name, at, "has a * before the path, as some programs write it")
		}
		file, ok := c.resolve(name, at, m[3], isTag)
		if !ok {
			continue
		}
		sum := strings.ToLower(m[1])
		if before, twice := seen[file]; twice {
			c.twice(name, at, file, before == sum)
			continue
		}
		seen[file] = sum
		fold := strings.ToLower(norm.NFC.String(file))
		if other, ok := alike[fold]; ok {
			c.note(name, at, "%s differs from %s only in case or in the form of its letters", file, other)
		}
		alike[fold] = file
		if !isTag {
			listed[file]++
		}
		if !known {
			continue
		}
		if err := c.compare(name, at, file, algorithm, sum, make); err != nil {
			return known, err
		}
	}
	return known, nil
}

func (c *checker) twice(name string, line int, file string, same bool) {
	switch {
	case !same:
		c.found(name, line, "%s is listed twice with different hashes", file)
	case c.version.atLeast(1, 0):
		c.found(name, line, "%s is listed twice", file)
	default:
		c.note(name, line, "%s is listed twice with the same hash", file)
	}
}

// compare compares a file with the hash that a list gives.
func (c *checker) compare(list string, line int, file, algorithm, want string, make func() hash.Hash) error {
	if _, ok := c.files[file]; !ok {
		return c.missing(list, line, file, algorithm, want, make)
	}
	sum, err := c.sum(file, algorithm, make)
	if err != nil {
		return err
	}
	if sum != want {
		c.found(list, line, "%s was changed: its %s is %s, listed is %s", file, algorithm, sum, want)
	}
	return nil
}

// missing says that a listed file is not there. It is no loss when a file whose name
// differs only in case has the same content, as after a copy to a system that takes
// the two for one, or when a system made and removed it.
func (c *checker) missing(list string, line int, file, algorithm, want string, make func() hash.Hash) error {
	if leftBehind(file) {
		c.gone++
		c.note(list, line, "%s is listed and not there; it is a file that a system leaves behind", file)
		return nil
	}
	for _, other := range c.names() {
		if !strings.EqualFold(other, file) {
			continue
		}
		if sum, err := c.sum(other, algorithm, make); err != nil || sum == want {
			c.stood[other]++
			c.note(list, line, "%s is not there; %s, which differs only in case, has its content", file, other)
			return err
		}
	}
	c.found(list, line, "%s is listed and not there", file)
	return nil
}

// sum hashes a file, once for each algorithm.
func (c *checker) sum(file, algorithm string, make func() hash.Hash) (string, error) {
	if sum, ok := c.sums[file][algorithm]; ok {
		return sum, nil
	}
	f, err := c.root.Open(file)
	if err != nil {
		return "", err
	}
	h := make()
	_, err = io.Copy(h, f)
	_ = f.Close() // it was only read
	if err != nil {
		return "", fmt.Errorf("reading %s: %w", file, err)
	}
	if c.sums[file] == nil {
		c.sums[file] = map[string]string{}
	}
	c.sums[file][algorithm] = hex.EncodeToString(h.Sum(nil))
	return c.sums[file][algorithm], nil
}

// resolve turns a path as a list writes it into one of the bag, and says what is
// wrong with it. A path that would leave the bag is refused on every system.
func (c *checker) resolve(list string, line int, written string, tag bool) (string, bool) {
	name := written
	if strings.HasPrefix(name, "./") {
		name = name[2:]
		c.note(list, line, "%s begins with ./", written)
	}
	decoded := c.decodePath(name)
	for _, p := range []string{name, decoded} {
		if strings.HasPrefix(p, "/") || strings.HasPrefix(p, "~") || strings.Contains(p, "\\") && c.files[p] == nil ||
			len(p) > 1 && p[1] == ':' || path.Clean(p) != p || p == ".." || strings.HasPrefix(p, "../") {
			c.found(list, line, "the path %q leads out of the bag or is not in its plain form", written)
			return "", false
		}
	}
	if inPayload := strings.HasPrefix(name, "data/"); inPayload == tag {
		want := "in data/"
		if tag {
			want = "outside data/"
		}
		c.found(list, line, "the path %q is not %s", written, want)
		return "", false
	}
	for _, p := range []string{decoded, name, norm.NFC.String(decoded), norm.NFD.String(decoded)} {
		if _, ok := c.files[p]; ok {
			if p != decoded && p != name {
				c.note(list, line, "%s is there with its letters in another form", decoded)
			}
			return p, true
		}
	}
	return decoded, true
}

// decodePath takes back how a list writes line ends and, from 1.0 on, the percent sign.
// Source: RFC 8493, section 2.1.3.
func (c *checker) decodePath(p string) string {
	pairs := []string{"%0A", "\n", "%0a", "\n", "%0D", "\r", "%0d", "\r"}
	if c.version.atLeast(1, 0) {
		pairs = append(pairs, "%25", "%")
	}
	return strings.NewReplacer(pairs...).Replace(p)
}

var fetchLine = regexp.MustCompile(`^(\S+)[ \t]+(-|[0-9]+)[ \t]+(.+)$`)

// fetch checks what the bag asks to be fetched; nothing is fetched.
func (c *checker) fetch(listed map[string]int) error {
	const name = "fetch.txt"
	if _, ok := c.files[name]; !ok {
		return nil
	}
	lines, err := c.text(name)
	if err != nil {
		return err
	}
	for i, line := range lines {
		m := fetchLine.FindStringSubmatch(line)
		if m == nil {
			c.found(name, i+1, "wanted an address, a length or -, and a path, found %q", line)
			continue
		}
		file, ok := c.resolve(name, i+1, m[3], false)
		if !ok {
			continue
		}
		if listed[file] == 0 {
			c.found(name, i+1, "%s stands in no list of the payload", file)
		}
		info, here := c.files[file]
		if n, err := strconv.ParseInt(m[2], 10, 64); here && err == nil && n != info.Size() {
			c.found(name, i+1, "%s is %d bytes long, listed are %d", file, info.Size(), n)
		}
	}
	return nil
}

// info checks what bag-info.txt says of the payload's size.
func (c *checker) info() error {
	const name = "bag-info.txt"
	if _, ok := c.files[name]; !ok {
		return nil
	}
	lines, err := c.text(name)
	if err != nil {
		return err
	}
	for i, line := range lines {
		label, value, ok := strings.Cut(line, ":")
		switch {
		case line == "":
		case line[0] == ' ' || line[0] == '\t': // goes on from the line before
			if i == 0 {
				c.found(name, 1, "begins with a line that goes on from another")
			}
		case !ok:
			c.found(name, i+1, "wanted \"Label: value\", found %q", line)
		case strings.EqualFold(strings.TrimSpace(label), "Payload-Oxum"):
			value, has := strings.TrimSpace(value), fmt.Sprintf("%d.%d", c.report.Bytes, c.report.Files)
			switch {
			case value == has:
			case c.gone > 0: // said where it is listed
				c.note(name, i+1, "Payload-Oxum says %s, the payload has %s (bytes.files)", value, has)
			default:
				c.found(name, i+1, "Payload-Oxum says %s, the payload has %s (bytes.files)", value, has)
			}
		}
	}
	return nil
}
