package find

// Credits finds numbers of credits in text.
func Credits(text string, l Languages) []Credit { return nil }

// Amounts finds sums of money in text.
func Amounts(text string, l Languages) []Amount { return nil }

// Figure reads a text that is nothing but a sum without its currency, as in a column
// of prices; false when it is anything else.
func Figure(text string) (Amount, bool) { return Amount{}, false }

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
