import type { StorageReport } from '#server/contract/storage.ts';
import { formatMoment } from '#web/format/format-date.ts';
import settings from '#web/screens/settings/settings.module.css';
import { listSteps, sayRunState, sayRunTime } from './say-storage.ts';

/** The last runs of the upkeep. */
export function RunsTable({ upkeep: { runs, next_at } }: Pick<StorageReport, 'upkeep'>) {
  return (
    <section className={settings.stack} aria-labelledby="storage-upkeep">
      <h2 id="storage-upkeep">Upkeep</h2>
      <p className={settings.small}>
        At every start and daily, by one program of all; an hour later again where not all was done.
        {next_at !== null && ` Next: ${formatMoment(next_at)}.`}
      </p>
      <table className={settings.table}>
        <caption className="only-spoken">Runs of the upkeep, the newest first</caption>
        <thead>
          <tr>
            <th scope="col">Begun</th>
            <th scope="col">State</th>
            <th scope="col">Took</th>
            <th scope="col" className={settings.last}>
              What was done
            </th>
          </tr>
        </thead>
        <tbody>
          {runs.map((run) => {
            const steps = listSteps(run);
            return (
              <tr key={run.id}>
                <td>{formatMoment(run.started_at)}</td>
                <td data-name="State">{sayRunState(run)}</td>
                <td data-name="Took">{sayRunTime(run)}</td>
                <td data-name="What was done" className={settings.last}>
                  <span>
                    {steps.length === 0 && 'Nothing was due'}
                    {steps.map(({ text, isFault }) => (
                      <span
                        key={text}
                        className={isFault ? settings.warning : undefined}
                        style={{ display: 'block' }}
                      >
                        {text}
                      </span>
                    ))}
                  </span>
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </section>
  );
}
