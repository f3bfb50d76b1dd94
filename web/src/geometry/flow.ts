/** A studio's signal flow: sources left, the console as a crossbar, who listens right; every place in pixels. */

type Source = { input?: string | null; routed: readonly number[]; left_out: readonly number[] };
type Output = { bus?: number | null };

export type FlowLayout = {
  height: number;
  /** Left edges of the three columns of text, and of the symbols at either side. */
  name: number; symbol: number; outSymbol: number; outName: number;
  box: { x: number; y: number; width: number; height: number };
  number: number; gain: number;
  buses: number[];
  letters: number;
  sources: { y: number; from: number; to: number; wired: boolean; across: number; dots: { x: number; open: boolean }[] }[];
  outputs: { y: number; from: number; to: number; middle: number }[];
};

const TOP = 34;
const ROW = 42;
/** Half of a symbol. */
const HALF = 11;

/** Fits the flow into a width. */
export function flowLayout(width: number, sources: readonly Source[], buses: number, outputs: readonly Output[]): FlowLayout {
  const rows = Math.max(sources.length, outputs.length, 1);
  const high = rows * ROW + 12;
  const boxWidth = 92 + buses * 24;
  const text = Math.min(190, Math.max(120, width * 0.17));
  const symbol = text + HALF;
  const boxX = Math.max(symbol + 70, Math.min(width * 0.34, width - boxWidth - text - 190));
  const right = boxX + boxWidth;
  const outSymbol = Math.min(right + 96, width - text - 2 * HALF - 12);
  const columns = Array.from({ length: buses }, (_, i) => right - 40 - (buses - 1 - i) * 24);
  const last = columns.at(-1) ?? right - 40;
  const between = (count: number, i: number) => TOP + 6 + ROW / 2 + (count > 1 ? (i * (rows - 1) * ROW) / (count - 1) : ((rows - 1) * ROW) / 2);
  return {
    height: TOP + high + 30,
    name: 0, symbol, outSymbol, outName: outSymbol + HALF + 12,
    box: { x: boxX, y: TOP, width: boxWidth, height: high },
    number: boxX + 12, gain: boxX + 30,
    buses: columns,
    letters: right - 10,
    sources: sources.map((source, i) => {
      const wired = source.input != null;
      return {
        y: TOP + 6 + (i + 0.5) * ROW, from: symbol + HALF, to: wired ? boxX : boxX - 26, wired, across: last,
        dots: [...source.routed.map((bus) => ({ bus, open: false })), ...source.left_out.map((bus) => ({ bus, open: true }))].map(({ bus, open }) => ({ x: columns[bus] ?? last, open })),
      };
    }),
    outputs: outputs.map((_, i) => ({ y: between(outputs.length, i), from: right, to: outSymbol - HALF, middle: (right + outSymbol - HALF) / 2 })),
  };
}

/** A rack's front, numbered from the bottom: each thing with its height, and the marks of the units. */
export function rackLayout(units: number, items: readonly { units: number; over: boolean }[], unit: number): { height: number; marks: { y: number; says: string }[]; items: { y: number; height: number }[] } {
  let at = 0;
  const placed = items.map((item) => {
    const y = at * unit;
    at += item.units;
    return { y, height: item.units * unit };
  });
  return { height: Math.max(units, at) * unit, marks: Array.from({ length: units }, (_, i) => ({ y: (i + 0.5) * unit, says: String(units - i) })), items: placed };
}

/** Where a word fits beside an upright line: to its right, or to its left when there is no room. */
export function besides(at: number, wide: number, right: number): { x: number; turned: boolean } {
  const turned = at + wide + 10 > right;
  return { x: turned ? at - wide - 8 : at + 8, turned };
}
