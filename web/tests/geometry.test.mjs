// Pixels and paths: the map's colours, its views and its painting; labels that do not cover one another.
import assert from 'node:assert/strict';
import { mkdtemp, readdir, readFile, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';
import { fileURLToPath, pathToFileURL } from 'node:url';
import ts from 'typescript';

// The modules as plain JavaScript, side by side.
const from = fileURLToPath(new URL('../src/geometry', import.meta.url));
const to = await mkdtemp(join(tmpdir(), 'geometry-'));
for (const name of await readdir(from)) {
  const { outputText } = ts.transpileModule(await readFile(join(from, name), 'utf8'), { compilerOptions: { target: 'ES2022', module: 'ESNext' } });
  await writeFile(join(to, name.replace('.ts', '.mjs')), outputText.replace(/from '(\.\/\w+)'/g, "from '$1.mjs'"));
}
const load = (name) => import(pathToFileURL(join(to, `${name}.mjs`)));
globalThis.ImageData = class {
  constructor(width, height) {
    Object.assign(this, { width, height, data: new Uint8ClampedArray(width * height * 4) });
  }
};

const { lighter, RAMP, SHADES, table } = await load('ramp');
const { cellAt, fit, toX, toY, zoomed } = await load('mapview');
const { paint, steps } = await load('raster');
const { contourPlates, markPlates } = await load('labels');
const { byRings, onRuler } = await load('bars');
const { marks, nearest, straight } = await load('scale');
const { apart } = await load('apart');
const { cardTexts, cutTexts, quietSpoke, stackedTexts } = await load('card');
const { classPaths, wirePaths } = await load('unrolled');

/** OKLab lightness of a packed pixel (Ottosson, 2020). */
function lightness(pixel) {
  const [r, g, b] = [pixel & 255, (pixel >> 8) & 255, (pixel >> 16) & 255].map((c) => (c / 255 <= 0.04045 ? c / 255 / 12.92 : ((c / 255 + 0.055) / 1.055) ** 2.4));
  const l = Math.cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
  const m = Math.cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
  const s = Math.cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
  return 0.2104542553 * l + 0.793617785 * m - 0.0040720468 * s;
}

test('a colour not made lighter is itself', () => {
  for (const hex of [...RAMP.light, ...RAMP.dark]) assert.deepEqual(`#${lighter(hex, 0).map((c) => c.toString(16).padStart(2, '0')).join('')}`.toUpperCase(), hex);
});

test('relief never turns one class into its neighbour', () => {
  for (const dark of [false, true]) {
    const colours = table(dark);
    for (let i = 0; i + 1 < 7; i++) {
      const sign = dark ? 1 : -1;
      // The slope of this class that comes nearest to the next, and the slope of the next that comes nearest to this.
      const mine = Math.max(...Array.from({ length: SHADES }, (_, s) => sign * lightness(colours[i * SHADES + s])));
      const theirs = Math.min(...Array.from({ length: SHADES }, (_, s) => sign * lightness(colours[(i + 1) * SHADES + s])));
      assert.ok(theirs - mine > 0.012, `${dark ? 'dark' : 'light'} ${i}: ${theirs - mine}`);
    }
  }
});

test('a view leads from cells to the page and back, and zooming holds what is under the hand', () => {
  const view = fit({ left: 10, top: 20, right: 110, bottom: 60 }, 1.3, 900, 500);
  for (const [x, y] of [[10, 20], [110, 60], [61.5, 40.25]]) {
    const back = cellAt(view, toX(view, x), toY(view, y));
    assert.ok(Math.abs(back.x - x) < 1e-9 && Math.abs(back.y - y) < 1e-9);
    assert.ok(toX(view, x) >= 0 && toX(view, x) <= 900 && toY(view, y) >= 0 && toY(view, y) <= 500);
  }
  const [before, after] = [cellAt(view, 200, 100), cellAt(zoomed(view, 2, 200, 100), 200, 100)];
  assert.ok(Math.hypot(before.x - after.x, before.y - after.y) < 1e-9);
});

test('classes meet where the field between two cells reaches the edge', () => {
  // Two cells, 50 and 60: the edge at 54 lies four tenths of the way from the middle of the first to that of the second.
  const planes = { width: 2, height: 1, field: Int16Array.from([5000, 6000]), shade: Uint8Array.from([6, 6]), land: Uint8Array.from([1, 1]) };
  const view = { cx: 1, cy: 0.5, k: 100, aspect: 1, width: 200, height: 10 };
  const image = paint(planes, steps([null, 54]), view, 1, false);
  const row = new Uint32Array(image.data.buffer).slice(0, 200);
  const change = row.findIndex((c) => c !== row[60]  && row.indexOf(c) > 60);
  assert.ok(Math.abs(change - 90) <= 1, `at ${change}`);
  assert.equal(row[0], table(false)[6]);
  assert.equal(row[199], table(false)[SHADES + 6]);
});

test('a cell without field is bare land, whatever its neighbours are', () => {
  const planes = { width: 3, height: 1, field: Int16Array.from([8000, -32768, 8000]), shade: Uint8Array.from([6, 6, 6]), land: Uint8Array.from([1, 1, 1]) };
  const image = paint(planes, steps([null, 48, 54]), { cx: 1.5, cy: 0.5, k: 10, aspect: 1, width: 30, height: 10 }, 1, false);
  assert.equal(new Uint32Array(image.data.buffer)[15], table(false)[6]);
});

test('plates cover neither each other nor the marks', () => {
  const view = { cx: 50, cy: 50, k: 6, aspect: 1, width: 600, height: 600 };
  const places = Array.from({ length: 9 }, (_, i) => ({ x: 20 + (i % 3) * 24, y: 20 + Math.floor(i / 3) * 24, lines: ['A place', '50.3'] }));
  const plates = markPlates(places, view, []);
  const meet = (a, b) => a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
  plates.forEach((a, i) => plates.forEach((b, j) => assert.ok(i >= j || !meet(a, b), `${i} ${j}`)));
  const ring = Array.from({ length: 200 }, (_, i) => [50 + 40 * Math.cos(i / 31.8), 50 + 40 * Math.sin(i / 31.8)]).flat();
  const figures = contourPlates([{ rings: [ring], says: '54' }], view, plates, () => true);
  assert.ok(figures.length > 0);
  for (const f of figures) for (const p of plates) assert.ok(!meet(f, p));
});

test('a level stands on the ruler between the edges of its class', () => {
  const edges = [null, 48, 54, 60];
  assert.equal(onRuler(edges, 48, 50), 150);
  assert.equal(onRuler(edges, 51, 50), 125);
  assert.equal(onRuler(edges, 20, 50), 200);
});

test('rings, marks and stops are where they say', () => {
  const radius = byRings([{ value: 50, share: 0.5 }, { value: 500, share: 1 }], 200);
  assert.deepEqual([radius(0), radius(50), radius(500)], [0, 100, 200]);
  assert.deepEqual(marks(0, 1000, 4).map((m) => m.says), ['0', '500', '1,000']);
  assert.deepEqual(marks(-30, 0, 3).map((m) => m.says), ['−30', '−20', '−10', '0']);
  assert.equal(nearest([0, 0.25, 1], 0.6), 1);
  assert.equal(straight(10, 20, 0, 100)(15), 50);
});

const overlap = (a, b) => a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

test('letters beside points that stand together do not cover one another', () => {
  const points = [[100, 100], [103, 98], [109, 100], [240, 90]].map(([x, y]) => ({ x, y }));
  const letters = apart(points, 12, { left: 0, top: 0, right: 300, bottom: 200 });
  for (const [i, a] of letters.entries()) {
    assert.ok(a.letterX >= 12 && a.letterX <= 288 && a.letterY >= 12 && a.letterY <= 188);
    for (const b of letters.slice(i + 1)) assert.ok(Math.hypot(a.letterX - b.letterX, a.letterY - b.letterY) > 23, `${i}`);
  }
});

test('on a compass card no plate covers another, however close the bearings', () => {
  const places = [{ az: 88, name: 'Thrannock' }, { az: 100, name: 'Port Orren' }, { az: 245, name: 'Quellow' }];
  const mark = { az: 90, radius: 170, says: '0.0 dB in hand at 90°' };
  const spoke = quietSpoke([88, 100, 245, 90], [170, 120, 85, 54], () => 170);
  const texts = cardTexts([{ radius: 170, says: '500 W' }, { radius: 120, says: '250 W' }, { radius: 85, says: '125 W' }, { radius: 54, says: '50 W' }], spoke, places, mark, 170);
  const all = [...texts.rings, ...texts.places, texts.mark];
  for (const [i, a] of all.entries()) for (const b of all.slice(i + 1)) assert.ok(!overlap(a, b), `${i}`);
});

test('texts about points of one place on a curve stand clear of each other and inside', () => {
  const frame = { left: 46, right: 430, top: 4, bottom: 206 };
  const texts = cutTexts([[120, 40], [124, 42], [126, 41], [420, 30]].map(([x, y]) => ({ x, y, says: 'Port Orren 3.4°, 7.2 dBd' })), frame);
  for (const [i, a] of texts.entries()) {
    assert.ok(a.x >= frame.left && a.x + a.width <= frame.right && a.y >= frame.top);
    for (const b of texts.slice(i + 1)) assert.ok(!overlap(a, b), `${i}`);
  }
});

test('texts above a curve stand one under another, right of their points', () => {
  const texts = stackedTexts([[120, 70], [60, 74], [126, 90]].map(([x, y]) => ({ x, y, says: 'Port Orren 3.4°, 7.2 dBd' })), 2, 430);
  assert.ok(texts[1].y < texts[0].y && texts[0].y < texts[2].y);
  for (const [i, a] of texts.entries()) {
    assert.ok(a.x > 126 && a.x + a.width <= 430);
    for (const b of texts.slice(i + 1)) assert.ok(!overlap(a, b));
  }
});

test('the unrolled pattern covers its area once, north half at either end', () => {
  const area = (path) => [...path.matchAll(/M([\d.]+) [\d.]+H([\d.]+)/g)].reduce((sum, [, a, b]) => sum + Number(b) - Number(a), 0);
  const paths = classPaths([[0, 0, 1, 1], [1, 0, 0, 2]], 3, 400, 100);
  assert.equal(paths.reduce((sum, p) => sum + area(p), 0), 800);
  assert.match(paths[0], /M350 0H400/);
  const drawn = wirePaths([{ pieces: [[0, 10, 0, 30]] }, { pieces: [[1, 10, 1, 11]] }], 400, 300);
  assert.equal(drawn.y(30), 12);
  assert.ok(Math.abs(drawn.y(10) - drawn.y(30) - 20 * drawn.perM) < 1e-9);
});
