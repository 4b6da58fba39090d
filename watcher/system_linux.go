package watcher

import (
	"errors"
	"fmt"
	"os"
	"syscall"

	"golang.org/x/sys/unix"
)

func changed(stat *syscall.Stat_t) int64 { return stat.Ctim.Nano() }

// writers reports whether somebody has the file open for writing. A lease to read
// is refused with EAGAIN as long as there is a writer, also one that has only mapped
// the file; it is given back at once. Other people's files and most network file
// systems give no lease, and then nobody knows.
func writers(file *os.File) writing {
	_, err := unix.FcntlInt(file.Fd(), unix.F_SETLEASE, unix.F_RDLCK)
	switch {
	case errors.Is(err, unix.EAGAIN):
		return written
	case err != nil:
		return unknown
	}
	if _, err := unix.FcntlInt(file.Fd(), unix.F_SETLEASE, unix.F_UNLCK); err != nil {
		return unknown // closing the file gives the lease back
	}
	return free
}

// silent names the file systems on which what another computer, or a program
// beneath, writes sends no events.
var silent = map[int64]string{
	unix.FUSE_SUPER_MAGIC:      "fuse",
	unix.NFS_SUPER_MAGIC:       "nfs",
	unix.CIFS_SUPER_MAGIC:      "cifs",
	unix.SMB_SUPER_MAGIC:       "smb",
	unix.SMB2_SUPER_MAGIC:      "smb",
	unix.V9FS_MAGIC:            "9p",
	unix.CEPH_SUPER_MAGIC:      "ceph",
	unix.AFS_SUPER_MAGIC:       "afs",
	unix.CODA_SUPER_MAGIC:      "coda",
	unix.OVERLAYFS_SUPER_MAGIC: "overlay",
	0x786f4256:                 "vboxsf", // not in the kernel's own header of magic numbers
}

// silentPlace returns the name of the file system at dir if it may send no events, else "".
func silentPlace(dir string) string {
	var stat unix.Statfs_t
	if err := unix.Statfs(dir, &stat); err != nil {
		return ""
	}
	return silent[int64(uint32(stat.Type))]
}

// noWatches reports whether err means that the kernel has no watch left, whose text
// is that of a full disk, and says what to do.
func noWatches(err error) (string, bool) {
	if !errors.Is(err, unix.ENOSPC) && !errors.Is(err, unix.EMFILE) {
		return "", false
	}
	return fmt.Sprint("the system gives no more watches; looking regularly instead. To raise the limit: ",
		"sysctl fs.inotify.max_user_watches=524288 fs.inotify.max_user_instances=512"), true
}
