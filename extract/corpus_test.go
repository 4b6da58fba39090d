package extract_test

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

func TestMain(m *testing.M) {
	page.Main()
	os.Exit(m.Run())
}

// TestCorpus reads every document of a folder laid out as the corpus and holds the
// readings against the truth. The folder is testdata/corpus, or what CORPUS names;
// READINGS names a file to which the readings are written as `read --json` prints them.
func TestCorpus(t *testing.T) {
	root := os.Getenv("CORPUS")
	if root == "" {
		root = "testdata/corpus"
	}
	names, err := filepath.Glob(filepath.Join(root, "truth", "*.json"))
	if err != nil || len(names) < 12 {
		t.Fatalf("%s: %d truths, want at least 12 (%v)", root, len(names), err)
	}
	r := newKept(t)
	b := newBoard()
	var lines bytes.Buffer
	for _, name := range names {
		want, file := readTruth(t, name)
		papers, err := readFile(r, filepath.Join(root, "files", file))
		if err != nil {
			t.Errorf("%s: %v", file, err)
			continue
		}
		for _, p := range papers {
			if p.Carrier {
				continue
			}
			line, err := json.Marshal(paper.LineOf(file, p.Reading))
			if err != nil {
				t.Fatal(err)
			}
			lines.Write(append(line, '\n'))
		}
		b.add(want, papers[len(papers)-1].Reading)
	}
	b.log(t, "corpus")
	b.hold(t, level{paper.FieldKind: 88, paper.FieldStart: 85, paper.FieldEnd: 85, paper.FieldIssue: 85, paper.FieldDuration: 70,
		paper.FieldProvider: 88, paper.FieldTitle: 80, paper.FieldAttendee: 88, paper.FieldCredits: 80, paper.FieldTotal: 80})
	if out := os.Getenv("READINGS"); out != "" {
		if err := os.WriteFile(out, lines.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
	}
}

func readFile(r pages, path string) ([]extract.Paper, error) {
	return readWith(r, path, extract.Hints{})
}

func readWith(r pages, path string, h extract.Hints) ([]extract.Paper, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	papers, err := extract.ReadBy(context.Background(), r, f, h)
	for _, p := range papers {
		if strings.Contains(p.Reading.Reason, "a fault in this program") {
			return papers, errors.New(p.Reading.Reason)
		}
	}
	return papers, err
}

// readTruth reads one truth of the corpus and the name of its document.
func readTruth(t *testing.T, path string) (truth, string) {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var raw map[string]json.RawMessage
	var head struct {
		File string
		Ask  []struct{ Field paper.Field }
		Also map[paper.Field][]json.RawMessage
	}
	if err := json.Unmarshal(text, &raw); err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	if err := json.Unmarshal(text, &head); err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	want := truth{name: head.File, values: map[paper.Field]string{}, also: map[paper.Field][]string{}}
	for _, a := range head.Ask {
		want.ask = append(want.ask, a.Field)
	}
	for _, f := range paper.Fields() {
		want.values[f] = canonical(t, path, raw[string(f)])
		for _, other := range head.Also[f] {
			want.also[f] = append(want.also[f], canonical(t, path, other))
		}
	}
	return want, head.File
}

// canonical writes a value of the truth as [paper.Canonical] does.
func canonical(t *testing.T, path string, value json.RawMessage) string {
	t.Helper()
	var decoded any
	if err := json.Unmarshal(value, &decoded); err != nil {
		t.Fatalf("%s: %s: %v", path, value, err)
	}
	switch v := decoded.(type) {
	case string:
		return v
	case float64:
		return fmt.Sprint(int(v))
	case []any:
		var list []string
		for _, c := range v {
			m := c.(map[string]any)
			list = append(list, fmt.Sprintf("%v %v", m["value"], m["unit"]))
		}
		return strings.Join(list, "; ")
	case map[string]any:
		return fmt.Sprintf("%v %v", v["amount"], v["currency"])
	}
	return ""
}

// TestMessageCarriesItsDocument reads a message whose attachment is the paper.
func TestMessageCarriesItsDocument(t *testing.T) {
	r := newKept(t)
	papers, err := readFile(r, filepath.Join("testdata", "corpus", "files", "acceptance.eml"))
	if err != nil {
		t.Fatal(err)
	}
	if len(papers) != 2 {
		t.Fatalf("%d papers, want the message and its attachment", len(papers))
	}
	message, attached := papers[0], papers[1]
	if !message.Carrier || message.Part != nil || message.Reading.Kind() != paper.NotEvidence {
		t.Errorf("the message: carrier %v, kind %s; want a carrier that proves nothing", message.Carrier, message.Reading.Kind())
	}
	if attached.Carrier || attached.Part == nil || attached.Part.Name != "decision.pdf" || attached.Reading.Part != "decision.pdf" || len(attached.Part.Data) == 0 {
		t.Errorf("the attachment: %+v, want decision.pdf with its bytes", attached.Reading)
	}
	if attached.Reading.Kind() != paper.Publication {
		t.Errorf("the attachment is %s, want publication", attached.Reading.Kind())
	}
}
