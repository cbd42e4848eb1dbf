import { describe, expect, it } from 'vitest';
import type { z } from 'zod';
import { depotInput, lifeInput, platformInput, vehicleInput } from '#server/contract/fleet.ts';
import { failureInput } from '#server/contract/set-up-files/failure-input.ts';
import { setUpFiles } from '#server/contract/set-up-files/set-up-files.ts';
import { readInputs } from './read-inputs.ts';
import { writeTemplate } from './write-template.ts';

const schemas: Record<string, z.ZodObject> = {
  depots: depotInput,
  platforms: platformInput,
  vehicles: vehicleInput,
  lives: lifeInput,
  failures: failureInput,
};
/** Lists in a cell would be a language of their own; the screens have them. */
const NOT_IN_FILES = ['special_days', 'unavailable'];

describe.each(setUpFiles)('the columns of $kind', (file) => {
  it('are the fields of the call with JSON, all but those that a cell cannot hold', () => {
    const fields = new Set(file.columns.map(({ path }) => path[0]));
    const known = Object.keys(schemas[file.kind]?.shape ?? {});
    expect([...fields].sort()).toEqual(known.filter((field) => !NOT_IN_FILES.includes(field)).sort());
  });

  it('have names of their own, and the first is needed', () => {
    const names = file.columns.flatMap(({ name, also }) => (also === undefined ? [name] : [name, also.name]));
    expect(new Set(names).size).toBe(names.length);
    expect(file.columns[0]?.needed).toBe(true);
  });

  it('have a template of which every cell is read and every part of a group is known', () => {
    const { inputs, faults, lines } = readInputs(file, Buffer.from(writeTemplate(file)));
    expect([lines, faults]).toEqual([1, []]);
    const read = schemas[file.kind]?.safeParse(inputs[0]?.input);
    expect(read?.error?.issues ?? []).toEqual([]);
    expect(read?.data).toMatchObject(inputs[0]?.input ?? {});
  });
});
