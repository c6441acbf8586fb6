"""An exercise for the class, and marks for answers to it. All data are invented.

    exercise.py LEVEL SEED [ANSWER ...]

Without answers it prints the task; with --solution the answers as well. Answers are
given in the order of the questions: a number, the number or name of a choice, or -
for none. SPDX-License-Identifier: MIT
"""

import argparse
import sys

import pvsize


def read_answer(question, text):
    """What was given, in the way that the question takes it."""
    names = list(question.choices)
    if text in names:
        return text
    try:
        value = float(text.replace(",", "."))
    except ValueError:
        allowed = f"one of {', '.join(names)}" if names else "a number"
        raise ValueError(f"{text!r}: {question.kind} takes {allowed}") from None
    return value


def verdict(exercise, i, question, answer):
    """One line for one answer."""
    mark = exercise.mark(i, answer)
    if mark.mark == "right":
        return "right"
    if mark.mark == "rounded":
        return f"right but for the rounding: {question.answer_text}"
    reasons = [m.text for m in question.mistakes if m.name in mark.mistakes]
    why = "; or ".join(reasons) if reasons else "no common mistake leads there"
    return f"wrong: {why}. Right is {question.answer_text}"


def mark_all(exercise, words):
    """Marks what was given, once all of it is understood; how many were right."""
    if len(words) > len(exercise):
        raise ValueError(f"{len(words)} answers to {len(exercise)} questions")
    questions = list(exercise)
    answers = [None if word == "-" else read_answer(question, word)
               for question, word in zip(questions, words)]
    lines = ["no answer" if answer is None else verdict(exercise, i, questions[i], answer)
             for i, answer in enumerate(answers)]
    for i, line in enumerate(lines):
        print(f"{i + 1}. {questions[i].text}\n   {words[i]}: {line}")
    print(f"{lines.count('right')} of {len(exercise)} right")


def main(words=None):
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("level", help="one_input, two_inputs, parallel or fault")
    parser.add_argument("seed", type=int, help="a whole number; each makes another exercise")
    parser.add_argument("answers", nargs="*", metavar="answer")
    parser.add_argument("--preset", help="rule set; without it, that of Australia")
    parser.add_argument("--markdown", action="store_true")
    parser.add_argument("--solution", action="store_true", help="print the answers as well")
    options = parser.parse_args(words)
    if not -2**31 <= options.seed < 2**31:
        parser.error(f"seed {options.seed}: allowed {-2**31} to {2**31 - 1}")
    try:
        exercise = pvsize.Exercise(options.level, options.seed, options.preset)
        if options.answers:
            mark_all(exercise, options.answers)
        else:
            print(exercise.sheet(markdown=options.markdown), end="")
        if options.solution:
            print("\n" + exercise.sheet("solution", markdown=options.markdown), end="")
    except (pvsize.Error, ValueError) as error:
        parser.error(str(error))


if __name__ == "__main__":
    main(sys.argv[1:])
