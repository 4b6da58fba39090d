package main

import (
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"github.com/rogpeppe/go-internal/testscript"
)

const authorityConfig = `[tsa]
default_tsa = one
[one]
serial = serial
crypto_device = builtin
signer_cert = tsa.pem
certs = root.pem
signer_key = tsa.key
signer_digest = sha256
default_policy = 1.2.3.4.1
digests = sha256
ess_cert_id_alg = sha256
[req]
distinguished_name = name
[name]
[stamps]
extendedKeyUsage = critical,timeStamping
`

// runAuthority is the story command "authority DIR": a time-stamp authority of the
// program openssl behind a server on loopback, whose address is $TSA as long as the
// story runs.
func runAuthority(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: authority DIR")
	}
	dir := ts.MkAbs(args[0])
	ts.Check(os.MkdirAll(dir, 0o700))
	ts.Check(os.WriteFile(filepath.Join(dir, "ts.cnf"), []byte(authorityConfig), 0o600))
	ts.Check(os.WriteFile(filepath.Join(dir, "serial"), []byte("01\n"), 0o600))
	openssl := func(args ...string) error {
		cmd := exec.Command("openssl", args...)
		cmd.Dir = dir
		out, err := cmd.CombinedOutput()
		if err != nil {
			ts.Logf("openssl %s: %s", args[0], out)
		}
		return err
	}
	for _, line := range []string{
		"req|-x509|-config|ts.cnf|-newkey|ec|-pkeyopt|ec_paramgen_curve:P-256|-nodes|-keyout|root.key|-out|root.pem|-days|2|-subj|/CN=Vallmere Root",
		"req|-config|ts.cnf|-newkey|ec|-pkeyopt|ec_paramgen_curve:P-256|-nodes|-keyout|tsa.key|-out|tsa.csr|-subj|/CN=Vallmere Time",
		"x509|-req|-in|tsa.csr|-CA|root.pem|-CAkey|root.key|-CAcreateserial|-days|2|-extfile|ts.cnf|-extensions|stamps|-out|tsa.pem",
	} {
		ts.Check(openssl(strings.Split(line, "|")...))
	}
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		query, err := io.ReadAll(r.Body)
		if err == nil {
			err = os.WriteFile(filepath.Join(dir, "query"), query, 0o600)
		}
		if err == nil {
			err = openssl("ts", "-reply", "-config", "ts.cnf", "-queryfile", "query", "-out", "answer")
		}
		answer, rerr := os.ReadFile(filepath.Join(dir, "answer"))
		if err != nil || rerr != nil {
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
