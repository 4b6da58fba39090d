package main

import (
	"bufio"
	"context"
	"errors"
	"io"
	"os"
	"strings"
	"testing"
)

// Who presses Ctrl-C at a question is not asked for a line first.
func TestAQuestionEndsWithItsContext(t *testing.T) {
	silent, never, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer never.Close() // its end would be an answer
	defer silent.Close()
	ctx, stop := context.WithCancel(t.Context())
	stop()
	p := &prompter{a: &app{err: io.Discard}, in: bufio.NewReader(silent)}
	if got, err := p.ask(ctx, "Confirm these", "yes"); !errors.Is(err, context.Canceled) || got != "" {
		t.Errorf("got %q, %v", got, err)
	}
	p.in = bufio.NewReader(strings.NewReader("perhaps\nyes\n"))
	if ok, err := p.yes(t.Context(), "Confirm these"); !ok || err != nil {
		t.Errorf("got %v, %v, want yes after asking again", ok, err)
	}
}
