import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type SmallIntake, startSmallIntake } from '#tests/helpers/small-intake.ts';

const CSV = { 'content-type': 'text/csv' };

let app: SmallIntake;
beforeAll(async () => {
  app = await startSmallIntake();
});
afterAll(() => app.stop());
beforeEach(() => app.empty());

describe('a CSV header', () => {
  const ROW = 'B-1,2026-03-04T05:06:07Z,1000,12.5,70,80';

  it('that is not there is told, and nothing is stored', async () => {
    const { status, reply } = await app.deliver(`${ROW}\n${ROW}\n`, CSV);
    expect(status).toBe(400);
    expect(reply).toMatchObject({
      code: 'invalid_request',
      errors: [{ line: 1, field: '', message: 'does not name the columns' }],
    });
    expect(await app.countReadings()).toBe(0);
  });

  it('tells each column that is unknown, missing or twice', async () => {
    const { status, reply } = await app.deliver(
      `vehicle,at,odometer,slip_rpm,duty_pct,duty_pct,Fluid_C,,engine\n${ROW}\n`,
      CSV,
    );
    expect(status).toBe(400);
    expect(reply.errors).toEqual([
      { line: 1, field: 'odometer', message: 'is not a known column' },
      { line: 1, field: 'duty_pct', message: 'is named twice' },
      { line: 1, field: 'Fluid_C', message: 'is not a known column; did you mean fluid_c?' },
      { line: 1, field: '', message: 'column 8 has no name' },
      { line: 1, field: 'engine', message: 'is not a known column' },
      { line: 1, field: 'odometer_km', message: 'is missing (or odometer_mi)' },
    ]);
  });

  it('with other columns is taken where they are to be left out', async () => {
    const text = `driver,vehicle,at,odometer_km,slip_rpm,duty_pct,fluid_c\nJ,${ROW}\n`;
    expect((await app.deliver(text, CSV)).reply.errors).toEqual([
      { line: 1, field: 'driver', message: 'is not a known column' },
    ]);
    expect((await app.deliver(text, CSV, '?unknown_columns=ignore')).reply).toMatchObject({ stored: 1 });
    expect((await app.deliver(text, CSV, '?unknown_columns=maybe')).status).toBe(400);
  });

  it.each([[';'], ['\t']])('separated by %j is told so', async (separator) => {
    const { status, reply } = await app.deliver(
      `vehicle,at,odometer_km,slip_rpm,duty_pct,fluid_c\n${ROW}`.replaceAll(',', separator),
      CSV,
    );
    expect(status).toBe(400);
    expect(reply.errors[0].message).toContain('use commas');
  });

  it('that is right lets lines be refused one by one, by their physical line', async () => {
    const text = [
      'vehicle,at,odometer_km,slip_rpm,duty_pct,fluid_c',
      ROW,
      'B-1,2026-03-04T05:07:07Z,1000,NaN,70,80',
      'B-1,2026-03-04T05:08:07Z,1000,12.5,70',
      '"two',
      'lines",2026-03-04T05:09:07Z,1000,12.5,70,80',
      'B-1,2026-03-04T05:10:07Z,0x10,12.5,70,80',
      'B-1,2026-03-04T05:11:07Z,,12.5,70,80',
      '"never closed,2026-03-04T05:12:07Z,1,12.5,70,80',
      ROW.replace('05:06', '05:13'),
    ].join('\n');
    const { reply } = await app.deliver(text, CSV);
    expect(reply).toMatchObject({ received: 8, stored: 2, refused: 6 });
    expect(reply.refusals).toEqual([
      { line: 3, field: 'slip_rpm', message: 'must be a number in rpm' },
      { line: 4, field: '', message: 'has 5 cells, but the header names 6' },
      { line: 5, field: 'vehicle', message: 'must not contain control characters' },
      { line: 7, field: 'odometer_km', message: 'must be a number in km' },
      { line: 8, field: 'odometer_km', message: 'is missing (or give odometer_mi)' },
      { line: 9, field: '', message: 'opens a quote that is never closed' },
    ]);
  });
});
