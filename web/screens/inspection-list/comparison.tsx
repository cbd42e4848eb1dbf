import type { RankingRow } from '#server/contract/ranking.ts';
import { useMedia } from '#web/ui/use-media.ts';
import { ComparedSlip } from './compared-slip.tsx';
import { ComparedStack } from './compared-stack.tsx';
import { ComparedTable } from './compared-table.tsx';
import styles from './comparison.module.css';
import { orderPairs } from './order-pairs.ts';
import { RankReason } from './rank-reason.tsx';
import { useCompared } from './use-compared.ts';
import { useComparedFacts } from './use-compared-facts.tsx';

interface Props {
  vehicles: readonly string[];
  rows: readonly RankingRow[];
  horizonKm: number;
  onDrop: (vehicle: string) => void;
}

/** Two or three vehicles side by side: slip on common axes, figures in common units, and why they stand in their order. */
export function Comparison({ vehicles, rows, horizonKm, onDrop }: Props) {
  const found = useCompared(vehicles, rows);
  const facts = useComparedFacts(vehicles, found, horizonKm);
  const isSmall = useMedia('(max-width: 47.99rem)');
  const Facts = isSmall ? ComparedStack : ComparedTable;
  return (
    // Scrolls by itself, and must be reached by key to do so.
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolled region without focusable content at its end
    <section className={styles.scroll} tabIndex={0} aria-label="Side by side">
      <div className={styles.above}>
        <ComparedSlip vehicles={vehicles} />
        <div className={styles.order}>
          {orderPairs(vehicles, found).map(([above, below]) => (
            <RankReason
              key={`${above} ${below}`}
              vehicle={above}
              against={below}
              horizonKm={horizonKm}
              isNamed
            />
          ))}
        </div>
      </div>
      <Facts vehicles={vehicles} found={found} facts={facts} onDrop={onDrop} />
    </section>
  );
}
