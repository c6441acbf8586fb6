# SPDX-License-Identifier: MIT
"""The best stringing as an integer program, for GLPK: which option goes on each input.
The library only judges options, each by the check of a system of that input alone."""
import os
import re
import subprocess
import tempfile

import pvsize


def options_of(case, inverter, input_):
    """Options that break no rule of the input, each found by a check of its own."""
    found = []
    for option in case.options():
        if option is None:
            continue
        m, n, sides = option
        system = pvsize.System(site=case.site, inverters=[case.inverters[inverter]])
        for p, s in sides:
            system.add(pvsize.Array(input=input_, plane=p, modules_per_string=n, strings=s,
                                    module=case.modules[m]))
        report = pvsize.check(system, case.rules, case.report)
        if not any(report.subjects()[f.subject].kind in ("array", "input", "module")
                   for f in report.broken()):
            found.append(option)
    return found


def worth_of(case, option):
    m, n, sides = option
    pmax = case.modules[m].pmax
    if case.question.objective == "energy":
        return sum(n * s * int(pmax * case.planes[p].specific_yield + 0.5) for p, s in sides)
    return sum(n * s for _, s in sides) * round(pmax * 1000)


def write(case, ratio, path):
    """The program in the LP format."""
    cache, lines, room, power, pick, binary, objective = {}, [], {}, {}, [], [], []
    for v, i in case.open:
        like = (case.inverters[v].to_dict(), case.inputs[v][i].to_dict())
        options = cache.setdefault(repr(like), None) or options_of(case, v, i)
        cache[repr(like)] = options
        names = []
        for k, option in enumerate(options):
            name = f"x_{v}_{i}_{k}"
            names.append(name)
            objective.append(f"{worth_of(case, option)} {name}")
            for p, s in option[2]:
                room.setdefault(p, []).append(f"{option[1] * s} {name}")
            watts = sum(option[1] * s for _, s in option[2]) * case.modules[option[0]].pmax
            power.setdefault(v, []).append(f"{watts} {name}")
        binary += names
        pick.append(" + ".join(names) + " <= 1")
    lines += [" + ".join(terms) + f" <= {case.room[p]}" for p, terms in sorted(room.items())]
    for v, terms in sorted(power.items()):
        inverter = case.inverters[v]
        most = inverter.rated_ac_power * ratio
        if inverter.max_pv_power not in (None, "none"):
            most = min(most, inverter.max_pv_power)
        lines.append(" + ".join(terms) + f" <= {most}")
    lines += pick
    with open(path, "w", encoding="ascii") as file:
        file.write("Maximize\n value: " + "\n + ".join(objective) + "\nSubject To\n")
        for k, line in enumerate(lines):
            file.write(f" c{k}: " + line.replace(" + ", "\n + ") + "\n")
        file.write("Binary\n " + "\n ".join(binary) + "\nEnd\n")


def solve_glpk(path, seconds=60):
    """The best value found and the bound: one number where the optimum was proven."""
    with tempfile.TemporaryDirectory() as folder:
        out = os.path.join(folder, "out")
        done = subprocess.run(["glpsol", "--lp", path, "--cuts", "--tmlim", str(seconds), "-o", out],
                       check=True, capture_output=True, text=True)
        with open(out, encoding="ascii") as file:
            text = file.read()
        log = done.stdout
    found = re.search(r"Objective:\s+value = ([-+.e0-9]+)", text)
    value = float(found.group(1)) if found else 0
    if "INTEGER OPTIMAL" in text:
        return value, value
    bounds = re.findall(r"<=\s*([-+.e0-9]+)\s", log)
    return value, float(bounds[-1]) if bounds else float("inf")


def solve_cbc(path, seconds=60):
    """The same by CBC."""
    with tempfile.TemporaryDirectory() as folder:
        out = os.path.join(folder, "out")
        subprocess.run(["cbc", path, "sec", str(seconds), "ratio", "0", "allow", "0", "solve", "solution", out],
                       check=True, capture_output=True)
        with open(out, encoding="ascii") as file:
            first = file.readline()
    if not first.startswith("Optimal"):
        return None
    return -float(first.split()[-1]) if float(first.split()[-1]) < 0 else float(first.split()[-1])


def ratio_of(rules):
    """The largest array ratio, with the room for rounding that the library states."""
    return rules.figure("array_ratio_max") * (1 + 1e-9)
