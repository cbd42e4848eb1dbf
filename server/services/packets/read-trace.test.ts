import { describe, expect, it } from 'vitest';
import type { SlipdriftError } from '#server/errors.ts';
import { recordRoadTest, writeRoadTest } from '#tests/helpers/record-road-test.ts';
import { readTrace } from './read-trace.ts';

const bytes = (text: string) => Buffer.from(text);
const read = (text: string) => readTrace(bytes(text));
const refusalOf = async (given: string | Uint8Array): Promise<SlipdriftError> => {
  try {
    await readTrace(typeof given === 'string' ? bytes(given) : given);
  } catch (error) {
    return error as SlipdriftError;
  }
  throw new Error('was not refused');
};
const header = 'time_s,throttle_pct,speed_kmh,slip_rpm,duty_pct';
const lines = (count: number, row: (i: number) => string = (i) => `${i},20,80,12,85`) =>
  [header, ...Array.from({ length: count }, (_, i) => row(i))].join('\n');

describe('columns', () => {
  it('takes every row of a recording, in our units', async () => {
    const rows = recordRoadTest({ clutch: 'sound', seconds: 60, hz: 20 });
    const { samples, columns, told } = await read(writeRoadTest(rows));
    expect(samples.tMs.length).toBe(1200);
    expect(samples.tMs[1]).toBe(50);
    expect(samples.slipRpm[700]).toBeCloseTo(rows[700]?.slipRpm ?? 0, 1);
    expect(samples.loadPct?.[700]).toBeCloseTo(rows[700]?.loadPct ?? 0, 1);
    expect(columns.fluid).toEqual({ index: 6, header: 'fluid_c', unit: 'degC' });
    expect(told).toEqual([]);
  });

  it('matches names without regard to case, with units in the name, beside it, or in a line below', async () => {
    const spelled = [
      'Time [ms],Throttle Position (%),Vehicle Speed (mph),TCC Slip,Lockup Command %,Trans Temp (°F)\n0,20,50,12,85,185\n100,20,50,13,85,185',
      'time;throttle;speed;slip;duty;fluid\nms;%;mph;rpm;%;°F\n0;20;50;12;85;185\n100;20;50;13;85;185',
      'TIME_MS\tTHROTTLE\tSPEED_MPH\tSLIP_RPM\tCOMMAND_PCT\tFLUID_F\n0\t20\t50\t12\t85\t185\n100\t20\t50\t13\t85\t185',
    ];
    for (const text of spelled) {
      const { samples } = await read(text);
      expect([...samples.tMs]).toEqual([0, 100]);
      expect([...samples.slipRpm]).toEqual([12, 13]);
      // 50 mi = 80.4672 km by definition; 185 degF = 85 degC
      expect(samples.speedKmh?.[0]).toBeCloseTo(80.4672, 4);
      expect(samples.fluidC?.[0]).toBeCloseTo(85, 6);
    }
  });

  it('takes slip from engine and turbine speed', async () => {
    const text =
      'seconds,throttle,speed_kmh,engine_rpm,turbine_rpm,duty\n0,20,80,1512,1500,85\n1,20,80,2040,1500,85';
    const { samples, told } = await read(text);
    expect([...samples.slipRpm]).toEqual([12, 540]);
    expect(told).toContain("Slip was taken as 'engine_rpm' less 'turbine_rpm'.");
  });

  it('reads times as dates, and as times of day', async () => {
    const at = (times: string[]) =>
      read(['time,throttle,speed_kmh,slip,duty', ...times.map((time) => `${time},20,80,12,85`)].join('\n'));
    for (const times of [
      ['2026-03-02T10:00:00.000Z', '2026-03-02T10:00:00.500Z'],
      ['2026-03-02 10:00:00.000', '2026-03-02 10:00:00.500'],
      ['10:00:00.0', '10:00:00.5'],
    ]) {
      const { samples, timeUnitAssumed } = await at(times);
      expect((samples.tMs[1] ?? 0) - (samples.tMs[0] ?? 0)).toBe(500);
      expect(timeUnitAssumed).toBe(false);
    }
    expect((await at(['0', '0.5'])).timeUnitAssumed).toBe(true);
  });

  it('reads a decimal comma, a mark of UTF-8, quotes, and the line ends of any system', async () => {
    const text =
      '\ufefftime_s;throttle;speed_kmh;"slip, rpm";duty\r\n0,5;20;80;"12,5";85\r\n1,0;20;80;13;85,25\r\n';
    const { samples } = await read(text);
    expect([...samples.tMs]).toEqual([500, 1000]);
    expect([...samples.slipRpm]).toEqual([12.5, 13]);
    expect(samples.dutyPct[1]).toBe(85.25);
  });

  it('reads names that were not written in UTF-8, and says so', async () => {
    const text = 'time_s,throttle,speed_kmh,slip,duty,fluid [°C]\n0,20,80,12,85,88\n1,20,80,12,85,88';
    const { samples, told } = await readTrace(Buffer.from(text, 'latin1'));
    expect(samples.fluidC?.[0]).toBe(88);
    expect(told.join()).toContain('not in UTF-8');
  });
});

describe('what cannot be taken', () => {
  it('names the columns that are missing and those that were found', async () => {
    const error = await refusalOf('time_s,throttle,wheel,duty\n0,20,80,85\n1,20,80,85');
    expect(error.code).toBe('invalid_request');
    expect(error.message).toContain('Missing: speed, slip.');
    expect(error.message).toContain(
      "Found: time in 'time_s', throttle in 'throttle', commanded duty in 'duty'.",
    );
    expect(error.message).toContain("'wheel'");
    expect(error.errors).toMatchObject([
      { line: 1, field: 'speed' },
      {
        line: 1,
        field: 'slip',
        message: 'is missing: no column of slip, nor of engine speed and turbine speed',
      },
    ]);
  });

  it('does not take a unit for another', async () => {
    const error = await refusalOf(lines(3).replace('speed_kmh', 'speed (m/s)'));
    expect(error.errors).toEqual([
      { line: 1, field: 'speed (m/s)', message: 'is in m/s; speed must be in km/h or mph' },
    ]);
  });

  it('names the line in which time goes back', async () => {
    const error = await refusalOf(lines(50, (i) => `${i === 30 ? 3 : i},20,80,12,85`));
    expect(error.errors).toEqual([
      { line: 32, field: 'time_s', message: 'goes back; rows must be in the order of time' },
    ]);
  });

  it('refuses one row, no row, and the same time in all', async () => {
    expect((await refusalOf(lines(1))).message).toContain('one row');
    expect((await refusalOf(lines(0))).message).toContain('no row');
    expect((await refusalOf(lines(9, () => '5,20,80,12,85'))).message).toContain('same time');
  });

  it.each([
    ['a picture', Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13])],
    ['UTF-16', Buffer.from(`\ufeff${header}\n0,1,2,3,4`, 'utf16le')],
    ['nothing', Buffer.alloc(0)],
    ['prose', Buffer.from('This is no table\nat all')],
    ['other bytes', Buffer.from(Array.from({ length: 3000 }, (_, i) => 1 + (i % 30)))],
  ])('refuses %s in a sentence', async (_, given) => {
    const error = await refusalOf(given);
    expect(error.code).toBe('invalid_request');
    expect(error.errors).toHaveLength(1);
    expect(error.message).toMatch(/^The file .*\. Nothing was stored/);
  });

  it('leaves up to one row of a hundred out, and tells where the first was', async () => {
    const row = (i: number) => `${i},20,80,${i === 150 ? 'n/a' : 12},85`;
    const { samples, told } = await read(lines(200, row));
    expect(samples.tMs.length).toBe(199);
    expect(told.join()).toContain(
      "1 of 200 rows could not be read and were left out; the first is line 152: slip_rpm 'n/a' is not a number.",
    );
  });

  it('refuses more of them, with line and column of each of the first 20', async () => {
    const error = await refusalOf(lines(200, (i) => `${i},20,80,12,${i % 5 === 0 ? 'off' : 85}`));
    expect(error.message).toContain('40 of 200 rows');
    expect(error.errors).toHaveLength(20);
    expect(error.errors[0]).toEqual({ line: 2, field: 'duty_pct', message: "'off' is not a number" });
    expect(error.errors[1]?.line).toBe(7);
  });

  it('refuses a quote that is never closed', async () => {
    const error = await refusalOf(`${lines(10)}\n10,"20,80,12,85${'\n1,2,3,4,5'.repeat(20_000)}`);
    expect(error.message).toContain('never closed');
  });

  it('takes a missing value of a signal that only the gate asks for as not known', async () => {
    const { samples } = await read(lines(10, (i) => `${i},,80,12,85`));
    expect(samples.throttlePct?.[3]).toBeNaN();
  });
});
