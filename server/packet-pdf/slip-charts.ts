import type { Content } from 'pdfmake/interfaces.js';
import type { Packet } from '#server/contract/packets.ts';
import type { VehicleSeries } from '#server/contract/vehicle.ts';
import { drawDuty } from '#web/charts/draw-duty.ts';
import { drawMileage } from '#web/charts/draw-mileage.ts';
import { drawShares, type Shares } from '#web/charts/draw-shares.ts';
import { shareOfFluid, shareOfLoad } from '#web/charts/exposure-shares.ts';
import type { Frame } from '#web/charts/frame.ts';
import { layMileage } from '#web/charts/mileage-layout.ts';
import { viewMileage } from '#web/charts/mileage-view.ts';
import { sayHeat, sayHot } from '#web/charts/say-exposure.ts';
import { sayNoSignal } from '#web/charts/say-no-signal.ts';
import { below, section, soft, strong } from './blocks.ts';
import { drawChart, PX_PER_PT } from './draw-chart.ts';
import type { Paper } from './paper.ts';
import { paperLook } from './paper-look.ts';

/** Of the page for the large plot, so that both slip charts stand on the first page beside the usual words. */
const MAIN_SHARE = 0.175;

const frameOf = ({ units }: Paper, widthPx: number, heightPx: number): Frame => ({
  widthPx,
  heightPx,
  look: paperLook,
  units,
});

export function writeMileage(paper: Paper, series: VehicleSeries): Content {
  const title = 'Slip at the reference point against mileage';
  const view = viewMileage(series, assessmentOf(paper.packet), { band: null, life: null });
  if (view === null) return section(title, { text: 'No stretch of steady lockup was seen yet.' });
  const widthPx = Math.round(paper.page.widthPt * PX_PER_PT);
  const plain = { ...view, strips: [], series: { ...series, set_aside: [] } };
  const mainHeightPx = paper.page.heightPt * MAIN_SHARE * PX_PER_PT;
  const { rug } = layMileage(plain, widthPx, mainHeightPx);
  const heightPx = rug.top + rug.height + 40;
  const frame = { ...frameOf(paper, widthPx, heightPx), mainHeightPx };
  return section(title, {
    svg: drawChart(drawMileage(plain, view.first, frame), widthPx, heightPx),
    width: paper.page.widthPt,
  });
}

const assessmentOf = ({ flag, platform }: Packet) => ({
  grade: flag.grade,
  limit_rpm: flag.limit_rpm,
  platform,
});

export function writeDuty(paper: Paper, { by_duty, reference }: VehicleSeries): Content {
  const title = 'Slip by command, then and now';
  if (by_duty === null) return section(title, { text: 'Too few usable readings to compare then with now.' });
  const widthPx = Math.round(paper.page.widthPt * PX_PER_PT);
  const heightPx = 150;
  return section(title, {
    svg: drawChart(
      drawDuty(by_duty, reference.duty_pct, frameOf(paper, widthPx, heightPx)),
      widthPx,
      heightPx,
    ),
    width: paper.page.widthPt,
  });
}

export function writeExposure(paper: Paper, series: VehicleSeries): Content {
  const widthPt = (paper.page.widthPt - 24) / 2;
  const widthPx = Math.round(widthPt * PX_PER_PT);
  const draw = (shares: Shares): Content => ({
    svg: drawChart(drawShares(shares, frameOf(paper, widthPx, 150)), widthPx, 150),
    width: widthPt,
  });
  const { exposure } = series;
  const lines = [sayHeat(exposure, paper.units), sayHot(exposure, paper.units)].filter(
    (line) => line !== null,
  );
  return section(
    'Temperature and load of this converter, shares of usable readings',
    {
      columns: [
        {
          width: widthPt,
          stack: [
            soft('Fluid temperature'),
            exposure.fluid_c === null
              ? { text: sayNoSignal(series, 'fluid_c') }
              : draw(shareOfFluid(series, paper.units)),
          ],
        },
        {
          width: widthPt,
          stack: [
            soft('Load'),
            exposure.load_pct === null
              ? { text: sayNoSignal(series, 'load_pct') }
              : draw(shareOfLoad(series)),
          ],
        },
      ],
      columnGap: 24,
    },
    ...lines.map(({ name, own, per, beside }) => ({
      text: [`${name} `, strong(own), ` ${per}${beside === null ? '' : `; ${beside}`}`],
      ...below(2),
    })),
  );
}
