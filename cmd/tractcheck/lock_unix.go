//go:build linux || darwin || freebsd

package main

import (
	"os"
	"syscall"
)

// lock keeps a file for this process as long as it is open, so that two that go on with the same
// output do not both write to it. It goes with the process, however that ends.
func lock(file *os.File) error {
	return syscall.Flock(int(file.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
}
