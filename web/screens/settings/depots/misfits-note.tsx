import { keepPreviousData, useQuery } from '@tanstack/react-query';
import type { DepotInput } from '#server/contract/fleet.ts';
import { depotPreviewOptions } from '#web/api/use-save-depot.ts';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import styles from './depots.module.css';
import { MisfitsList } from './misfits-list.tsx';
import { sayMisfits } from './say-misfits.ts';

/** Bookings that the change in the form would leave without room; null where nothing is changed, or something is wrong. */
export function MisfitsNote({ change }: { change: DepotInput | null }) {
  const { data, isError, error, refetch } = useQuery({
    ...depotPreviewOptions(change ?? placeholder),
    enabled: change !== null,
    placeholderData: keepPreviousData,
  });
  if (change === null) return null;
  if (isError) return <ProblemNote error={error} onRetry={() => void refetch()} />;
  if (data === undefined) return null;
  return (
    <section className={styles.misfits} aria-label="Bookings that would not fit">
      <p role="status">{sayMisfits(data)}</p>
      <MisfitsList misfits={data.misfits} />
    </section>
  );
}

/** Asked about by nobody: the query is off meanwhile. */
const placeholder = {} as DepotInput;
