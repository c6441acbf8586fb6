# SPDX-License-Identifier: MIT
"""The search against trying every stringing, on random questions."""
import os
import random
import shutil

import pytest

import brute_force
import integer_program
import pvsize
import random_questions
import roofs

CASES = int(os.environ.get("PVSIZE_ORACLE_QUESTIONS", "240"))


def check_question(seed):
    rng = random.Random(seed)
    question = random_questions.question(rng)
    rules, tells_places = random_questions.rules(rng)
    case = brute_force.Case(question, rules)
    want = case.answers(tells_places)
    found = pvsize.search(question, rules)
    assert found.ending == "proven"
    names = [case.canonical(case.choice_of(layout), tells_places) for layout in found]
    assert len(set(names)) == len(names), "an answer counted twice"
    assert all(name in want for name in names), "an answer that is none"
    keys = [want[name][0] for name in names]
    assert keys == sorted((key for key, _ in want.values()), reverse=True)[:question.answers]
    assert [want[name][1] for name in names] == [layout.outcome for layout in found]
    if found.complete:
        assert len(names) == len(want)
    if len(want) < question.answers:
        assert found.complete
    if not names:
        assert found.obstacles or not case.open or question.wanted_modules
    for layout in found:
        assert layout.report().outcome == layout.outcome
    return len(want)


@pytest.mark.parametrize("block", range(8))
def test_every_stringing_tried(block):
    for seed in range(block * CASES // 8, (block + 1) * CASES // 8):
        try:
            check_question(seed)
        except AssertionError as error:
            raise AssertionError(f"question {seed}") from error


def test_questions_are_not_all_easy():
    """Many have several answers, many none."""
    counts = []
    for seed in range(60):
        counts.append(check_question(seed))
    assert sum(count > 1 for count in counts) >= 15
    assert 0 < sum(count == 0 for count in counts) <= 40


# an integer program, on jobs of the size of a school roof

class _Roof(brute_force.Case):
    """Lengths and counts that a string can have at all on these inputs."""

    def options(self):
        return [None] + [(0, n, ((p, s),)) for p, room in enumerate(self.room)
                         for n in range(1, 27) for s in range(1, 4) if n * s <= room]


ROOFS = [("three large", "power"), ("three large", "energy"), ("three small", "power"),
         ("three small", "energy"), ("six", "power"), ("twelve", "power"), ("twelve", "energy"),
         ("unlike", "power")]


@pytest.mark.skipif(not shutil.which("glpsol"), reason="no glpsol")
@pytest.mark.parametrize("kind, objective", ROOFS)
def test_integer_program(tmp_path, kind, objective):
    """The optimum of GLPK, where GLPK proves one in its time; else its bound."""
    question = roofs.twelve_inputs(kind, objective=objective, answers=1)
    rules = pvsize.Rules()
    found = pvsize.search(question, rules)
    path = str(tmp_path / "program.lp")
    integer_program.write(_Roof(question, rules), integer_program.ratio_of(rules), path)
    low, high = integer_program.solve_glpk(path, 5)
    assert found.ending == "proven"
    value = found[0].energy if objective == "energy" else found[0].power
    assert low <= round(value * 1000) <= high
    assert found.bound == pytest.approx(value, rel=1e-12)
