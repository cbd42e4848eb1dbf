import { describe, expect, it } from 'vitest';
import { makeLives, makeLivesReply } from '#tests/browser/fixtures/lives-fixture.ts';
import { mileageAxis } from '#web/charts/use-axis.ts';
import { metricUnits } from '#web/format/units.ts';
import { nameGroups, pickDrawn } from './name-groups.ts';
import { sayCaution, sayLives, sayWatched } from './say-lives.ts';

const axis = mileageAxis(metricUnits);
const lives = makeLives();
const say = (reply: ReturnType<typeof makeLivesReply>, on = axis) =>
  sayLives(reply, nameGroups(reply, metricUnits), on);

describe('the sentence of the lives', () => {
  it('names the group that stands out, how it differs, and what chance would show', () => {
    expect(say(makeLivesReply(lives, 'supplier'))).toMatch(
      /^A tenth of units of Brantorly Exchange fail by [\d,]+\u00a0km \([\d,]+ to [\d,]+\u00a0km\), of the others by [\d,]+ to [\d,]+\u00a0km\. Chance alone would show such a difference less than 1 time in 10,000\.$/,
    );
  });

  it('takes the miles of the reader', () => {
    const inMiles = say(makeLivesReply(lives, 'supplier'), mileageAxis({ ...metricUnits, distance: 'mi' }));
    expect(inMiles).toMatch(/\u00a0mi\./);
    expect(inMiles).not.toMatch(/\skm/);
  });

  it('names both ends where several groups stand out', () => {
    const six = lives.map((life, i) => ({ ...life, group: `${i % 6}` }));
    expect(say(makeLivesReply(six, 'depot'))).toMatch(
      /^A tenth of the converters of \d fail by [\d,]+\u00a0km, of those of \d by [\d,]+\u00a0km\. Chance/,
    );
  });

  it('says that nothing can be told apart, and that this shows no likeness', () => {
    const mixed = lives.map((life, i) => ({ ...life, group: `depot ${(i * 7) % 11 > 5 ? 'A' : 'B'}` }));
    const reply = makeLivesReply(mixed, 'depot');
    expect(reply.logrank!.p).toBeGreaterThan(0.05);
    expect(say(reply)).toMatch(/^Nothing tells the groups apart: chance alone would show such differences /);
    expect(sayCaution(reply)).toMatch(/does not show the groups to be alike/);
  });

  it('tells of all together where nothing is compared', () => {
    expect(say(makeLivesReply(lives, null))).toMatch(
      /^A tenth of the converters fail by [\d,]+\u00a0km \([\d,]+ to [\d,]+\u00a0km\), half by [\d,]+\u00a0km: wearing out\.$/,
    );
  });

  it('leaves open how they fail where the interval does', () => {
    const few = lives.slice(0, 40).map((life, i) => ({ ...life, event: i < 4, entry: 0 }));
    const reply = makeLivesReply(few, null);
    const { shape_low: low, shape_high: high } = reply.groups[0]!.weibull!;
    expect(low <= 1 && high >= 1).toBe(true);
    expect(say(reply)).toMatch(/\. They fail by chance, or too few have failed to tell\.$/);
  });

  it('says what is there where too few failed, or none', () => {
    const one = lives.slice(0, 30).map((life, i) => ({ ...life, event: i === 0, exit: 90_000, entry: 0 }));
    expect(say(makeLivesReply(one, null))).toBe(
      '1 converter failed of 30: too few to tell by when a tenth fail.',
    );
    const none = one.map((life) => ({ ...life, event: false }));
    expect(say(makeLivesReply(none, null))).toBe(
      'None of 30 converters under watch has failed; together they have run 2,700,000\u00a0km.',
    );
  });

  it('does not call failures at one mileage too few, and says where a tenth lies beyond what was seen', () => {
    const early = lives.slice(0, 60).map((life, i) => ({ ...life, event: i < 2, exit: 90_000, entry: 0 }));
    expect(say(makeLivesReply(early, null))).toBe(
      '2 converters failed of 60: it cannot be told by when a tenth fail.',
    );
    const apart = early.map((life, i) => ({ ...life, exit: i === 0 ? 60_000 : 90_000 }));
    expect(say(makeLivesReply(apart, null))).toMatch(
      /^A tenth of the converters would fail by [\d,]+\u00a0km \([\d,]+ to [\d,]+\u00a0km\), beyond what has been seen: /,
    );
  });

  it('is followed by how much was watched', () => {
    expect(sayWatched(makeLivesReply(lives, null), axis)).toMatch(
      /^240 converters, \d+ failed, watched for [\d,]+\u00a0km in all\. 60 were first seen with mileage on them\.$/,
    );
  });
});

describe('the groups', () => {
  it('have names for people', () => {
    const known = makeLivesReply(
      lives.map((life, i) => ({ ...life, group: i % 2 === 0 ? 'korvandel' : 'unheard' })),
      'platform',
    );
    expect(nameGroups(known, metricUnits).map(({ name }) => name)).toEqual([
      'Korvandel utility truck',
      'unheard',
    ]);
    const thirds = ['low third', 'middle third', 'high third'].map((name, i) => ({
      name,
      from: 80 + 5 * i,
      to: 85 + 5 * i,
    }));
    const exposed = makeLivesReply(
      lives.map((life, i) => ({ ...life, group: thirds[i % 3]!.name })),
      'fluid_c',
      { thirds },
    );
    expect(nameGroups(exposed, { distance: 'mi', temperature: 'F' })[0]?.name).toBe(
      'low third, 176\u00a0°F to 185\u00a0°F',
    );
  });

  it('have their id too where another has the same name', () => {
    const reply = makeLivesReply(
      lives.map((life, i) => ({ ...life, group: i % 2 === 0 ? 'north-1' : 'north-2' })),
      'depot',
    );
    const depots = ['north-1', 'north-2', 'south'].map((id) => ({ id, name: id.slice(0, 5) }));
    const named = nameGroups({ ...reply, choices: { ...reply.choices, depots } }, metricUnits);
    expect(named.map(({ name }) => name)).toEqual(['north (north-1)', 'north (north-2)']);
  });

  it('are drawn up to six, those with most failures', () => {
    const nine = makeLivesReply(
      lives.map((life, i) => ({ ...life, group: `${i % 9}` })),
      'depot',
    );
    const { drawn, others } = pickDrawn(nine.groups);
    expect([drawn.length, others.length]).toEqual([6, 3]);
    expect(Math.min(...drawn.map(({ events }) => events))).toBeGreaterThanOrEqual(
      Math.max(...others.map(({ events }) => events)),
    );
  });
});
