package audit

import (
	"bytes"
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/page"
	"evidencevault/journal"
)

// FormData is what the expressions of a mapping read.
type FormData struct {
	Dossier
	Claims []FormClaim // in the order in which rows are filled: by day, then number
	names  []string    // of log fields that the scheme or a claim has
}

// FormClaim is a claim with everything a form may ask about it.
type FormClaim struct {
	Entry
	Fields map[string]string
}

// FormFinding is something to see before a filled form is handed in.
type FormFinding struct {
	File  int    `json:"file"` // the first of the filled files that has it, counted from 1; 0: all
	Field string `json:"field,omitempty"`
	Claim string `json:"claim,omitempty"`
	What  string `json:"what"` // as package page names it, "unmapped" or "not-on-form"
	Text  string `json:"text"`
}

// What a finding is about, besides what package page names.
const (
	FormUnmapped = "unmapped"    // the form has a field that the mapping does not name
	FormLeftOut  = "not-on-form" // no block of rows takes the claim
)

// GatherForm collects what a form is filled from: the claims of d, as the journal has
// them.
func GatherForm(ctx context.Context, j *journal.Journal, d Dossier) (FormData, error) {
	list, err := j.Claims(ctx, journal.ClaimsFilter{Certification: d.Certification, On: d.On})
	if err != nil {
		return FormData{}, err
	}
	cert, err := j.Certified(ctx, d.Certification, d.On)
	if err != nil {
		return FormData{}, err
	}
	data := FormData{Dossier: d}
	for _, k := range cert.Scheme.Categories {
		data.names = append(data.names, k.Needs()...)
		for _, l := range k.Log {
			data.names = append(data.names, l.Names...)
		}
	}
	for _, e := range d.Claims {
		c := FormClaim{Entry: e, Fields: map[string]string{}}
		if i := slices.IndexFunc(list, func(x journal.Claim) bool { return x.ID == e.ID }); i >= 0 {
			c.Fields = list[i].Fields
		}
		data.names = append(data.names, slices.Collect(maps.Keys(c.Fields))...)
		data.Claims = append(data.Claims, c)
	}
	return data, nil
}

// formAt is where an expression is worked out.
type formAt struct {
	data         *FormData
	claim        *FormClaim // of the row; nil outside rows
	row          int        // number of the claim among those of the block, counted from 1
	sheet, files int
}

// FillForm fills a body's form by the mapping, and returns as many files as the claims
// need: when a block has fewer rows than claims, the form is filled once more. The form
// itself is not touched. The error wraps [ErrMap], or is that of package page.
func FillForm(ctx context.Context, r *page.Reader, form []byte, m FormMap, data FormData) ([][]byte, []FormFinding, error) {
	fields, err := r.FormFields(ctx, bytes.NewReader(form), "")
	if err != nil {
		return nil, nil, err
	}
	found := []FormFinding{}
	named := m.names()
	for _, f := range fields {
		if f.Kind != page.FieldCell && f.Kind != page.FieldSigned && !f.Locked && !named[f.Name] {
			found = append(found, FormFinding{Field: f.Name, What: FormUnmapped, Text: "the form has this field, and the mapping does not name it; name it, or list it under leave"})
		}
	}
	blocks, files := data.blocks(m), 1
	for i, list := range blocks {
		files = max(files, (len(list)+m.rows[i].count-1)/m.rows[i].count)
	}
	for _, c := range data.Claims {
		if len(m.rows) > 0 && !slices.ContainsFunc(m.rows, func(b formRows) bool { return b.takes(c) }) {
			found = append(found, FormFinding{Claim: c.ID, What: FormLeftOut, Text: fmt.Sprintf("no row takes a claim of the category %s", c.Category)})
		}
	}
	var out [][]byte
	for n := 1; n <= files; n++ {
		values, err := data.values(m, blocks, n, files)
		if err != nil {
			return nil, nil, err
		}
		filled, problems, err := r.Fill(ctx, bytes.NewReader(form), values, "")
		if err != nil {
			return nil, nil, err
		}
		for _, p := range problems {
			if slices.ContainsFunc(found, func(x FormFinding) bool { return x.Field == p.Name && x.What == p.What && x.Text == p.Text }) {
				continue // said of an earlier file
			}
			found = append(found, FormFinding{File: n, Field: p.Name, What: p.What, Text: p.Text})
		}
		out = append(out, filled)
	}
	return out, found, nil
}

// blocks returns the claims of each block of rows.
func (d *FormData) blocks(m FormMap) [][]FormClaim {
	out := make([][]FormClaim, len(m.rows))
	for i, b := range m.rows {
		for _, c := range d.Claims {
			if b.takes(c) {
				out[i] = append(out[i], c)
			}
		}
	}
	return out
}

// values works out what goes into one file. Rows without a claim become empty.
func (d *FormData) values(m FormMap, blocks [][]FormClaim, sheet, files int) ([]page.FormValue, error) {
	var out []page.FormValue
	add := func(name string, e formExpr, at formAt) error {
		v, err := e.eval(at)
		if err != nil {
			return fmt.Errorf("%w: %s, %q: %v", ErrMap, m.file, name, err)
		}
		out = append(out, page.FormValue{Name: name, Text: v.text, Raw: v.raw, Kind: v.kind})
		return nil
	}
	for _, name := range slices.Sorted(maps.Keys(m.fields)) {
		if err := add(name, m.fields[name], formAt{data: d, sheet: sheet, files: files}); err != nil {
			return nil, err
		}
	}
	for i, b := range m.rows {
		for n := range b.count {
			row := (sheet-1)*b.count + n
			for _, name := range slices.Sorted(maps.Keys(b.fields)) {
				if row >= len(blocks[i]) {
					out = append(out, page.FormValue{Name: rowName(name, b.first+n)})
					continue
				}
				at := formAt{data: d, claim: &blocks[i][row], row: row + 1, sheet: sheet, files: files}
				if err := add(rowName(name, b.first+n), b.fields[name], at); err != nil {
					return nil, err
				}
			}
		}
	}
	return out, nil
}

// lookup returns what a path names.
func (at formAt) lookup(t formTerm) (formValue, error) {
	d := at.data
	if t.index > 0 {
		field, ok := strings.CutPrefix(t.path, "claims.")
		if !ok {
			return formValue{}, fmt.Errorf("claims[%d] of what? want claims[%d].title", t.index, t.index)
		}
		if t.index > len(d.Claims) {
			return formValue{}, d.knows(field)
		}
		return d.ofClaim(d.Claims[t.index-1], field)
	}
	if field, ok := strings.CutPrefix(t.path, "claim."); ok {
		if at.claim == nil {
			return formValue{}, fmt.Errorf("claim is a row's; want claims[1].%s, or put the field under [[rows]]", field)
		}
		return d.ofClaim(*at.claim, field)
	}
	s := d.Statement
	known := map[string]formValue{
		"holder.name": textValue(d.Holder), "certification.id": textValue(d.Certification), "certification.title": textValue(d.Title),
		"certification.body": textValue(d.Body), "certification.number": textValue(d.Number), "cycle.start": dayValue(s.Cycle.Start), "cycle.end": dayValue(s.Cycle.End),
		"standing.counted": amountValue(s.Counted), "standing.missing": amountValue(s.Missing), "standing.target": amountValue(s.Target), "standing.unit": textValue(s.Unit),
		"standing.meets": textValue(map[bool]string{true: "yes", false: "no"}[s.Meets]), "today": dayValue(d.On), "sheet": intValue(at.sheet), "sheets": intValue(at.files), "row": intValue(at.row),
	}
	v, ok := known[t.path]
	if !ok {
		return v, fmt.Errorf("%s is not known; want %s, claim.FIELD or claims[1].FIELD", t.path, strings.Join(slices.Sorted(maps.Keys(known)), ", "))
	}
	return v, nil
}

// claimFields are the names that every claim has, with what each comes to.
var claimFields = map[string]func(FormClaim) formValue{
	"id":             func(c FormClaim) formValue { return textValue(c.ID) },
	"title":          func(c FormClaim) formValue { return textValue(c.Title) },
	"provider":       func(c FormClaim) formValue { return textValue(c.Provider) },
	"category":       func(c FormClaim) formValue { return textValue(c.Category) },
	"category_title": func(c FormClaim) formValue { return textValue(c.CategoryTitle) },
	"start_date":     func(c FormClaim) formValue { return dayValue(c.Start) },
	"end_date":       func(c FormClaim) formValue { return dayValue(c.End) },
	"awarded":        func(c FormClaim) formValue { return amountValue(c.Awarded) },
	"counted":        func(c FormClaim) formValue { return amountValue(c.Counted) },
	"rule":           func(c FormClaim) formValue { return textValue(c.Rule.Source) },
	"duration_minutes": func(c FormClaim) formValue {
		if c.Minutes == nil {
			return formValue{}
		}
		return intValue(int(*c.Minutes))
	},
	"hours": func(c FormClaim) formValue {
		if c.Minutes == nil {
			return formValue{}
		}
		return amountValue(credit.Fraction(int64(*c.Minutes), 60))
	},
	"files": func(c FormClaim) formValue {
		var list []string
		for _, p := range c.Proofs {
			if !slices.Contains(list, p.File) {
				list = append(list, p.File)
			}
		}
		return textValue(strings.Join(list, ", "))
	},
}

// knows refuses the name of a field that no claim can have.
func (d *FormData) knows(field string) error {
	if claimFields[field] != nil || slices.Contains(d.names, field) {
		return nil
	}
	return fmt.Errorf("a claim has no field %s; want %s, or a log field of the scheme", field, strings.Join(slices.Sorted(maps.Keys(claimFields)), ", "))
}

func (d *FormData) ofClaim(c FormClaim, field string) (formValue, error) {
	if f := claimFields[field]; f != nil {
		return f(c), nil
	}
	return textValue(c.Fields[field]), d.knows(field)
}

// total works out sum(of=…, category=…) and count(category=…) over all claims.
func (d *FormData) total(name string, named map[string]string) (formValue, error) {
	sum, n := credit.Amount{}, 0
	if category, ok := named["category"]; ok && d.titles[category] == "" {
		return formValue{}, fmt.Errorf("%s(): the scheme has no category %q; want one of %s", name, category, strings.Join(slices.Sorted(maps.Keys(d.titles)), ", "))
	}
	of := named["of"]
	if of == "" {
		of = "counted"
	}
	if name == "sum" && !slices.Contains([]string{"counted", "awarded", "hours", "duration_minutes"}, of) {
		return formValue{}, fmt.Errorf(`sum(of=%q): want counted, awarded, hours or duration_minutes`, of)
	}
	for _, c := range d.Claims {
		if category, ok := named["category"]; ok && c.Category != category {
			continue
		}
		n++
		if v := claimFields[of](c); name == "sum" && v.raw != "" {
			a, err := credit.ParseAmount(v.raw)
			if err != nil {
				return formValue{}, err
			}
			sum = sum.Add(a)
		}
	}
	if name == "count" {
		return intValue(n), nil
	}
	return amountValue(sum), nil
}
