import { describe, expect, it } from 'vitest';
import { kindsFor, newRuleDraft, toRule } from './rule-draft.ts';

describe('rules for a field', () => {
  it('leave out only what no reading needs, and convert only what has a unit', () => {
    expect(kindsFor('fluid_f')).toEqual(['leave_out', 'take_value', 'unit', 'reckon']);
    expect(kindsFor('duty_pct')).toEqual(['take_value', 'unit', 'reckon']);
    expect(kindsFor('codes')).toEqual(['leave_out', 'take_value']);
    expect(kindsFor('at')).toEqual(['zone', 'take_value']);
    expect(kindsFor('')).toEqual(['take_value', 'zone', 'replace']);
  });
});

describe('the form of a rule', () => {
  const draft = newRuleDraft('fluid_c');

  it('becomes the rule of its kind and nothing beside', () => {
    expect(toRule({ ...draft, kind: 'unit' }).rule).toEqual({ kind: 'unit', field: 'fluid_c', unit: 'degF' });
    expect(toRule({ ...draft, kind: 'take_value', value: '84,5' }).rule).toEqual({
      kind: 'take_value',
      field: 'fluid_c',
      value: 84.5,
    });
    expect(toRule({ ...draft, kind: 'reckon', times: '0,1', plus: '-40' }).rule).toEqual({
      kind: 'reckon',
      field: 'fluid_c',
      times: 0.1,
      plus: -40,
    });
    expect(toRule({ ...draft, kind: 'replace', find: 'bus ', with: '' }).rule).toEqual({
      kind: 'replace',
      find: 'bus ',
      with: '',
    });
  });

  it('says what is missing', () => {
    expect(toRule({ ...draft, kind: 'replace' }).error).toMatch(/^find /);
    expect(toRule({ ...draft, kind: 'reckon', times: '' }).error).toMatch(/^times /);
  });
});
