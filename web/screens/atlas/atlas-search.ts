/** What the address of the screen says. */
export interface AtlasSearch {
  /** back from the newest reading; a year where left out */
  days?: number;
  /** the one on top */
  vehicle?: string;
}

export const usualDays = 365;
export const periods = [
  { days: 30, label: '30 days' },
  { days: 91, label: '3 months' },
  { days: 182, label: '6 months' },
  { days: 365, label: 'a year' },
  { days: 731, label: '2 years' },
] as const;

const longestUnit = 64;

/** Takes what is sound from an address that anyone may have typed; what is not falls away by itself. */
export function parseAtlasSearch(raw: Record<string, unknown>): AtlasSearch {
  const search: AtlasSearch = {};
  const days = Number(raw.days);
  if (days !== usualDays && periods.some((one) => one.days === days)) search.days = days;
  const vehicle =
    typeof raw.vehicle === 'string' || typeof raw.vehicle === 'number' ? String(raw.vehicle) : '';
  if (vehicle !== '' && vehicle.length <= longestUnit) search.vehicle = vehicle;
  return search;
}

export type AtlasPatch = { [K in keyof AtlasSearch]?: AtlasSearch[K] | undefined };

export const patchAtlasSearch = (search: AtlasSearch, patch: AtlasPatch): AtlasSearch =>
  parseAtlasSearch({ ...search, ...patch });
