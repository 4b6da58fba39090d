package extracttest

import (
	"fmt"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// sum writes an amount of money with its sign, and returns it exactly, its currency
// and its writing. An amount in bare dollars has the currency "".
func (s *sheet) sum(units, cents int) (amount, currency, written string) {
	amount = fmt.Sprintf("%d.%02d", units, cents)
	switch s.loc {
	case "en-GB":
		return amount, "GBP", "£" + thousands(units, ",") + fmt.Sprintf(".%02d", cents)
	case "en-US", "en":
		currency = "USD"
		if s.loc == "en" {
			currency = ""
		}
		return amount, currency, "$" + thousands(units, ",") + fmt.Sprintf(".%02d", cents)
	case "fr":
		return amount, "EUR", thousands(units, "\u00a0") + fmt.Sprintf(",%02d €", cents)
	case "nl":
		return amount, "EUR", "€ " + thousands(units, ".") + fmt.Sprintf(",%02d", cents)
	}
	return amount, "EUR", thousands(units, ".") + fmt.Sprintf(",%02d ", cents) + oneOf(s.draw, "€", "EUR")
}

func thousands(n int, mark string) string {
	if n < 1000 {
		return fmt.Sprint(n)
	}
	return fmt.Sprintf("%d%s%03d", n/1000, mark, n%1000)
}

// cents writes a number of cents.
func (s *sheet) cents(n int) (amount, currency, written string) {
	if n < 0 {
		amount, currency, written = s.cents(-n)
		return "-" + amount, currency, "-" + written
	}
	return s.sum(n/100, n%100)
}

func (s *sheet) setTotal(amount, currency string) {
	if currency != "" {
		s.t.Total = &paper.Money{Amount: amount, Currency: currency}
		return
	}
	var list []any
	for _, c := range []string{"USD", "CAD", "AUD", "NZD"} {
		list = append(list, paper.Money{Amount: amount, Currency: c})
	}
	s.ask(paper.FieldTotal, list...)
	s.why("a bare $ and no country")
}

// receipt is an invoice, a receipt, a till slip or money paid back.
func (s *sheet) receipt() {
	s.t.Title = text(s.compose("title"))
	s.labelled, s.layout, s.c.top = true, oneOf(s.draw, "pairs", "pairs", "columns", "above"), true
	if s.loc == "en" {
		s.dayFirst = true // the American order would hint at the currency
	}
	event := s.f.start
	eventEnd := s.f.end
	s.f.start, s.f.end, s.f.issue = credit.Date{}, credit.Date{}, event.AddDays(-s.between(5, 40))
	switch s.weighted(45, 30, 13, 12) {
	case 0:
		s.invoice(event, eventEnd)
	case 1:
		s.paid()
	case 2:
		s.slip()
	default:
		s.refund()
	}
	if s.mail {
		s.dates = append(s.dates, printedDate{date: s.f.issue, roles: []role{roleIssue}})
	}
	s.address()
}

func (s *sheet) invoice(event, eventEnd credit.Date) {
	s.c.heading = s.say("head.invoice")
	s.item("i.no", s.digits(5))
	if !s.mail {
		s.item("i.date", s.day(s.f.issue, roleIssue))
	}
	s.item("i.to", s.shown(s.holder))
	if s.chance(40) && !s.open {
		s.item("i.due", s.day(s.f.issue.AddDays(14), roleOther))
	}
	name := *s.t.Title
	switch s.weighted(40, 35, 25) {
	case 1:
		s.f.start, s.f.end = event, eventEnd
		s.item("i.days", s.span(event, eventEnd))
	case 2:
		s.f.start = event
		name += " (" + s.say("i.starts", "a", s.day(event, roleStart)) + ")"
	}
	s.invoiceSums(name)
	if s.chance(25) && !s.open {
		s.c.notes = append(s.c.notes, s.say("i.paid")+" "+s.day(s.f.issue.AddDays(s.between(1, 9)), roleOther))
	}
	if s.chance(40) && s.loc != "en" {
		s.c.notes = append(s.c.notes, s.say("i.vatno", "n", "000 "+s.digits(4)+" 00"))
	}
}

// invoiceSums writes what is billed, with discount, tax, total and what is still due.
func (s *sheet) invoiceSums(name string) {
	net := s.between(90, 1900) * 100
	_, _, written := s.cents(net)
	row := s.priceList(name, written)
	if s.chance(25) {
		off := net / 10
		_, _, less := s.cents(-off)
		row(s.say("i.disc")+" 10 %", less)
		net -= off
	}
	if s.chance(15) {
		extra := s.between(10, 60) * 100
		_, _, more := s.cents(extra)
		row(s.say("i.extra"), more)
		net += extra
	}
	if s.chance(75) {
		rate := map[string]int{"en-GB": 20, "en-US": 8, "en": 10, "de": 19, "fr": 20, "es": 21, "nl": 21}[s.loc]
		_, _, written := s.cents(net)
		s.c.gridFoot = append(s.c.gridFoot, item{s.say("i.net"), written})
		_, _, written = s.cents(net * rate / 100)
		s.c.gridFoot = append(s.c.gridFoot, item{s.say(map[bool]string{true: "i.tax.en", false: "i.tax"}[s.loc == "en"], "p", fmt.Sprint(rate)), written})
		net += net * rate / 100
	}
	amount, currency, written := s.cents(net)
	s.c.gridFoot = append(s.c.gridFoot, item{s.say("i.total"), written})
	s.setTotal(amount, currency)
	if s.chance(12) {
		_, _, paid := s.cents(-net / 4)
		_, _, rest := s.cents(net - net/4)
		s.c.gridFoot = append(s.c.gridFoot, item{s.say("i.deposit"), paid}, item{s.say("i.balance"), rest})
		s.why("the whole sum, not the balance due")
	}
}

// priceList begins the table of what is billed, in two columns or in four with count and
// single price, and returns what adds a row.
func (s *sheet) priceList(name, written string) (row func(what, sum string)) {
	if !s.chance(30) || s.t.Format != "pdf" {
		s.c.grid = [][]string{{s.say("i.item"), s.say("i.amount")}, {name, written}}
		return func(what, sum string) { s.c.grid = append(s.c.grid, []string{what, sum}) }
	}
	head := strings.Split(s.say("i.cols"), "|")
	if head[1] == "No." {
		s.c.grid = [][]string{head, {name, "1", written, written}}
		return func(what, sum string) { s.c.grid = append(s.c.grid, []string{what, "", "", sum}) }
	}
	s.c.grid = [][]string{head, {"1", name, written, written}}
	return func(what, sum string) { s.c.grid = append(s.c.grid, []string{"", what, "", sum}) }
}

func (s *sheet) paid() {
	s.c.heading = s.say("head.receipt")
	amount, currency, written := s.cents(s.between(40, 1500) * 100)
	s.setTotal(amount, currency)
	if !s.mail {
		if s.chance(20) && !s.open {
			s.item("i.paid", s.day(s.f.issue, roleOther))
			s.also(paper.FieldIssue, s.f.issue.String())
			s.f.issue = credit.Date{}
			s.why("the day of paying is no day of issue")
		} else if s.chance(50) {
			s.item("i.rdate", s.day(s.f.issue, roleIssue))
		} else {
			s.c.sign = append(s.c.sign, s.say("s.issue.receipt", "date", s.day(s.f.issue, roleIssue), "place", s.city))
		}
	}
	if s.chance(50) {
		s.c.says = append(s.c.says, s.say("r.body", "holder", s.holder.full(), "sum", written, "title", s.quoted(*s.t.Title)))
		return
	}
	s.item("i.to", s.shown(s.holder))
	s.c.grid = [][]string{{s.say("i.item"), s.say("i.amount")}, {*s.t.Title, written}}
	s.c.gridFoot = append(s.c.gridFoot, item{s.say("i.rtotal"), written})
	if s.chance(40) {
		s.c.notes = append(s.c.notes, s.say("i.card", "n", s.digits(4)))
	}
}

// slip is a till slip: several things, no name.
func (s *sheet) slip() {
	s.t.Title, s.t.Attendee = nil, nil
	s.layout = "slip"
	s.c.heading = s.say("head.receipt")
	if !s.mail {
		s.c.says = append(s.c.says, s.day(s.f.issue, roleIssue)+fmt.Sprintf("  %02d:%02d", s.between(9, 18), s.between(10, 59)))
	}
	all := 0
	goods := s.list("i.goods")
	at := s.r.IntN(len(goods))
	s.c.grid = [][]string{{s.say("i.item"), s.say("i.amount")}}
	for i := range s.between(2, 4) {
		price := s.between(200, 5900)
		all += price
		_, _, written := s.cents(price)
		s.c.grid = append(s.c.grid, []string{goods[(at+i)%len(goods)], written})
	}
	amount, currency, written := s.cents(all)
	s.c.gridFoot = append(s.c.gridFoot, item{s.say("i.total"), written})
	s.setTotal(amount, currency)
	s.c.notes = append(s.c.notes, s.say("i.card", "n", s.digits(4)), s.say("i.thanks"))
}

func (s *sheet) refund() {
	s.c.heading = s.say("head.refund")
	s.item("i.no", "CN-"+s.digits(3))
	if !s.mail {
		s.item("i.date", s.day(s.f.issue, roleIssue))
	}
	s.item("i.to", s.shown(s.holder))
	amount, currency, written := s.cents(-s.between(40, 700) * 100)
	s.c.grid = [][]string{{s.say("i.item"), s.say("i.amount")}, {*s.t.Title, written}}
	s.c.gridFoot = append(s.c.gridFoot, item{s.say("i.back"), strings.TrimPrefix(written, "")})
	s.setTotal(amount, currency)
}
