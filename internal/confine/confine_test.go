package confine_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"

	"go.uber.org/goleak"

	"evidencevault/internal/confine"
)

func TestMain(m *testing.M) {
	confine.Serve(map[string]confine.Job{
		"obey":   {Prepare: func([]byte) (confine.Handler, error) { return obey, nil }},
		"refuse": {Prepare: func([]byte) (confine.Handler, error) { return nil, errors.New("no engine here") }},
	})
	if os.Getenv(parentMark) != "" {
		beParent()
	}
	code := m.Run()
	if err := goleak.Find(); err != nil && code == 0 {
		fmt.Fprintln(os.Stderr, err)
		code = 1
	}
	os.Exit(code)
}

// obey is a reader that does whatever harm it is told to, and answers with how it went.
func obey(head, body []byte) (answer, blob []byte, again bool) {
	what, arg, _ := strings.Cut(string(head), " ")
	var err error
	switch what {
	case "echo":
		return []byte("heard"), body, true
	case "last":
		return []byte("heard"), nil, false
	case "pid":
		return []byte(strconv.Itoa(os.Getpid())), nil, true
	case "environment":
		return []byte(strings.Join(os.Environ(), "\n")), nil, true
	case "open":
		_, err = os.ReadFile(arg)
	case "write":
		err = os.WriteFile(arg, []byte("out"), 0o600)
	case "exec":
		err = exec.Command("/bin/sh", "-c", "true").Run()
	case "dial":
		_, err = net.DialTimeout("tcp", arg, 2*time.Second)
	case "kill":
		err = kill(arg)
	default:
		harm(what)
	}
	if err != nil {
		return []byte("refused: " + err.Error()), nil, true
	}
	return []byte("done"), nil, true
}

func harm(what string) {
	switch what {
	case "sleep":
		<-make(chan int)
	case "spin":
		for i := 0; ; i++ {
			if i < 0 {
				return
			}
		}
	case "eat":
		var all [][]byte
		for {
			b := make([]byte, 1<<20)
			for i := range b {
				b[i] = byte(i)
			}
			all = append(all, b)
			if len(all) > 1<<20 {
				return
			}
		}
	case "flood":
		for {
			if _, err := os.Stdout.Write(append([]byte{0, 0, 0xff, 0xff}, make([]byte, 0xffff)...)); err != nil {
				os.Exit(1)
			}
		}
	case "shout":
		for range 1 << 14 {
			fmt.Fprintln(os.Stderr, strings.Repeat("x", 1<<10))
		}
		os.Exit(3)
	case "half":
		os.Stdout.Write([]byte{0, 0, 0, 99, 'h', 'a', 'l', 'f'})
		os.Exit(0)
	case "nothing":
		os.Exit(0)
	case "panic":
		panic("on purpose")
	case "deep":
		fmt.Println(deep(1))
	}
}

// deep calls itself until the stack's limit; it never comes to nought.
func deep(n int) int {
	if n == 0 {
		return 0
	}
	return deep(n+1) + len(strconv.Itoa(n))
}

func start(t *testing.T, l confine.Limits) *confine.Child {
	t.Helper()
	c, err := confine.Start(context.Background(), confine.Spec{Job: "obey", Limits: l})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := c.Close(); err != nil {
			t.Error(err)
		}
	})
	return c
}

func ask(t *testing.T, c *confine.Child, what string) string {
	t.Helper()
	answer, _, err := c.Ask(context.Background(), []byte(what), strings.NewReader(""))
	if err != nil {
		t.Fatalf("%s: %v", what, err)
	}
	return string(answer)
}

func TestBodiesOfAllLengths(t *testing.T) {
	c := start(t, confine.Limits{})
	for _, n := range []int{0, 1, 65535, 65536, 65537, 3 << 20} {
		body := bytes.Repeat([]byte{7}, n)
		_, got, err := c.Ask(context.Background(), []byte("echo"), bytes.NewReader(body))
		if err != nil || !bytes.Equal(got, body) {
			t.Errorf("%d bytes: got %d, error %v", n, len(got), err)
		}
	}
	if c.Spent() {
		t.Error("the child is spent after six answers")
	}
}

func TestChildIsReplacedInTime(t *testing.T) {
	c := start(t, confine.Limits{Messages: 2})
	ask(t, c, "echo")
	if c.Spent() {
		t.Error("spent after the first of two")
	}
	ask(t, c, "echo")
	if !c.Spent() {
		t.Error("not spent after the second of two")
	}
	d := start(t, confine.Limits{})
	if ask(t, d, "last"); !d.Spent() {
		t.Error("not spent though it said that it ends")
	}
}

// A child of a vault must not be able to do harm with what it was handed.
func TestChildCannot(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Log("this system keeps a child from less; InForce says so")
		return
	}
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	secret := filepath.Join(t.TempDir(), "secret")
	if err := os.WriteFile(secret, []byte("s"), 0o600); err != nil {
		t.Fatal(err)
	}
	c := start(t, confine.Limits{})
	in := c.InForce()
	if in.Landlock == 0 && !in.Namespaces {
		t.Fatalf("neither Landlock nor namespaces here: %+v", in)
	}
	for what, guarded := range map[string]bool{
		"open " + secret:                    in.Landlock > 0,
		"open /etc/passwd":                  in.Landlock > 0,
		"write " + secret:                   in.Landlock > 0,
		"exec":                              in.Landlock > 0,
		"dial " + l.Addr().String():         in.Namespaces || in.Landlock >= 4,
		"kill " + strconv.Itoa(os.Getpid()): in.Namespaces || in.Landlock >= 6,
	} {
		if got := ask(t, c, what); guarded && !strings.HasPrefix(got, "refused") {
			t.Errorf("%s: %s", what, got)
		}
	}
	if got := ask(t, c, "environment"); strings.Count(got, "\n") != 0 {
		t.Errorf("environment %q: want the marker alone", got)
	}
}

// Each way to fail has a reason of its own, comes in time, and leaves nothing behind.
func TestChildThatFails(t *testing.T) {
	tests := []struct {
		do   string
		want error
	}{
		{"sleep", confine.ErrTime},
		{"spin", confine.ErrTime},
		{"eat", confine.ErrMemory},
		{"flood", confine.ErrFlood},
		{"shout", confine.ErrDied},
		{"half", confine.ErrDied},
		{"nothing", confine.ErrDied},
		{"panic", confine.ErrDied},
		{"deep", confine.ErrMemory},
	}
	for _, tt := range tests {
		t.Run(tt.do, func(t *testing.T) {
			if runtime.GOOS != "linux" && tt.do == "eat" {
				return // only Linux limits memory
			}
			c := start(t, confine.Limits{Memory: 256 << 20, CPU: time.Minute, Answer: 1 << 20})
			wait := 30 * time.Second
			if tt.want == confine.ErrTime {
				wait = time.Second
			}
			ctx, stop := context.WithTimeout(context.Background(), wait)
			defer stop()
			begin := time.Now()
			_, _, err := c.Ask(ctx, []byte(tt.do), strings.NewReader("body"))
			if !errors.Is(err, tt.want) {
				t.Errorf("error %v: want %v", err, tt.want)
			}
			if took := time.Since(begin); took > wait+2*time.Second {
				t.Errorf("it took %v", took)
			}
			if !c.Spent() {
				t.Error("the child may be asked again")
			}
		})
	}
}

// The parent's clock may be far: processor time ends a busy child by itself.
func TestProcessorTimeEndsAChild(t *testing.T) {
	if runtime.GOOS == "windows" {
		return // there the parent's clock alone holds
	}
	c := start(t, confine.Limits{CPU: time.Second, Messages: 1})
	ctx, stop := context.WithTimeout(context.Background(), time.Minute)
	defer stop()
	begin := time.Now()
	if _, _, err := c.Ask(ctx, []byte("spin"), strings.NewReader("")); !errors.Is(err, confine.ErrTime) {
		t.Errorf("error %v: want %v", err, confine.ErrTime)
	}
	if time.Since(begin) > 50*time.Second {
		t.Error("only the parent's clock ended it")
	}
}

func TestCancelledIsNotTooLong(t *testing.T) {
	c := start(t, confine.Limits{})
	ctx, stop := context.WithCancel(context.Background())
	r, w := io.Pipe()
	go func() {
		// The pipe's reader is closed by the end of the child at the latest.
		_, _ = w.Write([]byte("begin"))
		stop()
		_ = w.CloseWithError(context.Canceled)
	}()
	_, _, err := c.Ask(ctx, []byte("echo"), r)
	if err == nil || errors.Is(err, confine.ErrTime) {
		t.Errorf("error %v", err)
	}
}

type failing struct{}

func (failing) Read([]byte) (int, error) { return 0, errors.New("the disk is gone") }

func TestSourceThatFails(t *testing.T) {
	c := start(t, confine.Limits{})
	_, _, err := c.Ask(context.Background(), []byte("echo"), failing{})
	if !errors.Is(err, confine.ErrSource) || !strings.Contains(err.Error(), "the disk is gone") {
		t.Errorf("error %v: want %v with its cause", err, confine.ErrSource)
	}
}

func TestChildThatDoesNotStart(t *testing.T) {
	for job, want := range map[string]string{"refuse": "no engine here", "unheard": "no job"} {
		c, err := confine.Start(context.Background(), confine.Spec{Job: job})
		if err == nil {
			c.Close()
		}
		if !errors.Is(err, confine.ErrStart) || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: error %v: want %q in it", job, err, want)
		}
	}
}

func TestRun(t *testing.T) {
	if runtime.GOOS == "windows" {
		return // the programs below are not there
	}
	out, err := confine.Run(context.Background(), confine.Command{Path: "/bin/cat", Input: strings.NewReader("through")})
	if err != nil || string(out) != "through" {
		t.Errorf("cat printed %q, error %v", out, err)
	}
	dir := t.TempDir()
	secret := filepath.Join(dir, "secret")
	if err := os.WriteFile(secret, []byte("s"), 0o600); err != nil {
		t.Fatal(err)
	}
	if runtime.GOOS == "linux" {
		if out, err := confine.Run(context.Background(), confine.Command{Path: "/bin/cat", Args: []string{secret}, Input: strings.NewReader("")}); err == nil {
			t.Errorf("a program read %q, which was not given to it", out)
		}
		if out, err := confine.Run(context.Background(), confine.Command{Path: "/bin/cat", Args: []string{secret}, Reads: []string{dir}, Input: strings.NewReader("")}); err != nil || string(out) != "s" {
			t.Errorf("a program read %q of what was given to it, error %v", out, err)
		}
	}
	ctx, stop := context.WithTimeout(context.Background(), time.Second)
	defer stop()
	if _, err := confine.Run(ctx, confine.Command{Path: "/bin/sleep", Args: []string{"60"}, Input: strings.NewReader("")}); !errors.Is(err, confine.ErrTime) {
		t.Errorf("sleep: error %v: want %v", err, confine.ErrTime)
	}
}

// parentMark makes this test's program a parent that waits for its child for ever.
const parentMark = "CONFINE_TEST_PARENT"

func beParent() {
	c, err := confine.Start(context.Background(), confine.Spec{Job: "obey"})
	if err != nil {
		fmt.Println(err)
		os.Exit(1)
	}
	fmt.Println("ready")
	// It is killed long before an answer.
	_, _, _ = c.Ask(context.Background(), []byte("sleep"), strings.NewReader(""))
	os.Exit(1)
}
