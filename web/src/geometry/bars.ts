/** Bars, rows and rulers in pixels. */
import { straight, type Scale } from './scale';

/** Middles of rows of one height, and the height of all. */
export function rows(count: number, each: number): { middles: number[]; height: number } {
  return { middles: Array.from({ length: count }, (_, i) => (i + 0.5) * each), height: count * each };
}

/** A bar from one level to another on a scale, wide enough to be seen. */
export function bar(x: Scale, from: number, to: number): { left: number; width: number } {
  return { left: Math.min(x(from), x(to)), width: Math.max(1.5, Math.abs(x(from) - x(to))) };
}

/** The greatest of some lengths, never nothing. */
export function longest(lengths: number[]): number {
  return Math.max(1, ...lengths);
}

/** Equal cells side by side in a width. */
export function cells(width: number, count: number): { left: number; middle: number; width: number }[] {
  const each = width / Math.max(1, count);
  return Array.from({ length: count }, (_, i) => ({ left: i * each, middle: (i + 0.5) * each, width: each }));
}

/** Where a level stands on a ruler whose classes, lowest at the foot, are one step tall each and evenly marked within. */
export function onRuler(edges: (number | null)[], level: number, step: number): number {
  const inside = Math.max(0, edges.findLastIndex((edge) => edge === null || level >= edge));
  const low = edges[inside] ?? (edges[1] ?? level) - 6;
  const high = edges[inside + 1] ?? low + 6;
  const part = Math.min(1, Math.max(0, (level - low) / (high - low || 1)));
  return (edges.length - inside - part) * step;
}

/** Distance from the middle of a card by rings that say what share of the radius each value has. */
export function byRings(rings: { value: number; share: number }[], full: number): Scale {
  const rising = [...rings].sort((a, b) => a.value - b.value);
  return (value) => {
    const above = rising.find((r) => r.value >= value) ?? rising.at(-1);
    const below = rising.findLast((r) => r.value < value && r !== above);
    if (!above) return 0;
    return Math.max(0, Math.min(full * 1.12, straight(below?.value ?? 0, above.value, (below?.share ?? 0) * full, above.share * full)(value)));
  };
}

/** A part of a length. */
export function part(share: number, length: number): number {
  return share * length;
}

/** The side of a square card in a width. */
export function cardSide(width: number, most: number): number {
  return Math.min(width, most);
}

/** The value of a curve nearest to an azimuth, the circle closed. */
export function atAzimuth(points: readonly (readonly number[])[], azDeg: number): number {
  const away = (az: number) => Math.abs(((az - azDeg + 540) % 360) - 180);
  let best = points[0];
  for (const p of points) if (best && away(p[0] ?? 0) < away(best[0] ?? 0)) best = p;
  return best?.[1] ?? 0;
}

/** How far to scroll so that a line stands in the middle. */
export function scrollToLine(line: number, lineHeight: number, visible: number): number {
  return Math.max(0, lineHeight * line - visible / 2);
}
