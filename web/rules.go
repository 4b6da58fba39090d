package web

import (
	"encoding/base64"
	"errors"
	"net/http"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"evidencevault/credit"
	"evidencevault/credit/scheme"
	"evidencevault/journal"
)

// mostRules bounds a scheme file that is looked at before it is taken up: it goes with
// the form, so that nothing is kept in between.
const mostRules = 512 << 10

// rulesPage is what another version of the rules would make of the present cycle.
type rulesPage struct {
	Certification string
	Start, End    credit.Date
	Now           string // the version in force
	Wrong         []string

	Name, Data string // of the file, in base 64
	Moves      []movePart
	Change     *journal.VersionChange
	Lines      []string // what differs besides single claims
	Claims     []versionClaim
	Version    string // what was shown; nothing else is taken up
}

// movePart is a category that the version does not have, with those it has.
type movePart struct {
	Old, To string
	Claims  []string
	Choices []choice
}

// versionClaim is a claim that comes to something else.
type versionClaim struct {
	credit.ClaimDiffers
	Title string
}

// rules asks for the file.
func (s *Server) rules(w http.ResponseWriter, r *http.Request) {
	body, err := s.rulesBody(r, r.URL.Query().Get("certification"))
	if err != nil {
		s.fail(w, r, err)
		return
	}
	s.show(w, r, http.StatusOK, screenRules, wordsFor(r).T("rules.title"), body)
}

func (s *Server) rulesBody(r *http.Request, certification string) (rulesPage, error) {
	cert, err := s.o.Journal.Certified(r.Context(), certification, credit.Date{})
	if err != nil {
		return rulesPage{}, err
	}
	version, err := s.o.Journal.Catalog().Length(r.Context())
	return rulesPage{Certification: cert.Name, Start: cert.Cycle.Start, End: cert.Cycle.End, Now: cert.Scheme.Version, Version: strconv.Itoa(version)}, err
}

// lookAtRules shows what the file that was sent would change.
func (s *Server) lookAtRules(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseMultipartForm(mostRules); err != nil {
		http.Error(w, "413 the form cannot be read, or is too long", http.StatusRequestEntityTooLarge)
		return
	}
	body, err := s.rulesBody(r, r.PostFormValue("certification"))
	if err != nil {
		s.fail(w, r, err)
		return
	}
	t := wordsFor(r)
	file, err := ownScheme(r)
	switch {
	case err != nil:
		body.Wrong = []string{s.say(r, err)}
	case len(file.Data) == 0:
		body.Wrong = []string{t.T("rules.nofile")}
	case len(file.Data) > mostRules:
		body.Wrong = []string{t.T("add.toolarge", 0)}
	default:
		s.showRules(w, r, http.StatusOK, body, file, map[string]string{})
		return
	}
	s.show(w, r, http.StatusUnprocessableEntity, screenRules, t.T("rules.title"), body)
}

// showRules shows the differences, or asks first where claims go whose category the
// version does not have.
func (s *Server) showRules(w http.ResponseWriter, r *http.Request, status int, body rulesPage, file journal.SchemeFile, moves map[string]string) {
	body.Name, body.Data = file.Name, base64.StdEncoding.EncodeToString(file.Data)
	var err error
	if body.Moves, err = s.movesOf(r, body.Certification, file, moves); err != nil {
		s.fail(w, r, err)
		return
	}
	open := slices.ContainsFunc(body.Moves, func(m movePart) bool { return m.To == "" })
	if !open {
		change, err := s.o.Journal.PreviewScheme(r.Context(), journal.SchemeUse{File: file, Certification: body.Certification, Move: moves})
		if err != nil {
			status, body.Wrong, body.Data = http.StatusUnprocessableEntity, append(body.Wrong, s.problems(r, err)...), ""
		} else if err := s.differences(r, &body, change); err != nil {
			s.fail(w, r, err)
			return
		}
	}
	s.show(w, r, status, screenRules, wordsFor(r).T("rules.title"), body)
}

// problems is an error, and where it is one of a scheme file each of its problems.
func (s *Server) problems(r *http.Request, err error) []string {
	list := []string{s.say(r, err)}
	var wrong *journal.SchemeError
	if errors.As(err, &wrong) {
		for _, p := range wrong.Problems {
			list = append(list, p.String())
		}
	}
	return list
}

// movesOf are the categories of claims that the file does not have.
func (s *Server) movesOf(r *http.Request, certification string, file journal.SchemeFile, moves map[string]string) ([]movePart, error) {
	rules, problems := scheme.Parse(file.Name, file.Data)
	if len(problems) > 0 {
		return nil, nil // they are said when the differences are worked out
	}
	claims, err := s.o.Journal.Claims(r.Context(), journal.ClaimsFilter{Certification: certification})
	if err != nil {
		return nil, err
	}
	var choices []choice
	for _, k := range rules.Categories {
		choices = append(choices, choice{Value: k.ID, Label: orID(k)})
	}
	var list []movePart
	for _, c := range claims {
		if _, ok := rules.Category(c.Category); ok {
			continue
		}
		i := slices.IndexFunc(list, func(m movePart) bool { return m.Old == c.Category })
		if i < 0 {
			i, list = len(list), append(list, movePart{Old: c.Category, To: moves[c.Category], Choices: choices})
		}
		list[i].Claims = append(list[i].Claims, c.ID)
	}
	return list, nil
}

// differences fills in what changes, claim by claim.
func (s *Server) differences(r *http.Request, body *rulesPage, change journal.VersionChange) error {
	claims, err := s.o.Journal.Claims(r.Context(), journal.ClaimsFilter{Certification: body.Certification})
	if err != nil {
		return err
	}
	body.Change = &change
	for _, c := range change.Differences.Claims {
		k := versionClaim{ClaimDiffers: c}
		if i := slices.IndexFunc(claims, func(o journal.Claim) bool { return o.ID == c.ID }); i >= 0 {
			k.Title = claims[i].Title
		}
		body.Claims = append(body.Claims, k)
	}
	rest := change.Differences
	rest.Claims = nil
	if len(body.Claims) == 0 || !rest.None() {
		body.Lines = rest.Lines()
	}
	return nil
}

// useRules takes the version up that was shown.
func (s *Server) useRules(w http.ResponseWriter, r *http.Request) {
	t := wordsFor(r)
	body, err := s.rulesBody(r, r.PostForm.Get("certification"))
	if err != nil {
		s.fail(w, r, err)
		return
	}
	data, err := base64.StdEncoding.DecodeString(r.PostForm.Get("data"))
	if err != nil || len(data) == 0 || len(data) > mostRules {
		body.Wrong = []string{t.T("rules.nofile")}
		s.show(w, r, http.StatusUnprocessableEntity, screenRules, t.T("rules.title"), body)
		return
	}
	file, moves := journal.SchemeFile{Name: filepath.Base(r.PostForm.Get("name")), Data: data}, map[string]string{}
	for key := range r.PostForm {
		if old, ok := strings.CutPrefix(key, "move."); ok && r.PostForm.Get(key) != "" {
			moves[old] = r.PostForm.Get(key)
		}
	}
	shown := r.PostForm.Get("version")
	if r.PostForm.Get("act") != "use" || shown != body.Version {
		status := http.StatusOK
		if r.PostForm.Get("act") == "use" {
			status, body.Wrong = http.StatusConflict, []string{t.T("close.stale")}
		}
		s.showRules(w, r, status, body, file, moves)
		return
	}
	change, err := s.o.Journal.UseScheme(r.Context(), journal.SchemeUse{File: file, Certification: body.Certification, Move: moves})
	if err != nil {
		body.Wrong = s.problems(r, err)
		s.show(w, r, http.StatusUnprocessableEntity, screenRules, t.T("rules.title"), body)
		return
	}
	s.then(w, r, "/standing", note{Text: t.T("done.rules", t.Day(change.Cycle.Start), t.Day(change.Cycle.End), change.To.String())})
}
