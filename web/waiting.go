package web

import (
	"cmp"
	"context"
	"slices"
	"sync"

	"evidencevault/credit"
	"evidencevault/extract/paper"
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

// asShown puts papers into the order in which the worklist shows them, which is the order
// in which one goes through them.
func asShown(list []journal.WaitingPaper) {
	type place struct {
		group int
		line  workLine
	}
	places := make(map[string]place, len(list))
	for _, p := range list {
		places[p.ID] = place{slices.Index(workOrder, lacks(p)), workLine{ID: p.ID, End: day(value(p, paper.FieldEnd))}}
	}
	slices.SortStableFunc(list, func(a, b journal.WaitingPaper) int {
		x, y := places[a.ID], places[b.ID]
		return cmp.Or(cmp.Compare(x.group, y.group), x.line.compare(y.line))
	})
}

// waiting is [journal.Journal.WaitingFor]; "" is the first certification. The list is in the
// order of the worklist.
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
	asShown(list)
	k.by[certification] = list
	return list, nil
}
