//go:build linux && amd64

package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"runtime"
	"slices"
	"strconv"
	"syscall"
	"testing"

	"spruelight/testdata/outside"
)

// killAt runs a program under ptrace(2) and kills it as it is about to enter its
// n-th system call that writes, counted over all its threads; with n 0 it lets
// it end. It is a program of its own, since a tracer waits for every child of
// its process. Its arguments: n, file for the count, program, arguments.
func killAt() int {
	n, err := strconv.Atoi(os.Args[1])
	if err != nil {
		return 3
	}
	count, code, err := traced(n, os.Args[3:])
	if err == nil {
		err = os.WriteFile(os.Args[2], []byte(strconv.Itoa(count)), 0o644)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "killat:", err)
		return 3
	}
	return code
}

// writingCalls are the system calls that change files (those of Linux on amd64
// that Go's library makes); openat counts where it makes or empties a file.
var writingCalls = []uint64{syscall.SYS_WRITE, syscall.SYS_PWRITE64, syscall.SYS_WRITEV, syscall.SYS_FTRUNCATE, syscall.SYS_FSYNC,
	syscall.SYS_FDATASYNC, syscall.SYS_RENAME, syscall.SYS_RENAMEAT, 316, syscall.SYS_MKDIR, syscall.SYS_MKDIRAT, syscall.SYS_RMDIR,
	syscall.SYS_UNLINK, syscall.SYS_UNLINKAT, syscall.SYS_LINK, syscall.SYS_LINKAT, syscall.SYS_SYMLINKAT, syscall.SYS_CHMOD,
	syscall.SYS_FCHMOD,
	syscall.SYS_FCHMODAT, syscall.SYS_UTIMENSAT, syscall.SYS_SENDFILE, syscall.SYS_FLOCK, 326, 306} // renameat2, copy_file_range, syncfs

// writes reports whether a thread that enters a system call is about to change
// a file. Writing to a pipe or to another thread's wake-up is no file.
func writes(pid int, regs *syscall.PtraceRegs) bool {
	switch call := regs.Orig_rax; {
	case call == syscall.SYS_OPENAT:
		return regs.Rdx&(syscall.O_CREAT|syscall.O_TRUNC) != 0
	case call == syscall.SYS_WRITE || call == syscall.SYS_PWRITE64 || call == syscall.SYS_WRITEV:
		to, err := os.Stat(fmt.Sprintf("/proc/%d/fd/%d", pid, regs.Rdi))
		return err == nil && to.Mode().IsRegular()
	default:
		return slices.Contains(writingCalls, call)
	}
}

func traced(n int, args []string) (count, code int, err error) {
	runtime.LockOSThread() // only the thread that began to trace may go on
	path, err := exec.LookPath(args[0])
	if err != nil {
		return 0, 0, err
	}
	cmd := &exec.Cmd{Path: path, Args: args, Stdout: os.Stdout, Stderr: os.Stderr, SysProcAttr: &syscall.SysProcAttr{Ptrace: true}}
	if err := cmd.Start(); err != nil {
		return 0, 0, err
	}
	first := cmd.Process.Pid
	var status syscall.WaitStatus
	if _, err := syscall.Wait4(first, &status, 0, nil); err != nil {
		return 0, 0, err
	}
	const exitKill = 0x100000 // PTRACE_O_EXITKILL
	const options = exitKill | syscall.PTRACE_O_TRACESYSGOOD | syscall.PTRACE_O_TRACECLONE |
		syscall.PTRACE_O_TRACEFORK | syscall.PTRACE_O_TRACEVFORK
	if err := syscall.PtraceSetOptions(first, options); err != nil {
		return 0, 0, err
	}
	inside := map[int]bool{} // threads within a system call
	if err := syscall.PtraceSyscall(first, 0); err != nil {
		return 0, 0, err
	}
	for {
		pid, err := syscall.Wait4(-1, &status, syscall.WALL, nil)
		if err == syscall.EINTR {
			continue
		}
		if err != nil {
			return count, 0, err
		}
		signal := 0
		switch {
		case status.Exited() || status.Signaled():
			delete(inside, pid)
			if pid == first {
				return count, max(status.ExitStatus(), 0), nil
			}
			continue
		case status.StopSignal() == syscall.SIGTRAP|0x80:
			inside[pid] = !inside[pid]
			var regs syscall.PtraceRegs
			if inside[pid] && syscall.PtraceGetRegs(pid, &regs) == nil && writes(pid, &regs) {
				if count++; count == n {
					_ = syscall.Kill(first, syscall.SIGKILL)
					continue
				}
			}
		case status.StopSignal() != syscall.SIGTRAP && status.StopSignal() != syscall.SIGSTOP:
			signal = int(status.StopSignal())
		}
		_ = syscall.PtraceSyscall(pid, signal) // it may have been killed meanwhile
	}
}

// killedAt runs the program and kills it before its n-th writing call. It
// reports how many there were, and whether it was killed.
func killedAt(t *testing.T, dir string, n int, args ...string) (count int, killed bool) {
	t.Helper()
	file := dir + "/count"
	os.Remove(file)
	cmd := programIn(dir, args...)
	cmd.Path, cmd.Err = mustLook(t, "killat"), nil
	cmd.Args = append([]string{"killat", strconv.Itoa(n), file, "spruelight"}, args...)
	said, err := cmd.CombinedOutput()
	data, _ := os.ReadFile(file)
	count, _ = strconv.Atoi(string(bytes.TrimSpace(data)))
	if count == 0 {
		outside.Missing(t, fmt.Sprintf("this system lets nobody trace: %v %s", err, said))
	}
	if n == 0 && err != nil {
		t.Fatalf("%v: %v\n%s", args, err, said)
	}
	return count, n > 0 && count == n
}

func mustLook(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		t.Fatal(err)
	}
	return path
}
