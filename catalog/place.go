package catalog

import "fmt"

// checkPlace refuses a folder on a network or FUSE file system: locks and shared
// memory do not hold there between two computers or two mounts. A file system that
// cannot be told is let pass. The error wraps [ErrPlace].
func checkPlace(dir string) error {
	name, err := fileSystem(dir)
	if err != nil {
		return fmt.Errorf("ask for the file system of %s: %w", dir, err)
	}
	if name == "" {
		return nil
	}
	return fmt.Errorf("%s: %w: it lies on %s, where locks do not hold; choose a folder on this computer's own disk (the drop folder may lie there)", dir, ErrPlace, name)
}
