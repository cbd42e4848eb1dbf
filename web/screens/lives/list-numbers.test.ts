import { expect, it } from 'vitest';
import { makeLives, makeLivesReply } from '#tests/browser/fixtures/lives-fixture.ts';
import { mileageAxis } from '#web/charts/use-axis.ts';
import { metricUnits } from '#web/format/units.ts';
import { writeCsv } from '#web/format/write-csv.ts';
import { listGroupNumbers } from './list-group-numbers.ts';
import { listModeNumbers } from './list-table-numbers.ts';

const inMiles = mileageAxis({ ...metricUnits, distance: 'mi' });
const { groups } = makeLivesReply(makeLives(), 'supplier');
const [group] = groups;

it('says in the file what each mileage is measured in, and gives it so', () => {
  const [header = '', first = ''] = writeCsv(listGroupNumbers(groups, inMiles)).split('\r\n');
  const titles: string[] = header.match(/"[^"]*"|[^,]+/g) ?? [];
  const at = titles.indexOf('"Weibull B10, mi"');
  expect(
    titles.filter((title) => /watched|median|B[15]0/.test(title)).every((title) => /, mi"$/.test(title)),
  ).toBe(true);
  expect(Number(first.split(',')[at])).toBeCloseTo(group!.weibull!.b10.estimate / 1.609344, 2);
  const modes = writeCsv(listModeNumbers(group!, inMiles)).split('\r\n')[0];
  expect(modes).toBe('group,mode,failed,"B10, mi","B10 low, mi","B10 high, mi",shape,shape low,shape high');
});
