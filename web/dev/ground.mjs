// An invented island for work on the page alone: heights, field and coast made from sums of bumps. Nothing here is computed by a method.
export const W = 300;
export const H = 210;
const bump = (x, y, cx, cy, rx, ry, h) => h * Math.exp(-(((x - cx) / rx) ** 2 + ((y - cy) / ry) ** 2));
const wave = (x, y) => 14 * Math.sin(x / 9.1) * Math.cos(y / 7.3) + 9 * Math.sin(x / 4.3 + y / 5.1) + 5 * Math.sin(y / 2.9 - x / 6);
export function height(x, y) {
  return -70 + bump(x, y, 135, 75, 60, 40, 230) + bump(x, y, 165, 108, 100, 48, 140) + bump(x, y, 60, 120, 38, 34, 110) + bump(x, y, 138, 62, 18, 14, 170) + bump(x, y, 172, 92, 6, 40, 130) + wave(x, y);
}
export const MAST = { x: 138, y: 66 };
export function fieldAt(x, y) {
  const d = Math.hypot(x - MAST.x, y - MAST.y) * 0.06 + 0.2;
  let shadow = 0;
  for (let t = 0.1; t < 1; t += 0.05) {
    const ray = height(MAST.x, MAST.y) + 24 + (height(x, y) + 10 - height(MAST.x, MAST.y) - 24) * t;
    shadow = Math.max(shadow, height(MAST.x + (x - MAST.x) * t, MAST.y + (y - MAST.y) * t) - ray);
  }
  return 104 - 20 * Math.log10(d) - Math.min(32, shadow * 0.16) - (shadow > 0 ? 6 : 0) - 6;
}

// Rings of equal value by walking the cells' sides.
export function rings(value, level) {
  const next = new Map();
  const at = (x, y) => value[Math.max(0, Math.min(H - 1, y)) * W + Math.max(0, Math.min(W - 1, x))] - level;
  const cut = (x0, y0, x1, y1) => { const a = at(x0, y0); const b = at(x1, y1); const t = a / (a - b); return [x0 + 0.5 + (x1 - x0) * t, y0 + 0.5 + (y1 - y0) * t]; };
  const key = (p) => `${p[0].toFixed(4)} ${p[1].toFixed(4)}`;
  for (let y = -1; y < H; y++) for (let x = -1; x < W; x++) {
    const inside = (cx, cy) => cx >= 0 && cy >= 0 && cx < W && cy < H && at(cx, cy) >= 0;
    const c = [inside(x, y), inside(x + 1, y), inside(x + 1, y + 1), inside(x, y + 1)];
    const code = c[0] * 8 + c[1] * 4 + c[2] * 2 + c[3] * 1;
    if (code === 0 || code === 15 || x < 0 || y < 0 || x >= W - 1 || y >= H - 1) continue;
    const T = () => cut(x, y, x + 1, y); const R = () => cut(x + 1, y, x + 1, y + 1); const B = () => cut(x, y + 1, x + 1, y + 1); const L = () => cut(x, y, x, y + 1);
    const add = (a, b) => { const k = key(a); next.set(k, [...(next.get(k) ?? []), [a, b]]); };
    const table = { 1: [[L, B]], 2: [[B, R]], 3: [[L, R]], 4: [[R, T]], 5: [[L, T], [R, B]], 6: [[B, T]], 7: [[L, T]], 8: [[T, L]], 9: [[T, B]], 10: [[T, R], [B, L]], 11: [[T, R]], 12: [[R, L]], 13: [[R, B]], 14: [[B, L]] };
    for (const [a, b] of table[code]) add(a(), b());
  }
  const out = [];
  for (const start of [...next.keys()]) {
    let list = next.get(start);
    if (!list?.length) continue;
    const ring = [];
    let k = start;
    while ((list = next.get(k))?.length) { const [a, b] = list.pop(); ring.push(+a[0].toFixed(2), +a[1].toFixed(2)); k = key(b); }
    if (ring.length > 16) out.push(ring);
  }
  return out;
}
