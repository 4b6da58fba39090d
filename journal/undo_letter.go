package journal

import (
	"evidencevault/catalog"
)

// takeLetter takes back what was done with an audit letter; its papers wait again by
// the event that confirmed them.
func (u *undoing) takeLetter(e catalog.Event) error {
	switch e.Kind {
	case kindLetterRecorded:
		body, err := decode[catalog.LetterRecorded](e)
		u.undone.Letters = append(u.undone.Letters, catalog.Withdrawal{ID: body.ID, Withdrawn: true, Why: whyUndone})
		u.tell("audit letter")
		return err
	case kindLetterAnswered:
		body, err := decode[catalog.LetterAnswered](e)
		u.after = append(u.after, &catalog.LetterAnswered{ID: body.ID})
		u.tell("answered")
		return err
	}
	return nil
}
