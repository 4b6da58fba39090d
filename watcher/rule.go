package watcher

import (
	"path"
	"regexp"
	"strings"
)

// A Rule says which names are by-products, and of what.
type Rule struct {
	Pattern string // as path.Match takes it, of the last part of the name, in lower case
	Why     string // in words for the person
}

var rules = []Rule{
	{"~$*", "mark of an office program that has the document open"},
	{".~lock.*#", "mark of an office program that has the document open"},
	{"*~", "an editor's backup copy"},
	{".*.sw[a-p]", "an editor's swap file"},
	{"4913", "an editor's test of the folder"},
	{"#*#", "an editor's rescue copy"},
	{".#*", "an editor's lock"},
	{".ds_store", "settings of a file manager"},
	{"._*", "attributes of a file on another system"},
	{"thumbs.db", "small pictures of a file manager"},
	{"desktop.ini", "settings of a file manager"},
	{".goutputstream-*", "a file that is being saved"},
	{".nfs*", "a removed file that a program still has open"},
	{"*.part", "a download that is not finished"},
	{"*.partial", "a download that is not finished"},
	{"*.crdownload", "a download that is not finished"},
	{"*.download", "a download that is not finished"},
	{"*.tmp", "a temporary file"},
}

// inTransfer matches the temporary names of copying programs: a dot, the name with
// its extension, a dot and random letters.
var inTransfer = regexp.MustCompile(`^\..+\.(` + documents + `)\.[A-Za-z0-9]{3,8}$`)

const documents = `pdf|docx?|odt|xlsx?|ods|jpe?g|png|heic|tiff?|webp|eml|msg|html?|txt|ics|zip`

var document = regexp.MustCompile(`(?i)\.(` + documents + `)$`)

// ByProduct returns the rule that says that a file or folder of this name is a
// by-product of an editor, a download or a file manager; false if none does.
func ByProduct(name string) (Rule, bool) {
	lower := strings.ToLower(name)
	for _, r := range rules {
		if ok, err := path.Match(r.Pattern, lower); err == nil && ok {
			return r, true
		}
	}
	if inTransfer.MatchString(name) && !document.MatchString(name) {
		return Rule{".NAME.EXTENSION.RANDOM", "a copy that is not finished"}, true
	}
	return Rule{}, false
}

// String returns r as it is told to the person.
func (r Rule) String() string { return r.Why + " (" + r.Pattern + ")" }
