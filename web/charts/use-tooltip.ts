/** Where on the axis of use the pointer is; null where a tooltip tells of nothing. */
export function placeOf(items: unknown): number | null {
  const first: unknown = Array.isArray(items) ? items[0] : items;
  const value: unknown =
    typeof first === 'object' && first !== null && 'axisValue' in first ? first.axisValue : null;
  return value === null || !Number.isFinite(Number(value)) ? null : Number(value);
}

/** Names of groups come from people and files; a tooltip is HTML. */
export const escapeHtml = (text: string): string =>
  text.replaceAll(/[&<>"']/g, (character) => `&#${character.charCodeAt(0)};`);
