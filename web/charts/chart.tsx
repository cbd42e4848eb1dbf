import { BarChart, CustomChart, LineChart, ScatterChart } from 'echarts/charts';
import {
  AxisPointerComponent,
  GraphicComponent,
  GridComponent,
  MarkAreaComponent,
  MarkLineComponent,
  TooltipComponent,
} from 'echarts/components';
import { type ECharts, init, use } from 'echarts/core';
import { SVGRenderer } from 'echarts/renderers';
import { useEffect, useRef } from 'react';
import { useMedia } from '#web/ui/use-media.ts';
import type { ChartOption } from './chart-option.ts';

use([
  AxisPointerComponent,
  BarChart,
  CustomChart,
  GraphicComponent,
  GridComponent,
  LineChart,
  MarkAreaComponent,
  MarkLineComponent,
  ScatterChart,
  SVGRenderer,
  TooltipComponent,
]);

interface Props {
  option: ChartOption;
  /** What the chart shows, for who cannot see it. */
  label: string;
  onPick?: ((name: string) => void) | undefined;
}

/** The only place that knows ECharts; fills the box that it is put in. */
export default function Chart({ option, label, onPick }: Props) {
  const box = useRef<HTMLDivElement>(null);
  const chart = useRef<ECharts>(undefined);
  const pick = useRef(onPick);
  const isStill = useMedia('(prefers-reduced-motion: reduce)');
  useEffect(() => {
    pick.current = onPick;
  });

  useEffect(() => {
    if (box.current === null) return;
    const drawn = init(box.current, null, { renderer: 'svg' });
    chart.current = drawn;
    drawn.on('click', (event) => pick.current?.(event.name));
    const observer = new ResizeObserver(() => drawn.resize());
    observer.observe(box.current);
    return () => {
      observer.disconnect();
      drawn.dispose();
      chart.current = undefined;
    };
  }, []);

  useEffect(() => {
    // First drawn at once; later changes move, so that the eye can follow.
    chart.current?.setOption(
      { animation: !isStill, animationDuration: 0, animationDurationUpdate: 250, ...option },
      { notMerge: true },
    );
  }, [option, isStill]);

  return <div ref={box} role="img" aria-label={label} style={{ width: '100%', height: '100%' }} />;
}
