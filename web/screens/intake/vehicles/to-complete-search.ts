import { type VehicleLack, vehicleLacks } from '#server/contract/words.ts';

export interface ToCompleteSearch {
  lack?: VehicleLack;
  q?: string;
  offset?: number;
  /** odometers that were explained already */
  answered?: true;
}

export function parseToCompleteSearch(raw: Record<string, unknown>): ToCompleteSearch {
  const search: ToCompleteSearch = {};
  const lack = vehicleLacks.find((one) => one === raw.lack);
  if (lack !== undefined) search.lack = lack;
  if (typeof raw.q === 'string' && raw.q.trim() !== '') search.q = raw.q.trim().slice(0, 64);
  const offset = Number(raw.offset);
  if (Number.isSafeInteger(offset) && offset > 0) search.offset = offset;
  if (raw.answered === true || raw.answered === 'true') search.answered = true;
  return search;
}

export type ToCompletePatch = { [K in keyof ToCompleteSearch]?: ToCompleteSearch[K] | undefined };

export const patchToCompleteSearch = (search: ToCompleteSearch, patch: ToCompletePatch): ToCompleteSearch =>
  parseToCompleteSearch({ ...search, ...('answered' in patch ? {} : { offset: undefined }), ...patch });
