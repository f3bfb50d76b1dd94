import type { Antenna, Change, Edit, FieldMap, FileText, Handover, Heard, Hop, Masts, Offers, Paper, Probe, Refusal, Saved, Studio, View } from './types';

/** The server would not, or could not: its own sentence. */
export class Refused extends Error {
  constructor(readonly refusal: Refusal) {
    super(refusal.says);
  }
}

async function ask<T>(path: string, body?: unknown, method = body === undefined ? 'GET' : 'POST', signal?: AbortSignal): Promise<T> {
  const answer = await fetch(path, {
    method,
    headers: body === undefined ? {} : { 'content-type': 'application/json' },
    body: body === undefined ? undefined : JSON.stringify(body),
    signal,
  });
  if (answer.ok) return answer.status === 204 ? (undefined as T) : ((await answer.json()) as T);
  const refusal = (await answer.json().catch(() => null)) as Refusal | null;
  throw new Refused(refusal ?? { code: 'failed', says: `${answer.status} ${answer.statusText}` });
}

export type FieldWish = { heard: Heard; places: number };

const query = (entries: Record<string, string | number | undefined>) => {
  const search = new URLSearchParams();
  for (const [key, value] of Object.entries(entries)) if (value !== undefined) search.set(key, String(value));
  return search.toString();
};

/** The server's answers, typed. */
export const api = {
  view: () => ask<View>('api/sheet'),
  apply: (edits: Edit[]) => ask<View>('api/edits', { edits }),
  draft: (edits: Edit[], signal?: AbortSignal) => ask<View>('api/draft', { edits }, 'POST', signal),
  undo: () => ask<View>('api/undo', {}),
  redo: () => ask<View>('api/redo', {}),
  history: () => ask<Change[]>('api/history'),
  file: () => ask<FileText>('api/file'),
  save: (text: string, base: string) => ask<Saved>('api/file', { text, base }, 'PUT'),
  field: (wish: FieldWish) => ask<FieldMap>(`api/field?${query(wish)}`),
  planes: async (path: string) => {
    const answer = await fetch(path);
    if (!answer.ok) throw new Refused((await answer.json()) as Refusal);
    return answer.arrayBuffer();
  },
  probe: (wish: FieldWish & { x?: number; y?: number; at?: string }) => ask<Probe>(`api/probe?${query(wish)}`),
  masts: (wish: { erp?: string; mast?: string }) => ask<Masts>(`api/masts?${query(wish)}`),
  papers: () => ask<Paper[]>('api/papers'),
  writePapers: () => ask<void>('api/papers', {}),
  antennas: () => ask<Antenna[]>('api/antennas'),
  link: () => ask<Hop[]>('api/link'),
  studio: () => ask<Studio>('api/studio'),
  handover: () => ask<Handover>('api/handover'),
  offers: () => ask<Offers>('api/offers'),
  workOutOffers: () => ask<void>('api/offers', {}),
  chooseOffer: (id: string) => ask<View>(`api/offers/${encodeURIComponent(id)}`, {}),
  cancel: () => ask<void>('api/cancel', {}),
  paperUrl: (name: string) => `api/papers/${encodeURIComponent(name)}`,
};
