import type { Grade } from '#server/contract/words.ts';
import { compareForRank } from '#server/engine/ranking/compare-for-rank.ts';
import { type CostTerms, type WeighedPart, weighAgainst } from '#server/engine/ranking/weigh-against.ts';
import { chancesApart, chanceWords, exactWords, rpmApart, sumsApart, sumWords } from './figures-apart.ts';
import { type Units, wayWords } from './length-words.ts';

/** One of two vehicles whose order is explained. */
export interface RankSide extends CostTerms {
  /** number in storage: of equals in everything, the lower stands above */
  key: number;
  unit: string;
  rank: number;
  grade: Grade;
  costAvoided: number;
  /** what slip alone says, before a trouble code is counted */
  slipChance: number;
  excessRpm: number;
  kmP50: number | null;
  /** a shop has just looked at it, and nothing new speaks since */
  isCalm: boolean;
  /** name of its platform */
  platform: string | null;
}

interface Within {
  horizonKm: number;
  units: Units;
}

/** Why one vehicle stands above another, in sentences whose figures decide it: what speaks for it first, the weightiest before. */
export function rankWords(above: RankSide, below: RankSide, { horizonKm, units }: Within): string[] {
  const within = `within ${wayWords(horizonKm, units)}`;
  const isOpposed = compareForRank({ ...above, vehicle: above.key }, { ...below, vehicle: below.key }) > 0;
  if (isOpposed) return [OUTDATED];
  const calm = [above, below].filter(({ isCalm }) => isCalm);
  if (calm.length > 0) return [sayOutcome(above, below, within), ...calm.map(sayCalm)];
  if (above.costAvoided === below.costAvoided) return [sayEqual(above, below, within), sayTie(above, below)];
  const parts = weighAgainst(above, below).toSorted(
    (a, b) => Number(b.worth > 0) - Number(a.worth > 0) || Math.abs(b.worth) - Math.abs(a.worth),
  );
  return [
    sayOutcome(above, below, within),
    ...parts.flatMap((part) => sayPart(part, parts.length > 1, above, below, { horizonKm, units })),
    ...(parts.length === 1 ? [sayRest(parts[0], above, below)] : []),
    ...(urgency[below.grade] > urgency[above.grade] ? [sayGrade(below)] : []),
  ];
}

const urgency: Record<Grade, number> = { hold: 3, book: 2, watch: 1, steady: 0, unknown: 0 };

const sayGrade = ({ unit, grade }: RankSide): string =>
  `${unit} is graded ${grade} and stands below all the same: a grade says how near the limit is, the order what an inspection avoids.`;

const sayCalm = ({ unit }: RankSide): string =>
  `A shop has looked at ${unit}, and nothing new speaks since: inspecting it again so soon is expected to avoid nothing.`;

/** What the last of the list has. */
export const lastWords = (last: RankSide, { horizonKm, units }: Within): string[] => [
  `${last.unit} is the last of the list: ${sayGain(last, sumWords(Math.abs(last.costAvoided)))} within ${wayWords(horizonKm, units)}.`,
];

const OUTDATED =
  'Costs or readings have changed since the list was put in this order; it follows with the next assessment.';

const sayGain = ({ unit, costAvoided }: RankSide, sum: string): string =>
  costAvoided >= 0
    ? `inspecting ${unit} is expected to avoid ${sum}`
    : `inspecting ${unit} costs ${sum} more than it is expected to avoid`;

function sayOutcome(above: RankSide, below: RankSide, within: string): string {
  const sums = sumsApart(Math.abs(above.costAvoided), Math.abs(below.costAvoided));
  const isSame = sums === null || Math.abs(above.costAvoided - below.costAvoided) < LITTLE;
  if (isSame && above.costAvoided >= 0 === below.costAvoided >= 0)
    return `${startSentence(sayGain(above, sumWords(Math.abs(above.costAvoided))))} ${within}, and ${below.unit} nearly the same: the order between them says little.`;
  const [first, second] = sums ?? [
    sumWords(Math.abs(above.costAvoided)),
    sumWords(Math.abs(below.costAvoided)),
  ];
  if (above.costAvoided >= 0 === below.costAvoided >= 0)
    return `${startSentence(sayGain(above, first))} ${within}, inspecting ${below.unit} ${second}${above.costAvoided >= 0 ? '' : ' more'}.`;
  return `${startSentence(sayGain(above, first))} ${within}; ${sayGain(below, second)}.`;
}

/** Below one unit of any currency nobody should look for a reason. */
const LITTLE = 1;

function sayPart(
  { term, worth }: WeighedPart,
  isOneOfSeveral: boolean,
  above: RankSide,
  below: RankSide,
  within: Within,
): string[] {
  const weight = !isOneOfSeveral
    ? ''
    : worth > 0
      ? `, worth ${sayWorth(worth)}`
      : `, which speaks for ${below.unit} by ${sayWorth(-worth)}`;
  if (term === 'chance') return sayChance(above, below, weight, within);
  const figures = `${exactWords(above[term])} for ${nameForCosts(above)}, ${exactWords(below[term])} for ${nameForCosts(below)}`;
  return [`${costNames[term]}: ${figures}${weight}.`];
}

const costNames = {
  atStake: 'What a failure on the road costs over a planned repair',
  inspection: 'What an inspection costs with its lost day',
};

const sayWorth = (worth: number): string => (worth < 1 ? 'less than 1' : sumWords(worth));

function sayChance(above: RankSide, below: RankSide, weight: string, { horizonKm, units }: Within): string[] {
  const way = wayWords(horizonKm, units);
  const pair = chancesApart(above.chance, below.chance);
  const sentence =
    pair === null
      ? `The chance of a failure within ${way} is nearly the same, ${chanceWords(above.chance)}${weight}.`
      : `The chance of a failure within ${way} is ${pair[0]} for ${above.unit} and ${pair[1]} for ${below.unit}${weight}.`;
  const codes = [above, below].flatMap(({ unit, chance, slipChance }) => {
    const said = chance > slipChance ? chancesApart(chance, slipChance) : null;
    return said === null
      ? []
      : [
          `A trouble code that names the clutch counts as ${said[0]} for ${unit}, where slip alone says ${said[1]}.`,
        ];
  });
  const [likelier, other] = above.chance > below.chance ? [above, below] : [below, above];
  const distance = codes.length === 0 ? sayDistance(likelier, other, units) : null;
  return [sentence, ...codes, ...(distance === null ? [] : [distance])];
}

/** What the chances come from, where the distances say the same as they do. */
function sayDistance(likelier: RankSide, other: RankSide, units: Units): string | null {
  if (likelier.kmP50 === null) return null;
  if (other.kmP50 !== null && other.kmP50 <= likelier.kmP50) return null;
  const reaches =
    likelier.kmP50 === 0
      ? 'is past its limit'
      : `should reach its limit in about ${wayWords(likelier.kmP50, units)}`;
  if (other.kmP50 === null) return `${likelier.unit} ${reaches}; ${other.unit} has no limit in sight.`;
  const about = `in about ${wayWords(other.kmP50, units)}`;
  return likelier.kmP50 === 0
    ? `${likelier.unit} is past its limit; ${other.unit} should reach its own ${about}.`
    : `${likelier.unit} ${reaches}, ${other.unit} ${about}.`;
}

/** Where one term decides alone, that the others are the same. */
function sayRest(part: WeighedPart | undefined, above: RankSide, below: RankSide): string {
  if (part?.term !== 'chance') return 'All else is the same.';
  return above.platform === below.platform && above.platform !== null
    ? `Both are of the platform ${above.platform}: costs are the same.`
    : 'The costs of both are the same.';
}

function sayEqual(above: RankSide, below: RankSide, within: string): string {
  return `${startSentence(sayGain(above, sumWords(Math.abs(above.costAvoided))))} ${within}, and ${below.unit} exactly as much.`;
}

function sayTie(above: RankSide, below: RankSide): string {
  if (above.excessRpm === below.excessRpm)
    return `Slip does not tell them apart either: ${above.unit} stands above because it was known first.`;
  const pair = rpmApart(above.excessRpm, below.excessRpm);
  const figures = pair === null ? 'by a trace' : `${pair[0]} against ${pair[1]}`;
  return `Of equals the one whose slip lies further above its healthy level stands above: ${figures}.`;
}

/** Without a platform costs are assumed, which is worth saying. */
const nameForCosts = ({ unit, platform }: RankSide): string =>
  platform === null ? `${unit}, which has no platform` : unit;

const startSentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
