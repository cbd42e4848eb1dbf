import { type Given, given } from '#server/contract/mappings.ts';
import { SlipdriftError } from '#server/errors.ts';

/** What a query says of a file that only whoever brings it can know. */
export function readGiven(query: Record<string, string>): Given {
  const found = given.safeParse(Object.fromEntries(Object.entries(query).filter(([, text]) => text !== '')));
  if (found.success) return found.data;
  const errors = found.error.issues.map(({ path, message }) => ({
    field: path.map(String).join('.'),
    message,
  }));
  const [first] = errors;
  throw new SlipdriftError('invalid_request', `${first?.field} ${first?.message}. Nothing was stored.`, {
    errors,
  });
}

/** A mapping says how separated values are read, and has no say over other bodies. */
export function requireCsv(format: string, mappingName: string | undefined): void {
  if (mappingName === undefined || format === 'csv') return;
  const message = 'is for text/csv alone';
  throw new SlipdriftError('invalid_request', `mapping ${message}. Nothing was stored.`, {
    errors: [{ field: 'mapping', message }],
  });
}

export function readUnknownColumns(value: string | undefined): boolean {
  if (value === undefined || value === 'refuse') return false;
  if (value === 'ignore') return true;
  const message = 'must be refuse or ignore';
  throw new SlipdriftError('invalid_request', `unknown_columns ${message}. Nothing was stored.`, {
    errors: [{ field: 'unknown_columns', message }],
  });
}
