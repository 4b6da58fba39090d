package main

import (
	"io"
	"net/http"
	"net/http/httptest"
	"os"

	"github.com/rogpeppe/go-internal/testscript"

	"evidencevault/audit/audittest"
)

// runAuthority is the story command "authority DIR": a time-stamp authority of the
// program openssl behind a server on loopback, whose address is $TSA as long as the
// story runs.
func runAuthority(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: authority DIR")
	}
	dir := ts.MkAbs(args[0])
	ts.Check(os.MkdirAll(dir, 0o700))
	a, err := audittest.NewAuthority(dir)
	ts.Check(err)
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		query, err := io.ReadAll(r.Body)
		if err != nil {
			http.Error(w, "no question", http.StatusBadRequest)
			return
		}
		answer, err := a.Reply(query)
		if err != nil {
			ts.Logf("%v", err)
			http.Error(w, "no answer", http.StatusInternalServerError)
			return
		}
		w.Header().Set("Content-Type", "application/timestamp-reply")
		if _, err := w.Write(answer); err != nil {
			ts.Logf("answer: %v", err)
		}
	}))
	ts.Defer(s.Close)
	ts.Setenv("TSA", s.URL)
}
