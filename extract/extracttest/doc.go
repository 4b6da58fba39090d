// Package extracttest invents papers with the truth about each, to tune and to
// judge the reading of package extract. Only tests import it.
//
// [Make] draws papers from a seed: equal seeds give equal bytes. Language, kind,
// layout, wording, fonts, distractors and ambiguities vary independently of each
// other, and nothing is shaped after what the reading can do. All people, bodies,
// places and courses are composed of invented syllables and word lists (folder
// words, one file per language).
//
// The truth of a paper is what a careful reader would write down from this paper
// alone; its layout is that of the corpus truth files.
package extracttest
