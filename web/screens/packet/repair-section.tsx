import type { Packet } from '#server/contract/packets.ts';
import { formatPrice } from '#web/format/format-money.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { CoolerForm, sayCooler } from './cooler-form.tsx';
import { CoreStates } from './core-states.tsx';
import { PartLines, PartsForm } from './parts-form.tsx';
import { Photos } from './photos.tsx';
import styles from './repair-section.module.css';
import { sayTeardown, TeardownForm } from './teardown-form.tsx';

/** What was replaced, what the cooler got, what turned out to be wrong, and its pictures. */
export function RepairSection({ packet, onLook }: { packet: Packet; onLook: () => void }) {
  const mayWrite = packet.may_report && packet.state === 'open';
  const { report, part_guide: guide, cooler_due: cooler } = packet;
  return (
    <div className={styles.repair}>
      <section className={styles.part} aria-label="Parts">
        <h3>Parts</h3>
        <div className={styles.guide}>
          <p>{guide.words}</p>
          <dl className={styles.facts}>
            <Fact name="Converter" value={formatPrice(guide.price)} />
            <Fact name="Core deposit" value={formatPrice(guide.core_deposit)} />
            <Fact name="Spare cores here" value={formatWhole(guide.spare_cores)} />
            <Fact name="Cutting the old one open" value={formatPrice(guide.cutting_costs)} />
          </dl>
          {guide.known_from !== null && <p className={styles.soft}>{guide.known_from}</p>}
        </div>
        {mayWrite ? <PartsForm packet={packet} onLook={onLook} /> : <PartLines parts={report.parts} />}
        {packet.state === 'closed' && <CoreStates packet={packet} onLook={onLook} />}
      </section>
      <section className={styles.part} aria-label="Cooler and lines">
        <h3>Cooler and lines</h3>
        <p className={styles.due} data-due={cooler.due || undefined}>
          {cooler.why}
        </p>
        {cooler.lacks !== '' && <p className={styles.lacks}>{cooler.lacks}</p>}
        {mayWrite ? <CoolerForm packet={packet} onLook={onLook} /> : <p>{sayCooler(report.cooler)}</p>}
      </section>
      <section className={styles.part} aria-label="What was wrong">
        <h3>What was wrong</h3>
        {mayWrite ? (
          <TeardownForm packet={packet} onLook={onLook} />
        ) : (
          <p className={styles.words}>{sayTeardown(report.teardown)}</p>
        )}
        <h4 className={styles.label}>Photos</h4>
        <Photos packet={packet} mayAdd={mayWrite} onLook={onLook} />
      </section>
    </div>
  );
}

const Fact = ({ name, value }: { name: string; value: string }) => (
  <div>
    <dt>{name}</dt>
    <dd>{value}</dd>
  </div>
);
