# SPDX-License-Identifier: MIT
"""Timing in interleaved rounds, and what is kept of it. All times are those of the processor, not of
the clock on the wall: other work on the machine then matters less. A "way" is a call that runs something once or
many times and returns seconds for each unit: a check, a point, a pair, a year."""
import ctypes
import dataclasses
import os
import pathlib
import re
import resource
import statistics
import subprocess
import time


class Bench:
    """The C program (main.c), kept running; its operations by their lines."""

    def __init__(self, build):
        self.program = f"{build}/tests/bench"
        self.process = subprocess.Popen([self.program, "serve"], stdin=subprocess.PIPE,
                                        stdout=subprocess.PIPE, text=True)

    def ask(self, repeats, line):
        self.process.stdin.write(f"{repeats} {line}\n")
        self.process.stdin.flush()
        answer = self.process.stdout.readline()
        if not answer:
            raise SystemExit(f"bench ended at: {line}")
        return float(answer)

    def way(self, line, units=1, repeats=None):
        """Runs so often that the clock can tell, unless told how often."""
        repeats = repeats or int(self.ask(0, line))
        return lambda: self.ask(repeats, line) / repeats / units

    def has(self, name):
        """Whether it was built with this operation."""
        return name in subprocess.run([self.program, "list"], check=True, capture_output=True,
                                      text=True).stdout.split()

    def compiler(self):
        return subprocess.run([self.program, "compiler"], check=True, capture_output=True,
                              text=True).stdout.strip()

    def memory(self, line, units=1):
        """Allocations of a first and of a next run, for each unit; most bytes that the library
        holds, and what the process grew by."""
        text = subprocess.run([self.program, "memory", line], check=True, capture_output=True,
                              text=True).stdout
        first, following, held, resident, finished = map(int, text.split())
        return Memory(resident * 1024, held, first / units, following / units, bool(finished))

    def agree(self):
        done = subprocess.run([self.program, "agree"], capture_output=True, text=True, check=False)
        if done.returncode:
            raise SystemExit(f"the ways do not agree: {done.stderr}{done.stdout}")
        return done.stdout.strip()


@dataclasses.dataclass
class Memory:
    resident: int
    held: int | None = None
    first: float | None = None
    following: float | None = None
    finished: bool = True


@dataclasses.dataclass
class Row:
    """One thing measured: the library, and a reference or None. Seconds for each unit, as quartiles;
    the ratio is that of each round."""
    part: str
    what: str
    unit: str
    library: tuple
    memory: Memory | None = None
    reference: str | None = None
    other: tuple | None = None
    ratio: tuple | None = None
    other_memory: Memory | None = None
    at_least: bool = False  # the reference was stopped
    stopped: bool = False  # the library was: by its budget of steps


def python_way(call, units=1):
    def way():
        start = time.process_time()
        call()
        return (time.process_time() - start) / units
    return way


def children_way(call):
    """For programs that are started."""
    def way():
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        call()
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return way


def memory_of(call):
    """What a process grows by at its peak that does nothing else; it first gives back what runs
    before it have freed."""
    read, write = os.pipe()
    child = os.fork()
    if child == 0:
        ctypes.CDLL(None).malloc_trim(0)
        pathlib.Path("/proc/self/clear_refs").write_text("5", encoding="ascii")  # forget the peak
        before = resident_peak()
        call()
        os.write(write, str(resident_peak() - before).encode())
        os._exit(0)
    os.close(write)
    with os.fdopen(read) as answer:
        text = answer.read()
    os.waitpid(child, 0)
    return Memory(int(text))


def resident_peak():
    status = pathlib.Path("/proc/self/status").read_text(encoding="ascii")
    return int(re.search(r"VmHWM:\s*(\d+) kB", status).group(1)) * 1024


def quartiles(values):
    if len(values) < 2:
        return values[0], values[0], values[0]
    low, middle, high = statistics.quantiles(values, n=4, method="inclusive")
    return low, middle, high


def rounds(ways, count):
    """Times by name; the ways take turns, so that what disturbs one disturbs all."""
    times = {name: [] for name in ways}
    for way in ways.values():
        way()
    for _ in range(count):
        for name, way in ways.items():
            times[name].append(way())
    return times


def compare(part, what, unit, library, references, count, memory=None, memories=None):
    """Rows of the library against each reference, or one alone without any."""
    times = rounds({"": library, **references}, count)
    own = quartiles(times[""])
    if not references:
        return [Row(part, what, unit, own, memory)]
    return [Row(part, what, unit, own, memory, name, quartiles(times[name]),
                quartiles([other / mine for other, mine in zip(times[name], times[""])]),
                (memories or {}).get(name)) for name in references]
