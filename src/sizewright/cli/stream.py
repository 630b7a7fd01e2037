"""Many callouts, one a line: answered as they come, by several processes where the input is a large file.

The output is the same bytes either way, in the order of the input, and memory does not grow with it. From a pipe each
answer is written at once: whoever types into it may be waiting.
"""

from __future__ import annotations

import os
import stat
import sys
from collections import deque
from collections.abc import Callable, Generator, Iterable, Iterator, Sequence
from contextlib import closing
from functools import lru_cache
from itertools import islice
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from concurrent.futures import Future, ProcessPoolExecutor

Say = Callable[[str], tuple[str, bool]]
Told = tuple[str, bool]

_LARGE = 50_000  # bytes of input from which starting processes pays: a second's work or so
_CHUNK = 200  # lines handed over at once
_AHEAD = 3  # chunks under way for each process
_MOST_PROCESSES = 16
_KEPT = 4096  # answers remembered, of callouts of usual length
_USUAL = 120


def callouts(lines: Iterable[str]) -> Iterator[str]:
    """The callouts of `lines`; the first line may carry a byte-order mark. Blank lines ask nothing."""
    for line in lines:
        callout = line.rstrip("\r\n").lstrip("\ufeff")
        if callout.strip():
            yield callout


def answer_stream(make: Callable[..., Say], arguments: Sequence[object]) -> int:
    """Write what `make(*arguments)` says of each callout of standard input; 1 where one of them does not read.

    `make` is a function of a module, and `arguments` can be sent to another process.
    """
    size = _file_size()
    if size is None:
        sys.stdout.reconfigure(line_buffering=True)  # type: ignore[union-attr]
    processes = min(_cores(), _MOST_PROCESSES) if size is not None and size >= _LARGE else 1
    status = 0
    with closing(tell(callouts(sys.stdin), make, arguments, processes)) as told:
        for text, failed in told:
            sys.stdout.write(text)
            status = status or int(failed)
    return status


def tell(
    asked: Iterator[str], make: Callable[..., Say], arguments: Sequence[object], processes: int
) -> Generator[Told, None, None]:
    """What is said, in order: a text for each callout, or for many where several processes do it."""
    say = remembering(make(*arguments))
    pool = _pool(make, arguments, processes) if processes > 1 else None
    yield from map(say, asked) if pool is None else _by_many(pool, asked, say, processes * _AHEAD)


def remembering(say: Say) -> Say:
    """`say` with a memory of what was asked lately."""
    kept = lru_cache(maxsize=_KEPT)(say)
    return lambda callout: kept(callout) if len(callout) <= _USUAL else say(callout)


def _file_size() -> int | None:
    """The size of standard input where it is a file, else None."""
    try:
        about = os.fstat(sys.stdin.fileno())
    except (OSError, ValueError):
        return None
    return about.st_size if stat.S_ISREG(about.st_mode) else None


def _cores() -> int:
    """The processor cores that this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


# ---- several processes -----------------------------------------------------------------------------------------------


def _pool(make: Callable[..., Say], arguments: Sequence[object], processes: int) -> ProcessPoolExecutor | None:
    """Processes that wait for chunks; None where the system has none to give."""
    from concurrent.futures import ProcessPoolExecutor

    try:
        return ProcessPoolExecutor(processes, initializer=_begin, initargs=(make, arguments))
    except (ImportError, NotImplementedError, OSError):
        return None


def _by_many(pool: ProcessPoolExecutor, asked: Iterator[str], say: Say, most: int) -> Iterator[Told]:
    """Chunks in order, at most `most` of them under way; a chunk whose process died is answered here."""
    from concurrent.futures.process import BrokenProcessPool

    under_way: deque[tuple[Future[Told] | None, list[str]]] = deque()
    try:
        while True:
            while len(under_way) < most and (chunk := list(islice(asked, _CHUNK))):
                try:
                    future = pool.submit(_answer_chunk, chunk)
                except (BrokenProcessPool, OSError):
                    future = None
                under_way.append((future, chunk))
            if not under_way:
                return
            future, chunk = under_way.popleft()
            try:
                yield future.result() if future else _joined(map(say, chunk))
            except BrokenProcessPool:
                yield _joined(map(say, chunk))
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


def _joined(told: Iterable[Told]) -> Told:
    texts, failed = zip(*told, strict=True)
    return "".join(texts), any(failed)


_say: Say


def _begin(make: Callable[..., Say], arguments: Sequence[object]) -> None:
    """Get a process ready. Ctrl-C is for the one that writes; when that one ends, however, this one ends too."""
    import signal
    import threading

    global _say
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with_parent, daemon=True).start()
    _say = remembering(make(*arguments))


def _end_with_parent() -> None:
    from multiprocessing import parent_process

    parent = parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)


def _answer_chunk(chunk: list[str]) -> Told:
    return _joined(map(_say, chunk))
