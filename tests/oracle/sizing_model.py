# SPDX-License-Identifier: MIT
"""A second, independent answer to the question the library answers.

evaluate(job, rules) -> (quantities, findings)

job    {"site": {..., "planes": [..]}, "inverters": [{..., "inputs": [..]}],
        "arrays": [{..., "module": {..}}], "cables": [..], "isolators": [..]};
       parameters by their table names,
       choices by name, None or absence where not set.
rules  {"figures": {name: value}, "severity": {rule: name}}; see preset().

Arithmetic is exact, so that what just fits, fits.

quantities  {(name, scope, index): Fraction, MISSING or NOT_APPLICABLE}; an
            answer counts 1 for yes, 0 for no.
findings    [(rule, kind, index, verdict, value, limit)], in the order of the
            rules table; value and limit are None where not assessed.
index       (inverter, input, array, plane, cable, isolator), -1 but for those that identify the
            subject: see IDENTITY. A module is named by an array that uses it:
            in quantities by each, in findings by the first of its type.
"""
from fractions import Fraction
from datetime import date
from math import ceil, floor, pi, sqrt

from def_tables import (AMBIENT_FACTORS, CONDUCTORS, DEVICE_RATINGS, FIGURES,
                        GROUPING_FACTORS, LAYINGS, PARAMETERS, QUANTITIES, RULES,
                        SMALL_CONDUCTORS, VOC_FACTORS, number, preset)

__all__ = ["evaluate", "preset", "MISSING", "NOT_APPLICABLE", "IDENTITY",
           "NOT_MODELLED", "TOLERANCE", "band_of", "first_gap", "on_edge", "term_type", "verdict",
           "voc_factor"]

MISSING = "missing"
NOT_APPLICABLE = "not applicable"

# Places in the index tuple that tell one subject of a kind from another.
IDENTITY = {"module": (2,), "array": (2,), "input": (0, 1), "inverter": (0,),
            "plane": (3,), "cable": (4,), "isolator": (5,), "site": (), "system": ()}

TOLERANCE = Fraction(1, 10**9)
STC = 25  # degC
FORMULAS = {}

# Quantities of the tables without a formula here: those of readings have a model of
# their own, reading_model.py.
NOT_MODELLED = {name for name, row in QUANTITIES.items() if row["scope"] == "reading"}


class Missing(Exception):
    """Data are missing."""


class NotApplicable(Exception):
    """The question makes no sense for this subject."""


def first_gap(kind, node):
    """First required parameter without a value, in table order, or None."""
    for name, row in PARAMETERS[kind].items():
        if row["need"] == "REQUIRED" and node.get(name) is None:
            return name
    return None


def quantity(function):
    FORMULAS[function.__name__] = function
    return function


def voc_factor(temperature):
    """Table factor on Voc; None below its coldest row.

    Rows are whole degrees: rounding down puts a temperature between two bands
    into the colder one."""
    if temperature >= STC:
        return Fraction(1)
    whole = floor(temperature)
    for warmest, coldest, factor in VOC_FACTORS:
        if coldest <= whole <= warmest:
            return factor
    return None


def verdict(value, compare, limit, band=None):
    """band: share of |limit| in %; None where no verdict can be marginal."""
    margin = limit - value if compare == "at_most" else value - limit
    guard = TOLERANCE * (abs(limit) or 1)
    if compare == "more_than":
        if margin <= guard:  # what only rounding lifts above the limit is not above
            return "exceeds"
    elif margin < -guard:
        return "exceeds"
    if band is not None and limit != 0 and margin < band / 100 * abs(limit):
        return "marginal"
    return "meets"


def on_edge(value, compare, limit, band=None):
    """Whether rounding in the last bits of a double could turn the verdict."""
    if limit == 0:
        return abs(value) < TOLERANCE
    margin = limit - value if compare == "at_most" else value - limit
    edges = [TOLERANCE * abs(limit) * (1 if compare == "more_than" else -1)]
    if band is not None:
        edges.append(band / 100 * abs(limit))
    return any(abs(margin - edge) <= abs(limit) / 10**12 for edge in edges)


def most(limit, each):
    """Largest whole n for which n * each is within the limit."""
    if each <= 0:
        raise NotApplicable  # nothing bounds the count
    return Fraction(floor(limit * (1 + TOLERANCE) / each))


def fewest(limit, each):
    """Smallest whole n for which n * each reaches the limit."""
    if each <= 0:
        raise NotApplicable  # no count reaches it
    return Fraction(ceil(limit * (1 - TOLERANCE) / each))


class Model:
    def __init__(self, job, rules):
        self.site_node = job["site"]
        self.planes = job["site"].get("planes") or []
        self.inverters = job["inverters"]
        self.arrays = job.get("arrays") or []
        self.cables = job.get("cables") or []
        self.isolators = job.get("isolators") or []
        self.rules = rules
        self.known = {}
        self.place = []  # (inverter, input) of each array
        for array in self.arrays:
            self.place.append((int(self.raw("array", array, "inverter")),
                               int(self.raw("array", array, "input"))))

    # -- parameters ---------------------------------------------------------

    @staticmethod
    def raw(kind, node, name):
        """Parameter in force, or None."""
        row = PARAMETERS[kind][name]
        value = node.get(name)
        if value is None:
            return row["default"]
        if value == "none" and not row["choices"]:
            return None
        if row["choices"]:
            assert value in row["choices"], (kind, name, value)
            return value
        return value if row["type"] == "TEXT" else number(value)

    def need(self, kind, node, name):
        value = self.raw(kind, node, name)
        if value is None and node.get(name) == "none":
            raise NotApplicable  # stated not to exist: nothing to compare with
        if value is None:
            raise Missing
        return value

    def figure(self, name):
        value = self.rules["figures"].get(name)
        if value is not None:
            return number(value)
        # A figure that can have one value only is a constant: no preset sets it.
        if FIGURES[name]["low"] == FIGURES[name]["high"]:
            return FIGURES[name]["low"]
        raise Missing

    def site(self, name):
        return self.need("site", self.site_node, name)

    def module(self, a, name):
        return self.need("module", self.arrays[a]["module"], name)

    def array(self, a, name):
        return self.need("array", self.arrays[a], name)

    def inverter(self, i, name):
        return self.need("inverter", self.inverters[i], name)

    def input(self, place, name):
        return self.need("input", self.inverters[place[0]]["inputs"][place[1]], name)

    def input_of(self, a, name):
        return self.input(self.place[a], name)

    def cable(self, c, name):
        return self.need("cable", self.cables[c], name)

    def isolator(self, s, name):
        return self.need("isolator", self.isolators[s], name)

    def plane_of(self, a):
        """Plane node of an array, or None."""
        p = self.raw("array", self.arrays[a], "plane")
        return None if p is None else self.planes[int(p)]

    def on_input(self, place):
        """Arrays on an input; sums over none of them say nothing."""
        found = [a for a, where in enumerate(self.place) if where == place]
        if not found:
            raise NotApplicable
        return found

    def together(self, place):
        """Arrays that share an input; likeness needs two."""
        found = self.on_input(place)
        if len(found) < 2:
            raise NotApplicable
        return found

    def module_type(self, a):
        """All a module's values but its name: what makes two types equal."""
        node = self.arrays[a]["module"]
        return tuple((self.raw("module", node, name), node.get(name) == "none")
                     for name in PARAMETERS["module"] if name != "name")

    # -- values -------------------------------------------------------------

    def get(self, name, subject):
        key = (name, subject)
        if key not in self.known:
            try:
                value = FORMULAS[name](self, subject)
            except (Missing, NotApplicable) as lack:
                value = lack
            self.known[key] = value
        value = self.known[key]
        if isinstance(value, Exception):
            raise value
        return value

    def term(self, term, scope, subject):
        """Value of a rule's term as seen from a subject of the rule's scope."""
        kind, name = term
        if kind == "quantity":
            return Fraction(self.get(name, subject))
        if kind == "figure":
            return self.figure(name)
        if kind == "site":
            value = self.site(name)
        elif kind == "module":
            value = self.module(subject, name)
        elif kind == "array":
            value = self.array(subject, name)
        elif kind == "input":
            value = (self.input_of(subject, name) if scope == "array"
                     else self.input(subject, name))
        elif kind == "inverter":
            value = self.inverter(inverter_of_cable(self, subject) if scope == "cable"
                                  else subject, name)
        elif kind == "cable":
            value = self.cable(subject, name)
        elif kind == "isolator":
            value = self.isolator(subject, name)
        elif kind == "plane":
            node = (self.plane_of(subject) if scope == "array"
                    else self.planes[subject])
            if node is None:
                raise Missing
            value = self.need("plane", node, name)
        else:
            raise AssertionError(term)
        return value

    def subjects(self, scope):
        if scope in ("array", "module"):
            return range(len(self.arrays))
        if scope == "input":
            return [(i, k) for i, inverter in enumerate(self.inverters)
                    for k in range(len(inverter.get("inputs") or []))]
        if scope == "inverter":
            return range(len(self.inverters))
        if scope == "plane":
            return range(len(self.planes))
        if scope == "cable":
            return range(len(self.cables))
        if scope == "isolator":
            return range(len(self.isolators))
        return [None]

    def rule_subjects(self, scope):
        if scope != "module":
            return self.subjects(scope)
        first = {}
        for a in self.subjects("module"):
            first.setdefault(self.module_type(a), a)
        return list(first.values())


def index(scope, subject):
    places = [-1] * 6
    if scope == "input":
        places[:2] = subject
    elif scope != "system" and scope != "site":
        places[IDENTITY[scope][0]] = subject
    return tuple(places)


def term_type(term):
    kind, name = term
    if kind == "quantity":
        return QUANTITIES[name]["type"]
    if kind == "figure":
        return FIGURES[name]["type"]
    return PARAMETERS[kind][name]["type"]


# Rules that rest on a quantity without a formula.
NOT_JUDGED = {name for name, row in RULES.items()
              if row["scope"] == "reading" or {row["value"], row["limit"]} & {("quantity", q) for q in NOT_MODELLED}}


def evaluate(job, rules):
    model = Model(job, rules)
    quantities = {}
    for name, row in QUANTITIES.items():
        if name in NOT_MODELLED:
            continue
        for subject in model.subjects(row["scope"]):
            try:
                value = Fraction(model.get(name, subject))
            except Missing:
                value = MISSING
            except NotApplicable:
                value = NOT_APPLICABLE
            quantities[name, row["scope"], index(row["scope"], subject)] = value

    findings = []
    for name, row in RULES.items():
        if name in NOT_JUDGED or rules["severity"].get(name, "off") == "off":
            continue
        for subject in model.rule_subjects(row["scope"]):
            finding = judge(model, name, row, subject)
            if finding:
                findings.append(finding)
    return quantities, findings


def judge(model, name, row, subject):
    scope = row["scope"]
    head = (name, scope, index(scope, subject))
    manner = row["manner"]
    lack = False
    sides = []
    # Both sides are asked for: a side that does not apply outweighs missing data.
    for term in (row["value"], row["limit"]):
        try:
            sides.append(model.term(term, scope, subject))
        except Missing:
            lack = True
        except NotApplicable:
            return None
    if lack:
        return head + ("not_assessed", None, None) if manner != "QUIET" else None
    if manner == "GAPS":
        return None
    result = verdict(sides[0], row["compare"], sides[1], band_of(row, model.rules))
    if manner == "QUIET" and result != "exceeds":
        return None
    return head + (result, sides[0], sides[1])


def band_of(row, rules):
    """Band in which a rule calls a value marginal; None where it never does."""
    # FIRM: what control holds at its limit is not close to it by chance.
    if row["manner"] != "LOUD" or term_type(row["value"]) != "NUMBER":
        return None
    band = rules["figures"].get("marginal_band")
    return None if band is None else number(band)


# -- one module type; the subject is an array that uses it --------------------

def relative(m, a, percent, absolute, base):
    """Coefficient in %/K from either form; the percent form goes first."""
    try:
        return m.module(a, percent)
    except Missing:
        return m.module(a, absolute) / m.module(a, base) * 100


@quantity
def module_voc_coefficient(m, a):
    # Of two statements the one that makes the cold voltage higher.
    found = []
    for form in (lambda: m.module(a, "voc_coefficient"),
                 lambda: (m.module(a, "voc_coefficient_absolute")
                          / m.module(a, "voc") * 100)):
        try:
            found.append(form())
        except Missing:
            pass
    if not found:
        raise Missing
    return min(found)


@quantity
def module_isc_coefficient(m, a):
    return relative(m, a, "isc_coefficient", "isc_coefficient_absolute", "isc")


@quantity
def module_vmp_coefficient(m, a):
    # Never that of Voc: it flatters the hot voltage. A stated one goes before
    # the estimate even where Vmp, which would turn it into percent, is missing.
    node = m.arrays[a]["module"]
    if (m.raw("module", node, "vmp_coefficient") is None
            and m.raw("module", node, "vmp_coefficient_absolute") is None):
        return m.module(a, "pmax_coefficient") - m.get("module_isc_coefficient", a)
    return relative(m, a, "vmp_coefficient", "vmp_coefficient_absolute", "vmp")


@quantity
def module_power_deviation(m, a):
    # Either way off is a contradiction: no sign.
    pmax = m.module(a, "pmax")
    return abs(m.module(a, "imp") * m.module(a, "vmp") - pmax) / pmax * 100


def deviation(m, a, name, base):
    node = m.arrays[a]["module"]
    stated = m.raw("module", node, name)
    absolute = m.raw("module", node, name + "_absolute")
    if stated is None or absolute is None:
        raise NotApplicable  # one statement cannot contradict itself
    return abs(stated - absolute / m.module(a, base) * 100)


@quantity
def module_coefficient_deviation(m, a):
    return deviation(m, a, "voc_coefficient", "voc")


@quantity
def module_isc_deviation(m, a):
    return deviation(m, a, "isc_coefficient", "isc")


@quantity
def module_vmp_deviation(m, a):
    return deviation(m, a, "vmp_coefficient", "vmp")


def is_silicon(m, a):
    return m.module(a, "cell") == "crystalline_silicon"


@quantity
def module_voc_coefficient_high(m, a):
    return m.figure("data_silicon_coefficient_high" if is_silicon(m, a)
                    else "data_voc_coefficient_high")


@quantity
def module_voc_coefficient_low(m, a):
    return m.figure("data_silicon_coefficient_low" if is_silicon(m, a)
                    else "data_voc_coefficient_low")


def believable(m, a, coefficient):
    """A coefficient of Voc that is no slip of sign or unit."""
    if coefficient >= 0:
        return False
    try:
        high = m.get("module_voc_coefficient_high", a)
    except Missing:
        return True
    return verdict(coefficient, "at_most", high) != "exceeds"


# -- strings of one array -----------------------------------------------------

def at_temperature(stc, coefficient, temperature):
    return stc * (1 + coefficient * (temperature - STC) / 100)


@quantity
def cell_temp_hot(m, a):
    plane = m.plane_of(a)
    if plane is None:
        raise Missing
    rise = m.raw("plane", plane, "cell_rise")
    if rise is None:
        rise = m.figure("cell_rise_" + m.need("plane", plane, "mounting"))
    return m.site("temp_max") + rise


@quantity
def module_voc_cold(m, a):
    # The tolerance of Voc is left out, as in every published example. Above
    # 25 degC the coefficient lowers Voc: what the maker states is used as it is.
    voc = m.module(a, "voc")
    crystalline = m.module(a, "cell") == "crystalline_silicon"
    fixed = allowed(m, "voc_fixed")
    if crystalline and fixed:
        try:
            return voc * m.figure("voc_multiplier")
        except Missing:
            pass
    try:
        coefficient = m.get("module_voc_coefficient", a)
        if believable(m, a, coefficient):  # any other is a slip, and unsafe
            return at_temperature(voc, coefficient, m.site("temp_min"))
    except Missing:
        pass
    # Without the temperature neither serves: IEC 60364-7-712 has the multiplier
    # for an unknown temperature as well as for an unknown coefficient.
    temperature = m.raw("site", m.site_node, "temp_min")
    if temperature is not None and crystalline and allowed(m, "voc_table"):
        factor = voc_factor(temperature)
        if factor is not None:
            return voc * factor
        raise Missing  # colder than the table no factor is known to be enough
    if fixed:  # the factor is that of crystalline silicon
        raise Missing
    return voc * m.figure("voc_multiplier")


def allowed(m, answer):
    """Whether the rule set says yes; silence is no."""
    try:
        return m.figure(answer) == 1
    except Missing:
        return False


@quantity
def module_vmp_hot(m, a):
    vmp, coefficient = m.module(a, "vmp"), m.get("module_vmp_coefficient", a)
    hot = at_temperature(vmp, coefficient, m.get("cell_temp_hot", a))
    if coefficient >= 0:  # a slip that would make a hot string look long
        raise Missing
    return hot


@quantity
def string_voc_cold(m, a):
    return m.array(a, "modules_per_string") * m.get("module_voc_cold", a)


@quantity
def string_vmp_hot(m, a):
    return m.array(a, "modules_per_string") * m.get("module_vmp_hot", a)


def after_drop(m, voltage):
    return voltage * (1 - m.figure("dc_drop") / 100)


@quantity
def string_vmp_hot_after_drop(m, a):
    return after_drop(m, m.get("string_vmp_hot", a))


@quantity
def string_voc_hot(m, a):
    # The cold table says nothing about heat: a coefficient or nothing.
    # A slip would make the string look long.
    coefficient = m.get("module_voc_coefficient", a)
    hot = at_temperature(m.module(a, "voc"), coefficient, m.get("cell_temp_hot", a))
    if not believable(m, a, coefficient):
        raise Missing
    return m.array(a, "modules_per_string") * hot


@quantity
def string_vmp_cold(m, a):
    coefficient = m.get("module_vmp_coefficient", a)
    cold = at_temperature(m.module(a, "vmp"), coefficient, m.site("temp_min"))
    if coefficient >= 0:  # a slip that would make a cold string look short
        raise Missing
    return m.array(a, "modules_per_string") * cold


@quantity
def building_voltage_limit(m, a):
    return m.figure("voltage_limit_" + m.site("building"))


@quantity
def string_voltage_limit(m, a):
    # The input's limit is required: without it a count could destroy the input.
    limits = [m.input_of(a, "max_voltage")]
    for limit in (lambda: m.module(a, "max_system_voltage"),
                  lambda: m.get("building_voltage_limit", a)):
        try:
            limits.append(limit())
        except (Missing, NotApplicable):
            pass
    return min(limits)


@quantity
def tracking_floor(m, a):
    return m.input_of(a, "tracking_min") * m.figure("tracking_reserve")


@quantity
def string_modules_max(m, a):
    return most(m.get("string_voltage_limit", a), m.get("module_voc_cold", a))


@quantity
def string_modules_min(m, a):
    # The bare window: reserve and start voltage have rules of their own.
    return fewest(m.input_of(a, "tracking_min"), m.get("module_vmp_hot", a))


@quantity
def array_modules(m, a):
    return m.array(a, "modules_per_string") * m.array(a, "strings")


@quantity
def array_power(m, a):
    return m.get("array_modules", a) * m.module(a, "pmax")


@quantity
def current_correction(m, a):
    # Light from behind counts whether or not somebody thought of it.
    plane = m.plane_of(a)
    given = None if plane is None else m.raw("plane", plane, "current_correction")
    if given is not None:
        return given
    try:
        return m.get("bifacial_correction", a)
    except NotApplicable:
        return Fraction(1)


def current_factor(m, a):
    return m.figure("isc_factor") * m.get("current_correction", a)


@quantity
def string_isc_max(m, a):
    return current_factor(m, a) * m.module(a, "isc")


@quantity
def array_isc_max(m, a):
    return m.array(a, "strings") * m.get("string_isc_max", a)


@quantity
def array_imp(m, a):
    return m.array(a, "strings") * m.module(a, "imp")


@quantity
def bifacial_correction(m, a):
    # IEC TS 60904-1-2: 135 W/m2 from behind beside the 1000 of STC.
    bifaciality = m.raw("module", m.arrays[a]["module"], "bifaciality")
    if not bifaciality:
        raise NotApplicable  # nothing enters from behind
    return 1 + bifaciality * Fraction(135, 1000)


# The next three speak of this module and array alone on the input, as a buyer
# of modules asks; what shares the input is judged by the sums over it.

@quantity
def module_isc_limit(m, a):
    rating = m.input_of(a, "max_short_circuit_current")
    return rating / (current_factor(m, a) * m.array(a, "strings"))


@quantity
def input_strings_max(m, a):
    return most(m.input_of(a, "max_short_circuit_current"), m.get("string_isc_max", a))


@quantity
def input_strings_lossless(m, a):
    return most(m.input_of(a, "max_operating_current"), m.module(a, "imp"))


# -- overcurrent protection of strings ----------------------------------------

def string_isc(m, a):
    """Isc of one string with its correction, without the rule set's factor."""
    return m.get("current_correction", a) * m.module(a, "isc")


def has_device(m, a):
    return m.raw("array", m.arrays[a], "string_device") is not None


def free_of_devices(m, a):
    """Whether the rule set leaves so few strings alone, whatever the current."""
    try:
        return m.get("input_strings", m.place[a]) <= m.figure("device_free_strings")
    except Missing:
        return False


def device_of_interest(m, a):
    if not has_device(m, a) and m.get("string_device_needed", a) == 0:
        raise NotApplicable


@quantity
def array_isc(m, a):
    return m.array(a, "strings") * string_isc(m, a)


def backfeed(m, a):
    """What the inverter drives back, where the rule set counts it; none is 0."""
    i = m.place[a][0]
    stated_none = m.inverters[i].get("backfeed_current") == "none"
    if stated_none or not allowed(m, "device_trigger_backfeed"):
        return Fraction(0)
    return m.inverter(i, "backfeed_current")


@quantity
def string_reverse_current(m, a):
    # What the string at fault makes itself does not flow through it backwards.
    others = max(m.get("input_isc", m.place[a]) - string_isc(m, a), Fraction(0))
    return m.figure("device_trigger_factor") * others + backfeed(m, a)


@quantity
def string_reverse_limit(m, a):
    return m.figure("device_trigger_share") * m.module(a, "max_series_fuse")


@quantity
def string_device_needed(m, a):
    if free_of_devices(m, a):
        return 0
    current = m.get("string_reverse_current", a)
    limit = m.get("string_reverse_limit", a)
    return int(verdict(current, "at_most", limit) == "exceeds")


@quantity
def strings_without_device(m, a):
    left = m.get("string_reverse_limit", a) - backfeed(m, a)
    each = m.figure("device_trigger_factor") * string_isc(m, a)
    others = most(left, each) if left > 0 else 0
    try:
        return max(others + 1, m.figure("device_free_strings"))
    except Missing:
        return others + 1


@quantity
def string_device_low(m, a):
    device_of_interest(m, a)
    return (m.figure("device_low_factor") * m.array(a, "strings_per_device")
            * string_isc(m, a))


@quantity
def string_device_high(m, a):
    # A fault in one string of a group is fed by the others past the device.
    device_of_interest(m, a)
    group = m.array(a, "strings_per_device")
    high = m.module(a, "max_series_fuse") - (group - 1) * m.module(a, "isc")
    try:
        return min(high, m.figure("device_high_factor") * group * m.module(a, "isc"))
    except Missing:
        return high


@quantity
def string_device_rating(m, a):
    low, high = m.get("string_device_low", a), m.get("string_device_high", a)
    above = "more_than" if allowed(m, "device_low_strict") else "at_least"
    for rating in DEVICE_RATINGS[int(m.figure("device_series")) - 1]:
        if "exceeds" not in (verdict(rating, above, low),
                             verdict(rating, "at_most", high)):
            return rating
    return 0


@quantity
def string_device_exists(m, a):
    if m.get("string_device_needed", a) == 0:
        raise NotApplicable
    return int(m.get("string_device_rating", a) > 0)


@quantity
def string_unprotected_current(m, a):
    if has_device(m, a) or free_of_devices(m, a):
        raise NotApplicable
    return m.get("string_reverse_current", a)


@quantity
def string_device_duty_voltage(m, a):
    if not has_device(m, a):
        raise NotApplicable
    return m.get("string_voc_cold", a)


# -- one input ----------------------------------------------------------------

@quantity
def input_arrays(m, place):
    return m.place.count(place)


@quantity
def input_strings(m, place):
    return sum(m.array(a, "strings") for a in m.on_input(place))


@quantity
def input_isc_max(m, place):
    return sum(m.get("array_isc_max", a) for a in m.on_input(place))


@quantity
def input_isc(m, place):
    return sum(m.get("array_isc", a) for a in m.on_input(place))


@quantity
def input_sign_voltage(m, place):
    m.figure("sign_values")
    return m.get("input_voc_highest", place)


@quantity
def input_sign_current(m, place):
    which = m.figure("sign_values")
    if which == 1:
        raise NotApplicable
    return m.get("input_isc" if which == 2 else "input_isc_max", place)


@quantity
def insulation_system_voltage(m, a):
    return Fraction(5, 4) * m.module(a, "voc") * m.array(a, "modules_per_string")


def insulation_row(m, a):
    """IEC 62446-1: (test voltage, least Mohm); 120 V and 500 V are of the middle row."""
    volts = m.get("insulation_system_voltage", a)
    if volts < 120 * (1 - TOLERANCE):
        return 250, Fraction(1, 2)
    for most_volts, test in ((500, 500), (1000, 1000)):
        if volts <= most_volts * (1 + TOLERANCE):
            return test, Fraction(1)
    return 1500, Fraction(1)


@quantity
def insulation_test_voltage(m, a):
    return insulation_row(m, a)[0]


@quantity
def insulation_resistance_min(m, a):
    return insulation_row(m, a)[1]


@quantity
def input_imp(m, place):
    return sum(m.get("array_imp", a) for a in m.on_input(place))


@quantity
def input_power(m, place):
    return sum(m.get("array_power", a) for a in m.on_input(place))


@quantity
def input_string_isc_highest(m, place):
    return max(m.get("string_isc_max", a) for a in m.on_input(place))


@quantity
def input_terminal_current(m, place):
    # Any string may end on the fullest pair: the strongest one is taken.
    strongest = m.get("input_string_isc_highest", place)
    fullest = ceil(m.get("input_strings", place) / m.input(place, "terminals"))
    return fullest * strongest


# An array with an unknown voltage could be the highest or the lowest.

@quantity
def input_voc_highest(m, place):
    return max(m.get("string_voc_cold", a) for a in m.on_input(place))


@quantity
def input_voc_lowest(m, place):
    return min(m.get("string_voc_cold", a) for a in m.on_input(place))


@quantity
def input_voc_difference(m, place):
    # "Within 5 % of each other" holds both ways only on the lower voltage.
    m.together(place)
    low = m.get("input_voc_lowest", place)
    if low <= 0:
        raise NotApplicable
    return (m.get("input_voc_highest", place) - low) / low * 100


@quantity
def input_length_difference(m, place):
    lengths = [m.array(a, "modules_per_string") for a in m.together(place)]
    return max(lengths) - min(lengths)


@quantity
def input_module_types(m, place):
    return len({m.module_type(a) for a in m.together(place)})


@quantity
def input_planes(m, place):
    # An array without a plane may lie on any: the count is then not known.
    return len({m.array(a, "plane") for a in m.together(place)})


@quantity
def input_isolated(m, place):
    m.on_input(place)  # an open input needs no isolator
    ways = [outside(m, place), inside(m, place)]
    if True in ways:
        return 1
    if None in ways:
        raise Missing
    return 0


def either(answers):
    """True if one is, None if one may be, else False."""
    return True if True in answers else None if None in answers else False


def whether_serves(m, s):
    try:
        return m.get("isolator_serves", s) == 1
    except Missing:
        return None
    except NotApplicable:
        return False


def listed(m, place, where):
    """Whether isolators listed for one place isolate an input; "no list" without any.

    One of the whole input does, or one in each of its arrays."""
    def of(**owner):
        return [whether_serves(m, s) for s in isolators_of(m, **owner)
                if m.raw("isolator", m.isolators[s], "place") == where]

    whole = of(place=place)
    each = [of(array=a) for a in m.on_input(place)]
    if not whole and not any(each):
        return "no list"
    answers = [either(found) for found in each]
    arrays = False if False in answers else None if None in answers else True
    return either([either(whole), arrays])


def outside(m, place):
    found = listed(m, place, "beside_inverter")
    if found != "no list":
        return found
    return all(m.array(a, "external_isolator") == "yes" for a in m.on_input(place))


def inside(m, place):
    found = listed(m, place, "in_inverter")
    if found != "no list":
        return found
    node = m.inverters[place[0]]["inputs"][place[1]]
    answers = [m.raw("input", node, name) for name in
               ("isolator", "isolator_meets_standard", "isolator_locks_off")]
    if any(answer in ("none", "no") for answer in answers):
        return False
    return None if None in answers else True


def isolator_duty(m, place, name):
    """Duty of the built-in isolator, where the input relies on one that is not listed."""
    m.on_input(place)
    if outside(m, place) is True or listed(m, place, "in_inverter") != "no list":
        raise NotApplicable
    if m.input(place, "isolator") == "none":
        raise NotApplicable
    return m.get(name, place)


@quantity
def isolator_voltage_duty(m, place):
    return isolator_duty(m, place, "input_voc_highest")


@quantity
def isolator_current_duty(m, place):
    return isolator_duty(m, place, "input_isc_max")


# -- one inverter -------------------------------------------------------------

@quantity
def inverter_pv_power(m, i):
    arrays = [a for a, place in enumerate(m.place) if place[0] == i]
    if not arrays:
        raise NotApplicable  # as for an input: nothing to judge
    return sum(m.get("array_power", a) for a in arrays)


@quantity
def pv_limit_ratio(m, i):
    return m.inverter(i, "rated_ac_power") * m.figure("array_ratio_max")


@quantity
def pv_limit(m, i):
    # A maker without a maximum, or a rule set without a ratio, leaves the other;
    # an unknown rating does not lift the ratio.
    maker = m.raw("inverter", m.inverters[i], "max_pv_power")
    try:
        m.figure("array_ratio_max")
    except Missing:
        if maker is None:
            raise
        return maker
    ratio = m.get("pv_limit_ratio", i)
    return ratio if maker is None else min(ratio, maker)


@quantity
def array_ratio(m, i):
    return m.get("inverter_pv_power", i) / m.inverter(i, "rated_ac_power")


@quantity
def inverter_apparent_power(m, i):
    stated = m.raw("inverter", m.inverters[i], "rated_apparent_power")
    if stated is not None:
        return stated
    return m.inverter(i, "rated_ac_power") / m.inverter(i, "cos_phi")


def apparent_power(m, i):
    return m.get("inverter_apparent_power", i)


@quantity
def ac_device_duty(m, i):
    if m.raw("inverter", m.inverters[i], "ac_device") is None:
        raise NotApplicable  # speaks of a device that is there
    return m.figure("ac_device_factor") * m.get("inverter_ac_current_max", i)


@quantity
def supply_deviation(m, i):
    inverter, supply = m.inverter(i, "ac_voltage"), m.site("supply_voltage")
    return abs(inverter - supply) / supply * 100


@quantity
def inverter_ac_current(m, i):
    # The data sheet is judged by itself: the supply's voltage does not stand in.
    return (apparent_power(m, i)
            / (m.inverter(i, "phases") * m.inverter(i, "ac_voltage")))


@quantity
def inverter_ac_current_stated(m, i):
    return (m.inverter(i, "max_ac_current")
            * (1 + m.figure("data_current_tolerance") / 100))


@quantity
def inverter_ac_current_max(m, i):
    stated = m.raw("inverter", m.inverters[i], "max_ac_current")
    return m.get("inverter_ac_current", i) if stated is None else stated


@quantity
def inverter_terminal_voltage(m, i):
    # The rise is a share of the nominal voltage, on top of what the supply has.
    return (m.get("inverter_ac_rise", i) / 100 * m.inverter(i, "ac_voltage")
            + m.site("supply_voltage_highest"))


@quantity
def inverter_phase_power(m, i):
    return apparent_power(m, i) / m.inverter(i, "phases")


@quantity
def ac_device_rating(m, i):
    needed = m.figure("ac_device_factor") * m.get("inverter_ac_current_max", i)
    for rating in DEVICE_RATINGS[int(m.figure("ac_device_series")) - 1]:
        if verdict(rating, "at_least", needed) != "exceeds":
            return rating
    return 0


def cables_of(m, circuits, owner):
    """Cables of some circuits of one array or inverter."""
    return [c for c, node in enumerate(m.cables)
            if m.raw("cable", node, "circuit") in circuits
            and m.raw("cable", node, "inverter" if circuits == ("ac",) else "array")
            == owner]


@quantity
def inverter_ac_rise(m, i):
    return sum_over(m, "cable_drop_share", cables_of(m, ("ac",), i))


# -- one cable ----------------------------------------------------------------

DC = ("string", "array")
GAUGES = [14, 12, 10, 8, 6, 4, 3, 2, 1, 0, -1, -2, -3]  # as the table has them
MM2_PER_CMIL = Fraction(254, 10)**2 / 10**6 * Fraction(pi) / 4
COLUMN = {"class2": 1, "class2_coated": 2, "class5": 3, "class5_tinned": 4,
          "aluminium": 5}
COPPER = ("class2", "class2_coated", "class5", "class5_tinned")
CONDUCTORS_OF = {"COPPER_MM2": COPPER, "TINNED_CLASS5": ("class5_tinned",),
                 "AWG": ("awg",)}


def size(m, c):
    """mm2, or circular mils."""
    if m.cable(c, "conductor") != "awg":
        return m.cable(c, "section")
    gauge = m.cable(c, "gauge")
    if gauge not in GAUGES:
        raise Missing
    return CONDUCTORS["awg"][GAUGES.index(gauge)][0]


def conductor_temp(m, c):
    given = m.raw("cable", m.cables[c], "conductor_temp")
    if given is not None:
        return given
    if m.raw("cable", m.cables[c], "laying") is None:
        raise Missing
    return LAYINGS[m.cable(c, "laying")][0]


def resistance(m, c, of_size):
    conductor, temperature = m.cable(c, "conductor"), conductor_temp(m, c)
    for row in CONDUCTORS["awg" if conductor == "awg" else "mm2"]:
        if row[0] == of_size:
            break
    else:
        raise Missing
    if conductor == "awg":  # NFPA 70 chapter 9 table 8, note 2
        return (row[1] / Fraction("0.3048")
                * (1 + Fraction("0.00323") * (temperature - 75)))
    if not row[COLUMN[conductor]]:
        raise Missing
    per_kelvin = Fraction("0.00403" if conductor == "aluminium" else "0.00393")
    return row[COLUMN[conductor]] * (1 + per_kelvin * (temperature - 20))


@quantity
def cable_resistance(m, c):
    return resistance(m, c, size(m, c))


def owner(m, c):
    return int(m.cable(c, "inverter" if m.cable(c, "circuit") == "ac" else "array"))


@quantity
def cable_current(m, c):
    circuit = m.cable(c, "circuit")
    if circuit == "ac":
        return m.get("inverter_ac_current_max", owner(m, c))
    if circuit == "array":
        return m.get("array_imp", owner(m, c))
    return m.module(owner(m, c), "imp")


def inverter_of_cable(m, c):
    at = owner(m, c)
    return at if m.cable(c, "circuit") == "ac" else m.place[at][0]


@quantity
def cable_current_max(m, c):
    circuit = m.cable(c, "circuit")
    return m.get({"ac": "inverter_ac_current_max", "array": "array_isc_max",
                  "string": "string_isc_max"}[circuit], owner(m, c))


@quantity
def cable_reactance(m, c):
    if m.cable(c, "circuit") != "ac" or m.inverter(owner(m, c), "cos_phi") == 1:
        raise NotApplicable
    return reactance(m, c, size(m, c) if m.cable(c, "conductor") == "awg" else None)


def reactance(m, c, of_size):
    if m.cable(c, "conductor") != "awg":
        return m.cable(c, "reactance")
    for row in CONDUCTORS["awg"]:
        if row[0] == of_size:
            return row[2] / Fraction("0.3048")
    raise Missing


SQRT3 = Fraction(sqrt(3))


def three_phase(m, c):
    return m.cable(c, "circuit") == "ac" and m.inverter(owner(m, c), "phases") == 3


def drop(m, c, ohm_per_km, of_size):
    ways = SQRT3 if three_phase(m, c) else 2
    if m.cable(c, "circuit") == "ac":
        cosine = m.inverter(owner(m, c), "cos_phi")
        if cosine < 1:  # lagging: R cos phi + X sin phi
            sine = Fraction(sqrt(1 - cosine**2))
            ohm_per_km = ohm_per_km * cosine + reactance(m, c, of_size) * sine
    return ways * m.cable(c, "length") * m.get("cable_current", c) * ohm_per_km / 1000


@quantity
def cable_drop(m, c):
    return drop(m, c, m.get("cable_resistance", c), size(m, c))


def circuit_voltage(m, c):
    if m.cable(c, "circuit") == "ac":
        voltage = m.inverter(owner(m, c), "ac_voltage")
        return SQRT3 * voltage if three_phase(m, c) else voltage
    a = owner(m, c)
    return m.array(a, "modules_per_string") * m.module(a, "vmp")


@quantity
def cable_drop_share(m, c):
    return m.get("cable_drop", c) / circuit_voltage(m, c) * 100


def table_capacity(m, c, of_size):
    _, _, conductors, capacities = LAYINGS[m.cable(c, "laying")]
    if m.cable(c, "conductor") not in CONDUCTORS_OF[conductors]:
        raise Missing
    if of_size not in capacities:
        raise Missing
    return capacities[of_size]


@quantity
def cable_table_capacity(m, c):
    return table_capacity(m, c, size(m, c))


def row_from(table, value):
    """Factor of the first row that reaches the value."""
    for most_of_row, factor in table:
        if value <= most_of_row:
            return factor
    raise Missing


def correction(m, c):
    ambient = LAYINGS[m.cable(c, "laying")][1]
    # No base ambient, no factor. A factor of 0 is the table's own: no current.
    factor = row_from(AMBIENT_FACTORS.get(ambient, []), m.cable(c, "ambient"))
    return factor * row_from(GROUPING_FACTORS[m.cable(c, "grouping")],
                             m.cable(c, "grouped"))


@quantity
def cable_capacity(m, c):
    return m.get("cable_table_capacity", c) * correction(m, c)


@quantity
def cable_duty(m, c):
    circuit, at = m.cable(c, "circuit"), owner(m, c)
    if circuit == "ac":
        current = m.get("inverter_ac_current_max", at)
        device = m.raw("inverter", m.inverters[at], "ac_device")
        # Ib <= In <= Iz; where the device may pass Iz, the current alone.
        return current if device is None or allowed(m, "ac_next_rating") else max(
            current, device)
    of_array = m.raw("array", m.arrays[at], "array_device")
    if circuit == "array" and of_array is not None:
        return of_array
    if circuit == "array":  # what the other arrays on the input drive into it
        others = max(m.get("input_isc", m.place[at]) - m.get("array_isc", at), Fraction(0))
        return max(m.get("array_isc_max", at), m.figure("isc_factor") * others)
    if m.raw("array", m.arrays[at], "string_device") is not None:
        # The other strings of a group feed a fault past the device: IEC 62548.
        group = m.array(at, "strings_per_device")
        fed = (m.figure("isc_factor") * (group - 1) * string_isc(m, at) if group > 1
               else 0)
        return m.array(at, "string_device") + fed
    if of_array is not None:  # what it lets through, and the other strings of the array
        beside = max(m.get("array_isc", at) - string_isc(m, at), Fraction(0))
        return max(m.get("string_isc_max", at), of_array + m.figure("isc_factor") * beside)
    others = max(m.get("input_isc", m.place[at]) - string_isc(m, at), Fraction(0))
    return max(m.get("string_isc_max", at), m.figure("isc_factor") * others)


@quantity
def cable_table_duty(m, c):
    try:
        factor = m.figure("cable_table_factor")
    except Missing:
        raise NotApplicable from None  # a rule set without that rule
    return factor * m.get("cable_current_max", c)


def terminal_capacity(m, c, of_size):
    """NFPA 70 110.14(C): in a column no hotter than the laying's and the terminals'."""
    most_degrees = min(m.cable(c, "terminal_temp"), LAYINGS[m.cable(c, "laying")][0])
    found = [capacities[of_size] for name, (degrees, _, _, capacities) in LAYINGS.items()
             if name.startswith("nfpa") and degrees <= most_degrees
             and of_size in capacities]
    if not found:
        raise Missing
    return max(found)


@quantity
def cable_terminal_capacity(m, c):
    laying = m.raw("cable", m.cables[c], "laying")
    if laying is not None and not laying.startswith("nfpa"):
        raise NotApplicable  # tables without such columns
    m.get("cable_table_capacity", c)
    return terminal_capacity(m, c, size(m, c))


def device_limit(m, c, of_size, capacity):
    """Highest a.c. device over a conductor of that capacity."""
    if not allowed(m, "ac_next_rating"):
        return capacity
    limit = capacity
    try:  # NFPA 70 240.4(B)
        series = DEVICE_RATINGS[int(m.figure("ac_device_series")) - 1]
        rating = next(r for r in series if verdict(r, "at_least", capacity) != "exceeds")
        if verdict(rating, "at_most", m.figure("ac_next_rating_most")) != "exceeds":
            limit = rating
    except (Missing, StopIteration):
        pass
    if m.cable(c, "conductor") == "awg":  # NFPA 70 240.4(D)
        gauge = GAUGES[[row[0] for row in CONDUCTORS["awg"]].index(of_size)]
        limit = min(limit, SMALL_CONDUCTORS.get(gauge, limit))
    return limit


@quantity
def cable_device_limit(m, c):
    if m.cable(c, "circuit") != "ac" or m.raw(
            "inverter", m.inverters[owner(m, c)], "ac_device") is None:
        raise NotApplicable
    return device_limit(m, c, size(m, c), m.get("cable_capacity", c))


@quantity
def cable_smallest(m, c):
    """In mm2; 0 where no standard size does."""
    duty = m.get("cable_duty", c)
    m.cable(c, "ambient")
    alternating = m.cable(c, "circuit") == "ac"
    circuit_voltage(m, c), m.cable(c, "length"), m.get("cable_current", c)
    in_mils = m.cable(c, "conductor") == "awg"
    if not in_mils and alternating and m.inverter(owner(m, c), "cos_phi") < 1:
        m.cable(c, "reactance")
    # NFPA 70 690.8(B)(1): the table itself carries the current with factor
    try:
        with_factor = m.figure("cable_table_factor")
    except Missing:
        with_factor = None
    asked = 0 if with_factor is None else with_factor * m.get("cable_current_max", c)
    try:  # the other cables in the way keep their size
        limit = m.figure("ac_rise" if alternating else "dc_drop")
    except Missing:
        others, limit = 0, Fraction(100)  # a cable cannot lose more than all
    else:
        circuits = ("ac",) if alternating else DC
        others = sum(m.get("cable_drop_share", other)
                     for other in cables_of(m, circuits, owner(m, c)) if other != c)
    factor = correction(m, c)
    if others >= limit:  # whatever its size
        return 0
    device = (m.raw("inverter", m.inverters[owner(m, c)], "ac_device")
              if alternating else None)
    by_terminals = (m.raw("cable", m.cables[c], "terminal_temp") is not None
                    and m.cable(c, "laying").startswith("nfpa"))
    made = 0
    for row in CONDUCTORS["awg" if in_mils else "mm2"]:
        try:
            capacity = table_capacity(m, c, row[0])
            volts = drop(m, c, resistance(m, c, row[0]), row[0])
        except Missing:
            continue  # not made, or not in the table of the laying
        made += 1
        share = others + volts / circuit_voltage(m, c) * 100
        before = capacity
        if by_terminals and with_factor is not None:
            try:
                before = terminal_capacity(m, c, row[0])
            except Missing:
                before = Fraction(0)  # terminals cooler than any column
        if device is not None and verdict(device, "at_most", device_limit(
                m, c, row[0], capacity * factor)) == "exceeds":
            continue
        if "exceeds" not in (verdict(asked, "at_most", before),
                             verdict(duty, "at_most", capacity * factor),
                             verdict(share, "at_most", limit)):
            return row[0] * (MM2_PER_CMIL if in_mils else 1)
    if not made:
        raise Missing
    return 0


@quantity
def array_dc_drop(m, a):
    return sum_over(m, "cable_drop_share", cables_of(m, DC, a))


# -- one plane, and the system ------------------------------------------------

def sum_over(m, name, arrays):
    """Sum over arrays; over none of them it says nothing."""
    if not arrays:
        raise NotApplicable
    return sum(m.get(name, a) for a in arrays)


@quantity
def plane_modules(m, p):
    return sum_over(m, "array_modules", [a for a, node in enumerate(m.arrays)
                                         if m.raw("array", node, "plane") == p])


@quantity
def system_pv_power(m, _):
    return sum_over(m, "array_power", range(len(m.arrays)))


@quantity
def system_modules(m, _):
    return sum_over(m, "array_modules", range(len(m.arrays)))


@quantity
def system_ac_power(m, _):
    return sum(m.inverter(i, "rated_ac_power") for i in range(len(m.inverters)))


@quantity
def system_apparent_power(m, _):
    return sum(apparent_power(m, i) for i in range(len(m.inverters)))


@quantity
def busbar_load(m, _):
    m.site("busbar_rating")  # without a busbar there is nothing to load
    if m.site("busbar_rule") == "devices":
        return m.site("busbar_devices")
    currents = sum(m.get("inverter_ac_current_max", i) for i in range(len(m.inverters)))
    return m.figure("busbar_factor") * currents + m.site("busbar_device")


@quantity
def busbar_limit(m, _):
    rating, rule = m.site("busbar_rating"), m.site("busbar_rule")
    if rule == "opposite_end" or (rule == "centre_fed" and m.site("building") == "dwelling"):
        return m.figure("busbar_share") * rating
    return rating


def phase_powers(m):
    """VA of all inverters on each phase of the supply."""
    count = int(m.site("supply_phases"))
    # One inverter alone loads as unevenly on whichever phase.
    partial = [i for i in range(len(m.inverters)) if m.inverter(i, "phases") < count]
    powers = [Fraction(0)] * count
    for i in range(len(m.inverters)):
        first = 1
        if len(partial) > 1 and i in partial:
            first = int(m.inverter(i, "phase"))
            if first > count:
                raise Missing
        for k in range(int(m.inverter(i, "phases"))):
            powers[(first - 1 + k) % count] += m.get("inverter_phase_power", i)
    return powers


@quantity
def phase_power_highest(m, _):
    return max(phase_powers(m))


@quantity
def phase_power_lowest(m, _):
    return min(phase_powers(m))


@quantity
def system_unbalance(m, _):
    powers = phase_powers(m) if m.site("supply_phases") > 1 else []
    if not powers:
        raise NotApplicable
    return max(powers) - min(powers)


@quantity
def system_export(m, _):
    total = m.get("system_ac_power", None)
    limit = m.raw("site", m.site_node, "export_limit")
    if limit is None or m.site("export_control") == "none":
        return total
    return min(total, limit)


# -- dates of the network's agreement ------------------------------------------

def calendar(m, name):
    number_ = int(m.site(name))
    try:
        return date(number_ // 10000, number_ // 100 % 100, number_ % 100)
    except ValueError:
        raise Missing from None


@quantity
def agreement_days_before(m, _):
    if m.raw("site", m.site_node, "agreement_from") is None:
        raise NotApplicable  # in force since ever
    return (calendar(m, "job_date") - calendar(m, "agreement_from")).days


@quantity
def agreement_days_left(m, _):
    if m.raw("site", m.site_node, "agreement_until") is None:
        raise NotApplicable  # without an end
    return (calendar(m, "agreement_until") - calendar(m, "job_date")).days


@quantity
def site_dates_real(m, _):
    given_ = [name for name in ("job_date", "agreement_from", "agreement_until")
              if m.raw("site", m.site_node, name) is not None]
    if not given_:
        raise NotApplicable
    try:
        for name in given_:
            calendar(m, name)
    except Missing:
        return 0
    return 1


# -- one isolator ---------------------------------------------------------------

def isolators_of(m, array=None, place=None):
    """Those of one array, or of a whole input."""
    found = []
    for s, node in enumerate(m.isolators):
        of_array = m.raw("isolator", node, "array")
        if array is not None:
            found += [s] if of_array == array else []
        elif of_array is None and place == input_of_isolator(m, s):
            found.append(s)
    return found


def array_of(m, s):
    a = m.raw("isolator", m.isolators[s], "array")
    return None if a is None else int(a)


def input_of_isolator(m, s):
    a = array_of(m, s)
    if a is not None:
        return m.place[a]
    return int(m.isolator(s, "inverter")), int(m.isolator(s, "input"))


def switch(m, s):
    """What is asked of switches is not asked of plugs."""
    if m.isolator(s, "place") == "disconnection_point":
        raise NotApplicable


def may_be_bare(m, s):
    """NFPA 70 690.15: a device that does not break load serves up to a current."""
    try:
        most_ = m.figure("load_break_above")
        current = m.get("isolator_current_seen", s)
    except (Missing, NotApplicable):
        return False
    return verdict(current, "at_most", most_) != "exceeds"


def breaks(m, s):
    return m.raw("isolator", m.isolators[s], "load_break") == "yes"


def load_switch(m, s):
    switch(m, s)
    if not breaks(m, s) and may_be_bare(m, s):
        raise NotApplicable


def yes(answer):
    return int(answer == "yes")


@quantity
def isolator_voltage_seen(m, s):
    a = array_of(m, s)
    return (m.get("input_voc_highest", input_of_isolator(m, s)) if a is None
            else m.get("string_voc_cold", a))


@quantity
def isolator_current_seen(m, s):
    a = array_of(m, s)
    return (m.get("input_isc_max", input_of_isolator(m, s)) if a is None
            else m.get("array_isc_max", a))


@quantity
def isolator_temp(m, s):
    given_ = m.raw("isolator", m.isolators[s], "ambient")
    if given_ is not None:
        return given_
    sunny = m.isolator(s, "in_sun") == "yes"
    return m.figure("isolator_temp_sun" if sunny else "isolator_temp_shade")


@quantity
def isolator_capacity(m, s):
    current, temp = m.isolator(s, "current"), m.get("isolator_temp", s)
    if verdict(temp, "at_most", m.isolator(s, "current_temp")) != "exceeds":
        return current
    hot = m.isolator(s, "hot_current")
    if verdict(temp, "at_most", m.isolator(s, "hot_temp")) == "exceeds":
        return 0
    return min(hot, current)


@quantity
def isolator_pole_duty(m, s):
    switch(m, s)
    if m.isolator(s, "poles_share") == "yes":
        raise NotApplicable
    if m.inverter(input_of_isolator(m, s)[0], "separated") == "yes":
        raise NotApplicable
    return m.get("isolator_voltage_seen", s)


@quantity
def isolator_pole_voltage(m, s):
    switch(m, s)
    stated = m.raw("isolator", m.isolators[s], "conductor_voltage")
    if stated is not None:
        return stated
    voltage = m.isolator(s, "voltage")
    own, poles = m.isolator(s, "poles_per_conductor"), m.isolator(s, "poles")
    if own > poles:
        raise Missing
    return voltage * own / poles


@quantity
def isolator_category_class(m, s):
    load_switch(m, s)
    return {"dc_pv0": 0, "dc_pv1": 1, "dc_pv2": 2, "dc_21a": 1,
            "dc_21b": 1}[m.isolator(s, "category")]


@quantity
def isolator_class_needed(m, s):
    if not {"isolator_class", "isolator_class_parallel"} & m.rules["figures"].keys():
        raise NotApplicable
    strings = m.get("input_strings", input_of_isolator(m, s))
    return m.figure("isolator_class_parallel" if strings > 1 else "isolator_class")


@quantity
def isolator_breaks_load(m, s):
    switch(m, s)
    if may_be_bare(m, s):
        return 1
    return yes(m.isolator(s, "load_break"))


@quantity
def isolator_of_standard(m, s):
    switch(m, s)
    return yes(m.isolator(s, "meets_standard"))


def load_answer(m, s, name):
    load_switch(m, s)
    return yes(m.isolator(s, name))


@quantity
def isolator_locks(m, s):
    return load_answer(m, s, "lockable")


@quantity
def isolator_opens_all(m, s):
    return load_answer(m, s, "breaks_all")


@quantity
def isolator_non_polarised(m, s):
    return load_answer(m, s, "either_polarity")


@quantity
def isolator_serves(m, s):
    switch(m, s)
    lack = False
    for name in ("isolator_breaks_load", "isolator_of_standard", "isolator_locks"):
        try:
            if m.get(name, s) == 0:
                return 0
        except Missing:
            lack = True
        except NotApplicable:
            pass
    if lack:
        raise Missing
    return 1


def beside(m, s):
    switch(m, s)
    if m.isolator(s, "place") != "beside_inverter":
        raise NotApplicable


@quantity
def isolator_away(m, s):
    beside(m, s)
    return m.isolator(s, "distance")


@quantity
def isolator_seen(m, s):
    beside(m, s)
    return yes(m.isolator(s, "in_sight"))


@quantity
def array_disconnected(m, a):
    try:
        asked = m.figure("array_disconnection")
    except Missing:
        asked = 0
    found = isolators_of(m, array=a) + isolators_of(m, place=m.place[a])
    if asked == 0 or not found:
        raise NotApplicable
    answers = []
    for s in found:
        where = m.raw("isolator", m.isolators[s], "place")
        if where == "at_array":
            answers.append(whether_serves(m, s))
        elif where == "disconnection_point" and asked == 2:
            answers.append(True)
    answer = either(answers)
    if answer is None:
        raise Missing
    return int(answer)


# -- overcurrent devices of whole arrays ------------------------------------------

@quantity
def array_device_needed(m, a):
    try:
        free = m.figure("array_device_free")
    except Missing:
        raise NotApplicable from None
    i, k = m.place[a]
    if m.raw("input", m.inverters[i]["inputs"][k], "other_source") == "yes":
        return 1
    return int(m.place.count((i, k)) > free)


def has_array_device(m, a):
    return m.raw("array", m.arrays[a], "array_device") is not None


def array_device_of_interest(m, a):
    if not has_array_device(m, a) and m.get("array_device_needed", a) == 0:
        raise NotApplicable


@quantity
def array_device_fitted(m, a):
    if m.get("array_device_needed", a) == 0:
        raise NotApplicable
    return int(has_array_device(m, a))


@quantity
def array_device_low(m, a):
    array_device_of_interest(m, a)
    return m.figure("array_device_low_factor") * m.get("array_isc", a)


@quantity
def array_device_high(m, a):
    array_device_of_interest(m, a)
    if "array_device_high_factor" not in m.rules["figures"]:
        raise NotApplicable
    return (m.figure("array_device_high_factor") * m.array(a, "strings")
            * m.module(a, "isc"))


@quantity
def array_device_rating(m, a):
    low = m.get("array_device_low", a)
    above = "more_than" if allowed(m, "array_device_low_strict") else "at_least"
    try:
        high = m.get("array_device_high", a)
    except NotApplicable:
        high = None
    for rating in DEVICE_RATINGS[int(m.figure("device_series")) - 1]:
        if verdict(rating, above, low) == "exceeds":
            continue
        return rating if high is None or verdict(
            rating, "at_most", high) != "exceeds" else 0
    return 0


@quantity
def array_device_exists(m, a):
    if m.get("array_device_needed", a) == 0:
        raise NotApplicable
    return int(m.get("array_device_rating", a) > 0)


@quantity
def array_device_duty_voltage(m, a):
    if not has_array_device(m, a):
        raise NotApplicable
    return m.get("string_voc_cold", a)


@quantity
def string_group(m, a):
    if m.array(a, "strings_per_device") == 1:
        raise NotApplicable
    return m.array(a, "strings_per_device")


# -- gaps in the data: yes or missing, never no -------------------------------

def given(kind, node):
    if first_gap(kind, node):
        raise Missing
    return 1


@quantity
def module_given(m, a):
    return given("module", m.arrays[a]["module"])


@quantity
def array_given(m, a):
    return given("array", m.arrays[a])


@quantity
def input_given(m, place):
    return given("input", m.inverters[place[0]]["inputs"][place[1]])


@quantity
def inverter_given(m, i):
    return given("inverter", m.inverters[i])


@quantity
def isolator_given(m, s):
    return given("isolator", m.isolators[s])


@quantity
def cable_given(m, c):
    return given("cable", m.cables[c])


@quantity
def site_given(m, _):
    return given("site", m.site_node)
