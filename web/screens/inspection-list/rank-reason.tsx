import { useExplanation } from '#web/api/use-explanation.ts';
import { keepUnits } from '#web/format/keep-units.ts';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import styles from './row-details.module.css';

interface Props {
  vehicle: string;
  /** the next one down by rank where left out */
  against: string | undefined;
  horizonKm: number;
  /** Where it does not stand below its own name. */
  isNamed?: boolean;
}

/** Why a vehicle stands where it does, in the sentences of the server. */
export function RankReason({ vehicle, against, horizonKm, isNamed = false }: Props) {
  const explanation = useExplanation({ vehicle, against, horizon_km: horizonKm });
  const { data } = explanation;
  const below = data?.below?.vehicle ?? against;
  return (
    <section className={styles.why} aria-busy={explanation.isPending}>
      <h3 className={styles.label}>
        {data !== undefined && data.below === null
          ? 'Why last?'
          : `Why ${isNamed ? `${vehicle} ` : ''}above ${below ?? 'the next one'}?`}
      </h3>
      {explanation.isError && (
        <ProblemNote error={explanation.error} onRetry={() => void explanation.refetch()} />
      )}
      <ul className={styles.list}>
        {data?.sentences.map((sentence) => (
          <li key={sentence}>{keepUnits(sentence)}</li>
        ))}
      </ul>
    </section>
  );
}
