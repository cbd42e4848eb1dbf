import { expect, it } from 'vitest';
import { decodeText } from './decode-text.ts';

const bytes = (...all: number[]) => new Uint8Array(all).buffer;

it.each([
  ['UTF-8', bytes(0xc2, 0xb0, 0x43), '°C'],
  ['UTF-16 of some spreadsheets', bytes(0xff, 0xfe, 0xb0, 0x00, 0x43, 0x00), '°C'],
  ['UTF-16, the other way round', bytes(0xfe, 0xff, 0x00, 0xb0, 0x00, 0x43), '°C'],
  ['the code page of older spreadsheets', bytes(0xb0, 0x43), '°C'],
  ['nothing', bytes(), ''],
])('reads %s', (_, given, text) => expect(decodeText(given)).toBe(text));

it('says what a packed file is', () =>
  expect(() => decodeText(bytes(0x50, 0x4b, 3, 4))).toThrow('Save the sheet as CSV'));
