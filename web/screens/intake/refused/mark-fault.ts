export interface MarkedText {
  before: string;
  marked: string;
  after: string;
}

/** Where in a line the field at fault stands; nothing is marked where that cannot be told. */
export function markFault(
  raw: string,
  field: string,
  reading: Readonly<Record<string, unknown>> | null,
): MarkedText {
  const found = findInJson(raw, field) ?? findCell(raw, reading?.[field]);
  if (found === null) return { before: raw, marked: '', after: '' };
  const [from, to] = found;
  return { before: raw.slice(0, from), marked: raw.slice(from, to), after: raw.slice(to) };
}

type Span = [number, number];

/** `"field": value` as a whole, so that a value that is null or empty is seen too. */
function findInJson(raw: string, field: string): Span | null {
  if (field === '') return null;
  const name = field.split('.')[0]?.replaceAll(/[^\w]/g, '\\$&') ?? '';
  const match = new RegExp(`"${name}"\\s*:\\s*("(?:[^"\\\\]|\\\\.)*"|\\[[^\\]]*\\]|[^,}\\s]+)`).exec(raw);
  return match === null ? null : [match.index, match.index + match[0].length];
}

/** A cell that says what was read of it, where only one does. */
function findCell(raw: string, value: unknown): Span | null {
  if (typeof value !== 'string' && typeof value !== 'number') return null;
  const text = String(value);
  const spans: Span[] = [];
  for (const match of raw.matchAll(/[^,;\t|]+/g)) {
    const cell = match[0].trim().replaceAll('"', '');
    const isSame = cell === text || (typeof value === 'number' && cell !== '' && Number(cell) === value);
    if (isSame) spans.push([match.index, match.index + match[0].length]);
  }
  const [only] = spans;
  return spans.length === 1 && only !== undefined ? only : null;
}
