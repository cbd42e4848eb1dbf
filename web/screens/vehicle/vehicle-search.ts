import { z } from 'zod';

/** State of the vehicle screen that a link should carry. */
export interface VehicleSearch {
  /** the part of the mileage shown, in km; both or neither */
  from?: number;
  to?: number;
  /** command band in the large plot, such as '70-85'; none is the reference point */
  band?: string;
  /** the life that is looked at */
  life?: number;
}

const km = z.coerce.number().min(0).max(20_000_000);
const life = z.coerce.number().int().min(1).max(1000);

/** Takes what is sound from an address that anyone may have typed; what is not falls away by itself. */
export function parseVehicleSearch(raw: Record<string, unknown>): VehicleSearch {
  const search: VehicleSearch = {};
  const from = km.safeParse(raw.from).data;
  const to = km.safeParse(raw.to).data;
  if (from !== undefined && to !== undefined && from < to) {
    search.from = Math.round(from);
    search.to = Math.round(to);
  }
  if (typeof raw.band === 'string' && /^[\d.]{1,6}-[\d.]{1,6}$/.test(raw.band)) search.band = raw.band;
  const chosen = life.safeParse(raw.life).data;
  if (chosen !== undefined) search.life = chosen;
  return search;
}

export type VehiclePatch = { [K in keyof VehicleSearch]?: VehicleSearch[K] | undefined };

export const patchVehicleSearch = (search: VehicleSearch, patch: VehiclePatch): VehicleSearch =>
  parseVehicleSearch({ ...search, ...patch });
