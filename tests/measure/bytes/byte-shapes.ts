export interface Shape {
  words: string;
  columns: string;
  /** of the unique index */
  key: string;
  into: string;
  select: string;
  /** batch after batch as they come, unless all are gathered by vehicle and span */
  order?: 'whole';
  /** how full its index is when it is written anew, % */
  rewritten?: number[];
}

const PLAIN =
  'vehicle, at, odometer_km, slip_rpm, duty_pct, fluid_c, load_pct, torque_pct, speed_kmh, seconds, gear';
const RARE = 'throttle_pct real, shifting boolean, codes text[], arrived_at timestamptz';
const stored = `at timestamptz not null, vehicle int not null, odometer_km real not null, slip_rpm real not null,
  duty_pct real not null, fluid_c real, load_pct real, torque_pct real, speed_kmh real, seconds real, gear int2, ${RARE}`;
const figures = ['slip_rpm', 'duty_pct', 'fluid_c', 'load_pct', 'torque_pct', 'speed_kmh', 'seconds', 'gear'];
const short = (rule: string) =>
  `at timestamptz not null, vehicle int not null, odometer_km real not null, ${figures.map((name) => `${name} int2 ${rule}`).join(', ')}`;
const SHORT_SELECT = `vehicle, at, odometer_km, (slip_rpm * 10)::int2, ${figures
  .slice(1, -2)
  .map((name) => `(${name} * 100)::int2`)
  .join(', ')}, (seconds * 10)::int2, gear`;
const packed = ['odometer_km', ...figures];
const pack = (span: string): Pick<Shape, 'columns' | 'key' | 'into' | 'select' | 'order'> => ({
  columns: `vehicle int, span timestamptz, at_ms int8[], ${packed.map((name) => `${name} ${name === 'gear' ? 'int2' : 'real'}[]`).join(', ')}`,
  key: 'vehicle, span',
  into: `vehicle, span, at_ms, ${packed.join(', ')}`,
  select: `vehicle, date_trunc('${span}', at), array_agg((extract(epoch from at) * 1000)::int8 order by at), ${packed
    .map((name) => `array_agg(${name} order by at)`)
    .join(', ')}`,
  order: 'whole',
});

const plain = { key: 'vehicle, at', into: PLAIN, select: PLAIN };

/** A reading as it is stored, and what it would take otherwise. */
export const byteShapes: readonly Shape[] = [
  { words: 'as it is stored', columns: stored, ...plain, rewritten: [90, 100] },
  {
    words: 'with the moment of its arrival',
    columns: stored,
    ...plain,
    into: `${PLAIN}, arrived_at`,
    select: `${PLAIN}, now()`,
  },
  {
    words: 'columns in another order',
    columns: stored.replace(
      'at timestamptz not null, vehicle int not null, odometer_km real not null',
      'vehicle int not null, odometer_km real not null, at timestamptz not null',
    ),
    ...plain,
  },
  {
    words: 'nothing null, rare columns in a table of their own',
    columns: stored.replace(`, ${RARE}`, '').replaceAll(/(real|int2)(?=,|$)/g, '$1 not null'),
    ...plain,
  },
  {
    words: 'one 8-byte key of vehicle and time',
    columns: stored,
    ...plain,
    key: `(vehicle::bigint << 32 | ((extract(epoch from at at time zone 'UTC') * 1000)::bigint - 1767225600000))`,
    rewritten: [90],
  },
  {
    words: '2-byte figures',
    columns: `${short('')}, ${RARE}`,
    ...plain,
    select: SHORT_SELECT,
    rewritten: [90],
  },
  {
    words: '2-byte figures, nothing null',
    columns: short('not null'),
    ...plain,
    select: SHORT_SELECT,
    rewritten: [90, 100],
  },
  { words: 'packed, a row a vehicle and day', ...pack('day') },
  { words: 'packed, a row a vehicle and month', ...pack('month') },
];
