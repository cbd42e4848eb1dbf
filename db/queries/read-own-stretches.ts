import { type Database, type RawClient, rawClient } from '#db/client.ts';
import { numberOrNull, readBinaryArray, takeNumbers } from '#db/read-binary-array.ts';
import type { StretchRecord } from './stored-stretches.ts';

/** Stretches by columns, in binary, because somebody waits for them: all that are numbers as one array a stretch. */
export type StretchColumns = { [name in 'figures' | 'moments' | 'times']: string | null };

/** How many numbers a stretch has in `figures`. */
const FIGURES = 12;

type Fragment = ReturnType<RawClient>;

/** Those that `where` lets through, in order of vehicle, life, band and kilometres. */
export const stretchColumns = (client: RawClient, where: Fragment): Fragment => client`
  select encode(array_send(array_agg(array[vehicle::float8, life::float8, band::float8, n::float8, weight, effective,
      odometer_km, slip_rpm, scale_rpm, duty_pct, fluid_c, load_pct])), 'base64') as figures,
    encode(array_send(array_agg(moments)), 'base64') as moments,
    encode(array_send(array_agg(array[first_at, last_at])), 'base64') as times
  from (select * from stretches where ${where} order by vehicle, life, band, stretch) own`;

/** Of some vehicles, of one band alone. */
export async function readBandStretches(
  db: Database,
  vehicles: readonly number[],
  band: number,
): Promise<StretchRecord[]> {
  const client = rawClient(db);
  const [found] = await client<
    StretchColumns[]
  >`${stretchColumns(client, client`vehicle = any(${[...vehicles]}::integer[]) and band = ${band}`)}`;
  return found === undefined ? [] : toStretches(found);
}

export function toStretches({ figures, moments, times }: StretchColumns): StretchRecord[] {
  if (figures === null || moments === null || times === null) return [];
  const values = readBinaryArray(figures);
  const products = readBinaryArray(moments);
  const instants = readBinaryArray(times);
  const count = values.length / FIGURES;
  const width = products.length / count;
  const stretches: StretchRecord[] = [];
  for (let i = 0; i < count; i++) {
    const at = i * FIGURES;
    stretches.push({
      vehicle: values[at] ?? 0,
      life: values[at + 1] ?? 0,
      band: values[at + 2] ?? 0,
      firstAtMs: instants[2 * i] ?? 0,
      lastAtMs: instants[2 * i + 1] ?? 0,
      n: values[at + 3] ?? 0,
      weight: values[at + 4] ?? 0,
      effective: values[at + 5] ?? 0,
      odometerKm: values[at + 6] ?? 0,
      slipRpm: values[at + 7] ?? 0,
      scaleRpm: values[at + 8] ?? 0,
      dutyPct: values[at + 9] ?? 0,
      fluidC: numberOrNull(values[at + 10]),
      loadPct: numberOrNull(values[at + 11]),
      moments: takeNumbers(products, i * width, width),
    });
  }
  return stretches;
}
