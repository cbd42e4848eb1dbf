import type { ReplayResult, RuleScore } from '#server/contract/replay.ts';
import { RowTable } from '#web/ui/row-table.tsx';
import { useMedia } from '#web/ui/use-media.ts';
import { useUnits } from '#web/ui/use-units.ts';
import { FiguresBeside } from './figures-beside.tsx';
import { listFigures } from './list-figures.ts';
import styles from './replay.module.css';
import { ruleWords } from './replay-words.ts';
import { sayThreshold } from './say-replay.ts';

/** What the words above mean, for who sees them for the first time. */
const meanings: readonly [word: string, meaning: string][] = [
  [
    'asked',
    'times that a vehicle came to ask for an inspection; one that still stands after the horizon, or after a shop found nothing, is another; each is one of the next four',
  ],
  ['right', 'a failure came of it, in the period or after, or had come before'],
  [
    'early',
    'the clutch did slip, but nothing came within the horizon: a true warning of a limit that was further',
  ],
  [
    'needless',
    'driven over the whole horizon: nothing came and slip has not risen, or the shop found nothing',
  ],
  ['undecided', 'not driven far enough since to tell'],
  [
    'found, missed',
    'failures of the period that were asked for before they came, and since a shop last found nothing; and the others',
  ],
  [
    'notice',
    'how far before it came one was asked for, the horizon at the most; of those found, half had more',
  ],
  [
    'saved',
    'road failure less planned repair for each one found, however shortly before, less inspection and day off the road for each one asked for; early ones count as spent alone; in the fleet’s own currency',
  ],
];

/** Every way of asking side by side, the list first; on a phone each is a column. */
export function ScoreTable({ result: { scores } }: { result: ReplayResult }) {
  const isSmall = useMedia('(max-width: 47.99rem)');
  return (
    <>
      {isSmall ? <NarrowScores scores={scores} /> : <WideScores scores={scores} />}
      <dl className={styles.meanings}>
        {meanings.map(([word, meaning]) => (
          <div key={word}>
            <dt>{word}</dt>
            <dd>{meaning}</dd>
          </div>
        ))}
      </dl>
    </>
  );
}

interface Scores {
  scores: readonly RuleScore[];
}

function NarrowScores({ scores }: Scores) {
  const units = useUnits();
  const all = scores.map((score) => listFigures(score, units));
  return (
    <>
      <FiguresBeside
        label="The list against plain rules"
        corner="rule"
        heads={scores.map(({ rule }) => ({ key: rule, words: ruleWords[rule] }))}
        rows={(all[0] ?? []).map(([name], i) => ({ name, values: all.map((one) => one[i]?.[1] ?? '') }))}
      />
      <ul className={styles.reading}>
        {scores
          .filter(({ threshold }) => threshold !== null)
          .map((score) => (
            <li key={score.rule}>
              {ruleWords[score.rule]}: {sayThreshold(score)}
            </li>
          ))}
      </ul>
    </>
  );
}

function WideScores({ scores }: Scores) {
  const units = useUnits();
  const names = scores[0] === undefined ? [] : listFigures(scores[0], units).map(([name]) => name);
  return (
    <RowTable label="The list against plain rules">
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
            <th scope="row">
              {score.rule === 'list' ? <strong>{ruleWords[score.rule]}</strong> : ruleWords[score.rule]}
              <span className={styles.under}>{sayThreshold(score)}</span>
            </th>
            {listFigures(score, units).map(([name, value]) => (
              <td key={name}>{value}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </RowTable>
  );
}
