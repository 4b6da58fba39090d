package page

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strconv"
)

const mostMended = 200_000 // that are looked for

var (
	objectHead = regexp.MustCompile(`(?:^|[\s>])(\d{1,7})\s+(\d{1,5})\s+obj\b`)
	rootEntry  = regexp.MustCompile(`/Root\s+(\d{1,7})\s+(\d{1,5})\s+R`)
)

// mended gives a PDF whose inner table of contents leads nowhere a new one, over the objects that are whole
// (ISO 32000-1:2008, 7.5.4 and 7.5.5); of two with one number the later counts, as after an update. It is nil where
// no object is whole, none is named as the root, or the file is encrypted.
func mended(data []byte) []byte {
	root := rootEntry.FindAllSubmatch(data, -1)
	if root == nil || bytes.Contains(data, []byte("/Encrypt")) {
		return nil
	}
	type object struct{ from, to, generation int }
	objects := map[int]object{}
	heads := objectHead.FindAllSubmatchIndex(data, mostMended)
	for k, h := range heads {
		next := len(data)
		if k+1 < len(heads) {
			next = heads[k+1][2]
		}
		end := bytes.Index(data[h[2]:next], []byte("endobj"))
		if end < 0 {
			continue
		}
		number, _ := strconv.Atoi(string(data[h[2]:h[3]]))
		generation, _ := strconv.Atoi(string(data[h[4]:h[5]]))
		objects[number] = object{h[2], h[2] + end + len("endobj"), generation}
	}
	if len(objects) == 0 {
		return nil
	}
	numbers := make([]int, 0, len(objects))
	for n := range objects {
		numbers = append(numbers, n)
	}
	slices.Sort(numbers)
	var out, table bytes.Buffer
	out.WriteString("%PDF-1.7\n")
	for _, n := range numbers {
		o := objects[n]
		fmt.Fprintf(&table, "%d 1\n%010d %05d n \n", n, out.Len(), o.generation)
		out.Write(data[o.from:o.to])
		out.WriteByte('\n')
	}
	start, last := out.Len(), root[len(root)-1]
	fmt.Fprintf(&out, "xref\n0 1\n0000000000 65535 f \n%strailer\n<</Size %d /Root %s %s R>>\nstartxref\n%d\n%%%%EOF\n", table.Bytes(), numbers[len(numbers)-1]+1, last[1], last[2], start)
	return out.Bytes()
}
