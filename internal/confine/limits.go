package confine

import (
	"encoding/json"
	"fmt"
	"time"
)

// Limits bound a child. The zero Limits is ready to use.
type Limits struct {
	Memory      int64         // bytes of private memory; 0 means 640 MiB, below which the PDF engine cannot work safely
	CPU         time.Duration // processor time for one message; 0 means 15 s
	Messages    int           // after so many answers the child is to be replaced; 0 means 100
	FileSize    int64         // bytes of a file it could write; 0 means none
	Descriptors int           // open at once; 0 means 32
	Answer      int64         // bytes of each part of an answer; 0 means 64 MiB
}

func (l Limits) filled() Limits {
	if l.Memory == 0 {
		l.Memory = 640 << 20
	}
	if l.CPU == 0 {
		l.CPU = 15 * time.Second
	}
	if l.Messages == 0 {
		l.Messages = 100
	}
	if l.Descriptors == 0 {
		l.Descriptors = 32
	}
	if l.Answer == 0 {
		l.Answer = 64 << 20
	}
	return l
}

// processes is how many processes and threads a child may have, where they can be
// counted apart from the user's others. The Go runtime needs about a dozen.
const processes = 64

// orders is the first message to a child.
type orders struct {
	Limits Limits
	Setup  json.RawMessage
	Open   bool // no Landlock: the child that writes the cache
	Own    bool // it was started in namespaces of its own
}

// InForce says which protections hold for a child.
type InForce struct {
	Memory     int64 // bytes; 0 means no limit
	CPU        bool
	Namespaces bool // own user, network, process and message namespaces
	Landlock   int  // version of the kernel's interface; 0 means none
}

// Lines returns what holds, and what does not, in sentences for people.
func (f InForce) Lines() []string {
	say := func(on bool, yes, no string) string {
		if on {
			return yes
		}
		return no
	}
	return []string{
		say(f.Memory > 0, fmt.Sprintf("memory of a reader is limited to %d MiB", f.Memory>>20), "memory of a reader is not limited on this system"),
		say(f.CPU, "processor time of a reader is limited", "processor time of a reader is not limited on this system; the wall clock is"),
		say(f.Namespaces, "a reader has no network and sees no other process (own namespaces)", "this system gives a reader no namespace of its own"),
		say(f.Landlock > 0, fmt.Sprintf("a reader can open no file (Landlock %d)", f.Landlock), "this system does not keep a reader from opening files (no Landlock)"),
	}
}
