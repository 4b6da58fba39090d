package scheme_test

import (
	"fmt"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"evidencevault/credit"
	"evidencevault/credit/scheme"
)

var (
	featureHead  = regexp.MustCompile(`(?m)^## F(\d+) (.+)$`)
	featureBlock = regexp.MustCompile("(?ms)^```(toml|json|expect)\n(.*?)^```$")
)

// features is how many there are in the list of what published rule books ask.
const features = 107

// TestFeatures runs every entry of docs/features.md: the lines of scheme as a file, the
// claims under them, and compares what is expected exactly. An entry without lines says
// why there can be none.
func TestFeatures(t *testing.T) {
	data, err := os.ReadFile("../../docs/features.md")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.ReplaceAll(string(data), "\r\n", "\n")
	heads := featureHead.FindAllStringSubmatchIndex(text, -1)
	seen := map[int]bool{}
	for i, h := range heads {
		n, err := strconv.Atoi(text[h[2]:h[3]])
		if err != nil || n < 1 || n > features || seen[n] {
			t.Errorf("F%d is no number of a feature, or stands there twice", n)
		}
		seen[n] = true
		end := len(text)
		if i+1 < len(heads) {
			end = heads[i+1][0]
		}
		entry := text[h[1]:end]
		t.Run(fmt.Sprintf("F%d", n), func(t *testing.T) { tryFeature(t, entry) })
	}
	for n := 1; n <= features; n++ {
		if !seen[n] {
			t.Errorf("F%d is missing", n)
		}
	}
}

// tryFeature runs one entry: each expect block belongs to the last toml and json blocks
// before it.
func tryFeature(t *testing.T, entry string) {
	blocks := featureBlock.FindAllStringSubmatch(entry, -1)
	if len(blocks) == 0 {
		if !strings.Contains(entry, "Cannot be said:") {
			t.Error("neither lines of scheme nor the reason why there are none")
		}
		return
	}
	var rules, claims string
	expects := 0
	for _, b := range blocks {
		switch b[1] {
		case "toml":
			rules, claims = b[2], ""
		case "json":
			claims = b[2]
		case "expect":
			expects++
			compareFeature(t, rules, claims, b[2])
		}
	}
	if expects == 0 {
		t.Error("nothing is expected, so nothing is tested")
	}
}

func compareFeature(t *testing.T, rules, claims, expect string) {
	t.Helper()
	file := "scheme = 1\nid = \"x\"\nversion = \"1\"\ntitle = \"T\"\nbody = \"B\"\nunit = \"credit\"\n" + rules
	s, problems := scheme.Parse("x.toml", []byte(file))
	if len(problems) > 0 {
		t.Errorf("%v\n%s", problems, file)
		return
	}
	var st credit.Statement
	if claims != "" {
		in, problems := scheme.ParseClaims("claims.json", []byte(claims))
		if len(problems) > 0 {
			t.Errorf("%v\n%s", problems, claims)
			return
		}
		var err error
		if st, err = credit.Calculate(s, in); err != nil {
			t.Error(err)
			return
		}
	}
	for line := range strings.Lines(expect) {
		if line = strings.TrimSpace(line); line == "" {
			continue
		}
		what, _, _ := strings.Cut(line, " ")
		want := strings.TrimSpace(strings.TrimPrefix(line, what))
		if got := featureFigure(s, st, what, &want); got != want {
			t.Errorf("%s is %s, want %s\n%s", line, got, want, strings.Join(st.ExplainAll(), "\n"))
		}
	}
}

// featureFigure looks up one figure. want comes as the rest of the line and is left as
// what is compared.
func featureFigure(s credit.Scheme, st credit.Statement, what string, want *string) string {
	name, rest, _ := strings.Cut(*want, " ")
	of := func() string { *want = rest; return name }
	switch what {
	case "counted":
		return st.Counted.String()
	case "missing":
		return st.Missing.String()
	case "target":
		return st.Target.String()
	case "meets":
		return strconv.FormatBool(st.Meets)
	case "carry_out":
		return st.CarryOut.String()
	case "exclusive_missing":
		return st.ExclusiveMissing.String()
	case "cycle":
		return st.Cycle.Start.String() + " " + st.Cycle.End.String()
	case "awarded":
		r, _ := st.Result(of())
		return r.Awarded.String()
	case "claim":
		r, _ := st.Result(of())
		return r.Counted.String()
	case "lost": // of a claim, by caps and by what it was not needed for
		r, _ := st.Result(of())
		return r.Awarded.Sub(r.Counted).String()
	case "keeps": // of what counts, when the rest is carried on
		return st.Counted.Sub(st.CarryOut).String()
	case "says": // some line of the explanation
		if strings.Contains(strings.Join(st.ExplainAll(), "\n"), *want) {
			return *want
		}
	case "minimums": // that are asked
		var list []string
		for _, m := range st.Minimums {
			list = append(list, m.ID)
		}
		return strings.Join(list, " ")
	case "short":
		id := of()
		for _, m := range st.Minimums {
			if m.ID == id {
				return m.Want.Sub(m.Have).String()
			}
		}
	case "minimum":
		id := of()
		for _, m := range st.Minimums {
			if m.ID == id {
				return m.Have.String() + map[bool]string{true: " met", false: " open"}[m.Met]
			}
		}
	case "category":
		id := of()
		for _, c := range st.Categories {
			if c.ID == id {
				return c.Counted.String()
			}
		}
	case "deadline":
		day := of()
		for _, d := range st.Deadlines {
			if d.What == rest {
				*want = day
				return d.Date.String()
			}
		}
	case "leaving":
		day := of()
		for _, l := range st.Leaving {
			if l.Date.String() == day {
				return l.Amount.String()
			}
		}
	case "asks":
		c, _ := s.Category(of())
		var list []string
		for _, l := range c.Log {
			list = append(list, strings.Join(l.Names, "|"))
		}
		return strings.Join(list, " ")
	case "accepts":
		c, _ := s.Category(of())
		return strings.Join(c.Accepts, " ")
	}
	return "not there"
}
