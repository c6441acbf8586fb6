"""Exercises for the class.

SPDX-License-Identifier: MIT
"""

from __future__ import annotations

import ctypes
import typing

from ._base import _bytes, _do, _get, _get_text, _lib, _Sequence, _text
from ._kinds import System
from ._rules import Rules
from ._terms import _choice_name, _choice_number, _SETS


class Mistake(typing.NamedTuple):
    """A common mistake and the answer that it leads to (the name of a choice, where the
    answer is one)."""
    name: str
    text: str
    value: typing.Union[float, str]


class Question(typing.NamedTuple):
    """A question of an exercise. `answer` is a number in `unit`, right within `tolerance`,
    or the name of one of `choices`, whose texts they hold."""
    kind: str
    array: int
    text: str
    unit: str
    choices: typing.Dict[str, str]
    answer: typing.Union[float, str]
    tolerance: float
    answer_text: str
    working: str
    mistakes: typing.Tuple[Mistake, ...]


class Mark(typing.NamedTuple):
    """What an answer is worth: "right", "rounded", "mistaken" or "unknown"; and the names
    of the mistakes that lead to it."""
    mark: str
    mistakes: typing.Tuple[str, ...]


_ANSWER_SETS = {_SETS[name]: name for name in ("answer", "limit", "fault")}


class Exercise(_Sequence[Question]):
    """An invented job with questions, answers and common mistakes: a sequence of
    Question. Equal level, seed and preset give equal exercises everywhere."""

    _free = staticmethod(_lib.pvsize_exercise_free)

    def __init__(self, level: str, seed: int, preset: str | None = None):
        super().__init__()
        _do("exercise_new", _choice_number("level", level), seed,
            _bytes(preset) if preset is not None else None, None,
            ctypes.byref(self._handle))

    @property
    def level(self) -> str:
        """Name of the level."""
        return _choice_name("level", self._origin()[0])

    @property
    def seed(self) -> int:
        """The seed it was made from."""
        return self._origin()[1]

    def _origin(self):
        level, seed = ctypes.c_int32(), ctypes.c_int32()
        _do("exercise_origin", self._handle, level, seed)
        return level.value, seed.value

    @property
    def system(self) -> System:
        """A copy of the job."""
        handle = ctypes.c_void_p()
        _do("exercise_system", self._handle, None, ctypes.byref(handle))
        return System._wrap(handle)

    @property
    def rules(self) -> Rules:
        """A copy of the rule set."""
        rules = Rules.__new__(Rules)
        rules._handle = ctypes.c_void_p()
        _do("exercise_rules", self._handle, None, ctypes.byref(rules._handle))
        return rules

    def sheet(self, sheet: str = "task", markdown: bool = False) -> str:
        """A whole sheet as text: "task" or "solution"."""
        return _get_text("exercise_sheet", self._handle, _choice_number("sheet", sheet),
                         2 if markdown else 1)

    def __len__(self) -> int:
        return _get(ctypes.c_int32, "exercise_question_count", self._handle)

    def _set_of(self, i):
        kind, answer_set, array = (ctypes.c_int32() for _ in range(3))
        _do("exercise_question", self._handle, i, kind, answer_set, array)
        return kind.value, _ANSWER_SETS.get(answer_set.value), array.value

    def text(self, i: int, what: str = "question", markdown: bool = False) -> str:
        """A text of question i: "question", "unit", "answer" or "working"."""
        return _get_text("exercise_text", self._handle, i, _choice_number("asked", what),
                         2 if markdown else 1)

    def _mistakes(self, i, choices):
        found = []
        for k in range(_get(ctypes.c_int32, "exercise_mistake_count", self._handle, i)):
            number, value = ctypes.c_int32(), ctypes.c_double()
            _do("exercise_mistake", self._handle, i, k, number, value)
            found.append(Mistake(
                _choice_name("mistake", number.value),
                _text(_lib.pvsize_set_text(_SETS["mistake"], number.value)),
                _choice_name(choices, int(value.value)) if choices else value.value))
        return tuple(found)

    def _row(self, i: int) -> Question:
        kind, choices, array = self._set_of(i)
        value, tolerance = ctypes.c_double(), ctypes.c_double()
        _do("exercise_answer", self._handle, i, value, tolerance)
        number = _SETS[choices] if choices else 0
        names = {_text(_lib.pvsize_set_name(number, k)): _text(_lib.pvsize_set_text(number, k))
                 for k in (_lib.pvsize_set_at(number, n)
                           for n in range(_lib.pvsize_set_count(number)))}
        return Question(_choice_name("question", kind), array, self.text(i), self.text(i, "unit"),
                        names, _choice_name(choices, int(value.value)) if choices else value.value,
                        tolerance.value, self.text(i, "answer"), self.text(i, "working"),
                        self._mistakes(i, choices))

    def mark(self, i: int, given: float | str) -> Mark:
        """Marks an answer to question i: a number, or the name of a choice."""
        if isinstance(given, str):
            choices = self._set_of(i)[1]
            if choices is None:
                raise TypeError(f"question {i} asks for a number, not {given!r}")
            given = _choice_number(choices, given)
        mark, count = ctypes.c_int32(), ctypes.c_size_t()
        mistakes = (ctypes.c_int32 * 16)()
        _do("exercise_mark", self._handle, i, given, mark, mistakes, len(mistakes), count)
        return Mark(_choice_name("mark", mark.value),
                    tuple(_choice_name("mistake", mistakes[k]) for k in range(count.value)))
