package confine

import (
	"syscall"
	"testing"
)

// A signal for a bad address is a matter of memory only near the limit.
func TestRefusedPage(t *testing.T) {
	const limit = 256 << 20
	tests := []struct {
		name string
		end  syscall.WaitStatus
		said string
		most int64
		want bool
	}{
		{"fault at the limit", syscall.WaitStatus(syscall.SIGSEGV), "", 200 << 20, true},
		{"bus error at the limit", syscall.WaitStatus(syscall.SIGBUS), "", 200 << 20, true},
		{"fault far from it", syscall.WaitStatus(syscall.SIGSEGV), "", 40 << 20, false},
		{"killed at the limit", syscall.WaitStatus(syscall.SIGKILL), "", 200 << 20, false},
		{"fault named at the limit", syscall.WaitStatus(2 << 8), "SIGSEGV: segmentation violation\nPC=0x40", 200 << 20, true},
		{"fault named far from it", syscall.WaitStatus(2 << 8), "SIGSEGV: segmentation violation\nPC=0x40", 40 << 20, false},
		{"wrong address in the program", syscall.WaitStatus(2 << 8), "panic: runtime error: invalid memory address\n[signal SIGSEGV: segmentation violation]", 200 << 20, false},
		{"exit at the limit", syscall.WaitStatus(2 << 8), "", 200 << 20, false},
	}
	for _, tt := range tests {
		if got := refusedPage(tt.end, tt.said, tt.most, limit); got != tt.want {
			t.Errorf("%s: %v, want %v", tt.name, got, tt.want)
		}
	}
}
