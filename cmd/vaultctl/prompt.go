package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"golang.org/x/term"
)

// errNoAnswer says that the person ended the input instead of answering.
var errNoAnswer = errors.New("no answer; nothing was changed")

// prompter asks a person on a terminal, one line for each question.
type prompter struct {
	a  *app
	in *bufio.Reader
}

func (a *app) prompter() *prompter { return &prompter{a: a, in: bufio.NewReader(a.in)} }

// ask prints text, and the value that an empty answer stands for, and returns the
// answer. The error is errNoAnswer when the input ends, or ctx's.
func (p *prompter) ask(ctx context.Context, text, otherwise string) (string, error) {
	if otherwise != "" {
		text += " [" + safe(otherwise) + "]"
	}
	fmt.Fprint(p.a.err, text+": ")
	in := p.in // a read that is left behind keeps to its own input
	line, err := answered(ctx, func() (string, error) { return in.ReadString('\n') })
	if ctx.Err() != nil || errors.Is(err, io.EOF) && line == "" {
		fmt.Fprintln(p.a.err)
	}
	if errors.Is(err, io.EOF) && line == "" {
		return "", errNoAnswer
	}
	if err != nil && !errors.Is(err, io.EOF) {
		return "", err
	}
	if line = strings.TrimSpace(line); line == "" {
		return otherwise, nil
	}
	return line, nil
}

// answered waits for an answer or for ctx's end, whichever comes first. Nothing can end
// a read from a terminal, so after ctx's end the read is left to end with the program.
func answered(ctx context.Context, read func() (string, error)) (string, error) {
	type answer struct {
		text string
		err  error
	}
	got := make(chan answer, 1)
	go func() {
		text, err := read()
		got <- answer{text, err}
	}()
	select {
	case a := <-got:
		return a.text, a.err
	case <-ctx.Done():
		return "", ctx.Err()
	}
}

// yes asks a question that is answered with yes or no; an empty answer is no.
func (p *prompter) yes(ctx context.Context, text string) (bool, error) {
	for {
		got, err := p.ask(ctx, text+" (yes/no)", "no")
		if err != nil {
			return false, err
		}
		switch strings.ToLower(got) {
		case "y", "yes":
			return true, nil
		case "n", "no":
			return false, nil
		}
	}
}

// askPassword asks without showing what is typed; without a terminal it takes the
// first line of standard input.
func (a *app) askPassword(ctx context.Context) (string, error) {
	if a.interactive() {
		fmt.Fprint(a.err, "Password (it is not shown, and not kept): ")
		shows, err := term.GetState(int(a.in.Fd()))
		if err != nil {
			return "", err
		}
		got, err := answered(ctx, func() (string, error) {
			got, err := term.ReadPassword(int(a.in.Fd()))
			return string(got), err
		})
		fmt.Fprintln(a.err)
		if ctx.Err() != nil {
			err = errors.Join(err, term.Restore(int(a.in.Fd()), shows))
		}
		return got, err
	}
	line, err := bufio.NewReader(a.in).ReadString('\n')
	if err != nil && !errors.Is(err, io.EOF) {
		return "", err
	}
	return strings.TrimRight(line, "\r\n"), nil
}
