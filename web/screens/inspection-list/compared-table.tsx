import { ComparedName } from './compared-name.tsx';
import styles from './comparison.module.css';
import type { Found } from './use-compared.ts';
import type { ComparedFact } from './use-compared-facts.tsx';

export interface ComparedProps {
  vehicles: readonly string[];
  found: Found;
  facts: readonly ComparedFact[];
  onDrop: (vehicle: string) => void;
}

/** A column for each vehicle. */
export function ComparedTable({ vehicles, found, facts, onDrop }: ComparedProps) {
  return (
    <table className={styles.table}>
      <thead>
        <tr>
          <td />
          {vehicles.map((vehicle, i) => (
            <th key={vehicle} scope="col">
              <ComparedName vehicle={vehicle} index={i} found={found} onDrop={onDrop} />
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {facts.map(({ name, values }) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            {vehicles.map((vehicle) => (
              <td key={vehicle}>{values.get(vehicle)}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
