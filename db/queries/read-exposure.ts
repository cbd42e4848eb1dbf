import type { RawClient } from '#db/client.ts';

/** What was borne, and what was set aside, in a stretch of one vehicle. */
export interface StretchExposure {
  life: number;
  stretch: number;
  usable: number;
  setAside: Record<string, Record<string, number>>;
  fluidBins: number[];
  loadBins: number[] | null;
  heatKwSum: number | null;
  heatSpeedSum: number | null;
}

export type ExposureRow = [
  life: number,
  stretch: number,
  usable: number,
  setAside: StretchExposure['setAside'],
  fluidBins: number[],
  loadBins: number[] | null,
  heatKwSum: number | null,
  heatSpeedSum: number | null,
];

/** The stretches of one vehicle in order of time, as one text: for hundreds of rows that is read in less time than rows. */
export const exposureRows = (client: RawClient, vehicle: number) => client`
  select json_agg(json_build_array(life, stretch, usable, set_aside, fluid_bins, load_bins, heat_kw_sum,
    heat_speed_sum)) as rows
  from (select * from stretch_totals where vehicle = ${vehicle} order by first_at, stretch) own`;

export const toExposures = (rows: readonly ExposureRow[] | null): StretchExposure[] =>
  (rows ?? []).map(([life, stretch, usable, setAside, fluidBins, loadBins, heatKwSum, heatSpeedSum]) => ({
    life,
    stretch,
    usable,
    setAside,
    fluidBins,
    loadBins,
    heatKwSum,
    heatSpeedSum,
  }));
