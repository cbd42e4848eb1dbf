import type { Look } from '#server/contract/looks.ts';
import type { FieldError } from '#server/contract/problems.ts';

/** Where on the page something that is lacking is mended. */
export type Place = 'form' | 'columns' | 'names' | 'vehicle' | 'time';

export function placeLack({ field }: Pick<FieldError, 'field'>): Place {
  const last = field.split('.').findLast((part) => !/^\d*$/.test(part)) ?? '';
  if (last === 'vehicle') return 'vehicle';
  if (['at', 'time', 'date', 'clock', 'zone', 'start', 'form', 'order'].includes(last)) return 'time';
  if (
    ['separator', 'decimal', 'encoding', 'skip_lines', 'header', 'units_line', 'layout', 'missing'].includes(
      last,
    )
  )
    return 'form';
  return field.startsWith('names') ? 'names' : 'columns';
}

export const lacksAt = (look: Pick<Look, 'lacks'>, place: Place): FieldError[] =>
  look.lacks.filter((lack) => placeLack(lack) === place);

/** Doubts that stand beside a part: of columns only those that name none of the columns shown. */
export const doubtsAt = (
  look: Pick<Look, 'doubts' | 'columns' | 'names'>,
  about: Look['doubts'][number]['about'],
): string[] => {
  const shown = new Set([...look.columns.map(({ column }) => column), ...look.names.map(({ name }) => name)]);
  return look.doubts
    .filter(
      (doubt) =>
        doubt.about === about && !(doubt.column !== null && about === 'columns' && shown.has(doubt.column)),
    )
    .map(({ message }) => message);
};

export const doubtsOf = (look: Pick<Look, 'doubts'>, column: string): string[] =>
  look.doubts
    .filter((doubt) => doubt.about === 'columns' && doubt.column === column)
    .map(({ message }) => message);

/** Of a log what concerns vehicle and time; a warning that stands beside its VIN is not said again. */
export const doubtsOfLog = (look: Pick<Look, 'doubts' | 'columns' | 'names' | 'can'>): string[] =>
  [...doubtsAt(look, 'vehicle'), ...doubtsAt(look, 'time')].filter(
    (message) => !look.can?.vins.some(({ warning }) => warning !== null && message.endsWith(warning)),
  );
