import type { StretchSummary } from './summarise-stretch.ts';

/** A stretch with its place: life, band and time. */
export interface StretchRow extends StretchSummary {
  life: number;
  band: number;
  firstAtMs: number;
  lastAtMs: number;
}
