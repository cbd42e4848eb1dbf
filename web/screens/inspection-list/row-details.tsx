import { Link } from '@tanstack/react-router';
import { usePerson } from '#web/api/use-session.ts';
import { keepUnits } from '#web/format/keep-units.ts';
import { OpenPacketButton } from '#web/screens/packet/open-packet-button.tsx';
import { describeRail } from '#web/ui/describe-rail.ts';
import { DistanceRail } from '#web/ui/distance-rail.tsx';
import { patternWords } from '#web/ui/pattern-words.ts';
import { shapeRail } from '#web/ui/rail-geometry.ts';
import { RailScale } from '#web/ui/rail-scale.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import { FactList } from './fact-list.tsx';
import { listFacts } from './list-facts.ts';
import { RankReason } from './rank-reason.tsx';
import styles from './row-details.module.css';
import { RowPlanning } from './row-planning.tsx';
import { ShopNote } from './shop-note.tsx';
import type { RowProps } from './shown-rows.ts';

type Props = Pick<RowProps, 'row' | 'horizonKm' | 'scaleKm' | 'names' | 'next'>;

/** All that the list knows of one vehicle: reasons, what is missing, the figures, what is planned, the way on. */
export function RowDetails({ row, horizonKm, scaleKm, names, next }: Props) {
  const units = useUnits();
  const isShop = usePerson()?.role === 'shop';
  const pattern = patternWords[row.pattern];
  const missing = row.missing[0] ?? null;
  return (
    <div className={styles.details}>
      {isShop && <ShopNote vehicle={row.vehicle} />}
      <div className={styles.argument}>
        <p className={styles.distance}>
          {describeRail(shapeRail(row.km_to_limit, row.grade, scaleKm), row.km_to_limit, units, missing)}
        </p>
        <DistanceRail
          distance={row.km_to_limit}
          grade={row.grade}
          horizonKm={horizonKm}
          scaleKm={scaleKm}
          size="head"
        />
        <RailScale horizonKm={horizonKm} scaleKm={scaleKm} />
        <RowPlanning row={row} names={names} isShop={isShop} />
        {isShop && (
          <p>
            <OpenPacketButton vehicle={row.vehicle} />
          </p>
        )}
        <Link className={styles.onward} to="/vehicles/$vehicle" params={{ vehicle: row.vehicle }}>
          Open vehicle {row.vehicle}
        </Link>
      </div>
      <div className={styles.words}>
        {row.reasons.length > 0 && <WordList title="Reasons" items={row.reasons} />}
        {row.missing.length > 0 && <WordList title="Missing" items={row.missing} />}
        {pattern !== null && (
          <p>
            <span className={styles.label}>Pattern </span>
            {pattern}
          </p>
        )}
        {!isShop && <RankReason vehicle={row.vehicle} against={next} horizonKm={horizonKm} />}
      </div>
      <FactList facts={listFacts(row, units, new Date(), { withCost: !isShop, names })} />
    </div>
  );
}

function WordList({ title, items }: { title: string; items: readonly string[] }) {
  return (
    <div>
      <h3 className={styles.label}>{title}</h3>
      <ol className={styles.list}>
        {items.map((item) => (
          <li key={item}>{keepUnits(item)}</li>
        ))}
      </ol>
    </div>
  );
}
