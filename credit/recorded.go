package credit

import (
	"encoding/json"
	"fmt"
)

// Recorded is a statement as it was printed with [Calc], read back. Its figures are those
// of that day; nothing is worked out anew.
type Recorded struct {
	Statement
	Lines []string // how everything came about, line by line; nil if that was not printed
}

// ParseRecorded reads what [Calc] prints. What a statement does not print, such as
// what each credit carried in came to, is not there. The error says what is not JSON of
// a statement.
func ParseRecorded(data []byte) (Recorded, error) {
	var j statementJSON
	if err := json.Unmarshal(data, &j); err != nil {
		return Recorded{}, fmt.Errorf("a recorded statement: %w", err)
	}
	s := Statement{
		Certification: j.Certification, Scheme: j.Scheme, Unit: j.Unit, Counted: j.Counted, Missing: j.Missing, Meets: j.Meets,
		CarryIn: j.CarryIn, CarryOut: j.CarryOut, ExclusiveMissing: j.ExclusiveMissing, Categories: j.Categories, Minimums: j.Minimums,
		Cuts: j.Cuts, Leaving: j.Leaving, Deadlines: j.Deadlines, Unproven: j.Unproven, Changed: j.Changed, Derivations: j.Steps,
		Cycle: Period{dayOf(j.Cycle.Start), dayOf(j.Cycle.End)}, On: dayOf(j.On),
	}
	if j.Target != nil {
		s.HasTarget, s.Target = true, *j.Target
	}
	if j.Claims != nil {
		s.Claims = *j.Claims
	}
	return Recorded{s, j.Lines}, nil
}

func dayOf(d *Date) Date {
	if d == nil {
		return Date{}
	}
	return *d
}
