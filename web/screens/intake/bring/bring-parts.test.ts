import { describe, expect, it } from 'vitest';
import { mapping } from '#server/contract/mappings.ts';
import { makeCanLook, makeWideLook } from '#tests/browser/fixtures/bring-fixture.ts';
import { readDraft, writeDraft } from './bring-draft.ts';
import { listNeeds } from './list-needs.ts';
import { doubtsAt, doubtsOf, doubtsOfLog, lacksAt, placeLack } from './place-lack.ts';
import { sayReply, saySent } from './say-fate.ts';
import { listShownFields } from './shown-fields.ts';
import { sayFields } from './take-words.ts';

describe('where remarks stand', () => {
  it.each([
    ['vehicle', 'vehicle'],
    ['time.date', 'time'],
    ['zone', 'time'],
    ['start', 'time'],
    ['separator', 'form'],
    ['columns', 'columns'],
    ['slip_rpm', 'columns'],
    ['names', 'names'],
    ["names 'TCC slip'", 'names'],
  ])('mends %s at %s', (field, place) => {
    expect(placeLack({ field })).toBe(place);
  });

  it('puts each doubt and lack beside one part', () => {
    const look = makeWideLook(undefined);
    expect(lacksAt(look, 'time').map(({ field }) => field)).toEqual(['zone']);
    expect(doubtsAt(look, 'time')).toHaveLength(1);
    expect(doubtsAt(look, 'columns')).toEqual([]);
    expect(doubtsOf(look, 'Öltemperatur [°F]')).toHaveLength(1);
  });
});

it('does not repeat a warning that stands beside its VIN', () => {
  expect(doubtsOfLog(makeCanLook(undefined))).toEqual([
    'No vehicle has the VIN WVB63ZCU5T4110723 yet: a new one is made.',
  ]);
});

describe('listNeeds', () => {
  const look = { format: 'csv', can: null, own_form: false, lacks: [] } as const;
  const none = [{ vehicle: '', date: '' }];
  it('asks for what the file and its name do not tell', () => {
    expect(listNeeds({ ...look, lacks: [] }, mapping.parse({ columns: [] }), none)).toEqual({
      vehicle: false,
      date: false,
      start: false,
    });
    const bare = mapping.parse({ columns: [], vehicle: 'file_name', time: { date: 'given' } });
    expect(listNeeds({ ...look, lacks: [] }, bare, none)).toMatchObject({ vehicle: false, date: true });
    const lacking = { ...look, lacks: [{ field: 'vehicle', message: 'must be given' }] };
    expect(listNeeds(lacking, bare, none).vehicle).toBe(true);
    expect(listNeeds({ ...look, lacks: [] }, bare, [{ vehicle: 'K-1', date: '' }]).vehicle).toBe(true);
    const fromStart = mapping.parse({ columns: [], time: { form: 'seconds', date: 'given' } });
    expect(listNeeds({ ...look, lacks: [] }, fromStart, none)).toMatchObject({ date: false, start: true });
  });
});

it('keeps a draft, and takes nothing else for one', () => {
  const draft = { mapping: mapping.parse({ columns: [] }), base: 'west' };
  expect(readDraft(writeDraft(draft))).toEqual(draft);
  for (const text of [null, '{', '[]', '{"mapping":{},"base":null}', '{"mapping":null,"base":null}'])
    expect(readDraft(text)).toBeNull();
});

it('shows figures of a column with the same decimals, and no column that is empty', () => {
  const readings = makeWideLook(mapping.parse({ columns: [], time: { zone: 'UTC' } })).rows.flatMap(
    ({ reading }) => reading ?? [],
  );
  const fields = listShownFields(readings);
  expect(fields.map(({ field }) => field)).toEqual([
    'odometer_km',
    'slip_rpm',
    'duty_pct',
    'fluid_c',
    'codes',
  ]);
  expect(fields.slice(0, 3).map(({ show }) => (readings[1] ? show(readings[1]) : ''))).toEqual([
    '184,212.0',
    '10.5',
    '85',
  ]);
});

it('says what came of a delivery, and how much of it has left', () => {
  const reply = { receipt: 'r', received: 9, refusals: [], unknown_fields: [] };
  expect(sayReply({ ...reply, stored: 1, duplicate: 0, conflicting: 0, refused: 0 })).toBe(
    '1 reading stored.',
  );
  expect(sayReply({ ...reply, stored: 1404, duplicate: 3, conflicting: 1, refused: 2 })).toBe(
    '1,404 readings stored; 3 there already, of them 1 with another content; the first stays; 2 lines refused and kept.',
  );
  expect(saySent(50, 200).replace('\u00a0', ' ')).toBe('25 % sent');
  expect(saySent(200, 200)).toBe('sent; being read and stored');
});

it('says fields in words, and leaves names of the file as they are', () => {
  expect(sayFields('have none for slip_rpm, nor for both engine_rpm and turbine_rpm')).toBe(
    'have none for slip, nor for both engine speed and turbine speed',
  );
  expect(sayFields("'odometer_km' cannot be in rpm; see fuel_rate")).toBe(
    "'odometer_km' cannot be in rpm; see fuel_rate",
  );
});
