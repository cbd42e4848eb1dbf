import fc from 'fast-check';

/** Text that programs trip over: control characters, halves of surrogate pairs, BOM, marks, other scripts, quotes. */
const hostileUnit = fc.oneof(
  fc.constantFrom('\0', '\u0001', '\u001f', '\u007f', '\u0085', '\u2028', '\ufeff', '\ufffd', '\uffff'),
  fc.constantFrom('\ud800', '\udfff', '\ude8c', '🚌', 'é', 'e\u0301', '\u200d', '\u202e', 'ſ', 'İ', '中'),
  fc.constantFrom("'", '"', '\\', '%', '_', ';', ',', '\n', '\r', '\t', ' ', '/', '..', '\\N', '$1', '{1}'),
  fc.constantFrom('a', 'B', '0', '-', '.'),
);

export const hostileText = fc.oneof(
  fc.string({ unit: hostileUnit, maxLength: 12 }),
  fc.string({ unit: 'binary', maxLength: 8 }),
  fc.string({ maxLength: 40 }),
  fc.constantFrom('', ' ', 'null', 'undefined', '__proto__', 'constructor', 'toString', 'NaN', '-1', '1e9'),
  fc.integer({ min: 30, max: 300 }).map((length) => 'x'.repeat(length)),
);

/** What stands where JSON has a number, right or wrong. */
export const numberToken = fc.oneof(
  { weight: 3, arbitrary: fc.double().map(String) },
  { weight: 3, arbitrary: fc.integer({ min: -10_000, max: 6_000_000 }).map(String) },
  {
    weight: 3,
    arbitrary: fc.constantFrom(
      '-0',
      '1e3',
      '1E+3',
      '5e-324',
      '1e-400',
      '1e400',
      '-1e400',
      '1.7976931348623157e308',
      '3.5e38',
      '00',
      '01',
      '+1',
      '.5',
      '5.',
      '1e',
      '-',
      '0x10',
      '1_000',
      '1,5',
      'NaN',
      '-Infinity',
      '٣',
      '9007199254740993',
      `1${'0'.repeat(400)}`,
      `0.${'0'.repeat(400)}1`,
    ),
  },
  fc.constantFrom('null', 'true', '"5"', '[]', '[1]', '{}', '""'),
);

const nested = fc
  .tuple(fc.constantFrom('[', '{"a":'), fc.constantFrom(10, 200, 5000))
  .map(([open, depth]) => `${open.repeat(depth)}1${(open === '[' ? ']' : '}').repeat(depth)}`);

/** The text of a JSON value of any kind, deep ones and halves of texts with them. */
export const jsonToken = fc.oneof(
  { weight: 4, arbitrary: numberToken },
  { weight: 4, arbitrary: hostileText.map((text) => JSON.stringify(text)) },
  { weight: 2, arbitrary: fc.json({ maxDepth: 3 }) },
  {
    weight: 1,
    arbitrary: fc.constantFrom('"\\ud800"', '"\\u0000"', '"\\x"', '"', "'a'", '"a\tb"', '[[', '}'),
  },
  { weight: 1, arbitrary: nested },
);

/** A value as JSON.parse brings it, for what is called within the process. */
export const hostileValue: fc.Arbitrary<unknown> = fc.oneof(
  hostileText,
  fc.double(),
  fc.integer(),
  fc.constantFrom(null, true, false, 0, -0, 1e308, -1e308, 5e-324, 2 ** 53, 2 ** 31, -(2 ** 31) - 1),
  fc.constantFrom([], {}, [null], [[]], { a: 1 }),
  fc.jsonValue({ maxDepth: 2 }),
);
