package find

import "evidencevault/credit"

// Unit is what a length of time is counted in.
type Unit string

// The units. Minutes are known for minutes and hours, and for lessons and
// sessions whose length is told.
const (
	Minute  Unit = "minute"
	Hour    Unit = "hour"
	Day     Unit = "day"
	Week    Unit = "week"
	Month   Unit = "month"
	Year    Unit = "year"
	Lesson  Unit = "lesson"  // teaching unit, UE, lesson, période
	Session Unit = "session" // evening, date, class, séance
)

// Duration is a length of time in a text.
type Duration struct {
	Span
	Count      credit.Amount    // how many of Unit
	Unit       Unit             // the largest unit named
	Minutes    credit.Minutes   // 0 when the text does not tell, or tells several
	Candidates []credit.Minutes // what it may be, when Minutes is 0: the ends of a span, lessons at 45, 50 and 60
	Each       credit.Minutes   // the length of one, of lessons and sessions
	Contact    bool             // "contact hours" and their like
	PerWeek    bool             // "37.5 hours a week", "per day": a rate, no length
	Break      bool             // the length of a break
	Defines    bool             // "1 UE = 45 Minuten": it tells the length of a lesson, not of an activity
}
