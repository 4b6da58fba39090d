package scheme

import (
	"bytes"
	"encoding/json"
	"strings"

	"evidencevault/credit"
)

// object is a part of the JSON Schema; its keys are printed in the order of the alphabet.
type object = map[string]any

// Schema returns the JSON Schema (draft 2020-12) of a scheme file, for editors: every key
// with what it means. It names what may stand where; whether the figures go together is
// for [Check] to say.
func Schema() []byte {
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(wholeSchema()); err != nil {
		panic(err) // it holds maps, lists and texts alone
	}
	return out.Bytes()
}

func says(text string, of object) object {
	of["description"] = text
	return of
}

func ref(name string) object             { return object{"$ref": "#/$defs/" + name} }
func amount(text string) object          { return says(text, ref("amount")) }
func words(text string) object           { return says(text, object{"type": "string"}) }
func names1(text string) object          { return says(text, ref("texts")) }
func truth(text string) object           { return says(text, object{"type": "boolean"}) }
func day(text string) object             { return says(text, ref("day")) }
func listOf(item object) object          { return object{"type": "array", "items": item, "minItems": 1} }
func oneOf(list ...object) object        { return object{"anyOf": list} }
func pattern(p string) object            { return object{"type": "string", "pattern": p} }
func tablesOf(name string) object        { return object{"type": "array", "items": ref(name)} }
func among(list ...string) object        { return object{"type": "string", "enum": list} }
func chosen(t string, l []string) object { return says(t, among(l...)) }

func whole(text string, low, high int) object {
	return says(text, object{"type": "integer", "minimum": low, "maximum": high})
}

// closed is a table that has these keys and no others.
func closed(text string, keys object, required ...string) object {
	o := object{"type": "object", "description": text, "properties": keys, "additionalProperties": false}
	if len(required) > 0 {
		o["required"] = required
	}
	return o
}

// with adds keys to a copy of others.
func with(keys object, others ...object) object {
	all := object{"source": words("The section of the rule book that says so.")}
	for _, o := range append(others, keys) {
		for k, v := range o {
			all[k] = v
		}
	}
	return all
}

func wholeSchema() object {
	o := closed("One body's rules, as docs/scheme.md describes them.", with(object{
		"scheme":     says("The version of this language, always 1.", object{"const": 1}),
		"id":         says("A short name of these rules.", ref("id")),
		"version":    words("The edition of the rule book."),
		"title":      words("What the certificate is called."),
		"body":       words("Who gives it."),
		"unit":       words("What one credit is called, such as point."),
		"target":     says("How much a cycle asks: an amount, or a list of steps on the holder's facts.", ref("award")),
		"cycle":      ref("cycle"),
		"category":   says("One table for each kind of activity.", object{"type": "object", "propertyNames": ref("id"), "additionalProperties": ref("category")}),
		"cap":        says("What limits credit.", tablesOf("cap")),
		"minimum":    says("What must be there besides the total.", tablesOf("minimum")),
		"exclusive":  says("Minimums that may not share a credit.", tablesOf("exclusive")),
		"deadline":   says("Days until which something must be done.", tablesOf("deadline")),
		"instead":    ref("instead"),
		"carry_over": ref("carry_over"),
		"proof":      ref("proof"),
	}), "scheme", "id", "unit")
	o["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	o["title"] = "Scheme file"
	o["$defs"] = object{
		"id":     pattern(idText.String()),
		"amount": says(`An exact amount such as "12", "7.5" or "31/3"; whole numbers may stand without quotes.`, oneOf(object{"type": "integer", "minimum": 0}, pattern(`^[0-9]+(\.[0-9]+)?$|^[0-9]+/0*[1-9][0-9]*$`))),
		"texts":  oneOf(object{"type": "string", "minLength": 1}, object{"type": "array", "items": object{"type": "string", "minLength": 1}}),
		"day":    pattern(`^[0-9]{4}-[0-9]{2}-[0-9]{2}$`),
		"field":  pattern(measureText.String()), "operand": oneOf(ref("amount"), ref("field")),
		"award": awardSchema(), "base": baseSchema(), "step": stepSchema(),
		"cycle": cycleSchema(), "category": categorySchema(), "cap": capSchema(), "minimum": minimumSchema(), "carry_over": carrySchema(),
		"part":      closed("A selection within the rule.", selectionKeys()),
		"exclusive": closed("Minimums that may not share a credit.", with(object{"minimums": names1("Their ids.")}), "minimums"),
		"instead":   closed("What stands instead of all that is asked.", with(object{"facts": names1("Facts of the holder; one of them is enough.")})),
		"deadline": closed("A day until which something must be done.", with(object{
			"what": words("What must be done."), "from": words("cycle_start, cycle_end, or a fact that holds a day."),
			"days": whole("So many days after it, below 0 before it.", -36600, 36600), "months": whole("Then so many months.", -1200, 1200),
			"year_end": truth("Then to the end of that year."), "years": whole("Then so many years.", 1, 100)}), "what", "from"),
		"proof": closed("What must be kept.", with(object{
			"keep_years": whole("So many years.", 1, 100), "keep_months": whole("So many months.", 1, 1200),
			"keep_from":   chosen("From the end of the cycle, of the activity, or of the activity's year.", texts(credit.KeepFroms())),
			"answer_days": whole("Within so many days an audit is answered.", 1, 3660)})),
	}
	return o
}

// texts turns names of their own type into plain ones.
func texts[T ~string](list []T) []string {
	var out []string
	for _, v := range list {
		out = append(out, string(v))
	}
	return out
}

func awardSchema() object {
	list := listOf(ref("step"))
	list["prefixItems"], list["items"] = []object{ref("base")}, ref("step")
	return says("An amount, or a list of steps of which the first gives the figure.", oneOf(ref("amount"), list))
}

func baseSchema() object {
	one := closed("A case: a text or days, and what then holds.", object{
		"is": names1("The texts for which it holds; without them it holds for all."), "from": day("From this day on."), "until": day("Until this day."),
		"then": says("What it gives.", ref("award"))}, "then")
	return says("The figure with which an award begins.", oneOf(
		closed("A measure of the activity, or a log field.", object{"from": says("Such as "+strings.Join(credit.Measures(), ", ")+".", ref("field"))}, "from"),
		closed("A fixed amount.", object{"flat": amount("The amount.")}, "flat"),
		closed("Several pipelines added.", object{"sum": says("The pipelines.", listOf(ref("award")))}, "sum"),
		closed("By the text of a log field, or by days.", object{"case": says("The log field, fact or date.", ref("field")), "of": says("The cases.", listOf(one))}, "case", "of")))
}

// stepWords says what each step does.
var stepWords = map[credit.Op]string{
	"divide": "Divides by it.", "times": "Multiplies by it.", "plus": "Adds it.", "minus": "Takes it off, down to 0.",
	"down": "Down to a multiple of it.", "up": "Up to a multiple of it.", "nearest": "To the nearest multiple of it, halves up.",
	"none_below": "What is less counts 0.", "at_least": "Raises to it.", "at_most": "Lowers to it.",
	"at_most_times": "At most so many times a field.", "bands": "The amount of the last row that is reached.",
}

func stepSchema() object {
	keys := object{}
	for _, op := range credit.Ops() {
		switch op {
		case credit.OpBands:
			row := listOf(ref("amount"))
			row["minItems"], row["maxItems"] = 2, 2
			keys[string(op)] = says(stepWords[op], listOf(row))
		case credit.OpAtMostTimes:
			keys[string(op)] = closed(stepWords[op], object{"of": says("The field.", ref("field")), "by": says("How many times.", ref("operand"))}, "of", "by")
		case credit.OpDown, credit.OpUp, credit.OpNearest:
			keys[string(op)] = amount(stepWords[op])
		default:
			keys[string(op)] = says(stepWords[op], ref("operand"))
		}
	}
	o := closed("One step, which has one key.", keys)
	o["minProperties"], o["maxProperties"] = 1, 1
	return o
}

func selectionKeys() object {
	return object{"categories": names1("Claims in one of these categories."), "tags": names1("Claims with all of these tags."), "not_tags": names1("Claims with none of these tags."),
		"providers": names1("Claims of one of these providers."), "from": day("Claims from this day on."), "until": day("Claims until this day.")}
}

func cycleSchema() object {
	return closed("How long a cycle is, and from when.", with(object{
		"anchor": chosen("From which facts the cycle is worked out.", texts(credit.Anchors())),
		"years":  whole("Its length in years.", 1, 100), "months": whole("Its length in months, instead of years.", 1, 1200),
		"first_months": whole("The length of the first one.", 1, 1200), "end_month": whole("The month in which a fixed cycle ends.", 1, 12), "end_day": whole("The day on which it ends.", 1, 31),
		"accept_months_before": whole("Claims from so many months before the start count.", 1, 1200), "accept_from": day("Claims from this day on count."),
		"grace_days": whole("Days of grace after the end.", 1, 3660), "report_days": whole("Days after the end to report.", 1, 3660)}))
}

func categorySchema() object {
	repeat := closed("What a repeated activity earns.", object{"by": words("The log field that tells one from the other."), "factors": says("The factor of the first, the second and so on.", listOf(ref("amount"))),
		"anew": words("A log field; where it stands the series begins anew.")}, "by", "factors")
	figures := func(text string) object {
		return says(text, object{"type": "object", "additionalProperties": ref("amount")})
	}
	return closed("One kind of activity.", with(object{
		"title": words("What it is called."), "accepts": names1("Kinds of paper that prove it."), "award": says("What one activity earns.", ref("award")),
		"most": amount("A cap over this category and the cycle."), "stated": figures("Units of the document's own figure, which wins, and what one is worth."),
		"asks_tags": names1("Without these tags it earns nothing."), "asks_least": figures("A log field below that: nothing."), "repeat": repeat,
		"log": names1("Log fields to be given; a | b asks for either."), "lives_months": whole("Credit counts so long from its day.", 1, 1200),
		"choose": truth("Proposed only if no other category accepts the kind."), "or": names1("Categories in which a claim may count instead.")}))
}

func capSchema() object {
	return closed("A limit: one of most, share, largest, most_claims.", with(object{
		"id": says("A short name.", ref("id")), "per": names1("In each of which windows: " + strings.Join(credit.Windows(), ", ") + ", rolling:N, cycle_rolling:N, or a log field."),
		"most": amount("At most so much."), "share": amount("At most this part of the target or of what is counted."),
		"of": chosen("Of what the share is.", []string{string(credit.ShareTarget), string(credit.ShareCounted)}), "largest": truth("Only the largest award counts."),
		"most_claims": whole("Only so many claims count.", 1, maxCount), "whole": truth("A claim counts with all of its award or not at all."), "if": words("Only for holders for whom this fact stands.")}, selectionKeys()), "id")
}

func minimumSchema() object {
	return closed("What must be there: one of least, distinct, fact, any_of.", with(object{
		"id": says("A short name.", ref("id")), "per": words("Each such window must reach it: year, cycle_year, rolling:N, cycle_rolling:N."), "windows": names1("Only in these windows."),
		"least": amount("At least so much."), "distinct": whole("So many different categories.", 1, 1000), "fact": words("This fact must stand."),
		"any_of": says("Lists of minimums; one list fully met is enough.", listOf(listOf(object{"type": "string"}))), "carried": truth("Credit carried in serves it too."),
		"if": words("Asked only when this fact stands."), "part": ref("part"), "part_most": amount("At most so much of the part serves it.")}, selectionKeys()), "id")
}

func carrySchema() object {
	return closed("What passes into the next cycle.", with(object{
		"most": amount("At most so much passes."), "over": amount("What is above this passes, instead of what is above the target."), "if_over": amount("Only when the total is above this."),
		"part": ref("part"), "part_most": amount("At most so much of the part passes."), "earned_from": day("Only what was earned from then on."),
		"earned_in_last_months": whole("Only what was earned in the last so many months.", 1, 1200), "what_caps_cut_too": truth("What a cap took may pass too."),
		"whole_activities": truth("Only whole activities pass."), "if_met": truth("Only when all that is asked is met."), "none_if_used": truth("Nothing, when carried credit was needed for the target."),
		"not_from_first_cycle": truth("Nothing from the first cycle."), "only_fills": truth("It only fills up to the target."), "into": words("The category that it becomes.")}, selectionKeys()))
}
