package audit_test

import "os"

// mostMemory cannot be told here after a process has ended.
func mostMemory(*os.ProcessState) int64 { return 1 << 20 }
