import type { Packet } from '#server/contract/packets.ts';
import type { Finding } from '#server/contract/test-steps.ts';
import { formatMoment } from '#web/format/format-date.ts';
import { formatOdometer } from '#web/format/format-km.ts';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './finding-view.module.css';
import { TraceView } from './trace-view.tsx';
import { VerdictMark } from './verdict-mark.tsx';

/** What a step showed, by which rule, who found it and when. */
export function FindingView({ packet, finding }: { packet: Packet; finding: Finding }) {
  const units = useUnits();
  return (
    <div className={styles.finding} data-verdict={finding.verdict}>
      <p className={styles.words}>
        <VerdictMark verdict={finding.verdict} /> {finding.words}
      </p>
      <p className={styles.soft}>
        {finding.by}, {formatMoment(finding.at)}
        {finding.odometer_km !== null && `, at ${formatOdometer(finding.odometer_km, units)}`}
      </p>
      {finding.shown.length > 0 && (
        <dl className={styles.shown}>
          {finding.shown.map(({ label, value }) => (
            <div key={label}>
              <dt>{label}</dt>
              <dd>{value}</dd>
            </div>
          ))}
        </dl>
      )}
      {finding.notes !== '' && <p className={styles.notes}>{finding.notes}</p>}
      {finding.trace && <TraceView packet={packet.id} finding={finding.id} />}
      <details className={styles.rule}>
        <summary>The rule that judged it</summary>
        <p>{finding.rule}</p>
      </details>
      <p className={styles.printedRule}>Rule: {finding.rule}</p>
      {finding.look_next.length > 0 && (
        <div>
          <h4 className={styles.label}>Look at next</h4>
          <ol className={styles.next}>
            {finding.look_next.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ol>
        </div>
      )}
    </div>
  );
}
