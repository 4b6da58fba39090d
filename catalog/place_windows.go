package catalog

import (
	"path/filepath"

	"golang.org/x/sys/windows"
)

// fileSystem returns the name of the file system that dir lies on if no vault may lie
// there, else "".
func fileSystem(dir string) (string, error) {
	root, err := windows.UTF16PtrFromString(filepath.VolumeName(dir) + `\`)
	if err != nil {
		return "", err
	}
	if windows.GetDriveType(root) == windows.DRIVE_REMOTE {
		return "a network drive", nil
	}
	return "", nil
}
