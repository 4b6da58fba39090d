package main

import "runtime"

// built is what `version` prints.
type built struct {
	Version string `json:"version"`
	Go      string `json:"go"`
	System  string `json:"system"`
}

func buildInfo() built {
	return built{version, runtime.Version(), runtime.GOOS + "/" + runtime.GOARCH}
}
