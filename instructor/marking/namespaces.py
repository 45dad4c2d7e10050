"""What keeps a notebook's cells from everything else, on Linux: namespaces, made with plain system calls.

Two rooms, one in the other. The warm parent enters the *room*: a root that holds only the programs it needs,
read-only, no network, its own process table. Each notebook's child enters a *cell* of that room: again its
own user, process, mount, network and IPC namespaces, an empty small folder to write in, no capability, and no
way to get one. What started in a cell ends with it.

Rights are given up in this order because the kernel asks for it: files are laid out first, then the user
changes (no limit on processes binds root), then the namespaces that belong to the new user are made.
"""

import ctypes
import os
import platform
import signal
import stat
import sys
from collections.abc import Iterable
from pathlib import Path

NEWNS, NEWUTS, NEWIPC, NEWUSER, NEWPID, NEWNET = (
    0x00020000, 0x04000000, 0x08000000, 0x10000000, 0x20000000, 0x40000000)
MS_RDONLY, MS_NOSUID, MS_NODEV, MS_BIND, MS_REC, MS_PRIVATE = 1, 2, 4, 4096, 16384, 1 << 18
MNT_DETACH = 2
MOUNT_ATTR_RDONLY, MOUNT_ATTR_NOSUID = 1, 2
AT_RECURSIVE = 0x8000
SYS_MOUNT_SETATTR = 442  # the same on every architecture; Linux 5.12
SYS_PIVOT_ROOT = {"x86_64": 155, "aarch64": 41}
PR_SET_PDEATHSIG, PR_SET_DUMPABLE, PR_CAPBSET_DROP, PR_SET_NO_NEW_PRIVS = 1, 4, 24, 38
NOBODY = 65534
WORKPLACE = "/cell"  # not /tmp: programs may lie below it, which would be covered
SCRATCH = "/tmp"

_libc = ctypes.CDLL(None, use_errno=True)


class NoNamespaces(Exception):
    """This system does not give us namespaces; the text says which step it refused."""


class Room:
    """The room that the warm parent is in. Made by `enter`, which returns in the parent's new process."""

    def __init__(self, proc: int):
        self._proc = proc  # the outer /proc: user ids are mapped through it, and memory watched
        self._own = os.pidfd_open(os.getpid())

    def fork(self) -> int:
        """As os.fork(), the child being the first process of a new process table."""
        _ask("unshare", NEWPID)
        try:
            return os.fork()
        finally:
            # also in the child, harmlessly: there the descriptor is another table's, and it is refused
            _libc.setns(self._own, NEWPID)

    def enter_cell(self, folder_bytes: int, folder_files: int) -> None:
        """In the child: enter its own namespaces, take an empty folder, give up every right."""
        user, group = os.getuid(), os.getgid()
        os.setsid()  # a signal to the own process group must not reach the parent: groups go through namespaces
        _ask("unshare", NEWUSER | NEWNS | NEWNET | NEWIPC | NEWUTS)
        _map_ids(self._proc, user, group)
        size = f"size={folder_bytes},nr_inodes={folder_files},mode=700"
        _mount("tmpfs", WORKPLACE, "tmpfs", MS_NOSUID | MS_NODEV, size)
        _no_further_namespaces(self._proc)
        os.close(self._proc)
        os.close(self._own)
        os.chdir(WORKPLACE)
        _give_up_rights()

    def close(self) -> None:
        """Keep nothing that leads out of the room; no cell can be entered from it any more."""
        os.close(self._proc)
        os.close(self._own)
        _give_up_rights()

    def leave(self, pid: int) -> None:
        """After a child's end: the kernel has ended what it started and emptied its folder."""

    def memory(self, most: int) -> dict[int, int]:
        """Bytes of memory in use by each child of this process, with all that the child started.

        Where that is certainly below `most` bytes it is not looked at closely, which takes some milliseconds:
        what is shared with the warm parent is then counted too.
        """
        found = {}
        for pid in _children(self._proc, "self"):
            used = _family(self._proc, pid, shared=True)
            found[_inner(self._proc, pid)] = used if used < most else _family(self._proc, pid)
        return found


def enter(shown: Iterable[Path], hidden: Iterable[Path] = (), network: bool = False) -> Room:
    """Enter a room that shows only these files and folders, read-only. Returns in a new process.

    hidden: folders that are empty in the room even where they lie in one that is shown. network: leave the
    network reachable, for a process that runs no cells.

    The process that called waits for it and ends as it ended. Raises `NoNamespaces`, with nothing lost, if
    the system refuses the first step; a later refusal ends the process with the reason on its error output.
    """
    if platform.system() != "Linux":
        raise NoNamespaces(f"{platform.system()} has no namespaces")
    if platform.machine() not in SYS_PIVOT_ROOT:
        raise NoNamespaces(f"not known for processors of the kind {platform.machine()}")
    _try_in_a_process_of_its_own()
    apart = NEWPID | NEWIPC | NEWUTS | (0 if network else NEWNET)
    proc = os.open("/proc", os.O_PATH | os.O_DIRECTORY)
    if os.getuid() == 0:
        _ask("unshare", NEWNS)
        _lay_out(shown, hidden)
        os.setgroups([])
        os.setresgid(NOBODY, NOBODY, NOBODY)
        os.setresuid(NOBODY, NOBODY, NOBODY)
        _libc.prctl(PR_SET_DUMPABLE, 1, 0, 0, 0)  # lost with the user; without it nobody may map ids
        _enter_user_namespace(proc, NEWNS | apart)
    else:
        _enter_user_namespace(proc, NEWNS)
        _lay_out(shown, hidden)
        _ask("unshare", apart)
    pid = os.fork()
    if pid:
        os.closerange(3, 1024)
        _, status = os.waitpid(pid, 0)
        os._exit(0 if status == 0 else 1)
    _libc.prctl(PR_SET_PDEATHSIG, signal.SIGKILL, 0, 0, 0)
    _mount("tmpfs", WORKPLACE, "tmpfs", MS_NOSUID | MS_NODEV, "size=16m,mode=700")  # caches of the programs
    return Room(proc)


def _try_in_a_process_of_its_own() -> None:
    """Make all the namespaces once and throw them away, so that a refusal costs nothing."""
    reading, writing = os.pipe()
    pid = os.fork()
    if pid == 0:
        os.close(reading)
        try:
            if os.getuid() == 0:
                os.setgroups([])
                os.setresgid(NOBODY, NOBODY, NOBODY)
                os.setresuid(NOBODY, NOBODY, NOBODY)
                _libc.prctl(PR_SET_DUMPABLE, 1, 0, 0, 0)
            proc = os.open("/proc", os.O_PATH | os.O_DIRECTORY)
            _enter_user_namespace(proc, NEWNS | NEWPID | NEWNET | NEWIPC | NEWUTS)
            _mount(None, "/", None, MS_REC | MS_PRIVATE)
            _mount("tmpfs", SCRATCH, "tmpfs", 0)
            _read_only(SCRATCH)
        except OSError as refused:
            os.write(writing, str(refused).encode()[:500])
        finally:
            os._exit(0)
    os.close(writing)
    with os.fdopen(reading, "rb") as pipe:
        refused = pipe.read().decode()
    os.waitpid(pid, 0)
    if refused:
        raise NoNamespaces(refused)


def _lay_out(shown: Iterable[Path], hidden: Iterable[Path]) -> None:
    """Make a root of these files and folders, and of nothing else, the root of this process."""
    _mount(None, "/", None, MS_REC | MS_PRIVATE)
    root = Path(SCRATCH)  # covered while the root is put together; the real one is gone afterwards
    places = [Path(one) for one in shown]
    opened = [(place, os.open(place, os.O_PATH | os.O_NOFOLLOW)) for place in places if os.path.lexists(place)]
    _mount("tmpfs", str(root), "tmpfs", MS_NOSUID, "size=1m,mode=755")
    for name in ("null", "zero", "random", "urandom"):
        opened.append((Path("/dev") / name, os.open(f"/dev/{name}", os.O_PATH)))
    for place, descriptor in opened:
        target = root / place.relative_to("/")
        if os.path.lexists(target):
            os.close(descriptor)
            continue
        target.parent.mkdir(parents=True, exist_ok=True, mode=0o755)
        kind = os.fstat(descriptor).st_mode  # by its path it may be covered now
        if stat.S_ISLNK(kind):  # /lib, /bin …: as on the system
            target.symlink_to(os.readlink("", dir_fd=descriptor))
        else:
            if stat.S_ISDIR(kind):
                target.mkdir(mode=0o755)
            else:
                target.touch(mode=0o644)
            _mount(f"/proc/self/fd/{descriptor}", str(target), None, MS_BIND | MS_REC)
        os.close(descriptor)
    for place in hidden:
        if (root / place.relative_to("/")).is_dir():
            _mount("tmpfs", str(root / place.relative_to("/")), "tmpfs", MS_NOSUID, "size=4k,mode=755")
    (root / WORKPLACE.lstrip("/")).mkdir()
    if not (root / "tmp").exists():
        (root / "tmp").symlink_to(WORKPLACE)
    _read_only(str(root))
    os.chdir(root)
    if _libc.syscall(SYS_PIVOT_ROOT[platform.machine()], b".", b".") != 0:
        _raise("pivot_root")
    _ask("umount2", b".", MNT_DETACH)
    os.chdir("/")


def _enter_user_namespace(proc: int, others: int) -> None:
    user, group = os.getuid(), os.getgid()
    _ask("unshare", NEWUSER | others)
    _map_ids(proc, user, group)


def _map_ids(proc: int, user: int, group: int) -> None:
    """The same ids inside as outside: whoever we are, not root, neither here nor there."""
    _write(proc, "self/setgroups", "deny")
    _write(proc, "self/uid_map", f"{user} {user} 1")
    _write(proc, "self/gid_map", f"{group} {group} 1")


def _no_further_namespaces(proc: int) -> None:
    """Nobody in here may make a namespace again, and so be master of one."""
    try:
        _write(proc, "sys/user/max_user_namespaces", "0")
    except OSError:  # settings are read-only in some containers; such a namespace would be as empty as this one
        pass


def _give_up_rights() -> None:
    for capability in range(64):
        if _libc.prctl(PR_CAPBSET_DROP, capability, 0, 0, 0) != 0:
            break
    _libc.prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0)
    header = (ctypes.c_uint32 * 2)(0x20080522, 0)
    _ask("capset", header, (ctypes.c_uint32 * 6)())


def _read_only(path: str) -> None:
    attributes = (ctypes.c_uint64 * 4)(MOUNT_ATTR_RDONLY | MOUNT_ATTR_NOSUID, 0, 0, 0)
    if _libc.syscall(SYS_MOUNT_SETATTR, -100, path.encode(), AT_RECURSIVE, attributes, ctypes.sizeof(attributes)) != 0:
        _raise("mount_setattr")


def _mount(source: str | None, target: str, kind: str | None, flags: int, options: str | None = None) -> None:
    words = [None if word is None else word.encode() for word in (source, target, kind, options)]
    _ask("mount", words[0], words[1], words[2], ctypes.c_ulong(flags), words[3])


def _ask(call: str, *arguments) -> None:
    if getattr(_libc, call)(*arguments) != 0:
        _raise(call)


def _raise(call: str) -> None:
    number = ctypes.get_errno()
    raise OSError(number, f"{call}: {os.strerror(number)}")


def _write(proc: int, name: str, text: str) -> None:
    descriptor = os.open(name, os.O_WRONLY, dir_fd=proc)
    try:
        os.write(descriptor, text.encode())
    finally:
        os.close(descriptor)


def _read(proc: int, name: str) -> str:
    descriptor = os.open(name, os.O_RDONLY, dir_fd=proc)
    try:
        return os.read(descriptor, 65536).decode()
    finally:
        os.close(descriptor)


def _children(proc: int, pid: int | str) -> list[int]:
    """The children of a process, by the ids that the outer system knows."""
    try:
        outer = int(os.readlink("self", dir_fd=proc)) if pid == "self" else pid
        return [int(child) for child in _read(proc, f"{outer}/task/{outer}/children").split()]
    except OSError:  # it ended meanwhile
        return []


def _inner(proc: int, pid: int) -> int:
    """The id by which this process knows its child; the child itself knows itself as 1."""
    try:
        status = _read(proc, f"{pid}/status")
    except OSError:
        return 0
    return int(status.split("NSpid:")[1].splitlines()[0].split()[-2])


def _family(proc: int, pid: int, shared: bool = False) -> int:
    """Bytes in use by a process and by all below it; shared: with what they share with the warm parent."""
    total, left = 0, [pid]
    while left:
        pid = left.pop()
        try:
            total += _resident(proc, pid) if shared else _private(proc, pid)
        except OSError:  # it ended meanwhile
            continue
        left += _children(proc, pid)
    return total


def _resident(proc: int, pid: int) -> int:
    return int(_read(proc, f"{pid}/statm").split()[1]) * os.sysconf("SC_PAGE_SIZE")


def _private(proc: int, pid: int) -> int:
    try:
        rolled = _read(proc, f"{pid}/smaps_rollup")
    except OSError:
        return _resident(proc, pid)
    return sum(int(line.split()[1]) * 1024 for line in rolled.splitlines() if line.startswith("Private_"))


def programs() -> tuple[Path, ...]:
    """What a Python with this environment's packages needs to see: programs and libraries, no work of anybody."""
    system = ("/usr", "/bin", "/lib", "/lib32", "/lib64", "/etc/ld.so.cache", "/etc/fonts")
    python = (sys.base_prefix, sys.prefix, Path(sys.executable).parent.parent)
    return tuple(dict.fromkeys(Path(one) for one in (*system, *python)))
