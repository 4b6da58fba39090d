package web

import (
	"context"
	"sync"

	"evidencevault/credit"
	"evidencevault/journal"
)

// waitingList keeps what waits, for as long as nothing happened in the vault: every act
// is an event of the log, so an equal length is an equal list. The list is shared and not
// to be changed.
type waitingList struct {
	mu     sync.Mutex
	length int
	day    credit.Date
	by     map[string][]journal.WaitingPaper // by certification
}

// waiting is [journal.Journal.WaitingFor]; "" is the first certification.
func (s *Server) waiting(ctx context.Context, certification string) ([]journal.WaitingPaper, error) {
	k := &s.waits
	length, err := s.o.Journal.Catalog().Length(ctx)
	if err != nil {
		return nil, err
	}
	day := s.o.Journal.Today()
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.length != length || k.day != day {
		k.length, k.day, k.by = length, day, map[string][]journal.WaitingPaper{}
	}
	if list, ok := k.by[certification]; ok {
		return list, nil
	}
	list, err := s.o.Journal.WaitingFor(ctx, certification)
	if err != nil {
		return nil, err
	}
	k.by[certification] = list
	return list, nil
}
