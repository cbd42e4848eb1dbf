import fc from 'fast-check';
import { it } from 'vitest';
import { analysedLife, livesReply } from '#server/contract/lives.ts';
import { SlipdriftError } from '#server/errors.ts';
import { analyseLives } from '#server/services/analysis/analyse-lives.ts';
import { readLivesRequest } from '#server/services/analysis/read-lives-request.ts';
import { takePlainLife } from '#server/services/analysis/take-plain-life.ts';
import { fuzz, hold } from './fuzz.ts';
import { hostileText, jsonToken, numberToken } from './hostile-values.ts';
import { mutated } from './mutate-bytes.ts';
import { INSIDE } from './read-body.ts';

const mileage = fc.oneof(
  fc.integer({ min: 0, max: 12 }),
  fc.double({ min: 0, max: 1e12, noNaN: true }),
  fc.constantFrom(5e-324, 1e-300, 1, 1 + 2 ** -52, 1e12, 123_456.789),
);
const covariate = fc.oneof(
  fc.integer({ min: 0, max: 2 }),
  fc.double({ min: -1e12, max: 1e12, noNaN: true }),
  fc.constantFrom(0, 1e-300, 1e12, -1e12),
);
const word = fc.oneof(fc.constantFrom('a', 'b', 'c'), hostileText);
const life = fc.record(
  {
    exit: mileage,
    entry: fc.oneof({ weight: 3, arbitrary: fc.constant(0) }, { weight: 2, arbitrary: mileage }),
    event: fc.constantFrom<boolean | number>(true, false, 1, 0),
    mode: word,
    group: word,
    covariates: fc.record({ load: covariate, heat: covariate }, { requiredKeys: ['load'] }),
    count: fc.oneof(fc.integer({ min: 1, max: 3 }), fc.constantFrom(1, 1_000_000)),
  },
  { requiredKeys: ['exit', 'event'] },
);
/** Lives of which the most are right, so that the statistics are reached. */
const usable = life.map((one) => ({
  ...one,
  exit: Math.min(1e12, Math.max(one.exit, (one.entry ?? 0) + 1, 1)),
  mode: one.mode?.trim().slice(0, 120) || 'a',
  group: one.group?.trim().slice(0, 120) || 'b',
}));
const list = fc.oneof(
  { weight: 4, arbitrary: fc.array(usable, { maxLength: 25 }) },
  { weight: 1, arbitrary: fc.array(life, { maxLength: 25 }) },
);
const others = fc.array(
  fc.tuple(
    fc.oneof(fc.constantFrom('confidence', 'lives', 'unit'), hostileText),
    fc.oneof(numberToken, jsonToken),
  ),
  { maxLength: 1 },
);
const body = fc
  .tuple(list, fc.oneof({ weight: 3, arbitrary: fc.constant([]) }, { weight: 1, arbitrary: others }))
  .map(
    ([lives, more]) =>
      `{"lives":${JSON.stringify(lives)}${more.map(([name, token]) => `,${JSON.stringify(name)}:${token}`).join('')}}`,
  );

it('analyses any lives or says what is wrong with them, and answers in finite numbers', async () => {
  const bytes = fc.oneof(
    { weight: 3, arbitrary: body },
    { weight: 1, arbitrary: mutated(body.map((text) => Buffer.from(text))).map((text) => text.toString()) },
  );
  await fuzz('lives', bytes, (text) => {
    try {
      const reply = JSON.parse(JSON.stringify(analyseLives(readLivesRequest(text))));
      const parsed = livesReply.safeParse(reply);
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

it('takes a life for plain only where the contract reads the same from it', async () => {
  await fuzz('plainLife', fc.oneof(life, usable, fc.anything()), (raw) => {
    const plain = takePlainLife(raw);
    if (plain === null) return;
    const parsed = analysedLife.safeParse(raw);
    hold(
      parsed.success && JSON.stringify(sorted(parsed.data)) === JSON.stringify(sorted(plain)),
      () =>
        `reads ${JSON.stringify(plain)} where the contract says ${JSON.stringify(parsed.error ?? parsed.data)}`,
    );
  });
});

const sorted = (one: object) =>
  Object.entries(one)
    .filter(([, value]) => value !== undefined)
    .sort(([a], [b]) => (a < b ? -1 : 1));
