import type { ReplayResult } from '#server/contract/replay.ts';
import { replayCsvAddress } from '#web/api/use-replay.ts';
import { CameTable } from './came-table.tsx';
import { NeedlessTable } from './needless-table.tsx';
import styles from './replay.module.css';
import { CalibrationFigure, NoticeFigure, ScoreFigure, WeeksFigure } from './result-figures.tsx';
import { ScoreTable } from './score-table.tsx';

/** What came of a replay, from the figures to the single vehicle. */
export function ReplayResultView({ id, result }: { id: number; result: ReplayResult }) {
  const isQuiet = result.failures === 0;
  return (
    <>
      <section className={styles.part}>
        <h2>The list against plain rules</h2>
        <ScoreTable result={result} />
        {!isQuiet && <ScoreFigure result={result} />}
      </section>
      <div className={styles.columns}>
        {!isQuiet && <NoticeFigure result={result} />}
        <CalibrationFigure result={result} />
      </div>
      <WeeksFigure result={result} />
      <section className={styles.part}>
        <div className={styles.partHead}>
          <h2>What came</h2>
          {!isQuiet && (
            <a href={replayCsvAddress(id, 'came')} download>
              CSV
            </a>
          )}
        </div>
        {isQuiet ? (
          <p className={styles.words}>
            No converter failed, none reached its limit, and no shop found a fault in this period. A longer
            one tells more.
          </p>
        ) : (
          <CameTable result={result} />
        )}
      </section>
      <section className={styles.part}>
        <div className={styles.partHead}>
          <h2>What was asked for in vain, or early</h2>
          {result.needless.length > 0 && (
            <a href={replayCsvAddress(id, 'needless')} download>
              CSV
            </a>
          )}
        </div>
        {result.needless.length === 0 ? <p>Nothing.</p> : <NeedlessTable result={result} />}
      </section>
      <section className={styles.part}>
        <h2>What was known then</h2>
        <ul className={styles.lines}>
          {result.notes.map((note) => (
            <li key={note}>{note}</li>
          ))}
        </ul>
      </section>
    </>
  );
}
