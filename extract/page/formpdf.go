package page

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"github.com/klippa-app/go-pdfium/enums"
	"github.com/klippa-app/go-pdfium/references"
	"github.com/klippa-app/go-pdfium/requests"
	"github.com/klippa-app/go-pdfium/structs"
)

// mostFields bounds the fields of one form.
const mostFields = 20_000

// fillInfo is what the PDF engine wants to be told while a form is filled; a form's own
// program is never run.
var fillInfo = structs.FPDF_FORMFILLINFO{
	FFI_Invalidate:         func(references.FPDF_PAGE, float64, float64, float64, float64) {},
	FFI_SetCursor:          func(enums.FXCT) {},
	FFI_SetTimer:           func(int, func(int)) int { return 0 },
	FFI_KillTimer:          func(int) {},
	FFI_GetLocalTime:       func() structs.FPDF_SYSTEMTIME { return structs.FPDF_SYSTEMTIME{} },
	FFI_GetPage:            func(references.FPDF_DOCUMENT, int) *references.FPDF_PAGE { return nil },
	FFI_GetRotation:        func(references.FPDF_PAGE) enums.FPDF_PAGE_ROTATION { return enums.FPDF_PAGE_ROTATION_NONE },
	FFI_ExecuteNamedAction: func(string) {},
	FFI_OutputSelectedRect: func(references.FPDF_PAGE, float64, float64, float64, float64) {},
	FFI_OnChange:           func() {},
	FFI_GetCurrentPage:     func(references.FPDF_DOCUMENT) *references.FPDF_PAGE { return nil },
	FFI_SetTextFieldFocus:  func(string, bool) {},
	FFI_DoURIAction:        func(string) {},
	FFI_DoGoToAction:       func(int, enums.FPDF_ZOOM_MODE, []float32) {},
	Release:                func() {},
}

// pdfForm is a form being listed or filled.
type pdfForm struct {
	e      *engine
	form   references.FPDF_FORMHANDLE
	values map[string]FormValue
	filled map[string]bool // names of which one place was written
	seen   map[string]bool
	a      reply
}

// formPDF lists or fills the fields of the PDF held.
// Source: ISO 32000-1, section 12.7 (interactive forms).
func (e *engine) formPDF(o order) (a reply, blob []byte, again bool) {
	doc, d, again := e.open(o.Password)
	if d.Trouble != None {
		return reply{Document: d}, nil, again
	}
	env, err := e.pdf.FPDFDOC_InitFormFillEnvironment(&requests.FPDFDOC_InitFormFillEnvironment{Document: doc, FormFillInfo: fillInfo})
	if err != nil {
		return noForm("the PDF has no form"), nil, !trapped(err) && e.shut(doc)
	}
	f := pdfForm{e: e, form: env.FormHandle, values: map[string]FormValue{}, filled: map[string]bool{}, seen: map[string]bool{}}
	for _, v := range o.Values {
		f.values[v.Name] = v
	}
	count, err := e.pdf.FPDF_GetPageCount(&requests.FPDF_GetPageCount{Document: doc})
	for n := 1; err == nil && n <= count.PageCount; n++ {
		err = f.page(doc, n)
	}
	var out bytes.Buffer
	if err == nil && o.Do == doFill {
		_, err = e.pdf.FPDF_SaveAsCopy(&requests.FPDF_SaveAsCopy{Document: doc, Flags: requests.SaveFlagNoIncremental, FileWriter: &out})
	}
	if err != nil {
		return noForm("the form is damaged: " + plain(err.Error(), 200)), nil, false // the engine is not asked again
	}
	_, err = e.pdf.FPDFDOC_ExitFormFillEnvironment(&requests.FPDFDOC_ExitFormFillEnvironment{FormHandle: f.form})
	again = err == nil && e.shut(doc)
	if len(f.seen) == 0 {
		return noForm("the PDF has no field that can be filled; it was made to be printed and written on"), nil, again
	}
	f.a.Problems = append(f.a.Problems, unknown(o.Values, f.seen)...)
	return f.a, out.Bytes(), again
}

func (f *pdfForm) page(doc references.FPDF_DOCUMENT, n int) error {
	pdf := f.e.pdf
	loaded, err := pdf.FPDF_LoadPage(&requests.FPDF_LoadPage{Document: doc, Index: n - 1})
	if err != nil {
		return fmt.Errorf("page %d: %w", n, err)
	}
	page := requests.Page{ByReference: &loaded.Page}
	if _, err := pdf.FORM_OnAfterLoadPage(&requests.FORM_OnAfterLoadPage{Page: page, FormHandle: f.form}); err != nil {
		return err
	}
	count, err := pdf.FPDFPage_GetAnnotCount(&requests.FPDFPage_GetAnnotCount{Page: page})
	if err != nil {
		return err
	}
	for i := range min(count.Count, mostFields) {
		at, err := pdf.FPDFPage_GetAnnot(&requests.FPDFPage_GetAnnot{Page: page, Index: i})
		if err != nil {
			continue
		}
		if err := f.widget(page, at.Annotation, n); err != nil {
			return err
		}
		if _, err := pdf.FPDFPage_CloseAnnot(&requests.FPDFPage_CloseAnnot{Annotation: at.Annotation}); err != nil {
			return err
		}
	}
	if _, err := pdf.FORM_OnBeforeClosePage(&requests.FORM_OnBeforeClosePage{Page: page, FormHandle: f.form}); err != nil {
		return err
	}
	_, err = pdf.FPDF_ClosePage(&requests.FPDF_ClosePage{Page: loaded.Page})
	return err
}

// widget lists one place of a field, and fills it.
func (f *pdfForm) widget(page requests.Page, annot references.FPDF_ANNOTATION, n int) error {
	pdf := f.e.pdf
	name, err := pdf.FPDFAnnot_GetFormFieldName(&requests.FPDFAnnot_GetFormFieldName{FormHandle: f.form, Annotation: annot})
	if err != nil || name.FormFieldName == "" {
		return ifTrapped(err)
	}
	kind, err := pdf.FPDFAnnot_GetFormFieldType(&requests.FPDFAnnot_GetFormFieldType{FormHandle: f.form, Annotation: annot})
	if err != nil {
		return ifTrapped(err)
	}
	field := FormField{Name: plain(name.FormFieldName, 500), Page: n, Value: f.value(annot)}
	switch kind.FormFieldType {
	case enums.FPDF_FORMFIELD_TYPE_TEXTFIELD:
		field.Kind = FieldText
	case enums.FPDF_FORMFIELD_TYPE_CHECKBOX, enums.FPDF_FORMFIELD_TYPE_RADIOBUTTON:
		field.Kind = FieldCheck
	case enums.FPDF_FORMFIELD_TYPE_COMBOBOX, enums.FPDF_FORMFIELD_TYPE_LISTBOX:
		field.Kind, field.Options = FieldChoice, f.options(annot)
	case enums.FPDF_FORMFIELD_TYPE_SIGNATURE:
		field.Kind = FieldSigned
	default:
		return nil // a button is pressed, not filled
	}
	flags, err := pdf.FPDFAnnot_GetFormFieldFlags(&requests.FPDFAnnot_GetFormFieldFlags{FormHandle: f.form, Annotation: annot})
	if err != nil {
		return ifTrapped(err)
	}
	field.Locked = flags.Flags&enums.FPDF_FORMFLAG_READONLY != 0
	if !f.seen[field.Name] {
		f.seen[field.Name] = true
		f.a.Fields = append(f.a.Fields, field)
	}
	v, wanted := f.values[field.Name]
	if !wanted || f.filled[field.Name] && field.Kind != FieldCheck {
		return nil
	}
	f.filled[field.Name] = true
	if field.Locked || field.Kind == FieldSigned {
		f.trouble(v, ProblemLocked, "the form does not let anyone write there")
		return nil
	}
	return f.fill(page, annot, field, v, flags.Flags)
}

func (f *pdfForm) trouble(v FormValue, what, text string) {
	f.a.Problems = append(f.a.Problems, Problem{v.Name, what, text})
}

func (f *pdfForm) value(annot references.FPDF_ANNOTATION) string {
	v, err := f.e.pdf.FPDFAnnot_GetFormFieldValue(&requests.FPDFAnnot_GetFormFieldValue{FormHandle: f.form, Annotation: annot})
	if err != nil {
		return ""
	}
	return v.FormFieldValue
}

func (f *pdfForm) options(annot references.FPDF_ANNOTATION) []string {
	count, err := f.e.pdf.FPDFAnnot_GetOptionCount(&requests.FPDFAnnot_GetOptionCount{FormHandle: f.form, Annotation: annot})
	if err != nil {
		return nil
	}
	var list []string
	for i := range min(count.OptionCount, 1000) {
		label, err := f.e.pdf.FPDFAnnot_GetOptionLabel(&requests.FPDFAnnot_GetOptionLabel{FormHandle: f.form, Annotation: annot, Index: i})
		if err != nil {
			return list
		}
		list = append(list, label.OptionLabel)
	}
	return list
}

// fill writes as a person would who goes from field to field: that way the engine makes
// the field's picture too.
func (f *pdfForm) fill(page requests.Page, annot references.FPDF_ANNOTATION, field FormField, v FormValue, flags enums.FPDF_FORMFLAG) error {
	pdf := f.e.pdf
	if field.Kind == FieldCheck {
		return f.tick(page, annot, v)
	}
	if field.Kind == FieldChoice && v.Text != "" && len(field.Options) > 0 && !slices.Contains(field.Options, v.Text) {
		f.trouble(v, ProblemChoice, fmt.Sprintf("%q is none of %s", v.Text, strings.Join(field.Options, ", ")))
		return nil
	}
	if _, err := pdf.FORM_SetFocusedAnnot(&requests.FORM_SetFocusedAnnot{FormHandle: f.form, Annotation: annot}); err != nil {
		return err
	}
	var err error
	if field.Kind == FieldChoice && len(field.Options) > 0 {
		if v.Text != "" {
			_, err = pdf.FORM_SetIndexSelected(&requests.FORM_SetIndexSelected{FormHandle: f.form, Page: page, Index: slices.Index(field.Options, v.Text), Selected: true})
		}
	} else {
		if _, err = pdf.FORM_SelectAllText(&requests.FORM_SelectAllText{FormHandle: f.form, Page: page}); err == nil {
			_, err = pdf.FORM_ReplaceSelection(&requests.FORM_ReplaceSelection{FormHandle: f.form, Page: page, Text: v.Text})
		}
	}
	if err != nil {
		return err
	}
	if _, err := pdf.FORM_ForceToKillFocus(&requests.FORM_ForceToKillFocus{FormHandle: f.form}); err != nil {
		return err
	}
	const multiline = 1 << 12 // ISO 32000-1, table 228
	got := strings.ReplaceAll(f.value(annot), "\r\n", "\n")
	if got = strings.ReplaceAll(got, "\r", "\n"); got != v.Text {
		f.trouble(v, ProblemLong, fmt.Sprintf("the field took %q of %q", got, v.Text))
	} else if f.tooWide(annot, v.Text) && flags&multiline == 0 {
		f.trouble(v, ProblemLong, fmt.Sprintf("%q is wider than the field, so part of it does not show", v.Text))
	}
	return nil
}

// The middle width of a letter of Helvetica against its size, and the smallest letters
// that a field of free size is read in. Common practice, no source.
const (
	letterWidth = 0.5
	smallest    = 6
)

// tooWide estimates whether a line is wider than its field.
func (f *pdfForm) tooWide(annot references.FPDF_ANNOTATION, text string) bool {
	rect, err := f.e.pdf.FPDFAnnot_GetRect(&requests.FPDFAnnot_GetRect{Annotation: annot})
	if err != nil {
		return false
	}
	size := float32(0)
	if got, err := f.e.pdf.FPDFAnnot_GetFontSize(&requests.FPDFAnnot_GetFontSize{FormHandle: f.form, Annotation: annot}); err == nil {
		size = got.FontSize
	}
	if size <= 0 {
		size = smallest
	}
	return float32(len([]rune(text)))*size*letterWidth > rect.Rect.Right-rect.Rect.Left
}

// tick turns a box, as the space bar does, whose state is not the one wanted.
func (f *pdfForm) tick(page requests.Page, annot references.FPDF_ANNOTATION, v FormValue) error {
	pdf := f.e.pdf
	is, err := pdf.FPDFAnnot_IsChecked(&requests.FPDFAnnot_IsChecked{FormHandle: f.form, Annotation: annot})
	if err != nil {
		return ifTrapped(err)
	}
	export := ""
	if got, err := pdf.FPDFAnnot_GetFormFieldExportValue(&requests.FPDFAnnot_GetFormFieldExportValue{FormHandle: f.form, Annotation: annot}); err == nil {
		export = got.Value
	}
	want := strings.EqualFold(v.Text, "yes") || v.Text != "" && v.Text == export
	if want == is.IsChecked {
		return nil
	}
	if _, err := pdf.FORM_SetFocusedAnnot(&requests.FORM_SetFocusedAnnot{FormHandle: f.form, Annotation: annot}); err != nil {
		return err
	}
	if _, err := pdf.FORM_OnChar(&requests.FORM_OnChar{FormHandle: f.form, Page: page, NChar: ' '}); err != nil {
		return err
	}
	_, err = pdf.FORM_ForceToKillFocus(&requests.FORM_ForceToKillFocus{FormHandle: f.form})
	return err
}

// ifTrapped passes over an error that is no fault of the engine.
func ifTrapped(err error) error {
	if trapped(err) {
		return err
	}
	return nil
}
