import { expect, it } from 'vitest';
import { findingInput } from '#server/contract/test-steps.ts';
import { testSteps } from '#server/contract/words.ts';
import { readStep, takeSuggestion } from './read-step.ts';
import { stepFields } from './step-fields.ts';

it('reads each step into what the contract takes', () => {
  for (const step of testSteps) {
    const filled = Object.fromEntries(
      stepFields[step].map((field) => [
        field.name,
        field.kind === 'choice' ? (field.options[0]?.value ?? '') : field.kind === 'figure' ? '12,5' : 'yes',
      ]),
    );
    const { input } = readStep(step, { ...filled, notes: ' one\ntwo ' });
    expect(findingInput.parse(input)).toMatchObject({ step, notes: 'one\ntwo' });
  }
});

it('offers every choice that the contract knows, and no other', () => {
  for (const step of testSteps)
    for (const field of stepFields[step]) {
      if (field.kind !== 'choice') continue;
      const known = findingInput.options.find((one) => one.shape.step.value === step)?.shape;
      let schema: unknown = known === undefined ? undefined : Reflect.get(known, field.name);
      while (typeof schema === 'object' && schema !== null && 'unwrap' in schema)
        schema = (schema as { unwrap: () => unknown }).unwrap();
      const options = (schema as { options: string[] }).options;
      expect(field.options.map(({ value }) => value).sort()).toEqual([...options].sort());
    }
});

it('says what is missing, by field', () => {
  expect(readStep('solenoid_current', { on_a: 'much' }).faults).toEqual({
    off_a: 'A figure is needed.',
    on_a: 'This is no number: write it as 1200 or 2.5.',
  });
  expect(readStep('pan', {}).faults).toEqual({ debris: 'Choose one.' });
});

it('leaves what may stay empty away', () => {
  const { input } = readStep('solenoid_current', { off_a: '0', on_a: '0,85' });
  expect(input).toEqual({ step: 'solenoid_current', off_a: 0, on_a: 0.85, click: 'not_listened', notes: '' });
});

it('writes a suggestion into the fields', () => {
  expect(takeSuggestion({ on_a: '850', notes: 'n' }, { on_a: 0.85, falls: false })).toEqual({
    on_a: '0.85',
    falls: '',
    notes: 'n',
  });
});
