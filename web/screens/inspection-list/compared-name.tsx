import { Link } from '@tanstack/react-router';
import { GradeMark } from '#web/ui/grade-mark.tsx';
import { SeriesMark } from '#web/ui/series-mark.tsx';
import styles from './comparison.module.css';
import type { Found } from './use-compared.ts';

interface Props {
  vehicle: string;
  index: number;
  found: Found;
  onDrop: (vehicle: string) => void;
}

/** The head of one compared vehicle, with the mark that it has in the chart. */
export function ComparedName({ vehicle, index, found, onDrop }: Props) {
  const row = found.get(vehicle) ?? 'none';
  return (
    <span className={styles.name}>
      <SeriesMark index={index} />
      <Link to="/vehicles/$vehicle" params={{ vehicle }}>
        {vehicle}
      </Link>
      {typeof row === 'string' ? (
        <span>{row === 'waiting' ? 'loading' : 'not found'}</span>
      ) : (
        <GradeMark grade={row.grade} />
      )}
      <button
        type="button"
        className={styles.drop}
        onClick={() => onDrop(vehicle)}
        aria-label={`Take ${vehicle} out of the comparison`}
      >
        ×
      </button>
    </span>
  );
}
