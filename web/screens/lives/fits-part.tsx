import type { FleetLivesReply } from '#server/contract/lives.ts';
import { mileageAxis } from '#web/charts/use-axis.ts';
import { formatUtcDate } from '#web/format/format-date.ts';
import { formatLifeNumber, formatLifeRange } from '#web/format/format-life.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { formatShape } from '#web/format/say-shape.ts';
import parts from '#web/ui/parts.module.css';
import { Cell, RowTable } from '#web/ui/row-table.tsx';
import head from '#web/ui/screen-head.module.css';
import { TableCsv } from '#web/ui/table-csv.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import { listFitNumbers } from './list-table-numbers.ts';
import styles from './lives.module.css';
import { basisWords } from './lives-words.ts';

/** The lives that the inspection list reckons with, and where each comes from. */
export function FitsPart({ fits, choices }: Pick<FleetLivesReply, 'fits' | 'choices'>) {
  const units = useUnits();
  const nameOf = (id: string) => choices.platforms.find((one) => one.id === id)?.name ?? id;
  return (
    <section className={parts.told}>
      <div className={styles.partHead}>
        <h2>What the inspection list reckons with</h2>
        {fits.length > 0 && (
          <TableCsv name="lives of the list" table={() => listFitNumbers(fits, nameOf, mileageAxis(units))} />
        )}
      </div>
      {fits.length === 0 ? (
        <p className={styles.soft}>
          No platform has been learned yet: the expected lives of the settings are used, where there are any.
        </p>
      ) : (
        <>
          <p className={head.reading}>
            The chance of a failure that gives no notice comes from the life of the platform. It is fitted
            anew, at most once a day, from failures counted since the first reading.
          </p>
          <RowTable label="Lives that the inspection list reckons with">
            <thead>
              <tr>
                <th scope="col">platform</th>
                <th scope="col" data-words>
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
                  <Cell label="failures of its own">
                    {fit.failures === null ? 'not told' : formatWhole(fit.failures)}
                  </Cell>
                  {[fit.b10_km, fit.b50_km].map(({ estimate, low, high }, i) => (
                    <Cell
                      key={i === 0 ? 'B10' : 'B50'}
                      label={`${i === 0 ? 'B10' : 'B50'}, ${units.distance}`}
                    >
                      {formatLifeNumber(estimate, units)}{' '}
                      {(low !== null || high !== null) && (
                        <small>({formatLifeRange(low, high, units)})</small>
                      )}
                    </Cell>
                  ))}
                  <Cell label="shape">{formatShape(fit.shape)}</Cell>
                  <Cell label="since">{formatUtcDate(fit.fitted_at)}</Cell>
                </tr>
              ))}
            </tbody>
          </RowTable>
        </>
      )}
    </section>
  );
}
