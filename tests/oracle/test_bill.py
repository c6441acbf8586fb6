# SPDX-License-Identifier: MIT
"""The library's bills against a second count, over seeded jobs and rule sets.

PVSIZE_ORACLE_JOBS  how many jobs; PVSIZE_LIBRARY  which library."""
import random
from collections import Counter
from concurrent.futures import ProcessPoolExecutor

import pytest

import pvsize
from bill_model import bill
from test_against_library import (DEFAULT_JOBS, JOBS, Answers, job_of, library_rules,
                                  rules_of)

ITEMS = ["module", "string", "inverter", "connector_pair", "combiner", "string_fuse",
         "fuse_holder", "dc_isolator", "cable", "ac_breaker", "current_sensor", "export_meter",
         "disconnection_point", "array_fuse"]

# Their spares round up in each row.
WHOLE_SPARES = ("connector_pair", "string_fuse", "disconnection_point", "array_fuse")

# Plausible other allowances; None takes the figure away.
ALLOWANCES = {"connector_spare": [0, 10, 33, None], "connectors_at_device": [0, 1, 2, None],
              "fuse_spare": [0, 5, 100, None], "string_fuse_poles": [1, 2, None],
              "cable_waste": [0, 7.5, None], "ac_breaker_neutral": [0, 1, None]}


def jobs(seed):
    """The job, with inverters that are the same and strings that plug in now and then."""
    job, r = job_of(seed), random.Random(f"bill {seed}")
    if r.random() < 0.3:  # what hung on the inverter still does
        for inverter in list(job["inverters"]):
            job["inverters"].append(dict(inverter, name="again"))
    for cable in job["cables"]:
        if cable["circuit"] == "string" and r.random() < 0.1:
            cable["length"] = 0
    return job


def rule_sets(seed):
    (rules, _), r = rules_of(seed), random.Random(f"bill rules {seed}")
    for name, values in ALLOWANCES.items():
        value = r.choice(values) if r.random() < 0.4 else rules["figures"].get(name)
        rules["figures"].pop(name, None)
        if value is not None:
            rules["figures"][name] = value
    return rules


def near(got, expected):
    if isinstance(got, (str, type(None))) or isinstance(expected, (str, type(None))):
        return got == expected
    return abs(got - float(expected)) <= 1e-9 * max(abs(float(expected)), 1e-2)


def like(row, other):
    """Whether the model, which knows no names of what is missing, sees one row."""
    return (row.item, row.type, list(row.attributes), row.installed is None) == (
        other.item, other.type, list(other.attributes), other.installed is None) and all(
            near(row.attributes[name], value) for name, value in other.attributes.items())


def joined(rows):
    """Groups of rows that lack unlike terms and are else the same."""
    groups = []
    for row in rows:
        group = next((group for group in groups if like(group[0], row)), None)
        if group is None:
            groups.append([row])
        else:
            told = {other.text.split("; for ")[0] for other in group}
            assert row.missing and row.text.split("; for ")[0] not in told, row
            group.append(row)
    return groups


def differs(group, ours, answers):
    """What is not the same, in a word; None: nothing."""
    row = group[0]
    if row.item != ours.item or (row.type if row.type is None
                                 else answers.identity(row.type)) != ours.type:
        return "thing"
    if list(row.attributes) != list(ours.attributes) or not all(
            near(row.attributes[name], value) for name, value in ours.attributes.items()):
        return "attributes"
    if not near(row.installed and sum(row.installed for row in group), ours.installed):
        return "installed"
    # spares of rows of their own round on their own
    if len(group) == 1 and not near(row.quantity, ours.quantity):
        return "quantity"
    if (row.missing is None) != (None not in (*ours.attributes.values(), ours.quantity)):
        return "missing"
    shares = sorted((answers.identity(share.subject), share.why, share.installed)
                    for row in group for share in row.shares)
    expected = sorted((who, why, float(installed)) for who, installed, why in ours.shares)
    if [share[:2] for share in shares] != [share[:2] for share in expected] or not all(
            near(share[2], other[2]) for share, other in zip(shares, expected)):
        return "shares"
    return None


def compare(seed, counts, faults):
    job, rules = jobs(seed), rule_sets(seed)
    spec = pvsize.System(site=job["site"], inverters=job["inverters"], arrays=job["arrays"],
                         cables=job["cables"], isolators=job["isolators"])
    ours, answers = bill(job, rules), Answers(job, library_rules(rules))
    groups = joined(pvsize.bill(spec, library_rules(rules)))
    if len(groups) != len(ours):
        faults.append(f"seed {seed}: {Counter(group[0].item for group in groups)}, "
                      f"not {Counter(row.item for row in ours)}")
        return
    for group, mine in zip(groups, ours):
        counts["rows"] += 1
        row = group[0]
        counts[row.item, "missing" if row.missing else "some" if row.quantity else "none"] += 1
        counts["merged", row.item] += len(row.shares) > 1
        counts["whole"] += len(group) == 1
        what = differs(group, mine, answers)
        if what:
            faults.append(f"seed {seed}: {what}: {row.text}, not {mine}")


def run(seeds):
    counts, faults = Counter(), []
    for seed in seeds:
        compare(seed, counts, faults)
    return counts, faults


@pytest.fixture(scope="module")
def outcome():
    counts, faults = Counter(), []
    with ProcessPoolExecutor() as pool:
        for some, wrong in pool.map(run, [range(k, min(k + 50, JOBS)) for k in range(0, JOBS, 50)]):
            counts.update(some)
            faults += wrong
    return counts, faults


def test_bills_agree(outcome):
    counts, faults = outcome
    print(f"{JOBS} jobs, {counts['rows']} rows")
    assert not faults, f"{len(faults)} differ:\n" + "\n".join(faults[:20])


@pytest.mark.skipif(JOBS < DEFAULT_JOBS, reason="too few jobs to meet every case")
def test_every_case_of_a_bill_was_met(outcome):
    counts, _ = outcome
    few = JOBS // 300
    for item in ITEMS:
        assert counts[item, "some"] >= few, item
        assert counts[item, "missing"] >= few, item
        if item != "export_meter" and item != "current_sensor":
            assert counts["merged", item] >= few, item
    for item in ("string_fuse", "fuse_holder", "dc_isolator", "current_sensor", "cable",
                 "disconnection_point", "array_fuse"):
        assert counts[item, "none"] >= few, item


# -- two systems beside one another ---------------------------------------------

def beside(first, second):
    """Two jobs that share the first one's site and nothing else: the second on that
    site, and both together."""
    planes = len(first["site"]["planes"])
    alone = dict(second, site=first["site"], arrays=[], cables=[dict(c) for c in second["cables"]])
    for array in second["arrays"]:
        array = dict(array)
        if array.get("plane", 0) >= planes:
            array.pop("plane", None)
        alone["arrays"].append(array)
    arrays, inverters = len(first["arrays"]), len(first["inverters"])
    moved = [dict(array, inverter=array.get("inverter", 0) + inverters)
             for array in alone["arrays"]]
    cables = []
    for cable in alone["cables"]:
        if cable["circuit"] == "ac":
            cables.append(dict(cable, inverter=cable.get("inverter", 0) + inverters))
        else:
            cables.append(dict(cable, array=cable["array"] + arrays))
    isolators = []
    for isolator in alone["isolators"]:
        by = {"array": arrays} if "array" in isolator else {}
        if "input" in isolator:
            by["inverter"] = inverters
        isolators.append(dict(isolator, **{name: isolator.get(name, 0) + more
                                           for name, more in by.items()}))
    return alone, {"site": first["site"], "inverters": first["inverters"] + second["inverters"],
                   "arrays": first["arrays"] + moved, "cables": first["cables"] + cables,
                   "isolators": first["isolators"] + isolators}


def totals(job, rules):
    """Of each item: installed and to buy, of what is known; and rows."""
    spec = pvsize.System(site=job["site"], inverters=job["inverters"], arrays=job["arrays"],
                         cables=job["cables"], isolators=job["isolators"])
    installed, quantity, rows = Counter(), Counter(), Counter()
    for row in pvsize.bill(spec, rules):
        installed[row.item] += row.installed or 0
        quantity[row.item] += row.quantity or 0
        rows[row.item] += 1
    return installed, quantity, rows


def test_bills_of_independent_systems_add_up():
    for seed in range(JOBS // 10):
        first, second = job_of(seed), job_of(seed + 1)
        rules = library_rules(rule_sets(seed))
        second, both = beside(first, second)
        one, other, sum_of = (totals(job, rules) for job in (first, second, both))
        for item in ITEMS:
            if item in ("current_sensor", "export_meter"):
                continue  # what measures the export is the site's
            expected = one[0][item] + other[0][item]
            assert abs(sum_of[0][item] - expected) <= 1e-9 * expected, (seed, item)
            saved = one[1][item] + other[1][item] - sum_of[1][item]
            slack = one[2][item] + other[2][item] if item in WHOLE_SPARES else 0
            assert -1e-9 * expected <= saved <= slack + 1e-9 * expected, (seed, item)
