package page

// Document is what a file says, page by page, with nothing understood yet.
type Document struct {
	Type     string // by content: pdf, jpeg, png, tiff, gif, bmp, webp, docx, zip, eml, ics, html, txt, zip; else the MIME type
	Trouble  Trouble
	Reason   string // the sentence for the person where Trouble is not None
	Pages    []Page // formats without pages have one
	Unread   int    // pages beyond the limit, not in Pages
	Title    string // of the document's own properties; never proof of anything
	Producer string
	Language string // BCP 47, if the file declares one
	Mail     *Mail  // of type eml
	Parts    []Part // attachments and embedded files
	Badge    *Badge // the digital badge or credential that it is
}

// Trouble says why a document has no pages to read.
type Trouble string

// The troubles. None is the zero value.
const (
	None       Trouble = ""
	Unreadable Trouble = "unreadable"
	Password   Trouble = "password"
	TooLarge   Trouble = "too large"
	Empty      Trouble = "empty" // a file of no bytes, or with nothing on its pages
	Other      Trouble = "other" // a type that is not read; Reason names the way out
)

// Page is one page as displayed: after rotation and crop, origin at the top left.
// All lengths are hundredths of a point.
type Page struct {
	Number        int // counted from 1
	Width, Height int // 0 where the format has no pages
	Words         []Word
	Rules         [][4]int // straight lines, level or upright: left, top, right, bottom, as a word's Box; of a picture as its Laid
	Lines         []string // of formats without boxes: the text line by line, table cells parted by tabs
	Picture       bool     // Words come from optical character recognition
	Second        string   // text by the second opinion; "" if it was not asked or could not read it
}

// Word is a run of letters without a space between them.
type Word struct {
	Text       string
	Box        [4]int // left, top, right, bottom
	Laid       [4]int // the same on the page set upright, with level lines; all zero where that is Box
	Size       int    // of the font, hundredths of a point; 0 unknown
	Bold       bool
	Confidence int  // of recognition, 0 to 100; 100 for text that the file holds
	Hidden     bool // invisible, or outside the page
	Veiled     bool // perhaps not what is seen: nearly white, beneath something, or of a page whose letters make no sense
	Form       bool // the content of a form field
	Across     bool // it runs across the page, as a mark such as COPY behind its text does, and stands in no line

	faint bool // its colour is nearly white or nearly clear; looked into further where it was read
	typed bool // the file holds it as a value, not as a drawing
	turn  int  // as that of its first letter
	line  int  // of those that one recognition found; 0 where nothing was recognised
}

// Mail is the head of a message.
type Mail struct {
	From, To, Subject string
	Date              string // RFC 3339, in the sender's zone; "" unknown
}

// Part is a file within the file. Its name is text and never a path.
type Part struct {
	Name   string
	Type   string // as Document.Type, by content
	Inline bool   // belongs to the text, as a logo does
	Data   []byte
}
