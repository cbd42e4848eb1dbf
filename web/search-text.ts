/**
 * The address bar holds plain text: `?grade=hold,book&q=00417`. Each screen's own parser turns it into
 * what it needs, so that a unit number such as 00417 or 1e5 is never taken for a number.
 */
export const parseSearchText = (text: string): Record<string, string> =>
  Object.fromEntries(new URLSearchParams(text));

export function writeSearchText(search: Record<string, unknown>): string {
  const params = new URLSearchParams();
  for (const [key, value] of Object.entries(search))
    if (typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean')
      params.set(key, String(value));
  const text = params.toString().replaceAll('%2C', ',').replaceAll('%2F', '/');
  return text === '' ? '' : `?${text}`;
}
