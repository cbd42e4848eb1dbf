import type { ReplayResult, RuleScore } from '#server/contract/replay.ts';
import { formatKm } from '#web/format/format-km.ts';
import { formatMoney } from '#web/format/format-money.ts';
import { formatWhole } from '#web/format/format-number.ts';
import type { Units } from '#web/format/units.ts';
import { ScrollArea } from '#web/ui/scroll-area.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './replay.module.css';
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
  ['notice, middle', score.notice_km === null ? '–' : formatKm(score.notice_km.p50, units)],
  ['saved', formatMoney(score.saved)],
];

/** Every way of asking side by side, the list first. */
export function ScoreTable({ result: { scores } }: { result: ReplayResult }) {
  const units = useUnits();
  const names = scores[0] === undefined ? [] : listFigures(scores[0], units).map(([name]) => name);
  return (
    <ScrollArea label="The list against plain rules">
      <table className={styles.table}>
        <thead>
          <tr>
            <th scope="col">rule</th>
            {names.map((name) => (
              <th key={name} scope="col">
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {scores.map((score) => (
            <tr key={score.rule}>
              <th scope="row" data-strong={score.rule === 'list' || undefined}>
                {ruleWords[score.rule]}
                <span className={styles.under}>{sayThreshold(score)}</span>
              </th>
              {listFigures(score, units).map(([name, value]) => (
                <td key={name} data-label={name}>
                  {value}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      <p className={styles.reading}>
        Asked: times that a vehicle came to ask for an inspection, each of them right, early, needless or
        undecided. Right: a failure came of it, in the period or after, or had come before. Found and missed
        are the failures of the period. Early: the clutch did slip, but nothing came within the horizon.
        Needless: nothing came and slip has not risen. Undecided: not driven far enough since to tell. Saved:
        road failure less planned repair for each one found, less inspection and day off the road for each one
        asked for, in the fleet’s own currency.
      </p>
    </ScrollArea>
  );
}
