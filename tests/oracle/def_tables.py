# SPDX-License-Identifier: MIT
"""Reads the rows of lib/tables; nothing of the library's code is used."""
import re
from fractions import Fraction
from functools import lru_cache
from pathlib import Path

TABLES = Path(__file__).resolve().parents[2] / "lib" / "tables"

_TOKEN = re.compile(r'"(?:[^"\\]|\\.)*"|[(),]|[^\s"(),]+')


@lru_cache(maxsize=None)
def number(value):
    """Exact value of a decimal as it is written, not of its binary image."""
    if isinstance(value, Fraction):
        return value
    return Fraction(str(value))


def rows(path):
    """(macro, arguments) of each row; texts lose their quotes."""
    text = re.sub(r"/\*.*?\*/", " ", path.read_text(encoding="utf-8"), flags=re.S)
    text = re.sub(r"^#(?!include).*", "", text, flags=re.M)
    include = re.compile(r'#include\s+"([^"]+)"')
    place = 0
    for found in include.finditer(text):
        yield from _plain_rows(text[place:found.start()])
        yield "#include", [found.group(1)]
        place = found.end()
    yield from _plain_rows(text[place:])


def _plain_rows(text):
    tokens = [t.group() for t in _TOKEN.finditer(text)]
    i = 0
    while i < len(tokens):
        macro = tokens[i]
        assert tokens[i + 1] == "(", (macro, tokens[i + 1])
        i += 2
        arguments, current = [], []
        while tokens[i] != ")":
            if tokens[i] == ",":
                arguments.append(" ".join(current))
                current = []
            else:
                current.append(tokens[i].strip('"'))
            i += 1
        arguments.append(" ".join(current))
        yield macro, arguments
        i += 1


def _load():
    sets = {}
    for macro, a in rows(TABLES / "choices.def"):
        if macro == "CHOICE":
            sets.setdefault(a[0], {})[a[1]] = a[3]

    parameters = {}
    for name in ("module", "input", "inverter", "site", "plane", "array", "cable",
                 "isolator"):
        kind = {}
        for macro, a in rows(TABLES / f"{name}.def"):
            assert macro == "TERM" and a[1] == name.upper()
            choices = sets[a[10][4:]] if a[10].startswith("SET_") else None
            default = None
            if a[8] == "DEFAULT":
                if choices:
                    prefix = "PVSIZE_" + a[10][4:] + "_"
                    default = choices[a[9].removeprefix(prefix)]
                else:
                    default = number(a[9])
            kind[a[3]] = {"type": a[4], "unit": a[5], "low": number(a[6]),
                          "high": number(a[7]), "need": a[8], "default": default,
                          "choices": list(choices.values()) if choices else None}
        parameters[name] = kind

    figures = {}
    for macro, a in rows(TABLES / "figures.def"):
        figures[a[2]] = {"type": a[4], "low": number(a[6]), "high": number(a[7])}

    quantities = {}
    for macro, a in rows(TABLES / "quantities.def"):
        if macro != "QUANTITY":
            continue  # where those of a kind begin and end
        quantities[a[2]] = {"scope": a[3].lower(), "type": a[5], "unit": a[6]}

    rule_rows = {}
    for macro, a in rows(TABLES / "rules.def"):
        rule_rows[a[2]] = {"scope": a[3].lower(), "manner": a[4],
                           "value": _term(a[5]), "compare": a[6].lower(),
                           "limit": _term(a[7])}

    factors = []
    for macro, a in rows(TABLES / "voc_factors.def"):
        factors.append((int(a[0]), int(a[1]), number(a[2])))

    series = []
    for macro, a in rows(TABLES / "device_ratings.def"):
        if macro == "SERIES":
            series.append([])
        else:
            assert macro == "RATING"
            series[-1].append(number(a[0]))
    assert figures["ac_device_series"]["high"] == len(series)
    return parameters, figures, quantities, rule_rows, factors, series


def _term(constant):
    kind, name = constant.split("_", 1)
    return kind.lower(), name.lower()


def _cable_tables():
    """What the tables of conductors and capacities hold.

    conductors  {"mm2" or "awg": [row]}, a row being (size, numbers...)
    layings     {name: (degC of the conductor, ambient table, conductors, {size: A})}
    ambient     {table: [(hottest degC, factor)]}
    grouping    {table: [(most, factor)]}"""
    conductors = {"mm2": [], "awg": []}
    for macro, a in rows(TABLES / "conductors.def"):
        row = (number(a[0]),) + tuple(number(cell) for cell in a[2:])
        conductors[macro.removeprefix("CONDUCTOR_").lower()].append(row)

    layings, columns = {}, {}
    for macro, a in rows(TABLES / "ampacities.def"):
        if macro == "LAYING":
            layings[a[0].lower()] = (number(a[3]), a[4], a[5], {})
            columns[a[0].lower()] = a[1], int(a[2])
        else:
            assert macro == "AMPACITY"
            for name, (family, column) in columns.items():
                capacity = number(a[2 + column]) if family == a[0] else 0
                if capacity:
                    layings[name][3][number(a[1])] = capacity

    ambient, columns = {}, {}
    for macro, a in rows(TABLES / "ambient_factors.def"):
        if macro == "AMBIENT_TABLE":
            ambient[a[0]] = []
            columns[a[0]] = a[1], int(a[2])
        else:
            assert macro == "AMBIENT"
            for name, (family, column) in columns.items():
                if family == a[0]:
                    ambient[name].append((number(a[1]), number(a[3 + column])))

    grouping = {}
    for macro, a in rows(TABLES / "grouping_factors.def"):
        if macro == "GROUPING_TABLE":
            grouping[a[0].lower()] = []
        else:
            grouping[a[0].lower()].append((int(a[1]), number(a[2])))
    return conductors, layings, ambient, grouping


SMALL_CONDUCTORS = {int(a[0]): number(a[1])
                    for _, a in rows(TABLES / "small_conductors.def")}
CONDUCTORS, LAYINGS, AMBIENT_FACTORS, GROUPING_FACTORS = _cable_tables()
PARAMETERS, FIGURES, QUANTITIES, RULES, VOC_FACTORS, DEVICE_RATINGS = _load()
PRESETS = [Path(a[0]).stem for _, a in rows(TABLES / "presets" / "list.def")]


def preset(name):
    """Rule set of a preset: figures set, and a severity for every rule."""
    return {part: dict(values) for part, values in _preset(name).items()}


@lru_cache(maxsize=None)
def _preset(name):
    result = {"figures": {}, "severity": {rule: "off" for rule in RULES}}

    def read(path):
        for macro, a in rows(path):
            if macro == "#include":
                read(path.parent / a[0])
            elif macro == "SETS":
                result["figures"][a[0].lower()] = number(a[1])
            elif macro == "APPLIES":
                result["severity"][a[0].lower()] = a[1].lower()

    read(TABLES / "presets" / f"{name}.def")
    return result
