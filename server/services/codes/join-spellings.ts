import { spellCode } from '#server/contract/spell-code.ts';

/** Sights of one code: how often, and when first and last (RFC 3339, UTC). */
export interface CodeSight {
  code: string;
  n: number;
  first: string;
  last: string;
}

/** Sights of the same code in whatever spelling, as one, in the order in which they came. */
export function joinSpellings(sights: Iterable<CodeSight>): CodeSight[] {
  const joined = new Map<string, CodeSight>();
  for (const sight of sights) {
    const code = spellCode(sight.code)?.code ?? sight.code;
    const known = joined.get(code);
    if (known === undefined) joined.set(code, { ...sight, code });
    else {
      const [first = ''] = [known.first, sight.first].sort();
      const [, last = ''] = [known.last, sight.last].sort();
      joined.set(code, { code, n: known.n + sight.n, first, last });
    }
  }
  return [...joined.values()];
}
