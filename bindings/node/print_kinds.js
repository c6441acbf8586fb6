// Prints kinds.d.ts, the types of the kinds of object, from the tables of the library:
//     node bindings/node/print_kinds.js > bindings/node/kinds.d.ts
// SPDX-License-Identifier: MIT
'use strict';

const { tables } = require('./lib/terms');
const { className, classes } = require('./lib/spec');

const literals = (names) => names.map((name) => `"${name}"`).join(' | ');

// What a parameter reads as, and what it takes besides null.
function typeOf(term) {
  const plain = { text: 'string', choice: literals(Object.keys(term.choices)) }[term.type] ?? 'number';
  return term.need === 'optional' && ['number', 'count'].includes(term.type) ? `${plain} | "none"` : plain;
}

function taken(term) {
  return 'yes' in term.choices ? `${typeOf(term)} | boolean` : typeOf(term);
}

function comment(term) {
  const unit = term.unit && ` [${term.unit}]`;
  const range = term.range && ['number', 'count'].includes(term.type)
    ? `, ${term.range[0]} to ${term.range[1]}` : '';
  const byDefault = term.default === null ? '' : `, ${term.default} unless given`;
  return `  /** ${term.text}${unit}${range}${byDefault}. */\n`;
}

function printKind(kind, made) {
  const name = className(kind);
  const parts = Object.entries(made.plurals);
  const owned = (part) => `${className(part)} | ${className(part)}Values`;
  const lines = [`/** What a new ${name} may be given. */\nexport interface ${name}Values {`];
  for (const term of tables.get(kind).values())
    lines.push(`  ${term.name}?: ${taken(term)} | null;`);
  for (const [given, part] of Object.entries(made.partNames))
    lines.push(`  ${given}?: ${given in made.plurals ? `ReadonlyArray<${owned(part)}>` : owned(part)};`);
  lines.push('}', '', `export class ${name} extends Spec {`, `  constructor(values?: ${name}Values);`,
    `  readonly kind: "${kind}";`);
  for (const term of tables.get(kind).values()) {
    const empty = term.default === null ? ' | null' : '';
    lines.push(`${comment(term)}  get ${term.name}(): ${typeOf(term)}${empty};`,
      `  set ${term.name}(value: ${taken(term)} | null);`);
  }
  for (const [plural, part] of parts)
    lines.push(`  /** Copies of its parts. */\n  get ${plural}(): ${className(part)}[];`);
  lines.push(`  copy(): ${name};`, `  toJSON(): ${name}Values;`, '}', '');
  return lines.join('\n');
}

const print = () => ['// Printed from the tables of the library by print_kinds.js, not by hand.',
  '// SPDX-License-Identifier: MIT', '', 'import { Spec } from "./index";', '',
  ...Object.entries(classes).map(([kind, made]) => printKind(kind, made))].join('\n');

if (require.main === module)
  process.stdout.write(print());

module.exports = { print };
