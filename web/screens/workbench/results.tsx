import type { WorkbenchChoice } from '#server/contract/workbench.ts';
import { leastTrendPoints } from '#server/contract/workbench-words.ts';
import { useLivesOf, useTrend } from '#web/api/use-analysis.ts';
import parts from '#web/ui/parts.module.css';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { noTrend } from './figures/no-trend.ts';
import { LivesResults } from './lives-results.tsx';
import type { Taken } from './reading/take-rows.ts';
import { SeriesResults } from './series-results.tsx';
import styles from './workbench.module.css';

interface Props {
  /** names the table and the choice, for what was answered already */
  askKey: string;
  taken: Taken;
  choice: WorkbenchChoice;
  confidence: number;
  name: string;
}

/** Asks the server for the statistics of what was taken, and shows them. */
export function Results({ askKey, taken, choice, confidence, name }: Props) {
  const isShort = taken.kind === 'series' && taken.x.length < leastTrendPoints;
  const trend = useTrend(
    askKey,
    taken.kind === 'series' && !isShort ? { x: taken.x, y: taken.y, confidence } : null,
  );
  const lives = useLivesOf(askKey, taken.kind === 'lives' ? { lives: taken.lives, confidence } : null);
  const asked = taken.kind === 'series' ? trend : lives;
  if (asked.isError)
    return (
      <div className={parts.part}>
        <ProblemNote error={asked.error} onRetry={() => void asked.refetch()} />
        <p className={styles.soft}>Your table is still here.</p>
      </div>
    );
  if (taken.kind === 'series') {
    const reply = isShort ? noTrend(taken.x.length) : trend.data;
    return reply === undefined ? (
      <p role="status">computing</p>
    ) : (
      <SeriesResults
        x={taken.x}
        y={taken.y}
        names={{ x: choice.columns.x ?? 'row', y: choice.columns.y ?? 'y' }}
        name={name}
        reply={reply}
      />
    );
  }
  return lives.data === undefined ? (
    <p role="status">computing</p>
  ) : (
    <LivesResults reply={lives.data} use={choice.columns.exit ?? 'use'} name={name} />
  );
}
