// The page's types are the ones made from the program's own description of its API.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { test } from 'node:test';
import openapiTS, { astToString } from 'openapi-typescript';

test('types of the API are fresh', async () => {
  const made = astToString(await openapiTS(new URL('../api/openapi.json', import.meta.url)));
  const kept = await readFile(new URL('../src/api/types.gen.ts', import.meta.url), 'utf8');
  // The command line puts a notice above what it makes.
  assert.ok(kept.endsWith(made), 'src/api/types.gen.ts is old: run `npm run types`');
});
