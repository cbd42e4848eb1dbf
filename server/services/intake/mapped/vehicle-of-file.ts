import type { Given } from '#server/contract/mappings.ts';

const DAY = /(?<!\d)(20\d{2})([-_.]?)(0[1-9]|1[0-2])\2(0[1-9]|[12]\d|3[01])(?!\d)/;
const WITH_CLOCK = new RegExp(`${DAY.source}(?:[T _-]+\\d{2}[-_.h]?\\d{2}(?:[-_.]?\\d{2})?(?!\\d))?`);
const ENDINGS = /(?:\.(?:csv|tsv|tab|txt|dat|log|gz))+$/i;

/** The day that a file's name holds, such as 2026-03-04 or 20260304; null where it holds none. */
export function dayOfFile(name: string): string | null {
  const [, year, , month, day] = DAY.exec(name) ?? [];
  const text = `${year}-${month}-${day}`;
  // The last days of a short month would be taken for the first of the next.
  return year === undefined || !new Date(text).toISOString().startsWith(text) ? null : text;
}

/** What is left of a file's name without folder, endings, and a day with its time: the vehicle, where names are made so. */
export function stemOfFile(name: string): string {
  const base = name.split(/[\\/]/).at(-1) ?? '';
  return base
    .replace(ENDINGS, '')
    .replace(WITH_CLOCK, ' ')
    .replaceAll(/^[\s._-]+|[\s._-]+$/g, '')
    .replaceAll(/[\s._-]{2,}/g, '-')
    .slice(0, 64);
}

/** The vehicle of a file that names none in its rows; what was given goes before the file's name. */
export function vehicleOfFile(from: 'file_name' | 'given', { vehicle, file }: Given): string | null {
  const stem = from === 'file_name' && file !== undefined ? stemOfFile(file) : '';
  return vehicle ?? (stem === '' ? null : stem);
}
