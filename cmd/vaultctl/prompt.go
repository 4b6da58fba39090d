package main

import (
	"bufio"
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
// answer. The error is errNoAnswer when the input ends.
func (p *prompter) ask(text, otherwise string) (string, error) {
	if otherwise != "" {
		text += " [" + safe(otherwise) + "]"
	}
	fmt.Fprint(p.a.err, text+": ")
	line, err := p.in.ReadString('\n')
	if errors.Is(err, io.EOF) && line == "" {
		fmt.Fprintln(p.a.err)
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

// yes asks a question that is answered with yes or no; an empty answer is no.
func (p *prompter) yes(text string) (bool, error) {
	for {
		got, err := p.ask(text+" (yes/no)", "no")
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
func (a *app) askPassword() (string, error) {
	if a.interactive() {
		fmt.Fprint(a.err, "Password (it is not shown, and not kept): ")
		got, err := term.ReadPassword(int(a.in.Fd()))
		fmt.Fprintln(a.err)
		return string(got), err
	}
	line, err := bufio.NewReader(a.in).ReadString('\n')
	if err != nil && !errors.Is(err, io.EOF) {
		return "", err
	}
	return strings.TrimRight(line, "\r\n"), nil
}
