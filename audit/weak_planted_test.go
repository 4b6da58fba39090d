package audit_test

import (
	"fmt"
	"math/big"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"evidencevault/audit"
	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/extract/paper"
	"evidencevault/journal"
)

// plantedScheme asks for everything that a rehearsal judges.
const plantedScheme = `scheme = 1
id = "planted"
version = "1"
title = "Ropeway Inspector"
body = "Invented Council"
unit = "point"
target = "500"

[cycle]
anchor = "length"
years = 4

[proof]
keep_years = 3
answer_days = 30

[category.course]
accepts = ["attendance"]
award = [{ from = "hours" }, { down = "1" }]
log = ["place | instructor"]
proof = "certificate of attendance, with name, date and hours"
providers = ["Ostrava Cableway School", "Kestrelmoor Institute"]
source = "rule book, section 3"

[category.online]
accepts = ["completion"]
award = [{ from = "hours" }]
signed = true

[category.teaching]
accepts = ["instruction"]
award = [{ from = "hours" }]

[category.vetted]
accepts = ["meeting"]
award = [{ from = "hours" }]
asks_tags = ["vetted"]
`

// deed is one claim with the paper that proves it, before a fault is planted.
type deed struct {
	category  string
	claimed   map[paper.Field]string
	shown     map[paper.Field]string // by the paper; nil: there is none
	quote     string                 // of the length
	language  string
	questions []paper.Question
	by        int    // 1: the paper of the deed before proves it; 2: the deed before itself is claimed again
	store     string // what happens to the file: "", altered, missing or deleted
	want      []string
}

var subjects = []string{"Ropes", "Clamps", "Brakes", "Drives", "Towers", "Cabins", "Grips", "Signals", "Winds", "Rescue", "Sheaves", "Stations", "Welds", "Chairs",
	"Tracks", "Doors", "Ice", "Noise", "Power", "Loads"}

// deeds makes 200 claims in which a strict auditor finds nothing: one every fourth day.
func deeds() []deed {
	var list []deed
	for i := range 200 {
		day := credit.MustDate("2024-07-02").AddDays(4 * i).String()
		minutes := 120 + 60*(i%3)
		d := deed{category: "course", language: "en", quote: fmt.Sprintf("09:00 – %02d:00", 9+minutes/60), claimed: map[paper.Field]string{
			paper.FieldKind: "attendance", paper.FieldTitle: fmt.Sprintf("%s and %s, part %d", subjects[i%20], subjects[(i/20+i+1)%20], i), paper.FieldProvider: "Ostrava Cableway School",
			paper.FieldStart: day, paper.FieldEnd: day, paper.FieldDuration: strconv.Itoa(minutes), "place": "Tarn"}}
		switch {
		case i%9 == 8:
			d.category, d.quote = "online", fmt.Sprintf("%d hours", minutes/60)
			d.claimed[paper.FieldKind], d.claimed["signature"] = "completion", "yes"
		case i%18 == 4:
			d.category, d.claimed[paper.FieldKind], d.claimed[paper.FieldProvider] = "teaching", "instruction", "Vallmere School"
		}
		d.shown = map[paper.Field]string{paper.FieldAttendee: "Mirela Tannhof", paper.FieldIssue: day}
		if i%17 == 0 {
			d.shown[paper.FieldAttendee] = "Mirela Birkhall" // as she was called before
		}
		for f, v := range d.claimed {
			if f != "place" && f != "signature" {
				d.shown[f] = v
			}
		}
		list = append(list, d)
	}
	return list
}

// set gives a field to the claim and its paper alike.
func (d *deed) set(f paper.Field, value string) {
	d.claimed[f] = value
	d.shown[f] = value
}

// like makes d another claim of what other was, on the same day, with a paper of its own.
func (d *deed) like(other deed) {
	d.category, d.quote = other.category, other.quote
	for _, f := range []paper.Field{paper.FieldKind, paper.FieldTitle, paper.FieldProvider, paper.FieldStart, paper.FieldEnd, paper.FieldDuration, paper.FieldIssue} {
		d.set(f, other.shown[f])
	}
	delete(d.claimed, paper.FieldIssue)
}

// fault is one kind of fault, planted in the deed after the one before.
type fault struct {
	name  string
	plant func(d *deed, before deed)
	want  []string
}

var faultKinds = []fault{
	{"no paper", func(d *deed, _ deed) { d.shown = nil }, []string{audit.WeakUnproven}},
	{"the wrong kind of paper", func(d *deed, _ deed) { d.set(paper.FieldKind, "membership") }, []string{audit.WeakKind}},
	{"another holder", func(d *deed, _ deed) { d.shown[paper.FieldAttendee] = "Jorun Askeland" }, []string{audit.WeakName}},
	{"a name a letter off", func(d *deed, _ deed) { d.shown[paper.FieldAttendee] = "Mirela Tanhof" }, []string{audit.WeakName}},
	{"outside the cycle", func(d *deed, _ deed) {
		day := credit.MustDate(d.claimed[paper.FieldEnd]).AddYears(-3).String()
		d.set(paper.FieldStart, day)
		d.set(paper.FieldEnd, day)
	}, []string{audit.WeakOutside}},
	{"more time than proven", func(d *deed, _ deed) { d.claimed[paper.FieldDuration] = "300" }, []string{audit.WeakAbove}},
	{"more credit than proven", func(d *deed, _ deed) {
		d.claimed[paper.FieldCredits], d.shown[paper.FieldCredits] = "40 CEU", "4 CEU"
	}, []string{audit.WeakAbove}},
	{"another day than proven", func(d *deed, _ deed) {
		day := credit.MustDate(d.claimed[paper.FieldEnd]).AddDays(1).String()
		d.claimed[paper.FieldStart], d.claimed[paper.FieldEnd] = day, day
	}, []string{audit.WeakOther}},
	{"another title than proven", func(d *deed, _ deed) { d.claimed[paper.FieldTitle] = "Something else" }, []string{audit.WeakOther}},
	{"a value no paper shows", func(d *deed, _ deed) { delete(d.shown, paper.FieldDuration) }, []string{audit.WeakPerson}},
	{"scanned twice, read alike", func(d *deed, before deed) { d.like(before) }, []string{audit.WeakTwice}},
	{"scanned twice, title misread", func(d *deed, before deed) {
		d.like(before)
		d.set(paper.FieldTitle, strings.Replace(before.shown[paper.FieldTitle], "and", "ond", 1))
	}, []string{audit.WeakTwice}},
	{"scanned twice, day misread", func(d *deed, before deed) {
		d.like(before)
		day := before.shown[paper.FieldEnd]
		day = day[:9] + string('0'+(day[9]-'0'+1)%10)
		if _, err := credit.ParseDate(day); err != nil {
			day = day[:8] + "01"
		}
		d.set(paper.FieldStart, day)
		d.set(paper.FieldEnd, day)
	}, []string{audit.WeakScan}},
	{"claimed a second time", func(d *deed, _ deed) { d.by = 2 }, []string{audit.WeakTwice}},
	{"a paper that proves two", func(d *deed, before deed) {
		d.like(before)
		d.set(paper.FieldTitle, "An evening of something else altogether")
		d.by = 1
	}, []string{audit.WeakOther, audit.WeakShared}},
	{"two at the same hour", func(d *deed, before deed) {
		d.set(paper.FieldStart, before.shown[paper.FieldStart])
		d.set(paper.FieldEnd, before.shown[paper.FieldEnd])
		d.category = "teaching"
		d.set(paper.FieldKind, "instruction")
		d.quote = "10:30 to 12:00"
		d.set(paper.FieldDuration, "90")
	}, []string{audit.WeakHour}},
	{"sixteen hours in a day", func(d *deed, before deed) {
		d.set(paper.FieldStart, before.shown[paper.FieldStart])
		d.set(paper.FieldEnd, before.shown[paper.FieldEnd])
		d.set(paper.FieldDuration, "780")
		d.quote = "13 hours"
	}, []string{audit.WeakLongDay}},
	{"a provider that is not accepted", func(d *deed, _ deed) { d.set(paper.FieldProvider, "Backyard Courses") }, []string{audit.WeakProvider}},
	{"a provider a letter off", func(d *deed, _ deed) { d.set(paper.FieldProvider, "Ostrava Cabelway School") }, []string{audit.WeakProvider}},
	{"figures that disagree", func(d *deed, _ deed) {
		d.questions = []paper.Question{{Field: paper.FieldDuration, Text: "How long was it: 2 h or 3 h? The paper gives times that disagree.",
			Candidates: []paper.Candidate{{Text: d.claimed[paper.FieldDuration]}, {Text: "10"}}}}
	}, []string{audit.WeakFigures}},
	{"a file that was altered", func(d *deed, _ deed) { d.store = "altered" }, []string{audit.WeakEvidence}},
	{"a file that is missing", func(d *deed, _ deed) { d.store = "missing" }, []string{audit.WeakEvidence}},
	{"a file deleted too soon", func(d *deed, _ deed) { d.store = "deleted" }, []string{audit.WeakKeeping}},
	{"nobody looked for a signature", func(d *deed, _ deed) {
		d.category = "online"
		d.set(paper.FieldKind, "completion")
		delete(d.claimed, "signature")
	}, []string{audit.WeakSignature}},
	{"no signature", func(d *deed, _ deed) {
		d.category, d.claimed["signature"] = "online", "no"
		d.set(paper.FieldKind, "completion")
	}, []string{audit.WeakSignature}},
	{"no place in the log", func(d *deed, _ deed) { delete(d.claimed, "place") }, []string{audit.WeakLog}},
	{"another language", func(d *deed, _ deed) { d.language = "nl" }, []string{audit.WeakLanguage}},
	{"earns nothing", func(d *deed, _ deed) { d.set(paper.FieldDuration, "30") }, []string{audit.WeakNothing}},
	{"no day", func(d *deed, _ deed) {
		for _, f := range []paper.Field{paper.FieldStart, paper.FieldEnd} {
			delete(d.claimed, f)
			delete(d.shown, f)
		}
	}, []string{audit.WeakHoldsMore}},
	{"only the holder says so", func(d *deed, _ deed) {
		d.category, d.claimed["tags"] = "vetted", "vetted"
		d.set(paper.FieldKind, "meeting")
	}, []string{audit.WeakTagged}},
}

// plantFaults plants each kind of fault so many times, each in a pair of neighbours of
// its own, as far as there is room, and returns how many there are.
func plantFaults(list []deed, times int) int {
	n, i := 0, 1
	for range times {
		for _, k := range faultKinds {
			for i < len(list) && (list[i].category != "course" || list[i-1].category != "course") {
				i++
			}
			if i >= len(list) {
				return n
			}
			k.plant(&list[i], list[i-1])
			list[i].want = k.want
			n++
			i += 2
		}
	}
	return n
}

// vaultOfDeeds makes a vault of them, all in one act of the log.
func vaultOfDeeds(t *testing.T, list []deed) *journal.Journal {
	t.Helper()
	ctx := t.Context()
	j, err := journal.Setup(ctx, filepath.Join(t.TempDir(), "vault"), journal.SetupOptions{Holder: "Mirela Tannhof",
		Scheme: journal.SchemeFile{Name: "planted.toml", Data: []byte(plantedScheme)}, Start: credit.MustDate("2024-07-01"), Now: func() time.Time { return today }})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { j.Close() })
	if err := j.SetFact(ctx, "former_name", "Mirela Birkhall", credit.Date{}); err != nil {
		t.Fatal(err)
	}
	cert, err := j.Certified(ctx, "", on)
	if err != nil {
		t.Fatal(err)
	}
	w := deedWriter{t: t, j: j, cert: cert}
	if err := j.Catalog().Act(ctx, func(tx *catalog.Tx) error { return w.write(tx, list) }); err != nil {
		t.Fatal(err)
	}
	w.damage(list)
	return j
}

// deedWriter writes deeds into the log as a confirmation would.
type deedWriter struct {
	t      *testing.T
	j      *journal.Journal
	cert   journal.Certified
	papers []string // UUID of each deed's paper
	acts   []string // UUID of each deed's activity
	sums   []string // SHA-256
}

func (w *deedWriter) write(tx *catalog.Tx, list []deed) error {
	ctx, number := w.t.Context(), 0
	var bodies []catalog.Body
	for i, d := range list {
		id, act, sum := catalog.NewID(), catalog.NewID(), ""
		if d.shown != nil {
			kept, err := w.j.Catalog().Store().Put(ctx, strings.NewReader(fmt.Sprintf("%%PDF-1.4 %d", i)), 20)
			if err != nil {
				return err
			}
			number++
			sum = kept.SHA256
			bodies = append(bodies, &catalog.EvidenceTaken{SHA256: sum, Size: kept.Size, Type: kept.Type, Ext: kept.Ext, Name: catalog.FileName(fmt.Sprintf("paper %d.pdf", i)), Paper: id, Number: number},
				&catalog.ReadingMade{Paper: id, Reading: d.reading()}, &catalog.PaperConfirmed{Paper: id})
		}
		w.papers, w.acts, w.sums = append(w.papers, id), append(w.acts, act), append(w.sums, sum)
		if d.by == 2 {
			act = w.acts[i-1]
		} else {
			made := &catalog.ActivityMade{ID: act, Number: i + 1, Fields: d.claimed}
			from := i - d.by
			if d.shown != nil {
				made.Paper = w.papers[from]
			}
			bodies = append(bodies, made)
			for _, f := range paper.Fields() {
				if v := list[from].shown[f]; v != "" && d.shown != nil {
					bodies = append(bodies, &catalog.ProofLinked{Activity: act, Field: f, Evidence: w.sums[from], Paper: w.papers[from], Page: 1, Value: v, By: paper.ByProgram})
				}
			}
		}
		bodies = append(bodies, &catalog.ClaimMade{ID: catalog.NewID(), Number: i + 1, Activity: act, Certification: w.cert.ID, Cycle: w.cert.Cycle.ID, Category: d.category})
	}
	for _, b := range bodies {
		if _, err := tx.Record(ctx, b); err != nil {
			return err
		}
	}
	return nil
}

func (d deed) reading() paper.Reading {
	r := paper.Reading{Outcome: paper.OutcomeRead, From: 1, To: 1, Language: d.language, Values: map[paper.Field]paper.Value{}, Questions: d.questions}
	for f, v := range d.shown {
		quote := v
		if f == paper.FieldDuration {
			quote = d.quote
		}
		r.Values[f] = paper.Value{Text: v, Certain: true, By: paper.ByProgram, Place: paper.Place{Page: 1, Box: paper.Box{100, 100, 900, 300}, Quote: quote}}
	}
	return r
}

// damage does to the store what the deeds say.
func (w *deedWriter) damage(list []deed) {
	for i, d := range list {
		if d.store == "" {
			continue
		}
		name, err := w.j.Catalog().Store().Path(w.sums[i])
		if err != nil {
			w.t.Fatal(err)
		}
		name = filepath.Join(w.j.Catalog().Dir(), "evidence", name)
		switch d.store {
		case "missing":
			err = os.Remove(name)
		case "altered":
			var data []byte
			if data, err = os.ReadFile(name); err == nil {
				data[len(data)-1] ^= 1 // one bit
				if err = os.Chmod(name, 0o600); err == nil {
					err = os.WriteFile(name, data, 0o600)
				}
			}
		case "deleted":
			err = w.j.Catalog().Act(w.t.Context(), func(tx *catalog.Tx) error { return tx.DeleteEvidence(w.t.Context(), w.sums[i], "a slip") })
		}
		if err != nil {
			w.t.Fatal(err)
		}
	}
}

// Of 200 clean claims nothing is found; of the same 200 with faults of every kind each
// fault is found at its claim, and nothing else is.
func TestNoFaultIsMissedAndNoneInvented(t *testing.T) {
	if r := rehearse(t, vaultOfDeeds(t, deeds())); r.Claims != 200 || len(r.Findings) != 0 {
		t.Errorf("clean: %d claims, %d findings, first %+v", r.Claims, len(r.Findings), r.Findings[:min(3, len(r.Findings))])
	}
	list := deeds()
	n := plantFaults(list, 3)
	if n < 60 {
		t.Fatalf("%d faults planted, want at least 60", n)
	}
	r := rehearse(t, vaultOfDeeds(t, list))
	missed, invented := 0, 0
	for i, d := range list {
		claim := fmt.Sprintf("C%d", i+1)
		var got []string
		for _, w := range r.Findings {
			if w.Claim == claim && !slices.Contains(got, w.What) {
				got = append(got, w.What)
			}
			if w.Claim == claim && (w.Why == "" || w.Mend == "" || w.Weight != audit.Grave && w.Weight != audit.Doubt) {
				t.Errorf("%s: a finding without its reason, mend or weight: %+v", claim, w)
			}
		}
		for _, what := range d.want {
			if !slices.Contains(got, what) {
				missed++
				t.Errorf("%s: %s was not found, only %q", claim, what, got)
			}
		}
		for _, what := range got {
			if !slices.Contains(d.want, what) {
				invented++
				t.Errorf("%s: %s was found, and nothing of it planted (%q)", claim, what, d.want)
			}
		}
	}
	t.Logf("%d claims, %d faults of %d kinds planted: %d missed, %d invented; %d claims weak", r.Claims, n, len(faultKinds), missed, invented, len(r.Weak))
	fellAsForetold(t, r)
}

// fellAsForetold holds the mends against each other: the last one leaves nothing weak.
func fellAsForetold(t *testing.T, r audit.Rehearsal) {
	t.Helper()
	left := len(r.Weak)
	for _, m := range r.Mends {
		if left--; m.Left != left || m.Exact != audit.Chance(r.Claims, left, m.Sample).RatString() {
			t.Errorf("%+v, want %d weak claims left", m, left)
		}
	}
	if len(r.Mends) == 0 || !slices.IsSortedFunc(r.Mends, func(a, b audit.Mend) int { return b.AtStake.Cmp(a.AtStake) }) {
		t.Errorf("what is most at stake does not come first: %+v", r.Mends)
	}
	if r.IfWeakFall.Counted.Cmp(r.Now.Counted) >= 0 {
		t.Error("nothing falls with the weak claims")
	}
}

// The chance agrees with printed examples, each of no weak claim in the sample:
//
//   - Statistics for Business and Economics, 13th edition, chapter 4, exercise 63, page 246:
//     N = 4, n = 2, r = 2: P(0) = 0.1666
//     (vaia.com/en-us/textbooks/math/statistics-for-business-and-economics-13th)
//   - section 3-8, example 3-26, page 85 of a textbook set in 2002 (from memory: Montgomery and
//     Runger, Applied Statistics and Probability for Engineers): N = 850, K = 50, n = 2:
//     P(0) = 319600/360825 = 0.886 (issuhub.com/view/index/5218?pageIndex=107)
//   - a solved exercise, N = 30, K = 10, n = 5: P(0) = 0.108795419
//     (homeworksource.com/p/1095009)
//   - a table of lots of N = 100 with 5, 10 and 20 defects, n = 10: P(0) = 0.5838, 0.3305,
//     0.0951; n = 20: 0.3193, 0.0951 (statsmasters.pages.dev/tables/hypergeometric-table,
//     whose other rows are not used: some are wrong, as that of N = 50, K = 10, n = 10)
func TestChanceOfPrintedExamples(t *testing.T) {
	for _, c := range []struct {
		n, w, k int
		none    string // the chance that the sample holds none, as printed
	}{{4, 2, 2, "0.1666"}, {850, 50, 2, "0.886"}, {30, 10, 5, "0.108795419"},
		{100, 5, 10, "0.5838"}, {100, 10, 10, "0.3305"}, {100, 20, 10, "0.0951"}, {100, 5, 20, "0.3193"}, {100, 10, 20, "0.0951"}} {
		printed, ok := new(big.Rat).SetString(c.none)
		if !ok {
			t.Fatal(c.none)
		}
		last := big.NewRat(1, 1) // of the last digit that is printed, whether rounded or cut
		for range len(c.none) - len("0.") {
			last.Mul(last, big.NewRat(1, 10))
		}
		none := new(big.Rat).Sub(big.NewRat(1, 1), audit.Chance(c.n, c.w, c.k))
		if d := new(big.Rat).Sub(none, printed); d.Abs(d).Cmp(last) >= 0 {
			t.Errorf("of %d, %d weak, a sample of %d holds none with %s, printed is %s", c.n, c.w, c.k, none.FloatString(9), c.none)
		}
	}
}
