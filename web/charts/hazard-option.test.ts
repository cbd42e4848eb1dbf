import { describe, expect, it } from 'vitest';
import { makeLives, makeLivesReply } from '#tests/browser/fixtures/lives-fixture.ts';
import { frameOf } from '#tests/helpers/chart-frame.ts';
import { hazardOption, hazardSteps } from './hazard-option.ts';
import { incidenceOption, listIncidenceNumbers } from './incidence-option.ts';
import { listHazardNumbers } from './list-survival-numbers.ts';
import type { Shape, TextShape } from './shapes.ts';
import { lastSeen } from './survival-steps.ts';
import { mileageAxis } from './use-axis.ts';

interface Drawn {
  xAxis: { max: number }[];
  yAxis: { max: number }[];
  series: { id: string; data: [number, number][]; lineStyle: object }[];
  graphic: { elements: Shape[] };
}
const { groups } = makeLivesReply(makeLives(), 'supplier');
const frame = frameOf(600, 340);
const axis = mileageAxis(frame.units);
const textsOf = (drawn: Drawn) =>
  drawn.graphic.elements
    .filter((one): one is TextShape => one.type === 'text')
    .map(({ style }) => style.text);

describe('the drawing of hazard', () => {
  it('has bounds on the logarithm: they keep above 0 and their product is the square of the estimate', () => {
    for (const { value, low, high } of hazardSteps(groups[0]!, 1.96).slice(1)) {
      expect(low).toBeGreaterThan(0);
      expect(low * high).toBeCloseTo(value * value, 10);
    }
  });

  it('holds every line on its scale, and lists it', () => {
    const drawn = hazardOption(groups, axis, 1.96, frame) as unknown as Drawn;
    const top = drawn.yAxis[0]!.max;
    for (const { data } of drawn.series) for (const [, y] of data) expect(y).toBeLessThanOrEqual(top);
    const [table] = listHazardNumbers(groups, axis);
    expect(table?.rows).toHaveLength(groups[0]!.nelson_aalen.length);
  });

  it('draws nothing where nothing failed', () => {
    expect(hazardOption([{ ...groups[0]!, nelson_aalen: [] }], axis, 1.96, frame)).toEqual({});
  });
});

describe('the drawing of modes', () => {
  const group = groups[2]!;
  const curves = group.cumulative_incidence;

  it('has a line for each mode up to the last converter seen, named with its share', () => {
    const drawn = incidenceOption(
      curves,
      axis,
      { to: lastSeen(group), errors: 1.96 },
      frame,
    ) as unknown as Drawn;
    expect(drawn.series).toHaveLength(curves.length);
    for (const { data } of drawn.series) expect(data.at(-1)?.[0]).toBe(lastSeen(group));
    const share = Math.round(curves[0]!.points.at(-1)!.incidence * 100);
    expect(textsOf(drawn).map((text) => text.replace('\n', ' '))).toContain(
      `${curves[0]!.mode}, ${share}\u00a0%`,
    );
  });

  it('keeps the ink of a mode, and common scales, whatever else is drawn', () => {
    const [first] = curves;
    const settings = { to: lastSeen(group), errors: 1.96 };
    const alone = incidenceOption([first!], axis, { ...settings, inks: [2] }, frame) as unknown as Drawn;
    const third = incidenceOption([first!, first!, first!], axis, settings, frame) as unknown as Drawn;
    expect(alone.series[0]!.lineStyle).toEqual(third.series[2]!.lineStyle);
    const scale = { to: 2 * lastSeen(group), most: 0.75 };
    const wide = incidenceOption(curves, axis, { ...settings, scale }, frame) as unknown as Drawn;
    expect([wide.xAxis[0]!.max, wide.yAxis[0]!.max]).toEqual([scale.to, 0.75 * 1.08]);
    for (const { data } of wide.series) expect(data.at(-1)?.[0]).toBe(lastSeen(group));
  });

  it('adds up, with survival, to all converters', () => {
    const failed = curves.reduce((sum, { points }) => sum + (points.at(-1)?.incidence ?? 0), 0);
    expect(failed + group.kaplan_meier.at(-1)!.survival).toBeCloseTo(1, 10);
    expect(listIncidenceNumbers(curves, axis)).toHaveLength(curves.length);
  });
});
