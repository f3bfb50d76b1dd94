import { api } from '../api/client';
import type { Masts } from '../api/types';
import { desk } from '../desk.svelte';

/** Where the mast should stand: the hills found last, and the shares of all cells. */
class Hills {
  found = $state.raw<Masts | null>(null);
  shares = $state.raw<Int16Array | null>(null);
  searching = $state(false);
  missing = $state<string | null>(null);
  /** The hill that is looked at, by rank. */
  look = $state<number | null>(null);
  /** The map is painted with shares, not with the field. */
  painted = $state(false);
  erp = $state('');
  mast = $state('');

  async search() {
    this.searching = true;
    this.missing = null;
    try {
      const found = await api.masts({ erp: this.erp.trim() || undefined, mast: this.mast.trim() || undefined });
      const bytes = await api.planes(found.raster);
      this.shares = new Int16Array(bytes);
      this.found = found;
      this.painted = true;
      desk.told = found.says;
    } catch (fault) {
      this.missing = fault instanceof Error ? fault.message : String(fault);
    } finally {
      this.searching = false;
      desk.progress = null;
    }
  }
}

export const hills = new Hills();
