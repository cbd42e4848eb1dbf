import type { FleetLivesReply } from '#server/contract/lives.ts';
import { formatUtcDate } from '#web/format/format-date.ts';
import { formatKmNumber, formatKmRange } from '#web/format/format-km.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { formatShape } from '#web/format/say-shape.ts';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './lives.module.css';
import { basisWords } from './lives-words.ts';
import { Cell, ScrollTable } from './scroll-table.tsx';

/** The lives that the inspection list reckons with, and where each comes from. */
export function FitsPart({ fits, choices }: Pick<FleetLivesReply, 'fits' | 'choices'>) {
  const units = useUnits();
  const nameOf = (id: string) => choices.platforms.find((one) => one.id === id)?.name ?? id;
  return (
    <section className={styles.part}>
      <h2>What the inspection list reckons with</h2>
      {fits.length === 0 ? (
        <p className={styles.soft}>
          No platform has been learned yet: the expected lives of the settings are used, where there are any.
        </p>
      ) : (
        <>
          <p className={styles.reading}>
            The chance of a failure that gives no notice comes from the life of the platform. It is fitted
            anew, at most once a day, from failures counted since the first reading.
          </p>
          <ScrollTable label="Lives that the inspection list reckons with">
            <thead>
              <tr>
                <th scope="col">platform</th>
                <th scope="col" className={styles.words}>
                  from
                </th>
                <th scope="col">failures of its own</th>
                <th scope="col">B10, {units.distance}</th>
                <th scope="col">B50, {units.distance}</th>
                <th scope="col">shape</th>
                <th scope="col">since</th>
              </tr>
            </thead>
            <tbody>
              {fits.map((fit) => (
                <tr key={fit.platform}>
                  <th scope="row">{nameOf(fit.platform)}</th>
                  <Cell label="from" isWords>
                    {basisWords[fit.basis]}
                  </Cell>
                  <Cell label="failures of its own">{formatWhole(fit.failures)}</Cell>
                  {[fit.b10_km, fit.b50_km].map(({ estimate, low, high }, i) => (
                    <Cell
                      key={i === 0 ? 'B10' : 'B50'}
                      label={`${i === 0 ? 'B10' : 'B50'}, ${units.distance}`}
                    >
                      {formatKmNumber(estimate, units)}{' '}
                      {(low !== null || high !== null) && (
                        <span className={styles.bounds}>({formatKmRange(low, high, units)})</span>
                      )}
                    </Cell>
                  ))}
                  <Cell label="shape">{formatShape(fit.shape)}</Cell>
                  <Cell label="since">{formatUtcDate(fit.fitted_at)}</Cell>
                </tr>
              ))}
            </tbody>
          </ScrollTable>
        </>
      )}
    </section>
  );
}
