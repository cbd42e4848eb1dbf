import type { Content } from 'pdfmake/interfaces.js';
import type { Packet } from '#server/contract/packets.ts';
import { formatWholeDay } from '#web/format/format-day.ts';
import { formatKm, formatOdometer } from '#web/format/format-km.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import { driftUnit, formatDrift, formatRpm } from '#web/format/format-rpm.ts';
import { describeRail } from '#web/ui/describe-rail.ts';
import { sayMeaning } from '#web/ui/grade-words.ts';
import { scaleForHorizon, shapeRail } from '#web/ui/rail-geometry.ts';
import { below, boxed, bullets, factList, soft, strong, together, typePt } from './blocks.ts';
import { drawGradeMark } from './draw-grade-mark.ts';
import { drawRail } from './draw-rail.ts';
import type { Paper } from './paper.ts';
import { paperLook } from './paper-look.ts';

/** What is to be known before the vehicle is touched: which, when, how urgent and why. */
export function writePageOne(paper: Paper): Content[] {
  const { packet } = paper;
  return [
    writeHead(paper),
    ...(packet.note === null ? [] : [boxed(strong('Note to the shop'), { text: packet.note })]),
    writeGrade(paper),
    writeReasons(paper),
  ];
}

function writeHead({ packet, units, clock }: Paper): Content {
  const facts = [
    { name: 'Platform', value: packet.platform_name ?? packet.platform ?? 'not known' },
    { name: 'Shop', value: packet.depot_name ?? packet.depot ?? 'not said' },
    { name: 'Booking', value: sayBooking(packet) },
    {
      name: 'Odometer',
      value: `${formatOdometer(packet.now.odometer_km, units)}${packet.now.last_reading_at === null ? '' : `, last reading ${clock.moment(packet.now.last_reading_at)}`}`,
    },
    ...(packet.vin === null ? [] : [{ name: 'VIN', value: packet.vin }]),
  ];
  return {
    columns: [
      {
        width: '42%',
        stack: [
          soft('Unit'),
          { text: packet.vehicle, fontSize: unitPt(packet.vehicle), bold: true, lineHeight: 1 },
          soft(`Packet ${packet.id}, opened ${clock.moment(packet.opened_at)} by ${packet.opened_by}`),
        ],
      },
      { width: '*', ...factList(facts, 52) },
    ],
    columnGap: 14,
  };
}

/** A unit number may have 64 characters; the usual ones stand large. */
const unitPt = (unit: string): number => (unit.length <= 12 ? typePt.head : unit.length <= 24 ? 15 : 11);

function sayBooking({ booking, depot, depot_name }: Packet): Content {
  if (booking === null) return 'none';
  if (booking.state === 'put_off' || booking.day === null) return 'put off, waits for a day';
  const where = booking.depot === depot ? depot_name : booking.depot;
  const place = [booking.bay === null ? null : `bay ${booking.bay}`, where].filter((part) => part !== null);
  const at = booking.from === null ? '' : ` at ${booking.from}`;
  return { text: [strong(`${formatWholeDay(booking.day)}${at}`), `, ${place.join(', ')}`] };
}

function writeGrade({ packet, units, page, clock }: Paper): Content {
  const { flag, now } = packet;
  const shape = shapeRail(flag.km_to_limit, flag.grade, scaleForHorizon(flag.horizon_km, units));
  const since = now.grade === flag.grade ? null : `Grade now: ${now.grade}. ${now.sentence}`;
  return {
    stack: [
      {
        columns: [
          { svg: drawGradeMark(flag.grade), width: 24, ...below(2) },
          {
            width: '*',
            text: [
              { text: flag.grade, bold: true, fontSize: 15, color: paperLook.grade[flag.grade] },
              { text: `   ${sayMeaning(flag.grade)}`, fontSize: typePt.large },
            ],
          },
          { width: 'auto', ...soft(`as of ${clock.moment(flag.at)}`), ...below(5) },
        ],
        columnGap: 6,
      },
      { text: flag.sentence, fontSize: 11, margin: [0, 3, 0, 6] },
      { svg: drawRail(flag, units, page.widthPt), width: page.widthPt },
      { ...soft(describeRail(shape, flag.km_to_limit, units, null)), ...below(1) },
      ...(since === null ? [] : [{ text: since, bold: true, ...below(3) }]),
    ],
    ...below(9),
    unbreakable: true,
  };
}

function writeReasons({ packet, units }: Paper): Content {
  const { flag } = packet;
  const figures = [
    ['slip', formatRpm(flag.reference_slip_rpm)],
    ['baseline', formatRpm(flag.baseline_rpm)],
    ['limit', formatRpm(flag.limit_rpm)],
    ...(flag.drift_rpm_per_1000km === null
      ? []
      : [['drift', `${formatDrift(flag.drift_rpm_per_1000km.estimate, units)} ${driftUnit(units)}`]]),
    ...(flag.chance_within_horizon === null
      ? []
      : [[`chance within ${formatKm(flag.horizon_km, units)}`, formatPercent(flag.chance_within_horizon)]]),
  ];
  return {
    ...together(
      { text: 'Why it was flagged', bold: true, fontSize: typePt.large, margin: [0, 0, 0, 2] },
      flag.reasons.length === 0 ? { text: 'Nothing in its readings flags it.' } : bullets(flag.reasons),
      ...(flag.pattern_words === '' ? [] : [{ text: flag.pattern_words, ...below(3) }]),
      {
        text: figures.flatMap(([name, value], at) => [
          { text: `${at === 0 ? '' : '     '}${name} `, color: paperLook.inkSoft },
          { text: `${value}`, bold: true },
        ]),
        fontSize: typePt.small,
        ...below(4),
      },
    ),
    ...below(9),
  };
}
