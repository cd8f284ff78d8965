"""Inside a fork, before a line of a learner's code runs: no way out, little to use up, nobody to be.

Linux only. The calls are those of namespaces(7), mount(2), capabilities(7), prctl(2), setrlimit(2) and
seccomp(2).
"""

from __future__ import annotations

import ctypes
import os
import platform
import resource
import struct
import sys
from dataclasses import dataclass

CLONE_NEWNS = 0x00020000
CLONE_NEWIPC = 0x08000000
CLONE_NEWUSER = 0x10000000
CLONE_NEWPID = 0x20000000
_NOSUID_NODEV = 6
_NOSUID_NODEV_NOEXEC = 14
_PR_SET_PDEATHSIG = 1
_PR_SET_NO_NEW_PRIVS = 38
_PR_SET_CHILD_SUBREAPER = 36
_PR_SET_SECCOMP = 22
NOBODY = 61_000
"""User id of learner code where the grader runs as root; one above it for each further worker."""

SCRATCH = "/scratch"
"""Folder for temporary files inside the walls; empty for each submission."""

_libc = ctypes.CDLL(None, use_errno=True)


@dataclass(frozen=True)
class Limits:
    """What one submission may use.

    Parameters
    ----------
    cell_seconds, total_seconds : float
        Wall-clock time for a cell and for the whole notebook.
    memory_mb : int
        Memory of all its processes together, beyond what the warm parent already holds.
    processes : int
        Processes and threads at once.
    file_mb : int
        Largest file, and size of the throw-away folder.
    output_kb : int
        Text kept of one cell's output; the rest is cut.
    """

    cell_seconds: float = 30.0
    total_seconds: float = 180.0
    memory_mb: int = 1024
    processes: int = 48
    file_mb: int = 64
    output_kb: int = 64


def _check(result: int, what: str) -> None:
    if result != 0:
        number = ctypes.get_errno()
        raise OSError(number, f"{what}: {os.strerror(number)}")


def unshare(flags: int) -> None:
    """Leave the namespaces named by the flags; after ``CLONE_NEWPID`` the next child begins a new one."""
    _check(_libc.unshare(flags), "unshare")


def return_to(handle: int) -> None:
    """Let the next children be made in the process namespace behind the handle."""
    _check(_libc.setns(handle, CLONE_NEWPID), "setns")


def mount(kind: str, target: str, options: str, flags: int = _NOSUID_NODEV) -> None:
    """Mount a fresh file system of the kind."""
    data = options.encode() or None
    _check(_libc.mount(kind.encode(), target.encode(), kind.encode(), flags, data), f"mount {target}")


def private_folders(limits: Limits, job: str) -> None:
    """Give this process empty folders of its own to write in, and a /proc of its own processes."""
    unshare(CLONE_NEWNS | CLONE_NEWIPC)
    mount("tmpfs", job, f"size={limits.file_mb}m,nr_inodes=4096,mode=0777")
    mount("tmpfs", SCRATCH, f"size={limits.file_mb}m,nr_inodes=4096,mode=1777")
    mount("tmpfs", "/dev/shm", f"size={limits.file_mb}m,nr_inodes=1024,mode=1777")
    mount("proc", "/proc", "", _NOSUID_NODEV_NOEXEC)


def limit_resources(limits: Limits) -> None:
    """Set the limits that the kernel keeps for one process; the parent watches their sum."""
    size = _virtual_size() + limits.memory_mb * 2**20
    file_size = limits.file_mb * 2**20
    seconds = int(limits.total_seconds) + 5
    for name, value in (
        (resource.RLIMIT_AS, size),
        (resource.RLIMIT_FSIZE, file_size),
        (resource.RLIMIT_CORE, 0),
        (resource.RLIMIT_NOFILE, 256),
        (resource.RLIMIT_CPU, seconds),
        (resource.RLIMIT_MEMLOCK, 0),
    ):
        resource.setrlimit(name, (value, value))


def limit_processes(limits: Limits) -> None:
    """Limit processes of this user; set last, because it counts for the user who is left."""
    resource.setrlimit(resource.RLIMIT_NPROC, (limits.processes, limits.processes))


def _virtual_size() -> int:
    with open("/proc/self/statm", encoding="ascii") as file:
        return int(file.read().split()[0]) * resource.getpagesize()


def become(user: int) -> None:
    """Turn from root into an unprivileged user for good."""
    os.setgroups([])
    os.setresgid(user, user, user)
    os.setresuid(user, user, user)


def become_nobody_here() -> None:
    """Without root: turn into nobody inside a user namespace of one's own, with no capability left."""
    uid, gid = os.geteuid(), os.getegid()
    unshare(CLONE_NEWUSER)
    for name, text in (
        ("setgroups", "deny"),
        ("uid_map", f"{NOBODY} {uid} 1"),
        ("gid_map", f"{NOBODY} {gid} 1"),
    ):
        with open(f"/proc/self/{name}", "w", encoding="ascii") as file:
            file.write(text)
    os.setresgid(NOBODY, NOBODY, NOBODY)
    os.setresuid(NOBODY, NOBODY, NOBODY)
    header = struct.pack("Ii", 0x20080522, 0)
    _check(_libc.capset(header, bytes(24)), "capset")


def try_walls(root: bool, job: str) -> None:
    """Do in a fork all that is done before a submission runs; raise where the machine does not allow it."""
    unshare(CLONE_NEWPID)
    child = os.fork()
    if child == 0:
        try:
            limits = Limits()
            private_folders(limits, job)
            limit_resources(limits)
            if root:
                become(NOBODY)
            else:
                become_nobody_here()
            limit_processes(limits)
            seal()
        except OSError as error:
            print(error, file=sys.stderr, flush=True)
            os._exit(1)
        os._exit(0)
    if os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]):
        raise SystemExit(1)


def adopt_orphans() -> None:
    """Make orphans of this process's forks its own children, and end this process when its parent ends."""
    _check(_libc.prctl(_PR_SET_CHILD_SUBREAPER, 1, 0, 0, 0), "subreaper")
    _check(_libc.prctl(_PR_SET_PDEATHSIG, 15, 0, 0, 0), "parent death signal")


def seal() -> bool:
    """Forbid new privileges, and the calls with which a process meddles with others or makes namespaces.

    Returns
    -------
    bool
        Whether the filter of system calls is on (False on a processor that is not in the table).
    """
    _check(_libc.prctl(_PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0), "no_new_privs")
    program = _filter()
    if program is None:
        return False
    code = ctypes.create_string_buffer(program, len(program))
    bpf = struct.pack("HxxxxxxP", len(program) // 8, ctypes.addressof(code))
    _check(_libc.prctl(_PR_SET_SECCOMP, 2, ctypes.create_string_buffer(bpf, len(bpf)), 0, 0), "seccomp")
    return True


_DENIED = {
    # ptrace, process_vm_readv/writev, mount, umount2, pivot_root, unshare, setns, keyctl, add_key,
    # request_key, bpf,
    # perf_event_open, userfaultfd, io_uring_setup, kexec_load, init_module, finit_module, open_by_handle_at,
    # move_mount, fsopen, fsmount, open_tree, name_to_handle_at, pidfd_getfd, process_madvise
    "x86_64": (
        0xC000003E,
        (
            101,
            310,
            311,
            165,
            166,
            155,
            272,
            308,
            250,
            248,
            249,
            321,
            298,
            323,
            425,
            246,
            175,
            313,
            304,
            429,
            430,
            432,
            428,
            303,
            438,
            440,
        ),
        56,
        435,
    ),
    "aarch64": (
        0xC00000B7,
        (
            117,
            270,
            271,
            40,
            39,
            41,
            97,
            268,
            219,
            217,
            218,
            280,
            241,
            282,
            425,
            104,
            105,
            273,
            265,
            429,
            430,
            432,
            428,
            264,
            438,
            440,
        ),
        220,
        435,
    ),
}
_ALLOW, _EPERM, _ENOSYS, _KILL = 0x7FFF0000, 0x00050001, 0x00050026, 0x80000000
_NAMESPACE_FLAGS = 0x7E020000
_OTHER_TABLE = 0x40000000  # numbers of the second call table of x86-64


def _filter() -> bytes | None:
    """Classic BPF: wrong architecture ends the process, denied calls fail, clone may not make namespaces."""
    row = _DENIED.get(platform.machine())
    if row is None:
        return None
    audit, denied, clone, clone3 = row

    def step(code: int, yes: int, no: int, value: int) -> bytes:
        return struct.pack("HBBI", code, yes, no, value)

    load, equal, above, masked, give = 0x20, 0x15, 0x35, 0x45, 0x06
    steps = [step(load, 0, 0, 4), step(equal, 1, 0, audit), step(give, 0, 0, _KILL), step(load, 0, 0, 0)]
    steps += [step(above, 0, 1, _OTHER_TABLE), step(give, 0, 0, _EPERM)]
    for number in denied:
        steps += [step(equal, 0, 1, number), step(give, 0, 0, _EPERM)]
    steps += [step(equal, 0, 1, clone3), step(give, 0, 0, _ENOSYS)]
    steps += [step(equal, 0, 3, clone), step(load, 0, 0, 16), step(masked, 0, 1, _NAMESPACE_FLAGS)]
    steps += [step(give, 0, 0, _EPERM), step(give, 0, 0, _ALLOW)]
    return b"".join(steps)
