package web

import (
	"fmt"
	"net/http"
	"time"
)

// How often the log is looked at for a page that is open, and how long one stream
// lasts before the browser opens the next.
const (
	lookEvery  = 700 * time.Millisecond
	streamTime = 10 * time.Minute
)

// events tells an open page when something happened in the vault, here, in the daemon
// or on the command line (server-sent events, HTML Living Standard, section 9.2).
func (s *Server) events(w http.ResponseWriter, r *http.Request) {
	control := http.NewResponseController(w)
	if err := control.SetWriteDeadline(time.Now().Add(streamTime + time.Minute)); err != nil {
		s.fail(w, r, err)
		return
	}
	w.Header().Set("Content-Type", "text/event-stream")
	last := -1
	tick := time.NewTicker(lookEvery)
	defer tick.Stop()
	end := time.NewTimer(streamTime)
	defer end.Stop()
	for {
		n, err := s.o.Journal.Catalog().Length(r.Context())
		if err != nil {
			return // the page asks again
		}
		if n != last {
			if _, err := fmt.Fprintf(w, "event: log\ndata: %d\n\n", n); err != nil {
				return
			}
			if err := control.Flush(); err != nil {
				return
			}
			last = n
		}
		select {
		case <-r.Context().Done():
			return
		case <-s.ended.Done():
			return
		case <-end.C:
			return
		case <-tick.C:
		}
	}
}
