import { livesCsvAddress } from '#web/api/use-lives.ts';
import styles from './export-part.module.css';
import type { LivesSearch } from './lives-search.ts';
import { askOf } from './lives-search.ts';

const tables = [
  { name: 'lives', holds: 'each converter on record, from fitting to removal, and how it ended' },
  { name: 'stretches', holds: 'slip in runs of a few hundred kilometres, band by band' },
  { name: 'assessments', holds: 'what is said of each vehicle now: grade, onset, drift, distance to limit' },
] as const;
const formats = [
  { ending: 'csv', label: 'CSV' },
  { ending: 'parquet', label: 'Parquet' },
] as const;

/** The data behind the screen as files. */
export function ExportPart({ search, lives }: { search: LivesSearch; lives: number }) {
  return (
    <section className={styles.part}>
      <h2>Export</h2>
      <ul className={styles.files}>
        {lives > 0 && (
          <li>
            <span>the lives shown here, one a line, as the figures above count them</span>
            <a href={livesCsvAddress(askOf(search))} download aria-label="The lives shown here as CSV">
              CSV
            </a>
          </li>
        )}
        {tables.map(({ name, holds }) => (
          <li key={name}>
            <span>
              {name} of all vehicles: {holds}
            </span>
            {formats.map(({ ending, label }) => (
              <a
                key={ending}
                href={`/api/export/${name}.${ending}`}
                download
                aria-label={`All ${name} as ${label}`}
              >
                {label}
              </a>
            ))}
          </li>
        ))}
      </ul>
      <p className={styles.soft}>
        The command slipdrift export writes the same files, of some platforms, depots or days too. Notebooks
        can read the tables with SQL: whoever runs Slipdrift gives an analyst an address for that.
      </p>
    </section>
  );
}
