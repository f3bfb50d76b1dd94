/** Letters beside their points, none over another. */

export type Lettered = { x: number; y: number; letterX: number; letterY: number };

/** Places for round letters of some radius near points: pushed apart from one another and from the points, inside a frame. */
export function apart(points: readonly { x: number; y: number }[], radius: number, frame: { left: number; top: number; right: number; bottom: number }): Lettered[] {
  const out = points.map((p, i) => ({ x: p.x, y: p.y, letterX: p.x + (i % 2 ? 6 : -6), letterY: p.y - radius * 2 }));
  const push = (a: Lettered, x: number, y: number, room: number) => {
    const dx = a.letterX - x || 0.01;
    const dy = a.letterY - y || 0.01;
    const gap = Math.hypot(dx, dy);
    if (gap >= room) return;
    const by = ((room - gap) / gap) * 0.5;
    a.letterX += dx * by;
    a.letterY += dy * by;
  };
  for (let round = 0; round < 120; round++)
    for (const a of out) {
      for (const b of out) {
        if (a !== b) push(a, b.letterX, b.letterY, radius * 2 + 4);
        push(a, b.x, b.y, radius + 8);
      }
      a.letterX = Math.min(frame.right - radius, Math.max(frame.left + radius, a.letterX));
      a.letterY = Math.min(frame.bottom - radius, Math.max(frame.top + radius, a.letterY));
    }
  return out;
}
