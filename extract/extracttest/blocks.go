package extracttest

import "strings"

// block is one piece of a laid out paper: a paragraph, a list of labels with values,
// or a table.
type block struct {
	role    string // org, heading, name, title, body, small
	align   string // L, C, R
	text    string
	items   []item
	style   string // of items: pairs, columns, beneath, above, boxes, centred
	grid    [][]string
	foot    []item // sums under a table
	right   string // what stands on the same line at the right
	newPage bool
	rule    bool // a line stands above it, to sign on
}

// blocks lays the content out.
func (s *sheet) blocks() []block {
	c := s.c
	align := "L"
	if s.layout == "centred" || s.layout == "landscape" || s.layout == "slip" || s.labelled && s.layout == "beneath" && s.chance(40) {
		align = "C"
	}
	var b []block
	if c.top && s.layout != "sidebar" && s.layout != "panel" {
		b = append(b, block{role: "org", align: align, text: s.provider})
		if s.chance(50) && len(c.foot) > 0 {
			b = append(b, block{role: "small", align: align, text: strings.Join(c.foot, " · ")})
			c.foot = nil
		}
	}
	if c.date != "" {
		b = append(b, block{role: "body", align: oneOf(s.draw, "R", "R", "L"), text: c.date})
	}
	if c.heading != "" {
		b = append(b, block{role: "heading", align: align, text: s.spaced(c.heading)})
	}
	b = append(b, s.body(c, align)...)
	for _, line := range s.c.says { // body may have taken them in

		b = append(b, block{role: "body", align: align, text: line})
	}
	if len(c.items) > 0 {
		b = append(b, s.itemBlock(c.items, align))
	}
	if len(c.grid) > 0 {
		b = append(b, block{grid: c.grid, foot: c.gridFoot})
	}
	if len(c.sign) == 2 && s.chance(45) && !strings.Contains(c.sign[0]+c.sign[1], "\n") {
		b = append(b, block{role: "body", align: "L", text: c.sign[0], right: c.sign[1]})
		c.sign = nil
	}
	for _, line := range c.sign {
		for l := range strings.SplitSeq(line, "\n") {
			b = append(b, block{role: "body", align: align, text: l})
		}
	}
	return append(b, s.tailBlocks(c, align)...)
}

// body is the certifying sentence, in parts or run together.
func (s *sheet) body(c content, align string) []block {
	if c.to != "" {
		return []block{{role: "body", align: "L", text: s.say("dear", "who", c.to)}} // the letter itself follows
	}
	if len(c.lines) == 0 {
		return nil
	}
	if s.inParts() {
		var b []block
		for i, part := range c.lines {
			if part != "" {
				b = append(b, block{role: []string{"body", "name", "body", "title", "body"}[i], align: align, text: part})
			}
		}
		return b
	}
	whole := strings.Join(c.lines, " ")
	for strings.Contains(whole, "  ") {
		whole = strings.ReplaceAll(whole, "  ", " ")
	}
	whole = strings.TrimSpace(strings.NewReplacer(" .", ".", " ,", ",").Replace(whole))
	if len(c.says) > 0 && s.chance(60) {
		whole += " " + strings.Join(c.says, " ")
		s.c.says = nil
	}
	return []block{{role: "body", align: "L", text: whole}}
}

func (s *sheet) itemBlock(items []item, align string) block {
	style := "pairs"
	switch s.layout {
	case "columns", "beneath", "above", "boxes":
		style = s.layout
	case "centred", "landscape":
		style = "centred"
	}
	if s.plain {
		style = "pairs"
	}
	return block{items: items, style: style, align: align}
}

func (s *sheet) tailBlocks(c content, align string) []block {
	var b []block
	if s.t.Format == "pdf" && s.layout != "slip" && s.layout != "letter" && len(c.sign) > 0 && s.chance(25) {
		b = append(b, block{role: "small", align: align, text: s.say("l.signature"), rule: true})
	}
	notes := c.notes
	if s.layout != "sidebar" && s.layout != "panel" {
		notes = append(notes, c.foot...)
	}
	if len(notes) > 0 && s.chance(50) && s.layout != "slip" {
		b = append(b, block{role: "small", align: align, text: strings.Join(notes, " · ")})
	} else {
		for _, n := range notes {
			b = append(b, block{role: "small", align: align, text: n})
		}
	}
	if len(c.behind) > 0 {
		b = append(b, block{newPage: true})
		for i, line := range c.behind {
			role := "body"
			if i == 0 {
				role = "heading"
			}
			b = append(b, block{role: role, align: "L", text: line})
		}
	}
	return b
}

// plainText writes blocks as lines of text.
func plainText(list []block) string {
	var out strings.Builder
	for _, b := range list {
		switch {
		case b.newPage:
			out.WriteString("\f")
		case len(b.items) > 0:
			for _, it := range b.items {
				out.WriteString(it.label + ": " + it.value + "\n")
			}
		case len(b.grid) > 0:
			out.WriteString(plainGrid(b.grid))
			for _, it := range b.foot {
				out.WriteString(it.label + ": " + it.value + "\n")
			}
		case b.right != "":
			out.WriteString(b.text + "        " + b.right + "\n")
		case b.text != "":
			out.WriteString(wrapLine(b.text, 92) + "\n")
		}
		out.WriteString("\n")
	}
	return out.String()
}

func wrapLine(text string, width int) string {
	var out strings.Builder
	n := 0
	for i, w := range strings.Fields(text) {
		if i > 0 && n+1+len(w) > width {
			out.WriteString("\n")
			n = 0
		} else if i > 0 {
			out.WriteString(" ")
			n++
		}
		out.WriteString(w)
		n += len(w)
	}
	return out.String()
}

// plainGrid writes a table in columns of letters.
func plainGrid(grid [][]string) string {
	widths := make([]int, len(grid[0]))
	for _, row := range grid {
		for i, cell := range row {
			widths[i] = max(widths[i], len([]rune(cell)))
		}
	}
	var out strings.Builder
	for _, row := range grid {
		line := ""
		for i, cell := range row {
			line += cell + strings.Repeat(" ", widths[i]-len([]rune(cell))+3)
		}
		out.WriteString(strings.TrimRight(line, " ") + "\n")
	}
	return out.String()
}
