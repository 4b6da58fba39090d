package journal

import (
	"context"
	"errors"
	"io/fs"
	"os"

	"evidencevault/catalog"
	"evidencevault/credit"
)

// About is what a vault is for, and where it takes files in.
type About struct {
	Dir            string               `json:"dir"` // absolute
	Holder         string               `json:"holder"`
	Former         []string             `json:"former_names"`
	Certifications []AboutCertification `json:"certifications"`
	Drops          []AboutDrop          `json:"drop_folders"`
}

// AboutCertification is one certification with its present cycle.
type AboutCertification struct {
	ID     string      `json:"id"` // its short name
	Title  string      `json:"title"`
	Number string      `json:"number,omitempty"`
	Scheme string      `json:"scheme"` // id
	Start  credit.Date `json:"start"`
	End    credit.Date `json:"end"`
}

// AboutDrop is one watched folder.
type AboutDrop struct {
	Dir     string `json:"dir"`
	Empty   bool   `json:"empty"`   // files are removed once they are taken in
	Missing bool   `json:"missing"` // it is not there now
}

// About says what the vault is for.
func (j *Journal) About(ctx context.Context) (About, error) {
	about := About{Dir: j.cat.Dir(), Former: []string{}, Certifications: []AboutCertification{}, Drops: []AboutDrop{}}
	holder, err := j.cat.Holder(ctx)
	if err != nil {
		return about, err
	}
	about.Holder, about.Former = holder.Name, listed(holder.Former)
	certs, err := j.AllCertified(ctx, credit.Date{})
	if err != nil {
		return about, err
	}
	for _, c := range certs {
		about.Certifications = append(about.Certifications,
			AboutCertification{ID: c.Name, Title: c.Title, Number: c.Number, Scheme: c.Scheme.ID, Start: c.Cycle.Start, End: c.Cycle.End})
	}
	drops, err := j.cat.Drops(ctx)
	if err != nil {
		return about, err
	}
	for _, d := range drops {
		_, err := os.Stat(d.Dir)
		about.Drops = append(about.Drops, AboutDrop{Dir: d.Dir, Empty: d.Empty, Missing: errors.Is(err, fs.ErrNotExist)})
	}
	return about, nil
}

// PaperIDs returns the UUIDs of the papers that refs name, as in P3 P5-P9, for
// package intake. The error wraps [ErrReference] or [ErrUnknown].
func (j *Journal) PaperIDs(ctx context.Context, refs []string) ([]string, error) {
	found, err := resolve(ctx, &j.cat.View, refs, catalog.LetterPaper)
	if err != nil {
		return nil, err
	}
	ids := make([]string, len(found))
	for i, f := range found {
		ids[i] = f.id
	}
	return ids, nil
}
