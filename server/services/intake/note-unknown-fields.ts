import { readingFields } from '#server/contract/readings.ts';
import type { UnknownField } from '#server/contract/receipts.ts';
import { toPlainText } from './to-plain-text.ts';

const known = new Set(readingFields);
const NAMES_KEPT = 20;
const NAME_CHARACTERS = 64;

/** Lines, refused ones aside, by the name of a field that is none of ours. */
export type UnknownFields = Map<string, number>;

/** Counts what a reading brought beside our fields: a misspelt one would else be lost without a word. */
export function noteUnknownFields(unknown: UnknownFields, value: object): void {
  for (const field of Object.keys(value)) {
    if (known.has(field)) continue;
    const name = toPlainText(field.slice(0, NAME_CHARACTERS));
    const lines = unknown.get(name);
    if (lines !== undefined || unknown.size < NAMES_KEPT) unknown.set(name, (lines ?? 0) + 1);
  }
}

export const listUnknownFields = (unknown: UnknownFields): UnknownField[] =>
  [...unknown].map(([field, lines]) => ({ field, lines }));
