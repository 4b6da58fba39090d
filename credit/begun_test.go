package credit

import "testing"

// A cap and a minimum are in force only in cycles that began within their days; a cycle
// that is not known is under all of them.
func TestRulesOfTheCyclesBegun(t *testing.T) {
	course := Category{ID: "course", Award: Award{From: MeasureHours}}
	of := Selection{Categories: []string{"course"}}
	s := Scheme{Categories: []Category{course},
		Caps: []Cap{
			{ID: "old", Selection: of, Most: Whole(5), Begun: Begun{Until: MustDate("2013-12-31")}},
			{ID: "new", Selection: of, Most: Whole(8), Begun: Begun{From: MustDate("2014-01-01")}},
		},
		Minimums: []Minimum{{ID: "section", Selection: of, Least: Whole(7), Begun: Begun{From: MustDate("2014-01-01")}}}}
	claim := Claim{ID: "C1", Category: "course", Fields: map[string]string{"hours": "9"}}
	for _, tt := range []struct {
		start, end, counted, cap string
		minimums                 int
	}{
		{"2013-12-31", "2018-12-30", "5", "5", 0},
		{"2014-01-01", "2018-12-31", "8", "8", 1},
		{"", "", "5", "5", 1},
	} {
		var in Input
		if in.Claims = []Claim{claim}; tt.start != "" {
			in.Cycle = Period{Start: MustDate(tt.start), End: MustDate(tt.end)}
		}
		st, err := Calculate(s, in)
		if err != nil {
			t.Fatal(err)
		}
		if st.Counted.String() != tt.counted || len(st.Minimums) != tt.minimums || st.Categories[0].Cap == nil || st.Categories[0].Cap.String() != tt.cap {
			t.Errorf("begun %q: counted %v, cap %v, minimums %v; want %s, %s, %d of them", tt.start, st.Counted, st.Categories[0].Cap, st.Minimums, tt.counted, tt.cap, tt.minimums)
		}
	}
}
