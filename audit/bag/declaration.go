package bag

import (
	"bytes"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/ianaindex"
)

const declarationFile = "bagit.txt"

var versionLine = regexp.MustCompile(`^BagIt-Version: ([0-9]+)\.([0-9]+)$`)
var encodingLine = regexp.MustCompile(`^Tag-File-Character-Encoding: (\S+)$`)

// declaration reads bagit.txt, which must be two lines in UTF-8 without a byte order
// mark. Source: RFC 8493, section 2.1.1.
func (c *checker) declaration() error {
	c.decode = decodeUTF8
	c.version = version{1, 0}
	if _, ok := c.files[declarationFile]; !ok {
		c.found(declarationFile, 0, "is missing: this folder does not say that it is a bag")
		return nil
	}
	data, err := c.read(declarationFile)
	if err != nil {
		return err
	}
	if bytes.HasPrefix(data, []byte("\xef\xbb\xbf")) {
		c.found(declarationFile, 1, "begins with a byte order mark")
		data = data[3:]
	}
	lines := splitLines(string(data))
	if len(lines) != 2 {
		c.found(declarationFile, 0, "has %d lines, wanted two: BagIt-Version and Tag-File-Character-Encoding", len(lines))
	}
	lines = append(lines, "", "")
	trim := func(s string) string { return strings.TrimRight(s, " \t") }
	if m := versionLine.FindStringSubmatch(trim(lines[0])); m == nil {
		c.found(declarationFile, 1, "wanted \"BagIt-Version: 1.0\", found %q", lines[0])
	} else {
		c.readVersion(m)
	}
	if m := encodingLine.FindStringSubmatch(trim(lines[1])); m == nil {
		c.found(declarationFile, 2, "wanted \"Tag-File-Character-Encoding: UTF-8\", found %q", lines[1])
	} else if c.decode, err = decoder(m[1]); err != nil {
		c.found(declarationFile, 2, "%v", err)
		c.decode = decodeUTF8
	}
	if c.version.atLeast(1, 0) {
		for i, l := range lines[:2] {
			if trim(l) != l {
				c.found(declarationFile, i+1, "ends in a blank")
			}
		}
	}
	return nil
}

func (c *checker) readVersion(m []string) {
	major, err1 := strconv.Atoi(m[1])
	minor, err2 := strconv.Atoi(m[2])
	if err1 != nil || err2 != nil {
		c.found(declarationFile, 1, "version %s.%s is no number that can be read", m[1], m[2])
		return
	}
	c.version = version{major, minor}
	c.report.Version = m[1] + "." + m[2]
	known := major == 1 && minor == 0 || major == 0 && minor >= 93 && minor <= 97
	if !known {
		c.found(declarationFile, 1, "version %s is not known here: wanted 0.93 to 0.97 or 1.0", c.report.Version)
	}
}

// read returns a tag file's bytes.
func (c *checker) read(name string) ([]byte, error) {
	f, err := c.root.Open(name)
	if err != nil {
		return nil, err
	}
	defer func() { _ = f.Close() }() // it was only read
	data, err := io.ReadAll(io.LimitReader(f, maxTagFile+1))
	if err != nil {
		return nil, err
	}
	if len(data) > maxTagFile {
		return nil, fmt.Errorf("%s is longer than %d bytes", name, maxTagFile)
	}
	return data, nil
}

// text reads a tag file in the encoding that the bag declares.
func (c *checker) text(name string) ([]string, error) {
	data, err := c.read(name)
	if err != nil {
		return nil, err
	}
	s, err := c.decode(data)
	if err != nil {
		c.found(name, 0, "is not written in the encoding that bagit.txt names: %v", err)
		return nil, nil
	}
	return splitLines(s), nil
}

func decodeUTF8(data []byte) (string, error) {
	if !utf8.Valid(data) {
		return "", fmt.Errorf("not UTF-8")
	}
	return string(bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))), nil
}

// decoder returns a function that reads the encoding, named as IANA does.
func decoder(name string) (func([]byte) (string, error), error) {
	if strings.EqualFold(name, "UTF-8") {
		return decodeUTF8, nil
	}
	e, err := ianaindex.IANA.Encoding(name)
	if err != nil || e == nil {
		return nil, fmt.Errorf("encoding %q is not known", name)
	}
	return func(data []byte) (string, error) {
		out, err := e.NewDecoder().Bytes(data)
		if err != nil {
			return "", err
		}
		return strings.TrimPrefix(string(out), "\ufeff"), nil
	}, nil
}

// splitLines parts at LF, CR and CR LF; a last line end ends no empty line.
func splitLines(s string) []string {
	s = strings.ReplaceAll(s, "\r\n", "\n")
	s = strings.ReplaceAll(s, "\r", "\n")
	s = strings.TrimSuffix(s, "\n")
	if s == "" {
		return nil
	}
	return strings.Split(s, "\n")
}
