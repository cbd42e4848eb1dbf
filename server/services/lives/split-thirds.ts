export const thirdNames = ['low third', 'middle third', 'high third'] as const;

export interface Third {
  name: string;
  from: number;
  to: number;
}

/**
 * Thirds of some values: which each belongs to, null where it is not known, and from where to where each goes. Equal values
 * stay together, so a third may be larger than the others, or missing.
 */
export function splitThirds(values: readonly (number | null)[]): {
  names: (string | null)[];
  thirds: Third[];
} {
  const known = values.filter((value) => value !== null).sort((a, b) => a - b);
  const upper = [1, 2].map((part) => known[Math.ceil((part * known.length) / 3) - 1] ?? 0);
  const names = values.map((value) =>
    value === null ? null : (thirdNames[upper.findIndex((edge) => value <= edge)] ?? thirdNames[2]),
  );
  const thirds = thirdNames.flatMap((name): Third[] => {
    const own = values.filter((value, i) => value !== null && names[i] === name).map(Number);
    return own.length === 0
      ? []
      : [{ name, from: own.reduce((a, b) => Math.min(a, b)), to: own.reduce((a, b) => Math.max(a, b)) }];
  });
  return { names, thirds };
}
