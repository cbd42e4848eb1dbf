import type {
  SetUpFileChange,
  SetUpFileReply,
  SetUpFileWarning,
} from '#server/contract/set-up-files/set-up-file-reply.ts';
import { findSetUpFile } from '#server/contract/set-up-files/set-up-files.ts';
import { formatWhole } from '#web/format/format-number.ts';

const plurals: Record<string, string> = { 'converter life': 'converter lives' };
const count = (n: number, one: string): string =>
  `${formatWhole(n)} ${n === 1 ? one : (plurals[one] ?? `${one}s`)}`;

/** What a file came to, or would come to, as one sentence. */
export function sayOutcome(name: string, reply: SetUpFileReply): string {
  const { lines, created, changed, unchanged, dry_run: dryRun } = reply;
  const { one } = findSetUpFile(reply.kind);
  const had = `${name} ${dryRun ? 'has' : 'had'} ${count(lines, 'line')}`;
  if (created + changed === 0) return `${had}. All that it says is on record already.`;
  const would = dryRun ? 'would be ' : n(created || changed);
  const parts = [
    ...(created > 0 ? [`${count(created, one)} ${would}created`] : []),
    ...(changed > 0
      ? [created > 0 ? `${formatWhole(changed)} changed` : `${count(changed, one)} ${would}changed`]
      : []),
  ];
  const rest =
    unchanged === 0 ? '' : `; ${formatWhole(unchanged)} ${unchanged === 1 ? 'is' : 'are'} as on record`;
  return `${had}: ${parts.join(' and ')}${rest}.`;
}

const n = (many: number): string => (many === 1 ? 'was ' : 'were ');

/** The line, or how many lines and which are the first, of what is said once for all of them. */
export function sayLines({ count: all, lines }: Pick<SetUpFileWarning, 'count' | 'lines'>): string {
  const named = lines.map(formatWhole).slice(0, 6);
  if (all === 1) return `Line ${named[0]}`;
  if (all <= named.length) return `Lines ${named.join(', ')}`;
  return `${formatWhole(all)} lines (${named.join(', ')}, …)`;
}

export interface ChangeRow {
  key: string;
  line: number | null;
  change: SetUpFileChange;
  /** null where the change as a whole is one row */
  field: string | null;
  before: string | null;
  after: string | null;
}

/** A row for each column that changes; what is new is one row. */
export function listChangeRows(changes: readonly SetUpFileChange[]): ChangeRow[] {
  return changes.flatMap((change, index): ChangeRow[] => {
    const { line, action, fields } = change;
    if (action !== 'changed' || fields.length === 0) {
      const after = fields.map(({ field, after: value }) => `${field} ${value}`).join(', ');
      return [{ key: `${index}`, line, change, field: null, before: null, after: after || null }];
    }
    return fields.map(({ field, before, after }) => ({
      key: `${index} ${field}`,
      line,
      change,
      field,
      before,
      after,
    }));
  });
}
