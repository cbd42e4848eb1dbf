import type { Units } from '#web/format/units.ts';
import type { Palette } from './palette.ts';

/** All that a drawing may depend on beside its data. Labels are placed by pixel, so the size is part of it. */
export interface Frame {
  widthPx: number;
  heightPx: number;
  palette: Palette;
  units: Units;
}
