package catalog_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"evidencevault/catalog"
	"evidencevault/catalog/catalogtest"
)

// BenchmarkVerify verifies a vault of 500 files and 250 MB, and hashes the same files
// with the program sha256sum, side by side.
func BenchmarkVerify(b *testing.B) {
	c := catalogtest.New(b)
	const files, size = 500, 500_000
	var paths []string
	for n := range uint64(files) {
		seed := sha256.Sum256(binary.BigEndian.AppendUint64(nil, n))
		kept, _ := catalogtest.Take(b, c, "file.bin", string(bytes.Repeat(seed[:], size/len(seed))))
		paths = append(paths, filepath.Join(c.Dir(), "evidence", kept.SHA256[:2], kept.SHA256+kept.Ext))
	}
	b.Run("vault", func(b *testing.B) {
		b.SetBytes(files * size)
		for b.Loop() {
			if found, err := c.Verify(ctx, catalog.VerifyOptions{}); err != nil || len(found) > 0 {
				b.Fatal(found, err)
			}
		}
	})
	b.Run("sha256sum", func(b *testing.B) {
		b.SetBytes(files * size)
		for b.Loop() {
			cmd := exec.Command("sha256sum", paths...)
			cmd.Stderr = os.Stderr
			if out, err := cmd.Output(); err != nil || bytes.Count(out, []byte("\n")) != files {
				b.Fatal(err)
			}
		}
	})
}
