import { lazy, type ReactNode, Suspense, useMemo, useRef, useState } from 'react';
import { useHotkey } from '#web/ui/use-hotkey.ts';
import { useTheme } from '#web/ui/use-theme.ts';
import { useUnits } from '#web/ui/use-units.ts';
import type { ChartOption } from './chart-option.ts';
import { DrawingBoundary } from './drawing-boundary.tsx';
import styles from './drawn-figure.module.css';
import type { Frame } from './frame.ts';
import { isMeantChart } from './is-meant-chart.ts';
import type { NumbersTable } from './numbers.ts';
import { NumbersView } from './numbers-view.tsx';
import { palettes } from './palette.ts';
import { useWidth } from './use-width.ts';

const Chart = lazy(() => import('./chart.tsx'));

interface Props {
  /** What the chart shows, in a sentence for those who do not see it. */
  label: string;
  title: ReactNode;
  /** Keep it the same function while nothing changed: the chart is drawn anew for each. */
  draw: (frame: Frame) => ChartOption;
  height: number | ((widthPx: number) => number);
  numbers: (frame: Frame) => readonly NumbersTable[];
  /** Controls beside the title. */
  tools?: ReactNode;
  /** What lies over the drawing and follows the pointer; it then speaks for the chart. */
  overlay?: (frame: Frame) => ReactNode;
}

/** A chart that is drawn for the width it gets, with its numbers one key away. */
export function DrawnFigure({ label, title, draw, height, numbers, tools, overlay }: Props) {
  const figure = useRef<HTMLElement>(null);
  const ground = useRef<HTMLDivElement>(null);
  const [showsNumbers, setShowsNumbers] = useState(false);
  const widthPx = useWidth(ground);
  const palette = palettes[useTheme()];
  const units = useUnits();
  const heightPx = typeof height === 'number' ? height : height(widthPx);
  const frame = useMemo<Frame>(
    () => ({ widthPx, heightPx, palette, units }),
    [widthPx, heightPx, palette, units],
  );
  const option = useMemo(() => (widthPx === 0 ? null : draw(frame)), [draw, frame, widthPx]);
  const keys = useMemo(
    () => ({
      n: () => {
        if (!isMeantChart(figure.current)) return false;
        setShowsNumbers((shown) => !shown);
        return true;
      },
    }),
    [],
  );
  useHotkey(keys);

  return (
    <figure className={styles.figure} ref={figure} data-chart="">
      <figcaption className={styles.caption}>
        {title}
        <span className={styles.tools}>
          {tools}
          <button
            type="button"
            className={styles.numbersButton}
            aria-expanded={showsNumbers}
            onClick={() => setShowsNumbers(!showsNumbers)}
            title="Key n"
          >
            Numbers
          </button>
        </span>
      </figcaption>
      <div className={styles.ground} ref={ground} style={{ height: heightPx }}>
        {option !== null && (
          <DrawingBoundary>
            <Suspense fallback={<p className={styles.waiting}>drawing</p>}>
              <Chart option={option} label={label} isSpokenElsewhere={overlay !== undefined} />
            </Suspense>
          </DrawingBoundary>
        )}
        {option !== null && overlay?.(frame)}
      </div>
      {showsNumbers && <NumbersView tables={numbers(frame)} />}
    </figure>
  );
}
