package find

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
