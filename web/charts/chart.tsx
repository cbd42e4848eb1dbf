import type {
  BarSeriesOption,
  CustomSeriesOption,
  LineSeriesOption,
  ScatterSeriesOption,
} from 'echarts/charts';
import type { GraphicComponentOption, GridComponentOption, TooltipComponentOption } from 'echarts/components';
import type { ComposeOption, ECharts } from 'echarts/core';
import { type ReactNode, useEffect, useMemo, useRef, useState } from 'react';
import { nameFile } from '#web/format/name-file.ts';
import { writeCsv } from '#web/format/write-csv.ts';
import { saveFile, saveText } from '#web/ui/save-file.ts';
import { SaveMenu } from '#web/ui/save-menu.tsx';
import { useHotkey } from '#web/ui/use-hotkey.ts';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './chart.module.css';
import type { Frame } from './frame.ts';
import { isMeantChart } from './is-meant-chart.ts';
import type { ReadLegend } from './legend.ts';
import { LegendLines } from './legend-lines.tsx';
import type { NumbersTable } from './numbers.ts';
import { NumbersView } from './numbers-view.tsx';
import { readCaption, readScreenName } from './read-caption.ts';
import { useLook } from './use-look.ts';
import { useWidth } from './use-width.ts';

export type ChartOption = ComposeOption<
  | BarSeriesOption
  | CustomSeriesOption
  | GraphicComponentOption
  | GridComponentOption
  | LineSeriesOption
  | ScatterSeriesOption
  | TooltipComponentOption
>;

/** SVG: crisp on paper and at any zoom, and its text takes the page's font features. */
async function loadDrawing() {
  const [core, charts, components, renderers] = await Promise.all([
    import('echarts/core').then(({ init, use }) => ({ init, use })),
    import('echarts/charts').then(({ BarChart, CustomChart, LineChart, ScatterChart }) => [
      BarChart,
      CustomChart,
      LineChart,
      ScatterChart,
    ]),
    import('echarts/components').then(({ GraphicComponent, GridComponent, TooltipComponent }) => [
      GraphicComponent,
      GridComponent,
      TooltipComponent,
    ]),
    import('echarts/renderers').then(({ SVGRenderer }) => [SVGRenderer]),
  ]);
  core.use([...charts, ...components, ...renderers]);
  return core.init;
}

let loading: ReturnType<typeof loadDrawing> | null = null;

/** One load for all charts of the page; a load that failed may be tried again. */
function loadDrawingOnce() {
  loading ??= loadDrawing().catch((error: unknown) => {
    loading = null;
    throw error;
  });
  return loading;
}

/** Draws once, beside the page, and answers the drawing as SVG. */
const renderAside =
  (init: Awaited<ReturnType<typeof loadDrawing>>) =>
  (option: ChartOption, width: number, height: number): string => {
    const drawn = init(null, null, { renderer: 'svg', ssr: true, width, height });
    try {
      drawn.setOption({ animation: false, ...option });
      return drawn.renderToSVGString();
    } finally {
      drawn.dispose();
    }
  };

interface Props {
  /** What the chart shows, in a sentence for those who do not see it. */
  label: string;
  title?: ReactNode;
  /** Keep it the same function while nothing changed: the chart is drawn anew for each. */
  draw: (frame: Frame) => ChartOption;
  height: number | ((widthPx: number) => number);
  numbers: (frame: Frame) => readonly NumbersTable[];
  /** What the chart is of, in words, for the line under a picture that is saved; else the screen's address. */
  selection?: string | undefined;
  /** Day of the newest data, in words, for the same line. */
  dataTo?: string | undefined;
  /** What marks mean that are not named in the drawing; a picture that is saved has it too. */
  legend?: ReadLegend | undefined;
  /** Controls beside the title. */
  tools?: ReactNode;
  /** What lies over the drawing and follows the pointer; it then speaks for the chart. */
  overlay?: (frame: Frame) => ReactNode;
  /** A mark was pressed; its data item's name. */
  onPick?: (name: string) => void;
}

/** A chart drawn for the width it gets, in the page's tones, with its numbers one key away. */
export function Chart(props: Props) {
  const { label, title, draw, height, numbers, selection, dataTo, legend, tools, overlay, onPick } = props;
  const figure = useRef<HTMLElement>(null);
  const ground = useRef<HTMLDivElement>(null);
  const host = useRef<HTMLDivElement>(null);
  const chart = useRef<ECharts | null>(null);
  const pick = useRef(onPick);
  const [state, setState] = useState<'loading' | 'ready' | 'failed'>('loading');
  const [showsNumbers, setShowsNumbers] = useState(false);
  const widthPx = useWidth(ground);
  const look = useLook();
  const units = useUnits();
  const heightPx = typeof height === 'number' ? height : height(widthPx);
  const frame = useMemo<Frame>(() => ({ widthPx, heightPx, look, units }), [widthPx, heightPx, look, units]);
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
  const [saveFault, setSaveFault] = useState('');
  const nameNow = (...more: string[]) =>
    nameFile([readScreenName(), readCaption(figure.current, label).title, ...more], new Date());
  const save = async (kind: 'svg' | 'png') => {
    setSaveFault('');
    try {
      const caption = readCaption(figure.current, label);
      const [init, { makePicture }] = await Promise.all([loadDrawingOnce(), import('./make-picture.ts')]);
      const render = renderAside(init);
      const words = { label, caption, legend, selection, dataTo };
      const chart = { draw, height, units, widthPx, render, ...words };
      saveFile(`${nameNow()}.${kind}`, await makePicture(kind, chart));
    } catch {
      setSaveFault('The picture could not be made. Try again; all its numbers are under Numbers.');
    }
  };

  useEffect(() => {
    pick.current = onPick;
  });

  useEffect(() => {
    let isGone = false;
    loadDrawingOnce().then(
      (init) => {
        if (isGone || host.current === null) return;
        const drawn = init(host.current, null, { renderer: 'svg', width: 1, height: 1 });
        drawn.on('click', (event) => pick.current?.(event.name));
        chart.current = drawn;
        setState('ready');
      },
      () => !isGone && setState('failed'),
    );
    return () => {
      isGone = true;
      chart.current?.dispose();
      chart.current = null;
    };
  }, []);

  useEffect(() => {
    if (state !== 'ready' || option === null || chart.current === null) return;
    chart.current.resize({ width: frame.widthPx, height: frame.heightPx, silent: true });
    // On paper narrower than the screen it shrinks instead of losing its right end.
    host.current?.querySelector('svg')?.setAttribute('viewBox', `0 0 ${frame.widthPx} ${frame.heightPx}`);
    // Parts keep their identity by id and are replaced, never rebuilt: no flicker. Nothing moves by itself.
    chart.current.setOption(
      { animation: false, ...option },
      { replaceMerge: ['grid', 'xAxis', 'yAxis', 'series', 'graphic'] },
    );
  }, [state, option, frame]);

  return (
    <figure className={styles.figure} ref={figure} data-chart={state}>
      <figcaption className={styles.caption}>
        {title}
        <span className={styles.tools} data-tools>
          {tools}
          <SaveMenu
            what={`the picture. ${label.split('. ')[0]}`}
            options={[
              { label: 'SVG', onChoose: () => void save('svg') },
              { label: 'PNG', onChoose: () => void save('png') },
            ]}
          />
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
        {legend !== undefined && <LegendLines entries={legend(look)} />}
      </figcaption>
      <div className={styles.ground} ref={ground} style={{ height: heightPx }}>
        {overlay === undefined ? (
          <div ref={host} className={styles.host} role="img" aria-label={label} />
        ) : (
          <div ref={host} className={styles.host} aria-hidden="true" />
        )}
        {widthPx > 0 && overlay?.(frame)}
        {state === 'loading' && <span className={styles.waiting}>drawing</span>}
        {state === 'failed' && (
          <p className={styles.failed} role="alert">
            The picture could not be loaded. Its numbers are all here; reload the page for the picture.
          </p>
        )}
      </div>
      {saveFault !== '' && (
        <p className={styles.fault} role="alert">
          {saveFault}
        </p>
      )}
      {showsNumbers && (
        <NumbersView
          tables={numbers(frame)}
          onSave={(table) => saveText(`${nameNow(table.caption)}.csv`, 'text/csv', writeCsv(table))}
        />
      )}
    </figure>
  );
}
