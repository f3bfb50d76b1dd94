import type { Stage } from '../api/types';

/** The sheets in their order; stages of the chain lead to them. */
export const SHEETS = [
  { name: 'glance', stages: [] as Stage[], key: '0' },
  { name: 'brief', stages: ['brief'] as Stage[], key: 'b' },
  { name: 'file', stages: [] as Stage[], key: 'f' },
  { name: 'offers', stages: [] as Stage[], key: 'o' },
  { name: 'studio', stages: ['microphones', 'console', 'processing'] as Stage[], key: '' },
  { name: 'link', stages: ['link'] as Stage[], key: '' },
  { name: 'antenna', stages: ['transmitter', 'feeder', 'antenna'] as Stage[], key: '' },
  { name: 'coverage', stages: ['field', 'listener'] as Stage[], key: '' },
  { name: 'findings', stages: [] as Stage[], key: 'w' },
  { name: 'sites', stages: ['sites'] as Stage[], key: 'h' },
  { name: 'money', stages: ['money'] as Stage[], key: 'm' },
  { name: 'papers', stages: [] as Stage[], key: 'd' },
  { name: 'acceptance', stages: [] as Stage[], key: 'a' },
] as const;

export type SheetName = (typeof SHEETS)[number]['name'];

/** The nine stages of the air chain, in order. */
export const CHAIN: Stage[] = ['microphones', 'console', 'processing', 'link', 'transmitter', 'feeder', 'antenna', 'field', 'listener'];

/** The sheet of a stage. */
export function sheetOf(stage: Stage): SheetName {
  return SHEETS.find((s) => (s.stages as readonly Stage[]).includes(stage))?.name ?? 'glance';
}

/** The stages a sheet is about. */
export function stagesOf(sheet: SheetName): Stage[] {
  return [...(SHEETS.find((s) => s.name === sheet)?.stages ?? [])];
}
