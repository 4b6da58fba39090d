//go:build faultpoints

package stop

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"
)

// wish is what the environment asks for.
type wish struct {
	name, how string
	times     int // which time the name is reached
}

var asked = sync.OnceValue(func() wish {
	text := os.Getenv("EVIDENCE_VAULT_STOP")
	if text == "" {
		return wish{}
	}
	w, err := parse(text)
	if err != nil {
		panic(err)
	}
	return w
})

var (
	mu      sync.Mutex
	reached = map[string]int{}
)

func parse(text string) (wish, error) {
	parts := strings.Split(text, ":")
	w := wish{name: parts[0], how: "kill", times: 1}
	if !known(w.name) {
		return wish{}, fmt.Errorf("EVIDENCE_VAULT_STOP=%s: no such stop point, want one of %s", text, strings.Join(slices.Concat(Points, ClosePoints, Moving), ", "))
	}
	for _, part := range parts[1:] {
		if n, err := strconv.Atoi(part); err == nil && n > 0 {
			w.times = n
		} else if slices.Contains([]string{"kill", "error", "wait"}, part) {
			w.how = part
		} else {
			return wish{}, fmt.Errorf("EVIDENCE_VAULT_STOP=%s: want name[:n][:kill|error|wait]", text)
		}
	}
	return w, nil
}

// known reports whether a stop point has this name.
func known(name string) bool {
	return slices.Contains(slices.Concat(Points, ClosePoints, Moving), name)
}

// At stops here if the environment asks for it, see the package comment. The error
// is [ErrStopped] or nil. A name that is in no list panics.
func At(name string) error {
	if !known(name) {
		panic("stop point " + name + " is not in the list")
	}
	w := asked()
	if w.name != name {
		return nil
	}
	mu.Lock()
	reached[name]++
	now := reached[name] == w.times
	mu.Unlock()
	switch {
	case !now:
		return nil
	case w.how == "error":
		return fmt.Errorf("%s: %w", name, ErrStopped)
	case w.how == "wait":
		return wait()
	}
	return kill()
}

// kill ends the process without running anything more of it.
func kill() error {
	self, err := os.FindProcess(os.Getpid())
	if err != nil {
		return err
	}
	if err := self.Kill(); err != nil {
		return err
	}
	select {}
}

func wait() error {
	file := os.Getenv("EVIDENCE_VAULT_STOP_FILE")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		return fmt.Errorf("EVIDENCE_VAULT_STOP_FILE=%s: %w", file, err)
	}
	for {
		if _, err := os.Lstat(file); errors.Is(err, fs.ErrNotExist) {
			return nil
		}
		time.Sleep(5 * time.Millisecond)
	}
}
