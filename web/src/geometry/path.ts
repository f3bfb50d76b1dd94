import type { Scale } from './scale';

type Points = readonly (readonly number[])[];

const n = (value: number) => Math.round(value * 100) / 100;

/** A line through points, as SVG path data. */
export function line(points: Points, x: Scale, y: Scale): string {
  return points.map((p, i) => `${i ? 'L' : 'M'}${n(x(p[0] ?? 0))} ${n(y(p[1] ?? 0))}`).join('');
}

/** The area between a line and a level in pixels. */
export function under(points: Points, x: Scale, y: Scale, floorPx: number): string {
  if (!points.length) return '';
  const first = points[0] ?? [0, 0];
  const last = points[points.length - 1] ?? first;
  return `${line(points, x, y)}L${n(x(last[0] ?? 0))} ${n(floorPx)}L${n(x(first[0] ?? 0))} ${n(floorPx)}Z`;
}

/** The area between two lines. */
export function between(above: Points, below: Points, x: Scale, y: Scale): string {
  if (!above.length || !below.length) return '';
  return `${line(above, x, y)}L${line([...below].reverse(), x, y).slice(1)}Z`;
}

/** A place on a compass card: degrees clockwise from the top, distance from the middle in pixels. */
export function onCard(azDeg: number, radius: number): { x: number; y: number } {
  const angle = (azDeg * Math.PI) / 180;
  return { x: n(radius * Math.sin(angle)), y: n(-radius * Math.cos(angle)) };
}

/** A closed curve round a compass card. */
export function roundCard(points: Points, radius: Scale): string {
  if (!points.length) return '';
  return `${points
    .map((p, i) => {
      const at = onCard(p[0] ?? 0, Math.max(0, radius(p[1] ?? 0)));
      return `${i ? 'L' : 'M'}${at.x} ${at.y}`;
    })
    .join('')}Z`;
}

/** The same, held as steps: each value counts until the next azimuth. */
export function roundCardStepped(points: Points, radius: Scale): string {
  const held: number[][] = [];
  points.forEach((p, i) => {
    const next = points[(i + 1) % points.length] ?? p;
    const end = i + 1 < points.length ? (next[0] ?? 0) : 360;
    for (let az = p[0] ?? 0; az < end; az += 2) held.push([az, p[1] ?? 0]);
    held.push([end, p[1] ?? 0]);
  });
  return roundCard(held, radius);
}

/** Short oblique strokes along a line: ground, cut. */
export function hatch(width: number, height: number, step: number): string {
  let d = '';
  for (let x = 0; x < width; x += step) d += `M${n(x)} ${height}L${n(x + height)} 0`;
  return d;
}

/** The value at a place along a curve, and the point nearest to it. */
export function pointAt(points: Points, along: number): readonly number[] | undefined {
  let best: readonly number[] | undefined;
  for (const p of points) if (!best || Math.abs((p[0] ?? 0) - along) < Math.abs((best[0] ?? 0) - along)) best = p;
  return best;
}

/** The value under a place in pixels: a straight scale read backwards. */
export function backwards(from: number, to: number, fromPx: number, toPx: number, at: number): number {
  return from + ((at - fromPx) / (toPx - fromPx || 1)) * (to - from);
}
