import { api, type FieldWish } from '../api/client';
import type { FieldMap, Probe } from '../api/types';
import { desk } from '../desk.svelte';
import { planes, type Planes } from '../geometry/raster';

/** The map in force, kept while a newer one is on its way; and the probe on it. */
class Field {
  map = $state.raw<FieldMap | null>(null);
  planes = $state.raw<Planes | null>(null);
  probe = $state.raw<Probe | null>(null);
  wish = $state<FieldWish>({ heard: 'roof', places: 50 });
  /** What could not be shown, in the server's words. */
  missing = $state<string | null>(null);
  probing = $state<string | null>(null);
  pins = $state.raw<Probe[]>([]);
  #asked = '';
  #where: { x?: number; y?: number; at?: string } | null = null;

  /** Asks for the map of a view, once. */
  async want(token: string) {
    const key = `${token} ${this.wish.heard} ${this.wish.places}`;
    if (this.#asked === key) return;
    this.#asked = key;
    try {
      const map = await api.field(this.wish);
      // The same address is the same picture.
      const bytes = map.raster === this.map?.raster && this.planes ? null : await api.planes(map.raster);
      if (this.#asked !== key) return;
      if (bytes) this.planes = planes(bytes, map.legend.width, map.legend.height);
      this.map = map;
      this.missing = null;
      // The place asked for last, else the first that is short, else the first.
      const place = map.legend.places.find((p) => p.short) ?? map.legend.places[0];
      const where = this.#where ?? (place ? { at: place.name } : null);
      if (where) await this.ask(where);
    } catch (fault) {
      if (this.#asked !== key) return;
      this.#asked = '';
      this.missing = fault instanceof Error ? fault.message : String(fault);
    }
  }

  /** Asks for the field at a place: the newest question counts. */
  async ask(where: { x?: number; y?: number; at?: string }) {
    const turn = Symbol();
    this.#turn = turn;
    this.#where = where;
    try {
      const probe = await api.probe({ ...this.wish, ...where });
      if (this.#turn !== turn) return;
      this.probe = probe;
      this.probing = null;
      desk.told = `${probe.name}: ${probe.field.text} ${probe.field.unit}`;
    } catch (fault) {
      if (this.#turn === turn) this.probing = fault instanceof Error ? fault.message : String(fault);
    }
  }
  #turn = Symbol();

  /** Keeps the present probe beside the next ones; four at most. */
  pin() {
    const { probe } = this;
    if (!probe || this.pins.length >= 4 || this.pins.includes(probe)) return;
    this.pins = [...this.pins, probe];
  }
  unpin(probe: Probe) {
    this.pins = this.pins.filter((p) => p !== probe);
  }
}

export const field = new Field();
