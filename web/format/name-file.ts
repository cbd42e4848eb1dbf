/** 'Slip over the last 10,000 km' is slip-over-the-last-10-000-km. */
const slug = (text: string): string =>
  text
    .normalize('NFKD')
    .replaceAll(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .slice(0, 60)
    .replaceAll(/^-+|-+$/g, '');

const two = (value: number): string => String(value).padStart(2, '0');

/** A file's name without its ending: the product, what it shows, the reader's day. */
export const nameFile = (parts: readonly string[], at: Date): string =>
  [
    'slipdrift',
    ...new Set(parts.map(slug).filter((part) => part !== '')),
    `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`,
  ].join('-');
