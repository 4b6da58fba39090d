package find

import "evidencevault/credit"

// Clock is a span of the day, 09:00–17:30. Its own From and To are times; the
// place in the text is Span.From and Span.To.
type Clock struct {
	Span
	From, To     int            // minutes after midnight, 0 to 1440
	Minutes      credit.Minutes // from From to To, without regard to breaks
	PastMidnight bool           // To lies on the next day
	HalfGuessed  bool           // neither am, pm nor a 24-hour figure tells the half of the day
	Breaks       []Break        // those listed in the same text that belong to it
}

// Net returns Minutes less the breaks that are listed, each minute counted once.
func (c Clock) Net() credit.Minutes { return net(c) }

// Break is a pause that the text lists. Its own From and To are times, as in [Clock].
type Break struct {
	Span
	From, To int            // minutes after midnight; both 0 when only the length is told
	Minutes  credit.Minutes // of one
	Count    int            // how many of that length ("two 15-minute breaks"), at least 1
}
