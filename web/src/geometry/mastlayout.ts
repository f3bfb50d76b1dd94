/** A mast to scale: where everything stands, in pixels. */

export type MastNumbers = { top_m: number; foot_m: number; width_m: number; bays_m: number[]; centre_m: number; element_m: number; stand_off_m: number; public_distance_m?: number | null };
export type MastLayout = {
  height: number; ground: number; x: number; top: number; foot: number; face: number;
  bays: number[]; centre: number; element: number; standOff: number;
  outline: { x: number; y: number; width: number; height: number; r: number } | null;
  braces: string; splitter: number; perM: number;
};

/** Fits mast and public distance into a width; one scale both ways. */
export function mastLayout(m: MastNumbers, width: number, x: number): MastLayout {
  const reach = m.public_distance_m ?? 0;
  const upper = Math.max(m.top_m + 1.5, ...m.bays_m.map((b) => b + reach));
  const perM = Math.max(2, Math.min(560 / (upper + 1), reach ? (Math.min(x, width - x) - 8) / (reach + m.stand_off_m) : 40));
  const ground = (upper + 0.6) * perM + 6;
  const y = (metres: number) => ground - metres * perM;
  const face = Math.max(8, m.width_m * perM);
  const top = y(m.top_m);
  const foot = y(m.foot_m);
  let braces = '';
  let left = true;
  for (let at = foot; at > top + face; at -= face) {
    braces += left ? `M${x - face / 2} ${at}L${x + face / 2} ${at - face}` : `M${x + face / 2} ${at}L${x - face / 2} ${at - face}`;
    braces += `M${x - face / 2} ${at - face}H${x + face / 2}`;
    left = !left;
  }
  const bays = m.bays_m.map(y);
  const high = Math.min(...bays);
  const low = Math.max(...bays);
  const r = reach * perM;
  return {
    height: ground + 26, ground, x, top, foot, face, bays, centre: y(m.centre_m), element: Math.max(10, m.element_m * perM),
    standOff: Math.max(12, m.stand_off_m * perM), braces, perM,
    splitter: Math.min(foot - 30, low + Math.max(26, 1.6 * perM)),
    outline: reach && bays.length ? { x: x - r, y: high - r, width: 2 * r, height: Math.max(0, Math.min(ground, low + r) - (high - r)), r } : null,
  };
}

/** Places for short texts on one side, pushed apart so that none covers the next. */
export function spread(wanted: number[], gap: number): number[] {
  const out: number[] = [];
  for (const at of wanted) out.push(Math.max(at, (out.at(-1) ?? -Infinity) + gap));
  return out;
}

/** Least distance between neighbours in a column. */
export function apartBy(places: number[]): number {
  return places.slice(1).reduce((least, at, i) => Math.min(least, Math.abs(at - (places[i] ?? 0))), Infinity);
}
