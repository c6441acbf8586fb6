# SPDX-License-Identifier: MIT
"""A sweep of invented catalogues gives the same text however it is divided. What it is
compared with is the ranking that the library makes of the whole catalogue at once."""
import os
import pathlib
import signal
import sys

import pytest

import pvsize

EXAMPLES = pathlib.Path(__file__).resolve().parents[3] / "examples"
MODULES, INVERTERS, SITES, MOST = 24, 8, 2, 6


@pytest.fixture(scope="module")
def sweep():
    sys.path.insert(0, str(EXAMPLES))  # which workers on this machine inherit
    import catalogue_sweep
    yield catalogue_sweep
    sys.path.remove(str(EXAMPLES))


@pytest.fixture(scope="module")
def dask():
    return pytest.importorskip("distributed", reason="python3-distributed is not installed")


def words(*more):
    return [str(word) for word in ("--modules", MODULES, "--inverters", INVERTERS, "--sites", SITES,
                                   "--most", MOST, *more)]


@pytest.fixture(scope="module")
def whole(sweep):
    """By add_shard, from one question that holds the catalogue."""
    seed, found = 1, []
    for place in range(SITES):
        system = pvsize.System(site=sweep.site(seed, place), inverters=sweep.inverters(seed, INVERTERS))
        question = pvsize.Search(objective="energy", answers=1, system=system,
                                 modules=[sweep.module(seed, i) for i in range(MODULES)])
        ranking = pvsize.Ranking(question, most=MOST)
        assert ranking.add_shard() == MODULES * INVERTERS
        found.append((ranking.judged, list(ranking)))
    assert all(len(pairs) == MOST for _, pairs in found)
    return sweep.text_of(found)


def swept(sweep, client, shards):
    task = sweep.Task(1, MODULES, INVERTERS, SITES, shards, MOST)
    return sweep.text_of(sweep.sweep_away(task, client, 3, lambda: None))


@pytest.mark.parametrize("shards", [1, 2, 7, MODULES])
def test_one_process(sweep, whole, shards):
    assert sweep.text_of(sweep.sweep_here(sweep.Task(1, MODULES, INVERTERS, SITES, shards, MOST),
                                          lambda: None)) == whole


def test_other_catalogue(sweep, whole):
    assert sweep.text_of(sweep.sweep_here(sweep.Task(2, MODULES, INVERTERS, SITES, 2, MOST),
                                          lambda: None)) != whole


def test_best_alone(sweep):
    """Pairs that tie at the cut stay until the library has put them in order."""
    task = sweep.Task(1, MODULES, INVERTERS, 2, 1, 1)
    best = sweep.Best(task, 1)
    for first in range(MODULES):
        _, _, judged, rows = sweep.judge_away(task, (1, first, first + 1))
        best.add(judged, rows)
    assert list(best.ranked()) == list(sweep.judge(task, (1, 0, MODULES)))
    pair = best.rows[0]._replace(strings=99)
    best.rows = [pair]
    with pytest.raises(sweep.Failure, match="same build"):
        best.ranked()


def test_any_number_of_workers(sweep, whole, dask, capsys):
    with dask.LocalCluster(n_workers=1, threads_per_worker=1, dashboard_address=None) as cluster, \
            dask.Client(cluster) as client:
        for workers, counts in ((1, (5,)), (2, (1, 8)), (3, (MODULES,))):
            cluster.scale(workers)
            client.wait_for_workers(workers, timeout=60)
            for shards in counts:
                assert swept(sweep, client, shards) == whole
        assert sweep.main(words("--scheduler", cluster.scheduler_address)) == 0
        assert capsys.readouterr().out.startswith(whole + "\n")


def test_lost_worker(sweep, dask):
    """Killed while shards are under way there; another does them, and a new one comes."""
    task, killed = sweep.Task(1, 640, INVERTERS, SITES, 8, MOST), []
    with dask.LocalCluster(n_workers=2, threads_per_worker=1, dashboard_address=None) as cluster, \
            dask.Client(cluster) as client:
        before = client.run(os.getpid)

        def kill():
            if not killed:
                worker, shards = max(client.processing().items(), key=lambda item: len(item[1]))
                assert len(shards) >= 2
                killed.append(before[worker])
                os.kill(before[worker], signal.SIGKILL)

        found = sweep.sweep_away(task, client, 3, kill)
        client.wait_for_workers(2, timeout=60)
        after = set(client.run(os.getpid).values())
    assert found == sweep.sweep_here(task, lambda: None)
    assert killed[0] not in after and len(after & set(before.values())) == 1


def test_lost_too_often(sweep, dask, monkeypatch, capsys):
    """With no retry a lost worker ends the sweep, in a sentence."""
    client, own = sweep.cluster(sweep.options_of(["--workers", "1", "--retries", "0"]))
    pid = list(client.run(os.getpid).values())[0]
    monkeypatch.setattr(sweep, "cluster", lambda options: (client, own))
    monkeypatch.setattr(sweep, "bar", lambda shards: lambda: os.kill(pid, signal.SIGKILL))
    assert sweep.main(["--workers", "1", "--retries", "0", "--modules", "400", "--shards", "4"]) == 2
    assert "lost its worker too often" in capsys.readouterr().err


def test_main(sweep, whole, capsys):
    assert sweep.main(words("--shards", 3)) == 0
    out = capsys.readouterr().out
    assert out.startswith(whole + "\nsha256 ") and pvsize.caution() in out


@pytest.mark.parametrize("wrong, told", [
    (["--modules", "0"], "'0': a whole number from 1 to 1000000"),
    (["--inverters", "1.5"], "'1.5': a whole number"),
    (["--most", "-1"], "'-1': a whole number from 1 to 10000"),
    (["--workers", "many"], "'many': a whole number from 1 to 1000"),
    (["--shards", "25"], "--shards 25: a shard has a module at least, and there are 24"),
    (["--workers", "2", "--scheduler", "tcp://127.0.0.1:1"], "not allowed with"),
])
def test_wrong_options(sweep, capsys, wrong, told):
    with pytest.raises(SystemExit) as end:
        sweep.main(words(*wrong))
    assert end.value.code == 2 and told in capsys.readouterr().err


def test_no_scheduler(sweep, dask, monkeypatch, capsys):
    monkeypatch.setattr(sweep, "WAIT", 1)
    for address in ("tcp://127.0.0.1:1", "nonsense://x"):
        assert sweep.main(["--scheduler", address]) == 2
        assert f"no scheduler with a worker at {address}" in capsys.readouterr().err


def test_without_dask(sweep, monkeypatch, capsys):
    monkeypatch.setitem(sys.modules, "dask", None)
    assert sweep.main(["--workers", "2"]) == 2
    assert "apt-get install python3-distributed" in capsys.readouterr().err
