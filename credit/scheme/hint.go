package scheme

import (
	"slices"
	"strings"

	"evidencevault/credit"
)

// meant are words that rule books have for keys and steps, with what they are called
// here. Of several the first that the table knows is meant.
var meant = map[string][]string{
	"over": {"divide"}, "per": {"divide"}, "by": {"divide"}, "multiply": {"times"}, "factor": {"times"}, "rate": {"award", "times"}, "add": {"plus"},
	"subtract": {"minus"}, "exclude": {"minus"}, "less": {"minus"}, "round": {"nearest"}, "round_down": {"down"}, "floor": {"down"}, "round_up": {"up"},
	"ceil": {"up"}, "table": {"bands"}, "max": {"most", "at_most", "carry_over"}, "maximum": {"most", "at_most"}, "at_most": {"most"}, "limit": {"most", "at_most", "cap"},
	"cap": {"most", "at_most"}, "min": {"least", "at_least"}, "minimum": {"least", "at_least"}, "at_least": {"least"}, "need": {"minimum"}, "different": {"distinct"}, "topic": {"tags"}, "topics": {"tags"},
	"length": {"years"}, "period": {"years", "cycle"}, "end": {"end_month"}, "end_date": {"end_month"}, "keep": {"keep_years"}, "retention": {"keep_years", "proof"}, "name": {"title", "id"},
	"credits": {"award", "target"}, "points": {"award", "target"}, "hours": {"award", "target"}, "required": {"target"}, "carry": {"carry_over"}, "carryover": {"carry_over"}, "expires_months": {"lives_months"},
	"if": {"if_met"}, "only_if": {"if"}, "when": {"if"}, "window": {"per"}, "fields": {"log"}, "documents": {"accepts"}, "evidence": {"accepts", "proof"},
	"categories": {"category"}, "first_cycle": {"not_from_first_cycle"}, "above": {"over"}, "grace": {"grace_days"}, "report_by": {"report_days"},
}

// unknownHint says which key was likely meant, or which there are.
func unknownHint(key string, known []string) string {
	for _, k := range meant[key] {
		if slices.Contains(known, k) {
			if k == "end_month" && slices.Contains(known, "end_day") {
				k = "end_month and end_day"
			}
			return "write " + k
		}
	}
	if near := nearest(key, known); near != "" {
		return "did you mean " + near + "?"
	}
	return "known here: " + strings.Join(known, ", ")
}

// spans are words for stretches of time that are no window here, with what to write.
var spans = map[string]string{
	"calendar_year": `per = "year"`, "calendar year": `per = "year"`, "each year": `per = "year"`, "yearly": `per = "year"`, "annual": `per = "year"`, "years": `per = "year"`,
	"cycle year": `per = "cycle_year"`, "membership_year": `per = "cycle_year"`, "period": `leave per out: a cap is over the cycle`, "activity": `per = "claim"`, "event": `per = "claim"`, "item": `per = "claim"`,
	"month": "no window is shorter than a year but day and claim", "week": "no window is shorter than a year but day and claim", "quarter": "no window is shorter than a year but day and claim",
}

// windowHint says what is wrong with a window of a cap, "" if nothing.
func windowHint(per string) string {
	if hint := spans[per]; hint != "" {
		return hint
	}
	if credit.ValidWindow(per) && (strings.Contains(per, ":") || measureText.MatchString(per)) {
		return ""
	}
	if n, rest, ok := strings.Cut(per, " "); ok && strings.HasPrefix(rest, "year") && strings.Trim(n, "0123456789") == "" {
		return `per = "rolling:` + n + `" for any ` + n + " calendar years in a row"
	}
	return "want " + strings.Join(credit.Windows(), ", ") + ", rolling:N, cycle_rolling:N, or a log field in small letters"
}

// fact returns the name of a fact of key, and reports a text that compares instead.
func (f *fields) fact(key string) string {
	s := f.text(key)
	if strings.ContainsAny(s, "=<>") {
		f.add(f.place(key), `name a fact that stands or not, as in if = "level2" and vaultctl fact set level2=true`, "%s of %s compares: %q", key, f.what, shorten(s))
	}
	return s
}

// awardHint says how an award is written that was given as something else.
func awardHint(n *node) string {
	switch {
	case n.kind == table:
		return `put it in brackets: award = [{ from = "hours" }]`
	case n.kind == text && measureText.MatchString(n.text):
		return `write award = [{ from = "` + n.text + `" }]`
	case n.kind == text && strings.ContainsAny(n.text, "*/+-(x"):
		return `write it in steps, such as award = [{ from = "hours" }, { times = "3/2" }]`
	}
	return "want " + amountHint + `, or steps such as [{ from = "hours" }]`
}

// numberHint says what to write instead of a text that is no number.
func numberHint(n *node) string {
	if n.kind != text {
		return "want " + amountHint
	}
	if share, ok := strings.CutSuffix(strings.TrimSpace(n.text), "%"); ok {
		return `write a fraction: "` + share + `/100"`
	}
	number, rest, ok := strings.Cut(n.text, " ")
	if _, err := credit.ParseAmount(number); ok && err == nil {
		if strings.HasPrefix(rest, "per ") || strings.HasPrefix(rest, "a ") {
			return `write the number alone; "` + rest + `" is the per of a [[cap]]`
		}
		return `write the number alone: "` + number + `"`
	}
	if strings.Contains(n.text, ",") {
		return "write a point, not a comma: " + amountHint
	}
	return "want " + amountHint
}

// tableHint says how the table of key is written.
func tableHint(key string) string {
	switch key {
	case "repeat":
		return `a table such as repeat = { by = "course", factors = ["1", "1/2", "0"] }`
	case "stated":
		return `a table such as stated = { CEU = "10", point = "1" }`
	case "asks_least":
		return `a table such as asks_least = { attended = "9/10" }`
	case "part":
		return `a table such as part = { tags = ["self-study"] }`
	case "cycle", "carry_over", "proof", "instead":
		return "a table: begin it with a line [" + key + "]"
	}
	return "a table"
}

// syntaxHint says what is likely wrong where TOML cannot be read.
func syntaxHint(message string) string {
	if strings.Contains(message, "at start of value") {
		return `put a text in quotes, as in from = "hours"`
	}
	return ""
}
