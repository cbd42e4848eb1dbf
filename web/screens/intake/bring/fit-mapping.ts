import type { Look } from '#server/contract/looks.ts';
import type { Mapping, StoredMapping } from '#server/contract/mappings.ts';

type Seen = Pick<Look, 'columns' | 'names'>;

/** Whether a file has all that a mapping takes; of a long layout at least one of the names, since a file may be short. */
export function fits(mapping: Mapping, seen: Seen): boolean {
  const columns = new Set(seen.columns.map(({ column }) => column));
  if (mapping.columns.length === 0 || !mapping.columns.every(({ column }) => columns.has(column)))
    return false;
  if (mapping.layout === 'wide') return true;
  const names = new Set(seen.names.map(({ name }) => name));
  return names.size === 0 || mapping.names.some(({ name }) => names.has(name));
}

/** The stored mapping that takes most of what a file has; of equals the one changed last. */
export function findFitting(stored: readonly StoredMapping[], seen: Seen): StoredMapping | null {
  const size = ({ mapping }: StoredMapping) => mapping.columns.length + mapping.names.length;
  const fitting = stored.filter(({ mapping }) => mapping.header && fits(mapping, seen));
  return fitting.toSorted((a, b) => size(b) - size(a) || b.changed_at.localeCompare(a.changed_at))[0] ?? null;
}
