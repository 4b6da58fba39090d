package scheme_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"evidencevault/credit/scheme"
)

// sound is a scheme without a problem; each test changes one thing of it.
const sound = `scheme = 1
id = "x"
unit = "point"
target = "20"
[cycle]
years = 2
[category.course]
award = [{ from = "hours" }, { divide = "4" }]
most = "12"
[category.talk]
award = [{ from = "count" }]
[[cap]]
id = "both"
categories = ["course", "talk"]
most = "30"
[[minimum]]
id = "least"
categories = ["course"]
least = "2"
[carry_over]
most = "5"
`

func TestSoundSchemeHasNoProblem(t *testing.T) {
	for _, text := range []string{sound, "\ufeff" + sound, strings.ReplaceAll(sound, "\n", "\r\n")} {
		if bad := scheme.Check("x.toml", []byte(text)); len(bad) > 0 {
			t.Error(bad)
		}
	}
}

func TestProblemsOfSchemes(t *testing.T) {
	tests := []struct{ name, old, new, want string }{
		{"unknown key", "years = 2", "years = 2\ngrace = 3", `x.toml:7:1: cycle has no key "grace"`},
		{"misspelt key", "unit =", "unitt =", `did you mean unit?`},
		{"second key", `id = "x"`, "id = \"x\"\nid = \"y\"", "x.toml:3:1: id stands here a second time, first on line 2"},
		{"second table", "[carry_over]", "[category.course]\n[carry_over]", "x.toml:20:11: category.course is there already, on line 7"},
		{"wrong type", "years = 2", `years = "2"`, `x.toml:6:9: years of cycle is the text "2" (want a whole number from 1 to 100)`},
		{"negative cap", `most = "12"`, `most = "-12"`, "x.toml:9:8: most of category course is -12, below 0"},
		{"negative target", `"20"`, `-20`, "x.toml:4:10: target is -20, below 0"},
		{"negative rate", `{ divide = "4" }`, `{ divide = "-4" }`, "x.toml:8:41: divide of award of course is -4"},
		{"divide by 0", `{ divide = "4" }`, `{ divide = "0" }`, "want a number above 0"},
		{"no day", "years = 2", "years = 2\naccept_from = 2026-02-30", "x.toml:7:15: accept_from of cycle is a date (2026-02-30) (want a day of the calendar as YYYY-MM-DD)"},
		{"no day in a text", "years = 2", `years = 2` + "\n" + `accept_from = "2026-02-30"`, "a day of the calendar"},
		{"exponent", `"20"`, `1e400`, "x.toml:4:10: target is a number (1e400)"},
		{"not a number", `"20"`, `nan`, "target is a number (nan)"},
		{"fraction over 0", `"20"`, `"1/0"`, `target is the text "1/0"`},
		{"hexadecimal", `"20"`, `0x10`, "target is a whole number (0x10)"},
		{"comma", `"20"`, `"7,2"`, "target is the text"},
		{"other digits", `"20"`, `"١٢"`, "target is the text"},
		{"too many digits", `"20"`, `"` + strings.Repeat("9", 41) + `"`, "up to 40 digits"},
		{"million digits", `"20"`, strings.Repeat("9", 900_000), "up to 40 digits"},
		{"unknown step", `{ divide = "4" }`, `{ devide = "4" }`, `award of course has no step "devide" (did you mean divide?)`},
		{"base in the middle", `{ divide = "4" }`, `{ from = "hours" }`, "it can only stand first"},
		{"unknown category", `["course", "talk"]`, `["course", "talks"]`, `cap both names the category "talks", which is not there (did you mean talk?)`},
		{"look-alike letter", "[category.talk]", "[category.\"t\u0430lk\"]", "is no name for a rule"},
		{"sign that turns the line", `unit = "point"`, "unit = \"point\u202e\"", "a sign that does not show: U+202E"},
		{"two caps of one name", "[[minimum]]", "[[cap]]\nid = \"both\"\nmost = 1\n[[minimum]]", "cap both stands here a second time, first on line 12"},
		{"no figure", `most = "30"`, "", "cap both says 0 times how much it allows"},
		{"window", `most = "30"`, "most = 30\nper = \"rolling:0\"", `cap both has no window "rolling:0"`},
		{"tag and not", `least = "2"`, "least = 2\ntags = [\"a\"]\nnot_tags = [\"a\"]", "so it names nothing"},
		{"minimum above cap", `least = "2"`, `least = "13"`, "minimum least asks 13, but cap course (line 9) allows only 12 of the same credit"},
		{"minimum above target", "categories = [\"course\"]\nleast = \"2\"", `least = "25"`, "minimum least asks 25, more than the target, 20"},
		{"target above caps", "[category.talk]\n", "[category.talk]\nmost = 7\n", "the target is 20, but the caps allow only 19 in all"},
		{"target above one cap", `most = "30"`, `most = "19"` + "\n[[cap]]\nid = \"all\"\nmost = \"18\"", "x.toml:4:10: the target is 20, but cap all (line 16) allows only 18 of all credit (one of the two figures is wrong)"},
		{"minimum above a share", `least = "2"`, "least = \"11\"\n[[cap]]\nid = \"half\"\ncategories = [\"course\"]\nshare = \"1/2\"", "minimum least asks 11, but cap half (line 20) allows only 10 of the same credit"},
		{"years above cap", `least = "2"`, "least = \"7\"\nper = \"year\"", "minimum least asks 14, but cap course (line 9) allows only 12 of the same credit"},
		{"year above cap of a year", `most = "30"`, "most = \"3\"\nper = \"year\"\n[[minimum]]\nid = \"yearly\"\nper = \"year\"\nleast = \"4\"", "minimum yearly asks 4, but cap both (line 12) allows only 3 of the same credit"},
		{"minimum above two caps", "[category.talk]\n", "[[minimum]]\nid = \"sum\"\nleast = \"19\"\ncategories = [\"talk\", \"course\"]\n[category.talk]\nmost = 6\n", "minimum sum asks 19, but the caps of its categories allow only 18 in all"},
		{"too many categories asked", `least = "2"`, `distinct = 3`, "minimum least asks 3 different categories, and the scheme has 2"},
		{"category never used", "[category.talk]\n", "accepts = [\"attendance\"]\n[category.talk]\n", "x.toml:11:11: category talk is never used: it accepts no kind of paper"},
		{"versions of a cap", "[[minimum]]", "[[cap]]\nid = \"old\"\ncategories = [\"course\", \"talk\"]\nuntil = 2025-06-30\nmost = 20\n[[cap]]\nid = \"new\"\ncategories = [\"talk\", \"course\"]\nfrom = 2025-06-30\nmost = 25\n[[minimum]]",
			"x.toml:21:3: cap new and cap old (line 16) are two versions of one rule and hold on the same days (let one begin the day after the other ends)"},
		{"versions of a minimum", "[carry_over]", "[[minimum]]\nid = \"old\"\nbegun_until = 2014-01-01\nleast = 3\n[[minimum]]\nid = \"new\"\nbegun_from = 2014-01-01\nleast = 5\n[carry_over]",
			"x.toml:24:3: minimum new and minimum old (line 20) are two versions"},
		{"begun never", `least = "2"`, "least = 2\nbegun_from = 2014-01-01\nbegun_until = 2013-01-01", "x.toml:21:1: minimum least is for cycles begun from 2014-01-01 until 2013-01-01, which are none"},
		{"name that is like none", "years = 2", "years = 2\nzz = 3", `x.toml:7:1: cycle has no key "zz" (known here: `},
		{"name that is far off", `["course", "talk"]`, `["course", "t4nk"]`, `write a [category.t4nk], or take the name out`},
		{"carry above target", `most = "5"`, `most = "21"`, "carry_over allows 21, more than the target of a whole cycle, 20"},
		{"carry into nothing", `most = "5"`, "most = 5\ninto = \"general\"", `carry_over goes into "general", which is not there`},
		{"circle", `least = "2"`, "any_of = [[\"b\"]]\n[[minimum]]\nid = \"b\"\nany_of = [[\"least\"]]", "a circle, least → b → least"},
		{"any of itself", `least = "2"`, `any_of = [["least"]]`, "a circle, least → least"},
		{"exclusive of one", "[carry_over]", "[[exclusive]]\nminimums = [\"least\"]\n[carry_over]", "exclusive names 1 minimums"},
		{"rows that fall", `{ divide = "4" }`, `{ bands = [["30", "1"], ["20", "2"]] }`, "do not rise"},
		{"no version", "scheme = 1\n", "", "which version of the language"},
		{"empty", sound, "", "the file says nothing"},
		{"UTF-16", sound, "\xff\xfes\x00c\x00", "save the file as UTF-8"},
		{"NUL", "years = 2", "years = 2 \x00", "x.toml:6:11: not readable as TOML"},
		{"no TOML", "years = 2", "years = = 2", "x.toml:6:9: not readable as TOML"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			text := strings.Replace(sound, tt.old, tt.new, 1)
			if text == sound {
				t.Fatal("the change changes nothing")
			}
			bad := scheme.Check("x.toml", []byte(text))
			var lines []string
			for _, p := range bad {
				if p.Line < 1 || p.Column < 1 || p.Text == "" {
					t.Errorf("a problem without a place or a text: %+v", p)
				}
				lines = append(lines, p.String())
			}
			if !strings.Contains(strings.Join(lines, "\n"), tt.want) {
				t.Errorf("want %q in\n%s", tt.want, strings.Join(lines, "\n"))
			}
		})
	}
}

// Versions that follow one another, and rules that differ in more than their days, are
// no problem.
func TestVersionsThatGoTogether(t *testing.T) {
	tests := []struct{ name, rules string }{
		{"one after the other", "[[cap]]\nid = \"a\"\nuntil = 2025-06-30\nmost = 20\n[[cap]]\nid = \"b\"\nfrom = 2025-07-01\nmost = 25\n"},
		{"cycles begun apart", "[[cap]]\nid = \"a\"\nfrom = 2025-01-01\nbegun_until = 2025-06-30\nmost = 20\n[[cap]]\nid = \"b\"\nfrom = 2025-01-01\nbegun_from = 2025-07-01\nmost = 25\n"},
		{"one without days", "[[cap]]\nid = \"a\"\nmost = 25\n[[cap]]\nid = \"b\"\nfrom = 2025-07-01\nmost = 22\n"},
		{"other tags", "[[minimum]]\nid = \"a\"\ntags = [\"a\"]\nfrom = 2025-01-01\nleast = 2\n[[minimum]]\nid = \"b\"\ntags = [\"b\"]\nfrom = 2025-01-01\nleast = 2\n"},
		{"other windows", "[[cap]]\nid = \"a\"\nfrom = 2025-01-01\nmost = 25\n[[cap]]\nid = \"b\"\nper = \"year\"\nfrom = 2025-01-01\nmost = 22\n"},
		{"years by name", "[[minimum]]\nid = \"a\"\nper = \"year\"\nwindows = \"2024\"\nfrom = 2024-01-01\nleast = 2\n[[minimum]]\nid = \"b\"\nper = \"year\"\nwindows = \"2025\"\nfrom = 2024-01-01\nleast = 3\n"},
	}
	for _, tt := range tests {
		if bad := scheme.Check("x.toml", []byte(sound+tt.rules)); len(bad) > 0 {
			t.Errorf("%s: %v", tt.name, bad)
		}
	}
}

func TestAllProblemsAtOnce(t *testing.T) {
	text := strings.NewReplacer("years = 2", "years = = 2", `"12"`, `"-12"`, `id = "both"`, `idd = "both"`, `"20"`, "1e9", "least = \"2\"", "least = [1").Replace(sound)
	bad := scheme.Check("x.toml", []byte(text))
	for _, want := range []int{4, 6, 9, 13} {
		found := false
		for _, p := range bad {
			found = found || p.Line == want
		}
		if !found {
			t.Errorf("nothing is said of line %d in %v", want, bad)
		}
	}
	for i := range bad[1:] {
		if bad[i].Line > bad[i+1].Line {
			t.Errorf("the problems do not stand in the order of the file: %v", bad)
		}
	}
}

func TestLargeFilesEnd(t *testing.T) {
	var many strings.Builder
	many.WriteString("scheme = 1\nid = \"x\"\nunit = \"u\"\n")
	for i := range 20_000 {
		fmt.Fprintf(&many, "[category.c%d]\naward = 1\n", i)
	}
	var rules strings.Builder
	rules.WriteString("scheme = 1\nid = \"x\"\nunit = \"u\"\ntarget = 1\n")
	for i := range 5_000 {
		fmt.Fprintf(&rules, "[category.c%d]\naward = 1\nmost = 1\n[[minimum]]\nid = \"m%d\"\nleast = 2\n", i, i)
	}
	for name, text := range map[string]string{
		"5,000 minimums and caps": rules.String(),
		"20,000 categories":       many.String(),
		"deep lists":              "a = " + strings.Repeat("[", 200_000),
		"deep lists, closed":      "a = " + strings.Repeat("[", 9_000) + strings.Repeat("]", 9_000),
		"deep award":              strings.Replace(sound, `[{ from = "hours" }`, strings.Repeat("[{ sum = [", 500)+`[{ from = "hours" }]`+strings.Repeat("] }]", 500)+`, [{ from = "hours" }`, 1),
		"50 MB":                   strings.Repeat("# nothing\n", 5_000_000),
		"many bad lines":          strings.Repeat("= =\n", 200_000),
		"many unknown keys":       strings.Repeat("x", 60) + strings.Repeat("\n[a.b]", 100_000),
	} {
		start := time.Now()
		if bad := scheme.Check("x.toml", []byte(text)); len(bad) == 0 {
			t.Errorf("%s: no problem is found", name)
		}
		if d := time.Since(start); d > 10*time.Second {
			t.Errorf("%s: took %v", name, d)
		}
	}
}
