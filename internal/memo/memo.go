// Package memo keeps answers to questions about texts that are asked again and again while a
// paper is read.
package memo

import "sync"

// most is how many answers a memo keeps before it begins anew: those of a paper of some pages.
const most = 1024

// A Memo keeps answers by what was asked. The zero memo is ready to use, by several at a time.
type Memo[Q comparable, A any] struct {
	mu   sync.Mutex
	kept map[Q]A
}

// Of returns the answer to q: the one that is kept, or else the one that answer gives. Who is given
// an answer must not change it.
func (m *Memo[Q, A]) Of(q Q, answer func(Q) A) A {
	m.mu.Lock()
	a, ok := m.kept[q]
	m.mu.Unlock()
	if ok {
		return a
	}
	a = answer(q)
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.kept == nil || len(m.kept) >= most {
		m.kept = map[Q]A{}
	}
	m.kept[q] = a
	return a
}
