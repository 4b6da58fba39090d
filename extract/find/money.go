package find

// Amount is a sum of money.
type Amount struct {
	Span
	Value      string   // exact decimal with a point, with a minus when negative
	Currency   string   // ISO 4217; "" when several are possible or none is named
	Candidates []string // when a sign has several: "$", "kr"
	Sign       string   // the sign or word as printed, "" for a bare number
	Family     string   // "$", "kr", "¥", "£" or "Rs" where several currencies share the sign
	Negative   bool     // a minus or the parentheses of book-keeping stand with it
	Refund     bool     // a word such as refund stands before it; Value does not turn with it
}
