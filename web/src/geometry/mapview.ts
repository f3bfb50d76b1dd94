/** Where a map's cells stand on the page. */

export type MapView = {
  /** Cell in the middle of the picture. */
  cx: number;
  cy: number;
  /** Pixels to a cell, west to east. */
  k: number;
  /** Height of a cell over its width. */
  aspect: number;
  width: number;
  height: number;
};

export type Box = { left: number; top: number; right: number; bottom: number };

export const toX = (view: MapView, x: number) => (x - view.cx) * view.k + view.width / 2;
export const toY = (view: MapView, y: number) => (y - view.cy) * view.k * view.aspect + view.height / 2;

/** The cell under a place of the picture. */
export function cellAt(view: MapView, px: number, py: number): { x: number; y: number } {
  return { x: (px - view.width / 2) / view.k + view.cx, y: (py - view.height / 2) / (view.k * view.aspect) + view.cy };
}

/** The view in which a box of cells fills the picture, with some room about it. */
export function fit(box: Box, aspect: number, width: number, height: number, room = 34): MapView {
  const across = Math.max(1, box.right - box.left);
  const down = Math.max(1, (box.bottom - box.top) * aspect);
  const k = Math.max(0.05, Math.min((width - 2 * room) / across, (height - 2 * room) / down));
  return { cx: (box.left + box.right) / 2, cy: (box.top + box.bottom) / 2, k, aspect, width, height };
}

/** The box of cells that rings fill, inside the grid. */
export function boxOf(rings: number[][], width: number, height: number): Box {
  const box = { left: Infinity, top: Infinity, right: -Infinity, bottom: -Infinity };
  for (const ring of rings)
    for (let i = 0; i + 1 < ring.length; i += 2) {
      box.left = Math.min(box.left, ring[i] ?? 0);
      box.right = Math.max(box.right, ring[i] ?? 0);
      box.top = Math.min(box.top, ring[i + 1] ?? 0);
      box.bottom = Math.max(box.bottom, ring[i + 1] ?? 0);
    }
  return Number.isFinite(box.left) ? box : { left: 0, top: 0, right: width, bottom: height };
}

/** Nearer or further, about a place of the picture that stays where it is. */
export function zoomed(view: MapView, by: number, px: number, py: number): MapView {
  const k = Math.min(80, Math.max(0.05, view.k * by));
  const under = cellAt(view, px, py);
  return { ...view, k, cx: under.x - (px - view.width / 2) / k, cy: under.y - (py - view.height / 2) / (k * view.aspect) };
}

/** Moved by pixels. */
export function moved(view: MapView, dx: number, dy: number): MapView {
  return { ...view, cx: view.cx - dx / view.k, cy: view.cy - dy / (view.k * view.aspect) };
}

/** How tall a map of some width stands. */
export function tall(width: number, aspect: number, box: Box): number {
  const wanted = ((box.bottom - box.top) * aspect * width) / Math.max(1, box.right - box.left);
  return Math.round(Math.max(260, Math.min(width < 500 ? width * 0.86 : width * 0.62, wanted + 40)));
}

/** A step of the probe with the arrow keys, in cells: eight pixels of the picture. */
export function stepCells(view: MapView, shift: boolean): number {
  return (shift ? 40 : 8) / view.k;
}

/** How far a drag went. */
export function far(dx: number, dy: number): boolean {
  return Math.hypot(dx, dy) > 4;
}

/** The wheel as a factor. */
export function wheelFactor(delta: number): number {
  return Math.exp(-Math.max(-200, Math.min(200, delta)) / 400);
}
