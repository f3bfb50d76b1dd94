// In the browser there is arithmetic on pixels and paths only, and only in src/geometry: every value with a unit comes finished
// from the server. This looks through every script and every expression of every component.
import assert from 'node:assert/strict';
import { readdir, readFile } from 'node:fs/promises';
import { join, relative } from 'node:path';
import { test } from 'node:test';
import { fileURLToPath } from 'node:url';
import { parse } from 'svelte/compiler';
import ts from 'typescript';

const src = fileURLToPath(new URL('../src', import.meta.url));
const BANNED = new Set(['+', '-', '*', '/', '%', '**']);
const MATHS = new Set(['toFixed', 'toPrecision', 'toExponential', 'toLocaleString']);
const NUMBERS = new Set(['parseFloat', 'parseInt', 'Number']);

async function files(folder) {
  const out = [];
  for (const entry of await readdir(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) out.push(...(await files(path)));
    else if (/\.(ts|svelte)$/.test(entry.name) && !entry.name.endsWith('.gen.ts')) out.push(path);
  }
  return out;
}

/** What a script of plain TypeScript does that it may not. */
function ofScript(text) {
  const found = [];
  const visit = (node) => {
    const name = (n) => n.getText();
    if (ts.isBinaryExpression(node)) {
      const operator = node.operatorToken.getText();
      if (BANNED.has(operator) || (operator.endsWith('=') && BANNED.has(operator.slice(0, -1)))) found.push(node.getText());
    }
    if ((ts.isPrefixUnaryExpression(node) || ts.isPostfixUnaryExpression(node)) && [ts.SyntaxKind.PlusPlusToken, ts.SyntaxKind.MinusMinusToken, ts.SyntaxKind.PlusToken].includes(node.operator)) found.push(node.getText());
    if (ts.isPropertyAccessExpression(node) && (name(node.expression) === 'Math' || MATHS.has(name(node.name)))) found.push(node.getText());
    if (ts.isCallExpression(node) && NUMBERS.has(name(node.expression))) found.push(node.getText());
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile('x.ts', text, ts.ScriptTarget.Latest, true));
  return found;
}

/** The same for a component: its script and the expressions in its markup. */
function ofComponent(text) {
  const found = [];
  const visit = (node) => {
    if (!node || typeof node !== 'object') return;
    if (Array.isArray(node)) return node.forEach(visit);
    const own = () => text.slice(node.start, node.end);
    if (node.type === 'BinaryExpression' && BANNED.has(node.operator)) found.push(own());
    if (node.type === 'AssignmentExpression' && BANNED.has(node.operator.slice(0, -1))) found.push(own());
    if (node.type === 'UpdateExpression' || (node.type === 'UnaryExpression' && node.operator === '+')) found.push(own());
    if (node.type === 'MemberExpression' && (node.object?.name === 'Math' || MATHS.has(node.property?.name))) found.push(own());
    if (node.type === 'CallExpression' && NUMBERS.has(node.callee?.name)) found.push(own());
    for (const [key, value] of Object.entries(node)) if (key !== 'parent' && key !== 'css') visit(value);
  };
  visit(parse(text, { modern: true }));
  return found;
}

test('the look itself finds arithmetic where it is', () => {
  assert.deepEqual(ofScript('const a = b * 2; let c = `x${d}`; c += 1;'), ['b * 2', 'c += 1']);
  assert.deepEqual(ofScript('const dbm = dbw + 30; x.toFixed(1); Math.log10(p);').length, 3);
  assert.deepEqual(ofComponent('<script lang="ts">let w = $state(1);</script><p style:width={`${w * 2}px`}>{w.toFixed(1)}</p>').length, 2);
  assert.deepEqual(ofComponent('<script lang="ts">const a = [1].map((x) => -x).filter(Boolean).length > 0;</script>'), []);
});

test('no arithmetic outside geometry', async () => {
  const faults = [];
  for (const path of await files(src)) {
    const name = relative(src, path);
    if (name.startsWith('geometry/')) continue;
    const text = await readFile(path, 'utf8');
    for (const what of path.endsWith('.svelte') ? ofComponent(text) : ofScript(text)) faults.push(`${name}: ${what}`);
  }
  assert.deepEqual(faults, []);
});

test('geometry knows no unit of radio', async () => {
  const faults = [];
  for (const path of await files(join(src, 'geometry'))) {
    const text = (await readFile(path, 'utf8')).replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, '');
    for (const word of text.match(/\b\w*(?:dbuv|dbm|dbw|watt|_mhz|erp|_eur)\w*\b/gi) ?? []) faults.push(`${relative(src, path)}: ${word}`);
  }
  assert.deepEqual(faults, []);
});
