package extract

import (
	_ "embed"
	"fmt"
	"strconv"
	"strings"
	"sync"
)

//go:embed weights/title.txt
var titleWeightsText string

// titleWeights are read when the first paper is: a program that reads none does not wait.
var titleWeights = sync.OnceValue(func() map[string]float64 { return readWeights("weights/title.txt", titleWeightsText) })

// readWeights reads lines of a trait, a tab and its weight, hundredths; a trait of one kind
// of paper has the kind and a bar before it. The text is part of the program: a line that is
// none is a mistake in it, and panics.
func readWeights(name, text string) map[string]float64 {
	out := map[string]float64{}
	for n, line := range strings.Split(strings.TrimSpace(text), "\n") {
		if strings.HasPrefix(line, "#") {
			continue
		}
		trait, weight, _ := strings.Cut(line, "\t")
		w, err := strconv.Atoi(weight)
		if err != nil {
			panic(fmt.Sprintf("%s:%d: %v", name, n+1, err))
		}
		out[trait] = float64(w) / 100
	}
	return out
}

// weighTraits returns what traits weigh together: the log-odds that a text is the one that is
// looked for, up to what all texts of a paper have in common.
func weighTraits(weights map[string]float64, group string, seen []string) float64 {
	sum := 0.0
	for _, s := range seen {
		sum += weights[s]
		if group != "" {
			sum += weights[group+"|"+s]
		}
	}
	return sum
}
