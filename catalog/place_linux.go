package catalog

import (
	"os"

	"golang.org/x/sys/unix"
)

// unsafePlaces are the file systems that no vault may lie on, by the magic numbers of
// statfs(2) and linux/magic.h.
var unsafePlaces = map[uint32]string{
	0x6969:     "a network file system (NFS)",
	0x517b:     "a network file system (SMB)",
	0xff534d42: "a network file system (CIFS)",
	0xfe534d42: "a network file system (SMB 2)",
	0x65735546: "a FUSE file system",
	0x01021997: "a network file system (9P)",
	0x5346414f: "a network file system (AFS)",
	0x6b414653: "a network file system (AFS)",
	0x00c36400: "a network file system (Ceph)",
	0x73757245: "a network file system (Coda)",
	0x564c:     "a network file system (NCP)",
	0x01161970: "a cluster file system (GFS2)",
	0x7461636f: "a cluster file system (OCFS2)",
	0x0bd00bd0: "a cluster file system (Lustre)",
	0x47504653: "a cluster file system (GPFS)",
}

// fileSystem returns the name of the file system that dir lies on if no vault may lie
// there, else "".
func fileSystem(dir string) (string, error) {
	var st unix.Statfs_t
	if err := unix.Statfs(dir, &st); err != nil {
		return "", &os.PathError{Op: "statfs", Path: dir, Err: err}
	}
	return unsafePlaces[uint32(st.Type)], nil
}
