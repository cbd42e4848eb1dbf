import { type Exposure, exposures } from '#server/contract/lives.ts';
import { exposureWords, type GroupedLife } from './group-lives.ts';

/** Exposures that enough lives have: lives that lack one cannot take part in the regression. */
const LEAST_SHARE = 0.8;
/** Failures for each exposure of a regression. Fewer give ratios that swing (Vittinghoff and McCulloch 2007, from memory). */
const FAILURES_EACH = 5;
/** Which go first where failures are few: those that tell different things. */
const order: readonly Exposure[] = [
  'fluid_c',
  'load_pct',
  'heat_mj_per_1000km',
  'partial_lockup_pct',
  'hot_pct',
];

/** The exposures that the fleet's lives can carry in one regression, and what must be known of it, as sentences. */
export function chooseCovariates(lives: readonly GroupedLife[]): { covariates: Exposure[]; notes: string[] } {
  if (lives.length === 0) return { covariates: [], notes: [] };
  const have = (name: Exposure) => lives.filter(({ used }) => used[name] !== null).length;
  const isCommon = (name: Exposure) => have(name) >= LEAST_SHARE * lives.length;
  const common = order.filter(isCommon);
  const failures = lives.filter(
    ({ life, used }) => life.event && common.every((name) => used[name] !== null),
  ).length;
  const chosen = common.slice(0, Math.floor(failures / FAILURES_EACH));
  const dropped = common.slice(chosen.length);
  const notes = exposures
    .filter((name) => !isCommon(name))
    .map(
      (name) =>
        `The regression goes without ${exposureWords[name]}: ${have(name)} of ${lives.length} lives have it, and 80 % must.`,
    );
  if (dropped.length > 0)
    notes.push(
      `The regression goes without ${sayList(dropped)}: ${failures} ${failures === 1 ? 'failure carries' : 'failures carry'} ${sayCount(chosen.length)}; each takes ${FAILURES_EACH}.`,
    );
  if (chosen.length > 0)
    notes.push(
      'An exposure is compared with the other vehicles of the platform in the same weeks, so that a life that was seen in winter alone does not look cool. It is the mean over a life as far as it was seen, not as it was at each mileage: a life that was seen longer has had more time to come near the usual. It is taken while slip was quiet, since a clutch that slips heats itself and its fluid.',
    );
  return { covariates: exposures.filter((name) => chosen.includes(name)), notes };
}

const sayCount = (n: number): string =>
  n === 0 ? 'no exposure' : n === 1 ? 'one exposure' : `${n} exposures`;

function sayList(names: readonly Exposure[]): string {
  const words = names.map((name) => exposureWords[name]);
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}
