import { rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { removeStorage } from '#db/embedded/remove-storage.ts';
import { drawChart } from '#server/packet-pdf/draw-chart.ts';
import { paperLook } from '#server/packet-pdf/paper-look.ts';
import { growthOption } from './growth-option.ts';
import type { GrowthPoint } from './growth-point.ts';
import { measureSize } from './measure-size.ts';
import { READINGS_A_DAY, writeTable } from './write-table.ts';

const VEHICLES = 300;
const DAYS = 73;
const SIZES = [
  { grows: ['vehicles', 'history'], times: 1 },
  { grows: ['vehicles'], times: 3 },
  { grows: ['vehicles'], times: 10 },
  { grows: ['history'], times: 3 },
  { grows: ['history'], times: 10 },
] as const;
const WIDTH_PX = 980;
const HEIGHT_PX = 440;
const TITLE = 'Cost at one, three and ten times the vehicles and the history';
const plot = fileURLToPath(new URL('../../../docs/growth.svg', import.meta.url));

/** The same figures at one, three and ten times the vehicles and the history: a table on standard output and a plot. */
export async function measureGrowth(folder: string, scale: number, file = plot): Promise<void> {
  const points: GrowthPoint[] = [];
  for (const { grows, times } of SIZES) {
    const isVehicles = (grows as readonly string[]).includes('vehicles');
    const vehicles = Math.max(48, Math.round(VEHICLES * scale)) * (isVehicles ? times : 1);
    const days = Math.max(30, Math.round(DAYS * scale)) * (isVehicles && times > 1 ? 1 : times);
    const own = join(folder, `growth-${grows.join('-')}-${times}`);
    const found = await measureSize(own, { vehicles, days, readings: days * READINGS_A_DAY });
    removeStorage(own);
    await rm(own, { recursive: true, force: true });
    for (const grow of grows) points.push({ grows: grow, times, vehicles, days, ...found });
    console.error(`${grows.join(' and ')} ${times}×: ${JSON.stringify(found)}`);
  }
  const sorted = points.toSorted((a, b) => b.grows.localeCompare(a.grows) || a.times - b.times);
  console.log(writeTable(sorted));
  const look = { ...paperLook, fontFamily: 'Helvetica, Arial, sans-serif' };
  const drawn = drawChart(
    growthOption(sorted, { look, widthPx: WIDTH_PX, heightPx: HEIGHT_PX }),
    WIDTH_PX,
    HEIGHT_PX,
  );
  await writeFile(file, drawn.replace('>', `><title>${TITLE}</title>`));
}
