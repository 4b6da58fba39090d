package catalog_test

import (
	"errors"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"evidencevault/catalog"
	"evidencevault/catalog/catalogtest"
	"evidencevault/credit"
	"evidencevault/extract/paper"
)

func states(t *testing.T, c *catalog.Catalog) string {
	t.Helper()
	papers, err := c.Papers(ctx)
	if err != nil {
		t.Fatal(err)
	}
	var list []string
	for _, p := range papers {
		list = append(list, p.Ref()+" "+p.State)
	}
	return strings.Join(list, ", ")
}

func TestReadingDecidesTheState(t *testing.T) {
	tests := []struct {
		name, why string
		outcome   paper.Outcome
		want      string
	}{
		{"read", "it can be decided", paper.OutcomeRead, catalog.Waiting},
		{"flyer", "a person sets aside, not the program", paper.OutcomeNotEvidence, catalog.Waiting},
		{"password", "it says why", paper.OutcomePassword, catalog.Unread},
		{"damaged", "it says why", paper.OutcomeUnreadable, catalog.Unread},
		{"too large", "it says why", paper.OutcomeTooLarge, catalog.Unread},
	}
	c := catalogtest.New(t)
	for _, test := range tests {
		_, id := catalogtest.Take(t, c, test.name, test.name)
		r := paper.Reading{Outcome: test.outcome, Reason: "because of " + test.name, From: 1, To: 3, Part: "letter.pdf"}
		if test.want == catalog.Waiting {
			r.Reason = ""
		}
		event := catalogtest.Act(t, c, &catalog.ReadingMade{Paper: id, Reading: r})
		p, err := c.Paper(ctx, id)
		if err != nil || p.State != test.want || p.Why != r.Reason || p.Reading != event || p.From != 1 || p.To != 3 || p.Part != "letter.pdf" {
			t.Errorf("%s (%s): %+v, %v", test.name, test.why, p, err)
		}
	}
	clean(t, c)
}

func TestLaterReadingTakesThePlaceOfAnEarlierOne(t *testing.T) {
	c := catalogtest.New(t)
	_, id := catalogtest.Take(t, c, "scan.pdf", "x")
	if _, err := c.Reading(ctx, id); !errors.Is(err, catalog.ErrUnknown) {
		t.Errorf("no reading yet: %v, want ErrUnknown", err)
	}
	catalogtest.Act(t, c, &catalog.ReadingMade{Paper: id, Reading: paper.Reading{Outcome: paper.OutcomeUnreadable, Reason: "no tesseract"}})
	want := catalogtest.Reading()
	want.Rows = []paper.Row{{Title: "One", Start: credit.MustDate("2030-05-06"), Duration: new(credit.Minutes(90)),
		Credits: []paper.Printed{{Unit: "points", Value: credit.MustAmount("1.5")}}, Place: paper.Place{Page: 1, Box: paper.Box{1, 2, 3, 4}, Quote: "One"}}}
	want.Questions = []paper.Question{{Field: paper.FieldTotal, Text: "How much?", Candidates: []paper.Candidate{{Text: "1.00 EUR", Why: "it stands there"}}}}
	catalogtest.Act(t, c, &catalog.ReadingMade{Paper: id, Reading: want})
	c = catalogtest.Reopen(t, c)
	got, err := c.Reading(ctx, id)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, got.Reading, cmp.Comparer(credit.Amount.Equal)); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
	if h, err := c.History(ctx, id); err != nil || len(h) != 3 {
		t.Errorf("history: %d events, %v, want taking in and two readings", len(h), err)
	}
	all, err := c.Readings(ctx, catalog.Waiting)
	if err != nil || len(all) != 1 || all[id].Event != got.Event {
		t.Errorf("readings of papers that wait: %v, %v", all, err)
	}
}

func TestCutJoinAndUndo(t *testing.T) {
	c := catalogtest.New(t)
	kept, id := catalogtest.Take(t, c, "three.pdf", "three papers in one")
	n := catalogtest.Next(t, c, catalog.LetterPaper)
	a, b, joined := catalog.NewID(), catalog.NewID(), catalog.NewID()
	cut := catalogtest.Act(t, c, &catalog.PaperCut{Paper: id, Into: []catalog.NewPaper{{ID: a, Number: n, From: 1, To: 2}, {ID: b, Number: n + 1, From: 3, To: 3}}})
	if got, want := states(t, c), "P1 retired, P2 unread, P3 unread"; got != want {
		t.Errorf("cut: %s, want %s", got, want)
	}
	if p, err := c.Paper(ctx, id); err != nil || !slices.Equal(p.Into, slices.Sorted(slices.Values([]string{a, b}))) {
		t.Errorf("cut into %v, %v", p.Into, err)
	}
	join := catalogtest.Act(t, c, &catalog.PapersJoined{Papers: []string{a, b}, Into: catalog.NewPaper{ID: joined, Number: n + 2, From: 1, To: 3}})
	if got, want := states(t, c), "P1 retired, P2 retired, P3 retired, P4 unread"; got != want {
		t.Errorf("joined: %s, want %s", got, want)
	}
	catalogtest.Act(t, c, &catalog.Undone{Act: join, Papers: []catalog.PaperState{
		{ID: joined, State: catalog.Retired}, {ID: a, State: catalog.Unread}, {ID: b, State: catalog.Unread}}})
	catalogtest.Act(t, c, &catalog.Undone{Act: cut, Papers: []catalog.PaperState{
		{ID: a, State: catalog.Retired}, {ID: b, State: catalog.Retired}, {ID: id, State: catalog.Waiting}}})
	if got, want := states(t, c), "P1 waiting, P2 retired, P3 retired, P4 retired"; got != want {
		t.Errorf("undone: %s, want %s", got, want)
	}
	if p, err := c.Paper(ctx, id); err != nil || len(p.Into) != 0 {
		t.Errorf("after undoing it was cut into %v, %v", p.Into, err)
	}
	if e, err := c.Event(ctx, cut); err != nil || e.Undone == 0 || e.Act != cut {
		t.Errorf("the cut: %+v, %v, want it marked as taken back", e, err)
	}
	if got := catalogtest.Next(t, c, catalog.LetterPaper); got != 5 {
		t.Errorf("next paper P%d, want P5: numbers are never used twice", got)
	}
	if of, err := c.PapersOf(ctx, kept.SHA256); err != nil || len(of) != 4 {
		t.Errorf("papers of the evidence: %d, %v, want 4", len(of), err)
	}
	clean(t, c)
}

func TestConfirmedPaperWaitsAgainAfterUndo(t *testing.T) {
	c, activity, claim := full(t)
	papers, err := c.Papers(ctx, catalog.Confirmed)
	if err != nil || len(papers) != 1 {
		t.Fatal(papers, err)
	}
	h, err := c.History(ctx, claim)
	if err != nil || len(h) != 1 {
		t.Fatal(h, err)
	}
	catalogtest.Act(t, c, &catalog.Undone{Act: h[0].Act, Papers: []catalog.PaperState{{ID: papers[0].ID, State: catalog.Waiting}},
		Activities: []catalog.Withdrawal{{ID: activity, Withdrawn: true, Why: "undone"}}, Claims: []catalog.Withdrawal{{ID: claim, Withdrawn: true, Why: "undone"}}})
	if list, err := c.Claims(ctx, catalog.ClaimFilter{}); err != nil || len(list) != 0 {
		t.Errorf("claims: %v, %v, want none", list, err)
	}
	if list, err := c.Claims(ctx, catalog.ClaimFilter{Withdrawn: true}); err != nil || len(list) != 1 || list[0].Why != "undone" {
		t.Errorf("withdrawn too: %v, %v", list, err)
	}
	if got, want := states(t, c), "P1 waiting, P2 unread"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	if proofs, err := c.Proofs(ctx, activity); err != nil || len(proofs) != 7 {
		t.Errorf("%d proofs, %v, want them kept", len(proofs), err)
	}
	clean(t, c)
}

func TestProofTakesItsPlaceFromTheReading(t *testing.T) {
	c := catalogtest.New(t)
	kept, id := catalogtest.Take(t, c, "record.txt", "transcript")
	box := func(top int) paper.Place {
		return paper.Place{Page: 2, Box: paper.Box{100, top, 900, top + 10}, Quote: "row"}
	}
	event := catalogtest.Act(t, c, &catalog.ReadingMade{Paper: id, Reading: paper.Reading{Outcome: paper.OutcomeRead,
		Values: map[paper.Field]paper.Value{paper.FieldEnd: {Text: "2030-03-04", Place: paper.Place{Page: 1, Quote: "04/03/2030"}, By: paper.ByProgram,
			Candidates: []paper.Candidate{{Text: "2030-04-03", Place: paper.Place{Page: 1, Box: paper.Box{5, 6, 7, 8}, Quote: "the other"}}}}},
		Rows: []paper.Row{{Title: "One", Place: box(100)}, {Title: "Two", Place: box(200)}}}})
	activity := catalog.NewID()
	link := func(f paper.Field, value, by string, row int, replace bool) *catalog.ProofLinked {
		return &catalog.ProofLinked{Activity: activity, Field: f, Evidence: kept.SHA256, Paper: id, Reading: event, Row: row, Page: 1, Value: value, By: by, Replace: replace}
	}
	catalogtest.Act(t, c, &catalog.ActivityMade{ID: activity, Number: 1, Paper: id, Row: 2, Fields: map[paper.Field]string{paper.FieldTitle: "Two"}},
		link(paper.FieldTitle, "Two", paper.ByProgram, 2, false), link(paper.FieldEnd, "2030-03-04", paper.ByProgram, 0, false))
	want := []paper.Place{{Page: 1, Box: box(200).Box, Quote: "row"}, {Page: 1, Quote: "04/03/2030"}}
	placesAre(t, c, activity, "from row and value", want)
	catalogtest.Act(t, c, link(paper.FieldEnd, "2030-04-03", paper.ByProgram, 0, true))
	want[1] = paper.Place{Page: 1, Box: paper.Box{5, 6, 7, 8}, Quote: "the other"}
	placesAre(t, c, activity, "from the candidate, replacing the first", want)
	catalogtest.Act(t, c, link(paper.FieldEnd, "2030-04-05", paper.ByPerson, 0, true))
	want[1] = paper.Place{Page: 1}
	placesAre(t, c, activity, "a person's has no box and no quote", want)
	clean(t, c)
}

func placesAre(t *testing.T, c *catalog.Catalog, activity, name string, want []paper.Place) {
	t.Helper()
	proofs, err := c.Proofs(ctx, activity)
	if err != nil {
		t.Fatal(err)
	}
	var got []paper.Place
	for _, p := range proofs {
		got = append(got, p.Place)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("%s: -want +got\n%s", name, diff)
	}
}

func TestRowsReceiptsFactsAndDrops(t *testing.T) {
	c, activity, _ := full(t)
	_, id := catalogtest.Take(t, c, "record.txt", "transcript")
	_, invoice := catalogtest.Take(t, c, "invoice.txt", "518.40 GBP")
	receipt := catalog.NewID()
	catalogtest.Act(t, c, &catalog.PaperConfirmed{Paper: id, Row: 1}, &catalog.RowsSkipped{Paper: id, Rows: []int{2, 3}},
		&catalog.ReceiptMade{ID: receipt, Number: 1, Paper: invoice, Fields: map[paper.Field]string{paper.FieldTotal: "518.40 GBP", paper.FieldProvider: "X"}},
		&catalog.ReceiptTied{ID: receipt, Activity: activity}, &catalog.ReceiptChanged{ID: receipt, Fields: map[paper.Field]string{paper.FieldProvider: ""}},
		&catalog.ActivityChanged{ID: activity, Fields: map[paper.Field]string{paper.FieldTitle: "Sockets", paper.FieldProvider: ""}},
		&catalog.FactSet{Name: "part-time", Value: "true", From: credit.MustDate("2030-01-01")}, &catalog.FactSet{Name: "part-time", Value: "false", From: credit.MustDate("2030-01-01")},
		&catalog.HolderNamed{Name: "Rosalind Birkett", Former: true},
		&catalog.DropSet{Dir: filepath.Join(c.Dir(), "drop"), Empty: true}, &catalog.DropSet{Dir: filepath.Join(c.Dir(), "..", "inbox")})
	c = catalogtest.Reopen(t, c)
	p, err := c.Paper(ctx, id)
	if diff := cmp.Diff(map[int]string{1: catalog.Confirmed, 2: catalog.LeftOut, 3: catalog.LeftOut}, p.Rows); err != nil || diff != "" || p.State != catalog.Unread {
		t.Errorf("rows: %v, %s\n%s", err, p.State, diff)
	}
	r, err := c.Receipt(ctx, receipt)
	if diff := cmp.Diff(catalog.Receipt{ID: receipt, Number: 1, Paper: invoice, Activity: activity, Made: catalogtest.Noon,
		Fields: map[paper.Field]string{paper.FieldTotal: "518.40 GBP"}}, r); err != nil || diff != "" {
		t.Errorf("receipt: %v\n%s", err, diff)
	}
	a, err := c.Activity(ctx, activity)
	if err != nil || a.Fields[paper.FieldTitle] != "Sockets" || a.By[paper.FieldTitle] != paper.ByPerson || a.By[paper.FieldEnd] != paper.ByProgram || a.Fields[paper.FieldProvider] != "" {
		t.Errorf("activity: %+v, %v", a, err)
	}
	facts, err := c.Facts(ctx)
	if diff := cmp.Diff([]catalog.Fact{{Name: "part-time", Value: "false", From: credit.MustDate("2030-01-01")}}, facts); err != nil || diff != "" {
		t.Errorf("facts: %v\n%s", err, diff)
	}
	drops, err := c.Drops(ctx)
	if diff := cmp.Diff([]catalog.Drop{{Dir: filepath.Join(c.Dir(), "drop"), Empty: true}, {Dir: filepath.Join(filepath.Dir(c.Dir()), "inbox")}}, drops); err != nil || diff != "" {
		t.Errorf("drops: %v\n%s", err, diff)
	}
	if got := sqlite3(t, c, "SELECT group_concat(body,' ') FROM event"); strings.Contains(got, c.Dir()) {
		t.Error("the log holds the vault's own path")
	}
	if h, err := c.Holder(ctx); err != nil || !cmp.Equal(h, catalog.Holder{Name: "Rosalind Achterberg", Former: []string{"Rosalind Birkett"}}) {
		t.Errorf("holder: %+v, %v", h, err)
	}
	catalogtest.Act(t, c, &catalog.DropSet{Dir: drops[0].Dir, Gone: true}, &catalog.ReceiptWithdrawn{ID: receipt, Why: "a slip"},
		&catalog.ReceiptTied{ID: receipt}, &catalog.ActivityWithdrawn{ID: activity})
	if left, err := c.Drops(ctx); err != nil || len(left) != 1 {
		t.Errorf("drops left: %v, %v", left, err)
	}
	clean(t, c)
}

func TestEvidenceKeepsAllItsNames(t *testing.T) {
	c := catalogtest.New(t)
	parent, _ := catalogtest.Take(t, c, "mail.eml", "a message")
	child, _ := catalogtest.Take(t, c, "a\xff\n.pdf", "a certificate")
	catalogtest.Act(t, c, &catalog.NameAdded{SHA256: child.SHA256, Name: "a\xfe.pdf", Origin: &catalog.Origin{Parent: parent.SHA256, Part: "a\xfe.pdf"}})
	e, err := c.Evidence(ctx, child.SHA256)
	want := []catalog.Name{{Name: "a\xff\n.pdf"}, {Name: "a\xfe.pdf", Parent: parent.SHA256, Part: "a\xfe.pdf"}}
	if diff := cmp.Diff(want, e.Names, cmpopts.IgnoreFields(catalog.Name{}, "Event")); err != nil || diff != "" {
		t.Errorf("%v\n%s", err, diff)
	}
	if parts, err := c.Parts(ctx, parent.SHA256); err != nil || !slices.Equal(parts, []string{child.SHA256}) {
		t.Errorf("parts: %v, %v", parts, err)
	}
	clean(t, c)
}

func TestResolve(t *testing.T) {
	c, activity, claim := full(t)
	for _, test := range []struct {
		give   string
		letter catalog.Letter
		id     string
	}{{"A1", catalog.LetterActivity, activity}, {"c1", catalog.LetterClaim, claim}, {strings.ToUpper(claim), catalog.LetterClaim, claim}} {
		if letter, id, err := c.Resolve(ctx, test.give); err != nil || letter != test.letter || id != test.id {
			t.Errorf("%s: %s %s, %v", test.give, letter, id, err)
		}
	}
	for _, bad := range []string{"", "C2", "P0", "X1", "C01", "1", "C99999999999999999999", catalog.NewID(), "'; DROP TABLE claim"} {
		if _, id, err := c.Resolve(ctx, bad); !errors.Is(err, catalog.ErrUnknown) {
			t.Errorf("%q: %s, %v, want ErrUnknown", bad, id, err)
		}
	}
}

func TestRefusedEventChangesNothing(t *testing.T) {
	c, activity, claim := full(t)
	before := sqlite3(t, c, ".dump")
	for name, test := range map[string]struct {
		body catalog.Body
		want error
	}{
		"unknown paper":      {&catalog.PaperConfirmed{Paper: catalog.NewID()}, catalog.ErrUnknown},
		"unknown activity":   {&catalog.ActivityChanged{ID: catalog.NewID()}, catalog.ErrUnknown},
		"claim of nothing":   {&catalog.ClaimMade{ID: catalog.NewID(), Number: 9, Activity: activity, Certification: "x", Cycle: "y"}, catalog.ErrUnknown},
		"number used twice":  {&catalog.ActivityMade{ID: catalog.NewID(), Number: 1}, catalog.ErrBody},
		"no such state":      {&catalog.Undone{Act: 1, Claims: []catalog.Withdrawal{{ID: claim, Withdrawn: true}}, Papers: []catalog.PaperState{{ID: "x", State: "lost"}}}, catalog.ErrUnknown},
		"no reading to show": {&catalog.ProofLinked{Activity: activity, Reading: 1, By: paper.ByProgram}, catalog.ErrUnknown},
	} {
		err := c.Act(ctx, func(tx *catalog.Tx) error {
			if _, err := tx.Record(ctx, &catalog.FactSet{Name: "before", Value: name}); err != nil {
				return err
			}
			if _, err := tx.Record(ctx, test.body); !errors.Is(err, test.want) {
				t.Errorf("%s: %v, want %v", name, err, test.want)
			}
			return nil // even a caller that passes over the error cannot commit half an act
		})
		if !errors.Is(err, test.want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: the act gives %v, want %v in one line", name, err, test.want)
		}
	}
	stop := errors.New("changed my mind")
	if err := c.Act(ctx, func(tx *catalog.Tx) error {
		_, err := tx.Record(ctx, &catalog.FactSet{Name: "x", Value: "y"})
		return errors.Join(err, stop)
	}); !errors.Is(err, stop) {
		t.Errorf("the caller's own error: %v", err)
	}
	if after := sqlite3(t, c, ".dump"); after != before {
		t.Error("a refused act left something behind")
	}
	clean(t, c)
}
