import { rankingQuery } from '#server/contract/ranking.ts';
import { SlipdriftError } from '#server/errors.ts';
import { readGrades } from '#server/services/inspection/to-filter.ts';

/** What of the list's address belongs to a filter: not which rows are open or chosen. */
const kept = rankingQuery.omit({ units: true, limit: true, offset: true }).strict();

/** The query of an address as it is kept: only filters, each once, in one order. What is none is refused by name. */
export function readFilterText(text: string): string {
  const given = [...new URLSearchParams(text)].filter(([, value]) => value !== '');
  const twice = given.find(([name], i) => given.findIndex(([other]) => other === name) !== i);
  if (twice !== undefined) throw refuse(`names '${twice[0]}' twice`);
  if (given.length === 0) throw refuse('is empty: nothing narrows or orders the list');
  const values = Object.fromEntries(given);
  const parsed = kept.safeParse(values);
  if (!parsed.success) {
    const [issue] = parsed.error.issues;
    throw refuse(
      issue?.code === 'unrecognized_keys'
        ? `has '${issue.keys[0]}', which is no filter of the list`
        : `has a wrong ${issue?.path.join('.')}: ${issue?.message}`,
    );
  }
  readGrades(parsed.data.grade);
  const inOrder = Object.keys(kept.shape).flatMap((name) => {
    const value = values[name];
    return value === undefined ? [] : [[name, value]];
  });
  return new URLSearchParams(inOrder).toString();
}

const refuse = (message: string): SlipdriftError =>
  new SlipdriftError('invalid_request', `The filter ${message}. Nothing was saved.`, {
    errors: [{ field: 'search', message }],
  });
