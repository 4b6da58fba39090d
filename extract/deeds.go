package extract

// weighDeeds weighs what the sentences of a paper say that somebody did.
func (w *scales) weighDeeds() {}
