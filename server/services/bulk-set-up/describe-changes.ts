import type { SetUpColumn } from '#server/contract/set-up-files/set-up-column.ts';
import type { SetUpFileChange } from '#server/contract/set-up-files/set-up-file-reply.ts';
import { findSetUpFile, type SetUpFile } from '#server/contract/set-up-files/set-up-files.ts';
import type { SetUpChange } from '#server/services/fleet/set-up.ts';
import { writeCell } from './write-cell.ts';

/** What changes, column by column as the file would say it. */
export function describeChanges(file: SetUpFile, noted: readonly SetUpChange[]): SetUpFileChange[] {
  // Failures come to lives.
  const { columns } = file.kind === 'failures' ? findSetUpFile('lives') : file;
  return noted
    .map(({ line, subject, subjectId, action, before, after }) => ({
      line: line ?? null,
      subject,
      id: subjectId,
      action,
      fields:
        action === 'created' || action === 'changed' ? listFields(columns, before ?? {}, after ?? {}) : [],
    }))
    .toSorted((a, b) => (a.line ?? Number.POSITIVE_INFINITY) - (b.line ?? Number.POSITIVE_INFINITY));
}

type Content = Record<string, unknown>;

function listFields(columns: readonly SetUpColumn[], before: Content, after: Content) {
  const say = (column: SetUpColumn, content: Content) => {
    const cell = writeCell(column, content);
    return cell === null ? null : String(cell);
  };
  const fields = columns
    .map((column) => ({ field: column.name, before: say(column, before), after: say(column, after) }))
    .filter((one) => one.before !== one.after);
  const wasUnknown = before.registered === false && after.registered === true;
  return wasUnknown ? [...fields, { field: 'registered', before: 'no', after: 'yes' }] : fields;
}
