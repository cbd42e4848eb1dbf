import { expect, it } from 'vitest';
import { readFilterText } from './read-filter-text.ts';

it('keeps every filter of the list, in one order, whatever the order it came in', () => {
  const text = readFilterText(
    'sort=drift&q=B-1%2F2&grade=hold,book&depot=Harrow Vale&platform=bus&lacks=platform&booking=none&changed=worse&horizon_km=8000',
  );
  expect(text).toBe(
    'depot=Harrow+Vale&platform=bus&lacks=platform&grade=hold%2Cbook&q=B-1%2F2&booking=none&changed=worse&horizon_km=8000&sort=drift',
  );
  expect(readFilterText(text)).toBe(text);
  expect(readFilterText('?grade=hold&q=')).toBe('grade=hold');
});

it.each([
  ['', 'is empty'],
  ['q=', 'is empty'],
  ['grade=hold&colour=red', "has 'colour', which is no filter of the list"],
  ['open=B-1', "has 'open'"],
  ['limit=5', "has 'limit'"],
  ['grade=hold&grade=book', "names 'grade' twice"],
  ['horizon_km=far', 'has a wrong horizon_km'],
  ['booking=maybe', 'has a wrong booking'],
  ['sort=colour', 'has a wrong sort'],
  ['q=%00', 'has a wrong q'],
  ['grade=red', "'red' is no grade"],
])('refuses %s', (text, words) => expect(() => readFilterText(text)).toThrow(words));
