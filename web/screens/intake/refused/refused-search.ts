import { type LineState, lineStates } from '#server/contract/words.ts';

export interface RefusedSearch {
  fault?: string;
  receipt?: string;
  sender?: string;
  state?: Exclude<LineState, 'open'>;
  /** the line that is being corrected */
  line?: number;
}

const longest = 500;

export function parseRefusedSearch(raw: Record<string, unknown>): RefusedSearch {
  const search: RefusedSearch = {};
  for (const key of ['fault', 'sender'] as const) {
    const text = raw[key];
    if (typeof text === 'string' && text !== '') search[key] = text.slice(0, longest);
  }
  if (typeof raw.receipt === 'string' && /^[0-9a-f-]{36}$/i.test(raw.receipt)) search.receipt = raw.receipt;
  const state = lineStates.find((one) => one === raw.state);
  if (state !== undefined && state !== 'open') search.state = state;
  const line = Number(raw.line);
  if (Number.isSafeInteger(line) && line > 0) search.line = line;
  return search;
}

export type RefusedPatch = { [K in keyof RefusedSearch]?: RefusedSearch[K] | undefined };

/** Another fault or filter leaves the line that was being corrected; another filter the fault too. */
export const patchRefusedSearch = (search: RefusedSearch, patch: RefusedPatch): RefusedSearch =>
  parseRefusedSearch({
    ...search,
    ...('line' in patch ? {} : { line: undefined }),
    ...('line' in patch || 'fault' in patch ? {} : { fault: undefined }),
    ...patch,
  });
