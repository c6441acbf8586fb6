// The TypeScript declarations: printed anew, complete, and compiled with a sample.
// SPDX-License-Identifier: MIT
'use strict';

const test = require('node:test');
const assert = require('node:assert/strict');
const childProcess = require('node:child_process');
const fs = require('node:fs');
const path = require('node:path');
const pvsize = require('..');
const { print } = require('../print_kinds');

const root = path.join(__dirname, '..');

test('kinds.d.ts is what the tables print', () => {
  assert.equal(fs.readFileSync(path.join(root, 'kinds.d.ts'), 'utf8'), print());
});

test('every export is declared, and nothing else', () => {
  const text = ['index.d.ts', 'kinds.d.ts'].map((name) =>
    fs.readFileSync(path.join(root, name), 'utf8')).join('\n');
  const declared = [...text.matchAll(/^export (?:abstract )?(?:class|function|namespace|const) (\w+)/gm)];
  assert.deepEqual([...new Set(declared.map((match) => match[1]))].sort(), Object.keys(pvsize).sort());
});

test('the package holds what it needs', () => {
  const npm = childProcess.spawnSync('npm', ['pack', '--dry-run', '--json', '--ignore-scripts'],
    { cwd: root, encoding: 'utf8' });
  const packed = JSON.parse(npm.stdout)[0].files.map((file) => file.path);
  const needed = ['calls.txt', 'index.d.ts', 'index.js', 'kinds.d.ts', 'package.json',
    ...fs.readdirSync(path.join(root, 'lib')).map((name) => `lib/${name}`)];
  assert.deepEqual(packed.sort(), needed.sort());
});

test('every method and property of a class is declared', () => {
  const text = fs.readFileSync(path.join(root, 'index.d.ts'), 'utf8');
  const classes = Object.values(pvsize).filter((made) => typeof made === 'function' &&
    /^class/.test(Function.prototype.toString.call(made)) && !made.kind);
  assert.ok(classes.length > 10);
  for (const made of classes) {
    const block = text.match(new RegExp(`export (?:abstract )?class ${made.name} [^]*?\n}`))[0];
    for (const name of Object.getOwnPropertyNames(made.prototype)) {
      const inherited = ['constructor', 'toString', 'length', 'name'].includes(name) || name.startsWith('_');
      assert.ok(inherited || new RegExp(`\\b${name}\\b`).test(block), `${made.name}.${name}`);
    }
  }
});

test('a typed program compiles, and its wrong lines do not', () => {
  const compiler = path.join(root, 'node_modules', 'typescript', 'bin', 'tsc');
  const found = childProcess.spawnSync(process.execPath, [compiler, '--noEmit', '--strict',
    '--target', 'es2022', '--lib', 'es2022,dom', '--module', 'commonjs',
    path.join(__dirname, 'types.ts')], { encoding: 'utf8' });
  assert.equal(found.status, 0, found.stdout + found.stderr);
});
