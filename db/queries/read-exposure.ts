import { type Database, rawClient } from '#db/client.ts';

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

/** The stretches of one vehicle in order of time, as one text: for hundreds of rows that is read in less time than rows. */
export async function readExposure(db: Database, vehicle: number): Promise<StretchExposure[]> {
  const [found] = await rawClient(db)<{ rows: StretchExposure[] | null }[]>`
    select json_agg(json_build_object('life', life, 'stretch', stretch, 'usable', usable, 'setAside', set_aside,
      'fluidBins', fluid_bins, 'loadBins', load_bins, 'heatKwSum', heat_kw_sum, 'heatSpeedSum', heat_speed_sum)) as rows
    from (select * from stretch_totals where vehicle = ${vehicle} order by first_at, stretch) own`;
  return found?.rows ?? [];
}
