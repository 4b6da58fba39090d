// Package confine starts this program again as a limited child and talks to it.
//
// The child first prepares its job (which may read a cache), then gives up what it
// no longer needs, and only then is handed foreign bytes. On Linux that is: an own
// user, network, process and message namespace where the kernel allows them, no
// files at all by Landlock, and limits on memory, processor time, file size and
// descriptors. Other systems offer less; [Child.InForce] says what holds.
//
// The parent keeps the wall clock and kills. A child whose parent ends, ends too.
// Messages are frames on standard input and output; whatever a child says is
// bounded, and nothing it says is trusted.
package confine
