import { expect, it } from 'vitest';
import { unknownPlatform } from '#server/engine/platform/platform-context.ts';
import { platformSettings as settings } from '#tests/helpers/engine-settings.ts';
import { makeStretch } from '#tests/helpers/make-stretch.ts';
import { fitClutch } from './fit-clutch.ts';
import { judgeRise } from './judge-rise.ts';
import { type ClutchFindings, tellClutch } from './tell-clutch.ts';
import { traceClutch } from './trace-clutch.ts';

function findAbout(curve: (i: number) => number): ClutchFindings {
  const stretches = [-1, 1, 3].flatMap((band) =>
    Array.from({ length: 50 }, (_, i) => makeStretch(i, curve(i) + (i % 3) - 1, { band })),
  );
  const life = { number: 1, fittedKm: null };
  const { ofClutch, fall } = traceClutch({ stretches, life }, settings, unknownPlatform);
  const fit = fitClutch(ofClutch[0].points, settings.limitRpm, unknownPlatform.wear, 0, null);
  return { series: ofClutch, fall, codes: [], fit, rise: judgeRise(ofClutch, fit, unknownPlatform) };
}
const flatFindings = findAbout(() => 15);
const drifting = findAbout((i) => 18 + Math.max(0, i - 30) * 3);

it('runs as its note says', () => {
  expect(tellClutch(flatFindings, settings, unknownPlatform, 5_000).pattern).toBe('none');
});

it('tells a distance and a forecast of what has risen alone', () => {
  const flat = tellClutch(flatFindings, settings, unknownPlatform, 5_000);
  expect(flat).toMatchObject({ passage: null, forecast: [] });
  expect(flat.fitLine.length).toBeGreaterThan(40);
  const told = tellClutch(drifting, settings, unknownPlatform, 5_000);
  expect(told.passage?.p50).toBeGreaterThan(0);
  expect(told.forecast[0]?.km).toBe(drifting.fit.outlookKm);
  expect(told.bandRises.map(({ band }) => band)).toEqual([1, 3]);
  expect(told.reasons[0]?.kind).toBe('risen');
});
