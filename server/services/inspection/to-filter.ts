import type { ListFilter } from '#db/queries/list-filter.ts';
import type { RankingFilter } from '#server/contract/ranking.ts';
import { type Grade, grades } from '#server/contract/words.ts';
import { SlipdriftError } from '#server/errors.ts';
import type { Context } from '#server/services/context.ts';
import { sightOf } from '#server/services/sight.ts';

/** Filters of a query; a word that is no grade is refused. */
export function toFilter({ actor }: Pick<Context, 'actor'>, query: RankingFilter): ListFilter {
  const { grade, ...rest } = query;
  return { ...rest, sight: sightOf(actor), grades: readGrades(grade) };
}

/** Grades joined by commas; undefined where none is named. */
export function readGrades(joined: string | undefined): Grade[] | undefined {
  const words = joined?.split(',').filter((word) => word !== '');
  const unknown = words?.find((word) => !grades.some((grade) => grade === word));
  if (unknown !== undefined)
    throw new SlipdriftError(
      'invalid_request',
      `'${unknown}' is no grade. Grades are ${grades.join(', ')}.`,
      {
        errors: [{ field: 'grade', message: `must be one or several of ${grades.join(', ')}` }],
      },
    );
  return words === undefined || words.length === 0
    ? undefined
    : grades.filter((grade) => words.includes(grade));
}
