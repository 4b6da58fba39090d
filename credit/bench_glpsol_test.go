package credit_test

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"evidencevault/credit"
)

// BenchmarkBesideGlpsol counts the same claims by this program and by glpsol, which gets
// the finished programme, works in floating point, and is started anew for each.
func BenchmarkBesideGlpsol(b *testing.B) {
	program, err := exec.LookPath("glpsol")
	if err != nil {
		b.Fatalf("glpsol is missing: %v; install it, on Debian: apt-get install glpk-utils", err)
	}
	dir := b.TempDir()
	beside := func(name string, s credit.Scheme, in credit.Input, text func(credit.Statement) string) {
		st, err := credit.Calculate(s, in)
		if err != nil || st.Unproven != nil {
			b.Fatal(err, st.Unproven)
		}
		b.Run(name+"/this program", func(b *testing.B) {
			for b.Loop() {
				if _, err := credit.Calculate(s, in); err != nil {
					b.Fatal(err)
				}
			}
		})
		file := filepath.Join(dir, "programme.lp")
		if err := os.WriteFile(file, []byte(text(st)), 0o600); err != nil {
			b.Fatal(err)
		}
		b.Run(name+"/glpsol", func(b *testing.B) {
			for b.Loop() {
				if out, err := exec.CommandContext(b.Context(), program, "--lp", file, "-w", filepath.Join(dir, "out")).CombinedOutput(); err != nil {
					b.Fatalf("%v\n%s", err, out)
				}
			}
		})
	}
	for _, n := range []int{100, 1_000, 10_000} {
		s, in := manyClaims(n)
		beside(fmt.Sprintf("%d claims", n), s, in, func(st credit.Statement) string { return linearProgramme(s, in, st, st.Meets) })
	}
	for _, n := range []int{20, 60} {
		s, in := tangled(7, n, n/4, false)
		for i := range s.Caps {
			s.Caps[i].Whole = true
		}
		for i := range s.Categories {
			s.Categories[i].Award.Steps = []credit.Step{{Op: credit.OpDivide, By: credit.Operand{Amount: credit.Whole(1)}}}
		}
		beside(fmt.Sprintf("%d whole claims under %d caps", n, n/4), s, in, func(st credit.Statement) string { return newWholeProgramme(s, in).text(false) })
	}
}
