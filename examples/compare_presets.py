"""What each rule set of the library makes of one job, and why. The job is invented.

SPDX-License-Identifier: MIT
"""

import json
import pathlib
import re

import pvsize


def clean(part):
    """A job's part without remarks, and numbers without their unit."""
    if isinstance(part, list):
        return [clean(one) for one in part]
    if isinstance(part, dict):
        return {key: clean(value) for key, value in part.items() if not key.startswith("_")}
    amount = re.fullmatch(r"(-?[\d.]+) \S+", str(part))
    return float(amount[1]) if amount else part


def place(parts, name):
    return [part["name"] for part in parts].index(name)


def load(path):
    """The system of a job file, its names resolved, and its own preset."""
    job = clean(json.loads(pathlib.Path(path).read_text(encoding="utf-8")))
    modules, own = job.pop("modules"), job.pop("rules")["preset"]
    for array in job["arrays"]:
        array["module"] = modules[place(modules, array["module"])]
        array["inverter"] = at = place(job["inverters"], array["inverter"])
        array["input"] = place(job["inverters"][at]["inputs"], array["input"])
        array["plane"] = place(job["site"]["planes"], array["plane"])
    for part in job["cables"] + job["isolators"]:
        for key in {"array", "inverter"} & part.keys():
            part[key] = place(job[key + "s"], part[key])
    return pvsize.System(**job), own


def cell(report, key):
    f = next((f for f in report if (f.subject, f.rule) == key), None)
    numbers = f" {f.value:.5g}/{f.limit:.5g}" if f and f.limit is not None else ""
    return f.verdict + numbers if f else "-"


demo = pathlib.Path(__file__).with_name("jobs") / "community_hall.json"
system, own = load(demo)
reports = {name: pvsize.check(system, pvsize.Rules(name)) for name in pvsize.presets()}
found = {name: pvsize.compare(reports[own], report) for name, report in reports.items()}
rows = sorted({(one.subject, one.rule) for some in found.values() for one in some})
of = [subject.text for subject in reports[own].subjects()]
table = [["rule", "of", *reports]]
table += [[rule, of[n], *(cell(r, (n, rule)) for r in reports.values())] for n, rule in rows]
widths = [max(map(len, column)) for column in zip(*table)]
for row in table:
    print("  ".join(text.ljust(width) for text, width in zip(row, widths)).rstrip())
for name in filter(found.get, found):
    print(f"\n{own} against {name}:", *(one.text for one in found[name]), sep="\n  ")
print("\n" + pvsize.caution())
