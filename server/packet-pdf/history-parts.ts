import type { Content } from 'pdfmake/interfaces.js';
import type { EarlierJob } from '#server/contract/packets.ts';
import { formatOdometer } from '#web/format/format-km.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { formatRpm } from '#web/format/format-rpm.ts';
import { section, soft, strong, tableSection } from './blocks.ts';
import type { Paper } from './paper.ts';

export function writeCodes({ packet, clock }: Paper): Content {
  const { codes } = packet.flag;
  if (codes.length === 0)
    return section('Trouble codes seen', { text: 'None in the readings of this vehicle.' });
  return tableSection(
    'Trouble codes seen',
    [
      { title: 'code', width: 62 },
      { title: 'meaning', width: '*' },
      { title: 'readings', width: 48 },
      { title: 'first', width: 62 },
      { title: 'last', width: 62 },
    ],
    codes.map(({ code, meaning, n, first_at, last_at, names_clutch }) => [
      names_clutch ? strong(code) : code,
      {
        text: [
          meaning === '' ? 'not in the list of codes' : meaning,
          ...(names_clutch ? [soft('  names the clutch or its control')] : []),
        ],
      },
      formatWhole(n),
      clock.date(first_at),
      clock.date(last_at),
    ]),
  );
}

const sources = { original: 'original', new: 'new', rebuilt: 'rebuilt', used: 'used' } as const;

export function writeLives({ packet, units, clock }: Paper): Content {
  const title = 'Converter lives';
  if (packet.lives.length === 0)
    return section(title, {
      text: 'No converter is registered: the first life begins with the first reading.',
    });
  return tableSection(
    title,
    [
      { title: 'life', width: 24 },
      { title: 'unit', width: 66 },
      { title: 'fitted', width: 96 },
      { title: 'removed', width: 96 },
      { title: 'ran', width: 66 },
      { title: 'ended', width: '*' },
    ],
    packet.lives.map((life) => {
      const endKm = life.removed_km ?? packet.now.odometer_km;
      const on = (km: number | null, at: string | null) =>
        km === null ? '–' : `${formatOdometer(km, units)}${at === null ? '' : `\n${clock.date(at)}`}`;
      return [
        String(life.life),
        {
          stack: [
            life.source === null ? 'not registered' : sources[life.source],
            ...(life.run_km ? [soft(`had run ${formatOdometer(life.run_km, units)}`)] : []),
          ],
        },
        on(life.fitted_km, life.fitted_at),
        on(life.removed_km, life.removed_at),
        endKm === null ? '–' : formatOdometer(Math.max(0, endKm - life.fitted_km), units),
        [
          life.ended === null
            ? 'still in the vehicle'
            : [life.ended, life.mode].filter((word) => word !== null && word !== '').join(', '),
          ...(life.supplier === null ? [] : [`from ${life.supplier}`]),
        ].join('; '),
      ];
    }),
  );
}

const sayJob = ({ packet: { platform_name, platform } }: Paper): string =>
  platform_name ?? platform ?? 'the same platform';

export function writeEarlier(paper: Paper): Content[] {
  const { earlier, sisters } = paper.packet;
  const own =
    earlier.length === 0
      ? section('Earlier findings on this vehicle', { text: 'None.' })
      : jobTable(paper, 'Earlier findings on this vehicle', earlier, false);
  const title = `Earlier findings on others of ${sayJob(paper)}`;
  const others =
    sisters.length === 0
      ? section(title, { text: 'None that you may see.' })
      : jobTable(paper, title, sisters, true);
  return [own, others];
}

function jobTable(
  { units, clock }: Paper,
  title: string,
  jobs: readonly EarlierJob[],
  withVehicle: boolean,
): Content {
  return tableSection(
    title,
    [
      ...(withVehicle ? [{ title: 'unit', width: 62 }] : []),
      { title: 'closed', width: 62 },
      { title: 'odometer', width: 64 },
      { title: 'converter ran', width: 64 },
      { title: 'flagged at', width: 48 },
      { title: 'what it came to', width: '*' as const },
    ],
    jobs.map((job) => [
      ...(withVehicle ? [job.vehicle ?? 'another depot’s'] : []),
      clock.date(job.closed_at),
      formatOdometer(job.odometer_km, units),
      formatOdometer(job.converter_km, units),
      formatRpm(job.flagged_slip_rpm),
      { stack: [strong(job.words), ...job.findings.map(({ words }) => soft(words))] },
    ]),
  );
}
