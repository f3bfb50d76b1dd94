/** Lettering on a compass card: plates that cover neither each other nor, where it can be helped, the curve. */
import { textWidth, type Plate } from './labels';
import { onCard } from './path';

export type CardText = Plate & { textX: number; baseline: number };

const meets = (a: Plate, b: Plate) => a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
const apart = (a: number, b: number) => Math.abs(((a - b + 540) % 360) - 180);

/** A plate for a text about a point: `side` −1 to the left, 0 across the middle, 1 to the right of it. */
function plate(at: { x: number; y: number }, text: string, size: number, side: -1 | 0 | 1): CardText {
  const width = textWidth(text, size) + 6;
  const x = side === 0 ? at.x - width / 2 : side < 0 ? at.x - width : at.x;
  return { x, y: at.y - 9, width, height: 18, textX: x + width / 2, baseline: at.y + 4 };
}

/** The spoke on which the rings' lettering disturbs least: far from places, from the mark, and from where the curve crosses the rings. */
export function quietSpoke(azimuths: number[], ringRadii: number[], curve: (azDeg: number) => number): number {
  let best = 75;
  let least = Infinity;
  for (let az = 15; az < 360; az += 15) {
    if (az % 90 === 0) continue;
    const near = Math.max(0, 40 - Math.min(180, ...azimuths.map((a) => apart(a, az))));
    const crossed = ringRadii.reduce((sum, r) => sum + Math.max(0, 22 - Math.abs(curve(az) - r)), 0);
    const penalty = near * 4 + crossed * 3;
    if (penalty < least) [least, best] = [penalty, az];
  }
  return best;
}

/** Plates for rings along a spoke, for places within the rim, and for the mark of the tightest direction. */
export function cardTexts(
  rings: { radius: number; says: string }[],
  spoke: number,
  places: { az: number; name: string }[],
  mark: { az: number; radius: number; says: string } | null,
  full: number,
): { rings: CardText[]; places: CardText[]; mark: CardText | null } {
  const taken: Plate[] = [];
  const keep = <T extends Plate>(options: T[]): T => {
    const free = options.find((o) => !taken.some((t) => meets(t, o))) ?? (options[0] as T);
    taken.push(free);
    return free;
  };
  const side = (x: number) => (x > full * 0.2 ? -1 : x < -full * 0.2 ? 1 : 0);
  const placed = places.map((p) => keep([20, 38, 56, 74].map((inside) => {
    const at = onCard(p.az, full - inside);
    return plate(at, p.name, 13.5, side(at.x));
  })));
  const ringed = rings.map((r) => keep([0, 5, -5, 10, -10].map((turn) => plate(onCard(spoke + turn, r.radius), r.says, 12.5, 0))));
  const marked = mark
    ? keep([0.5, 0.4, 0.3, 0.6, 0.2, 0.7].flatMap((part) => [0, 14, -14, 28, -28].map((turn) => plate(onCard(mark.az + turn, full * part), mark.says, 13.5, 0))))
    : null;
  return { rings: ringed, places: placed, mark: marked };
}

/** A vertical cut by depression: downwards positive, from a little above the horizon to the ground. */
export function downwards(points: readonly (readonly number[])[]): number[][] {
  return points.map((p) => [-(p[0] ?? 0), p[1] ?? 0]).sort((a, b) => (a[0] ?? 0) - (b[0] ?? 0));
}

/** Plates for texts about points of a curve: to the right, stacked where they would meet, with the end of a leader each. */
export function cutTexts(points: { x: number; y: number; says: string }[], frame: { left: number; right: number; top: number; bottom: number }): (CardText & { leadX: number; leadY: number })[] {
  const taken: Plate[] = points.map((p) => ({ x: p.x - 6, y: p.y - 6, width: 12, height: 12 }));
  return points.map((p) => {
    const options = [14, 34, 54, 74, 94, 114, -26].flatMap((down) =>
      [12, 40, -12].map((aside) => {
        const text = plate({ x: p.x + aside, y: p.y + down }, p.says, 13.5, aside > 0 ? 1 : -1);
        const lead = { leadX: aside > 0 ? text.x : text.x + text.width, leadY: text.y + 9 };
        return { ...text, ...lead };
      }),
    );
    const inside = (o: Plate) => o.x >= frame.left && o.x + o.width <= frame.right && o.y >= frame.top && o.y + o.height <= frame.bottom;
    const free = options.find((o) => inside(o) && !taken.some((t) => meets(t, o))) ?? options.find(inside) ?? (options[0] as (typeof options)[number]);
    taken.push(free);
    return free;
  });
}

/** Plates for the same texts one under another above the curve, right of all points, in the order in which no two leaders cross. */
export function stackedTexts(points: { x: number; y: number; says: string }[], top: number, right: number): (CardText & { leadX: number; leadY: number })[] {
  const widest = Math.max(0, ...points.map((p) => textWidth(p.says, 13.5) + 6));
  const x = Math.min(right - widest, Math.max(0, ...points.map((p) => p.x)) + 26);
  const order = points.map((_, i) => i).sort((a, b) => (points[a]?.x ?? 0) - (points[b]?.x ?? 0));
  const out: (CardText & { leadX: number; leadY: number })[] = [];
  order.forEach((i, row) => {
    const text = plate({ x, y: top + 9 + row * 19 }, points[i]?.says ?? '', 13.5, 1);
    out[i] = { ...text, leadX: x - 3, leadY: text.y + 9 };
  });
  return out;
}
