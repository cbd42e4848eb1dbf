import type { Units } from '#web/format/units.ts';
import type { Look } from './look.ts';

/** All that a drawing may depend on beside its data. Labels are placed by pixel, so the size is part of it. */
export interface Frame {
  widthPx: number;
  heightPx: number;
  look: Look;
  units: Units;
  /** of the large plot of a drawing that has one; as the drawing likes where left out */
  mainHeightPx?: number;
}
