import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import type { ReplayLine } from '#server/contract/replay.ts';
import { useFleetNames } from '#web/api/use-fleet-names.ts';
import { isUnderWay, useDropReplay, useReplays } from '#web/api/use-replay.ts';
import { formatMoment } from '#web/format/format-date.ts';
import { formatKm } from '#web/format/format-km.ts';
import { formatMoney } from '#web/format/format-money.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { AskDialog } from '#web/ui/ask-dialog.tsx';
import { Button } from '#web/ui/button.tsx';
import parts from '#web/ui/parts.module.css';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './replay.module.css';
import { stateWords } from './replay-words.ts';
import { sayScope } from './say-replay.ts';

/** What was run again before, the newest first. */
export function EarlierReplays() {
  const { data, isPending, isError, error, refetch } = useReplays();
  const drop = useDropReplay();
  const [asked, setAsked] = useState<ReplayLine | null>(null);
  return (
    <section className={parts.part}>
      <h2>Replays so far</h2>
      {isPending && <p role="status">Loading the replays</p>}
      {isError && data === undefined && <ProblemNote error={error} onRetry={() => void refetch()} />}
      {drop.isError && <ProblemNote error={drop.error} />}
      {data?.replays.length === 0 && (
        <p className={styles.words}>
          Nothing was run again yet. Choose a period in which you know what happened, and see whether the list
          would have seen it coming.
        </p>
      )}
      <ul className={styles.earlier}>
        {data?.replays.map((line) => (
          <Line key={line.id} line={line} onForget={() => setAsked(line)} isBusy={drop.isPending} />
        ))}
      </ul>
      {asked !== null && (
        <AskDialog
          title={isUnderWay(asked) ? `Cancel replay ${asked.id}?` : `Forget replay ${asked.id}?`}
          yes={isUnderWay(asked) ? 'Cancel it' : 'Forget it'}
          onNo={() => setAsked(null)}
          onYes={() => {
            drop.mutate(asked.id);
            setAsked(null);
          }}
        >
          <p>The readings stay. It can be run again at any time.</p>
        </AskDialog>
      )}
    </section>
  );
}

function Line({ line, onForget, isBusy }: { line: ReplayLine; onForget: () => void; isBusy: boolean }) {
  const names = useFleetNames();
  const units = useUnits();
  const { id, request, score, state, asked_at, asked_by, progress } = line;
  const share = progress.of === 0 ? '' : ` ${formatWhole((100 * progress.done) / progress.of)} %`;
  return (
    <li>
      <span className={styles.earlierName}>
        <Link to="/analysis/replay" search={{ id }}>
          {sayScope(request, names)}
        </Link>
        {request.note !== '' && <span>{request.note}</span>}
      </span>
      <span className={styles.soft}>
        Replay {id}, {asked_by}, {formatMoment(asked_at)}
      </span>
      <span>
        {score === null
          ? `${stateWords[state]}${state === 'running' ? share : ''}`
          : `found ${formatWhole(score.found)} of ${formatWhole(score.found + score.missed)}, ${formatWhole(score.needless)} of ${formatWhole(score.asked)} needless${score.notice_km === null ? '' : `, ${formatKm(score.notice_km.p50, units)} before`}; saved ${formatMoney(score.saved)}`}
      </span>
      <Button
        kind="quiet"
        disabled={isBusy}
        onClick={onForget}
        aria-label={isUnderWay(line) ? `Cancel replay ${id}` : `Forget replay ${id}`}
      >
        {isUnderWay(line) ? 'Cancel' : 'Forget'}
      </Button>
    </li>
  );
}
