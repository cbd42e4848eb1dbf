import type { Frame } from '#web/charts/frame.ts';
import { buildLook } from '#web/charts/look.ts';
import { metricUnits, type Units } from '#web/format/units.ts';

/** A frame whose tones are the names of their tokens, so that a test can say which was used. */
export const frameOf = (widthPx: number, heightPx = 400, units: Units = metricUnits): Frame => ({
  widthPx,
  heightPx,
  units,
  look: buildLook((name) => name, 'light'),
});
