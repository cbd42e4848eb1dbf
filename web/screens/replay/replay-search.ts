/** What the address of the screen says: which replay is shown, or what stands in the form. */
export interface ReplaySearch {
  id?: number;
  /** another one beside it */
  compare?: number;
  from?: string;
  to?: string;
  /** ids, with commas between */
  platforms?: string;
  depots?: string;
  horizon_km?: number;
  /** thresholds as they were typed, shares in percent */
  hold?: string;
  book?: string;
  evidence?: string;
  quiet?: string;
  /** limits to try, rpm: `morvelt:140,korvandel:160` */
  limits?: string;
  /** thresholds of the plain rules as they were typed; none: as many as the list */
  level?: string;
  rise?: string;
  note?: string;
}

const texts = ['from', 'to', 'hold', 'book', 'evidence', 'quiet', 'level', 'rise'] as const;
const long = ['platforms', 'depots', 'limits'] as const;
const longestText = 20;
const longestList = 4000;
const longestNote = 200;

/** Takes what is sound from an address that anyone may have typed; what is not falls away by itself. */
export function parseReplaySearch(raw: Record<string, unknown>): ReplaySearch {
  const search: ReplaySearch = {};
  const id = readId(raw.id);
  const compare = readId(raw.compare);
  if (id !== null) search.id = id;
  if (id !== null && compare !== null && compare !== id) search.compare = compare;
  for (const key of texts) takeText(search, key, raw[key], longestText);
  for (const key of long) takeText(search, key, raw[key], longestList);
  takeText(search, 'note', raw.note, longestNote);
  const horizon = Number(raw.horizon_km);
  if (horizon >= 1 && horizon <= 1_000_000) search.horizon_km = horizon;
  return search;
}

type TextKey = (typeof texts)[number] | (typeof long)[number] | 'note';

function takeText(search: ReplaySearch, key: TextKey, raw: unknown, longest: number): void {
  const text = typeof raw === 'string' || typeof raw === 'number' ? String(raw) : '';
  if (text.trim() !== '' && text.length <= longest) search[key] = text;
}

function readId(raw: unknown): number | null {
  const id = Number(raw);
  return Number.isSafeInteger(id) && id > 0 ? id : null;
}

export const joinLimits = (limits: Readonly<Record<string, string>>): string =>
  Object.entries(limits)
    .filter(([, text]) => text.trim() !== '')
    .map(([platform, text]) => `${encodeURIComponent(platform)}:${encodeURIComponent(text.trim())}`)
    .join(',');

export function splitLimits(joined: string | undefined): Record<string, string> {
  const pairs = (joined ?? '').split(',').flatMap((pair): [string, string][] => {
    const [platform = '', text = ''] = pair.split(':');
    const read = [decode(platform), decode(text)] as const;
    return read[0] === '' || read[1] === '' ? [] : [[read[0], read[1]]];
  });
  return Object.fromEntries(pairs);
}

function decode(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return '';
  }
}
