/** '; did you mean …?' where one of the known names is nearly the one that was given, else nothing. */
export function suggestName(name: string, known: readonly string[]): string {
  const plain = (text: string) => text.toLowerCase().replace(/[^a-z]/g, '');
  const near =
    known.find((other) => plain(other) === plain(name)) ?? known.find((other) => isOneSlipApart(other, name));
  return near === undefined ? '' : `; did you mean ${near}?`;
}

/** One letter more, less, or different. */
function isOneSlipApart(a: string, b: string): boolean {
  if (Math.abs(a.length - b.length) > 1) return false;
  let start = 0;
  while (start < a.length && a[start] === b[start]) start += 1;
  let end = 0;
  while (end < Math.min(a.length, b.length) - start && a.at(-1 - end) === b.at(-1 - end)) end += 1;
  return Math.max(a.length, b.length) - start - end <= 1;
}
