import { useVehicle } from '#web/api/use-vehicle.ts';
import { formatMoment } from '#web/format/format-date.ts';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import styles from './row-details.module.css';

/** What the planner wrote to the shop when the vehicle was sent. */
export function ShopNote({ vehicle }: { vehicle: string }) {
  const { data, isError, error, refetch } = useVehicle(vehicle);
  if (isError) return <ProblemNote error={error} onRetry={() => void refetch()} />;
  const shop = data?.shop ?? null;
  if (shop === null) return null;
  return (
    <div className={styles.note}>
      {shop.note !== null && <p className={styles.noteWords}>{shop.note}</p>}
      <p className={styles.label}>
        Sent by {shop.sent_by}, {formatMoment(shop.sent_at)}
        {shop.note === null && '. No note came with it.'}
      </p>
    </div>
  );
}
