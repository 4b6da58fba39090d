package find

import "evidencevault/credit"

// Dates finds single days in text.
func Dates(text string, l Languages) []Date { return nil }

// Ranges finds spans of days in text.
func Ranges(text string, l Languages) []Range { return nil }

// Clocks finds spans of the day in text.
func Clocks(text string, l Languages) []Clock { return nil }

// Breaks finds the pauses that text lists.
func Breaks(text string, l Languages) []Break { return nil }

func net(c Clock) (m credit.Minutes) { return c.Minutes }

// Durations finds lengths of time in text.
func Durations(text string, l Languages) []Duration { return nil }

// Credits finds numbers of credits in text.
func Credits(text string, l Languages) []Credit { return nil }

// Amounts finds sums of money in text.
func Amounts(text string, l Languages) []Amount { return nil }

// Persons finds what may be persons' names.
func Persons(text string) []Person { return nil }

// Organisations finds what may be the names of bodies.
func Organisations(text string) []Organisation { return nil }

// Numbers finds numbers of registration.
func Numbers(text string) []Number { return nil }

// Phones finds telephone numbers.
func Phones(text string) []Phone { return nil }

// Addresses finds postal addresses, as far as they tell the country.
func Addresses(text string) []Address { return nil }

// Language guesses the language of a paper by its small words; "" when too few
// speak for one.
func Language(text string) Lang { return "" }
