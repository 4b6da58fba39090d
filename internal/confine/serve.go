package confine

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"runtime/debug"
)

// marker is the one variable in a child's environment; its value names the job.
const marker = "EVIDENCE_VAULT_CHILD"

// exitLimit is the code with which a child ends that used up its processor time.
const exitLimit = 97

// A Job is what a child can do.
type Job struct {
	// Prepare runs before the limits hold and before any foreign byte is read.
	// It is given the Setup of [Spec] and returns what answers messages.
	Prepare func(setup []byte) (Handler, error)
}

// A Handler answers one message. Where again is false the child ends after it.
type Handler func(head, body []byte) (answer, blob []byte, again bool)

// Serve does the job of a child and exits, if this process was started as one;
// else it returns at once. It must be called before anything else of the program.
func Serve(jobs map[string]Job) {
	name, ok := os.LookupEnv(marker)
	if !ok {
		return
	}
	os.Exit(serve(name, jobs))
}

func serve(name string, jobs map[string]Job) int {
	if name == jobRun {
		return complain(become())
	}
	job, ok := jobs[name]
	if !ok {
		return complain(fmt.Errorf("no job %q in this program", name))
	}
	in := bufio.NewReaderSize(os.Stdin, pieceBytes)
	first, err := readPart(in, 1<<20)
	if err != nil {
		return complain(err)
	}
	var o orders
	if err := json.Unmarshal(first, &o); err != nil {
		return complain(err)
	}
	handle, err := job.Prepare(o.Setup)
	if err != nil {
		return complain(err)
	}
	force, err := restrict(o)
	if err != nil {
		return complain(err)
	}
	debug.SetMemoryLimit(o.Limits.Memory * 3 / 4)
	debug.SetMaxStack(64 << 20)
	hello, err := json.Marshal(force)
	if err != nil {
		return complain(err)
	}
	if err := sendPart(os.Stdout, bytes.NewReader(hello)); err != nil {
		return complain(err)
	}
	return answer(in, o.Limits, handle)
}

// answer answers the messages that come in until there are no more. It says its answers in
// as few writes as it can, for each may wake the parent.
func answer(in io.Reader, l Limits, handle Handler) int {
	out := bufio.NewWriterSize(os.Stdout, pieceBytes)
	for {
		head, err := readPart(in, 1<<20)
		if err == io.EOF {
			return 0
		}
		if err != nil {
			return complain(err)
		}
		body, err := readPart(in, l.Memory/2)
		if err != nil {
			return complain(err)
		}
		if err := moreTime(l.CPU); err != nil {
			return complain(err)
		}
		reply, blob, again := handle(head, body)
		end := []byte("last")
		if again {
			end = nil
		}
		for _, part := range [][]byte{reply, blob, end} {
			if err := sendPart(out, bytes.NewReader(part)); err != nil {
				return complain(err)
			}
		}
		if err := out.Flush(); err != nil {
			return complain(err)
		}
		if !again {
			return 0
		}
	}
}

func complain(err error) int {
	fmt.Fprintln(os.Stderr, err)
	return 1
}
