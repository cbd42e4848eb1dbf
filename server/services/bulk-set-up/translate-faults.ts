import type { FieldError } from '#server/contract/problems.ts';
import type { SlipdriftError } from '#server/errors.ts';
import type { MatchedColumn } from './match-header.ts';

/** What lives and failures call the mileage of. */
const OTHER_NAMES: Record<string, string> = { fitted_km: 'odometer_km', removed_km: 'odometer_km' };

/** Faults of the call with JSON, told of the columns of the file. */
export function translateFaults(error: SlipdriftError, matched: readonly MatchedColumn[]): FieldError[] {
  return error.errors.map((fault) => {
    const at = find(matched, fault.field) ?? find(matched, OTHER_NAMES[fault.field] ?? fault.field);
    if (at === undefined) return fault;
    const { name, column, unit } = at;
    const converted = unit === null ? '' : ` (${column.unit})`;
    return { ...fault, field: name, message: `${fault.message}${converted}` };
  });
}

/** A fault may lie within a field, as in the hours of one day, or be of a group as a whole. */
function find(matched: readonly MatchedColumn[], field: string): MatchedColumn | undefined {
  const pathOf = ({ column }: MatchedColumn) => column.path.join('.');
  return (
    matched.find((one) => field === pathOf(one) || field.startsWith(`${pathOf(one)}.`)) ??
    matched.find((one) => field !== '' && pathOf(one).startsWith(`${field}.`))
  );
}
