import { api, Refused } from './api/client';
import type { Change, Edit, Event, Refusal, SaidFigure, SaidFinding, Stage, View } from './api/types';
import { say, speak } from './words/say.svelte';
import { SHEETS, stagesOf, type SheetName } from './sheets/list';

type Progress = { what: string; share: number; left?: string | null };

/** The state of the page: the view in force, the echo of a hand on a slider, and what is opened. */
class Desk {
  /** The last view the server stands by. */
  view = $state.raw<View | null>(null);
  /** The echo of a slider that is being moved. */
  echo = $state.raw<View | null>(null);
  sheet = $state<SheetName>('glance');
  /** A stage in hand, where a sheet serves several. */
  stage = $state<Stage | null>(null);
  progress = $state.raw<Progress | null>(null);
  refusal = $state.raw<Refusal | null>(null);
  /** The figure whose how is open, and where on the sheet it was opened. */
  how = $state<{ id: string; at: string } | null>(null);
  /** What a screen reader is told. */
  told = $state('');
  opened = $state<'keys' | 'find' | 'history' | 'chain' | null>(null);
  dark = $state(false);
  wide = $state(true);
  fileAt = $state<string | null>(null);
  papersToken = $state('');
  /** Changes when the offers do. */
  offersToken = $state('');
  #address: string | null = null;
  #drafting: AbortController | null = null;
  /** The act and the reading begun last, and whether that act still awaits its answer. */
  #act = Symbol();
  #reading = Symbol();
  #acting = false;
  #waiting: ReturnType<typeof setTimeout> | undefined;

  /** What is shown: the echo while a hand moves something, with the findings kept in order until it lets go. */
  shown = $derived.by<View | null>(() => {
    if (!this.echo || !this.view) return this.view;
    return { ...this.echo, sheet: { ...this.echo.sheet, findings: this.view.sheet.findings }, handles: this.view.handles };
  });
  /** The stage in hand: the one asked for, else the one the sheet is named after, else the worst of the sheet's, else its first. */
  present = $derived.by(() => {
    const stages = stagesOf(this.sheet);
    const here = (this.shown?.sheet.stages ?? []).filter((s) => stages.includes(s.stage));
    return here.find((s) => s.stage === this.stage) ?? here.find((s) => s.stage === this.sheet) ?? here.find((s) => s.worst === 'error') ?? here.find((s) => s.worst === 'warning') ?? here[0];
  });
  figures = $derived(new Map<string, SaidFigure>((this.shown?.sheet.figures ?? []).map((f) => [f.id, f])));

  async start() {
    this.dark = document.documentElement.dataset.theme === 'dark';
    await this.#read();
    this.#listen();
  }

  #listen() {
    const events = new EventSource('api/events');
    const on = (message: MessageEvent<string>) => this.#hear(JSON.parse(message.data) as Event);
    events.onmessage = on;
    // Whatever happened while nobody listened: the view is read anew.
    events.onopen = () => void this.#read();
    events.onerror = () => {
      this.progress = null;
      this.refusal = { code: 'no-server', says: say('no-server') };
    };
  }

  #hear(event: Event) {
    if (event.kind === 'progress') this.progress = event;
    if (event.kind === 'failed') this.refusal = { code: 'failed', says: event.says };
    if (event.kind === 'failed' || event.kind === 'done') this.progress = null;
    if (event.kind === 'papers') this.papersToken = crypto.randomUUID();
    if (event.kind === 'offers') {
      this.progress = null;
      this.offersToken = crypto.randomUUID();
    }
    if (event.kind === 'changed' || event.kind === 'done' || event.kind === 'changed-outside') void this.#read();
  }

  /** Reads the view anew. A reading that an act overtook, or a later reading, says nothing. */
  async #read() {
    const mine = Symbol();
    this.#reading = mine;
    const [act, acting] = [this.#act, this.#acting];
    try {
      const view = await api.view();
      if (this.#reading !== mine || this.#act !== act || acting) return this.#follow(this.view);
      if (view.token === this.view?.token && !this.refusal) return this.#follow(view);
      // A hand that is moving something keeps its echo.
      const { echo } = this;
      this.#show(view);
      this.echo = echo;
    } catch (fault) {
      if (this.#reading === mine) this.refuse(fault);
    }
  }

  /** An act on the station: its answer counts unless a later act was begun. */
  async #do(begin: () => Promise<View>): Promise<boolean> {
    const mine = Symbol();
    this.#act = mine;
    this.#acting = true;
    try {
      const view = await begin();
      if (this.#act === mine) this.#show(view);
      return true;
    } catch (fault) {
      this.refuse(fault);
      return false;
    } finally {
      if (this.#act === mine) this.#acting = false;
    }
  }

  #show(view: View) {
    const was = this.shown;
    speak(view.sheet.language);
    this.view = view;
    this.echo = null;
    this.refusal = null;
    if (was && was.token !== view.token) this.#tell(view);
    this.#follow(view);
  }

  /** A draft is followed by the whole answer: asked for again should its announcement have been missed. */
  #follow(view: View | null) {
    clearTimeout(this.#waiting);
    if (view?.draft || this.#acting) this.#waiting = setTimeout(() => void this.#read(), 2000);
  }

  /** Shows why something was not done. */
  refuse(fault: unknown) {
    if (fault instanceof DOMException && fault.name === 'AbortError') return;
    // A newer echo is on its way.
    if (fault instanceof Refused && fault.refusal.code === 'moot') return;
    this.echo = null;
    this.refusal = fault instanceof Refused ? fault.refusal : { code: 'failed', says: say('no-server') };
  }

  #tell(view: View) {
    if (view.last) this.told = view.last.effect ? say('change-told', { says: view.last.says, effect: view.last.effect }) : view.last.says;
  }

  /** A view from an answer that held one. */
  accept(view: View) {
    this.#act = Symbol();
    this.#acting = false;
    this.#show(view);
  }

  apply(edits: Edit[]) {
    this.#drafting?.abort();
    return this.#do(() => api.apply(edits));
  }

  choose(offer: string) {
    this.#drafting?.abort();
    return this.#do(() => api.chooseOffer(offer));
  }

  /** The echo of a hand that moves: a newer one stops the older. */
  async draft(edits: Edit[]) {
    this.#drafting?.abort();
    const mine = new AbortController();
    this.#drafting = mine;
    try {
      const echo = await api.draft(edits, mine.signal);
      if (this.#drafting === mine) this.echo = echo;
    } catch (fault) {
      this.refuse(fault);
    }
  }

  /** Lets go of an echo without keeping it. */
  letGo() {
    this.#drafting?.abort();
    this.echo = null;
  }

  undo = () => this.#do(api.undo);
  redo = () => this.#do(api.redo);
  history = (): Promise<Change[]> => api.history();
  cancel = () => api.cancel().catch((fault: unknown) => this.refuse(fault));

  go(sheet: SheetName, stage: Stage | null = null) {
    location.hash = stage ? `#/${sheet}/${stage}` : `#/${sheet}`;
    // At once, so that a quick second key starts from here.
    this.readAddress();
  }

  /** Reads the address: sheet, and stage where it names one. */
  readAddress() {
    if (this.#address === location.hash) return;
    this.#address = location.hash;
    const [, name, more] = location.hash.split('/');
    const found = SHEETS.find((s) => s.name === name);
    this.how = null;
    this.opened = null;
    this.sheet = found?.name ?? 'glance';
    this.stage = this.sheet === 'file' ? null : ((more as Stage | undefined) ?? null);
    this.fileAt = this.sheet === 'file' && more ? decodeURIComponent(more) : null;
  }

  ask(id: string, at: string) {
    this.how = this.how?.id === id && this.how.at === at ? null : { id, at };
  }

  setTheme(dark: boolean) {
    this.dark = dark;
    document.documentElement.dataset.theme = dark ? 'dark' : 'light';
    localStorage.setItem('theme', dark ? 'dark' : 'light');
  }

  findingsAt(stages: Stage[]): SaidFinding[] {
    return (this.shown?.sheet.findings ?? []).filter((f) => stages.includes(f.stage));
  }
}

export const desk = new Desk();
