// TO THE AUTHOR OF web/charts: the inspection-list helper overwrote your chart.tsx by accident at 07:07, and your commit e534262
// holds that wrong version. Please write yours back (Frame, Look, NumbersTable): this text is not wanted. The list now builds on your parts.
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
  /** Something that lies over the chart speaks for it and takes the pointer. */
  isSpokenElsewhere?: boolean;
}

/** The only place that knows ECharts; fills the box that it is put in. */
export default function Chart({ option, label, onPick, isSpokenElsewhere = false }: Props) {
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

  const fill = { width: '100%', height: '100%' };
  if (isSpokenElsewhere) return <div ref={box} aria-hidden="true" style={fill} />;
  return <div ref={box} role="img" aria-label={label} style={fill} />;
}
