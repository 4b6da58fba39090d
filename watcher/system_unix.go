//go:build linux || darwin

package watcher

import (
	"io/fs"
	"os"
	"syscall"
)

// openFlags keep an open from following a link and from waiting for a pipe.
const openFlags = syscall.O_NOFOLLOW | syscall.O_NONBLOCK

// StampOf returns the stamp of an open file.
func StampOf(file *os.File) (Stamp, error) {
	info, err := file.Stat()
	if err != nil {
		return Stamp{}, err
	}
	return stampOfInfo(info), nil
}

// lstamp returns the stamp and the type of what path names, without following a link.
func lstamp(path string) (Stamp, fs.FileMode, error) {
	info, err := os.Lstat(path)
	if err != nil {
		return Stamp{}, 0, err
	}
	return stampOfInfo(info), info.Mode(), nil
}

func stampOfInfo(info fs.FileInfo) Stamp {
	stat, ok := info.Sys().(*syscall.Stat_t)
	if !ok { // a file system in memory has none
		return Stamp{Size: info.Size(), Modified: info.ModTime().UnixNano()}
	}
	// The widths of these fields differ between systems.
	return Stamp{Size: info.Size(), Modified: info.ModTime().UnixNano(), Changed: changed(stat),
		Inode: uint64(stat.Ino), Device: uint64(stat.Dev)} //nolint:unconvert
}
