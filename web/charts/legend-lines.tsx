import styles from './chart.module.css';
import { type LegendEntry, type LegendMark, shapeMark } from './legend.ts';

const heightPx = 14;

/** What the marks of a chart mean, in the order in which they are drawn. */
export const LegendLines = ({ entries }: { entries: readonly LegendEntry[] }) => (
  <ul className={styles.legend}>
    {entries.map(({ marks, words }) => (
      <li key={words}>
        {marks.map((mark) => (
          <Mark key={`${mark.color} ${mark.widthPx}`} mark={mark} />
        ))}
        {words}
      </li>
    ))}
  </ul>
);

const Mark = ({ mark }: { mark: LegendMark }) => (
  <svg width={mark.widthPx} height={heightPx} aria-hidden="true">
    <rect {...shapeMark(mark, 0, heightPx / 2)} />
  </svg>
);
