/** State of the vehicle screen that a link should carry. */
export interface VehicleSearch {
  /** the part of the mileage shown, in whole km; both or neither */
  from?: number;
  to?: number;
  /** command band in the large plot, such as '70-85'; none is the reference point */
  band?: string;
  /** the life that is looked at */
  life?: number;
}

const mostKm = 20_000_000;
const mostLives = 1000;

/** Takes what is sound from an address that anyone may have typed; what is not falls away by itself. */
export function parseVehicleSearch(raw: Record<string, unknown>): VehicleSearch {
  const search: VehicleSearch = {};
  const from = readWhole(raw.from, 0, mostKm);
  const to = readWhole(raw.to, 0, mostKm);
  if (from !== null && to !== null && from < to) {
    search.from = from;
    search.to = to;
  }
  if (typeof raw.band === 'string' && /^[\d.]{1,6}-[\d.]{1,6}$/.test(raw.band)) search.band = raw.band;
  const life = readWhole(raw.life, 1, mostLives);
  if (life !== null) search.life = life;
  return search;
}

function readWhole(raw: unknown, least: number, most: number): number | null {
  if (typeof raw !== 'number' && (typeof raw !== 'string' || raw.trim() === '')) return null;
  const value = Math.round(Number(raw));
  return value >= least && value <= most ? value : null;
}

export type VehiclePatch = { [K in keyof VehicleSearch]?: VehicleSearch[K] | undefined };

/** A patch, or what makes one of the state that it finds. */
export type VehicleChange = VehiclePatch | ((before: VehicleSearch) => VehiclePatch);

export function patchVehicleSearch(raw: VehicleSearch, change: VehicleChange): VehicleSearch {
  const before = parseVehicleSearch({ ...raw });
  return parseVehicleSearch({ ...before, ...(typeof change === 'function' ? change(before) : change) });
}
