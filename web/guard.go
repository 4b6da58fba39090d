package web

import (
	"crypto/subtle"
	"net/http"
	"slices"
	"strings"
)

// policy lets a page use nothing but its own style, script and pictures.
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; " +
	"form-action 'self'; frame-ancestors 'none'; base-uri 'none'"

// guard is what every request passes first: the headers that hold for all answers, the
// Host (a page of elsewhere could be given our address by its name server), requests of
// other pages, the secret in the path, and for what changes something the secret in the
// form. Sources: RFC 9110, section 7.2; Fetch Metadata (W3C); CSP 3 (W3C).
func (s *Server) guard(next http.Handler) http.Handler {
	cross := http.NewCrossOriginProtection()
	inner := cross.Handler(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		rest, ok := s.inside(r.URL.Path)
		if !ok {
			http.Error(w, "404 there is nothing here; the program that serves this page prints its address", http.StatusNotFound)
			return
		}
		if r.Method != http.MethodGet && r.Method != http.MethodHead {
			if !s.mayChange(w, r) {
				return
			}
		}
		r2 := r.Clone(r.Context())
		r2.URL.Path, r2.URL.RawPath = rest, ""
		r2.Form, r2.PostForm, r2.MultipartForm = r.Form, r.PostForm, r.MultipartForm
		next.ServeHTTP(w, r2)
	}))
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Frame-Options", "DENY")
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cache-Control", "no-store")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		if !slices.Contains(s.hosts, r.Host) {
			http.Error(w, "421 this page answers to its own address only", http.StatusMisdirectedRequest)
			return
		}
		inner.ServeHTTP(w, r)
	})
}

// inside takes the secret off a path.
func (s *Server) inside(path string) (string, bool) {
	given, rest, _ := strings.Cut(strings.TrimPrefix(path, "/"), "/")
	if subtle.ConstantTimeCompare([]byte(given), []byte(s.secret)) != 1 {
		return "", false
	}
	return "/" + rest, true
}

// mayChange reads the form and compares its secret, which no page of elsewhere can
// know. An upload carries it in the address's query, since its body is a stream.
func (s *Server) mayChange(w http.ResponseWriter, r *http.Request) bool {
	given := ""
	if strings.HasPrefix(r.Header.Get("Content-Type"), "multipart/form-data") {
		r.Body = http.MaxBytesReader(w, r.Body, s.o.Upload)
		given = r.URL.Query().Get("token")
	} else {
		r.Body = http.MaxBytesReader(w, r.Body, mostForm)
		if err := r.ParseForm(); err != nil {
			http.Error(w, "413 the form cannot be read, or is too long", http.StatusRequestEntityTooLarge)
			return false
		}
		given = r.PostForm.Get("token")
	}
	if subtle.ConstantTimeCompare([]byte(given), []byte(s.secret)) != 1 {
		http.Error(w, "403 the form does not come from this page", http.StatusForbidden)
		return false
	}
	return true
}
