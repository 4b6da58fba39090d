package watcher

import (
	"errors"
	"io/fs"
	"os"
	"unsafe"

	"golang.org/x/sys/windows"
)

// openFlags: a link is told by its attributes, and there are no pipes in folders.
const openFlags = 0

// basicInfo is FILE_BASIC_INFO; times are hundreds of nanoseconds since 1601.
type basicInfo struct {
	creation, access, write, change int64
	attributes                      uint32
	_                               uint32
}

// StampOf returns the stamp of an open file.
func StampOf(file *os.File) (Stamp, error) { return stampOfHandle(windows.Handle(file.Fd())) }

func stampOfHandle(h windows.Handle) (Stamp, error) {
	var id windows.ByHandleFileInformation
	if err := windows.GetFileInformationByHandle(h, &id); err != nil {
		return Stamp{}, err
	}
	var basic basicInfo
	err := windows.GetFileInformationByHandleEx(h, windows.FileBasicInfo, (*byte)(unsafe.Pointer(&basic)), uint32(unsafe.Sizeof(basic)))
	if err != nil {
		return Stamp{}, err
	}
	return Stamp{Size: int64(id.FileSizeHigh)<<32 | int64(id.FileSizeLow), Modified: basic.write * 100, Changed: basic.change * 100,
		Inode: uint64(id.FileIndexHigh)<<32 | uint64(id.FileIndexLow), Device: uint64(id.VolumeSerialNumber)}, nil
}

// lstamp returns the stamp and the type of what path names, without following a link.
func lstamp(path string) (Stamp, fs.FileMode, error) {
	info, err := os.Lstat(path)
	if err != nil || !info.Mode().IsRegular() {
		if err != nil {
			return Stamp{}, 0, err
		}
		return Stamp{Size: info.Size(), Modified: info.ModTime().UnixNano()}, info.Mode(), nil
	}
	h, err := openHandle(path, 0, windows.FILE_SHARE_READ|windows.FILE_SHARE_WRITE|windows.FILE_SHARE_DELETE)
	if err != nil {
		return Stamp{}, 0, &fs.PathError{Op: "open", Path: path, Err: err}
	}
	defer windows.CloseHandle(h)
	stamp, err := stampOfHandle(h)
	return stamp, info.Mode(), err
}

func openHandle(path string, access, share uint32) (windows.Handle, error) {
	name, err := windows.UTF16PtrFromString(path)
	if err != nil {
		return windows.InvalidHandle, err
	}
	return windows.CreateFile(name, access, share, nil, windows.OPEN_EXISTING,
		windows.FILE_FLAG_OPEN_REPARSE_POINT|windows.FILE_FLAG_BACKUP_SEMANTICS, 0)
}

// writers reports whether somebody has the file open for writing: an open that
// shares with readers only is refused then.
func writers(file *os.File) writing {
	h, err := openHandle(file.Name(), windows.GENERIC_READ, windows.FILE_SHARE_READ|windows.FILE_SHARE_DELETE)
	if errors.Is(err, windows.ERROR_SHARING_VIOLATION) {
		return written
	}
	if err != nil {
		return unknown
	}
	if err := windows.CloseHandle(h); err != nil {
		return unknown
	}
	return free
}

// silentPlace is not asked on this system: everything is looked at regularly anyway.
func silentPlace(string) string { return "" }

// noWatches: this system has no such limit.
func noWatches(error) (string, bool) { return "", false }
