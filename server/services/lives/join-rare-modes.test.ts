import { expect, it } from 'vitest';
import { joinRareModes, OTHER_MODES } from './join-rare-modes.ts';
import type { FleetLife } from './observe-lives.ts';

const failed = (mode: string): FleetLife => ({
  vehicle: 1,
  unit: 'B-1',
  platform: null,
  depot: null,
  life: 1,
  source: 'original',
  supplier: null,
  entry: 0,
  exit: 1,
  event: true,
  count: 1,
  mode,
});
const modes = ['a', 'b', 'b', 'c', 'd', 'd'].map(failed);

it('joins the rarest modes where there are too many, room for failures without one left', () => {
  expect(joinRareModes(modes, 4).map(({ mode }) => mode)).toEqual([
    OTHER_MODES,
    'b',
    'b',
    OTHER_MODES,
    'd',
    'd',
  ]);
});

it('leaves all as they are where there are few', () => {
  expect(joinRareModes(modes, 5)).toBe(modes);
});
