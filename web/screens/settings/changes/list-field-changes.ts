import type { Change } from '#server/contract/changes.ts';
import { formatMoment } from '#web/format/format-date.ts';

export interface FieldChange {
  field: string;
  /** null where there was nothing before, or is nothing any more */
  from: string | null;
  to: string | null;
}

/** The name of what a field refers to by id, as it is known now. */
export type NameOf = (field: string, id: string) => string;

const moment = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}.*(Z|[+-]\d{2}:\d{2})$/;

/** What a change did, field by field; parts of a part get a line of their own. */
export function listFieldChanges(
  { before, after }: Pick<Change, 'before' | 'after'>,
  nameOf: NameOf = (_, id) => id,
): FieldChange[] {
  const old = flatten(before, nameOf);
  const now = flatten(after, nameOf);
  return [...new Set([...old.keys(), ...now.keys()])]
    .map((field) => ({
      field,
      from: before === null ? null : (old.get(field) ?? 'nothing'),
      to: after === null ? null : (now.get(field) ?? 'nothing'),
    }))
    .filter(({ from, to }) => from !== to);
}

function flatten(content: Record<string, unknown> | null, nameOf: NameOf): Map<string, string> {
  const lines = new Map<string, string>();
  for (const [key, value] of Object.entries(content ?? {})) {
    const field = key.replaceAll('_', ' ');
    if (isRecord(value))
      for (const [part, words] of flatten(value, nameOf)) lines.set(`${field}, ${part}`, words);
    else lines.set(field, sayValue(key, value, nameOf));
  }
  return lines;
}

function sayValue(key: string, value: unknown, nameOf: NameOf): string {
  if (value === null || value === undefined || value === '')
    return key === 'depots' ? 'all depots' : 'nothing';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'number') return String(value);
  if (typeof value === 'string') return moment.test(value) ? formatMoment(value) : nameOf(key, value);
  if (Array.isArray(value))
    return value.length === 0 ? 'none' : value.map((one) => sayValue(key, one, nameOf)).join(', ');
  return JSON.stringify(value);
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
