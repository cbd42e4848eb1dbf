import { BarChart, CustomChart, LineChart, ScatterChart } from 'echarts/charts';
import { GraphicComponent, GridComponent } from 'echarts/components';
import { init, use } from 'echarts/core';
import { SVGRenderer } from 'echarts/renderers';
import type { ChartOption } from '#web/charts/chart.tsx';
import { mendSvg } from './mend-svg.ts';

use([BarChart, CustomChart, LineChart, ScatterChart, GraphicComponent, GridComponent, SVGRenderer]);

/** Charts are laid out in pixels of the screen and set smaller, so that their type, 13 px, is small print on the page. */
export const PX_PER_PT = 13 / 8.8;

/** The drawing of a screen's chart as SVG text, without a browser. */
export function drawChart(option: ChartOption, widthPx: number, heightPx: number): string {
  const chart = init(null, null, { renderer: 'svg', ssr: true, width: widthPx, height: heightPx });
  try {
    const still: ChartOption = { ...option, animation: false };
    delete still.tooltip;
    chart.setOption(still);
    return mendSvg(chart.renderToSVGString());
  } finally {
    chart.dispose();
  }
}
