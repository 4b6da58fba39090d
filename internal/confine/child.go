package confine

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"runtime"
	"strings"
	"sync"
	"time"
)

// Spec says what child to start.
type Spec struct {
	Job    string
	Setup  any // handed to the job's Prepare as JSON
	Limits Limits
	Open   bool // may open files: only for a child that never sees a foreign byte
}

// The ways in which a child can end without an answer.
var (
	ErrMemory  = errors.New("it needed more memory than allowed")
	ErrTime    = errors.New("it took longer than allowed")
	ErrFlood   = errors.New("it answered with more than allowed")
	ErrDied    = errors.New("the reader stopped in the middle")
	ErrSource  = errors.New("the document could not be read from its file")
	ErrStart   = errors.New("the reader could not be started")
	ErrStopped = errors.New("reading was broken off")
)

// Child is a running child. It is not safe for use by several goroutines at once.
type Child struct {
	limits   Limits
	in       InForce
	to, from *os.File
	answers  *bufio.Reader // of from
	cmd      *exec.Cmd
	errs     *tail
	done     chan struct{} // closed when the process has ended and is waited for
	state    *os.ProcessState
	asked    int
	spoilt   bool
}

// Start starts a child and waits until it is ready: prepared, and under its limits.
// The error matches [ErrStart], or ctx's. The caller must Close it.
func Start(ctx context.Context, s Spec) (*Child, error) {
	s.Limits = s.Limits.filled()
	setup, err := json.Marshal(s.Setup)
	if err != nil {
		return nil, fmt.Errorf("%w: %v", ErrStart, err)
	}
	c, err := launch(s.Job, s.Limits)
	if err != nil {
		return nil, fmt.Errorf("%w: %v", ErrStart, err)
	}
	first, err := json.Marshal(orders{Limits: s.Limits, Setup: setup, Open: s.Open, Own: c.in.Namespaces})
	if err != nil {
		return nil, c.failedStart(ctx, err)
	}
	ready, cancel := context.WithTimeout(ctx, startTime)
	defer cancel()
	defer c.killWhen(ready)()
	if err := sendPart(c.to, bytes.NewReader(first)); err != nil {
		return nil, c.failedStart(ctx, err)
	}
	hello, err := readPart(c.answers, 1<<20)
	if err != nil {
		return nil, c.failedStart(ctx, err)
	}
	own := c.in.Namespaces
	if err := json.Unmarshal(hello, &c.in); err != nil {
		return nil, c.failedStart(ctx, err)
	}
	c.in.Namespaces = own
	return c, nil
}

// startTime is how long a child may take until it is ready; compiling the PDF engine
// for the first time takes some seconds, on a busy machine many.
const startTime = 2 * time.Minute

func (c *Child) failedStart(ctx context.Context, err error) error {
	c.Close()
	if ctx.Err() != nil {
		return ctx.Err()
	}
	return fmt.Errorf("%w: %v: %s", ErrStart, err, c.errs.line())
}

// launch starts the process, in namespaces of its own if the system allows it.
func launch(job string, l Limits) (*Child, error) {
	c, err := launchAs(job, l, true)
	if err != nil && namespaces {
		c, err = launchAs(job, l, false)
	}
	return c, err
}

func launchAs(job string, l Limits, own bool) (*Child, error) {
	self, err := os.Executable()
	if err != nil {
		return nil, err
	}
	inR, inW, err := os.Pipe()
	if err != nil {
		return nil, err
	}
	defer inR.Close()
	outR, outW, err := os.Pipe()
	if err != nil {
		inW.Close()
		return nil, err
	}
	defer outW.Close()
	c := &Child{limits: l, to: inW, from: outR, answers: bufio.NewReaderSize(outR, pieceBytes), errs: &tail{}, done: make(chan struct{})}
	c.in.Namespaces = own && namespaces
	c.cmd = exec.Command(self)
	c.cmd.Env = append(childEnvironment(), marker+"="+job)
	c.cmd.Dir = emptyFolder()
	c.cmd.Stdin, c.cmd.Stdout, c.cmd.Stderr = inR, outW, c.errs
	c.cmd.WaitDelay = 2 * time.Second
	c.cmd.SysProcAttr = attributes(own)
	started := make(chan error, 1)
	go c.live(started)
	if err := <-started; err != nil {
		inW.Close()
		outR.Close()
		return nil, err
	}
	return c, nil
}

// live starts the process and stays on one thread until it has ended, because the
// kernel ends a child with the thread that started it.
func (c *Child) live(started chan<- error) {
	runtime.LockOSThread()
	defer runtime.UnlockOSThread()
	defer close(c.done)
	err := c.cmd.Start()
	started <- err
	if err != nil {
		return
	}
	// How it ended is read from the state; the error says no more.
	_ = c.cmd.Wait()
	c.state = c.cmd.ProcessState
}

// InForce returns the protections that hold for this child.
func (c *Child) InForce() InForce { return c.in }

// Spent says that the child is to be replaced: it failed, or has answered often enough.
func (c *Child) Spent() bool { return c.spoilt || c.asked >= c.limits.Messages }

// Fresh says that the child has been asked once at most.
func (c *Child) Fresh() bool { return c.asked <= 1 }

// Ask sends a head and a body and returns the answer. When ctx ends the child is
// killed. The error matches one of this package's, or ctx's when it was cancelled;
// after an error the child is spent.
func (c *Child) Ask(ctx context.Context, head []byte, body io.Reader) (answer, blob []byte, err error) {
	if c.spoilt {
		return nil, nil, ErrDied
	}
	c.asked++
	stop := c.killWhen(ctx)
	defer stop()
	sent := make(chan error, 1)
	go func() { sent <- c.send(head, body) }()
	answer, err = readPart(c.answers, c.limits.Answer)
	var end []byte
	if err == nil {
		blob, err = readPart(c.answers, c.limits.Answer)
	}
	if err == nil {
		end, err = readPart(c.answers, 16)
	}
	if err == nil && len(end) > 0 {
		c.spoilt = true // it has said that it ends
	}
	if err != nil {
		c.spoilt = true
		c.kill()
	}
	serr := <-sent
	if err == nil && serr == nil {
		return answer, blob, nil
	}
	c.spoilt = true
	c.kill()
	<-c.done
	var src *sourceError
	if errors.As(serr, &src) {
		return nil, nil, fmt.Errorf("%w: %v", ErrSource, src.err)
	}
	return nil, nil, c.verdict(ctx, err)
}

func (c *Child) send(head []byte, body io.Reader) error {
	to := bufio.NewWriterSize(c.to, pieceBytes)
	if err := sendPart(to, bytes.NewReader(head)); err != nil {
		return err
	}
	err := sendPart(to, body)
	if err == nil {
		err = to.Flush()
	}
	if err != nil {
		var src *sourceError
		if errors.As(err, &src) {
			c.kill() // it waits for the rest of a document that will not come
		}
		return err
	}
	return nil
}

// verdict says why a child that has ended gave no answer.
func (c *Child) verdict(ctx context.Context, err error) error {
	said := c.errs.String()
	switch {
	case errors.Is(ctx.Err(), context.DeadlineExceeded):
		return ErrTime
	case ctx.Err() != nil:
		return fmt.Errorf("%w: %w", ErrStopped, ctx.Err())
	case errors.Is(err, errLong):
		return ErrFlood
	case c.state != nil && (c.state.ExitCode() == exitLimit || outOfTime(c.state)):
		return ErrTime
	case strings.Contains(said, "out of memory"), strings.Contains(said, "cannot allocate memory"), strings.Contains(said, "stack exceeds"):
		return ErrMemory
	case c.state != nil && outOfMemory(c.state, said, c.limits.Memory):
		return ErrMemory
	}
	return fmt.Errorf("%w: %s", ErrDied, c.errs.line())
}

// killWhen kills the child when ctx ends, until the function returned is called.
func (c *Child) killWhen(ctx context.Context) func() {
	stop := context.AfterFunc(ctx, c.kill)
	return func() { stop() }
}

func (c *Child) kill() {
	if c.cmd.Process != nil {
		killTree(c.cmd.Process)
	}
}

// Close ends the child and returns when nothing of it is left.
func (c *Child) Close() error {
	c.spoilt = true
	c.kill()
	<-c.done
	return errors.Join(c.to.Close(), c.from.Close())
}

// tail keeps the beginning of what a child writes to standard error.
type tail struct {
	mu  sync.Mutex
	buf []byte
}

const tailBytes = 8 << 10

func (t *tail) Write(p []byte) (int, error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if room := tailBytes - len(t.buf); room > 0 {
		t.buf = append(t.buf, p[:min(room, len(p))]...)
	}
	return len(p), nil
}

func (t *tail) String() string {
	t.mu.Lock()
	defer t.mu.Unlock()
	return string(t.buf)
}

// line returns the first line, without control characters, short enough for a reason.
func (t *tail) line() string {
	s, _, _ := strings.Cut(t.String(), "\n")
	s = strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f || r == 0xfffd {
			return ' '
		}
		return r
	}, s)
	if len(s) > 200 {
		s = s[:200]
	}
	if s == "" {
		return "it said nothing"
	}
	return s
}
