import { describe, expect, it } from 'vitest';
import { guessChoice } from './guess-choice.ts';
import { readTable } from './read-table.ts';
import { takeRows } from './take-rows.ts';

const take = (text: string, change: object = {}) => {
  const table = readTable(text);
  const choice = guessChoice(table);
  return { choice, taken: takeRows(table, { ...choice, ...change }) };
};

describe('columns are guessed', () => {
  it.each([
    ['odometer_km,slip_rpm\n1,2\n', { kind: 'series', columns: { x: 'odometer_km', y: 'slip_rpm' } }],
    ['vehicle,rpm,km\nB-1,2,3\nB-2,4,5\n', { kind: 'series', columns: { x: 'km', y: 'rpm' } }],
    ['1,2\n3,4\n', { kind: 'series', columns: { x: 'column 1', y: 'column 2' } }],
    ['rpm\n12\n13\n', { kind: 'series', columns: { y: 'rpm' } }],
    [
      'exit;entry;failed;mode;platform\n10,5;0;ja;a;p\n12;3;no;;q\n'.replace('ja', 'yes'),
      {
        kind: 'lives',
        columns: { exit: 'exit', entry: 'entry', event: 'failed', mode: 'mode', group: 'platform' },
      },
    ],
    ['km,status\n100,1\n200,0\n', { kind: 'lives', columns: { exit: 'km', event: 'status' } }],
    ['hours,censored\n100,1\n200,0\n', { kind: 'lives', event_turned: true }],
    ['km,how\n100,failed\n200,running\n', { kind: 'lives', columns: { exit: 'km', event: 'how' } }],
    ['km,on\n100,1\n200,0\n', { kind: 'series' }],
    [
      'time,event,count\n100,1,4\n200,0,9\n',
      { kind: 'lives', columns: { exit: 'time', event: 'event', count: 'count' } },
    ],
  ])('from %j', (text, choice) => expect(take(text).choice).toMatchObject(choice));
});

describe('rows are taken', () => {
  it('as points, in their order; without an x by their number', () => {
    expect(take('x,y\n2,1e3\n1,"1,250.5"\n').taken).toMatchObject({ x: [2, 1], y: [1000, 1250.5], bad: 0 });
    expect(take('rpm\n12\n13\n').taken).toMatchObject({ x: [1, 2], y: [12, 13] });
  });

  it('as lives, with what each column says', () => {
    const text = 'km;entry;failed;mode;platform;n;°C\n120,5;;Failed;seal;p;2;91,5\n80;10;running;x;;1;\n';
    const { taken } = take(text, {
      columns: { exit: 'km', entry: 'entry', event: 'failed', mode: 'mode', group: 'platform', count: 'n' },
      covariates: ['°C'],
    });
    expect(taken).toMatchObject({ good: 2, bad: 0 });
    expect(taken).toHaveProperty('lives', [
      { exit: 120.5, event: true, mode: 'seal', group: 'p', count: 2, covariates: { '°C': 91.5 } },
      { exit: 80, event: false, entry: 10, count: 1, covariates: { '°C': null } },
    ]);
  });

  it.each([
    ['1 and 0', ['1', '0'], [true, false]],
    ['1.0 and 0.0', ['1.0', '0.0'], [true, false]],
    ['true and false', ['TRUE', 'False'], [true, false]],
    ['T and F of some programs', ['T', 'F'], [true, false]],
    ['F and S: failed and suspended', ['F', 'S'], [true, false]],
    ['yes and no', ['Yes', 'no'], [true, false]],
    ['failed and running', ['failed', ' running '], [true, false]],
  ])('read %s', (_, [a, b], events) => {
    const { taken } = take(`km,event\n10,${a}\n20,${b}\n`);
    expect('lives' in taken && taken.lives.map(({ event }) => event)).toEqual(events);
  });

  it('turn the event round where 1 means that it ran on', () => {
    const { taken } = take('km,censored\n10,1\n20,0\n');
    expect('lives' in taken && taken.lives.map(({ event }) => event)).toEqual([false, true]);
  });

  it('or left out, counted, with line and reason', () => {
    const { taken } = take('km,slip\n1,2\n,3\n5,abc\n7,n/a\n9,1e999\n10,4\n');
    expect(taken).toMatchObject({ good: 2, bad: 4, x: [1, 10] });
    expect(taken.faults).toEqual([
      { line: 3, column: 'km', reason: 'is empty' },
      { line: 4, column: 'slip', reason: "is 'abc', which is no number" },
      { line: 5, column: 'slip', reason: "is 'n/a'" },
      { line: 6, column: 'slip', reason: "is '1e999', which is no number" },
    ]);
  });

  it.each([
    ['0,0,1', 'is 0, but must be above 0'],
    ['10,10,1', 'is 10, but must be 0 or more and below 10'],
    ['10,-1,1', 'is -1, but must be 0 or more and below 10'],
    ['10,0,perhaps', "is 'perhaps', which says neither failed nor running"],
    ['10,0,', 'is empty'],
  ])('no life: %s', (row, reason) => {
    const { taken } = take(`km,entry,event\n50,0,1\n60,0,0\n70,0,1\n80,0,1\n${row}\n`, {
      kind: 'lives',
      columns: { exit: 'km', entry: 'entry', event: 'event' },
    });
    expect([taken.good, taken.bad]).toEqual([4, 1]);
    expect(taken.faults).toEqual([expect.objectContaining({ line: 6, reason })]);
  });

  it('show 20 faults and count all', () => {
    const { taken } = take(`x,y\n1,2\n2,3\n${'1,a\n'.repeat(300)}`, {
      columns: { x: 'x', y: 'y' },
      kind: 'series',
    });
    expect([taken.bad, taken.faults.length]).toEqual([300, 20]);
  });
});
