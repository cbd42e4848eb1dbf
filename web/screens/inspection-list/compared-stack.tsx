import { SeriesMark } from '#web/ui/series-mark.tsx';
import { ComparedName } from './compared-name.tsx';
import type { ComparedProps } from './compared-table.tsx';
import styles from './comparison.module.css';

/** The same for a hand-held screen: what is compared one below the other, the vehicles under each. */
export function ComparedStack({ vehicles, found, facts, onDrop }: ComparedProps) {
  return (
    <div className={styles.stack}>
      <ul>
        {vehicles.map((vehicle, i) => (
          <li key={vehicle}>
            <ComparedName vehicle={vehicle} index={i} found={found} onDrop={onDrop} />
          </li>
        ))}
      </ul>
      {facts.map(({ name, values }) => (
        <section key={name} className={styles.fact}>
          <h3>{name}</h3>
          <dl>
            {vehicles.map((vehicle, i) => (
              <div key={vehicle}>
                <dt>
                  <SeriesMark index={i} />
                  <span>{vehicle}</span>
                </dt>
                <dd>{values.get(vehicle)}</dd>
              </div>
            ))}
          </dl>
        </section>
      ))}
    </div>
  );
}
