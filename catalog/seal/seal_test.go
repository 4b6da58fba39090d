package seal_test

import (
	"encoding/hex"
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"pgregory.net/rapid"

	"evidencevault/catalog/seal"
)

// The leaves and roots of the reference tests of Certificate Transparency (RFC 6962):
// github.com/google/certificate-transparency, cpp/merkletree/merkle_tree_test.cc, and
// github.com/transparency-dev/merkle, testonly/constants.go; both Apache-2.0.
var (
	leafInputs = []string{"", "00", "10", "2021", "3031", "40414243", "5051525354555657", "606162636465666768696a6b6c6d6e6f"}
	roots      = []string{
		"6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d",
		"fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125",
		"aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77",
		"d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7",
		"4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4",
		"76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef",
		"ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c",
		"5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328",
	}
)

const emptyRoot = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855" // RFC 6962, section 2.1: the hash of nothing

func bytesOf(t *testing.T, text string) []byte {
	t.Helper()
	b, err := hex.DecodeString(text)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func TestTreeAgreesWithPublishedRoots(t *testing.T) {
	var tree seal.Tree
	var stored []seal.Hash
	read := func(indexes []int64) (out []seal.Hash, err error) {
		for _, i := range indexes {
			out = append(out, stored[i])
		}
		return out, nil
	}
	if got, err := tree.Root(); err != nil || hex.EncodeToString(got[:]) != emptyRoot {
		t.Errorf("empty tree: %x, %v", got, err)
	}
	for i, input := range leafInputs {
		hashes, err := tree.Add(seal.Leaf(bytesOf(t, input)))
		if err != nil {
			t.Fatal(err)
		}
		if int64(len(stored)) != seal.Stored(int64(i)) {
			t.Fatalf("%d leaves: %d hashes stored, Stored says %d", i, len(stored), seal.Stored(int64(i)))
		}
		stored = append(stored, hashes...)
		held, err := tree.Root()
		if err != nil || hex.EncodeToString(held[:]) != roots[i] {
			t.Errorf("%d leaves in memory: %x, %v, want %s", i+1, held, err, roots[i])
		}
		read, err := seal.Root(int64(i+1), read)
		if err != nil || read != held {
			t.Errorf("%d leaves stored: %x, %v, want %x", i+1, read, err, held)
		}
	}
	for i := range roots {
		var head seal.Head
		head.Size = int64(i + 1)
		copy(head.Hash[:], bytesOf(t, roots[i]))
		if ok, err := seal.Continues(head, 8, read); !ok || err != nil {
			t.Errorf("the tree of 8 does not continue that of %d: %v", i+1, err)
		}
		head.Hash[0] ^= 1
		if ok, _ := seal.Continues(head, 8, read); ok {
			t.Errorf("the tree of 8 continues a head of %d that was altered", i+1)
		}
	}
}

func TestOneChangedLeafChangesTheRoot(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		leaves := rapid.SliceOfN(rapid.SliceOfN(rapid.Byte(), 0, 4), 1, 40).Draw(t, "leaves")
		at := rapid.IntRange(0, len(leaves)-1).Draw(t, "at")
		root := func(change bool) seal.Hash {
			var tree seal.Tree
			for i, l := range leaves {
				if change && i == at {
					l = append([]byte{1}, l...)
				}
				if _, err := tree.Add(seal.Leaf(l)); err != nil {
					t.Fatal(err)
				}
			}
			got, err := tree.Root()
			if err != nil {
				t.Fatal(err)
			}
			return got
		}
		if root(false) == root(true) {
			t.Fatal("equal roots")
		}
	})
}

func newKey(t *testing.T) *seal.Key {
	t.Helper()
	k, err := seal.NewKey("vault-test")
	if err != nil {
		t.Fatal(err)
	}
	return k
}

func TestHeadIsOnlyTakenWithItsSignature(t *testing.T) {
	key, other := newKey(t), newKey(t)
	head := seal.Head{Origin: key.Name(), Size: 7, Hash: seal.Leaf([]byte("x"))}
	signed, err := seal.Sign(head, key)
	if err != nil {
		t.Fatal(err)
	}
	if got, err := seal.Check(signed, key.Public()); err != nil || got != head {
		t.Errorf("Check: %+v, %v, want %+v", got, err, head)
	}
	if _, err := seal.Check(signed, other.Public()); !errors.Is(err, seal.ErrHead) {
		t.Errorf("another key: %v, want ErrHead", err)
	}
	for i := range signed {
		bent := append([]byte(nil), signed...)
		bent[i] ^= 2
		if got, err := seal.Check(bent, key.Public()); err == nil && got != head {
			t.Errorf("byte %d bent: taken as %+v", i, got)
		}
	}
}

func TestHeadFileIsReplacedWhole(t *testing.T) {
	dir := t.TempDir()
	if _, err := seal.ReadHead(dir); !errors.Is(err, seal.ErrNoHead) {
		t.Errorf("no head: %v, want ErrNoHead", err)
	}
	for _, text := range []string{"first, and long\n", "second\n"} {
		if err := seal.WriteHead(dir, []byte(text)); err != nil {
			t.Fatal(err)
		}
		if got, err := seal.ReadHead(dir); err != nil || string(got) != text {
			t.Errorf("read %q, %v, want %q", got, err, text)
		}
	}
	names, err := os.ReadDir(dir)
	if err != nil || len(names) != 1 {
		t.Errorf("%d files left, want the head alone (%v)", len(names), err)
	}
}

func TestKeyFile(t *testing.T) {
	dir := t.TempDir()
	if _, err := seal.ReadKey(dir); !errors.Is(err, seal.ErrNoKey) {
		t.Errorf("no key: %v", err)
	}
	key := newKey(t)
	if err := seal.WriteKey(dir, key); err != nil {
		t.Fatal(err)
	}
	if err := seal.WriteKey(dir, newKey(t)); !errors.Is(err, seal.ErrKeyExists) {
		t.Errorf("a second key over the first: %v, want ErrKeyExists", err)
	}
	got, err := seal.ReadKey(dir)
	if err != nil || got.Public() != key.Public() {
		t.Fatalf("read back: %v", err)
	}
	path := filepath.Join(dir, seal.KeyFile)
	if runtime.GOOS != "windows" {
		if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o600 {
			t.Errorf("mode %v, want 0600 (%v)", info.Mode(), err)
		}
		for _, mode := range []os.FileMode{0o644, 0o640, 0o602} {
			if err := os.Chmod(path, mode); err != nil {
				t.Fatal(err)
			}
			if _, err := seal.ReadKey(dir); !errors.Is(err, seal.ErrExposed) {
				t.Errorf("mode %04o: %v, want ErrExposed", mode, err)
			}
		}
	}
	second, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	mixed := t.TempDir()
	if err := seal.WriteKey(mixed, newKey(t)); err != nil {
		t.Fatal(err)
	}
	first, err := os.ReadFile(filepath.Join(mixed, seal.KeyFile))
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{"empty": "", "text": "hello\n", "public form of another": string(first[:60]) + string(second[60:])} {
		bad := t.TempDir()
		if err := os.WriteFile(filepath.Join(bad, seal.KeyFile), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		if _, err := seal.ReadKey(bad); !errors.Is(err, seal.ErrBadKey) {
			t.Errorf("%s: %v, want ErrBadKey", name, err)
		}
	}
}

func TestHandingOverNeedsTheOldKey(t *testing.T) {
	old, fresh, other := newKey(t), newKey(t), newKey(t)
	text, err := seal.HandOver(old, fresh.Public())
	if err != nil {
		t.Fatal(err)
	}
	if err := seal.CheckHandOver(text, old.Public(), fresh.Public()); err != nil {
		t.Error(err)
	}
	for name, err := range map[string]error{
		"to another key":      seal.CheckHandOver(text, old.Public(), other.Public()),
		"by another key":      seal.CheckHandOver(text, other.Public(), fresh.Public()),
		"without a statement": seal.CheckHandOver("", old.Public(), fresh.Public()),
	} {
		if !errors.Is(err, seal.ErrHead) {
			t.Errorf("%s: %v, want ErrHead", name, err)
		}
	}
}
