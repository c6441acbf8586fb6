"""Sizing of photovoltaic arrays against inverter inputs.

Everything here is built at import from the tables that libpvsize describes
itself by: a class for each kind of object, an attribute for each parameter.

CAUTION: a calculation aid. Mains and d.c. electricity kill, and a roof is
high: a licensed person must check every result against the local code in
force and the makers' instructions.

SPDX-License-Identifier: MIT
"""

import ctypes
import threading
import typing

from ._library import load

_lib = load()

OK, E_NOT_SET = 0, 301


def _text(value):
    return value.decode("utf-8") if value is not None else None


def version():
    """Version of the library, such as "0.1.0"."""
    return _text(_lib.pvsize_version_text())


def caution():
    """The line to show with every result."""
    return _text(_lib.pvsize_caution())


# errors

class Error(Exception):
    """A call failed. `status` is its number, `name` its name, `term` the
    parameter concerned ("module.voc") or None, `value` what was given and
    `range` what is allowed, each None where the failure has none."""

    def __init__(self, status, text, term=None, index=None, value=None, allowed=None):
        super().__init__(text)
        self.status = status
        self.name = _text(_lib.pvsize_status_name(status))
        self.term, self.index, self.value, self.range = term, index, value, allowed


class ArgumentError(Error, TypeError):
    """A name, kind, type or index that does not exist here."""


class RangeError(Error, ValueError):
    """A value outside what is allowed."""


class StateError(Error):
    """Something needed has not been given."""


class CapacityError(Error):
    """A buffer was too small; the binding never lets this happen."""


class NoMemoryError(Error, MemoryError):
    """The allocator gave up."""


_ERRORS = {1: ArgumentError, 2: RangeError, 3: StateError, 4: CapacityError, 5: NoMemoryError}


def _fill(call, *arguments):
    """Asks for the length, then for the text. `call` takes buffer, size, place."""
    length = ctypes.c_size_t()
    status = call(*arguments, None, 0, ctypes.byref(length))
    if status:
        return status, None
    buffer = ctypes.create_string_buffer(length.value + 1)
    status = call(*arguments, buffer, length.value + 1, ctypes.byref(length))
    return status, buffer.value.decode("utf-8")


class _Diag(threading.local):
    """The detail of the last failure; one for each thread."""

    def __init__(self):
        self.handle = ctypes.c_void_p()
        if _lib.pvsize_diag_new(None, ctypes.byref(self.handle)):
            raise MemoryError

    def __del__(self):
        if _lib:
            _lib.pvsize_diag_free(self.handle)

    def error(self, status):
        _, text = _fill(_lib.pvsize_diag_text, self.handle)
        value, low, high = ctypes.c_double(), ctypes.c_double(), ctypes.c_double()
        has_value = _lib.pvsize_diag_value(self.handle, ctypes.byref(value)) == OK
        has_range = _lib.pvsize_diag_range(self.handle, ctypes.byref(low),
                                           ctypes.byref(high)) == OK
        index = _lib.pvsize_diag_index(self.handle)
        return _ERRORS.get(status // 100, Error)(
            status, text, _full_name(_lib.pvsize_diag_term(self.handle)),
            index if index >= 0 else None, value.value if has_value else None,
            (low.value, high.value) if has_range else None)


_diag = _Diag()


def _do(name, *arguments):
    """Calls and raises on failure."""
    status = getattr(_lib, "pvsize_" + name)(*arguments, _diag.handle)
    if status:
        raise _diag.error(status)


def _get(kind, name, *arguments):
    """Calls with a place for one result behind the arguments; returns it."""
    place = kind()
    _do(name, *arguments, ctypes.byref(place))
    return place.value


def _get_text(name, *arguments):
    def call(*all_arguments):
        return getattr(_lib, "pvsize_" + name)(*all_arguments, _diag.handle)
    status, text = _fill(call, *arguments)
    if status:
        raise _diag.error(status)
    return text


# what the library says of its tables

class Term(typing.NamedTuple):
    """A row of a table: parameter, figure, quantity or rule."""
    number: int
    kind: str
    name: str
    unit: str
    text: str
    type: str
    need: typing.Optional[str]
    range: typing.Optional[typing.Tuple[float, float]]
    default: typing.Union[float, str, None]
    choices: typing.Tuple[str, ...]
    refers_to: typing.Optional[str]
    scope: typing.Optional[str]


class _Sets(dict):
    """Numbers of the library's own sets, by name."""

    def __missing__(self, name):
        number = _lib.pvsize_set_number(name.encode())
        if not number:
            raise KeyError(name)
        self[name] = number
        return number


_SETS = _Sets()


def _choice_name(set_name, number):
    return _text(_lib.pvsize_set_name(_SETS[set_name], number))


def _choice_number(set_name, name):
    number = _lib.pvsize_set_by_name(_SETS[set_name], str(name).encode())
    if number < 0:
        allowed = [_choice_name(set_name, _lib.pvsize_set_at(_SETS[set_name], i))
                   for i in range(_lib.pvsize_set_count(_SETS[set_name]))]
        raise ValueError(f"{set_name} {name!r}: allowed {', '.join(allowed)}")
    return number


def _kind_numbers():
    return [_lib.pvsize_kind_at(i) for i in range(_lib.pvsize_kind_count())]


def _kind_name(number):
    return _text(_lib.pvsize_kind_name(number))


def _full_name(number):
    kind = _lib.pvsize_term_kind(number)
    if kind:
        return f"{_kind_name(kind)}.{_text(_lib.pvsize_term_name(number))}"
    return _kind_name(number)


def _describe(number):
    low, high, default = ctypes.c_double(), ctypes.c_double(), ctypes.c_double()
    has_range = _lib.pvsize_term_range(number, ctypes.byref(low), ctypes.byref(high)) == OK
    has_default = _lib.pvsize_term_default(number, ctypes.byref(default)) == OK
    named = _text(_lib.pvsize_choice_name(number, int(default.value)))
    return Term(
        number, _kind_name(_lib.pvsize_term_kind(number)), _text(_lib.pvsize_term_name(number)),
        _text(_lib.pvsize_term_unit(number)), _text(_lib.pvsize_term_text(number)),
        _choice_name("type", _lib.pvsize_term_type(number)),
        _choice_name("need", _lib.pvsize_term_need(number)),
        (low.value, high.value) if has_range else None, (named or default.value) if has_default else None,
        tuple(_text(_lib.pvsize_choice_name(number, _lib.pvsize_choice_at(number, i)))
              for i in range(_lib.pvsize_choice_count(number))),
        _kind_name(_lib.pvsize_term_refers_to(number)),
        _kind_name(_lib.pvsize_term_scope(number)))


def kinds():
    """Names of all kinds of object and table."""
    return [_kind_name(number) for number in _kind_numbers()]


def terms(kind):
    """Rows of the table of a kind, by name."""
    number = _lib.pvsize_kind_by_name(kind.encode())
    if not number:
        raise KeyError(f"no kind {kind!r}; there are {', '.join(kinds())}")
    rows = [_describe(_lib.pvsize_term_at(number, i))
            for i in range(_lib.pvsize_term_count(number))]
    return {row.name: row for row in rows}


def presets():
    """Rule sets that come with the library: name and title."""
    return {_text(_lib.pvsize_preset_name(i)): _text(_lib.pvsize_preset_title(i))
            for i in range(_lib.pvsize_preset_count())}


_TERMS = {name: terms(name) for name in kinds()}


def _term_number(full_name):
    """Number of "quantity.string_voc_cold" or "input.max_voltage"."""
    kind, _, name = full_name.partition(".")
    try:
        return _TERMS[kind][name].number
    except KeyError:
        raise KeyError(f"no term {full_name!r}") from None


# handles

class _Handle:
    """Owns one object of the library; closed when left or forgotten."""

    _free = None

    def __init__(self):
        self._handle = ctypes.c_void_p()

    def close(self):
        """Gives the object back; later use raises."""
        if self._handle:
            self._free(self._handle)
            self._handle = ctypes.c_void_p()

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.close()

    def __del__(self):
        if getattr(self, "_handle", None) and self._free:
            self.close()


_STATE_SET, _STATE_NONE = 1, 3


class Spec(_Handle):
    """One thing with parameters and parts. Parameters are attributes: numbers
    in the unit of their table row, texts and choices as str, None where not
    set and without a default, "none" where the maker states none. Parts are read as tuples of copies."""

    kind = None
    _free = staticmethod(_lib.pvsize_spec_free)

    def __init__(self, **values):
        super().__init__()
        _do("spec_new", self._number, None, ctypes.byref(self._handle))
        for name, value in values.items():
            self._give(name, value)

    @classmethod
    def _wrap(cls, handle):
        spec = cls.__new__(cls)
        spec._handle = handle
        return spec

    def _give(self, name, value):
        if name in self._part_names:
            kind = self._part_names[name]
            many = isinstance(value, (list, tuple))
            for part in value if many else [value]:
                self.add(_CLASSES[kind](**part) if isinstance(part, dict) else part)
        else:
            setattr(self, name, value)

    def __setattr__(self, name, value):
        if name.startswith("_"):
            object.__setattr__(self, name, value)
            return
        term = _TERMS[self.kind].get(name)
        if term is None:
            raise AttributeError(f"{self.kind} has no parameter {name!r}; it has "
                                 f"{', '.join(_TERMS[self.kind])}")
        if value is None:
            _do("spec_unset", self._handle, term.number)
        elif isinstance(value, bool) and term.type == "choice":
            _do("spec_set_text", self._handle, term.number, b"yes" if value else b"no")
        elif value == "none" and term.type in ("number", "count"):
            _do("spec_set_none", self._handle, term.number)
        elif isinstance(value, str):
            _do("spec_set_text", self._handle, term.number, value.encode("utf-8"))
        else:
            _do("spec_set_number", self._handle, term.number, float(value))

    def __getattr__(self, name):
        if name.startswith("_"):
            raise AttributeError(name)
        if name in self._part_names:
            return self.parts(self._part_names[name])
        term = _TERMS[self.kind].get(name)
        if term is None:
            raise AttributeError(f"{self.kind} has no parameter {name!r}")
        try:
            if term.type in ("text", "choice"):
                return _get_text("spec_get_text", self._handle, term.number)
            value = _get(ctypes.c_double, "spec_get_number", self._handle, term.number)
            return value if term.type == "number" else int(value)
        except StateError:
            return "none" if self._state(term) == _STATE_NONE else None

    def _state(self, term):
        return _get(ctypes.c_int32, "spec_state", self._handle, term.number)

    def add(self, part):
        """Adds a copy of a part; returns its index."""
        return _get(ctypes.c_int32, "spec_add", self._handle, part._handle)

    def parts(self, kind):
        """Copies of the parts of a kind."""
        number = _lib.pvsize_kind_by_name(kind.encode())
        count = _get(ctypes.c_int32, "spec_part_count", self._handle, number)
        found = []
        for i in range(count):
            handle = ctypes.c_void_p()
            _do("spec_part", self._handle, number, i, None, ctypes.byref(handle))
            found.append(_CLASSES[kind]._wrap(handle))
        return tuple(found)

    def replace(self, index, part):
        """Puts a copy of a part in the place of an old one of its kind."""
        _do("spec_replace", self._handle, index, part._handle)

    def remove(self, kind, index):
        """Takes a part out; those behind it move up."""
        _do("spec_remove", self._handle, _lib.pvsize_kind_by_name(kind.encode()), index)

    def part_number(self, index, full_name):
        """Number in force of a direct part, such as "array.modules_per_string"."""
        return _get(ctypes.c_double, "spec_get_part_number", self._handle, index,
                    _term_number(full_name))

    def set_part(self, index, full_name, value):
        """Sets a number of a part in place, such as "array.modules_per_string"."""
        _do("spec_set_part_number", self._handle, index, _term_number(full_name), float(value))

    def copy(self):
        """A copy with all its parts."""
        handle = ctypes.c_void_p()
        _do("spec_clone", self._handle, None, ctypes.byref(handle))
        return type(self)._wrap(handle)

    def to_dict(self):
        """What was set, as the keyword arguments that make it again."""
        values = {}
        for name, term in _TERMS[self.kind].items():
            if self._state(term) in (_STATE_SET, _STATE_NONE):
                values[name] = getattr(self, name)
        for plural, kind in self._plurals.items():
            parts = [part.to_dict() for part in self.parts(kind)]
            if parts:
                values[plural] = parts
        return values

    def __dir__(self):
        return [*super().__dir__(), *_TERMS[self.kind], *self._plurals]

    def __repr__(self):
        return f"<pvsize {self.kind} {self.to_dict()}>" if self._handle else "<closed>"


def _make_class(number):
    name = _kind_name(number)
    parts = [_lib.pvsize_kind_part_at(number, i)
             for i in range(_lib.pvsize_kind_part_count(number))]
    plurals = {_text(_lib.pvsize_kind_plural(part)): _kind_name(part) for part in parts}
    singles = {_kind_name(part): _kind_name(part) for part in parts
               if _kind_name(part) not in _TERMS[name]}
    lines = [_text(_lib.pvsize_kind_text(number)) + ".", ""]
    lines += [f"{row.name}: {row.text}" + (f" [{row.unit}]" if row.unit else "")
              for row in _TERMS[name].values()]
    return type(name.title().replace("_", ""), (Spec,), {
        "__doc__": "\n".join(lines), "kind": name, "_number": number,
        "_plurals": plurals, "_part_names": {**singles, **plurals}})


_CLASSES = {_kind_name(number): _make_class(number) for number in _kind_numbers()
            if _lib.pvsize_kind_is_spec(number)}
globals().update({cls.__name__: cls for cls in _CLASSES.values()})


# rule sets

class Rules(_Handle):
    """A rule set, from a preset or (None) empty."""

    _free = staticmethod(_lib.pvsize_rules_free)

    def __init__(self, preset="asnzs_5033_2021"):
        super().__init__()
        _do("rules_new", preset.encode() if preset is not None else None, None,
            ctypes.byref(self._handle))

    def copy(self):
        """A rule set that can be changed apart from this one."""
        rules = Rules.__new__(Rules)
        rules._handle = ctypes.c_void_p()
        _do("rules_clone", self._handle, None, ctypes.byref(rules._handle))
        return rules

    @property
    def title(self):
        """Shown at the head of reports."""
        return _get_text("rules_get_title", self._handle)

    @title.setter
    def title(self, text):
        _do("rules_set_title", self._handle, text.encode("utf-8"))

    def figure(self, name):
        """A figure, or None where the rule set has none."""
        try:
            return _get(ctypes.c_double, "rules_get_figure", self._handle,
                        _term_number("figure." + name))
        except StateError:
            return None

    def set_figure(self, name, value, source=None):
        """Changes a figure; None takes it away."""
        number = _term_number("figure." + name)
        if value is None:
            _do("rules_unset_figure", self._handle, number)
        else:
            _do("rules_set_figure", self._handle, number, float(value),
                source.encode("utf-8") if source is not None else None)

    def _rule(self, name):
        number = _lib.pvsize_rules_by_name(self._handle, name.encode("utf-8"))
        if not number:
            raise KeyError(f"no rule {name!r}")
        return number

    def names(self):
        """Names of all rules, own ones last."""
        return [_get_text("rules_rule_name", self._handle, _lib.pvsize_rules_at(self._handle, i))
                for i in range(_lib.pvsize_rules_count(self._handle))]

    def severity(self, name):
        """"off", "note", "should" or "must"."""
        return _choice_name("severity", _get(ctypes.c_int32, "rules_get_severity", self._handle,
                                             self._rule(name)))

    def set_severity(self, name, severity):
        """Changes how severely a rule holds."""
        _do("rules_set_severity", self._handle, self._rule(name),
            _choice_number("severity", severity))

    def definition(self, name):
        """What a rule compares: value, compare, limit_of (None: a number), limit."""
        value, compare, limit_of = (ctypes.c_int32() for _ in range(3))
        limit = ctypes.c_double()
        _do("rules_definition", self._handle, self._rule(name), value, compare, limit_of, limit)
        return (_full_name(value.value), _choice_name("compare", compare.value),
                _full_name(limit_of.value), limit.value)

    def source(self, name):
        """Where a rule or "figure.NAME" is written, and how that is known."""
        number = _term_number(name) if name.startswith("figure.") else self._rule(name)
        known = _get(ctypes.c_int32, "rules_known", self._handle, number)
        return _get_text("rules_source", self._handle, number), _choice_name("known", known)

    def add(self, name, title, value, compare, limit, severity="must", source=None,
            limit_of=None):
        """Adds an own rule and returns its number: `value` such as "quantity.system_modules", `compare`
        "at_most", "at_least" or "more_than"; the limit is a number, or with `limit_of` that
        number times another term."""
        place = ctypes.c_int32()
        _do("rules_add", self._handle, name.encode("utf-8"), title.encode("utf-8"),
            _term_number(value), _choice_number("compare", compare),
            _term_number(limit_of) if limit_of else 0, float(limit),
            _choice_number("severity", severity),
            source.encode("utf-8") if source is not None else None, ctypes.byref(place))
        return place.value


# reports

class Finding(typing.NamedTuple):
    """What a rule found on one subject, known by its number in the report.
    `value`, `limit` and `margin` are None where it was not assessed; then
    `missing` names what it needs."""
    rule: str
    severity: str
    verdict: str
    subject: int
    where: str
    value: typing.Optional[float]
    limit: typing.Optional[float]
    margin: typing.Optional[float]
    unit: str
    governs: bool
    missing: typing.Optional[str]
    title: str
    source: str
    sentence: str
    working: str


class Subject(typing.NamedTuple):
    """What findings and quantities speak of. `owner` is a subject's number."""
    kind: str
    index: int
    owner: typing.Optional[int]
    text: str


class Report(_Handle):
    """The findings of a check: a sequence of Finding."""

    _free = staticmethod(_lib.pvsize_report_free)

    def __init__(self):
        super().__init__()
        _do("report_new", None, ctypes.byref(self._handle))

    def count(self, verdict=None, severity=None):
        """Findings with a verdict and at least a severity; None: any."""
        return _get(ctypes.c_int32, "report_count", self._handle,
                    _choice_number("verdict", verdict) if verdict else 0,
                    _choice_number("severity", severity) if severity else 0)

    def __len__(self):
        return self.count()

    def text(self, i, what):
        """A text of finding i: sentence, title, source, consequence, ..."""
        return _get_text("report_text", self._handle, i, _choice_number("text", what))

    def __getitem__(self, i):
        if i < 0:
            i += len(self)
        if not 0 <= i < len(self):
            raise IndexError(i)
        rule, severity, verdict, subject = (ctypes.c_int32() for _ in range(4))
        _do("report_finding", self._handle, i, rule, severity, verdict, subject)
        try:
            amounts = [ctypes.c_double() for _ in range(3)]
            _do("report_numbers", self._handle, i, *amounts)
            amounts = [amount.value for amount in amounts]
        except StateError:
            amounts = [None] * 3
        missing = _get(ctypes.c_int32, "report_missing", self._handle, i)
        return Finding(
            self.text(i, "name"), _choice_name("severity", severity.value),
            _choice_name("verdict", verdict.value), subject.value, self.text(i, "subject"),
            *amounts, self.text(i, "unit"),
            bool(_get(ctypes.c_int32, "report_governs", self._handle, i)),
            _full_name(missing) if missing else None, self.text(i, "title"),
            self.text(i, "source"), self.text(i, "sentence"), self.text(i, "working"))

    def subjects(self):
        """All subjects, by their numbers."""
        count = _get(ctypes.c_int32, "report_subject_count", self._handle)
        found = []
        for number in range(count):
            kind, index, owner = (ctypes.c_int32() for _ in range(3))
            _do("report_subject", self._handle, number, kind, index, owner)
            found.append(Subject(_kind_name(kind.value), index.value,
                                 owner.value if owner.value >= 0 else None,
                                 _get_text("report_subject_text", self._handle, number)))
        return found

    def find(self, kind, index=0, inverter=0):
        """Number of the subject of a kind; of inputs, those of an inverter."""
        owner = -1
        if kind == "input" and any(s.kind == "inverter" for s in self.subjects()):
            owner = self.find("inverter", inverter)
        return _get(ctypes.c_int32, "report_find", self._handle,
                    _lib.pvsize_kind_by_name(kind.encode()), index, owner)

    @property
    def outcome(self):
        """"nothing", "holds", "incomplete" or "broken", by the limits that must
        hold. Only "holds" is good news."""
        return _choice_name("outcome", _get(ctypes.c_int32, "report_outcome", self._handle))

    def broken(self, severity="must"):
        """Findings that break a limit of at least this severity. An empty list
        says nothing of what was not assessed: see count("not_assessed")."""
        rank = _choice_number("severity", severity)
        return [finding for finding in self if finding.verdict == "exceeds"
                and _choice_number("severity", finding.severity) >= rank]

    @property
    def assumptions(self):
        """What was taken for granted, a line each."""
        count = _get(ctypes.c_int32, "report_assumption_count", self._handle)
        return [_get_text("report_assumption_text", self._handle, i) for i in range(count)]

    def _subject_of(self, name, where):
        """The subject that a quantity speaks of, by the indices that lead to it;
        a module by that of an array that has it."""
        if "subject" in where:
            return where["subject"]
        scope = _TERMS["quantity"][name].scope
        if scope == "module" and any(s.kind == "array" for s in self.subjects()):
            scope = "array"
        return self.find(scope, where.get(scope, 0), where.get("inverter", 0))

    def quantity(self, name, **where):
        """A computed quantity of one subject, such as "string_voc_cold", array=0;
        "input_imp", inverter=0, input=1; or of subject=NUMBER. None where it does
        not apply or data are missing."""
        number = _term_number("quantity." + name)
        subject = self._subject_of(name, where)
        try:
            return _get(ctypes.c_double, "report_quantity", self._handle, number, subject)
        except StateError:
            return None

    def working(self, name, markdown=False, detail="short", **where):
        """How that quantity came about: a step a line, or with detail="long" every
        symbol explained."""
        return _get_text("report_working", self._handle, _term_number("quantity." + name),
                         self._subject_of(name, where), 2 if markdown else 1,
                         _choice_number("detail", detail))

    def render(self, markdown=False, working=False):
        """The whole report as text; `working` True or "short" adds each step in a line,
        "long" with every symbol explained."""
        detail = working if isinstance(working, str) else "short" if working else "findings"
        return _get_text("report_render", self._handle, 2 if markdown else 1,
                         _choice_number("detail", detail))

    def __str__(self):
        return self.render()


def check(spec, rules=None, report=None):
    """Checks a spec by a rule set. A report given is filled again."""
    report = Report() if report is None else report
    rules = Rules() if rules is None else rules
    _do("check", spec._handle, rules._handle, report._handle)
    return report


# comparisons

class RuleDifference(typing.NamedTuple):
    """What two rule sets do not have in common: a figure ("figure.isc_factor") or a
    rule ("rule.isc_input"). `what` holds "presence", "severity", "value", "limit",
    "definition" or "source". `first` and `second` are the figure's value or the
    rule's severity, None where that set has none."""
    term: str
    what: typing.Tuple[str, ...]
    first: typing.Union[float, str, None]
    second: typing.Union[float, str, None]
    text: str


class FindingDifference(typing.NamedTuple):
    """What two reports do not have in common: the finding of a rule on a subject.
    `what` holds "presence", "severity", "verdict", "value", "limit" or "source".
    `first` and `second` are the finding's indices, None where a report has none;
    `figures` those behind it that the two rule sets do not share; `text` says why."""
    rule: str
    subject: int
    what: typing.Tuple[str, ...]
    first: typing.Optional[int]
    second: typing.Optional[int]
    figures: typing.Tuple[str, ...]
    text: str


class _Comparison(_Handle):
    _free = staticmethod(_lib.pvsize_comparison_free)

    def __init__(self):
        super().__init__()
        _do("comparison_new", None, ctypes.byref(self._handle))

    def __len__(self):
        return _get(ctypes.c_int32, "comparison_count", self._handle)

    def what(self, i):
        """Names of what differs, and the subject."""
        what, subject = ctypes.c_int32(), ctypes.c_int32()
        _do("comparison_difference", self._handle, i, what, subject)
        choices = [_lib.pvsize_set_at(_SETS["differs"], k)
                   for k in range(_lib.pvsize_set_count(_SETS["differs"]))]
        return (tuple(_choice_name("differs", choice) for choice in choices if what.value & choice),
                subject.value)

    def side(self, i, side):
        """Number of the figure or rule, and index of the finding; None: none."""
        term, finding = ctypes.c_int32(), ctypes.c_int32()
        _do("comparison_side", self._handle, i, side, term, finding)
        return term.value or None, finding.value if finding.value >= 0 else None

    def number(self, i, side, what):
        """A number of a side, or None."""
        try:
            return _get(ctypes.c_double, "comparison_number", self._handle, i, side,
                        _choice_number("differs", what))
        except StateError:
            return None

    def figures(self, i):
        """Names of the figures behind a difference."""
        found = []
        while True:
            try:
                number = _get(ctypes.c_int32, "comparison_figure", self._handle, i, len(found))
            except ArgumentError:
                return tuple(found)
            found.append(_text(_lib.pvsize_term_name(number)))

    def text(self, i):
        """The difference in one line."""
        return _get_text("comparison_text", self._handle, i)


def _rule_name(rules, number):
    return _get_text("rules_rule_name", rules._handle, number)


def _rule_difference(comparison, i, pair):
    terms = [comparison.side(i, side)[0] for side in (0, 1)]
    side = 0 if terms[0] else 1
    what, _ = comparison.what(i)
    if _lib.pvsize_term_kind(terms[side]) == _lib.pvsize_kind_by_name(b"figure"):
        sides = [comparison.number(i, side, "value") for side in (0, 1)]
        return RuleDifference(_full_name(terms[side]), what, *sides, comparison.text(i))
    sides = [comparison.number(i, side, "severity") for side in (0, 1)]
    return RuleDifference("rule." + _rule_name(pair[side], terms[side]), what,
                          *(None if severity is None else _choice_name("severity", int(severity))
                            for severity in sides), comparison.text(i))


def _finding_difference(comparison, i, pair):
    findings = [comparison.side(i, side)[1] for side in (0, 1)]
    side = 0 if findings[0] is not None else 1
    what, subject = comparison.what(i)
    return FindingDifference(pair[side].text(findings[side], "name"), subject, what, *findings,
                             comparison.figures(i), comparison.text(i))


def compare(first, second, wanted=()):
    """What two rule sets, or two reports on one system, do not have in common: a list
    of RuleDifference or FindingDifference. `wanted` names what counts, such as
    ["verdict", "presence"]; empty: all but "source"."""
    if not isinstance(first, (Rules, Report)) or type(first) is not type(second):
        raise TypeError("compare takes two rule sets or two reports")
    names = [wanted] if isinstance(wanted, str) else wanted
    mask = sum({_choice_number("differs", name) for name in names})
    of_rules = isinstance(first, Rules)
    with _Comparison() as found:
        _do("compare_rules" if of_rules else "compare_reports", first._handle, second._handle, mask,
            found._handle)
        make = _rule_difference if of_rules else _finding_difference
        return [make(found, i, (first, second)) for i in range(len(found))]


# what must be bought

class Share(typing.NamedTuple):
    """What a row of a bill is for: a subject's number in a report on the system, the
    subject in words, how much of what is installed is for it, and why, such as
    "quantity.array_modules" or "rule.isolator"."""
    subject: int
    where: str
    installed: float
    why: str


class Purchase(typing.NamedTuple):
    """One thing to buy. `quantity` is what to buy, `installed` what of it is installed,
    None where that cannot be told; `missing` names the first term that is needed.
    `attributes` tell the thing apart, by name; None where the value is not known.
    `allowance` is the figure between installed and quantity; `type` the number of the
    subject that stands for the type of module or inverter."""
    item: str
    quantity: typing.Optional[float]
    measure: str
    attributes: typing.Dict[str, typing.Union[float, str, None]]
    type: typing.Optional[int]
    installed: typing.Optional[float]
    allowance: typing.Optional[str]
    missing: typing.Optional[str]
    shares: typing.Tuple[Share, ...]
    text: str


class Bill(_Handle):
    """What must be bought for a system: a sequence of Purchase."""

    _free = staticmethod(_lib.pvsize_bill_free)

    def __init__(self):
        super().__init__()
        _do("bill_new", None, ctypes.byref(self._handle))

    def __len__(self):
        return _get(ctypes.c_int32, "bill_count", self._handle)

    def _amounts(self, i):
        """What is installed and what to buy, each None where it cannot be told."""
        found = []
        for place in (0, 1):
            amounts = [None, None]
            amounts[place] = ctypes.c_double()
            try:
                _do("bill_quantity", self._handle, i, *amounts, None)
                found.append(amounts[place].value)
            except StateError:
                found.append(None)
        return found

    def _attribute(self, i, k):
        term, value, missing = ctypes.c_int32(), ctypes.c_double(), ctypes.c_int32()
        _do("bill_attribute", self._handle, i, k, term, value, missing)
        name = _text(_lib.pvsize_term_name(term.value))
        if missing.value:
            return name, None
        return name, _text(_lib.pvsize_choice_name(term.value, int(value.value))) or value.value

    def _share(self, i, k):
        subject, installed, why = ctypes.c_int32(), ctypes.c_double(), ctypes.c_int32()
        _do("bill_share", self._handle, i, k, subject, installed, why)
        where = _get_text("bill_subject_text", self._handle, subject.value)
        return Share(subject.value, where, installed.value,
                     _full_name(why.value))

    def __getitem__(self, i):
        if i < 0:
            i += len(self)
        if not 0 <= i < len(self):
            raise IndexError(i)
        item, measure, kind, missing, allowance = (ctypes.c_int32() for _ in range(5))
        _do("bill_row", self._handle, i, item, measure, kind, missing)
        _do("bill_quantity", self._handle, i, None, None, allowance)
        installed, quantity = self._amounts(i)
        attributes = _get(ctypes.c_int32, "bill_attribute_count", self._handle, i)
        shares = _get(ctypes.c_int32, "bill_share_count", self._handle, i)
        return Purchase(
            _choice_name("item", item.value), quantity, _choice_name("measure", measure.value),
            dict(self._attribute(i, k) for k in range(attributes)),
            kind.value if kind.value >= 0 else None, installed,
            _full_name(allowance.value) if allowance.value else None,
            _full_name(missing.value) if missing.value else None,
            tuple(self._share(i, k) for k in range(shares)),
            _get_text("bill_text", self._handle, i))

    @property
    def outcome(self):
        """What the check of the design came to; see Report.outcome."""
        return _choice_name("outcome", _get(ctypes.c_int32, "bill_outcome", self._handle))

    @property
    def assumptions(self):
        """Allowances used, and defaults taken for granted, a line each."""
        count = _get(ctypes.c_int32, "bill_assumption_count", self._handle)
        return [_get_text("bill_assumption_text", self._handle, i) for i in range(count)]

    def render(self, markdown=False):
        """The whole bill as text."""
        return _get_text("bill_render", self._handle, 2 if markdown else 1)

    def __str__(self):
        return self.render()


def bill(system, rules=None):
    """What must be bought for a system by a rule set: a sequence of Purchase."""
    made = Bill()
    rules = Rules() if rules is None else rules
    _do("bill_fill", system._handle, rules._handle, made._handle)
    return made


# modules of their own, which need what stands above

from ._curve import Assumption, Branch, Curve, Parallel, Point  # noqa: E402
from ._envelope import (  # noqa: E402
    Acceptance, Bound, Remark, Review, Stop, remark_table, review)
from ._readings import Cause, Judged, Judgement, judge  # noqa: E402
from ._weather import (  # noqa: E402
    Closure, PlaneIrradiance, Run, Weather, julian_day, plane_irradiance, split_global,
    sun_position)
from . import certificates  # noqa: E402
from ._exercise import Exercise, Mark, Mistake, Question  # noqa: E402
from ._layouts import (Flag, Layout, Layouts, Obstacle, RankedPair, Ranking,  # noqa: E402
                      Stringing, search)
from ._year import LOSSES, Granted, Light, Part, Year  # noqa: E402
