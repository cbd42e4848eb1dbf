import { describe, expect, it } from 'vitest';
import { makeDetail } from '#tests/browser/fixtures/vehicle-answers.ts';
import { type VehicleCase, vehicleCases } from '#tests/browser/fixtures/vehicle-cases.ts';
import { makeSeries } from '#tests/browser/fixtures/vehicle-series.ts';
import { metricUnits } from '#web/format/units.ts';
import { listMileageNumbers } from './list-mileage-numbers.ts';
import { type MileageView, viewMileage } from './mileage-view.ts';
import { readMileage } from './read-mileage.ts';

const one = vehicleCases.drifting!;
const viewOf = (of: VehicleCase) =>
  viewMileage(makeSeries(of), makeDetail(of).assessment, { band: null, life: null })!;
const view = viewOf(one);
const bare = viewOf(vehicleCases.bare!);

describe('readMileage', () => {
  it('reads the nearest stretch, with a 95 % interval from its standard error', () => {
    const point = view.shown.points[20]!;
    const readout = readMileage(view, point.odometer_km + 90, metricUnits);
    expect(readout?.km).toBe(point.odometer_km);
    const slip = point.slip_rpm.toFixed(1);
    const margin = (point.spread_rpm * 1.96).toFixed(1);
    expect(readout?.lines[0]).toEqual({ name: 'slip', value: `${slip} ± ${margin}\u00a0rpm` });
  });

  it('reads the forecast beyond the last reading, between its points', () => {
    const [a, b] = [view.series.forecast!.points[10]!, view.series.forecast!.points[11]!];
    const readout = readMileage(view, (a.odometer_km + b.odometer_km) / 2, metricUnits);
    expect(readout?.lines.find((line) => line.name === 'expected slip')?.value).toBe(
      `${Math.round((a.p50 + b.p50) / 2)}\u00a0rpm`,
    );
  });

  it('gives temperatures and distances in the units of the reader', () => {
    const readout = readMileage(view, view.nowKm, { distance: 'mi', temperature: 'F' });
    expect(readout?.title).toMatch(/\u00a0mi · /);
    expect(readout?.lines.find((line) => line.name === 'fluid')?.value).toMatch(/°F$/);
  });

  it('has no line for a signal that the feed lacks', () => {
    const names = (of: MileageView) =>
      readMileage(of, of.shown.points[5]!.odometer_km, metricUnits)?.lines.map((line) => line.name);
    expect(names(view)).toEqual(expect.arrayContaining(['command', 'fluid', 'load']));
    expect(names(bare)).toContain('command');
    expect(names(bare)).not.toContain('fluid');
    expect(names(bare)).not.toContain('load');
  });
});

describe('listMileageNumbers', () => {
  it('lists every stretch that is drawn, and no other', () => {
    const range = { fromKm: 350_000, toKm: 360_000 };
    const table = listMileageNumbers(view, range, metricUnits).find((one) => one.caption === 'Stretches');
    const drawn = view.series.series.flatMap((band) =>
      band.points.filter((point) => point.odometer_km >= range.fromKm && point.odometer_km <= range.toKm),
    );
    expect(table?.rows).toHaveLength(drawn.length);
    expect(drawn.length).toBeGreaterThan(50);
  });

  it('has a dash for a signal that the feed lacks', () => {
    const range = { fromKm: 0, toKm: 1e6 };
    const table = listMileageNumbers(bare, range, metricUnits).find((one) => one.caption === 'Stretches');
    expect(table?.columns.slice(-2).map(({ title }) => title)).toEqual(['fluid °C', 'load %']);
    expect(table?.rows.length).toBeGreaterThan(50);
    for (const row of table?.rows ?? []) expect(row.slice(-2)).toEqual(['–', '–']);
  });
});
