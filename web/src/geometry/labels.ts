/** Lettering on a map: plates that do not cover one another. */
import { toX, toY, type MapView } from './mapview';

export type Plate = { x: number; y: number; width: number; height: number };

const meets = (a: Plate, b: Plate) => a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

/** Width that a text takes, nearly. */
export function textWidth(text: string, size: number): number {
  return text.length * size * 0.48 + 2;
}

/** Plates for marks: right of the mark where there is room, else left, below, above. */
export function markPlates(marks: { x: number; y: number; lines: string[]; tall?: boolean }[], view: MapView, kept: Plate[]): (Plate | null)[] {
  const taken: Plate[] = marks.map((m) => ({ x: toX(view, m.x) - 8, y: toY(view, m.y) - (m.tall ? 26 : 8), width: 16, height: m.tall ? 34 : 16 }));
  taken.push(...kept);
  return marks.map((mark, i) => {
    const x = toX(view, mark.x);
    const y = toY(view, mark.y);
    if (x < -20 || y < -20 || x > view.width + 20 || y > view.height + 20) return null;
    const width = Math.max(...mark.lines.map((l) => textWidth(l, 14))) + 12;
    const height = mark.lines.length * 17 + 4;
    const places: Plate[] = [
      { x: x + 13, y: y - 12, width, height },
      { x: x - 13 - width, y: y - 12, width, height },
      { x: x - width / 2, y: y + 12, width, height },
      { x: x - width / 2, y: y - 28 - height, width, height },
    ];
    const inside = (p: Plate) => p.x >= 2 && p.y >= 2 && p.x + p.width <= view.width - 2 && p.y + p.height <= view.height - 2;
    const free = places.find((p) => inside(p) && !taken.some((t, j) => j !== i && meets(t, p)));
    const place = free ?? places.find(inside) ?? null;
    if (place) taken.push(place);
    return place;
  });
}

/** Length of a ring on the page. */
function ringLength(ring: number[], view: MapView): number {
  let length = 0;
  for (let i = 2; i + 1 < ring.length; i += 2)
    length += Math.hypot(((ring[i] as number) - (ring[i - 2] as number)) * view.k, ((ring[i + 1] as number) - (ring[i - 1] as number)) * view.k * view.aspect);
  return length;
}

/** Rings long enough on the page to be drawn as a line. */
export function longEnough(rings: number[][], view: MapView, least: number): number[][] {
  return rings.filter((ring) => ringLength(ring, view) >= least);
}

/** Places for the figures on contours: on long lines, apart from each other and from what is taken. */
export function contourPlates(lines: { rings: number[][]; says: string }[], view: MapView, taken: Plate[], onLand: (x: number, y: number) => boolean): (Plate & { says: string })[] {
  const out: (Plate & { says: string })[] = [];
  for (const line of lines)
    for (const ring of line.rings) {
      if (ringLength(ring, view) < 320) continue;
      let run = 0;
      let since = 150;
      for (let i = 2; i + 1 < ring.length; i += 2) {
        const x = toX(view, ring[i] as number);
        const y = toY(view, ring[i + 1] as number);
        const step = Math.hypot(x - toX(view, ring[i - 2] as number), y - toY(view, ring[i - 1] as number));
        run += step;
        since += step;
        if (run < 60 || since < 420 || !onLand(ring[i] as number, ring[i + 1] as number)) continue;
        const plate = { x: x - 11, y: y - 9, width: 22, height: 18, says: line.says };
        const roomy = { x: plate.x - 26, y: plate.y - 20, width: plate.width + 52, height: plate.height + 40 };
        const inside = plate.x > 4 && plate.y > 4 && plate.x + 26 < view.width && plate.y + 22 < view.height;
        if (!inside || taken.some((t) => meets(t, plate)) || out.some((t) => meets(t, roomy))) continue;
        out.push(plate);
        since = 0;
      }
    }
  return out;
}

/** The scale bar's length and marks in pixels. */
export function scaleBar(marks: { cells: number; says: string }[], view: MapView): { x: number; says: string }[] {
  return marks.map((m) => ({ x: m.cells * view.k, says: m.says }));
}

/** A baseline moved below any line whose own lettering, just above it, it would cover. */
export function clearOf(baseline: number, lines: number[]): number {
  const line = lines.find((at) => baseline > at - 18 && baseline < at + 12);
  return line === undefined ? baseline : line + 13;
}
