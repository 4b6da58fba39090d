package journal

import "evidencevault/catalog"

// tellCycle says in words what an event about cycles and keeping did; false if it is
// about something else.
func tellCycle(e catalog.Event) (string, bool, error) {
	switch e.Kind {
	case new(catalog.CreditCarried).Kind():
		body, err := decode[catalog.CreditCarried](e)
		return body.Amount.String() + " carried into the next cycle", true, err
	case new(catalog.EvidenceHeld).Kind():
		body, err := decode[catalog.EvidenceHeld](e)
		if body.Released {
			return "no longer kept by hand", true, err
		}
		return "kept by hand: " + body.Why, true, err
	case new(catalog.EvidenceDeleted).Kind():
		body, err := decode[catalog.EvidenceDeleted](e)
		return "deleted: " + body.Why, true, err
	case new(catalog.EvidenceReturned).Kind():
		body, err := decode[catalog.EvidenceReturned](e)
		return "taken in again as " + body.Name.String(), true, err
	}
	return "", false, nil
}
