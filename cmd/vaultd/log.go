package main

import (
	"io"
	"os"
	"time"

	"github.com/rs/zerolog"
	"golang.org/x/term"

	"evidencevault/catalog"
	"evidencevault/intake"
	"evidencevault/watcher"
)

// logger says what happens: names, hashes, kinds and counts, never the text of a document.
type logger struct{ log zerolog.Logger }

// newLogger writes lines for people on a terminal, else one JSON object a line.
func newLogger(w io.Writer) *logger {
	if f, ok := w.(*os.File); ok && term.IsTerminal(int(f.Fd())) {
		w = zerolog.ConsoleWriter{Out: w, TimeFormat: time.TimeOnly, NoColor: os.Getenv("NO_COLOR") != ""}
	}
	return &logger{zerolog.New(w).With().Timestamp().Logger()}
}

func (l *logger) begin(vault string) {
	l.log.Info().Str("vault", name(vault)).Int("process", os.Getpid()).Msg("watching")
}

func (l *logger) end() { l.log.Info().Msg("ended as asked") }

// name is a file's name as it may be shown: no control characters, no turned writing.
func name(path string) string { return catalog.FileName(path).String() }

func (l *logger) took(t intake.Taken) {
	e := l.log.Info().Str("sha256", t.SHA256)
	if t.File.Name != "" {
		e = e.Str("file", name(t.File.Path()))
	}
	if len(t.Papers) > 0 {
		e = e.Str("paper", t.Papers[0].Ref())
	}
	if before := t.Before(); before != "" {
		e = e.Str("note", before)
	}
	if t.Left != nil {
		e = e.Str("left", name(t.Left.Error()))
	}
	e.Msg("taken in")
}

func (l *logger) read(r intake.Read) {
	e, what := l.log.Info(), "read"
	switch {
	case r.Problem != nil:
		e, what = l.log.Warn().Str("why", name(r.Problem.Error())), "not read now, tried again"
	case r.Unread():
		e, what = l.log.Warn().Str("outcome", string(r.Outcome)).Str("why", name(r.Reason)), "left unread"
	default:
		e = e.Str("kind", string(r.Kind)).Int("questions", r.Open)
	}
	if r.Paper.ID != "" {
		e = e.Str("paper", r.Paper.Ref()).Str("file", r.Name.String())
	}
	if r.Part != "" {
		e = e.Str("part", r.Part.String())
	}
	if r.Attached > 0 {
		e = e.Int("attached", r.Attached)
	}
	e.Msg(what)
}

func (l *logger) notice(n watcher.Notice) {
	e := l.log.Warn()
	switch n.What {
	case watcher.PassedOver, watcher.FolderBack, watcher.Gone, watcher.Overflow, watcher.Polling:
		e = l.log.Info()
	}
	e.Str("path", name(n.Path)).Str("why", name(n.Text)).Msg(string(n.What))
}

// report says what a run that ends came to.
func (l *logger) report(r intake.Report) {
	for _, left := range r.Left {
		l.log.Warn().Str("path", name(left.File.Path())).Str("why", name(left.Err.Error())).Msg("left untaken")
	}
	unread := 0
	for _, read := range r.Read {
		if read.Unread() {
			unread++
		}
	}
	l.log.Info().Int("taken", len(r.Taken)).Int("left", len(r.Left)).Int("read", len(r.Read)-unread).Int("unread", unread).Msg("done")
}

// failed tells of what a visitor of the page saw only as something that went wrong.
func (l *logger) failed(err error) { l.log.Error().Str("why", name(err.Error())).Msg("the page") }
