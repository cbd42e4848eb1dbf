import type { Look } from '#server/contract/looks.ts';
import type { Mapping, StoredMapping } from '#server/contract/mappings.ts';
import { alignColumns } from './change-mapping.ts';

type Seen = Pick<Look, 'columns' | 'names'>;

/** Whether a file has all that a mapping takes; of a long layout at least one of the names, since a file may be short. */
export function fits(mapping: Mapping, seen: Seen): boolean {
  const names = seen.columns.map(({ column }) => column);
  const columns = new Set(names);
  const taken = alignColumns(mapping, names).columns;
  if (taken.length === 0 || !taken.every(({ column }) => columns.has(column))) return false;
  if (mapping.layout === 'wide') return true;
  const values = new Set(seen.names.map(({ name }) => name));
  return values.size === 0 || mapping.names.some(({ name }) => values.has(name));
}

/** The stored mapping that takes most of what a file has; of equals the one changed last. */
export function findFitting(stored: readonly StoredMapping[], seen: Seen): StoredMapping | null {
  const size = ({ mapping }: StoredMapping) => mapping.columns.length + mapping.names.length;
  const fitting = stored.filter(({ mapping }) => mapping.header && fits(mapping, seen));
  return fitting.toSorted((a, b) => size(b) - size(a) || b.changed_at.localeCompare(a.changed_at))[0] ?? null;
}
