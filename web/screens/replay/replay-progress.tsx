import { useEffect, useRef, useState } from 'react';
import type { Replay } from '#server/contract/replay.ts';
import { useDropReplay } from '#web/api/use-replay.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { Button } from '#web/ui/button.tsx';
import parts from '#web/ui/parts.module.css';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import styles from './replay.module.css';
import { sayTimeLeft } from './say-time-left.ts';

/** How far it is; other screens may be used meanwhile. */
export function ReplayProgress({ replay }: { replay: Replay }) {
  const drop = useDropReplay();
  const { done, of } = replay.progress;
  const left = useTimeLeft(replay);
  const words =
    replay.state === 'waiting'
      ? 'Waiting for another replay to end'
      : of === 0
        ? 'Reading what was known then'
        : `${formatWhole(done)} of ${formatWhole(of)} vehicle days${left === null ? '' : `, ${left}`}`;
  return (
    <section className={`${parts.part} ${styles.progress}`} aria-label="How far it is">
      <progress max={Math.max(1, of)} value={done} aria-label="Vehicle days run again" />
      <p role="status">{words}</p>
      <p className={styles.soft}>You may use other screens meanwhile, and come back to this one.</p>
      {drop.isError && <ProblemNote error={drop.error} />}
      <p>
        <Button disabled={drop.isPending} onClick={() => drop.mutate(replay.id)}>
          Cancel this replay
        </Button>
      </p>
    </section>
  );
}

/** From how far it has come since it was first looked at. */
function useTimeLeft({ progress: { done, of }, state }: Replay): string | null {
  const first = useRef<{ done: number; ms: number } | null>(null);
  const [left, setLeft] = useState<string | null>(null);
  useEffect(() => {
    const ms = performance.now();
    if (first.current === null && state === 'running') first.current = { done, ms };
    if (first.current !== null) setLeft(sayTimeLeft(first.current, { done, ms }, of));
  }, [done, of, state]);
  return left;
}
