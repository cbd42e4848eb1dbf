import { expect, it } from 'vitest';
import { joinNames, mergeChoice, parseWorkbenchSearch, splitNames } from './workbench-search.ts';

it('takes what is sound from an address', () => {
  expect(
    parseWorkbenchSearch({
      kind: 'lives',
      example: 'shock-absorbers',
      set: '12',
      exit: 'km, total',
      group: '',
      header: 'no',
      decimal: 'comma',
      turned: 'yes',
      confidence: '0.9',
      text: 'never',
    }),
  ).toEqual({
    kind: 'lives',
    example: 'shock-absorbers',
    set: 12,
    exit: 'km, total',
    group: '',
    header: 'no',
    decimal: 'comma',
    turned: 'yes',
    confidence: 0.9,
  });
  expect(
    parseWorkbenchSearch({
      kind: 'pie',
      example: '../x',
      set: '1.5',
      x: 'n'.repeat(201),
      header: '1',
      confidence: '0.95',
    }),
  ).toEqual({});
});

it('carries names with any letters', () => {
  const names = ['°C, mean', '100 %', 'a|b'];
  expect(splitNames(joinNames(names))).toEqual(names);
  expect(splitNames('%')).toEqual([]);
});

it('puts the address before the guess, as far as the table has such columns', () => {
  const guess = {
    kind: 'lives' as const,
    columns: { exit: 'km', event: 'status', group: 'platform' },
    covariates: ['°C'],
    header: true,
    decimal: 'point' as const,
    event_turned: false,
  };
  const columns = ['km', 'hours', 'status', 'platform', '°C'];
  expect(mergeChoice(guess, { exit: 'hours', mode: 'gone', group: '', turned: 'yes' }, columns)).toEqual({
    ...guess,
    columns: { exit: 'hours', event: 'status' },
    event_turned: true,
  });
  expect(mergeChoice(guess, { covariates: '' }, columns).covariates).toEqual([]);
});
