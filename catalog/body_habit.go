package catalog

// AboutHabits is the id under which the history of habits is found.
const AboutHabits = "habits"

// HabitForgotten says that what was learnt of a provider's papers so far suggests
// nothing any more.
type HabitForgotten struct {
	Provider string `json:"provider,omitempty"` // as the person writes it; "" is every provider
}

// Kind returns "habit forgotten".
func (*HabitForgotten) Kind() string { return "habit forgotten" }

// About returns the id of all habits.
func (*HabitForgotten) About() []string { return []string{AboutHabits} }

func (b *HabitForgotten) apply(*rows) error { return nil }
