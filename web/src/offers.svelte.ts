import { api } from './api/client';
import type { Offers } from './api/types';
import { desk } from './desk.svelte';

/** The designs worked out for the brief. */
class OfferBook {
  now = $state.raw<Offers | null>(null);
  #asked = Symbol();

  /** Reads how they stand; a later reading counts. */
  async read() {
    const mine = Symbol();
    this.#asked = mine;
    try {
      const now = await api.offers();
      if (this.#asked === mine) this.now = now;
    } catch (fault) {
      desk.refuse(fault);
    }
  }

  async workOut() {
    try {
      await api.workOutOffers();
    } catch (fault) {
      desk.refuse(fault);
    }
    await this.read();
  }
}

export const offers = new OfferBook();
