package extract

import (
	"slices"
	"strings"

	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

// A card or a signing book shows by a mark beside each day whether somebody came. Where the days
// stand in a grid or in columns that are no table the marks are counted.

var (
	cameMark  = matching(`^(?:\W{0,3})(?:stamped|signed|present|attended|came|here|yes|gestempelt|unterschrieben|anwesend|teilgenommen|ja|tamponnee?|signee?|emarge|presente?|oui|sellad[oa]|firmad[oa]|firmo|asistio|si|gestempeld|getekend|afgetekend|aanwezig)\W{0,2}$`)
	tickMark  = matching(`^(?:✓|✔|☑|☒|●|•|x|✗|√)$`)
	stayedOut = matching(`^(?:\W{0,3})(?:(?:not|no|nicht|kein|pas|non|niet|geen) (?:stamp(?:ed)?|signed|present|attended|signature|gestempelt|unterschrieben|anwesend|stempel|unterschrift|tampon\w*|signe\w*|presente?|sello|sellad[oa]|firma|firmad[oa]|gestempeld|getekend|aanwezig)|absent|missed|excused|fehlt|gefehlt|entschuldigt|abwesend|absente?|excusee?|ausente|falto|afwezig|verhinderd|did not (?:attend|come|sign)|no asistio|no (?:se presento|vino)|nicht (?:erschienen|gekommen|da)|n'est pas venue?|pas venue?|niet (?:verschenen|gekomen|geweest))\W{0,2}$`)
)

// markedPresent counts the marks of a person who came, where each belongs to one of the days and
// no table was made of them; 0 where they do not tell.
func (l *look) markedPresent() int {
	if slices.ContainsFunc(l.series, func(r line) bool { return r.absent || r.minutes > 0 }) {
		return 0
	}
	came, out, days := 0, 0, 0
	for _, c := range l.cells {
		text := fold(c.text)
		switch {
		case stayedOut.MatchString(text):
			out++
		case cameMark.MatchString(text) || tickMark.MatchString(text):
			came++
		}
		if found := find.Dates(c.text, l.langs); len(found) > 0 && len(strings.Fields(c.text)) < 12 {
			days += len(found)
		}
	}
	if came < 2 || came+out > days || came == 1+days {
		return 0
	}
	return came
}

// spokeFor ends in front of the time for which somebody spoke within a meeting.
var spokeFor = matching(`\b(?:spoke|speaks|talked|presented|reported|lectured|sprach|referierte|berichtete|erlauterte|a parle|a presente|a expose|est intervenue?|hablo|expuso|informo|presento|intervino|sprak|vertelde|presenteerde|lichtte)\b[^.;]{0,24}$`)

// heldOnce reports a span of the day that stands with a single day of its own, so that it holds
// for that day alone, however many days the event had.
func (l *look) heldOnce(c clockHit) bool {
	before := tail(l.passages[c.at.passage].text[:c.at.span.From], 40)
	if i := strings.LastIndexAny(before, ".;"); i >= 0 && strings.HasPrefix(before[i+1:], " ") && i > 12 {
		before = before[i+1:]
	}
	found := find.Dates(before, l.langs)
	return len(found) == 1 && len(find.Ranges(before, l.langs)) == 0 && (found[0].HasWeekday || found[0].Lack == find.Whole) && !dailyWord.MatchString(fold(before)+" ")
}

var interrupted = matching(`\b(?:dazwischen|zwischendurch|unterbrochen|in between|interrupted|broken|adjourned|adjournment|recess|unterbrechung|suspension|schorsing|onderbreking|entre-temps|interrompue?|suspendue?|entremedias|interrumpid[oa]|suspendid[oa]|tussendoor|daartussen|onderbroken|geschorst)\b[^.;]*$`)

// underComing reports that a time in the form "13 h 50" stands in a column for coming or leaving.
func (l *look) underComing(a at) bool {
	if !hourForm.MatchString(l.text(a)) {
		return false
	}
	c := l.cells[l.cellAt(a)]
	return slices.ContainsFunc(l.cells, func(o cell) bool {
		return o.row < c.row && comingHead.MatchString(fold(o.text)) && l.boxed && o.inColumnOf(&c)
	})
}

var comingHead = matching(`^(?:heure d')?(?:arrivee|depart|entree|sortie|debut|fin|arrival|departure|arrived|left|from|to|in|out|time in|time out|kommen|gehen|ankunft|weggang|von|bis|entrada|salida|llegada|desde|hasta|aankomst|vertrek|van|tot)\W?$`)

// onOneDay reports that the hours hold for one day, however many days the paper has: they stand
// with it, or are those of a sitting.
func (l *look) onOneDay(seen []clockHit) bool {
	return len(seen) == 1 && l.heldOnce(seen[0]) || l.kind == paper.Meeting && !dailyWord.MatchString(l.all)
}

// markColumns finds out who was absent by a column of nothing but marks, whatever it is called,
// and by boxes of which some are empty.
func (l *look) markColumns(t table, rows []line) {
	legend := l.legend()
	for k := range t.head {
		came, out := 0, []int(nil)
		for i, columns := range t.lines {
			if k >= len(columns) || len(columns[k]) == 0 || rows[i].total {
				continue
			}
			text := fold(strings.TrimSpace(l.cellText(columns[k])))
			mark := strings.TrimSpace(withoutBrackets(firstMark(text)))
			switch {
			case legend[mark] == stayed || stayedOut.MatchString(firstMark(text)) || absentMark.MatchString(firstMark(text)):
				out = append(out, i)
			case legend[mark] == wasThere || cameMark.MatchString(text) || tickMark.MatchString(text):
				came++
			default:
				came = -len(t.lines)
			}
		}
		for _, i := range out {
			rows[i].absent = rows[i].absent || came > 1
		}
	}
	for i := range rows {
		here := slices.Clone(rows[i].cells)
		if len(here) > 0 {
			here = append(here, l.rows[l.cells[here[0]].row]...)
		}
		if slices.ContainsFunc(here, func(ci int) bool { return emptyBox.MatchString(l.cells[ci].text) }) {
			rows[i].absent = true
		}
	}
}

// What a legend says of a mark.
const (
	wasThere = iota + 1
	stayed
)

// legend is what the paper says beneath a list of the marks in it: "P = signed the register; A =
// absent".
func (l *look) legend() map[string]int {
	out := map[string]int{}
	for _, text := range l.folded {
		for _, m := range legendMark.FindAllStringSubmatch(text, -1) {
			switch {
			case legendOut.MatchString(m[2] + " "):
				out[m[1]] = stayed
			case legendCame.MatchString(m[2] + " "):
				out[m[1]] = wasThere
			}
		}
	}
	return out
}

var (
	legendMark = matching(`(?:^|[\s;,.(])([^\s;,.()=]{1,3}) ?= ?(\p{L}[\p{L} '-]{1,40})`)
	legendOut  = words(`not (?:present|there|signed|attended)|did not (?:attend|come|sign)|absent|absence|missed|excused|apologies|nicht (?:anwesend|da|erschienen)|abwesend|fehlte?|gefehlt|entschuldigt|verhindert|absente?|excusee?|non (?:presente?|signe)|ausente|falto|ausencia|no asistio|afwezig|verhinderd|niet (?:aanwezig|geweest)`)
	legendCame = words(`present|attended|signed|was there|came|anwesend|teilgenommen|unterschrieben|erschienen|presente?|emarge|a signe|signe|asistio|asistencia|firmo|aanwezig|getekend|geweest`)
)

// rowsCame is at how many sessions of a list the person was of which no row has a time of its own;
// 0 if there is no such list.
func (l *look) rowsCame() int {
	came := 0
	for _, r := range l.series {
		switch {
		case r.minutes > 0 || r.length || len(r.credits) > 0 && l.kind == paper.Transcript:
			return 0
		case !r.total && !r.pause && !r.absent && len(r.days) > 0:
			came++
		}
	}
	if len(l.series) < 2 {
		return 0
	}
	return came
}

// daysCame is at how many of the days of a list in words the person is said to have been, where
// that is said of each: "3 June: Capsule or cuff? (you were there)"; 0 if it is not.
func (l *look) daysCame() int {
	came, out := 0, 0
	for _, d := range l.days {
		said, begins := l.itemOf(d)
		if !d.single || !begins || len(said) > 90 {
			continue
		}
		switch rest := fold(said) + " "; {
		case saidOut.MatchString(rest):
			out++
		case saidCame.MatchString(rest):
			came++
		}
	}
	if came == 0 || came+out < 2 || out == 0 {
		return 0
	}
	return came
}

var (
	saidOut  = matching(`(?:\(|[-–—:,] ?)(?:you |she |he |sie |er |elle |il |zij |hij |u )?(?:(?:were|was|are|is|waren|war|wart) )?(?:not|nicht|pas|non|no|niet) (?:there|present|with us|attended|attend|here|da|dabei|anwesend|presente?|la|estuvo|asistio|aanwezig|erbij)|(?:\(|[-–—:,] ?)(?:you |she |he |elle |il )?(?:did not (?:attend|come)|could not (?:attend|come)|missed|absente?|excused|excusee?|abwesend|entschuldigt|gefehlt|fehlte|verhindert|ausente|falto|afwezig|verhinderd|niet geweest|n'etait pas la|etait absente?)\b`)
	saidCame = matching(`(?:\(|[-–—:,] ?)(?:you |she |he |sie |er |elle |il |zij |hij |u )?(?:(?:were|was|waren|war|etait|estuvo|was) )?(?:there|present|with us|attended|took part|came|here|da|dabei|anwesend|teilgenommen|presente?|la|asistio|estuvo|aanwezig|erbij|geweest)\W*$`)
)

// emptyBox is a box that nobody ticked.
var emptyBox = matching(`^(?:☐|□|❏|▢|\[ ?\])$`)
