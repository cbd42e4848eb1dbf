import type { RuleScore } from '#server/contract/replay.ts';
import { formatKmNumber } from '#web/format/format-km.ts';
import { formatMoney } from '#web/format/format-money.ts';
import { formatWhole } from '#web/format/format-number.ts';
import type { Units } from '#web/format/units.ts';
import type { PlainTable } from '#web/format/write-csv.ts';
import { ruleWords } from './replay-words.ts';
import { sayThreshold } from './say-replay.ts';

/** The figures of one way of asking, by their names. */
export const listFigures = (score: RuleScore, units: Units): [name: string, value: string][] => [
  ['asked', formatWhole(score.asked)],
  ['right', formatWhole(score.right)],
  ['early', formatWhole(score.early)],
  ['needless', formatWhole(score.needless)],
  ['undecided', formatWhole(score.undecided)],
  ['found', formatWhole(score.found)],
  ['missed', formatWhole(score.missed)],
  [`notice, middle, ${units.distance}`, formatKmNumber(score.notice_km?.p50, units)],
  ['saved', formatMoney(score.saved)],
];

/** The scores as a table to keep. */
export const listScores = (scores: readonly RuleScore[], units: Units): PlainTable => ({
  caption: 'The list against plain rules',
  columns: [
    { title: 'rule', kind: 'word' },
    { title: 'threshold', kind: 'word' },
    ...(scores[0] === undefined ? [] : listFigures(scores[0], units)).map(([title]) => ({
      title,
      kind: 'figure' as const,
    })),
  ],
  rows: scores.map((score) => [
    ruleWords[score.rule],
    sayThreshold(score),
    ...listFigures(score, units).map(([, value]) => value),
  ]),
});
