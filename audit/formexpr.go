package audit

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"text/scanner"

	"evidencevault/credit"
	"evidencevault/extract/page"
)

// formExpr is what goes into a field: parts that are put one behind the other.
type formExpr []formTerm

// formTerm is one part: a text, a path such as claims[1].title, or a function's call.
type formTerm struct {
	literal string // when path and call are empty
	path    string // holder.name, claim.title; "claims" with index
	index   int    // of claims[…], counted from 1
	call    string // sum, count or date
	named   map[string]string
	of      formExpr // of date
	form    string   // of date
}

// formFuncs names the functions and the names that each takes.
var formFuncs = map[string][]string{"sum": {"of", "category"}, "count": {"category"}, "date": nil}

// formScan reads the signs of an expression.
type formScan struct {
	scanner.Scanner
	token rune
	err   error
}

func (s *formScan) next() { s.token = s.Scan() }

// parseExpr reads an expression: 'holder.name', 'claims[1].title', 'sum(category="x")',
// 'date(claim.end_date, "DD.MM.YYYY")', '"No. " + certification.number'.
func parseExpr(text string) (formExpr, error) {
	s := &formScan{}
	s.Init(strings.NewReader(text))
	s.Mode = scanner.ScanIdents | scanner.ScanInts | scanner.ScanStrings
	s.Error = func(_ *scanner.Scanner, msg string) { s.err = fmt.Errorf("%s", msg) }
	s.next()
	e, err := s.expr(0)
	switch {
	case s.err != nil:
		return nil, s.err
	case err != nil:
		return nil, err
	case s.token != scanner.EOF:
		return nil, fmt.Errorf("%q is too much; parts are put together with +", s.TokenText())
	}
	return e, nil
}

// mostNested bounds how deep calls may stand in one another.
const mostNested = 10

func (s *formScan) expr(depth int) (formExpr, error) {
	if depth > mostNested {
		return nil, fmt.Errorf("it is nested too deeply")
	}
	var e formExpr
	for {
		t, err := s.term(depth)
		if err != nil {
			return nil, err
		}
		e = append(e, t)
		if s.token != '+' {
			return e, nil
		}
		s.next()
	}
}

func (s *formScan) quoted() (string, error) {
	if s.token != scanner.String {
		return "", fmt.Errorf("want a text in quotes, not %q", s.TokenText())
	}
	text, err := strconv.Unquote(s.TokenText())
	s.next()
	return text, err
}

func (s *formScan) sign(r rune) error {
	if s.token != r {
		return fmt.Errorf("want %q, not %q", string(r), s.TokenText())
	}
	s.next()
	return nil
}

func (s *formScan) term(depth int) (formTerm, error) {
	switch s.token {
	case scanner.String:
		text, err := s.quoted()
		return formTerm{literal: text}, err
	case scanner.Int:
		t := formTerm{literal: s.TokenText()}
		s.next()
		return t, nil
	case scanner.Ident:
	default:
		return formTerm{}, fmt.Errorf("want a text in quotes, a name such as holder.name, or a function, not %q", s.TokenText())
	}
	t := formTerm{path: s.TokenText()}
	s.next()
	if s.token == '(' {
		return s.call(t.path, depth)
	}
	if s.token == '[' {
		s.next()
		n, err := strconv.Atoi(s.TokenText())
		if err != nil || n < 1 || s.token != scanner.Int || t.path != "claims" {
			return t, fmt.Errorf("want claims[1], counted from 1")
		}
		t.index = n
		s.next()
		if err := s.sign(']'); err != nil {
			return t, err
		}
	}
	for s.token == '.' {
		s.next()
		if s.token != scanner.Ident {
			return t, fmt.Errorf("want a name after the point, not %q", s.TokenText())
		}
		t.path += "." + s.TokenText()
		s.next()
	}
	if strings.HasPrefix(t.path, "claims") && t.index == 0 {
		return t, fmt.Errorf("which claim? want claims[1].title, or claim.title in a row")
	}
	return t, nil
}

func (s *formScan) call(name string, depth int) (formTerm, error) {
	t := formTerm{call: name, named: map[string]string{}}
	takes, known := formFuncs[name]
	if !known {
		return t, fmt.Errorf("%s is no function; want sum, count or date", name)
	}
	s.next()
	if name == "date" {
		var err error
		if t.of, err = s.expr(depth + 1); err != nil {
			return t, err
		}
		if err := s.sign(','); err != nil {
			return t, err
		}
		if t.form, err = s.quoted(); err != nil {
			return t, err
		}
		return t, s.sign(')')
	}
	for s.token != ')' {
		if s.token != scanner.Ident || !slices.Contains(takes, s.TokenText()) {
			return t, fmt.Errorf("%s takes %s, not %q", name, strings.Join(takes, " and "), s.TokenText())
		}
		key := s.TokenText()
		s.next()
		if err := s.sign('='); err != nil {
			return t, err
		}
		text, err := s.quoted()
		if err != nil {
			return t, err
		}
		t.named[key] = text
		if s.token == ',' {
			s.next()
		} else if s.token != ')' {
			return t, fmt.Errorf("want a comma or ), not %q", s.TokenText())
		}
	}
	s.next()
	return t, nil
}

// formValue is what an expression comes to.
type formValue struct{ text, raw, kind string }

func amountValue(a credit.Amount) formValue {
	return formValue{a.String(), a.String(), page.ValueNumber}
}

func dayValue(d credit.Date) formValue {
	if d.IsZero() {
		return formValue{}
	}
	return formValue{d.String(), d.String(), page.ValueDay}
}

func textValue(text string) formValue { return formValue{text: text} }

func intValue(n int) formValue {
	return formValue{strconv.Itoa(n), strconv.Itoa(n), page.ValueNumber}
}

// eval works an expression out. Of several parts comes a text; of one, its number or day.
func (e formExpr) eval(at formAt) (formValue, error) {
	if len(e) == 1 {
		return e[0].eval(at)
	}
	text := ""
	for _, t := range e {
		v, err := t.eval(at)
		if err != nil {
			return v, err
		}
		text += v.text
	}
	return textValue(text), nil
}

func (t formTerm) eval(at formAt) (formValue, error) {
	switch {
	case t.call == "date":
		v, err := t.of.eval(at)
		if err != nil || v.text == "" {
			return v, err
		}
		d, derr := credit.ParseDate(v.text)
		if derr != nil {
			return v, fmt.Errorf("date(): %q is no day", v.text)
		}
		y, m, day := d.YMD()
		v.text = strings.NewReplacer("YYYY", fmt.Sprintf("%04d", y), "YY", fmt.Sprintf("%02d", y%100), "MM", fmt.Sprintf("%02d", int(m)), "DD", fmt.Sprintf("%02d", day)).Replace(t.form)
		v.raw, v.kind = d.String(), page.ValueDay
		return v, nil
	case t.call != "":
		return at.data.total(t.call, t.named)
	case t.path != "":
		return at.lookup(t)
	}
	return textValue(t.literal), nil
}
