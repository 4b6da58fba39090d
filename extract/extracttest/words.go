package extracttest

import (
	"bufio"
	"embed"
	"fmt"
	"math/rand/v2"
	"strings"
)

//go:embed words/*.txt
var wordFiles embed.FS

// words are the lists of one language by section.
type words map[string][]string

// lists holds every language once it was read.
var lists = readAll("en", "de", "fr", "es", "nl")

func readAll(languages ...string) map[string]words {
	all := map[string]words{}
	for _, l := range languages {
		all[l] = readWords(l)
	}
	return all
}

// readWords reads words/LANGUAGE.txt; it panics on a file that is not as it must be,
// since the files are part of the program.
func readWords(language string) words {
	f, err := wordFiles.Open("words/" + language + ".txt")
	if err != nil {
		panic(err)
	}
	defer f.Close() // only read: nothing to lose
	w, section := words{}, ""
	for sc := bufio.NewScanner(f); sc.Scan(); {
		line := sc.Text()
		switch {
		case strings.HasPrefix(line, "[") && strings.HasSuffix(line, "]"):
			section = strings.Trim(line, "[]")
		case line != "" && section == "":
			panic(fmt.Sprintf("words/%s.txt: %q stands before the first section", language, line))
		case line != "":
			w[section] = append(w[section], line)
		}
	}
	return w
}

// draw makes choices.
type draw struct{ r *rand.Rand }

func (d draw) chance(percent int) bool { return d.r.IntN(100) < percent }

// between returns a number from a to b, both included.
func (d draw) between(a, b int) int { return a + d.r.IntN(b-a+1) }

func oneOf[T any](d draw, list ...T) T { return list[d.r.IntN(len(list))] }

// weighted returns the index drawn by weight.
func (d draw) weighted(weights ...int) int {
	sum := 0
	for _, w := range weights {
		sum += w
	}
	n := d.r.IntN(sum)
	for i, w := range weights {
		if n -= w; n < 0 {
			return i
		}
	}
	panic("extracttest: weights do not add up")
}

// digits returns n random digits.
func (d draw) digits(n int) string {
	var b strings.Builder
	for range n {
		b.WriteByte(byte('0' + d.r.IntN(10)))
	}
	return b.String()
}

// fill puts values (name, value, name, value …) into the {name} places of a template.
func fill(template string, values ...string) string {
	for i := 0; i+1 < len(values); i += 2 {
		template = strings.ReplaceAll(template, "{"+values[i]+"}", values[i+1])
	}
	return template
}
