package confine

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
)

// jobRun is the child that becomes another program.
const jobRun = "run"

// Command is another program, run under limits.
type Command struct {
	Path   string // absolute
	Args   []string
	Env    []string
	Input  io.Reader `json:"-"`
	Reads  []string  // folders it may read besides the system's own
	Limits Limits
}

// Run runs a program that neither writes a file nor reaches a network, and returns
// what it prints. The child limits itself and then becomes the program. The error
// matches one of this package's; what the program printed to standard error is in it.
func Run(ctx context.Context, c Command) ([]byte, error) {
	c.Limits = c.Limits.filled()
	c.Limits.Messages = 0 // the processor time is for the whole run
	first, err := json.Marshal(c)
	if err != nil {
		return nil, fmt.Errorf("%w: %v", ErrStart, err)
	}
	child, err := launch(jobRun, c.Limits)
	if err != nil {
		return nil, fmt.Errorf("%w: %v", ErrStart, err)
	}
	defer child.Close()
	defer child.killWhen(ctx)()
	sent := make(chan error, 1)
	go func() {
		err := sendPart(child.to, bytes.NewReader(first))
		if err == nil {
			_, err = io.Copy(child.to, c.Input)
		}
		sent <- errors.Join(err, child.to.Close())
	}()
	out, err := io.ReadAll(io.LimitReader(child.from, c.Limits.Answer+1))
	if int64(len(out)) > c.Limits.Answer {
		child.kill()
		err = errLong
	}
	<-child.done
	<-sent // a program may end before it has read all; its end says what that means
	if err == nil && child.state != nil && child.state.Success() {
		return out, nil
	}
	return nil, child.verdict(ctx, err)
}

// become limits this process and makes it another program. It returns only an error.
func become() error {
	first, err := readPart(os.Stdin, 1<<20)
	if err != nil {
		return err
	}
	var c Command
	if err := json.Unmarshal(first, &c); err != nil {
		return err
	}
	return replace(c)
}
