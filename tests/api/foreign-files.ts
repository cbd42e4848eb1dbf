/** Files as other programs write them, with what they must come to, worked out by hand. */
export interface Foreign {
  habit: string;
  name: string;
  /** the mapping's name */
  saved: string;
  bytes: Buffer;
  given: Record<string, string>;
  mapping: object;
  columns: Record<string, string>;
  names: Record<string, string>;
  doubts: RegExp;
  counts: { lines: number; good: number; bad: number };
  /** of a long layout */
  rows: number | null;
  faults: string[];
  units: string[];
  readings: object[];
  refused: { line: number; raw: string }[];
}

const none = { fluid: null, load: null, speed: null, gear: null, codes: null };

const semicolons: Foreign = {
  habit: 'semicolons, decimal commas and Windows-1252',
  name: 'export.csv',
  saved: 'werkstatt Münster',
  bytes: Buffer.from(
    [
      'Flottenauszug Münster',
      '',
      'Fahrzeug;Datum/Uhrzeit;km-Stand;Schlupf [1/min];WÜK-Ansteuerung (%);Getriebeöltemperatur (°C);Gang;Fehlercodes;Fahrer;',
      'Bü-12;28.03.2026 23:15:00;123.456,5;12,25;85,0;93,5;5;P0741|P0730;Weiß;',
      // 2:30 is not there on the day on which clocks go forward; 3:30 is 1:30 UTC.
      'Bü-12;29.03.2026 02:30:00;123.460,0;12,25;85,0;93,5;5;;Weiß;',
      'Bü-12;29.03.2026 03:30:00;123.461,0;-3,5;85,0;-;5;;Weiß;',
      // 2:30 comes twice on the day on which clocks go back: the earlier is 0:30 UTC.
      'Bü-12;25.10.2025 02:30:00;120.000,0;1,5;85,0;60;5;;Weiß;',
      'Bü-12;26.10.2025 02:30:00;120.001,0;1,5;85,0;60;5;;Weiß;',
      'Bü-12;29.03.2026 03:31:00;123.462,0;zwölf;85,0;93,5;5;;Weiß;',
      'Bü-12;29.03.2026 03:32:00;123.462,0;4,0;185,0;93,5;5;;Weiß;',
      '',
    ].join('\r\n'),
    'latin1',
  ),
  given: { zone: 'Europe/Berlin' },
  mapping: {
    separator: ';',
    decimal: ',',
    encoding: 'windows-1252',
    skip_lines: 2,
    header: true,
    layout: 'wide',
    vehicle: 'column',
    time: { date: 'column', form: 'text', order: 'dmy', zone: null },
  },
  columns: {
    Fahrzeug: 'vehicle',
    'Datum/Uhrzeit': 'time',
    'km-Stand': 'odometer_km',
    'Schlupf [1/min]': 'slip_rpm',
    'WÜK-Ansteuerung (%)': 'duty_pct',
    'Getriebeöltemperatur (°C)': 'fluid_c',
    Gang: 'gear',
    Fehlercodes: 'codes',
  },
  names: {},
  doubts: /read as Windows-1252/,
  counts: { lines: 7, good: 4, bad: 3 },
  rows: null,
  faults: [
    '5 at is a time that the change of the clocks leaves out, or far from today',
    "9 slip_rpm is not a number, in the column 'Schlupf [1/min]'",
    '10 duty_pct must be at most 100 %',
  ],
  units: ['Bü-12'],
  readings: [
    {
      ...none,
      unit: 'Bü-12',
      at: '2025-10-25T00:30:00.000Z',
      km: 120_000,
      slip: 1.5,
      duty: 85,
      fluid: 60,
      gear: 5,
    },
    {
      ...none,
      unit: 'Bü-12',
      at: '2025-10-26T00:30:00.000Z',
      km: 120_001,
      slip: 1.5,
      duty: 85,
      fluid: 60,
      gear: 5,
    },
    {
      ...none,
      unit: 'Bü-12',
      at: '2026-03-28T22:15:00.000Z',
      km: 123_456.5,
      slip: 12.25,
      duty: 85,
      fluid: 93.5,
      gear: 5,
      codes: ['P0741', 'P0730'],
    },
    { ...none, unit: 'Bü-12', at: '2026-03-29T01:30:00.000Z', km: 123_461, slip: -3.5, duty: 85, gear: 5 },
  ],
  refused: [
    { line: 5, raw: 'Bü-12;29.03.2026 02:30:00;123.460,0;12,25;85,0;93,5;5;;Weiß;' },
    { line: 9, raw: 'Bü-12;29.03.2026 03:31:00;123.462,0;zwölf;85,0;93,5;5;;Weiß;' },
    { line: 10, raw: 'Bü-12;29.03.2026 03:32:00;123.462,0;4,0;185,0;93,5;5;;Weiß;' },
  ],
};

const longRows = [
  'unit,timestamp,signal,value,uom',
  'T 1,2026-03-04T05:06:07Z,Total Vehicle Distance,1000,mi',
  'T 1,2026-03-04T05:06:07Z,TCC slip,8,rpm',
  'T 1,2026-03-04T05:06:07Z,Doors open,1,',
  'T 1,2026-03-04T05:06:07Z,Lockup duty,0.85,ratio',
  'T 1,2026-03-04T05:06:07Z,Transmission oil temp,212,°F',
  // The next moment: its temperature is bad, and the rest goes on without it.
  'T 1,2026-03-04T05:07:07Z,Total Vehicle Distance,1001,mi',
  'T 1,2026-03-04T05:07:07Z,Transmission oil temp,hot,°F',
  'T 1,2026-03-04T05:07:07Z,TCC slip,9,rpm',
  'T 1,2026-03-04T05:07:07Z,Lockup duty,0.9,ratio',
  // A moment without slip cannot be a reading.
  'T 2,2026-03-04T05:08:07Z,Total Vehicle Distance,1002,mi',
  'T 2,2026-03-04T05:08:07Z,Lockup duty,0.9,ratio',
];
const long: Foreign = {
  habit: 'a row for each value',
  name: 'signals.csv',
  saved: 'signals',
  bytes: Buffer.from(longRows.join('\n')),
  given: {},
  mapping: { separator: ',', layout: 'long', vehicle: 'column', join_within_s: 0 },
  columns: { unit: 'vehicle', timestamp: 'time', signal: 'name', value: 'value', uom: 'unit' },
  names: {
    'Total Vehicle Distance': 'odometer_km',
    'TCC slip': 'slip_rpm',
    'Lockup duty': 'duty_pct',
    'Transmission oil temp': 'fluid_c',
  },
  doubts: /^$/,
  counts: { lines: 4, good: 2, bad: 2 },
  rows: 11,
  faults: ['8 fluid_c is not a number', '11 slip_rpm is missing (or give engine_rpm and turbine_rpm)'],
  units: ['T 1', 'T 2'],
  readings: [
    { ...none, unit: 'T 1', at: '2026-03-04T05:06:07.000Z', km: 1609.344, slip: 8, duty: 85, fluid: 100 },
    { ...none, unit: 'T 1', at: '2026-03-04T05:07:07.000Z', km: 1610.953344, slip: 9, duty: 90 },
  ],
  refused: [
    { line: 8, raw: longRows[7] ?? '' },
    { line: 11, raw: longRows.slice(10).join('\n') },
  ],
};

const cells: Foreign = {
  habit: 'units in cells, no date, a file for each vehicle',
  name: 'B-1207_2026-03-04.csv',
  saved: 'box',
  bytes: Buffer.from(
    [
      'Time,Odometer,Engine speed,Turbine speed,TCC duty,ATF temp,Road speed',
      '11:58:30 PM,120034 km,2124RPM,"2,100RPM",85%,93 °C,48 km/h',
      '11:59:30 PM,120034.5 km,2130RPM,2100RPM,85%,200 °F,30 mph',
      '12:00:30 AM,120035 km,2130RPM,2100RPM,85%,93 bar,48 km/h',
      '12:01:30 AM,120035.5 km,1500RPM,1500.5RPM,0.5 ratio,NaN,',
      '',
    ].join('\n'),
  ),
  given: { zone: '+01:00' },
  mapping: {
    separator: ',',
    decimal: '.',
    encoding: 'utf-8',
    vehicle: 'file_name',
    time: { date: 'file_name', form: 'text' },
  },
  columns: {
    Time: 'clock',
    Odometer: 'odometer_km',
    'Engine speed': 'engine_rpm',
    'Turbine speed': 'turbine_rpm',
    'TCC duty': 'duty_pct',
    'ATF temp': 'fluid_c',
    'Road speed': 'speed_kmh',
  },
  names: {},
  doubts: /it is taken to be B-1207[\s\S]*the day is that in the name of the file, 2026-03-04/,
  counts: { lines: 4, good: 3, bad: 1 },
  rows: null,
  faults: ["4 fluid_c has the unit 'bar', which is not known, in the column 'ATF temp'"],
  units: ['B-1207'],
  readings: [
    {
      ...none,
      unit: 'B-1207',
      at: '2026-03-04T22:58:30.000Z',
      km: 120_034,
      slip: 24,
      duty: 85,
      fluid: 93,
      speed: 48,
    },
    // 30 mph are 48.28032 km/h, 200 degF are 168 / 1.8 degC (NIST SP 811, appendix B.8).
    {
      ...none,
      unit: 'B-1207',
      at: '2026-03-04T22:59:30.000Z',
      km: 120_034.5,
      slip: 30,
      duty: 85,
      fluid: (200 - 32) / 1.8,
      speed: 48.28032,
    },
    { ...none, unit: 'B-1207', at: '2026-03-04T23:01:30.000Z', km: 120_035.5, slip: -0.5, duty: 50 },
  ],
  refused: [{ line: 4, raw: '12:00:30 AM,120035 km,2130RPM,2100RPM,85%,93 bar,48 km/h' }],
};

export const foreignFiles = [semicolons, long, cells] as const;
