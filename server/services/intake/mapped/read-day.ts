import type { Mapping } from '#server/contract/mappings.ts';

type Order = Mapping['time']['order'];

const LANGUAGES = ['en', 'de', 'fr', 'es', 'it', 'pt', 'nl', 'pl', 'sv'];
const toPlain = (word: string): string =>
  word
    .normalize('NFD')
    .replaceAll(/[\u0300-\u036f.]/g, '')
    .toLowerCase();

const months = nameMonths();
/** Between the parts of a date, in words. */
const FILLERS = new Set(['de', 'del', 'of', 'le', 'den']);
const YEAR_SHORT_UNTIL = 70;

/** A date as ms since 1970 at midnight UTC; null where it is none, or not in this order. */
export function readDay(text: string, order: Order): number | null {
  if (/^\d{8}$/.test(text)) return toDayMs(text.slice(0, 4), text.slice(4, 6), text.slice(6));
  let parts = text.split(/[\s,./\-_]+/).filter((part) => part !== '' && !FILLERS.has(part.toLowerCase()));
  const [first = ''] = parts;
  // The name of a weekday before it.
  if (parts.length === 4 && /^\p{L}+$/u.test(first) && months.get(toPlain(first)) === undefined)
    parts = parts.slice(1);
  if (parts.length !== 3) return null;
  const named = parts.findIndex((part) => /^\p{L}/u.test(part));
  if (named >= 0) return readNamed(parts, named);
  const [a = '', b = '', c = ''] = parts;
  if (/^\d{4}$/.test(a)) return toDayMs(a, b, c);
  if (order === 'ymd') return /^\d{2}$/.test(a) && /^\d{1,2}$/.test(c) ? toDayMs(a, b, c) : null;
  return order === 'dmy' ? toDayMs(c, b, a) : toDayMs(c, a, b);
}

function readNamed(parts: string[], named: number): number | null {
  const month = months.get(toPlain(parts[named] ?? ''));
  if (month === undefined || named > 1) return null;
  const [a = '', b = ''] = parts
    .filter((_, i) => i !== named)
    .map((part) => part.replace(/(st|nd|rd|th|er|\.|º)$/i, ''));
  return /^\d{4}$/.test(a) ? toDayMs(a, String(month), b) : toDayMs(b, String(month), a);
}

function toDayMs(yearText: string, monthText: string, dayText: string): number | null {
  if (!/^(\d{2}|\d{4})$/.test(yearText) || !/^\d{1,2}$/.test(monthText) || !/^\d{1,2}$/.test(dayText))
    return null;
  const short = Number(yearText);
  const year = yearText.length === 4 ? short : short + (short < YEAR_SHORT_UNTIL ? 2000 : 1900);
  const month = Number(monthText);
  const day = Number(dayText);
  // Date.UTC takes years below 100 for years of the twentieth century.
  if (year < 1000 || month < 1 || month > 12) return null;
  const ms = Date.UTC(year, month - 1, day);
  return day >= 1 && new Date(ms).getUTCMonth() === month - 1 ? ms : null;
}

function nameMonths(): ReadonlyMap<string, number> {
  const named = new Map<string, number>([['sept', 9]]);
  for (const language of LANGUAGES)
    for (const width of ['short', 'long'] as const)
      for (let month = 1; month <= 12; month++) {
        const format = new Intl.DateTimeFormat(language, { day: 'numeric', month: width, timeZone: 'UTC' });
        const parts = format.formatToParts(Date.UTC(2026, month - 1, 15));
        const name = toPlain(parts.find(({ type }) => type === 'month')?.value ?? '');
        if (!named.has(name)) named.set(name, month);
      }
  return named;
}
