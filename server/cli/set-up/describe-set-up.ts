import type { FieldError } from '#server/contract/problems.ts';
import type { SetUpFileChange, SetUpFileReply } from '#server/contract/set-up-files/set-up-file-reply.ts';

const number = new Intl.NumberFormat('en');
const counted = (n: number, one: string): string => `${number.format(n)} ${one}${n === 1 ? '' : 's'}`;
/** More than a person reads in a terminal. */
const MOST_LINES = 40;

/** What a file came to, as lines for a person. */
export function describeSetUp(name: string, reply: SetUpFileReply): string[] {
  const { created, changed, unchanged, dry_run: dryRun } = reply;
  const [is, would] = dryRun ? ['Nothing was changed: ', 'would be '] : ['', ''];
  return [
    `${name}: ${is}of ${counted(reply.lines, 'line')}, ${number.format(created)} ${would}created, ${number.format(changed)} ${would}changed, ${number.format(unchanged)} as on record.`,
    ...shorten(reply.changes.map(describeChange), reply.changes_total, 'change'),
    ...shorten(
      reply.warnings.map(
        ({ field, message, count, lines }) =>
          `  ${count === 1 ? `line ${lines[0]}` : `${number.format(count)} lines, from line ${lines[0]} on`}, take care: ${[field, message].filter(Boolean).join(' ')}`,
      ),
      reply.warnings_total,
      'warning',
    ),
  ];
}

export const describeFaults = (faults: readonly FieldError[]): string[] =>
  shorten(
    faults.map(
      ({ line, field, message }) =>
        `  ${line === undefined ? '' : `line ${line}: `}${field === '' ? '' : `${field} `}${message}`,
    ),
    faults.length,
    'fault',
  );

function describeChange({ line, subject, id, action, fields }: SetUpFileChange): string {
  const where = line === null ? 'besides' : `line ${line}`;
  const what = fields.map(({ field, before, after }) =>
    before === null ? `${field} ${after}` : `${field} ${before} -> ${after ?? 'nothing'}`,
  );
  return `  ${where}: ${subject} ${id} ${action.replaceAll('_', ' ')}${what.length === 0 ? '' : `: ${what.join(', ')}`}`;
}

function shorten(lines: readonly string[], total: number, one: string): string[] {
  const shown = lines.slice(0, MOST_LINES);
  return total > shown.length ? [...shown, `  and ${counted(total - shown.length, `more ${one}`)}`] : shown;
}
