import fc from 'fast-check';
import { it } from 'vitest';
import { trendReply } from '#server/contract/analysis.ts';
import { SlipdriftError } from '#server/errors.ts';
import { analyseTrend } from '#server/services/analysis/analyse-trend.ts';
import { readTrendRequest } from '#server/services/analysis/read-trend-request.ts';
import { fuzz, hold } from './fuzz.ts';
import { hostileText, jsonToken, numberToken } from './hostile-values.ts';
import { mutated } from './mutate-bytes.ts';
import { INSIDE } from './read-body.ts';

const extreme = fc.constantFrom(0, -0, 1, 1e308, -1e308, 5e-324, 1e-300, 1e150, -1e150, 2 ** 53);
const series = (min: number, max: number) =>
  fc.oneof(
    fc.array(fc.double({ noNaN: true, noDefaultInfinity: true }), { minLength: min, maxLength: max }),
    fc.array(fc.integer({ min: -50, max: 50 }), { minLength: min, maxLength: max }),
    fc.array(extreme, { minLength: min, maxLength: max }),
    fc
      .tuple(extreme, fc.integer({ min, max }))
      .map(([value, length]) => new Array<number>(length).fill(value)),
  );
const pair = fc.integer({ min: 0, max: 60 }).chain((n) => fc.tuple(series(n, n), series(n, n)));
const FIELDS = ['x', 'y', 'limit', 'baseline', 'horizon', 'weight', 'alarms', 'reference', 'period'];
const others = fc.array(
  fc.tuple(fc.oneof(fc.constantFrom(...FIELDS), hostileText), fc.oneof(numberToken, jsonToken)),
  { maxLength: 2 },
);
const body = fc
  .tuple(pair, others)
  .map(
    ([[x, y], more]) =>
      `{"x":${JSON.stringify(x)},"y":${JSON.stringify(y)}${more.map(([name, token]) => `,${JSON.stringify(name)}:${token}`).join('')}}`,
  );

it('analyses any series or says what is wrong with it, and answers in finite numbers', async () => {
  const bytes = fc.oneof(
    { weight: 3, arbitrary: body },
    { weight: 1, arbitrary: mutated(body.map((text) => Buffer.from(text))).map((text) => text.toString()) },
  );
  await fuzz('trend', bytes, (text) => {
    try {
      const reply = JSON.parse(JSON.stringify(analyseTrend(readTrendRequest(text))));
      const parsed = trendReply.safeParse(reply);
      hold(
        parsed.success,
        () => `answers in another shape: ${JSON.stringify(parsed.error?.issues.slice(0, 3))}`,
      );
    } catch (error) {
      if (!(error instanceof SlipdriftError)) throw error;
      hold(
        error.status < 500 && !INSIDE.test(error.message + JSON.stringify(error.errors)),
        () => error.message,
      );
    }
  });
});
