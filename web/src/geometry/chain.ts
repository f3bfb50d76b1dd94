/** Where the nine stages of the chain stand, and how the wire runs between them. */

/** Middle of each stage along a line of the given width. */
export function stagePlaces(width: number, count: number): number[] {
  return Array.from({ length: count }, (_, i) => ((i + 0.5) * width) / count);
}

/** Height of a stem in pixels: 1.1 for each dB, at most 22, and never too small to be seen. */
export function stem(inHandDb: number): number {
  return Math.max(1.5, Math.min(22, Math.abs(inHandDb) * 1.1));
}

export type Wire = 'balanced' | 'digital' | 'low' | 'coaxial' | 'air';

/** What the wire after each stage is. */
export const WIRES: Wire[] = ['balanced', 'balanced', 'digital', 'low', 'coaxial', 'coaxial', 'air', 'air'];

/** One stretch of wire from one stage to the next, leaving room for the symbols. */
export function stretch(places: number[], index: number, room: number): { from: number; to: number; middle: number } {
  const from = (places[index] ?? 0) + room;
  const to = (places[index + 1] ?? 0) - room;
  return { from, to, middle: (from + to) / 2 };
}

/** A number moved by some pixels. */
export function shifted(place: number, by: number): number {
  return place + by;
}

/** Half of a length. */
export function half(length: number): number {
  return length / 2;
}
