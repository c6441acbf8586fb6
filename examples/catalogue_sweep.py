"""Which module on which inverter, for whole catalogues at several sites: in one process, or
on a Dask cluster. Modules, inverters and sites are invented.

    catalogue_sweep.py                            in this process
    catalogue_sweep.py --workers 2                on a cluster of this machine
    catalogue_sweep.py --scheduler tcp://HOST:8786
    catalogue_sweep.py --modules 20000 --inverters 3000 --workers 64    full size

A shard is a site and a run of modules, each on every inverter. Workers make both from the
seed, since handles do not travel, and answer with the numbers of the best pairs. What any
shard lists is judged here once more, so that the library alone puts it in order and a
worker with another build is noticed.

SPDX-License-Identifier: MIT
"""

import argparse
import asyncio
import functools
import hashlib
import itertools
import math
import random
import sys
import time
import typing

import pvsize

PAIRS_IN_A_SHARD = 1000000  # about a second: long beside what a shard costs to send
IN_FLIGHT = 3  # shards at a worker, or on their way to it: one ends, the next is there
WAIT = 20  # seconds for a scheduler, and for its first worker
# energy is ranked in whole watt hours of a module, and a roof here has fewer than 100: kWh
# that tell the ranks for certain are farther apart than 0.1
SLACK = 1.0


class Failure(Exception):
    """What stops a sweep, in a sentence for its user."""


class Task(typing.NamedTuple):
    """All that a worker needs."""
    seed: int
    modules: int
    inverters: int
    sites: int
    shards: int
    most: int


# the invented catalogues: each thing from the seed and its number alone

def chance(seed, what, number):
    return random.Random(f"{seed} {what} {number}")


def module(seed, number):
    draw = chance(seed, "module", number)
    cells = draw.choice((54, 60, 66, 72))
    vmp, imp = round(cells * draw.uniform(0.56, 0.64), 1), round(draw.uniform(9, 18), 2)
    return pvsize.Module(
        name=f"invented module {number}", pmax=round(vmp * imp), vmp=vmp, imp=imp,
        voc=round(vmp * draw.uniform(1.17, 1.21), 1), isc=round(imp * draw.uniform(1.04, 1.07), 2),
        voc_coefficient=-round(draw.uniform(0.22, 0.3), 3), isc_coefficient=0.045,
        pmax_coefficient=-round(draw.uniform(0.24, 0.38), 3), bifaciality=0,
        max_system_voltage=draw.choice((1000, 1500)), max_series_fuse=draw.choice((20, 25, 30)))


def inverter(seed, number):
    draw = chance(seed, "inverter", number)
    watts, volts = draw.randrange(2000, 15001, 250), draw.choice((550, 600, 1000))
    current = draw.choice((12.5, 16, 20, 26, 32))
    one = dict(max_voltage=volts, tracking_min=draw.choice((80, 100, 160)),
               tracking_max=round(0.92 * volts), start_voltage=draw.choice((120, 180)),
               max_operating_current=current, max_short_circuit_current=round(1.3 * current, 1),
               terminals=1 + (current > 22), terminal_current=30, max_power="none",
               isolator="built_in", isolator_meets_standard=True, isolator_locks_off=True,
               isolator_voltage=volts, isolator_current=50)
    return pvsize.Inverter(
        name=f"invented inverter {number}", rated_ac_power=watts, max_pv_power=round(1.5 * watts),
        phases=1, ac_voltage=230, backfeed_current=0, inputs=[one] * draw.choice((1, 2, 2, 3)))


def site(seed, number):
    draw = chance(seed, "site", number)
    planes = [dict(name=f"face {i + 1}", mounting="raised", current_correction=1,
                   capacity=draw.randrange(8, 29), specific_yield=draw.randrange(1100, 1701))
              for i in range(draw.choice((1, 2, 2, 3)))]
    return pvsize.Site(
        name=f"invented site {number}", temp_min=draw.randrange(-8, 8), planes=planes,
        temp_max=draw.randrange(34, 47), building="dwelling", supply_phases=1, supply_voltage=230,
        connection_limit="none", export_limit="none", phase_limit="none")


@functools.lru_cache(maxsize=1)
def inverters(seed, count):
    """Once for each worker, however many shards it gets."""
    return [inverter(seed, number) for number in range(count)]


# judging

def ranking(task, place):
    """An empty one: the best stringing by energy for one site."""
    question = pvsize.Search(objective="energy", answers=1,
                             system=pvsize.System(site=site(task.seed, place)))
    return pvsize.Ranking(question, most=task.most)


def shards_of(task):
    """Site, first module, and the one after the last."""
    cuts = [i * task.modules // task.shards for i in range(task.shards + 1)]
    return [(place, *cut) for place in range(task.sites) for cut in zip(cuts, cuts[1:])]


def judge(task, shard):
    """The ranking of one shard, whose modules are held only meanwhile."""
    place, first, end = shard
    found = ranking(task, place)
    found.add_all((module(task.seed, number) for number in range(first, end)),
                  inverters(task.seed, task.inverters), first)
    return found


def judge_away(task, shard):
    """The same at a worker: what can travel."""
    found = judge(task, shard)
    return pvsize.version(), shard[0], found.judged, [tuple(pair) for pair in found]


class Best:
    """Pairs that shards of one site list, as far as they may be among the best of all."""

    def __init__(self, task, place):
        self.task, self.place, self.rows, self.judged = task, place, [], (0, 0, 0)

    def add(self, judged, rows):
        self.judged = tuple(map(sum, zip(self.judged, judged)))
        self.rows = sorted(self.rows + [pvsize.RankedPair(*row) for row in rows],
                           key=lambda row: -row.energy)
        if len(self.rows) > self.task.most:
            least = self.rows[self.task.most - 1].energy - SLACK
            self.rows = [row for row in self.rows if row.energy >= least]

    def ranked(self):
        found, named = ranking(self.task, self.place), inverters(self.task.seed, self.task.inverters)
        for row in self.rows:
            found.add(module(self.task.seed, row.module), named[row.inverter], row.module, row.inverter)
        if not set(found) <= set(self.rows):
            raise Failure("a worker and this process find unlike numbers; is the same build of "
                          "the library at both?")
        return found


# in one process, and on a cluster: for each site what was judged, and the best pairs

def sweep_here(task, progress):
    wholes = [ranking(task, place) for place in range(task.sites)]
    for shard in shards_of(task):
        wholes[shard[0]].merge(judge(task, shard))
        progress()
    return [(whole.judged, list(whole)) for whole in wholes]


def sweep_away(task, client, retries, progress):
    """A shard whose worker was lost is done again. Few are under way at once, so that the
    scheduler's memory does not grow with the sweep."""
    from distributed import as_completed
    client.upload_file(__file__)
    best = [Best(task, place) for place in range(task.sites)]
    waiting = iter(shards_of(task))

    def send(count):
        return [client.submit(judge_away, task, shard, retries=retries, pure=False)
                for shard in itertools.islice(waiting, count)]

    running = as_completed(send(IN_FLIGHT * len(client.scheduler_info()["workers"])))
    for future in running:
        version, place, judged, rows = future.result()
        if version != pvsize.version():
            raise Failure(f"a worker has version {version} of the library, here is {pvsize.version()}")
        best[place].add(judged, rows)
        running.update(send(1))
        progress()
    return [(one.judged, list(one.ranked())) for one in best]


def cluster(options):
    """A client, and the cluster behind it where that is our own."""
    try:
        import dask
        import distributed
    except ImportError as failure:
        raise Failure("a cluster needs Dask: apt-get install python3-distributed") from failure
    if options.scheduler:
        try:
            client = distributed.Client(options.scheduler, timeout=WAIT)
            client.wait_for_workers(1, timeout=WAIT)
        except (OSError, ValueError, asyncio.TimeoutError) as failure:
            raise Failure(f"no scheduler with a worker at {options.scheduler}: {failure}") from failure
        return client, None
    # Dask's own 64 kB would have every pair give its memory back to the system, and beg for it
    with dask.config.set({"distributed.scheduler.allowed-failures": options.retries,
                          "distributed.nanny.pre-spawn-environ.MALLOC_TRIM_THRESHOLD_": 2 ** 24}):
        own = distributed.LocalCluster(n_workers=options.workers, threads_per_worker=1,
                                       dashboard_address=None)
    return distributed.Client(own), own


def sweep_on_cluster(task, options, progress):
    client, own = cluster(options)
    from distributed.scheduler import KilledWorker
    try:
        return sweep_away(task, client, options.retries, progress)
    except KilledWorker as failure:
        raise Failure("a shard lost its worker too often; smaller --shards need less memory, "
                      f"more --retries try again: {failure}") from failure
    finally:
        client.close()
        if own:
            own.close()


# telling

def bar(shards):
    """What to call when a shard is done; draws on a terminal only."""
    done, start = itertools.count(1), time.monotonic()

    def progress():
        now = next(done)
        if sys.stderr.isatty():
            left = (time.monotonic() - start) * (shards - now) / now
            full = "#" * (40 * now // shards)
            print(f"\r[{full:40}] {now}/{shards} shards, {left:.0f} s left ", end="\n" * (now == shards),
                  file=sys.stderr, flush=True)

    return progress


def text_of(found):
    """Every number in full, so that equal texts are equal rankings."""
    lines = []
    for place, (judged, pairs) in enumerate(found):
        lines.append("site {}: {} pairs judged, {} fit, {} of these not proven best".format(place, *judged))
        lines += (f"{rank:4} module {pair.module} inverter {pair.inverter}: {pair.energy!r} kWh "
                  f"{pair.power!r} W, {pair.modules} modules, {pair.strings} strings"
                  for rank, pair in enumerate(pairs, 1))
    return "\n".join(lines)


def count(least, most):
    def read(word):
        if not word.lstrip("-").isdigit() or not least <= int(word) <= most:
            raise argparse.ArgumentTypeError(f"{word!r}: a whole number from {least} to {most} is needed")
        return int(word)
    return read


def options_of(words):
    parser = argparse.ArgumentParser(description="Ranks invented modules on invented inverters.",
                                     epilog="Full size: --modules 20000 --inverters 3000.")
    for name, default, least, most, what in (
            ("modules", 40, 1, 10 ** 6, "in the catalogue"), ("inverters", 12, 1, 10 ** 5, "in the catalogue"),
            ("sites", 3, 1, 10 ** 4, "to rank for"), ("most", 5, 1, 10 ** 4, "pairs kept for a site"),
            ("shards", None, 1, 10 ** 6, f"for a site; else of about {PAIRS_IN_A_SHARD} pairs"),
            ("seed", 1, 0, 10 ** 9, "of all that is invented"),
            ("retries", 3, 0, 100, "of a shard that failed or lost its worker (the latter is at a "
                                   "scheduler's own discretion)")):
        parser.add_argument(f"--{name}", type=count(least, most), default=default, metavar="N",
                            help=f"{what} ({default})" if default is not None else what)
    where = parser.add_mutually_exclusive_group()
    where.add_argument("--workers", type=count(1, 1000), metavar="N", help="on this machine")
    where.add_argument("--scheduler", metavar="ADDRESS", help="of a running cluster")
    options = parser.parse_args(words)
    if options.shards is None:
        options.shards = min(options.modules, math.ceil(options.modules * options.inverters
                                                        / PAIRS_IN_A_SHARD))
    if options.shards > options.modules:
        parser.error(f"--shards {options.shards}: a shard has a module at least, and there are "
                     f"{options.modules}")
    return options


def main(words=None):
    options = options_of(words)
    task = Task(*(getattr(options, name) for name in Task._fields))
    progress = bar(task.sites * task.shards)
    away = options.workers or options.scheduler
    start = time.monotonic()
    try:
        found = sweep_on_cluster(task, options, progress) if away else sweep_here(task, progress)
    except Failure as failure:
        print(f"catalogue_sweep: {failure}", file=sys.stderr)
        return 2
    spent = time.monotonic() - start
    text = text_of(found)
    print(text)
    print("sha256", hashlib.sha256(text.encode()).hexdigest())
    pairs = task.sites * task.modules * task.inverters
    print(f"{pairs} pairs in {spent:.1f} s, {pairs / spent:.0f} a second", file=sys.stderr)
    print("\n" + pvsize.caution())
    return 0


if __name__ == "__main__":
    # by its name, since workers find functions by the name of their module
    import catalogue_sweep
    sys.exit(catalogue_sweep.main())
