// Exercises for the class.
// SPDX-License-Identifier: MIT
'use strict';

const { ask, call } = require('./library');
const { Sequence, pointer } = require('./handle');
const { choiceName, choiceNumber, choiceText, setOf, upTo } = require('./terms');
const { wrap } = require('./spec');
const { wrapRules } = require('./rules');
const { format } = require('./report');

const ANSWERS = new Map(['answer', 'limit', 'fault'].map((name) => [setOf(name).set, name]));
const MOST_MISTAKES = setOf('mistake').numbers.length;

// An invented job with questions, answers and common mistakes. Equal level, seed and
// preset give equal exercises everywhere.
class Exercise extends Sequence {
  constructor(level, seed, preset = null) {
    super('exercise', ask('exercise_new', choiceNumber('level', level), seed, preset),
      'exercise_question_count');
  }

  get level() {
    return choiceName('level', ask('exercise_origin', pointer(this))[0]);
  }

  get seed() {
    return ask('exercise_origin', pointer(this))[1];
  }

  // A copy of the job.
  get system() {
    return wrap(ask('exercise_system', pointer(this)));
  }

  // A copy of the rule set.
  get rules() {
    return wrapRules(ask('exercise_rules', pointer(this)));
  }

  // A whole sheet as text: "task" or "solution".
  sheet(sheet = 'task', { markdown = false } = {}) {
    return ask('exercise_sheet', pointer(this), choiceNumber('sheet', sheet), format(markdown));
  }

  // A text of question i: "question", "unit", "answer" or "working".
  text(i, what = 'question', { markdown = false } = {}) {
    return ask('exercise_text', pointer(this), i, choiceNumber('asked', what), format(markdown));
  }

  #mistakes(i, named) {
    return upTo(ask('exercise_mistake_count', pointer(this), i), (k) => {
      const [mistake, value] = ask('exercise_mistake', pointer(this), i, k);
      return { name: choiceName('mistake', mistake), text: choiceText('mistake', mistake),
        value: named(value) };
    });
  }

  _row(i) {
    const [kind, set, array] = ask('exercise_question', pointer(this), i);
    const choices = ANSWERS.get(set);
    const named = (value) => (choices ? choiceName(choices, value) : value);
    const [value, tolerance] = ask('exercise_answer', pointer(this), i);
    const { names, numbers } = choices ? setOf(choices) : { names: [], numbers: [] };
    return { kind: choiceName('question', kind), array, text: this.text(i), unit: this.text(i, 'unit'),
      choices: Object.fromEntries(names.map((name, k) => [name, choiceText(choices, numbers[k])])),
      answer: named(value), tolerance, answerText: this.text(i, 'answer'),
      working: this.text(i, 'working'), mistakes: this.#mistakes(i, named) };
  }

  // Marks an answer to question i, a number or the name of a choice: "right", "rounded",
  // "mistaken" or "unknown", and the mistakes that lead to it.
  mark(i, given) {
    const choices = ANSWERS.get(ask('exercise_question', pointer(this), i)[1]);
    if (typeof given === 'string' && !choices)
      throw new TypeError(`question ${i} asks for a number`);
    const number = typeof given === 'string' ? choiceNumber(choices, given) : given;
    const [mark, mistakes, count] =
      [new Int32Array(1), new Int32Array(MOST_MISTAKES), new BigUint64Array(1)];
    call('exercise_mark', pointer(this), i, number, mark, mistakes, mistakes.length, count);
    return { mark: choiceName('mark', mark[0]),
      mistakes: [...mistakes.subarray(0, Number(count[0]))].map((k) => choiceName('mistake', k)) };
  }
}

module.exports = { Exercise };
