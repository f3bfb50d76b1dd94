/** Paints the field: pixels from planes, nothing else. */
import { SHADES, table } from './ramp';
import { toX, toY, type MapView } from './mapview';

/** The planes of a map, row by row from the north-west corner. */
export type Planes = { width: number; height: number; field: Int16Array; shade: Uint8Array; land: Uint8Array };

const NONE = -32768;

/** The planes from the server's bytes: field as 16-bit little-endian, then shade, then land. */
export function planes(bytes: ArrayBuffer, width: number, height: number): Planes {
  const cells = width * height;
  return { width, height, field: new Int16Array(bytes, 0, cells), shade: new Uint8Array(bytes, cells * 2, cells), land: new Uint8Array(bytes, cells * 3, cells) };
}

/** Lower edges of the classes of shares, hundredths of a per cent, and as they are written. */
export const SHARE_STEPS = [1000, 2500, 4000, 5500, 7000, 8500];
export const SHARE_SAYS = ['10', '25', '40', '55', '70', '85'];

/** The planes with shares in place of the field, where they are of one size. */
export function withShares(planes: Planes | null, shares: Int16Array | null): Planes | null {
  return planes && shares && shares.length === planes.field.length ? { ...planes, field: shares } : planes;
}

/** Whether the cell under a place is land. */
export function landAt(p: Planes, x: number, y: number): boolean {
  const [i, j] = [Math.floor(x), Math.floor(y)];
  return i >= 0 && j >= 0 && i < p.width && j < p.height && p.land[j * p.width + i] === 1;
}

/** Lower edges of the classes in the plane's own steps; the first class has none. */
export function steps(edges: (number | null | undefined)[]): number[] {
  return edges.slice(1).map((edge) => Math.round((edge ?? 0) * 100));
}

/** Paints a view of the planes. Between cells the field is carried evenly, so that classes meet along the contours. */
export function paint(p: Planes, edges: number[], view: MapView, dpr: number, dark: boolean): ImageData {
  const width = Math.max(1, Math.round(view.width * dpr));
  const height = Math.max(1, Math.round(view.height * dpr));
  const image = new ImageData(width, height);
  const out = new Uint32Array(image.data.buffer);
  const colours = table(dark);
  const stepX = 1 / (view.k * dpr);
  const stepY = 1 / (view.k * view.aspect * dpr);
  const startX = view.cx - view.width / 2 / view.k - 0.5 + stepX / 2;
  const startY = view.cy - view.height / 2 / (view.k * view.aspect) - 0.5 + stepY / 2;
  for (let j = 0; j < height; j++) {
    const v = startY + j * stepY;
    const y0 = Math.floor(v);
    if (y0 < -1 || y0 >= p.height) continue;
    const fy = v - y0;
    const rowA = Math.max(0, y0) * p.width;
    const rowB = Math.min(p.height - 1, y0 + 1) * p.width;
    for (let i = 0; i < width; i++) {
      const u = startX + i * stepX;
      const x0 = Math.floor(u);
      if (x0 < -1 || x0 >= p.width) continue;
      const fx = u - x0;
      const xa = x0 < 0 ? 0 : x0;
      const xb = x0 + 1 < p.width ? x0 + 1 : x0;
      const near = (fy < 0.5 ? rowA : rowB) + (fx < 0.5 ? xa : xb);
      const a = p.field[rowA + xa] as number;
      const b = p.field[rowA + xb] as number;
      const c = p.field[rowB + xa] as number;
      const d = p.field[rowB + xb] as number;
      let level = p.field[near] as number;
      if (a !== NONE && b !== NONE && c !== NONE && d !== NONE) level = (a * (1 - fx) + b * fx) * (1 - fy) + (c * (1 - fx) + d * fx) * fy;
      let index = 0;
      while (index < edges.length && level >= (edges[index] as number)) index++;
      const shade =
        ((p.shade[rowA + xa] as number) * (1 - fx) + (p.shade[rowA + xb] as number) * fx) * (1 - fy) +
        ((p.shade[rowB + xa] as number) * (1 - fx) + (p.shade[rowB + xb] as number) * fx) * fy;
      out[j * width + i] = colours[index * SHADES + Math.round(shade)] as number;
    }
  }
  return image;
}

/** Rings of cells as a path of the picture. */
export function ringsPath(rings: number[][], view: MapView): Path2D {
  const path = new Path2D();
  for (const ring of rings) {
    for (let i = 0; i + 1 < ring.length; i += 2) {
      const x = toX(view, ring[i] as number);
      const y = toY(view, ring[i + 1] as number);
      if (i) path.lineTo(x, y);
      else path.moveTo(x, y);
    }
    path.closePath();
  }
  return path;
}

export type Ink = { paper: string; ink: string; hair: string };
export type LineOf = { rings: number[][]; mono: boolean; weight: number };

/** Paints the whole map: three lines along the coast, the field on land, the coast, the contours. */
export function paintMap(canvas: HTMLCanvasElement, p: Planes | null, edges: number[], coast: number[][], lines: LineOf[], view: MapView, cellM: number, dpr: number, dark: boolean, ink: Ink, sea: boolean) {
  canvas.width = Math.round(view.width * dpr);
  canvas.height = Math.round(view.height * dpr);
  const ctx = canvas.getContext('2d');
  if (!ctx) return;
  ctx.setTransform(dpr, 0, 0, dpr, 0, 0);
  ctx.fillStyle = ink.paper;
  ctx.fillRect(0, 0, view.width, view.height);
  ctx.lineJoin = 'round';
  const shore = ringsPath(coast, view);
  const perM = view.k / cellM;
  if (!sea)
    for (const metres of [1050, 620, 280]) {
      const off = 2 * metres * perM;
      if (off < 5) continue;
      ctx.lineWidth = off + 1.4;
      ctx.strokeStyle = ink.hair;
      ctx.stroke(shore);
      ctx.lineWidth = off - 0.6;
      ctx.strokeStyle = ink.paper;
      ctx.stroke(shore);
    }
  if (p) {
    const under = document.createElement('canvas');
    const image = paint(p, edges, view, dpr, dark);
    under.width = image.width;
    under.height = image.height;
    under.getContext('2d')?.putImageData(image, 0, 0);
    ctx.save();
    if (!sea) ctx.clip(shore, 'evenodd');
    ctx.drawImage(under, 0, 0, view.width, view.height);
    for (const one of lines) {
      const path = ringsPath(one.rings, view);
      const weight = [1, 1.25, 1.6][one.weight] ?? 1;
      ctx.setLineDash([]);
      ctx.globalAlpha = 0.55;
      ctx.lineWidth = 3.2;
      ctx.strokeStyle = ink.paper;
      ctx.stroke(path);
      ctx.globalAlpha = 1;
      ctx.lineWidth = weight;
      ctx.strokeStyle = ink.ink;
      ctx.setLineDash(one.mono ? [4, 3] : []);
      ctx.stroke(path);
    }
    ctx.restore();
  }
  ctx.setLineDash([]);
  ctx.lineWidth = 1.25;
  ctx.strokeStyle = ink.ink;
  ctx.stroke(shore);
}

/** A plain raster of the classes seen as a small picture needs no more than this density. */
export function density(): number {
  return Math.min(2, window.devicePixelRatio || 1);
}
