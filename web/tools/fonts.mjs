// Makes WOFF2 files for the page from the whole TrueType files in ../fonts, when they are not there yet.
import { mkdir, readFile, stat, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import wawoff2 from 'wawoff2';

const here = dirname(fileURLToPath(import.meta.url));
const from = process.env.STATIONWRIGHT_FONTS ?? join(here, '../../fonts');
const to = join(here, '../src/fonts');
const names = [
  'LibertinusSerif_400Regular',
  'LibertinusSerif_400Regular_Italic',
  'LibertinusSerif_600SemiBold',
  'SofiaSansSemiCondensed_400Regular',
  'SofiaSansSemiCondensed_600SemiBold',
];

await mkdir(to, { recursive: true });
for (const name of names) {
  const source = join(from, `${name}.ttf`);
  const target = join(to, `${name}.woff2`);
  const made = await stat(target).catch(() => null);
  if (made && made.mtimeMs >= (await stat(source)).mtimeMs) continue;
  await writeFile(target, await wawoff2.compress(await readFile(source)));
}
