import { isDay } from '#web/format/days.ts';

/** All of the bay plan's state that a link should carry; at most one of the last six is open beside the grid. */
export interface BayPlanSearch {
  view?: 'day';
  depot?: string;
  /** first day of the grid */
  from?: string;
  /** how many days the grid has */
  days?: number;
  /** of the day view */
  day?: string;
  /** number of the booking that is open */
  open?: number;
  /** vehicle of the proposal that is open */
  proposed?: string;
  /** unit to book */
  book?: string;
  /** where to book: day, bay and depot, joined by commas */
  place?: string;
  /** vehicles that a proposal is asked for, as `kept-units.ts` writes them; else it is for all */
  propose?: string;
  beside?: 'book' | 'plan' | 'calendars';
}

export const usualDays = 14;
export const mostDays = 35;

const besides = ['open', 'proposed', 'book', 'place', 'propose', 'beside'] as const;

/** Takes what is sound from an address that anyone may have typed; what is not falls away by itself. */
export function parseBayPlanSearch(raw: Record<string, unknown>): BayPlanSearch {
  const search: BayPlanSearch = {};
  if (raw.view === 'day') search.view = 'day';
  for (const key of ['depot', 'proposed', 'book'] as const) {
    const text = raw[key];
    if (typeof text === 'string' && text.trim() !== '') search[key] = text.trim().slice(0, 64);
  }
  for (const key of ['from', 'day'] as const) {
    const day = raw[key];
    if (isDay(day)) search[key] = day;
  }
  const days = Number(raw.days);
  if (Number.isInteger(days) && days >= 1 && days <= mostDays && days !== usualDays) search.days = days;
  const open = Number(raw.open);
  if (Number.isSafeInteger(open) && open >= 1) search.open = open;
  if (typeof raw.place === 'string' && readPlace(raw.place) !== null) search.place = raw.place;
  if (typeof raw.propose === 'string' && raw.propose !== '') search.propose = raw.propose;
  if (raw.beside === 'book' || raw.beside === 'plan' || raw.beside === 'calendars')
    search.beside = raw.beside;
  return search;
}

export type BayPlanPatch = { [K in keyof BayPlanSearch]?: BayPlanSearch[K] | undefined };

/** A change of some of the state. What opens beside the grid closes what was open there. */
export function patchBayPlanSearch(search: BayPlanSearch, patch: BayPlanPatch): BayPlanSearch {
  const opens = besides.some((key) => patch[key] !== undefined);
  const kept = opens ? { ...search, ...closeBeside } : search;
  return parseBayPlanSearch({ ...kept, ...patch });
}

/** Nothing is open beside the grid. */
export const closeBeside: BayPlanPatch = Object.fromEntries(besides.map((key) => [key, undefined]));

export interface Place {
  depot: string;
  day: string;
  bay: number;
}

export const writePlace = ({ day, bay, depot }: Place): string => `${day},${bay},${depot}`;

export function readPlace(text: string): Place | null {
  const [day, bayText, ...rest] = text.split(',');
  const bay = Number(bayText);
  const depot = rest.join(',');
  if (!isDay(day) || !Number.isInteger(bay) || bay < 1 || bay > 500 || depot === '') return null;
  return { day, bay, depot };
}
