import { describe, expect, it } from 'vitest';
import { type Given, mapping as mappingSchema } from '#server/contract/mappings.ts';
import { chooseWindow } from './choose-window.ts';
import { doubtMapping } from './doubt-mapping.ts';
import { proposeMapping } from './propose-mapping.ts';

const rows = (head: string, row: (i: number) => string, n = 12) =>
  Buffer.from([head, ...Array.from({ length: n }, (_, i) => row(i))].join('\n'));
const propose = (bytes: Buffer, given: Given = {}) => {
  const { mapping, doubts, names, columns } = proposeMapping(bytes, given);
  const takes = Object.fromEntries(
    mapping.columns.map(({ column, takes: take, unit }) => [
      column,
      unit === null ? take : `${take} ${unit}`,
    ]),
  );
  return { mapping, takes, names, columns, doubts: doubts.map(({ message }) => message) };
};

describe('a proposal', () => {
  it('knows the words of four languages, and units in brackets, behind or within', () => {
    const german =
      'Fzg;Zeitstempel;Laufleistung km;Wandlerschlupf 1/min;WK Ansteuerung %;ATF-Temp. [°C];Motorlast (%);Gaspedal %;Fahrgeschwindigkeit (km/h);Ist-Gang';
    expect(propose(rows(german, (i) => `7;2026-03-13 05:0${i % 10};1${i};2;3;80;40;20;60;5`)).takes).toEqual({
      Fzg: 'vehicle',
      Zeitstempel: 'time',
      'Laufleistung km': 'odometer_km km',
      'Wandlerschlupf 1/min': 'slip_rpm rpm',
      'WK Ansteuerung %': 'duty_pct %',
      'ATF-Temp. [°C]': 'fluid_c degC',
      'Motorlast (%)': 'load_pct %',
      'Gaspedal %': 'throttle_pct %',
      'Fahrgeschwindigkeit (km/h)': 'speed_kmh km/h',
      'Ist-Gang': 'gear',
    });
    const french =
      "Véhicule,Horodatage,Kilométrage,Régime moteur (tr/min),Régime arbre d'entrée (tr/min),Rapport cyclique (%),Température huile boîte (°C),Charge moteur (%),Défauts";
    expect(
      propose(rows(french, (i) => `7,13/03/2026 05:0${i % 10},1${i},1500,1490,80,90,40,P0741`)).takes,
    ).toEqual({
      Véhicule: 'vehicle',
      Horodatage: 'time',
      Kilométrage: 'odometer_km km',
      'Régime moteur (tr/min)': 'engine_rpm rpm',
      "Régime arbre d'entrée (tr/min)": 'turbine_rpm rpm',
      'Rapport cyclique (%)': 'duty_pct %',
      'Température huile boîte (°C)': 'fluid_c degC',
      'Charge moteur (%)': 'load_pct %',
      Défauts: 'codes',
    });
    const spanish =
      'Unidad|Fecha|Hora|Odómetro (km)|Deslizamiento rpm|Ciclo de trabajo %|Temp. aceite caja °C|Velocidad km/h|Marcha';
    expect(propose(rows(spanish, (i) => `7|2026-03-13|05:0${i % 10}|1${i}|2|3|80|50|4`)).takes).toEqual({
      Unidad: 'vehicle',
      Fecha: 'date',
      Hora: 'clock',
      'Odómetro (km)': 'odometer_km km',
      'Deslizamiento rpm': 'slip_rpm rpm',
      'Ciclo de trabajo %': 'duty_pct %',
      'Temp. aceite caja °C': 'fluid_c degC',
      'Velocidad km/h': 'speed_kmh km/h',
      Marcha: 'gear',
    });
  });

  it('takes no column for what its figures cannot be, or its unit is not', () => {
    const head = 'unit,time,odometer,slip,duty,trans temp,torque (Nm),tire slip,engine oil temp,gear';
    const { takes, columns } = propose(rows(head, () => '7,2026-03-13 05:00,10,2,900,80,400,1,90,4.5'));
    expect(Object.values(takes)).toEqual([
      'vehicle',
      'time',
      'odometer_km km',
      'slip_rpm rpm',
      'fluid_c degC',
    ]);
    const whyOf = (name: string) => columns.find(({ column }) => column === name);
    expect(whyOf('duty')).toMatchObject({
      guess: null,
      why: 'named as duty_pct, but its figures cannot be duty_pct in %',
    });
    expect(whyOf('torque (Nm)')?.why).toMatch(/in Nm$/);
    expect(whyOf('gear')?.why).toMatch(/cannot be gear/);
  });

  it('goes by a unit, beside the name or in the cells, where the name alone says too little', () => {
    const head =
      'Fzg;Zeit;km-Stand;Motor;Turbine;Ansteuerung Wandlerkupplung [%];Getriebeöl [°C];Motoröl [°C]';
    const { takes } = propose(
      rows(head, (i) => `7;2026-03-13 05:0${i % 10};1${i};1500 U/min;1490 U/min;85;80;95`),
    );
    expect(takes).toEqual({
      Fzg: 'vehicle',
      Zeit: 'time',
      'km-Stand': 'odometer_km km',
      Motor: 'engine_rpm',
      Turbine: 'turbine_rpm',
      'Ansteuerung Wandlerkupplung [%]': 'duty_pct %',
      'Getriebeöl [°C]': 'fluid_c degC',
    });
  });

  it('takes a device for the vehicle only where nothing else names one, and says so', () => {
    const row = (i: number) => `d${i % 2},2026-03-13 05:00,1,2,3`;
    const { mapping, takes, doubts } = propose(rows('deviceId,time,odo km,slip,duty', row));
    expect(mapping.vehicle).toBe('column');
    expect(takes).toMatchObject({ deviceId: 'vehicle' });
    expect(doubts).toContain(
      "'deviceId' names a device and is taken for the unit number: no other column names the vehicle.",
    );
    const both = propose(rows('deviceId,time,odo km,slip,duty,bus', (i) => `${row(i)},7`));
    expect(both.takes).toMatchObject({ bus: 'vehicle' });
    expect(both.takes.deviceId).toBeUndefined();
  });

  it('guesses nothing by values alone', () => {
    const { mapping, doubts } = propose(
      rows('7,2026-03-13 05:00,120000,15,85,90', () => '7,2026-03-13 05:00,120000,15,85,90'),
    );
    expect(mapping).toMatchObject({ header: false, columns: [] });
    expect(doubts).toContain('No line names the columns, so nothing says what they are.');
  });

  it.each([
    [
      'days before months',
      'time',
      '4/3/2026 5:06',
      /'time' may have month before day; it is read with day before month/,
    ],
    [
      'months before days with AM and PM',
      'time',
      '4/3/2026 5:06 PM',
      /may have day before month; it is read with month/,
    ],
    [
      'a temperature too hot for degC',
      'trans temp',
      '195',
      /'trans temp' has no unit; its figures are taken as degF/,
    ],
    ['a temperature that says degC', 'trans temp (°C)', '195', /above 150 °C; they may be in degF/],
    ['a duty of 0 to 1', 'duty', '0.85', /'duty' has figures up to 1 only, taken as a ratio/],
    ['an odometer in metres', 'odometer', '123456789', /figures so high are taken as metres/],
    ['an odometer without a unit', 'odometer', '123456', /taken as km, and may be in mi/],
    ['thousands or decimals', 'odometer km', '123,456', /'123,456' may be a thousand and more/],
  ])('doubts %s', (_, name, cell, expected) => {
    const quoted = `"${cell}"`;
    const others = ['time', 'odometer', 'trans temp', 'duty'].filter((one) => !name.startsWith(one));
    const plain: Record<string, string> = {
      time: '2026-03-13T05:06:07Z',
      odometer: '1',
      'trans temp': '80',
      duty: '50',
    };
    const { doubts } = propose(
      rows(['unit', 'slip', name, ...others].join(','), () =>
        ['7', '12', quoted, ...others.map((one) => plain[one])].join(','),
      ),
    );
    expect(doubts.join('\n')).toMatch(expected);
  });

  it('finds a separator that the file tells, lines above the names, units below them, and marks of missing values', () => {
    const text = Buffer.from(
      'sep=;\nDepot North;export\n\nunit;time;odometer;slip;duty;ATF temp\n;;mi;1/min;%;°F\n' +
        Array.from({ length: 9 }, (_, i) => `7;2026-03-13 05:0${i};10${i};k.A.;80;180`).join('\n') +
        '\n7;2026-03-13 06:00;120;12,5;80;181',
    );
    const { mapping, takes, doubts } = propose(text);
    expect(mapping).toMatchObject({
      separator: ';',
      skip_lines: 3,
      header: true,
      units_line: true,
      decimal: ',',
    });
    expect(mapping.missing).toContain('k.A.');
    expect(takes).toMatchObject({ odometer: 'odometer_km mi', 'ATF temp': 'fluid_c degF' });
    expect(doubts.join('\n')).toMatch(/Line 5 has the units of the columns and is no row/);
  });

  it.each([
    ['1772600767', 'unix_s'],
    ['1772600767500', 'unix_ms'],
    ['46085.25', 'sheet_days'],
    ['12.5', 'seconds'],
  ])('sees what a time of %s is', (cell, form) => {
    const { mapping } = propose(rows('unit,time,odo km,slip,duty', () => `7,${cell},1,2,3`));
    expect(mapping.time.form).toBe(form);
  });

  it('takes the vehicle and the day from the name of the file, and what was given before it', () => {
    const text = rows('clock time,odo km,slip,duty', () => '05:06:07,1,2,3');
    const file = 'C:\\logs\\bus_0815-20260304_050607.csv.gz';
    const named = propose(text, { file });
    expect(named.mapping).toMatchObject({ vehicle: 'file_name', time: { date: 'file_name' } });
    expect(named.doubts.join('\n')).toMatch(/taken to be bus_0815\.[\s\S]*2026-03-04/);
    expect(propose(text, { file: 'x.csv', vehicle: '9', date: '2026-03-04' }).mapping).toMatchObject({
      vehicle: 'given',
      time: { date: 'given' },
    });
  });

  it('joins the values of a long layout that come some seconds apart', async () => {
    const lines = Array.from({ length: 20 }, (_, i) => {
      const at = (s: number) => new Date(Date.UTC(2026, 2, 4, 5, i, s)).toISOString();
      return `7,${at(0)},Odometer,1${i},km\n7,${at(2)},Slip,8,rpm\n7,${at(4)},TCC duty,85,%`;
    });
    const bytes = Buffer.from(`vehicle,time,parameter,value,unit\n${lines.join('\n')}\n`);
    const { mapping, doubts } = await chooseWindow(bytes, proposeMapping(bytes, {}));
    expect(mapping).toMatchObject({ layout: 'long', join_within_s: 5 });
    expect(doubts.map(({ message }) => message).join()).toMatch(/within 5 s of the first/);
  });
});

it('says where figures speak against a mapping that somebody made', () => {
  const mapping = mappingSchema.parse({
    columns: [
      { column: 'a', takes: 'engine_rpm' },
      { column: 'b', takes: 'turbine_rpm' },
      { column: 'c', takes: 'fluid_c', unit: 'degC' },
    ],
  });
  const doubts = doubtMapping('a,b,c\n1490,1500,190\n1490,1500,195\n', mapping, []);
  expect(doubts.map(({ message }) => message)).toEqual([
    "'c' has temperatures above 150 °C; they may be in degF.",
    "'b' runs faster than 'a' most of the time: the two may be exchanged.",
  ]);
});
