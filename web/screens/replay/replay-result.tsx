import type { ReplayResult } from '#server/contract/replay.ts';
import { replayCsvAddress } from '#web/api/use-replay.ts';
import { formatUtcDate } from '#web/format/format-date.ts';
import { keepUnits } from '#web/format/keep-units.ts';
import parts from '#web/ui/parts.module.css';
import { TableCsv } from '#web/ui/table-csv.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import { CameTable } from './came-table.tsx';
import { listScores } from './list-figures.ts';
import { NeedlessTable } from './needless-table.tsx';
import styles from './replay.module.css';
import { CalibrationFigure, NoticeFigure, ScoreFigure, WeeksFigure } from './result-figures.tsx';
import { ScoreTable } from './score-table.tsx';

/** What came of a replay, from the figures to the single vehicle. */
export function ReplayResultView({ id, result, scope }: { id: number; result: ReplayResult; scope: string }) {
  const units = useUnits();
  const drawn = { result, selection: `Replay ${id}: ${scope}`, dataTo: formatUtcDate(result.to) };
  const isQuiet = result.failures === 0;
  return (
    <>
      <section className={parts.part}>
        <div className={styles.partHead}>
          <h2>The list against plain rules</h2>
          <TableCsv name="the list against plain rules" table={() => listScores(result.scores, units)} />
        </div>
        <ScoreTable result={result} />
        {!isQuiet && <ScoreFigure {...drawn} />}
      </section>
      <div className={parts.columns}>
        {!isQuiet && <NoticeFigure {...drawn} />}
        <CalibrationFigure {...drawn} />
      </div>
      <WeeksFigure {...drawn} />
      <section className={parts.part}>
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
      <section className={parts.part}>
        <div className={styles.partHead}>
          <h2>Asked for early, or needlessly</h2>
          {result.needless.length > 0 && (
            <a href={replayCsvAddress(id, 'needless')} download>
              CSV
            </a>
          )}
        </div>
        {result.needless.length === 0 ? (
          <p>Nothing.</p>
        ) : (
          <>
            <p className={styles.reading}>
              Early: the clutch did slip, and its limit was further than the horizon. Needless: nothing came
              and slip has not risen, or the shop found nothing. These stand first.
            </p>
            <NeedlessTable result={result} />
          </>
        )}
      </section>
      <section className={parts.part}>
        <h2>What was known then</h2>
        <ul className={styles.lines}>
          {result.notes.map((note) => (
            <li key={note}>{keepUnits(note)}</li>
          ))}
        </ul>
      </section>
    </>
  );
}
