package scheme_test

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strconv"

	"evidencevault/credit"
)

// claimsFile writes the claims of the example as calc reads them.
func (w *turner) claimsFile() string {
	out := object{}
	if c := obj(w.Rules["cycle"]); c["anchor"] == nil && c["start"] != nil {
		out["cycle"] = object{"start": c["start"], "end": c["end"]}
	}
	if w.Rules["life"] != nil {
		out["on"] = w.facts["on"]
	}
	if len(w.facts) > 0 {
		out["facts"] = w.facts
	}
	claims, carried := []object{}, []object{}
	for _, c := range w.Claims {
		if c["category"] == credit.CategoryCarried {
			carried = append(carried, w.carried(c))
		} else {
			claims = append(claims, w.claim(c))
		}
	}
	out["claims"], out["carried"] = claims, carried
	data, err := json.MarshalIndent(out, "", "  ")
	if err != nil {
		w.fail("claims: %v", err)
	}
	return string(data)
}

// carried is credit brought in: its amount is the measure that its award reads.
func (w *turner) carried(c object) object {
	a := obj(obj(obj(w.Rules["categories"])["carried"])["award"])
	amount := c[str(a["from"])]
	if amount == nil || len(list(a["steps"])) > 0 {
		w.fail("carried credit %v by %v", c, a)
	}
	out := object{"id": c["id"], "category": "carried", "amount": str(amount)}
	if c["tags"] != nil {
		out["tags"] = c["tags"]
	}
	if c["date"] != nil {
		out["earned"] = c["date"]
	}
	return out
}

func (w *turner) claim(c object) object {
	out := object{}
	for _, k := range slices.Sorted(maps.Keys(c)) {
		switch v := c[k]; k {
		case "id", "tags":
			out[k] = v
		case "category":
			out[k] = named(v)
		case "date":
			if c["end_date"] != nil {
				out["start_date"] = v
			} else {
				out["end_date"] = v
			}
		case "end_date":
			out["end_date"] = v
		case "minutes":
			w.whole(out, "duration_minutes", k, v, 1)
		case "hours":
			if c["minutes"] != nil {
				out["hours"] = str(v)
			} else {
				w.whole(out, "duration_minutes", k, v, 60)
			}
		case "count":
			w.whole(out, "count", k, v, 1)
		case "stated", "credits":
			if k == "stated" || c["stated"] == nil {
				out["credits"] = []object{{"unit": w.Rules["unit"], "value": str(v)}}
			}
		default:
			out[field(k)] = str(v)
		}
	}
	return out
}

// whole writes a measure as the whole number that the claims file has for it, or as a
// log field of its own name where it is none.
func (w *turner) whole(out object, key, name string, v any, times int64) {
	a, err := credit.ParseAmount(str(v))
	if err != nil {
		w.fail("%s %v", name, v)
		return
	}
	text := a.Mul(credit.Whole(times)).String()
	if n, err := strconv.ParseInt(text, 10, 64); err == nil {
		out[key] = n
		return
	}
	if name == "count" {
		w.fail("count %v is no whole number", v)
	}
	out[name] = str(v)
}

// compare returns what differs from what is expected.
func (w *turner) compare(st credit.Statement) []string {
	var wrong []string
	differs := func(what string, want any, got any) {
		a, err := credit.ParseAmount(str(want))
		b, err2 := credit.ParseAmount(str(got))
		if err == nil && err2 == nil && a.Equal(b) || str(want) == str(got) {
			return
		}
		wrong = append(wrong, fmt.Sprintf("%s: want %v, got %v", what, want, got))
	}
	simple := map[string]any{
		"total": st.Counted, "meets": st.Meets, "shortfall": st.Missing, "carry_out": st.CarryOut, "exclusive_missing": st.ExclusiveMissing,
		"target": st.Target, "start": st.Cycle.Start, "end": st.Cycle.End,
	}
	for _, k := range slices.Sorted(maps.Keys(w.Expect)) {
		want := w.Expect[k]
		if got, ok := simple[k]; ok {
			differs(k, want, got)
			continue
		}
		switch k {
		case "per_claim":
			for id, v := range obj(want) {
				r, _ := st.Result(id)
				differs("claim "+id, v, r.Awarded)
			}
		case "per_category":
			for id, v := range obj(want) {
				differs("category "+id, v, counted(st, str(named(id))))
			}
		case "needs":
			for id, v := range obj(want) {
				n := minimum(st, str(named(id)))
				if have := obj(v)["have"]; have != nil {
					differs("need "+id+" have", have, n.Have)
				}
				differs("need "+id+" met", obj(v)["met"], n.Met)
			}
		case "tests":
			years := list(want)
			for year, v := range obj(want) {
				named := maps.Clone(obj(v))
				named["year"] = year
				years = append(years, named)
			}
			if len(years) == 0 {
				wrong = append(wrong, fmt.Sprintf("tests is %v, which is not compared", want))
			}
			for _, v := range years {
				year := str(obj(v)["year"])
				n, alone := minimum(st, year), minimum(st, year+" alone")
				differs("year "+year+" have", obj(v)["have"], n.Have)
				differs("year "+year+" met", obj(v)["met"], n.Met && (alone.ID == "" || alone.Met))
			}
		case "deadline":
			got := "none"
			for _, d := range st.Deadlines {
				if d.What == k {
					got = d.Date.String()
				}
			}
			differs(k, want, got)
		default:
			wrong = append(wrong, fmt.Sprintf("expect has %q, which is not compared", k))
		}
	}
	return wrong
}

func counted(st credit.Statement, id string) credit.Amount {
	if id == credit.CategoryCarried {
		return st.CarryIn
	}
	for _, c := range st.Categories {
		if c.ID == id {
			return c.Counted
		}
	}
	return credit.Whole(-1)
}

func minimum(st credit.Statement, id string) credit.MinimumState {
	for _, m := range st.Minimums {
		if m.ID == id {
			return m
		}
	}
	return credit.MinimumState{}
}
