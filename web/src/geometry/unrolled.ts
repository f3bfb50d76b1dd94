/** A pattern unrolled: cells of one class side by side drawn as one, so that a few hundred shapes carry it. */

/** For each class a path that covers its cells; the first cell of a row stands about north, half of it at either end. */
export function classPaths(rows: readonly (readonly number[])[], classes: number, width: number, height: number): string[] {
  const out = Array.from({ length: classes }, () => '');
  const across = rows[0]?.length ?? 1;
  const [w, h] = [width / across, height / Math.max(1, rows.length)];
  const n = (value: number) => Math.round(value * 100) / 100;
  rows.forEach((row, r) => {
    // Half a cell of north on the left, and again on the right.
    const cells = [...row, row[0] ?? 0];
    let from = 0;
    for (let i = 1; i <= cells.length; i++) {
      if (i < cells.length && cells[i] === cells[from]) continue;
      const left = Math.max(0, (from - 0.5) * w);
      const right = Math.min(width, (i - 0.5) * w);
      const k = cells[from] ?? 0;
      out[k] += `M${n(left)} ${n(r * h)}H${n(right)}V${n((r + 1) * h + 0.3)}H${n(left)}Z`;
      from = i;
    }
  });
  return out;
}

/** Pieces of wire as a path, to scale: one scale both ways, the middle of what is drawn in the middle of the width. */
export function wirePaths(classes: readonly { pieces: readonly (readonly number[])[] }[], width: number, mostHeight: number): { paths: string[]; height: number; y: (metres: number) => number; x: (metres: number) => number; perM: number } {
  let [left, right, low, high] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const c of classes)
    for (const p of c.pieces) {
      left = Math.min(left, p[0] ?? 0, p[2] ?? 0);
      right = Math.max(right, p[0] ?? 0, p[2] ?? 0);
      low = Math.min(low, p[1] ?? 0, p[3] ?? 0);
      high = Math.max(high, p[1] ?? 0, p[3] ?? 0);
    }
  const perM = Math.min((width - 120) / Math.max(0.1, right - left), (mostHeight - 24) / Math.max(0.1, high - low));
  const x = (m: number) => width / 2 + (m - (left + right) / 2) * perM;
  const y = (m: number) => 12 + (high - m) * perM;
  const n = (value: number) => Math.round(value * 10) / 10;
  const paths = classes.map((c) => c.pieces.map((p) => `M${n(x(p[0] ?? 0))} ${n(y(p[1] ?? 0))}L${n(x(p[2] ?? 0))} ${n(y(p[3] ?? 0))}`).join(''));
  return { paths, height: 24 + (high - low) * perM, y, x, perM };
}
