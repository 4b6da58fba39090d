package catalog

import (
	"context"
	"database/sql"
	"io/fs"
)

// Canonical is canonical, for the published vectors.
var Canonical = canonical

// FileSystem is fileSystem.
var FileSystem = fileSystem

// DB returns the pool, so that a test can look at its connections.
func (c *Catalog) DB() *sql.DB { return c.db }

// MigrateWith migrates with other schema files.
func (c *Catalog) MigrateWith(ctx context.Context, files fs.FS) error {
	return migrate(ctx, c.db, c.path, files)
}

// Kinds returns an empty body of every kind.
func Kinds() map[string]Body {
	out := map[string]Body{}
	for name, fresh := range kinds {
		out[name] = fresh()
	}
	return out
}
