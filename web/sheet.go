package web

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"html/template"
	"net/http"
	"strconv"

	"evidencevault/extract/page"
	"evidencevault/extract/paper"
	"evidencevault/journal"
)

// sheetOf finds the page that a request names. Only pages of the paper are shown.
func (s *Server) sheetOf(r *http.Request) (journal.PaperDetail, int, error) {
	d, err := s.o.Journal.Show(r.Context(), r.PathValue("id"))
	if err != nil {
		return journal.PaperDetail{}, 0, err
	}
	n, err := strconv.Atoi(r.PathValue("n"))
	if err != nil || d.Paper == nil {
		return journal.PaperDetail{}, 0, fmt.Errorf("page %q of %s: %w", r.PathValue("n"), r.PathValue("id"), journal.ErrUnknown)
	}
	if from, to := max(1, d.Paper.Pages[0]), max(1, d.Paper.Pages[1]); n < from || n > to {
		return *d.Paper, n, fmt.Errorf("page %d of %s: %w: it has the pages %d to %d", n, d.ID, journal.ErrUnknown, from, to)
	}
	return *d.Paper, n, nil
}

// Resolutions of a page's picture, dots to the inch.
const (
	ordinaryDPI = 110
	finestDPI   = 300
)

// picture serves a page as a picture.
func (s *Server) picture(w http.ResponseWriter, r *http.Request) {
	p, n, err := s.sheetOf(r)
	if err != nil {
		s.noPicture(w, r, err)
		return
	}
	dpi, err := strconv.Atoi(r.URL.Query().Get("dpi"))
	if err != nil {
		dpi = ordinaryDPI
	}
	data, err := s.pictures.png(r.Context(), p.SHA256, n, min(max(dpi, 20), finestDPI))
	if err != nil {
		s.noPicture(w, r, err)
		return
	}
	w.Header().Set("Content-Type", "image/png")
	w.Header().Set("Cache-Control", "private, max-age=600") // the secret is in its address
	_, _ = w.Write(data)                                    // the visitor is gone if this fails
}

// noPicture draws why there is no picture, so that the page says so where it would be.
func (s *Server) noPicture(w http.ResponseWriter, r *http.Request, err error) {
	status := statusOf(err)
	if errors.Is(err, page.ErrNoPicture) || errors.Is(err, page.ErrLocked) {
		status = http.StatusOK
	} else if status == http.StatusInternalServerError {
		s.failed(r, err)
	}
	t := wordsFor(r)
	why := t.T("page.none")
	if errors.Is(err, page.ErrLocked) {
		why = t.T("page.locked")
	}
	w.Header().Set("Content-Type", "image/svg+xml")
	w.WriteHeader(status)
	_, _ = fmt.Fprintf(w, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 600 120" width="600" height="120"><rect width="600" height="120" fill="#eee9dc"/><text x="300" y="66" text-anchor="middle" font-family="serif" font-size="18" fill="#333">%s</text></svg>`, template.HTMLEscapeString(why))
}

// markOf is a value's outline on a page, in points.
type markOf struct {
	Field string     `json:"field"`
	Mark  string     `json:"mark"`
	Box   [4]float64 `json:"box"`
}

// marksOn are the outlines of a paper's values on page n.
func marksOn(p journal.PaperDetail, n int) []markOf {
	list := []markOf{}
	for i, f := range ordinary {
		v := p.Values[f]
		if v.Box == nil || v.Page != n || v.By == paper.ByPerson {
			continue
		}
		m := markOf{Field: string(f), Mark: mark(i)}
		for k, c := range paper.Box(*v.Box) {
			m.Box[k] = float64(c) / 100 // hundredths of a point
		}
		list = append(list, m)
	}
	return list
}

// marks draws the outlines alone, to be laid over the picture without a script.
func (s *Server) marks(w http.ResponseWriter, r *http.Request) {
	p, n, err := s.sheetOf(r)
	if err != nil {
		s.noPicture(w, r, err)
		return
	}
	sheet, err := s.pictures.page(r.Context(), p.SHA256, n, false)
	if err != nil || sheet.Width == 0 {
		sheet.Width, sheet.Height = 59500, 84200 // nothing can be outlined where there is no page
	}
	var b bytes.Buffer
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %g %g" fill="none" stroke="#1b4a7a" stroke-width="1.2">`, float64(sheet.Width)/100, float64(sheet.Height)/100)
	for _, m := range marksOn(p, n) {
		x, y := m.Box[0]-2, m.Box[1]-2
		fmt.Fprintf(&b, `<rect x="%g" y="%g" width="%g" height="%g"/><text x="%g" y="%g" font-family="sans-serif" font-size="9" stroke="none" fill="#1b4a7a">%s</text>`,
			x, y, m.Box[2]-m.Box[0]+4, m.Box[3]-m.Box[1]+4, x, y-2, m.Mark)
	}
	b.WriteString(`</svg>`)
	w.Header().Set("Content-Type", "image/svg+xml")
	_, _ = b.WriteTo(w) // the visitor is gone if this fails
}

// wordBox is a word of a page with its box in points.
type wordBox struct {
	Text string     `json:"text"`
	Box  [4]float64 `json:"box"`
}

// wordsOf serves a page's size, outlines and words, for the script that fills the form
// from a click.
func (s *Server) wordsOf(w http.ResponseWriter, r *http.Request) {
	p, n, err := s.sheetOf(r)
	if err != nil {
		http.Error(w, err.Error(), statusOf(err))
		return
	}
	sheet, err := s.pictures.page(r.Context(), p.SHA256, n, r.URL.Query().Get("all") != "")
	if err != nil {
		s.failed(r, err)
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	out := struct {
		Width  float64   `json:"width"`
		Height float64   `json:"height"`
		Marks  []markOf  `json:"marks"`
		Words  []wordBox `json:"words"`
	}{float64(sheet.Width) / 100, float64(sheet.Height) / 100, marksOn(p, n), []wordBox{}}
	for _, word := range sheet.Words {
		if word.Hidden {
			continue
		}
		b := wordBox{Text: word.Text}
		for k, c := range word.Box {
			b.Box[k] = float64(c) / 100
		}
		out.Words = append(out.Words, b)
	}
	w.Header().Set("Content-Type", "application/json")
	_ = json.NewEncoder(w).Encode(out) // the visitor is gone if this fails
}
