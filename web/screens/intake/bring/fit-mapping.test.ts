import { describe, expect, it } from 'vitest';
import { type MappingInput, storedMapping } from '#server/contract/mappings.ts';
import { findFitting } from './fit-mapping.ts';

const keep = (name: string, mapping: MappingInput, day = '01') =>
  storedMapping.parse({ name, mapping, changed_at: `2026-01-${day}T00:00:00Z`, changed_by: 'somebody' });
const see = (...columns: string[]) => ({
  columns: columns.map((column) => ({ column, samples: [], guess: null, why: '' })),
  names: [],
});
const vehicle = { column: 'unit', takes: 'vehicle' } as const;
const slip = { column: 'slip', takes: 'slip_rpm' } as const;

describe('findFitting', () => {
  it('finds the mapping that takes most of what is there, and none that takes what is not', () => {
    const stored = [
      keep('small', { columns: [vehicle] }),
      keep('large', { columns: [vehicle, slip] }),
      keep('other', { columns: [vehicle, slip, { column: 'duty', takes: 'duty_pct' }] }),
      keep('nameless', { columns: [vehicle, slip], header: false }, '09'),
    ];
    expect(findFitting(stored, see('Unit', 'slip', 'note'))?.name).toBe('large');
    expect(findFitting(stored, see('slip'))).toBeNull();
  });

  it('takes the newer of two alike', () => {
    const stored = [keep('newer', { columns: [vehicle] }, '08'), keep('older', { columns: [vehicle] })];
    expect(findFitting(stored, see('unit'))?.name).toBe('newer');
  });

  it('wants one of the names of a long layout', () => {
    const stored = [
      keep('long', { layout: 'long', columns: [vehicle], names: [{ name: 'TCC slip', field: 'slip_rpm' }] }),
    ];
    const name = (one: string) => ({ name: one, values: 1, samples: [], guess: null });
    expect(findFitting(stored, { ...see('unit'), names: [name('TCC slip'), name('x')] })?.name).toBe('long');
    expect(findFitting(stored, { ...see('unit'), names: [name('x')] })).toBeNull();
  });
});
