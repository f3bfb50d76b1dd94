// Every word of the page is a message that exists, and every message of the page is used.
import assert from 'node:assert/strict';
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { test } from 'node:test';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const messages = await readFile(join(root, '../crates/words/messages/en/page.ftl'), 'utf8');
const known = new Set([...messages.matchAll(/^page-([a-z0-9-]+) =/gm)].map((m) => m[1]));

const french = await readFile(join(root, '../crates/words/messages/fr/page.ftl'), 'utf8');

/** Every source of the page by its path. */
async function files(folder) {
  const out = new Map();
  for (const entry of await readdir(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) for (const [name, text] of await files(path)) out.set(name, text);
    else if (/\.(ts|svelte)$/.test(entry.name) && !entry.name.endsWith('.gen.ts')) out.set(path.slice(root.length), await readFile(path, 'utf8'));
  }
  return out;
}

async function sources(folder) {
  const out = [];
  for (const entry of await readdir(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) out.push(...(await sources(path)));
    else if (/\.(ts|svelte)$/.test(entry.name)) out.push(await readFile(path, 'utf8'));
  }
  return out;
}
const texts = (await sources(join(root, 'src'))).join('\n');
const plain = new Set([...texts.matchAll(/say\(\s*'([a-z0-9-]+)'/g)].map((m) => m[1]));
const made = [...texts.matchAll(/say\(\s*`([a-z-]+)\$\{/g)].map((m) => m[1]);
const listed = new Set([...texts.matchAll(/'(key-[a-z-]+)'/g)].map((m) => m[1]));

test('every word of the page exists', () => {
  assert.deepEqual([...plain, ...listed].filter((code) => !known.has(code)), []);
  assert.ok(plain.size > 80, `${plain.size} codes found in the sources`);
});

test('every message of the page is used', () => {
  const used = (code) => plain.has(code) || listed.has(code) || made.some((start) => code.startsWith(start)) || texts.includes(`'${code}'`);
  assert.deepEqual([...known].filter((code) => !used(code)), []);
});

test('codes made of a name exist for every name', () => {
  const names = { 'sheet-': [...texts.matchAll(/\{ name: '([a-z]+)', stages/g)].map((m) => m[1]), 'severity-': ['error', 'warning', 'caution', 'note'], 'group-': ['error', 'warning', 'caution', 'note'], 'heard-': ['roof', 'indoors', 'car'], 'paper-': ['ready', 'old', 'missing'], 'file-': ['saved', 'writing', 'not-saved', 'changed-outside'] };
  assert.ok(names['sheet-'].length > 10);
  for (const [start, ends] of Object.entries(names)) for (const end of ends) assert.ok(known.has(start + end), start + end);
  for (const sheet of names['sheet-']) if (sheet !== 'glance') assert.ok(known.has(`opening-${sheet}`), `opening-${sheet}`);
});

test('every word of the page exists in French too', () => {
  const there = new Set([...french.matchAll(/^page-([a-z0-9-]+) =/gm)].map((m) => m[1]));
  assert.deepEqual([...known].filter((code) => !there.has(code)), []);
  assert.deepEqual([...there].filter((code) => !known.has(code)), []);
});

/** What a template shows by itself: text between tags, and what a reader of screens or a pointer is told. */
function shownBy(svelte) {
  const template = svelte.replace(/<(script|style)[\s\S]*?<\/\1>/g, '').replace(/<!--[\s\S]*?-->/g, '');
  let plain = '';
  let depth = 0;
  for (const c of template) {
    if (c === '{') depth += 1;
    if (depth === 0) plain += c;
    if (c === '}') depth -= 1;
  }
  const told = [...plain.matchAll(/(?:aria-label|aria-description|title|alt|placeholder)="([^"]*)"/g)].map((m) => m[1]);
  return [...plain.replace(/<[^>]*>/g, '\n').split('\n'), ...told].map((text) => text.replaceAll('&nbsp;', ' ').trim()).filter((text) => /\p{L}{2,}/u.test(text));
}

/** Texts of a source that read like a sentence: two words of lower case beside each other. */
function sentences(source) {
  const code = source.replace(/\/\*[\s\S]*?\*\//g, '').replace(/^\s*\/\/.*$/gm, '').replace(/<style[\s\S]*?<\/style>/g, '');
  const strings = [...code.matchAll(/'([^'\n]*)'|`([^`]*)`/g)].map((m) => m[1] ?? m[2] ?? '');
  return strings.filter((text) => !text.includes('=>')).map((text) => text.replace(/\$\{[^}]*\}/g, '{}')).filter((text) => /\p{Ll}{3,}[,;:]? \p{Ll}{2,}/u.test(text));
}

/** Texts that look like words and are none that a person is shown. */
const NOT_SHOWN = [
  'there is no message page-{}', // a fault of ours, for the console
  '(prefers-color-scheme: dark)', // a query of styles
  'input, textarea, select', // a selector of elements
  'dB', // a unit
  'Esc', // what stands on the key
];

test('no template and no source of the page holds a sentence of its own', async () => {
  const found = [];
  for (const [name, text] of await files(join(root, 'src'))) {
    const own = name.endsWith('.svelte') ? shownBy(text) : [];
    for (const words of [...own, ...sentences(text)]) if (!NOT_SHOWN.includes(words)) found.push(`${name}: ${words}`);
  }
  assert.deepEqual(found, []);
  assert.deepEqual(shownBy('<p title="two words">{say(\'x\')} some text</p>'), ['some text', 'two words']);
  assert.deepEqual(sentences("const a = 'one two'; const b = 'one-two';"), ['one two']);
});
