import type { Units } from '#web/format/units.ts';
import type { ChartOption } from './chart.tsx';
import { composePicture } from './compose-picture.ts';
import type { Frame } from './frame.ts';
import type { ReadLegend } from './legend.ts';
import { paintPicture } from './paint-picture.ts';
import { loadFontFaces } from './picture-fonts.ts';
import { type Caption, saySource } from './read-caption.ts';
import { readPaperLook } from './read-paper-look.ts';

/** A chart saved on a phone is no narrower than what a page of paper wants. */
const leastWidthPx = 640;

export interface ToDraw {
  draw: (frame: Frame) => ChartOption;
  height: number | ((widthPx: number) => number);
  units: Units;
  /** as it is on the screen */
  widthPx: number;
  label: string;
  caption: Caption;
  legend: ReadLegend | undefined;
  selection: string | undefined;
  /** of the newest data in it, in words */
  dataTo: string | undefined;
  /** draws beside the page and answers SVG */
  render: (option: ChartOption, widthPx: number, heightPx: number) => string;
}

/** The chart drawn anew by day, with title, units and source, as a file. */
export async function makePicture(kind: 'svg' | 'png', chart: ToDraw): Promise<Blob> {
  const look = readPaperLook();
  const widthPx = Math.max(leastWidthPx, chart.widthPx);
  const heightPx = typeof chart.height === 'number' ? chart.height : chart.height(widthPx);
  const drawing = chart.render(
    chart.draw({ widthPx, heightPx, look, units: chart.units }),
    widthPx,
    heightPx,
  );
  const words = {
    ...chart.caption,
    label: chart.label,
    source: saySource(chart, new Date()),
  };
  const legend = chart.legend?.(look) ?? [];
  const fontFaces = await loadFontFaces(
    [drawing, ...Object.values(words).flat(), ...legend.map((entry) => entry.words)].join(''),
  );
  const whole = composePicture({ drawing, widthPx, heightPx, look, fontFaces, legend, ...words });
  return kind === 'png'
    ? paintPicture(whole.svg, whole.widthPx, whole.heightPx)
    : new Blob([whole.svg], { type: 'image/svg+xml' });
}
