package extract

import "sync"

// mostKept is how many answers a memo keeps before it begins anew: those of one long paper.
const mostKept = 4096

// A memo keeps the answers to a question about a text that is asked again and again. The
// zero memo is ready to use, by several at a time.
type memo[A any] struct {
	mu   sync.Mutex
	kept map[string]A
}

func (m *memo[A]) of(text string, answer func(string) A) A {
	m.mu.Lock()
	a, ok := m.kept[text]
	m.mu.Unlock()
	if ok {
		return a
	}
	a = answer(text)
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.kept == nil || len(m.kept) >= mostKept {
		m.kept = map[string]A{}
	}
	m.kept[text] = a
	return a
}
