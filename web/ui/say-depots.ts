const mostNamed = 3;

/** The depots that somebody works for, in words. */
export function sayDepots(depots: readonly string[] | null, nameOf: (id: string) => string): string {
  if (depots === null) return 'all depots';
  const names = depots.map(nameOf);
  const rest = names.length - mostNamed;
  if (rest > 1) return `${names.slice(0, mostNamed).join(', ')} and ${rest} more`;
  const last = names.at(-1);
  if (last === undefined) return 'no depot';
  return names.length === 1 ? last : `${names.slice(0, -1).join(', ')} and ${last}`;
}
