package catalog

import (
	"testing"

	"golang.org/x/sys/unix"
)

// The numbers of statfs(2), as the kernel's headers give them.
func TestUnsafePlacesAreThoseOfTheKernel(t *testing.T) {
	for name, magic := range map[string]uint32{
		"nfs": unix.NFS_SUPER_MAGIC, "smb": unix.SMB_SUPER_MAGIC, "cifs": unix.CIFS_SUPER_MAGIC, "smb2": unix.SMB2_SUPER_MAGIC,
		"fuse": unix.FUSE_SUPER_MAGIC, "9p": unix.V9FS_MAGIC, "ceph": unix.CEPH_SUPER_MAGIC, "coda": unix.CODA_SUPER_MAGIC,
		"afs": unix.AFS_SUPER_MAGIC, "afs of the kernel": unix.AFS_FS_MAGIC, "ncp": unix.NCP_SUPER_MAGIC, "ocfs2": unix.OCFS2_SUPER_MAGIC,
	} {
		if unsafePlaces[magic] == "" {
			t.Errorf("%s (%#x) is let pass", name, magic)
		}
	}
	for name, magic := range map[string]uint32{"ext4": unix.EXT4_SUPER_MAGIC, "xfs": unix.XFS_SUPER_MAGIC, "btrfs": unix.BTRFS_SUPER_MAGIC, "tmpfs": unix.TMPFS_MAGIC} {
		if unsafePlaces[magic] != "" {
			t.Errorf("%s (%#x) is refused", name, magic)
		}
	}
}
