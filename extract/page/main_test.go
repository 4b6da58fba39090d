package page_test

import (
	"os"
	"testing"

	"evidencevault/extract/page"
)

func TestMain(m *testing.M) {
	page.Main()
	os.Exit(m.Run())
}
