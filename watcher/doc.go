// Package watcher turns a folder into settled files.
//
// A file is settled when its size, its times, its inode and its device have stayed
// the same for [Options].Settle and, where the system can tell, nobody has it open
// for writing. [Watch] goes on for ever, [Once] ends with what lies there, [Scan]
// only lists. None of them changes, moves or removes anything; [File.Remove], which
// does, looks first whether the file is still the one that was read.
//
// Links are never followed, and pipes, sockets and devices are never opened. What
// editors and downloads leave beside a document is passed over and said, with the
// [Rule] that did it. Events only make things faster: everything is looked at again
// every [Options].Poll, so that a folder that sends no events, a queue that ran over
// and a folder that was removed and made anew lose nothing. The times of files say
// whether they changed, never which is new.
package watcher
