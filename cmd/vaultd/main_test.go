package main

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"evidencevault/catalog"
	"evidencevault/extract/page"
)

// TestMain runs the real program when the test starts itself again.
func TestMain(m *testing.M) {
	page.Main()
	if os.Getenv("VAULTD_TEST_RUN") != "" {
		main()
	}
	os.Exit(m.Run())
}

func vaultd(args ...string) *exec.Cmd {
	cmd := exec.Command(os.Args[0], args...)
	cmd.Env = append(os.Environ(), "VAULTD_TEST_RUN=1", "EVIDENCE_VAULT_DIR=")
	return cmd
}

// ended runs vaultd to its end and returns its exit code and what it wrote.
func ended(t *testing.T, args ...string) (int, string) {
	t.Helper()
	cmd := vaultd(args...)
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	err := cmd.Run()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		t.Fatal(err)
	}
	return cmd.ProcessState.ExitCode(), stderr.String()
}

func newVault(t *testing.T) (dir, drop string) {
	t.Helper()
	base := t.TempDir()
	dir, drop = filepath.Join(base, "vault"), filepath.Join(base, "drop")
	if err := os.Mkdir(drop, 0o700); err != nil {
		t.Fatal(err)
	}
	c, err := catalog.Create(t.Context(), dir, catalog.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	err = c.Act(t.Context(), func(tx *catalog.Tx) error {
		if _, err := tx.Record(t.Context(), &catalog.HolderNamed{Name: "Mirela Tannhof"}); err != nil {
			return err
		}
		_, err := tx.Record(t.Context(), &catalog.DropSet{Dir: drop, Empty: true})
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return dir, drop
}

func put(t *testing.T, path, text string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
}

// running is a vaultd that watches.
type running struct {
	t     *testing.T
	cmd   *exec.Cmd
	lines chan map[string]any
}

func start(t *testing.T, args ...string) *running {
	t.Helper()
	r := &running{t: t, cmd: vaultd(args...), lines: make(chan map[string]any, 100)}
	out, err := r.cmd.StderrPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := r.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	go r.follow(out)
	t.Cleanup(func() {
		if r.cmd.ProcessState == nil {
			r.cmd.Process.Kill()
			r.cmd.Wait()
		}
	})
	return r
}

func (r *running) follow(out io.Reader) {
	defer close(r.lines)
	for s := bufio.NewScanner(out); s.Scan(); {
		line := map[string]any{}
		if err := json.Unmarshal(s.Bytes(), &line); err != nil {
			line["message"] = "no JSON: " + s.Text()
		}
		r.lines <- line
	}
}

// until returns the first line with this message.
func (r *running) until(message string) map[string]any {
	r.t.Helper()
	deadline := time.After(30 * time.Second)
	for {
		select {
		case line, ok := <-r.lines:
			if !ok {
				r.t.Fatalf("vaultd ended before it said %q", message)
			}
			if line["message"] == message {
				return line
			}
		case <-deadline:
			r.t.Fatalf("vaultd never said %q", message)
		}
	}
}

func TestOnceSaysWhatItDidAndExitsZero(t *testing.T) {
	dir, drop := newVault(t)
	const secret = "Rope Terminations in Practice"
	put(t, filepath.Join(drop, "cert.txt"), "Certificate of Attendance\nMirela Tannhof attended "+secret+" on 12 March 2025\n")
	code, log := ended(t, "--vault", dir, "--once", "--settle", "20ms")
	if code != exitDone {
		t.Errorf("exit %d, want 0\n%s", code, log)
	}
	for _, want := range []string{`"message":"taken in"`, `"message":"read"`, `"taken":1`} {
		if !strings.Contains(log, want) {
			t.Errorf("the log lacks %s:\n%s", want, log)
		}
	}
	if strings.Contains(log, secret) {
		t.Errorf("the log has text of the document:\n%s", log)
	}
	if code, log = ended(t, "--vault", dir, "--once", "--settle", "20ms"); code != exitDone || !strings.Contains(log, `"taken":0`) {
		t.Errorf("second run: exit %d\n%s", code, log)
	}
}

func TestOnceWithSomethingToSeeExitsThree(t *testing.T) {
	dir, drop := newVault(t)
	put(t, filepath.Join(drop, "broken.pdf"), "%PDF-1.7\nbroken off")
	code, log := ended(t, "--vault", dir, "--once", "--settle", "20ms")
	if code != exitSee || !strings.Contains(log, `"unread":1`) {
		t.Errorf("exit %d, want 3 for a paper left unread\n%s", code, log)
	}
}

func TestTheSecondDaemonNamesTheFirst(t *testing.T) {
	dir, _ := newVault(t)
	first := start(t, "--vault", dir, "--settle", "20ms")
	first.until("watching")
	for _, args := range [][]string{{"--vault", dir}, {"--vault", dir, "--once"}} {
		code, log := ended(t, args...)
		if code != exitFailed || strings.Count(log, "\n") != 1 || !strings.Contains(log, "vaultd: ") {
			t.Errorf("%q: exit %d, want 1 and one line:\n%s", args, code, log)
		}
		if pid := first.cmd.Process.Pid; !strings.Contains(log, strings.TrimSpace(string(mustJSON(t, pid)))) {
			t.Errorf("%q does not name process %d:\n%s", args, pid, log)
		}
	}
}

func mustJSON(t *testing.T, v any) []byte {
	t.Helper()
	b, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// Asked to end, it ends within 5 s with all in order, also with a file just dropped (A19).
func TestEndsWhenAsked(t *testing.T) {
	for _, signal := range []os.Signal{syscall.SIGTERM, os.Interrupt} {
		dir, drop := newVault(t)
		d := start(t, "--vault", dir, "--settle", "20ms")
		d.until("watching")
		put(t, filepath.Join(drop, "a.txt"), "Certificate")
		d.until("taken in")
		put(t, filepath.Join(drop, "b.txt"), "Another certificate")
		begin := time.Now()
		if err := d.cmd.Process.Signal(signal); err != nil {
			t.Fatal(err)
		}
		for range d.lines { // until it closes its end
		}
		err := d.cmd.Wait()
		if took := time.Since(begin); err != nil || took > 5*time.Second {
			t.Errorf("%v: ended with %v after %v, want in good order within 5 s", signal, err, took)
		}
		// Whatever was not done is done now, and everything is there once.
		if code, log := ended(t, "--vault", dir, "--once", "--settle", "20ms"); code != exitDone {
			t.Errorf("started again: exit %d\n%s", code, log)
		}
		c, err := catalog.Open(t.Context(), dir, catalog.Options{})
		if err != nil {
			t.Fatal(err)
		}
		all, err := c.AllEvidence(t.Context())
		if err != nil || len(all) != 2 {
			t.Errorf("%v: %d evidences, %v, want 2", signal, len(all), err)
		}
		if findings, err := c.Verify(t.Context(), catalog.VerifyOptions{}); err != nil || len(findings) > 0 {
			t.Errorf("%v: %v, %v", signal, findings, err)
		}
		if err := c.Close(); err != nil {
			t.Error(err)
		}
	}
}

func TestWrongUsageAndNoVault(t *testing.T) {
	dir, _ := newVault(t)
	nowhere := filepath.Join(t.TempDir(), "nowhere")
	tests := []struct {
		name, why string
		args      []string
		code      int
		says      string
	}{
		{"no vault", "the way out is named", []string{"--vault", nowhere, "--once"}, exitFailed, "vaultctl setup"},
		{"unknown flag", "it is wrong usage", []string{"--pages"}, exitUsage, "--page"},
		{"argument", "it takes none", []string{"--vault", dir, "here"}, exitUsage, "here"},
		{"no time", "a file would never rest", []string{"--vault", dir, "--once", "--settle", "0s"}, exitUsage, "--settle"},
		{"nonsense time", "it is no duration", []string{"--settle", "soon"}, exitUsage, "soon"},
	}
	for _, test := range tests {
		code, log := ended(t, test.args...)
		if code != test.code || !strings.Contains(log, test.says) || strings.Count(log, "\n") != 1 || !strings.HasPrefix(log, "vaultd: ") {
			t.Errorf("%s (%s): exit %d, want %d, one line with %q:\n%s", test.name, test.why, code, test.code, test.says, log)
		}
	}
	if _, err := os.Stat(nowhere); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("a vault that does not exist was made")
	}
}
