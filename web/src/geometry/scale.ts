/** Where a value stands on a line of pixels. */
export type Scale = (value: number) => number;

/** A straight scale from two values to two places. */
export function straight(from: number, to: number, fromPx: number, toPx: number): Scale {
  const span = to - from || 1;
  return (value) => fromPx + ((value - from) / span) * (toPx - fromPx);
}

/** Least and greatest of many numbers, drawn apart by `room` of their span. */
export function bounds(values: number[], room = 0): [number, number] {
  let low = Infinity;
  let high = -Infinity;
  for (const value of values) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  if (!Number.isFinite(low)) return [0, 1];
  if (low === high) return [low - 1, high + 1];
  const more = (high - low) * room;
  return [low - more, high + more];
}

/** Round marks on an axis: steps of 1, 2 or 5 times a power of ten, about `count` of them. */
export function marks(low: number, high: number, count: number): { at: number; says: string }[] {
  const rough = (high - low) / Math.max(1, count);
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((m) => m * power).find((s) => s >= rough * 0.999) ?? power * 10;
  const digits = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const out: { at: number; says: string }[] = [];
  for (let i = Math.ceil(low / step - 1e-9); i * step <= high + step * 1e-9; i++) out.push({ at: i * step, says: figures(i * step, digits) });
  return out;
}

/** A number on an axis: true minus, thousands parted. */
export function figures(value: number, digits: number): string {
  const text = Math.abs(value).toFixed(digits);
  const grouped = text.replace(/\B(?=(\d{3})+(?!\d))/g, ',');
  return value < 0 && Number(text) !== 0 ? `−${grouped}` : grouped;
}

/** The nearest of several places to one, as an index. */
export function nearest(places: number[], to: number): number {
  let best = 0;
  for (let i = 1; i < places.length; i++) if (Math.abs((places[i] ?? 0) - to) < Math.abs((places[best] ?? 0) - to)) best = i;
  return best;
}

/** How far along a box a pointer stands, 0 to 1. */
export function share(client: number, start: number, length: number): number {
  return Math.min(1, Math.max(0, (client - start) / (length || 1)));
}

/** A share as a CSS length. */
export function percent(part: number): string {
  return `${(Math.min(1, Math.max(0, part)) * 100).toFixed(2)}%`;
}

/** A length on the page. */
export function px(length: number): string {
  return `${length}px`;
}

/** A place some equal steps on. */
export function turn(from: number, step: number, count: number): number {
  return from + step * count;
}
