import { expect, it } from 'vitest';
import { mappingName } from '#server/contract/mappings.ts';
import { proposeName } from './propose-name.ts';

it.each([
  ['Export_2026-02-03.csv', 'Export'],
  ['north depot 20260203.csv.gz', 'north depot'],
  ['03.02.2026_Fahrzeuge-West.TXT', 'Fahrzeuge-West'],
  ['telemetry_K-118_2026-02-03T06_00_10.csv', 'telemetry K-118'],
  ['2026-02-03.csv', 'export'],
  ['--- (1).csv', '1'],
  ['übersicht.csv', 'übersicht'],
  [`${'x'.repeat(90)}.csv`, 'x'.repeat(64)],
])('calls the mapping of %s %s', (file, name) => {
  expect(proposeName(file)).toBe(name);
  expect(mappingName.parse(proposeName(file))).toBe(name);
});
