import fc from 'fast-check';
import { it } from 'vitest';
import { spellCode } from '#server/contract/spell-code.ts';
import { troubleCodeInput } from '#server/contract/trouble-codes.ts';
import { fuzz, hold, holdEqual } from './fuzz.ts';
import { hostileText } from './hostile-values.ts';

const part = fc.constantFrom(
  'P0741',
  'p07',
  'U3FFF',
  'SPN',
  'spn',
  'FMI',
  '573',
  '0',
  '524287',
  '524288',
  '31',
  '32',
  ' ',
  ':',
  '/',
  '-',
  '=',
  '#',
  '1A',
  '٣',
  'ſ',
  '\0',
);
const spelling = fc.oneof(
  fc.array(part, { maxLength: 7 }).map((parts) => parts.join('')),
  fc
    .tuple(
      fc.nat(600_000),
      fc.nat(40),
      fc.constantFrom('SPN %s FMI %f', '%s/%f', 'FMI:%f SPN:%s', 'spn=%s, fmi=%f'),
    )
    .map(([spn, fmi, pattern]) => pattern.replace('%s', String(spn)).replace('%f', String(fmi))),
  hostileText,
);

it('spells any text one way or not at all, and its own spelling the same again', async () => {
  await fuzz('code', spelling, (text) => {
    const spelled = spellCode(text);
    const parsed = troubleCodeInput.safeParse({ code: text, meaning: text, source: text });
    if (parsed.success)
      hold(
        !/[\p{Cc}\p{Cs}]/u.test(JSON.stringify(Object.values(parsed.data))),
        () => 'takes control characters',
      );
    if (spelled === null) return;
    hold(/^[A-Z0-9 -]{3,32}$/.test(spelled.code), () => `spells ${spelled.code}`);
    holdEqual(JSON.stringify(spellCode(spelled.code)), JSON.stringify(spelled));
    if (spelled.family !== null) holdEqual(spellCode(spelled.family)?.code ?? '', spelled.family);
  });
});
