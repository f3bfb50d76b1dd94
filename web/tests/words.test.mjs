// Every word of the page is a message that exists, and every message of the page is used.
import assert from 'node:assert/strict';
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { test } from 'node:test';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const messages = await readFile(join(root, '../crates/words/messages/en/page.ftl'), 'utf8');
const known = new Set([...messages.matchAll(/^page-([a-z0-9-]+) =/gm)].map((m) => m[1]));

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
