// Package page turns foreign bytes into pages: words with boxes, and pictures.
//
// Every parser runs in a child process, this program started again, which takes
// the document on standard input and works under limits of memory, time and
// output. What the child answers is checked; that it dies is an answer too.
// Package page understands nothing of what it reads.
package page
