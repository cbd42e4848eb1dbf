import type { Content } from 'pdfmake/interfaces.js';
import type { RoadTrace } from '#server/contract/test-steps.ts';
import type { ChartOption } from '#web/charts/chart.tsx';
import type { Frame } from '#web/charts/frame.ts';
import { traceDutyOption } from '#web/charts/trace-duty-option.ts';
import { traceOption } from '#web/charts/trace-option.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { section, smallTitle, soft } from './blocks.ts';
import { drawChart, PX_PER_PT } from './draw-chart.ts';
import type { Paper } from './paper.ts';
import { paperLook } from './paper-look.ts';

const HEIGHT_PX = 250;

/** The recorded road test over time and by command. */
export function writeTrace({ page, units }: Paper, trace: RoadTrace): Content {
  const widthPx = Math.round(page.widthPt * PX_PER_PT);
  const frame: Frame = { widthPx, heightPx: HEIGHT_PX, look: paperLook, units };
  const draw = (option: ChartOption): Content => ({
    svg: drawChart(option, widthPx, HEIGHT_PX),
    width: page.widthPt,
  });
  return section(
    'Recorded road test',
    {
      stack: [
        soft([`${trace.file.name}, ${formatWhole(trace.rows)} rows.`, ...trace.told].join(' ')),
        draw(traceOption(trace, frame)),
      ],
    },
    { stack: [smallTitle('Slip by command in it'), draw(traceDutyOption(trace, frame))], unbreakable: true },
  );
}
