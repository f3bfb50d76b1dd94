/** The place after one in a ring of places; both ends meet when `round`. */
export function after(index: number, length: number, round = false): number {
  const next = index + 1;
  return next < length ? next : round ? 0 : length - 1;
}

/** The place before one. */
export function before(index: number, length: number, round = false): number {
  const previous = index - 1;
  return previous >= 0 ? previous : round ? length - 1 : 0;
}

/** Counting from one, as people do. */
export function ordinal(index: number): number {
  return index + 1;
}

/** Line and column, from one, of a place in a text; and back. */
export function placeOf(lines: string[], line: number, column: number, further = 0): number {
  let at = 0;
  for (let i = 0; i < Math.min(line - 1, lines.length); i++) at += (lines[i]?.length ?? 0) + 1;
  return at + Math.max(0, column - 1) + further;
}

/** The place in the middle of a list. */
export function halfway(count: number): number {
  return Math.floor(count / 2);
}
