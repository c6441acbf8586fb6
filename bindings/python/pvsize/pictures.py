"""Pictures of a job, drawn with matplotlib: string voltage over cell temperature, the curve
of an input's strings, the wiring, where the energy of a year goes, and several years side by
side. Every number drawn is one
of the report, of the data given, of the curves or of the ledger. Made for print: they read in
grey, and without telling colours apart.

Each function returns a matplotlib Figure: figure.savefig("voltage.png"). What is drawn
carries names (artist.get_gid()), such as "string_voc_cold" or "limit:voc_cold_input".

SPDX-License-Identifier: MIT
"""

from __future__ import annotations

import textwrap
import typing

from ._curve import Curve, Parallel
from ._drawing import (ALERT, GREY, INK, PALE, Figure, Rectangle, _figure, _known, _margin_labels,
                       _name, _plain, _spread)
from ._report import check
from ._rules import Rules
from ._spec import Spec
from ._year import Part, Year

# string voltage

_VOLTAGES = {"string_voc_cold", "string_vmp_cold", "string_voc_hot", "string_vmp_hot",
             "string_vmp_hot_after_drop"}


class _Limit(typing.NamedTuple):
    of: str
    rule: str
    compare: str
    value: float
    words: str
    severity: str
    exceeded: bool


def _voltage_limits(report, rules, subject):
    """What the report has as limits on the voltages of an array's strings."""
    for finding in report:
        value, compare, limit_of, _ = rules.definition(finding.rule)
        of = value.removeprefix("quantity.")
        if finding.subject == subject and finding.limit is not None and of in _VOLTAGES:
            words = (limit_of or finding.rule).replace(".", ": ").replace("quantity: ", "")
            yield _Limit(of, finding.rule, compare, finding.limit, words.replace("_", " "),
                         finding.severity, finding.verdict == "exceeds")


def _line(axes, temps, volts, name, **style):
    """A line through the points that are known."""
    known = [(t, u) for t, u in zip(temps, volts) if t is not None and u is not None]
    axes.plot([t for t, _ in known], [u for _, u in known], color=INK, gid=name, **style)


def _point(axes, temp, volts, name, marker, side):
    if temp is None or volts is None:
        return
    axes.plot([temp], [volts], marker, color=INK, ms=5, gid=name, clip_on=False, zorder=5)
    axes.annotate(f"{volts:.1f} V", (temp, volts), (0, 7 * side), textcoords="offset points",
                  fontsize=7.5, color=INK, ha="center", va="bottom" if side > 0 else "top", zorder=6,
                  bbox=dict(boxstyle="square,pad=0.1", fc="white", ec="none", alpha=0.8))


def _top(drawn, limits):
    """Upper end of the axis: above what is drawn, the lowest limit on the cold open-circuit
    voltage, and what is near these."""
    cold = [limit.value for limit in limits
            if limit.of == "string_voc_cold" and limit.compare == "at_most"]
    highest = max([*drawn, min(cold, default=0)]) or 1
    return 1.12 * max([highest, *(limit.value for limit in limits if limit.value < 1.25 * highest)])


def string_voltage(system: Spec, rules: Rules | None = None, array: int = 0) -> Figure:
    """String voltage of an array over cell temperature, inside the limits that the rule set
    holds it to. Between the temperatures of the report and STC the lines are straight."""
    rules = Rules() if rules is None else rules
    report = check(system, rules)
    subject = report.find("array", array)
    part = system.parts("array")[array]
    module, site = part.parts("module")[0], system.parts("site")[0]
    count = _known(part, "modules_per_string")
    cold, hot = site.temp_min, report.quantity("cell_temp_hot", array=array)
    voltage = {name: report.quantity(name, array=array) for name in _VOLTAGES}
    limits = list(_voltage_limits(report, rules, subject))

    at_stc = {kind: count * getattr(module, kind) if getattr(module, kind) is not None else None
              for kind in ("voc", "vmp")}
    top = _top([u for u in [*voltage.values(), *at_stc.values()] if u is not None], limits)
    beyond = [limit for limit in limits if limit.value > top]
    note = "Straight lines between the points of the report and STC."
    if beyond:
        note += " Beyond the picture: " + ", ".join(
            f"{limit.value:g}\u00a0V ({limit.words})" for limit in beyond) + "."
    figure, axes = _figure(3.7, f"{_name(part, f'array {array + 1}')}: {count} × "
                           f"{_name(module, 'module')} in a string", note, 0.1, 0.62, 0.6)
    axes.set_xlabel("cell temperature, °C", fontsize=8)
    axes.set_ylabel("string voltage, V", fontsize=8)
    axes.set_ylim(0, top)
    temps = [t for t in (cold, 25, hot) if t is not None]
    axes.set_xlim(min(temps) - 6, max(temps) + 6)

    def row(kind):
        return [voltage[f"string_{kind}_cold"], at_stc[kind], voltage[f"string_{kind}_hot"]]

    _line(axes, (cold, 25, hot), row("voc"), "voc", lw=1.8, label="open circuit")
    _line(axes, (cold, 25, hot), row("vmp"), "vmp", lw=1.8, ls=(0, (5, 2)), label="maximum power")
    _point(axes, cold, voltage["string_voc_cold"], "string_voc_cold", "o", 1)
    _point(axes, hot, voltage["string_voc_hot"], "string_voc_hot", "o", 1)
    _point(axes, cold, voltage["string_vmp_cold"], "string_vmp_cold", "s", -1)
    _point(axes, hot, voltage["string_vmp_hot"], "string_vmp_hot", "s", -1)
    window = [{limit.rule: limit.value for limit in limits}.get(rule)
              for rule in ("vmp_hot_tracking", "vmp_cold_tracking")]
    if None not in window:
        axes.axhspan(*window, color=PALE, zorder=0, gid="tracking_window", label="tracking window")
    _draw_limits(axes, [limit for limit in limits if limit not in beyond])
    axes.legend(fontsize=7, loc="upper center", bbox_to_anchor=(0.5, -0.12), frameon=False, ncol=3)
    return figure


def _draw_limits(axes, limits):
    labels = []
    for limit in limits:
        colour = ALERT if limit.exceeded else INK if limit.severity == "must" else GREY
        axes.axhline(limit.value, color=colour, lw=1.4 if limit.severity == "must" else 0.8,
                     ls="-" if limit.severity == "must" else ":", gid=f"limit:{limit.rule}", zorder=2)
        sign = "≤" if limit.compare == "at_most" else "≥"
        head, tail = f"{sign} {limit.value:g} V  ", ", exceeded" if limit.exceeded else ""
        room = 43 - len(head) - len(tail)
        words = limit.words if len(limit.words) <= room else limit.words[:room - 1] + "…"
        labels.append((limit.value, head + words + tail, colour))
    _margin_labels(axes, labels)


# the curve of an input

def _branches(system, inverter, place, irradiance, temp):
    """The strings on an input as branches, all at one condition."""
    for array in system.parts("array"):
        if (array.inverter, array.input) == (inverter, place):
            yield (Curve(array.parts("module")[0]), _known(array, "modules_per_string"),
                   _known(array, "strings"), irradiance, temp)


def _conditions(system, report, inverter, place):
    """Irradiance, cell temperature and words of the three curves that are drawn."""
    arrays = [i for i, array in enumerate(system.parts("array"))
              if (array.inverter, array.input) == (inverter, place)]
    hot = [report.quantity("cell_temp_hot", array=i) for i in arrays]
    cold = system.parts("site")[0].temp_min
    yield 1000, 25, "1000 W/m², 25 °C (STC)", dict(lw=1.8, ls="-")
    if cold is not None:
        yield 1000, cold, f"1000 W/m², {cold:g} °C (cold)", dict(lw=1.4, ls=(0, (5, 2)))
    if hot and None not in hot:
        yield 1000, max(hot), f"1000 W/m², {max(hot):g} °C (hot)", dict(lw=1.4, ls=(0, (1.5, 1.5)))


def _trace(parallel, points=200):
    """Voltages and currents of a curve, down to where no current flows."""
    end = parallel.voltage(0)
    volts = [end * (1 - (1 - i / (points - 1)) ** 2) for i in range(points)]
    return volts, [max(0.0, parallel.current(u)) for u in volts]


def input_curve(system: Spec, rules: Rules | None = None, inverter: int = 0,
                input: int = 0) -> Figure:
    """Current over voltage of all strings on an input, at STC, in the cold and in the heat,
    beside the input's limits, and the short-circuit current that the rule set counts with."""
    report = check(system, Rules() if rules is None else rules)
    report.find("input", input, inverter)  # that it is there
    data = system.parts("inverter")[inverter].parts("input")[input]
    note = ("Curves by the single-diode model, all strings alike in light and warmth; the cold "
            "voltage that rules judge is the data sheet's, a little higher.")
    figure, axes = _figure(3.7, f"{_name(data, f'input {input + 1}')} of "
                           f"{_name(system.parts('inverter')[inverter], f'inverter {inverter + 1}')}",
                           note, 0.1, 0.66, 0.45)
    axes.set_xlabel("voltage, V", fontsize=8)
    axes.set_ylabel("current, A", fontsize=8)
    for sun, temp, words, style in _conditions(system, report, inverter, input):
        parallel = Parallel(_branches(system, inverter, input, sun, temp))
        if not parallel.branches:
            raise ValueError("no strings are on that input")
        axes.plot(*_trace(parallel), color=INK, label=words, gid=f"curve:{temp:g}", **style)
        peak = parallel.mpp()
        axes.plot([peak.voltage], [peak.current], "o", color=INK, ms=4, gid=f"mpp:{temp:g}")
    _input_limits(axes, data, report, inverter, input)
    axes.legend(fontsize=7, loc="lower left", bbox_to_anchor=(1.0, 0), frameon=False)
    return figure


def _input_limits(axes, data, report, inverter, place):
    where = dict(inverter=inverter, input=place)
    counted = report.quantity("input_isc_max", **where)
    levels = [
        ("max_short_circuit_current", data.max_short_circuit_current, "≤ {:g} A  short-circuit rating"),
        ("max_operating_current", data.max_operating_current, "≤ {:g} A  operating current"),
        ("input_isc_max", counted, "{:g} A  Isc with the rules' factors")]
    levels = [level for level in levels if isinstance(level[1], float)]
    axes.set_ylim(0, max([axes.get_ylim()[1], *(value for _, value, _ in levels)]) * 1.08)
    labels = []
    for name, value, words in levels:
        own = name == "input_isc_max"
        over = own and value > (data.max_short_circuit_current or value)
        colour = ALERT if over else INK
        axes.axhline(value, color=colour, lw=1, ls=(0, (4, 2, 1, 2)) if own else "-", gid=name)
        labels.append((value, words.format(round(value, 3)), colour))
    _margin_labels(axes, labels)
    edge = max(axes.get_xlim()[1], data.max_voltage or 0)
    axes.set_xlim(0, edge * 1.04)
    if data.tracking_min is not None and data.tracking_max is not None:
        axes.axvspan(data.tracking_min, data.tracking_max, color=PALE, zorder=0,
                     gid="tracking_window", label="tracking window")
    if data.max_voltage is not None:
        axes.axvline(data.max_voltage, color=INK, lw=1.4, gid="max_voltage")
        axes.annotate(f"≤ {data.max_voltage:g} V", (data.max_voltage, axes.get_ylim()[1]), (0, 2),
                      textcoords="offset points", fontsize=7, ha="center", va="bottom")


# the wiring

_FILLS = ["#ffffff", "#9a9a9a", "#dcdcdc", "#5a5a5a"]
_HATCHES = ["", "////", "....", "xxxx"]
_MOST_ROWS, _MOST_SQUARES = 4, 36


def _rows_of(strings):
    """Which strings are drawn: all, or the first ones, a gap (None) and the last."""
    if strings <= _MOST_ROWS:
        return list(range(strings))
    return [*range(_MOST_ROWS - 2), None, strings - 1]


def _draw_string(axes, left, height, length, unit, look):
    """One string: a square for each module, or of a long one a bar with its number."""
    if length > _MOST_SQUARES:
        axes.add_patch(Rectangle((left, height), _MOST_SQUARES * unit, 0.7, ec=INK, lw=0.6,
                                 gid=f"string:{length}", **look))
        return _MOST_SQUARES * unit
    for i in range(length):
        axes.add_patch(Rectangle((left + i * unit, height), unit * 0.86, 0.7, ec=INK, lw=0.6,
                                 gid="module", **look))
    return length * unit


def _blocks(system):
    """Planes with their arrays: (plane's name, modules, capacity, arrays)."""
    planes = system.parts("site")[0].parts("plane")
    arrays = list(enumerate(system.parts("array")))
    for place in [*range(len(planes)), None]:
        here = [(i, array) for i, array in arrays if array.plane == place]
        if place is None and not here:
            continue
        plane = planes[place] if place is not None else None
        yield (_name(plane, f"plane {place + 1}") if plane is not None else "no plane stated",
               sum(_known(array, "modules_per_string") * _known(array, "strings") for _, array in here),
               plane.capacity if plane is not None else None, here)


def wiring(system: Spec) -> Figure:
    """Which modules of which plane are in which string, and on which input. Of many strings
    the first and the last are drawn. A layout's system() is drawn as well."""
    check(system)  # that it is whole
    blocks = list(_blocks(system))
    inverters = system.parts("inverter")
    used = sorted({(array.inverter, array.input) for *_, here in blocks for _, array in here})
    looks = {place: dict(fc=_FILLS[k % 4], hatch=_HATCHES[k // 4 % 4]) for k, place in enumerate(used)}
    rows = sum(1.4 + sum(len(_rows_of(array.strings)) + 0.4 for _, array in here)
               for *_, here in blocks)
    free = [f"{_input_name(inverters, (i, k))} of {_name(inverter, f'inverter {i + 1}')}"
            for i, inverter in enumerate(inverters) for k in range(len(inverter.parts("input")))
            if (i, k) not in used]
    free = f" Nothing is on {', '.join(free)}." if free else ""
    figure, axes = _figure(max(1.2, 0.2 * rows + 0.55), _name(system, "wiring"),
                           "A square is a module, a row a string." + free, 0.02, 0.98, 0.1)
    axes.set_axis_off()
    longest = max([array.modules_per_string for *_, here in blocks for _, array in here], default=1)
    unit = 60 / min(longest, _MOST_SQUARES) if longest > 24 else 2.5
    height, ends = 0.0, {}
    for name, modules, capacity, here in blocks:
        room = f" of {capacity}" if isinstance(capacity, int) else ""
        axes.text(0, height - 0.5, f"{name}: {modules}{room} modules", fontsize=8, color=INK,
                  va="center", weight="bold", gid="plane")
        height -= 1.4
        for _, array in here:
            height = _draw_array(axes, array, height, unit, looks, ends)
    _draw_inputs(axes, inverters, used, looks, ends, height)
    axes.set_xlim(0, 100)
    axes.set_ylim(height - 0.3, 0.3)
    return figure


def _draw_array(axes, array, height, unit, looks, ends):
    look = looks[array.inverter, array.input]
    first = height
    for row in _rows_of(array.strings):
        if row is None:
            axes.text(1, height - 0.4, f"…  {array.strings - _MOST_ROWS + 1} more strings",
                      fontsize=7, color=GREY, va="center")
        else:
            right = _draw_string(axes, 1, height - 0.85, array.modules_per_string, unit, look)
        height -= 1
    middle = (first + height) / 2
    words = f"{array.strings} × {array.modules_per_string}"
    axes.text(right + 2, middle, words, fontsize=8, color=INK, va="center", gid="array")
    ends.setdefault((array.inverter, array.input), []).append((right + 3 + len(words), middle))
    return height - 0.4


def _input_name(inverters, place):
    return _name(inverters[place[0]].parts("input")[place[1]], f"input {place[1] + 1}")


def _draw_inputs(axes, inverters, used, looks, ends, bottom):
    """A box for each input in use, at the height of its arrays, and lines to it."""
    heights = _spread([sum(y for _, y in ends[place]) / len(ends[place]) for place in used], 2.0)
    for place, height in zip(used, heights):
        inverter = inverters[place[0]]
        of = textwrap.shorten(_name(inverter, f"inverter {place[0] + 1}"), 20, placeholder="…")
        words = f"{_input_name(inverters, place)}\n{of}"
        axes.add_patch(Rectangle((80, height - 0.8), 2.4, 1.6, ec=INK, lw=0.8, gid="input",
                                 **looks[place]))
        axes.text(83.5, height, words, fontsize=7.5, color=INK, va="center", gid="input_name")
        for x, y in ends[place]:
            middle = 77 - 4 * used.index(place) / max(1, len(used))
            axes.plot([x, middle, middle, 80], [y, y, height, height], color=INK, lw=1,
                      gid=f"line:{place[0]}:{place[1]}")


# the year

def year_losses(year: Year, part: Part | None = None, month: int = 0) -> Figure:
    """From what the modules would give at their efficiency at STC down to what is left: a step
    for each loss of the ledger of a part (the system unless given). What is nothing is named
    below."""
    part = year.system if part is None else part
    reference = part.energy("reference", month)
    steps = [(name, kwh) for name, kwh in part.losses(month).items()
             if abs(kwh) > 5e-4 * abs(reference)]
    small = [name for name in part.losses(month) if name not in dict(steps)]
    note = "Each step is what its cause takes of what is left, in % of the first line; hatched: a gain."
    if small:
        note += f" Less than 0.05 %: {', '.join(small)}.".replace("_", " ")
    when = f", month {month}" if month else ""
    figure, axes = _figure(0.24 * (len(steps) + 2) + 1.0, f"Energy of {part}{when}", note,
                           0.24, 0.76, 0.45)
    last = len(steps) + 1
    left, lowest = reference, reference
    axes.plot([reference], [0], "o", color=INK, ms=5, gid="reference", zorder=3)
    for row, (name, kwh) in enumerate(steps, 1):
        axes.plot([left, left], [row - 1, row], color=GREY, lw=0.7, zorder=1)
        axes.barh(row, -kwh, left=left, height=0.6, fc=INK if kwh > 0 else "white", ec=INK, lw=0.8,
                  hatch="" if kwh > 0 else "////", gid=f"loss:{name}", zorder=2)
        left -= kwh
        lowest = min(lowest, left)
    output = part.energy("output", month)
    axes.plot([left, left], [last - 1, last], color=GREY, lw=0.7, zorder=1)
    axes.plot([output], [last], "o", color=INK, ms=5, gid="output", zorder=3)
    rows = [("reference", reference), *((name, -kwh) for name, kwh in steps), ("output", output)]
    axes.set_yticks(range(last + 1), [name.replace("_", " ") for name, _ in rows])
    axes.set_ylim(last + 0.6, -0.6)
    span = max(reference - lowest, 1e-3 * abs(reference), 1e-9)
    axes.set_xlim(lowest - 0.08 * span, max(reference, left) + 0.08 * span)
    axes.set_xlabel("kWh; the axis does not begin at 0", fontsize=8)
    for row, (_, kwh) in enumerate(rows):
        share = f"{100 * kwh / reference:.1f} %" if reference else ""
        for place, words in (1.22, f"{kwh:.0f} kWh"), (1.38, share):
            axes.annotate(words, (place, row), xycoords=("axes fraction", "data"), fontsize=7.5,
                          color=INK, ha="right", va="center", annotation_clip=False)
    return figure


# several years

# Three greys, then the same hatched: what is told apart in print, and without colours.
_YEAR_FILLS = ["#ffffff", "#c8c8c8", "#7d7d7d"]
_YEAR_HATCHES = ["", "//////", "....."]
_MOST_YEARS = len(_YEAR_FILLS) * len(_YEAR_HATCHES)
_BAR, _BETWEEN = 0.095, 0.08  # inches: a bar, and between two kinds of loss


def _year_look(k):
    return dict(fc=_YEAR_FILLS[k % 3], hatch=_YEAR_HATCHES[k // 3], ec=INK, lw=0.6)


def _shares(part, month):
    """What each loss takes, in % of the energy at the efficiency at STC."""
    reference = part.energy("reference", month)
    return {name: 100 * kwh / reference if reference else 0.0
            for name, kwh in part.losses(month).items()}


def years_side_by_side(years: typing.Mapping[str, Year | Part], month: int = 0) -> Figure:
    """Up to nine years by their names: the energy of each, and under it what each kind of loss
    takes, a bar for each year, in % of what the modules would give at their efficiency at STC.
    Of a Year it is the whole system; a Part is taken as it is."""
    if not 1 <= len(years) <= _MOST_YEARS:
        raise ValueError(f"1 to {_MOST_YEARS} years can be drawn, not {len(years)}")
    parts = {name: year.system if isinstance(year, Year) else year for name, year in years.items()}
    shares = {name: _shares(part, month) for name, part in parts.items()}
    kinds = list(dict.fromkeys(kind for row in shares.values() for kind in row))
    shown = [kind for kind in kinds if any(abs(row.get(kind, 0)) > 0.05 for row in shares.values())]
    note = ("Losses in % of what the modules would give at their efficiency at STC, each after "
            "those above it; to the left of the line: a gain.")
    if len(shown) < len(kinds):
        note += f" Less than 0.05 %: {', '.join(kind for kind in kinds if kind not in shown)}."
    each = len(parts) * _BAR + _BETWEEN
    energy, losses = len(parts) * 0.2 + 0.1, max(1, len(shown)) * each + 0.05
    when = f", month {month}" if month else ""
    figure, axes = _figure(energy + losses + 1.22, f"Energy and losses side by side{when}",
                           note.replace("_", " "), 0.27, 0.75, 0.45)
    place, inches = axes.get_position(), figure.get_figheight()
    axes.set_position([place.x0, place.y1 - energy / inches, place.width, energy / inches])
    _draw_outputs(axes, parts, month)
    below = figure.add_axes([place.x0, place.y0, place.width, losses / inches])
    _plain(below)
    _draw_shares(below, shares, shown)
    return figure


def _draw_outputs(axes, parts, month):
    for k, (name, part) in enumerate(parts.items()):
        kwh, rated = part.energy("output", month), part.rated
        axes.barh(k, kwh, height=0.7, gid=f"output:{name}", **_year_look(k))
        words = f"{kwh:.0f} kWh" + (f", {kwh / rated:.0f} kWh/kW" if rated else "")
        axes.annotate(words, (1.02, k), xycoords=("axes fraction", "data"), fontsize=7.5, color=INK,
                      va="center", annotation_clip=False)
    axes.set_yticks(range(len(parts)),
                    [textwrap.shorten(name, 26, placeholder="…") for name in parts])
    axes.set_ylim(len(parts) - 0.4, -0.6)
    axes.set_xlabel("output, kWh", fontsize=8)


def _draw_shares(axes, shares, shown):
    step = 1 + _BETWEEN / _BAR / len(shares)  # of a kind, in bars of all years
    for row, kind in enumerate(shown):
        for k, (name, of) in enumerate(shares.items()):
            height, share = row * step + (k + 0.5) / len(shares), of.get(kind)
            if share is not None:  # else its ledger ends before that loss
                axes.barh(height, share, height=1 / len(shares), gid=f"loss:{kind}:{name}",
                          **_year_look(k))
            axes.annotate("-" if share is None else f"{share:.1f}", (max(share or 0, 0), height),
                          (2, 0), fontsize=5.5, color=INK, textcoords="offset points", va="center",
                          annotation_clip=False)
    axes.axvline(0, color=INK, lw=0.8)
    axes.set_yticks([row * step + 0.5 for row in range(len(shown))],
                    [kind.replace("_", " ") for kind in shown])
    axes.set_ylim(max(1, len(shown)) * step, -0.05)
    axes.margins(x=0.08)
    axes.set_xlabel("loss, %", fontsize=8)
