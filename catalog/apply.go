package catalog

type rows struct{}
