// Package audittest has a time-stamp authority for the tests of those who stamp.
package audittest

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// Authority is a time-stamp authority of the program openssl, in a folder.
type Authority struct{ Dir string }

const opensslConfig = `[tsa]
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

// NewAuthority makes a root, root.pem, and a certificate for time stamps in a folder that
// is there. The error holds what openssl says.
func NewAuthority(dir string) (Authority, error) {
	a := Authority{dir}
	for name, text := range map[string]string{"ts.cnf": opensslConfig, "serial": "01\n"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			return a, err
		}
	}
	for _, line := range []string{
		"req|-x509|-config|ts.cnf|-newkey|ec|-pkeyopt|ec_paramgen_curve:P-256|-nodes|-keyout|root.key|-out|root.pem|-days|2|-subj|/CN=Vallmere Root",
		"req|-config|ts.cnf|-newkey|ec|-pkeyopt|ec_paramgen_curve:P-256|-nodes|-keyout|tsa.key|-out|tsa.csr|-subj|/CN=Vallmere Time",
		"x509|-req|-in|tsa.csr|-CA|root.pem|-CAkey|root.key|-CAcreateserial|-days|2|-extfile|ts.cnf|-extensions|stamps|-out|tsa.pem",
	} {
		if _, err := a.Openssl(strings.Split(line, "|")...); err != nil {
			return a, err
		}
	}
	return a, nil
}

// Openssl runs the program in the authority's folder and returns what it prints.
func (a Authority) Openssl(args ...string) (string, error) {
	cmd := exec.Command("openssl", args...)
	cmd.Dir = a.Dir
	out, err := cmd.CombinedOutput()
	if err != nil {
		err = fmt.Errorf("openssl %s: %w\n%s", args[0], err, out)
	}
	return string(out), err
}

// Reply answers a request (RFC 3161) in DER.
func (a Authority) Reply(request []byte) ([]byte, error) {
	if err := os.WriteFile(filepath.Join(a.Dir, "query.tsq"), request, 0o600); err != nil {
		return nil, err
	}
	if _, err := a.Openssl("ts", "-reply", "-config", "ts.cnf", "-queryfile", "query.tsq", "-out", "answer.tsr"); err != nil {
		return nil, err
	}
	return os.ReadFile(filepath.Join(a.Dir, "answer.tsr"))
}
