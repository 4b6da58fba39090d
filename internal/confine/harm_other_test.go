//go:build !unix

package confine_test

import "errors"

func kill(string) error { return errors.New("this system has no signals") }
