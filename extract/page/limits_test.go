package page

import (
	"testing"
	"time"
)

// What holds where nothing else is asked for: a document takes 12 s, recognition 20 s a
// page and 60 s a document.
func TestUsualLimits(t *testing.T) {
	o := Options{}.filled()
	if o.Timeout > 12*time.Second || o.PageTime > 20*time.Second || o.OCRTime != time.Minute || o.Pages != 200 || o.Bytes != 96<<20 || len(o.Languages) != 5 {
		t.Errorf("%+v", o)
	}
	if o = (Options{OCRTime: time.Second, Pages: 3}).filled(); o.OCRTime != time.Second || o.Pages != 3 {
		t.Errorf("what was asked for became %+v", o)
	}
}
